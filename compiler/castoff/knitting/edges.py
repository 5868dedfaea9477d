"""The side edges of a flat piece, row by row: where stitches were bound off, lost and gained, and how long the edge is.

In: a `PieceKnitted` and the stitch book. Out: `Sides`: the two edges of the piece as the right side shows it, each as the
steps that moved it; a `Side` can tell its length between two rows, measured along the slope.

A decrease near the beginning of a row belongs to the edge where the row begins, one near its end to the other; what is
spread across the row is shared. Shaping that the words leave open ("at the same time, dec 1 st at neck edge") goes to the
edge that the row does not shape otherwise, or to the one where less has been bound off. A piece that is divided and worked
on in two parts (a front with a round neck) has the outer edge of the first part on one side and of the second on the other.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import hypot
from operator import itemgetter

from castoff.knitting.fabric import Done, DoneRepeat, PieceKnitted, RowRecord, Worked
from castoff.trade.stitch_book import StitchBook

_NEAR = 0.25
"""How far from an end of a row, as a share of it, shaping belongs to that edge (ours)."""

Counts = Callable[[str], tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Step:
    """A row that moved an edge. lost: stitches gone at this edge, below zero for gained ones.

    bound: they were bound off at once. height_mm: of the piece after the row. stitch_mm: width of a stitch there.
    """

    row: int
    lost: Fraction
    bound: bool
    height_mm: float
    stitch_mm: float


@dataclass(frozen=True, slots=True)
class Side:
    """One edge from the bottom up. heights: height in millimetres after each row, from row 0."""

    steps: tuple[Step, ...]
    heights: tuple[float, ...]

    @property
    def rows(self) -> int:
        """The last row of the edge."""
        return len(self.heights) - 1

    def length_mm(self, first: int, last: int) -> float:
        """Along the edge from after one row to after another, in millimetres."""
        total, below = 0.0, self.heights[min(first, self.rows)]
        for step in self.steps:
            if first < step.row <= last:
                across, up = abs(float(step.lost)) * step.stitch_mm, step.height_mm - below
                total += across + up if step.bound else hypot(across, up)
                below = step.height_mm
        return total + self.heights[min(last, self.rows)] - below


@dataclass(frozen=True, slots=True)
class Sides:
    """Both edges. right: where rows on the right side begin. top: stitches of the last bind-off that ended a part.

    divided: the piece was finished in two parts.
    """

    right: Side
    left: Side
    top: int
    top_mm: Fraction
    divided: bool


def sides_of(piece: PieceKnitted, book: StitchBook) -> Sides | None:
    """The edges of a flat piece; None for one that is worked in the round, in many parts, or without a gauge."""
    kinds = [record for record in piece.records.folded() if not record.short]
    if not kinds or any(record.form != "flat" or record.gauge not in piece.gauges for record in kinds):
        return None
    records = [record for record in piece.records if not record.short]
    parts: list[list[RowRecord]] = [[]]
    for record in records:
        if parts[-1] and record.row < parts[-1][-1].row:
            parts.append([])
        parts[-1].append(record)
    if len(parts) > 2:
        return None
    whole = parts[0]
    # the second part goes on where the piece was divided
    second = [record for record in parts[0] if record.row < parts[1][0].row] + parts[1] if len(parts) == 2 else whole
    counts = _counts(book)
    right, left = _walk(whole, piece, counts)
    if second is not whole:
        _, left = _walk(second, piece, counts)
    # a bind-off that no row of the piece tells is one that ends a part
    inside = [(event.row, event.count) for record in records for event in record.changes if event.kind == "bind off"]
    ends = Counter((event.row, event.count) for event in piece.events if event.kind == "bind off") - Counter(inside)
    top = sum(count * times for (_, count), times in ends.items())
    last = records[-1]
    return Sides(right, left, top, top * piece.gauges[last.gauge][0], len(parts) == 2)


def _walk(records: list[RowRecord], piece: PieceKnitted, counts: Counts) -> tuple[Side, Side]:
    rows = [(row, record) for record in records for row in range(record.row, record.last_row + 1, record.step)]
    rows.sort(key=itemgetter(0))
    tall = {id(record): float(record.height_mm) for record in records}
    heights = [0.0]
    steps: tuple[list[Step], list[Step]] = ([], [])
    bound = [Fraction(0), Fraction(0)]
    for row, record in rows:
        while len(heights) < row:
            heights.append(heights[-1])
        heights.append(heights[-1] + tall[id(record)])
        if record.before == record.after or any(event.kind in ("hold", "resume") for event in record.changes):
            continue
        moved = _moved(record, counts, bound)
        first = 0 if record.side == "RS" else 1
        for edge, (lost, at_once) in ((first, moved[0]), (1 - first, moved[1])):
            if lost:
                stitch = float(piece.gauges[record.gauge][0])
                steps[edge].append(Step(row, Fraction(lost), at_once, heights[-1], stitch))
                bound[edge] += lost if at_once else 0
    return Side(tuple(steps[0]), tuple(heights)), Side(tuple(steps[1]), tuple(heights))


Moved = tuple[int | Fraction, bool]


def _moved(record: RowRecord, counts: Counts, bound: list[Fraction]) -> tuple[Moved, Moved]:
    """Stitches lost at the beginning and at the end of a row, and whether they were bound off."""
    worked = list(record.worked)
    ends: list[int | Fraction] = [0, 0]
    at_once = [False, False]
    for end, at in ((0, 0), (1, -1)):
        done = worked[at] if worked else None
        if isinstance(done, Done) and done.stitch in ("bind off", "cast on"):
            ends[end] += done.count if done.stitch == "bind off" else -done.count
            at_once[end] = True
            worked.pop(at)
    near = max(record.before * _NEAR, 1)
    for place, lost in _changes(tuple(worked), counts):
        if place <= near:
            ends[0] += lost
        elif place >= record.before - near:
            ends[1] += lost
        else:
            ends[0] += Fraction(lost, 2)
            ends[1] += Fraction(lost, 2)
    rest = record.before - record.after - ends[0] - ends[1]
    if rest:
        first = 0 if record.side == "RS" else 1
        less = 1 if bound[first] > bound[1 - first] else 0
        bare = [end for end in (0, 1) if not ends[end]]
        ends[bare[0] if len(bare) == 1 else less] += rest
    return (ends[0], at_once[0]), (ends[1], at_once[1])


def _changes(worked: tuple[Worked, ...], counts: Counts) -> Iterator[tuple[int, int]]:
    """Behind which stitch of the row below stitches are lost (below zero: gained)."""
    at = 0
    for each in worked:
        if isinstance(each, DoneRepeat):
            takes = sum(_takes(part, counts) for part in each.body)
            inner = list(_changes(each.body, counts))
            if inner:
                for number in range(each.times):
                    yield from ((at + takes * number + place, lost) for place, lost in inner)
            at += takes * each.times
            continue
        takes, makes = counts(each.stitch)
        if takes != makes:
            yield at + takes * each.count // 2, (takes - makes) * each.count
        at += takes * each.count


def _takes(worked: Worked, counts: Counts) -> int:
    if isinstance(worked, DoneRepeat):
        return sum(_takes(part, counts) for part in worked.body) * worked.times
    return counts(worked.stitch)[0] * worked.count


def _counts(book: StitchBook) -> Counts:
    """What a stitch takes and makes; one that the book does not have is taken for plain."""
    known: dict[str, tuple[int, int]] = {}

    def counts(name: str) -> tuple[int, int]:
        if name not in known:
            stitch = book.find(name)
            known[name] = (1, 1) if stitch is None else (stitch.takes, stitch.makes)
        return known[name]

    return counts
