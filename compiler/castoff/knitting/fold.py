"""Shaping at one rate: its cycles are worked at both ends, and what lies between is drawn from one end to the other.

In: the state of one size and where the last cycles of a run began. Out: the state moved on by many cycles, or not at all.

Why it is right. The acts that may be folded decide by comparing places and counts, and by whether a count divides. Along
a run in which every place and count grows by the same number from cycle to cycle, a comparison that comes out alike at
both ends comes out alike in between, and what divides in three cycles running divides in all. So the last three cycles
worked must agree with one growth, in every stitch and marker, and so must the cycles at the far end and in the middle,
which are worked to look at. Where they do not (a marker comes too near, stitches run out, a rib does not divide), fewer
cycles are tried, and then the rows are worked one by one as ever.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import chain
from typing import TypeAlias

from castoff.knitting.loops import Needle
from castoff.knitting.row_faults import other
from castoff.knitting.row_kinds import kind_of
from castoff.knitting.setting import RowResult, WrapsMet, flipped, settled
from castoff.knitting.slope import NeedleGrowth, RowGrowth, Slope, needle_between, row_between
from castoff.knitting.state import RowDef, SizeState
from castoff.knitting.work_row import side_in_work, standing_after, worked

FEWEST = 6
"""Cycles that are worth folding: three of them are worked to look at."""
KEPT = 3
"""Cycles that are worked one by one before a number of stitches is reached, for the message that it never is."""


@dataclass(frozen=True, slots=True)
class Station:
    """The piece where a cycle begins. records: how many it has. posture: all that must be the same again."""

    records: int
    needle: Needle
    length: Fraction
    posture: tuple[object, ...]


def station(state: SizeState) -> Station:
    """Where the piece stands."""
    piece = state.piece
    posture = (
        piece.due,
        piece.form,
        piece.turned,
        piece.standing,
        tuple(piece.pattern_rows.items()),
        tuple(piece.charts_since.items()),
        piece.taken_back,
        piece.gaps,
        piece.parted,
        piece.before_held,
        piece.doubt,
        piece.short_rows,
        len(piece.events),
        tuple(state.holders),
        len(state.faults),
    )
    return Station(len(piece.records), piece.needle, piece.length, posture)


@dataclass(slots=True)
class Fold:
    """A cycle of rows in work, which may come to be folded.

    until: a number of stitches that no row entered may come to, nor any of the few cycles after them.
    """

    state: SizeState
    cycle: Sequence[RowDef]
    until: int | None = None
    stations: list[Station] = field(default_factory=list)
    missed: int = 0
    wait: int = 0

    def go_on(self, rows: int) -> int:
        """Where a cycle begins: enters the cycles that go on as the last three did, and returns their rows.

        rows: still to be worked; the last whole cycle of them is left to be worked.
        """
        if self.wait:
            self.wait -= 1
            return 0
        self.stations.append(station(self.state))
        if len(self.stations) < 4:
            return 0
        cycles = _folded(self.state, self.cycle, self.stations, rows // len(self.cycle) - 1, self.until)
        if cycles:
            self.state.remember_again(self.cycle, cycles * len(self.cycle))
            self.missed = 0
        else:
            self.missed += 1
            self.wait = 2**self.missed - 2
        # what has been looked at in vain is not looked at every cycle
        self.stations = [] if cycles or self.wait else self.stations[-3:]
        return cycles * len(self.cycle)


def _folded(
    state: SizeState, cycle: Sequence[RowDef], stations: Sequence[Station], most: int, until: int | None
) -> int:
    if most < FEWEST or not all(kind_of(state, row.acts).steady for row in cycle):
        return 0
    *begun, now = stations
    if any(each.posture != now.posture for each in begun) or state.piece.turned:
        return 0
    size = len(cycle)
    if [now.records - each.records for each in begun] != [3 * size, 2 * size, size]:
        return 0
    growing = _growing(state, size, stations)
    if growing is None:
        return 0
    rows, needles = growing
    limits = [growth.most for growth in rows] + [needles.faces.most]
    if until is not None:
        limits += [_before(growth, until) for growth in rows]
    cycles = min([most, *(limit - 3 for limit in limits if limit is not None)])
    near = _as_drawn(state, cycle, rows, needles, 2) if cycles >= FEWEST else None
    while near is not None and cycles >= FEWEST:
        far, before, half = ((at, _as_drawn(state, cycle, rows, needles, at)) for at in _looked_at(cycles))
        if _straight((2, near), far, before) and _straight((2, near), far, half):
            _enter(state, rows, needles, cycles, now.length - begun[-1].length)
            return cycles
        cycles //= 2
    return 0


def _before(growth: RowGrowth, until: int) -> int | None:
    """The last cycle that is well before the row comes to so many stitches; 0 when it goes away from them."""
    left, step = until - growth.one.after, growth.after
    return left // step - KEPT if left * step > 0 else 0


def _looked_at(cycles: int) -> tuple[int, int, int]:
    """Of cycles from number 3 on: the last, the one before it, and one in the middle."""
    return 2 + cycles, 1 + cycles, 3 + cycles // 2


def _growing(
    state: SizeState, size: int, stations: Sequence[Station]
) -> tuple[tuple[RowGrowth, ...], NeedleGrowth] | None:
    """How the rows and the needle grow, when the last three cycles agree on it."""
    needles = needle_between(stations[0].needle, stations[1].needle)
    if needles is None or stations[0].needle == stations[1].needle:
        return None
    if any(needles.at(at) != stations[at].needle for at in (2, 3)):
        return None
    records = state.piece.records[-3 * size :]
    growths = []
    for one, two, three in zip(records[:size], records[size : 2 * size], records[2 * size :], strict=True):
        growth = row_between(one, two)
        if growth is None or growth.at(2) != three:
            return None
        growths.append(growth)
    return tuple(growths), needles


Stand: TypeAlias = tuple[int, int]
"""Up to which stitch a row's faces are those below, and those below turned round; -1 as far as is looked at."""


