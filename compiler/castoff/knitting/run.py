"""Rows worked again and again: equal rows on equal needles are knitted once and counted many times.

In: a cycle of rows and how many, or until when. Out: the state moved on. When the needle comes back to where it was,
what lies between is multiplied; so a thousand rows of rib cost two.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from castoff.knitting.faults import NO_SUCH_ROW, TOO_MANY, fault
from castoff.knitting.loops import MOST_ROWS
from castoff.knitting.row_faults import other
from castoff.knitting.state import RowDef, SizeState
from castoff.knitting.work_row import work_row
from castoff.notation.syntax import OnLastRow, WorkFabric
from castoff.span import Span


def signature(state: SizeState, place: int) -> tuple[object, ...]:
    """All that decides what the next rows will do."""
    piece = state.piece
    return (
        piece.needle,
        piece.due,
        piece.form,
        piece.turned,
        piece.standing,
        tuple(piece.pattern_rows.items()),
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
) -> bool:
    """Works `rows` rows of a cycle, or fewer when `stop` says so after a row. False when a row failed.

    expected: the total printed behind the whole run, for its last row.
    """
    if rows > MOST_ROWS or state.piece.rows + rows > MOST_ROWS:
        state.report(fault(TOO_MANY, span, "{rows} rows are more than any piece has", rows=rows))
        state.piece.doubt = True
        return False
    if rows <= 0 or not cycle:
        return True
    if state.on_last_row is not None and stop is None:
        return _with_last_row(state, cycle, rows, span, state.on_last_row, expected)
    piece = state.piece
    start = piece.needle.stitches
    seen: dict[tuple[object, ...], tuple[int, int]] = {}
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
                for at in range(max(done, done + more - 300), done + more):
                    state.remember(cycle[at % len(cycle)])
                done += more
                seen.clear()
                continue
            seen[here] = (done, len(piece.records))
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
            _skip(state, rows - done if stop is None else 0)
            break
        if stop is not None and stop():
            break
    piece.before = start
    state.last_rows = done
    return sound


def _with_last_row(
    state: SizeState, cycle: Sequence[RowDef], rows: int, span: Span | None, change: OnLastRow, expected: int | None
) -> bool:
    """Works the rows, the last of them in the fabric as it stands and with its change."""
    state.on_last_row = None
    start = state.piece.needle.stitches
    if not run_rows(state, cycle, rows - 1, span):
        return False
    last = cycle[(rows - 1) % len(cycle)]
    row = replace(last, acts=(change.act,), label="the last row", span=change.span)
    sound = work_row(state, replace(row, partial=isinstance(change.act, WorkFabric)), expected)
    state.remember(last)
    state.piece.before = start
    state.last_rows = rows
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
