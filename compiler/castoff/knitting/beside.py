"""What a line puts AT THE SAME TIME beside other rows: taken up before them, finished behind them.

In: a `Meanwhile` and where the knitting stands. Out: timetables in the state (`meanwhile.py` works them row by row), and
what is left of the line, which comes when they have been worked. What cannot be laid beside other rows is refused.
"""

from __future__ import annotations

from castoff.knitting.counted import WHOLE
from castoff.knitting.extents import rows_of_extent
from castoff.knitting.faults import NEVER_ENDS, NOT_BESIDE, fault
from castoff.knitting.meanwhile import change_of
from castoff.knitting.run import run_rows
from castoff.knitting.state import Beside, RowDef, SizeState
from castoff.knitting.steps_repeat import rows_apart
from castoff.knitting.steps_rows import rows_meant
from castoff.knitting.steps_shape import even_rows, planned_rows
from castoff.notation.syntax import (
    AtBeginning,
    BindOffAct,
    CastOnAct,
    EndShaping,
    Meanwhile,
    Note,
    RepeatRows,
    ShapeRows,
    Step,
    Until,
    UntilStitches,
    UntilTimes,
    UntilWorked,
)
from castoff.span import Span

_RUNNING = (ShapeRows, AtBeginning)


def _runs(step: Step) -> bool:
    rate = isinstance(step, RepeatRows) and (step.every is not None or step.every_side is not None)
    return isinstance(step, _RUNNING) or rate


def parted(step: Meanwhile) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """The steps that run beside other rows, and those that come when these have been worked."""
    at = 0
    while at < len(step.steps) and (_runs(step.steps[at]) or isinstance(step.steps[at], Note)):
        at += 1
    return step.steps[:at], step.steps[at:]


def set_beside(state: SizeState, step: Meanwhile) -> None:
    """Enters what is to be done at the same time, before the rows it runs beside."""
    if any(each.source is step for each in state.beside):
        return
    running, _ = parted(step)
    for each in running:
        if isinstance(each, (ShapeRows, AtBeginning, RepeatRows)):
            timetable = _timetable(state, step, each)
            if timetable is not None:
                state.beside.append(timetable)


def refuse(state: SizeState, step: Meanwhile) -> None:
    """Says that a line cannot be laid beside others."""
    state.report(
        fault(
            NOT_BESIDE,
            step.span,
            "this cannot be laid beside other rows: only increases, decreases, binding off and casting on at a rate can",
            hint="write the rows out one after another",
        )
    )
    state.piece.doubt = True


def finish_beside(state: SizeState) -> None:
    """Works what is left of the shaping that ran beside other rows."""
    waiting = [each for each in state.beside if not each.done]
    for each in waiting:
        if each.start is None and not state.piece.doubt:
            state.report(
                fault(
                    NOT_BESIDE, each.span, "what is to be done at the same time never begins: its moment does not come"
                )
            )
            state.piece.doubt = True
    left = max(
        (len(each.rows) + each.start - state.piece.rows for each in waiting if each.start is not None), default=0
    )
    if left > 0 and not state.piece.doubt:
        span = waiting[0].span
        run_rows(state, even_rows(state, span), left, span)
    for each in waiting:
        _go_on_until(state, each)
    for each in state.beside:
        if each.until not in (None, state.piece.needle.stitches):
            state.report(
                fault(
                    NEVER_ENDS,
                    each.span,
                    "{wanted} sts are to rem when both shapings are done; {have} are on the needle",
                    hint="{have} sts",
                    wanted=each.until or 0,
                    have=state.piece.needle.stitches,
                )
            )
            state.piece.doubt = True
    state.beside = []


def _go_on_until(state: SizeState, beside: Beside) -> None:
    """Works shaping that goes on until so many stitches are left, when the rows beside it have come to their end."""
    if beside.done or beside.start is None or beside.until is None or not any(beside.again) or not beside.change:
        return
    steps = abs(state.piece.needle.stitches - beside.until) // abs(beside.change) + 1
    rows = even_rows(state, beside.span)
    run_rows(state, rows, steps * len(beside.again), beside.span, stop=lambda: beside.done or state.piece.doubt)


def _timetable(state: SizeState, source: Meanwhile, step: ShapeRows | AtBeginning | RepeatRows) -> Beside | None:
    """The timetable of shaping that runs beside other rows, from where its trigger says."""
    start: int | None = state.piece.rows
    trigger = source.trigger
    if trigger is not None:
        if isinstance(trigger.until, UntilWorked) or _of_a_part(trigger.until):
            refuse(state, source)
            return None
        if isinstance(trigger.until, (UntilStitches, UntilTimes)):
            start = None
        else:
            start = state.piece.rows + (rows_of_extent(state, trigger) or 0)
    if isinstance(step, RepeatRows):
        return _repeated(state, source, step, start)
    change = change_of(state, step.act)
    rows = [True] * state.number_of(step.rows, 1) if isinstance(step, AtBeginning) else planned_rows(state, step)
    both = isinstance(step.act, EndShaping) and step.act.ends in ("each", "both")
    found = Beside(source, start, rows, change, _what(step.act, change), step.span, both=both)
    until = step.until.until if isinstance(step, ShapeRows) and step.until is not None else None
    if until is not None and _of_a_part(until):
        refuse(state, source)
        return None
    if isinstance(until, UntilStitches) and isinstance(step, ShapeRows) and step.rates and step.rates[-1].times is None:
        apart = rows_apart(state, step.rates[-1].every, step.rates[-1].every_side)
        found.until = until.stitches.at(state.size)
        found.again = (*[False] * (apart - 1), True)
    return found


def _of_a_part(until: Until) -> bool:
    """Whether stitches are counted that are not all of those on the needle."""
    return isinstance(until, UntilStitches) and until.where not in WHOLE


def _what(act: EndShaping | BindOffAct | CastOnAct, change: int) -> str:
    if isinstance(act, BindOffAct):
        return "bind off"
    if isinstance(act, CastOnAct):
        return "cast on"
    return "dec" if change < 0 else "inc"


def _repeated(state: SizeState, source: Meanwhile, step: RepeatRows, start: int | None) -> Beside | None:
    """A row described before that comes again at a rate: what it changed when it was worked."""
    rows = rows_meant(state, step.rows)
    change = _changed_by(state, rows[0]) if len(rows) == 1 else None
    if change is None or step.times is None:
        if rows:
            refuse(state, source)
        return None
    table: list[bool] = []
    for every, times in ((step.every, step.times), *step.then):
        side = step.every_side if every is step.every else None
        apart = 0 if every is not None and not state.number_of(every) else rows_apart(state, every, side)
        table += ([False] * (apart - 1) + [True]) * min(state.number_of(times.count, 1), 5000) if apart > 0 else []
    return Beside(source, start, table, change, "dec" if change < 0 else "inc", step.span, both=change % 2 == 0)


def _changed_by(state: SizeState, row: RowDef) -> int | None:
    span: Span | None = row.span
    for record in reversed(state.piece.records):
        if record.span == span:
            return record.after - record.before
    return None
