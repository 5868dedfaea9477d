"""Rows worked again and again: equal rows on equal needles are knitted once and counted many times.

In: a cycle of rows and how many, or until when. Out: the state moved on. When the needle comes back to where it was,
what lies between is multiplied; so a thousand rows of rib cost two.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeAlias

from castoff.knitting.faults import NO_SUCH_ROW, TOO_MANY, fault
from castoff.knitting.fold import Fold
from castoff.knitting.loops import MOST_ROWS
from castoff.knitting.row_faults import other
from castoff.knitting.state import RowDef, SizeState
from castoff.knitting.work_row import work_row
from castoff.notation.syntax import OnLastRow, WorkFabric
from castoff.span import Span

Stretch: TypeAlias = tuple[Sequence[RowDef], int]
"""A cycle of rows, and how many rows of it are worked."""


def signature(state: SizeState, place: int) -> tuple[object, ...]:
    """All that decides what the next rows will do."""
    piece = state.piece
    return (
        piece.needle,
        piece.due,
        piece.form,
        piece.turned,
        piece.standing,
        piece.kept,
        tuple(piece.pattern_rows.items()),
        tuple(piece.charts_since.items()),
        place,
        state.stripe_row,
        len(state.holders),
    )


def run_rows(
    state: SizeState,
    cycle: Sequence[RowDef],
    rows: int,
    span: Span | None,
    *,
    expected: int | None = None,
    stop: Callable[[], bool] | None = None,
    until: int | None = None,
) -> bool:
    """Works `rows` rows of a cycle, or fewer when `stop` says so after a row. False when a row failed.

    expected: the total printed behind the whole run, for its last row. until: how many stitches `stop` waits for, when it
    need not be asked while that many are far away.
    """
    if stop is None:
        return run_stretches(state, [(cycle, rows)], span, expected=expected)
    if _too_many(state, rows, span):
        return False
    if rows <= 0 or not cycle:
        return True
    start = state.piece.needle.stitches
    sound = _run(state, cycle, rows, expected, stop, until)
    state.piece.before = start
    return sound


def run_stretches(
    state: SizeState, stretches: Sequence[Stretch], span: Span | None, *, expected: int | None = None
) -> bool:
    """Works rows of one cycle behind those of another. False when a row failed.

    expected: the total printed behind all of them, for the last row.
    """
    stretches = [(cycle, rows) for cycle, rows in stretches if cycle and rows > 0]
    all_rows = sum(rows for _, rows in stretches)
    if _too_many(state, all_rows, span):
        return False
    if not stretches:
        return True
    if state.on_last_row is not None:
        return _with_last_row(state, stretches, span, state.on_last_row, expected)
    start = state.piece.needle.stitches
    done = 0
    sound = True
    for cycle, rows in stretches:
        sound = _run(state, cycle, rows, expected if done + rows == all_rows else None)
        done += state.last_rows
        if not sound:
            _skip(state, all_rows - done)
            break
    state.piece.before = start
    state.last_rows = done
    return sound


def _folding(state: SizeState, cycle: Sequence[RowDef], until: int | None) -> Fold | None:
    """The cycle, or two of it when each would begin on the other side, to be folded if it can be."""
    if state.beside or state.stripes:
        return None
    uneven = state.piece.form == "flat" and len(cycle) % 2
    return Fold(state, [*cycle, *cycle] if uneven else cycle, until)


def _too_many(state: SizeState, rows: int, span: Span | None) -> bool:
    if rows <= MOST_ROWS and state.piece.rows + rows <= MOST_ROWS:
        return False
    state.report(fault(TOO_MANY, span, "{rows} rows are more than any piece has", rows=rows))
    state.piece.doubt = True
    return True


def _run(
    state: SizeState,
    cycle: Sequence[RowDef],
    rows: int,
    expected: int | None,
    stop: Callable[[], bool] | None = None,
    until: int | None = None,
) -> bool:
    piece = state.piece
    seen: dict[tuple[object, ...], tuple[int, int]] = {}
    folding = _folding(state, cycle, until) if stop is None or until is not None else None
    done = 0
    sound = True
    while done < rows:
        place = done % len(cycle)
        if stop is None and not state.beside:
            here = signature(state, place)
            earlier = seen.get(here)
            if earlier is not None and rows - done >= done - earlier[0]:
                period = done - earlier[0]
                more = _multiplied(state, earlier[1], period, rows - done)
                state.remember_again([*cycle[place:], *cycle[:place]], more)
                done += more
                seen.clear()
                continue
            seen[here] = (done, len(piece.records))
        if folding is not None and done % len(folding.cycle) == 0:
            more = folding.go_on(rows - done)
            if more:
                done += more
                seen.clear()
                continue
        row = _in_stripes(state, cycle[place])
        sound = work_row(
            state,
            row,
            expected if done == rows - 1 else None,
            said=done == 0 or cycle[place].number is not None or cycle[place].side is not None,
        )
        state.remember(cycle[place])
        done += 1
        if not sound:
            break
        if stop is not None and stop():
            break
    state.last_rows = done
    return sound


def _with_last_row(
    state: SizeState, stretches: Sequence[Stretch], span: Span | None, change: OnLastRow, expected: int | None
) -> bool:
    """Works the rows, the last of them in the fabric as it stands and with its change."""
    state.on_last_row = None
    start = state.piece.needle.stitches
    cycle, rows = stretches[-1]
    if not run_stretches(state, [*stretches[:-1], (cycle, rows - 1)], span):
        return False
    last = cycle[(rows - 1) % len(cycle)]
    row = replace(last, acts=(change.act,), label="the last row", span=change.span)
    sound = work_row(state, replace(row, partial=isinstance(change.act, WorkFabric)), expected)
    state.remember(last)
    state.piece.before = start
    state.last_rows = sum(rows for _, rows in stretches)
    return sound


def mind_on_last_row(state: SizeState, step: OnLastRow) -> None:
    """A change on the last row that no rows before it have taken up is refused."""
    if state.on_last_row is not step:
        return
    state.on_last_row = None
    if state.piece.doubt:
        return
    state.report(
        fault(
            NO_SUCH_ROW,
            step.span,
            "which row is the last is not told by a number of rows or a length",
            hint="write the change as a row of its own: `Next row: …`",
        )
    )
    state.piece.doubt = True


def _skip(state: SizeState, rows: int) -> None:
    """After a fault, the rows that are left of the run are taken as worked: the next line finds its side due."""
    piece = state.piece
    piece.rows += rows
    piece.length += rows * state.row_height()
    if piece.form == "flat" and rows % 2 and piece.due is not None:
        piece.due = other(piece.due)
        piece.needle = replace(piece.needle, at=0 if piece.due == "RS" else piece.needle.stitches)


def _in_stripes(state: SizeState, row: RowDef) -> RowDef:
    if not state.stripes:
        return row
    at = state.stripe_row
    for rows, yarn in state.stripes:
        if at < rows:
            state.stripe_row = (state.stripe_row + 1) % sum(band[0] for band in state.stripes)
            state.yarn = yarn
            return replace(row, yarn=yarn)
        at -= rows
    return row


def _multiplied(state: SizeState, first_record: int, period: int, left: int) -> int:
    """Enters whole periods without working them; returns how many rows they come to."""
    piece = state.piece
    times = left // period
    records = piece.records[first_record:]
    full = sum(1 for record in records if not record.short)
    gain = sum((record.height_mm for record in records), piece.length * 0)
    for at, record in enumerate(records):
        piece.records[first_record + at] = replace(
            record, rows=record.rows + times, step=max(full, 1), length_mm=record.length_mm + times * gain
        )
        for (yarn, stitch), number in record.tally:
            state.count_loops((yarn, record.gauge, stitch), number * times * piece.make)
    piece.rows += full * times
    piece.length += gain * times
    return period * times
