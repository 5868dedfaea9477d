"""The knitted fabric: what each row did, folded, and what each piece has come to.

In: nothing. Out: frozen results. `knit.py` makes them; checks, document and yarn estimate read them.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from castoff.knitting.loops import Group
from castoff.notation.syntax import Form, Side
from castoff.span import Span


@dataclass(frozen=True, slots=True)
class Done:
    """The same stitch worked `count` times running. yarn: its key, "" for the only one."""

    stitch: str
    count: int
    yarn: str = ""


@dataclass(frozen=True, slots=True)
class DoneRepeat:
    """Stitches worked `times` times over."""

    body: tuple[Worked, ...]
    times: int


Worked: TypeAlias = Done | DoneRepeat

EventKind = Literal[
    "cast on",
    "bind off",
    "hold",
    "resume",
    "pick up",
    "join yarn",
    "break yarn",
    "place marker",
    "remove marker",
    "cable needle",
    "turn",
    "seam",
    "graft",
    "fasten off",
    "on trust",
    "finish",
    "change needles",
    "join round",
    "fabric",
    "short row",
    "increase",
    "decrease",
    "length told",
]


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened. count: stitches concerned. name: holder, marker, yarn, edge or manner, as the kind asks."""

    kind: EventKind
    count: int = 0
    name: str = ""
    row: int = 0
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class RowRecord:
    """A row, or several equal ones.

    label: as a knitter would call it. row: number in the piece of the first. rows: how many it stands for; step: from
    one to the next of them (2: every other row). short: some stitches were left unworked, so it adds no length.
    form, side, before, after: as worked; width is `after` at the gauge. height_mm: of one row.
    length_mm: of the piece when the last of them is worked. worked: the stitches, folded.
    tally: (yarn, stitch) to how many in one row. part: 0 for the first, 1 for stitches taken back later, and so on.
    """

    label: str
    row: int
    side: Side
    form: Form
    before: int
    after: int
    rows: int = 1
    step: int = 1
    yarns: tuple[str, ...] = ()
    gauge: str | None = None
    needles: str | None = None
    changes: tuple[Event, ...] = ()
    length_mm: Fraction = Fraction(0)
    height_mm: Fraction = Fraction(0)
    short: bool = False
    faces: str = field(default="", repr=False)
    worked: tuple[Worked, ...] = field(default=(), repr=False)
    tally: tuple[tuple[tuple[str, str], int], ...] = field(default=(), repr=False)
    span: Span | None = field(default=None, compare=False, repr=False)
    part: int = 0

    @property
    def last_row(self) -> int:
        """Number in the piece of the last row it stands for."""
        return self.row + (self.rows - 1) * self.step


class Rows(Sequence[RowRecord]):
    """Rows in order, of which some may not have been written out."""

    __slots__ = ()

    @abstractmethod
    def folded(self) -> Iterator[RowRecord]:
        """The same rows in fewer records, for whoever looks for kinds of rows, adds them up, or wants the extremes.

        Rows of shaping at one rate come as one record for each row of the cycle: how many there are, side, form, gauge,
        height, span and last row are as ever; counts and stitches are those of the first. Between such rows and any
        other stand rows of the same shaping that are told one by one, on both sides.
        """


@dataclass(frozen=True, slots=True)
class Halt:
    """The needle where a row could not go on.

    made: faces on the right needle in the order worked, one letter a stitch as seen from the right side. left: faces on
    the left needle in the order in which the row would come to them. made_marks, left_marks: markers in them, as (place,
    name).
    """

    made: str = ""
    left: str = ""
    made_marks: tuple[tuple[int, str], ...] = ()
    left_marks: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Stopped:
    """A row that failed. row: its number in the piece. before: stitches it began with. why: what is wrong, in words."""

    label: str
    row: int
    side: Side
    form: Form
    before: int
    halt: Halt
    why: str
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class SectionKnitted:
    """One section in one size: its rows in order, what happened between them, and the rows that failed."""

    title: str
    piece: str
    records: Rows
    events: tuple[Event, ...]
    stitches: int
    rows: int
    length_mm: Fraction
    stopped: tuple[Stopped, ...] = ()


