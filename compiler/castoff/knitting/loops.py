"""Live stitches: what is on the needle, between which markers, and what waits on holders.

In: nothing. Out: `Needle` and `Group`, frozen; working a row makes a new needle.

Stitches are kept as a text with one letter a stitch, seen from the right side in the order of a right-side row: "k"
for a knit face, "p" for a purl bump, "y" for a yarn-over that nobody has worked yet. Cutting, joining, turning and
comparing such texts costs about a nanosecond a stitch and no loop of ours, so that the work follows the length of
the pattern's text and not the number of its stitches. Markers, gaps and turns are places between stitches. A short row
leaves one entry for the stitch that it wrapped, doubled, or laid a yarn over at, so that their number follows the rows too.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from castoff.notation.syntax import Form, Side
from castoff.span import Span

MOST_STITCHES = 100_000
"""More stitches than any hand knitter holds: beyond it a number is a slip of the pen."""

DIVISION = "#"
"""First letter of the name of a place where one needle of a set ends: it is no marker, and in nobody's way."""

PANEL = "%"
"""First letter of the name of a place where a chart's stitches begin or end: no marker either."""

MOST_ROWS = 100_000
"""More rows than any piece has."""


def hidden(name: str) -> bool:
    """Whether a place is no marker that the knitter sees."""
    return name.startswith((DIVISION, PANEL))


@dataclass(frozen=True, slots=True)
class Wrap:
    """What a turn has left at a stitch, until the stitch is worked again.

    place: of the stitch. kind: a wrap round it ("wrap"), the stitch pulled up to two legs ("ds"), or a yarn-over made
    when turning ("yo", a loop of its own). times: how many wraps.
    """

    place: int
    kind: Literal["wrap", "ds", "yo"]
    times: int = 1

    def to(self, place: int) -> Wrap:
        """The same at another place."""
        return Wrap(place, self.kind, self.times)


@dataclass(frozen=True, slots=True)
class Needle:
    """The stitches of one piece that are on the needles.

    faces: one letter a stitch, as seen from the right side. at: place of the working yarn, 0 = before the first
    stitch of a right-side row (in the round: the beginning of the round).
    marks: markers as (place, name), ascending. gaps: places where stitches were bound off or put on hold in between;
    turns: places where a short row turned and nobody has worked across since.
    marked: stitches that are marked in the loop, as (index from 0, name), ascending.
    wraps: what turns have left, ascending.
    """

    faces: str = ""
    at: int = 0
    marks: tuple[tuple[int, str], ...] = ()
    gaps: tuple[int, ...] = ()
    turns: tuple[int, ...] = ()
    marked: tuple[tuple[int, str], ...] = ()
    wraps: tuple[Wrap, ...] = ()

    @property
    def stitches(self) -> int:
        """How many."""
        return len(self.faces)

    @property
    def counted(self) -> int:
        """How many a knitter counts: yarn-overs laid when turning are no stitches of their own (common practice)."""
        return len(self.faces) - sum(wrap.kind == "yo" for wrap in self.wraps)

    def turned(self) -> Needle:
        """The same needle read from the other end."""
        total = len(self.faces)
        return Needle(
            self.faces[::-1],
            total - self.at,
            tuple((total - place, name) for place, name in reversed(self.marks)),
            tuple(total - gap for gap in reversed(self.gaps)),
            tuple(total - turn for turn in reversed(self.turns)),
            tuple((total - 1 - at, name) for at, name in reversed(self.marked)),
            ordered(wrap.to(total - 1 - wrap.place) for wrap in self.wraps) if self.wraps else (),
        )

    def part(self, first: int, last: int) -> Needle:
        """The stitches from one place to another, with what lies between them."""
        return Needle(
            self.faces[first:last],
            min(max(self.at - first, 0), last - first),
            tuple((place - first, name) for place, name in self.marks if first <= place <= last),
            tuple(gap - first for gap in self.gaps if first < gap < last),
            tuple(turn - first for turn in self.turns if first < turn < last),
            tuple((at - first, name) for at, name in self.marked if first <= at < last),
            tuple(wrap.to(wrap.place - first) for wrap in self.wraps if first <= wrap.place < last),
        )

    def rotated(self, start: int) -> Needle:
        """A round that begins at another place; the beginning of the old one becomes nothing special."""
        total = len(self.faces)
        if not 0 < start < total:
            return self

        def moved(place: int) -> int:
            return (place - start) % total

        marks = {(moved(place), name) for place, name in self.marks if moved(place)}
        if any(name.startswith(DIVISION) for _, name in self.marks):
            # where the round began, one needle ends and the next begins
            marks = {mark for mark in marks if mark[0] != total - start or not mark[1].startswith(DIVISION)}
            marks.add((total - start, f"{DIVISION}0"))
        return Needle(
            self.faces[start:] + self.faces[:start],
            moved(self.at),
            tuple(sorted(marks)),
            tuple(sorted(moved(gap) for gap in self.gaps if moved(gap))),
            tuple(sorted(moved(turn) for turn in self.turns if moved(turn))),
            tuple(sorted((moved(at), name) for at, name in self.marked)),
            ordered(wrap.to(moved(wrap.place)) for wrap in self.wraps) if self.wraps else (),
        )

    def resized(self, stitches: int) -> Needle:
        """As many stitches as the pattern says there are: how the needle goes on after a wrong row."""
        total = len(self.faces)
        if stitches == total:
            return self
        filler = self.faces[-1:] or "k"
        faces = self.faces[:stitches] + filler * max(0, stitches - total)
        # markers behind the change keep their distance from the nearer end
        marks = tuple(
            sorted(
                (place if place * 2 <= total else max(0, stitches - (total - place)), name)
                for place, name in self.marks
                if min(place, total - place) <= stitches and not hidden(name)
            )
        )
        at = 0 if self.at * 2 < total or not self.at else stitches
        marked = tuple(
            (place if place * 2 < total else stitches - (total - place), name)
            for place, name in self.marked
            if min(place, total - 1 - place) * 2 < stitches
        )
        return Needle(faces, at, marks, marked=marked)

    def clean(self, form: Form) -> Needle:
        """Without gaps and turns that have come to lie at an end."""
        total = len(self.faces)
        return replace(
            self,
            gaps=tuple(gap for gap in dict.fromkeys(self.gaps) if 0 < gap < total or (form == "round" and gap == 0)),
            turns=tuple(turn for turn in dict.fromkeys(self.turns) if 0 < turn < total),
        )