def _straight(*cycles: tuple[int, list[Stand] | None]) -> bool:
    """Whether three cycles came out, and the places at which rows stand off those below lie on one line.

    Each is the least of places that grow evenly. Such a least lies above the line between two of its points, or on it; and
    on it all along, if it is so at one point between.
    """
    (first, near), (last, far), (at, between) = cycles
    if near is None or far is None or between is None:
        return False
    for one, two, three in zip(chain(*near), chain(*far), chain(*between), strict=True):
        if -1 in (one, two, three) and not one == two == three:
            return False
        if (three - one) * (last - first) != (two - one) * (at - first):
            return False
    return True


def _as_drawn(
    state: SizeState, cycle: Sequence[RowDef], rows: Sequence[RowGrowth], needles: NeedleGrowth, at: int
) -> list[Stand] | None:
    """How the rows of a cycle stand on those below; None if it does not come out as its growth has it.

    Nothing of the piece moves.
    """
    piece = state.piece
    kept = piece.needle, piece.due, piece.standing
    piece.needle = needles.at(at)
    stands: list[Stand] = []
    try:
        for row, growth in zip(cycle, rows, strict=True):
            result = worked(state, row, row.acts, None)
            if not _plain(result) or not _is_drawn(result, growth, at):
                return None
            stands.append((_alike(result.above, settled(result.below)), _alike(result.above, flipped(result.below))))
            piece.needle = result.needle
            piece.standing = standing_after(piece.standing, result)
            piece.due = other(side_in_work(piece)) if piece.form == "flat" else "RS"
        return stands if piece.needle == needles.at(at + 1) and (piece.due, piece.standing) == kept[1:] else None
    finally:
        piece.needle, piece.due, piece.standing = kept


def _alike(one: str, two: str) -> int:
    """How many letters two texts begin with alike; -1 when they are alike from end to end."""
    if one == two:
        return -1
    return next((at for at, (first, second) in enumerate(zip(one, two, strict=False)) if first != second), len(one))


def _plain(result: RowResult) -> bool:
    """Whether nothing happened in a row but that stitches were worked."""
    happened = result.faults or result.events or result.held or result.taken or result.rest or result.patterns
    if happened or result.told or result.turned or result.short or result.ambiguous or result.gap_met or result.joined:
        return False
    return result.wraps == WrapsMet() and not (result.needle.gaps or result.needle.turns or result.needle.wraps)


def _is_drawn(result: RowResult, growth: RowGrowth, at: int) -> bool:
    return (
        result.before == growth.one.before + at * growth.before
        and result.needle.stitches == result.after == growth.one.after + at * growth.after
        and result.yarns == growth.one.yarns
        and result.worked == growth.worked_at(at)
        and result.tally == growth.tally_at(at)
        and result.needle.faces == growth.faces.at(at)
    )


def _enter(state: SizeState, rows: tuple[RowGrowth, ...], needles: NeedleGrowth, cycles: int, length: Fraction) -> None:
    piece = state.piece
    piece.records.fold(Slope(rows, 3, cycles))
    piece.rows += cycles * len(rows)
    piece.length += cycles * length
    piece.needle = needles.at(3 + cycles)
    for growth in rows:
        for (yarn, stitch), number in growth.stitches_in(3, cycles):
            state.count_loops((yarn, growth.one.gauge, stitch), number * piece.make)
        state.use_needles(growth.one.after + (2 + cycles) * growth.after)
