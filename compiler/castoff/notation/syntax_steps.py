"""Steps: the sentences of an instruction line, as nodes.

In: nothing. Out: frozen node types and their union `Step`, given on by `syntax.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from castoff.notation.syntax_acts import (
    Action,
    BindOffAct,
    CastOnAct,
    EndShaping,
    Evenly,
    MarkerAct,
    MarkStitch,
    Times,
    WorkFabric,
)
from castoff.notation.syntax_edges import (
    BindOff,
    CastOn,
    DrawThrough,
    FastenOff,
    Graft,
    Hold,
    JoinShoulders,
    PickUpRow,
    Release,
    Resume,
    Seam,
)
from castoff.notation.syntax_parts import (
    Count,
    Extent,
    Fabric,
    Form,
    Label,
    Landmark,
    Length,
    RowRef,
    Side,
    Stated,
    place,
)
from castoff.span import Span

# ------------------------------------------------------------------------------------------------ steps


@dataclass(frozen=True, slots=True)
class RowStep:
    """One row or round, or several alike: the label's rows are all worked so."""

    label: Label | None
    work: tuple[Action, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class RowsAs:
    """Rows worked like others: "Row 5: As row 1", "Rows 5–8: Rep rows 1–4", "Rnd 2 and all even rnds: Knit" is a RowStep.

    times: "Rows 5–8: Rep rows 3 and 4 twice".
    """

    label: Label
    rows: RowRef
    times: Times | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Growing:
    """A repeat within rows that comes so many times more each time: "working one more rep of the diamond in each half".

    each: in each half, or each side; else once in the row. what: the author's word for it, lower case.
    """

    reps: Count
    each: bool = False
    what: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class RepeatRows:
    """Rows worked again.

    times: Times of kind "all", "more" or "ambiguous"; None when `extent` says how far.
    every: "rep dec row every 4th row": the step between; the rows between are worked in the fabric as it stands.
    every_side: the step counts rows of that side alone: "every RS row" (every is None), "every other RS row" (2).
    then: further rates: "…, then every 6th row 3 times" as (every, times), in rows of both sides.
    start: "beginning with a RS row": the side of the first row.
    growing: the repeat within them that comes more often each time.
    """

    rows: RowRef
    times: Times | None = None
    extent: Extent | None = None
    every: Count | None = None
    every_side: Side | None = None
    then: tuple[tuple[Count, Times], ...] = ()
    start: str | None = None
    growing: Growing | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class WorkRows:
    """Rows in a fabric: "Knit 5 rnds", "Work in St st until …", "Work even for 4 rows", "Knit every rnd until …".

    over: "on these 28 sts": how many stitches the rows have, when the line says so; which of them, as in `JoinRound`.
    part: what the rows are for ("for left shoulder"), lower case.
    """

    fabric: Fabric
    extent: Extent
    over: Count | None = None
    which: Literal["these", "first", "last"] = "these"
    part: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class RepeatSections:
    """Sections worked again in their order: "Repeat Wedges A and B 9 times more"; `sections` by their titles."""

    sections: tuple[str, ...]
    times: Times
    span: Span = place()


@dataclass(frozen=True, slots=True)
class SetFabric:
    """The fabric from here on, without saying how far: "Change to larger needles and St st", "Cont in patt"."""

    fabric: Fabric
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Rate:
    """One rate of shaping: on `first` ("next", "this", "3rd") and every `every`th row, so many times.

    every: 1 for every row, 2 for "alt row"; with every_side it counts rows of that side alone ("every other RS row": 2).
    times: None together with an `until` in ShapeRows. then: False when the line does not say that it comes behind the
      one before it ("every 4th row 3 times, every 2nd row twice").
    """

    every: Count
    times: Times | None
    first: Literal["next", "this", "following", "unsaid"] | int = "unsaid"
    unit: Literal["row", "rnd"] = "row"
    every_side: Side | None = None
    then: bool = True
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ShapeRows:
    """Shaping told by rate: "Dec 1 st at each end of next and every foll 6th row 5 times, then every 4th row twice".

    act: what happens on each shaping row. until: "until 60 sts rem". fabric: worked in between; None: as it stands.
    new: what the stitches that come in at each end are worked in ("working new sts in St st"); None: as it stands.
    """

    act: EndShaping | BindOffAct | CastOnAct
    rates: tuple[Rate, ...]
    until: Extent | None = None
    fabric: Fabric | None = None
    new: Fabric | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class BothSides:
    """ "Work both sides at the same time with separate balls of yarn": what follows is told for each of them."""

    span: Span = place()


@dataclass(frozen=True, slots=True)
class BindOffAtEdges:
    """Binding off at the neck edge of both sides: "at each neck edge, bind off 3 sts once, then 2 sts twice".

    groups: (stitches, times) in order; each time is a row that begins at the neck.
    """

    groups: tuple[tuple[Count, Count], ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Leg:
    """A stretch of shaping that goes on, at one rate: on every `every`th row or rnd, as far as `until` or so many `times`.

    every: None when nothing is said: as far apart as before. every_side: as in `Rate`. unit: as it is worded.
    """

    every: Count | None
    every_side: Side | None = None
    unit: Literal["row", "rnd"] | None = None
    times: Times | None = None
    until: Extent | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class GoOnShaping:
    """Shaping that goes on as in the rows before, its plain stitches fewer (or more) each time: crowns, yokes, mitres.

    rows: rows that are worked again ("rep rnds 3 and 4, working …"); None for "in this way".
    change: stitches that each shaping row takes or gives, when told. decrease: which of them; None when not told.
    fewer: plain stitches by which each shaping row differs from the one before, when told; `more` of them. where: between
      what, as worded ("between decs"), lower case. instead: "k7 instead of k8" as (7, 8).
    """

    rows: RowRef | None
    change: Count | None
    decrease: bool | None
    fewer: Count | None
    more: bool
    where: str
    instead: tuple[Count, Count] | None
    legs: tuple[Leg, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class AtBeginning:
    """ "Bind off 5 sts at beg of next 2 rows", "cast on 4 sts at end of next 2 rows"; the rest in pattern.

    rest: of the row, when the line tells it ("…, k to end"). side: of the row, when it is told ("at beg of next RS row").
    """

    act: BindOffAct | CastOnAct | EndShaping
    rows: Count
    at_end: bool = False
    fabric: Fabric | None = None
    rest: tuple[Action, ...] = ()
    side: Side | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class JoinRound:
    """Join to work in the round; or go back to working flat (`form` "flat").

    over: "the heel is worked back and forth over the first 20 sts": only so many; what: "heel", lower case.
    which: which of the stitches those are: "these" when they are all that are on the needle, "first", "last", "next", or a
      needle of a set ("needle 2").
    """

    form: Form = "round"
    over: Count | None = None
    what: str = ""
    which: str = "these"
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Arrange:
    """Stitches laid out on needles without working them: "slip the first 32 sts on to one needle and the rem 32 on to
    another", "distribute evenly over 3 needles".

    groups: (count, whose stitches or which needle) in order; empty when evenly; a single one for "each needle" when nothing
      says how many needles there are. needles: over how many.
    told: the line only tells how they lie ("24 sts: 12 sts each on N1 and N2").
    """

    groups: tuple[tuple[Count | None, str], ...] = ()
    needles: Count | None = None
    told: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ShiftStitches:
    """Stitches slipped from one needle of a set to the one beside it: "slip last 2 sts of N1 onto N2"."""

    count: Count
    source: str
    to: str
    span: Span = place()


@dataclass(frozen=True, slots=True)
class RoundStart:
    """Where rounds begin from now on: "Rnd now begins at center of heel" (the author's words, lower case).

    between: the needles of a set that it lies between ("between N3 and N1").
    """

    where: str
    between: tuple[str, str] | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class RowsForm:
    """Rows given a name: "These 2 rows form the rib", "This row forms moss st"."""

    rows: RowRef
    fabric: Fabric
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ChangeYarn:
    """act: "join", "break", "keep" (do not break), "change", "use", "carry"; yarns by their keys, empty for "yarn".

    tail: the length left hanging when it is told. note: "at neck edge", "a long tail for sewing": the author's words.
    """

    act: Literal["join", "break", "keep", "change", "use", "carry", "drop"]
    yarns: tuple[str, ...]
    tail: Length | None = None
    note: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ChangeNeedles:
    """needles: key of the source ("larger") or the author's words ("dpns", "4 mm needles")."""

    needles: str
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Place:
    """Markers between rows or stitches outside a row: "Place marker", "Place a marker at each end of this row"."""

    act: MarkerAct
    where: str = ""
    count: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Finish:
    """Making up that touches no live stitch: weave in ends, block, steam, sew on buttons. Words kept, lower case."""

    act: str
    words: str
    span: Span = place()


@dataclass(frozen=True, slots=True)
class WorkAs:
    """Work a piece or part as another: "Work as for Back to **", "Make a second mitt the same".

    to: "" whole; a mark ("**"), a named row ("thumb placement rnd") or words ("armhole shaping"); start: likewise.
    reversed: "reversing shaping" (refused by a rule). extent: "… until armhole measures".
    rest: "complete as for Back": what is left of it, from where the two part. part: what is completed ("toe"), lower case.
    """

    of: str
    to: str = ""
    start: str = ""
    reversed: bool = False
    extent: Extent | None = None
    rest: bool = False
    part: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Mark:
    """A place in the text that other lines speak of: `**`."""

    mark: str
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Total:
    """A stated total, standing where it was printed: after a row, or as a sentence."""

    stated: tuple[Stated, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToldRows:
    """A number of rows the author prints: "18 rows worked", "there are 120 rows above the rib", "4 garter ridges".

    unit: a garter "ridge" is two rows. kind: "160 lace rows", "4 garter ridges": the word before, lower case.

    where: the author's words for where they are counted ("above the rib"), lower case; "" when nothing is said.
    """

    rows: Count
    unit: Literal["row", "rnd", "ridge"] = "row"
    where: str = ""
    kind: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToldRepeat:
    """What the author says of a chart's repeat: "chart A rows rep every 4 rows", "working the 8-st rep twice".

    chart: its name; "" for the one in work. rows: of its repeat. stitches: of its repeat. times: how often in a row.
    """

    chart: str = ""
    rows: Count | None = None
    stitches: Count | None = None
    times: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToldLength:
    """A length the author prints: "rib measures 6 cm / 2¼ in", "piece now measures 30 cm from cast-on edge".

    what: "" for the rows of the line itself, "Work 64 rows (23 cm)".
    """

    length: Length
    what: str = "piece"
    origin: Landmark | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Meanwhile:
    """ "AT THE SAME TIME": `steps` run beside what follows or precedes, from `trigger` on.

    trigger: an extent ("when armhole measures 4 cm", "after 3 armhole decs") or None for at once.
    """

    steps: tuple[Step, ...]
    trigger: Extent | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class OnLastRow:
    """What is done in the last of the rows told before it: "…, inc 8 sts evenly across last row".

    act: the change, or how far a last round is worked ("ending last rnd 5 sts before marker").
    """

    act: Evenly | EndShaping | WorkFabric
    span: Span = place()


@dataclass(frozen=True, slots=True)
class OnTrust:
    """Work that cannot be knitted here ("On trust: …"), with the count it leaves; None: leaves the needle as it is."""

    words: str
    leaves: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class TurnWork:
    """ "Turn", as a step of its own; "With WS facing", "With RS facing" (`facing`)."""

    facing: Side | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Stripes:
    """A colour order that runs through the rows that follow: "work in stripes of 4 rows A, 4 rows B"."""

    bands: tuple[tuple[Count, str], ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Opening:
    """The state an excerpt or section starts from ("You have 84 sts, RS facing; 28 sts on a holder")."""

    stitches: Count | None
    side: Side | None = None
    held: tuple[tuple[Count, str], ...] = ()
    parts: tuple[Stated, ...] = ()
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Note:
    """A remark that stands as a sentence of its own; one of the listed set phrases."""

    words: str
    span: Span = place()


Step: TypeAlias = (
    RowStep
    | RowsAs
    | RepeatRows
    | RepeatSections
    | WorkRows
    | SetFabric
    | ShapeRows
    | GoOnShaping
    | BothSides
    | BindOffAtEdges
    | AtBeginning
    | CastOn
    | Release
    | JoinRound
    | Arrange
    | ShiftStitches
    | RoundStart
    | RowsForm
    | ChangeYarn
    | ChangeNeedles
    | BindOff
    | JoinShoulders
    | DrawThrough
    | FastenOff
    | Hold
    | Resume
    | PickUpRow
    | Place
    | MarkStitch
    | Seam
    | Graft
    | Finish
    | WorkAs
    | Mark
    | Total
    | ToldRows
    | ToldRepeat
    | ToldLength
    | Meanwhile
    | OnLastRow
    | OnTrust
    | TurnWork
    | Stripes
    | Opening
    | Note
)
