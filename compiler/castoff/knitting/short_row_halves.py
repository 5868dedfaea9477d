"""Two halves of short rows: turns that come in from the ends, and turns that go out again, as far as the first ones.

In: where a row has turned, and rows that go from end to end. Out: a fault where the second half stops before the ends.
"""

from __future__ import annotations

from itertools import pairwise

from castoff.knitting.faults import fault
from castoff.knitting.setting import RowResult
from castoff.knitting.short_row_rules import HALF_TOO_SHORT
from castoff.knitting.state import RowDef, SizeState
from castoff.notation.syntax import Side

_BETWEEN = 6
"""Rows or rounds over all stitches that may lie between the two halves of one heel."""


def keep_turn(state: SizeState, row: RowDef, result: RowResult, side: Side) -> None:
    """Notes how many stitches a short row has left beyond its turn; wrapped ones are held to rules of their own."""
    piece = state.piece
    turn = next((event for event in reversed(result.events) if event.kind == "turn"), None)
    if turn is None or turn.name == "wrap":
        piece.halves = []
        return
    piece.halves.append((side, turn.count, row.span))


def mind_halves(state: SizeState) -> None:
    """A row has gone from end to end: whether the turns before it went out as far as others had come in before."""
    piece = state.piece
    series, piece.halves = piece.halves, []
    if len(series) < 4:
        return
    lefts: dict[Side, list[int]] = {"RS": [], "WS": []}
    for side, left, _ in series:
        lefts[side].append(left)
    ways = {side: _ways(lefts[side]) for side in lefts}
    if any(way is None for way in ways.values()):
        return
    inward = {side: way[0] for side, way in ways.items() if way is not None}
    outward = {side: way[1] for side, way in ways.items() if way is not None}
    if all(len(each) > 1 for each in inward.values()):
        piece.inward = (piece.rows, inward["RS"][0], inward["WS"][0])
    if piece.inward is None or not all(len(each) > 1 for each in outward.values()):
        return
    rows, right, wrong = piece.inward
    piece.inward = None
    if piece.rows - rows > _BETWEEN:
        return
    # in a round the stitches of the instep lie beyond the turns of one side: the other side tells
    short = min(outward["RS"][-1] - right, outward["WS"][-1] - wrong)
    step = min(one - two for each in outward.values() for one, two in pairwise(each))
    if short < step:
        return
    state.report(
        fault(
            HALF_TOO_SHORT,
            series[-1][2],
            "the turns go out to {short} st{s} before those where the short rows began",
            hint="repeat the rows before it {more} more time{t}",
            short=short,
            s="" if short == 1 else "s",
            more=short // step,
            t="" if short // step == 1 else "s",
        )
    )


def _ways(lefts: list[int]) -> tuple[list[int], list[int]] | None:
    """The turns that come in, and those that go out behind them; None when they do neither."""
    at = 1
    while at < len(lefts) and lefts[at] > lefts[at - 1]:
        at += 1
    inward = lefts[:at] if at > 1 else []
    outward = lefts[at:] if at > 1 else lefts
    if any(two >= one for one, two in pairwise(outward)):
        return None
    return inward, outward