@dataclass(frozen=True, slots=True)
class Edge:
    """An edge of a piece. stitches or rows say how long it is in the fabric; length_mm is None without a gauge."""

    kind: Literal["cast on", "bind off", "picked up", "live", "left", "right"]
    stitches: int = 0
    rows: int = 0
    length_mm: Fraction | None = None


@dataclass(frozen=True, slots=True)
class OutlineStep:
    """Rows of one width, from the bottom up. height and width in millimetres; width None without a gauge."""

    row: int
    rows: int
    stitches: int
    width_mm: Fraction | None
    height_mm: Fraction
    form: Form
    part: int = 0


@dataclass(frozen=True, slots=True)
class PieceKnitted:
    """One piece in one size.

    records: all rows of all its sections. length_mm: of its longest part. live: stitches left at the end.
    landmarks: points that lengths are counted from, as (row, length in mm). unsure: an error was found on the way, so that
    counts and lengths need not be those that are meant.
    """

    name: str
    make: int
    records: Rows
    events: tuple[Event, ...]
    outline: Sequence[OutlineStep]
    edges: tuple[Edge, ...]
    rows: int
    length_mm: Fraction
    live: int
    landmarks: Mapping[str, tuple[int, Fraction]]
    gauges: Mapping[str | None, tuple[Fraction, Fraction]]
    cast_on: tuple[int, str | None] = (0, None)
    unsure: bool = False

    def width_at(self, row: int) -> Fraction | None:
        """Width in millimetres after a row of the piece (0: the cast-on edge); None without a gauge."""
        best: RowRecord | None = None
        for record in self.records:
            if not record.short and record.row <= row:
                best = record
        if best is None:
            return self._width(*self.cast_on)
        return self._width(best.after, best.gauge)

    def _width(self, stitches: int, gauge: str | None) -> Fraction | None:
        pitch = self.gauges.get(gauge)
        return None if pitch is None else stitches * pitch[0]

    def widest(self) -> Fraction | None:
        """The greatest width, in millimetres."""
        widths = [step.width_mm for step in self.outline if step.width_mm is not None]
        return max(widths, default=None)

    def stitches_at(self, row: int) -> int:
        """Stitches after a row of the piece; those cast on for row 0."""
        count = self.cast_on[0]
        for record in self.records:
            if not record.short and record.row <= row:
                count = record.after
        return count

    def length_between(self, first: int, last: int) -> Fraction:
        """Millimetres from after one row to after another."""
        total = Fraction(0)
        for record in self.records.folded():
            if record.short:
                continue
            worked = sum(1 for n in range(record.rows) if first < record.row + n * record.step <= last)
            total += worked * record.height_mm
        return total


@dataclass(frozen=True, slots=True)
class NeedleUse:
    """Fewest and most stitches that one pair or ring of needles has to hold."""

    fewest: int
    most: int


@dataclass(frozen=True, slots=True)
class SizeKnitted:
    """A whole pattern in one size.

    loops: (yarn, gauge key, stitch) to how many were worked, `make` counted in. cast_on_loops: by yarn.
    needles: key to what they hold. held: what still waits. trusted: spans of work taken on trust.
    """

    sections: tuple[SectionKnitted, ...]
    pieces: Mapping[str, PieceKnitted]
    loops: Mapping[tuple[str, str | None, str], int]
    needles: Mapping[str | None, NeedleUse]
    held: tuple[Group, ...]
    trusted: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Knitted:
    """A pattern knitted in all its sizes, in their order. stitches: worked in all, over all sizes."""

    sizes: tuple[SizeKnitted, ...]

    @property
    def stitches(self) -> int:
        """Stitches worked in all sizes together."""
        return sum(sum(size.loops.values()) for size in self.sizes)

    def stitch_names(self) -> tuple[str, ...]:
        """Every stitch used in any size, by name, in the order in which they first come up."""
        return tuple(dict.fromkeys(name for size in self.sizes for _, _, name in size.loops))