def joined(first: Needle, second: Needle, at: int) -> Needle:
    """Two needles as one, the second behind the first."""
    shift = len(first.faces)
    return Needle(
        first.faces + second.faces,
        at,
        first.marks + tuple((place + shift, name) for place, name in second.marks),
        first.gaps + tuple(gap + shift for gap in second.gaps),
        first.turns + tuple(turn + shift for turn in second.turns),
        first.marked + tuple((place + shift, name) for place, name in second.marked),
        first.wraps + tuple(wrap.to(wrap.place + shift) for wrap in second.wraps),
    )


def ordered(wraps: Iterable[Wrap]) -> tuple[Wrap, ...]:
    """Wraps in the order of their stitches; two of a kind at one stitch are one entry."""
    found: dict[tuple[int, str], Wrap] = {}
    for wrap in sorted(wraps, key=lambda each: (each.place, each.kind)):
        key = (wrap.place, wrap.kind)
        there = found.get(key)
        found[key] = wrap if there is None else Wrap(wrap.place, wrap.kind, wrap.times + there.times)
    return tuple(found.values())


@dataclass(frozen=True, slots=True)
class Group:
    """Live stitches that wait.

    name: the holder's name, lower case; "" for stitches left unworked. needle: the stitches, right side order.
    piece: where they come from. side: the row that is due on them. rows, length_mm: of the piece where they wait.
    left: True when they were simply left on the needle. span: where they were put aside. used: how many pieces have taken
    them up, where the piece that they come from is made several times. opening: loops at waste yarn that comes out later;
    above it they lie between the stitches, so that there may be one more or less.
    """

    name: str
    needle: Needle
    piece: str = ""
    side: Side | None = None
    rows: int = 0
    length_mm: Fraction = Fraction(0)
    left: bool = False
    span: Span | None = None
    used: int = 0
    opening: bool = False

    @property
    def stitches(self) -> int:
        """How many wait."""
        return self.needle.stitches
