"""The syntax tree of instruction lines: what a knitter is told to do, before anybody knits it.

In: nothing. Out: frozen node types, made by the parser and read by the needle and by the document.

Numbers in the tree are already evaluated, one per size (`Count`, `Length`), so that the needle needs no formulas.
Every node has a `span`; spans play no part in comparison, so two trees are equal when they say the same thing.
Words that change nothing on the needle ("being careful not to twist") are kept as `Remark`, never dropped.

What nodes are made of stands in `syntax_parts.py`, what is done within a row in `syntax_acts.py`, sentences in
`syntax_steps.py` and, where stitches begin, wait and end, in `syntax_edges.py`; everybody imports them from here.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from castoff.notation.syntax_acts import (
    Action,
    BindOffAct,
    Cable,
    CastOnAct,
    Drop,
    EndShaping,
    Evenly,
    FromNeedle,
    HoldAct,
    IntoOne,
    Join,
    MarkerAct,
    MarkStitch,
    OnNeedle,
    OpeningAct,
    PickUp,
    PickUpWrap,
    Remark,
    Repeat,
    SlipHeld,
    Stitch,
    StitchTo,
    Times,
    Turn,
    UseYarn,
    WorkFabric,
    WorkHeld,
)
from castoff.notation.syntax_edges import (
    BindOff,
    CastOn,
    DrawThrough,
    FastenOff,
    Graft,
    Hold,
    JoinShoulders,
    OffAct,
    PickUpRow,
    Release,
    Resume,
    Seam,
    WorkedOff,
)
from castoff.notation.syntax_parts import (
    Border,
    Count,
    Extent,
    Fabric,
    ForLength,
    Form,
    ForRows,
    Label,
    Landmark,
    Length,
    RowRef,
    Side,
    Stated,
    Target,
    ToCentre,
    ToDivision,
    ToEnd,
    ToLast,
    ToMarker,
    ToStitch,
    ToTurn,
    ToWorked,
    Until,
    UntilLength,
    UntilMatch,
    UntilRow,
    UntilStitches,
    UntilTimes,
    UntilWorked,
    place,
)
from castoff.notation.syntax_steps import (
    Arrange,
    AtBeginning,
    BindOffAtEdges,
    BothSides,
    ChangeNeedles,
    ChangeYarn,
    Finish,
    GoOnShaping,
    Growing,
    JoinRound,
    Leg,
    Mark,
    Meanwhile,
    Note,
    OnLastRow,
    OnTrust,
    Opening,
    Place,
    Rate,
    RepeatRows,
    RepeatSections,
    RoundStart,
    RowsAs,
    RowsForm,
    RowStep,
    SetFabric,
    ShapeRows,
    ShiftStitches,
    Step,
    Stripes,
    ToldLength,
    ToldRepeat,
    ToldRows,
    Total,
    TurnWork,
    WorkAs,
    WorkRows,
)
from castoff.span import Span, Text

__all__ = [
    "Action",
    "Arrange",
    "AtBeginning",
    "BindOff",
    "BindOffAct",
    "BindOffAtEdges",
    "Border",
    "BothSides",
    "Cable",
    "CastOn",
    "CastOnAct",
    "ChangeNeedles",
    "ChangeYarn",
    "Count",
    "DrawThrough",
    "Drop",
    "EndShaping",
    "Evenly",
    "Extent",
    "Fabric",
    "FastenOff",
    "Finish",
    "ForLength",
    "ForRows",
    "Form",
    "FromNeedle",
    "GoOnShaping",
    "Graft",
    "Growing",
    "Hold",
    "HoldAct",
    "InstructionLine",
    "IntoOne",
    "Join",
    "JoinRound",
    "JoinShoulders",
    "Label",
    "Landmark",
    "Leg",
    "Length",
    "Line",
    "Mark",
    "MarkStitch",
    "MarkerAct",
    "Meanwhile",
    "Note",
    "OffAct",
    "OnLastRow",
    "OnNeedle",
    "OnTrust",
    "Opening",
    "OpeningAct",
    "PickUp",
    "PickUpRow",
    "PickUpWrap",
    "Place",
    "ProseLine",
    "Rate",
    "Release",
    "Remark",
    "Repeat",
    "RepeatRows",
    "RepeatSections",
    "Resume",
    "RoundStart",
    "RowRef",
    "RowStep",
    "RowsAs",
    "RowsForm",
    "Seam",
    "SetFabric",
    "ShapeRows",
    "ShiftStitches",
    "Side",
    "SizesLine",
    "SlipHeld",
    "Stated",
    "Step",
    "Stitch",
    "StitchTo",
    "Stripes",
    "Target",
    "Times",
    "ToCentre",
    "ToDivision",
    "ToEnd",
    "ToLast",
    "ToMarker",
    "ToStitch",
    "ToTurn",
    "ToWorked",
    "Token",
    "ToldLength",
    "ToldRepeat",
    "ToldRows",
    "Total",
    "Turn",
    "TurnWork",
    "UnreadLine",
    "Until",
    "UntilLength",
    "UntilMatch",
    "UntilRow",
    "UntilStitches",
    "UntilTimes",
    "UntilWorked",
    "UseYarn",
    "WorkAs",
    "WorkFabric",
    "WorkHeld",
    "WorkRows",
    "WorkedOff",
]


# ------------------------------------------------------------------------------------------------ lines


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the line as printed; the document sets lines from tokens, so nothing typed is lost.

    kind: "word", "number" (`count` set), "length" (`length` set), "stitch" (`stitch` set to its canonical name),
      "mark" (punctuation, brackets, stars), "space".
    """

    kind: Literal["word", "number", "length", "stitch", "mark", "space"]
    text: str
    count: Count | None = None
    length: Length | None = None
    stitch: str | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class InstructionLine:
    """One instruction line.

    sizes: which sizes it is for, one flag per size ("Sizes S and M only:" clears the others).
    steps: what it says, in order. tokens: how it was said. continued lines are joined before parsing.
    """

    sizes: tuple[bool, ...]
    steps: tuple[Step, ...]
    tokens: tuple[Token, ...] = field(compare=False)
    text: Text = field(compare=False)
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ProseLine:
    """A line for the reader alone (it starts with `>`); Markdown."""

    sizes: tuple[bool, ...]
    text: Text
    span: Span = place()


@dataclass(frozen=True, slots=True)
class SizesLine:
    """A line that only says for which sizes the next ones are ("Sizes S and M only:", "All sizes:")."""

    sizes: tuple[bool, ...]
    text: Text = field(compare=False)
    span: Span = place()


@dataclass(frozen=True, slots=True)
class UnreadLine:
    """A line that could not be read; its findings say why. Kept so that the needle knows that something is missing."""

    sizes: tuple[bool, ...]
    text: Text
    span: Span = place()


Line: TypeAlias = InstructionLine | ProseLine | SizesLine | UnreadLine
