"""Rows worked again: so many times, at a rate, or until something.

In: a `RepeatRows` and where the knitting stands. Out: the rows worked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from castoff.knitting.ahead import tried
from castoff.knitting.counted import counter_of
from castoff.knitting.extents import mind_ending_row, rows_of_extent
from castoff.knitting.faults import LEFT_OVER, NEVER_ENDS, TWO_READINGS, WRONG_ENDING, WRONG_SIDE, Pointer, fault
from castoff.knitting.growing import mind_growing
from castoff.knitting.loops import MOST_ROWS
from castoff.knitting.row_faults import other
from castoff.knitting.run import run_rows, signature
from castoff.knitting.short_rows import between_wraps
from castoff.knitting.state import RowDef, SizeState
from castoff.knitting.steps_charts import rows_of_chart, standing_fabric
from castoff.knitting.steps_rows import fill, rows_meant
from castoff.knitting.work_row import face, one_more, work_row
from castoff.notation.syntax import (
    Count,
    Extent,
    ForRows,
    MarkerAct,
    Remark,
    Repeat,
    RepeatRows,
    RowRef,
    Side,
    Stitch,
    StitchTo,
    Times,
    UntilStitches,
    UntilTimes,
    UntilWorked,
    WorkFabric,
)
from castoff.span import Span


def mind_turns(state: SizeState, span: Span | None) -> None:
    """All stitches of a turned heel must have been worked before it goes on."""
    needle = state.piece.needle
    left = sum(1 for _ in needle.turns)
    if not left:
        return
    beyond = max(needle.stitches - needle.turns[-1], needle.turns[0])
    state.report(
        fault(
            LEFT_OVER,
            span or (state.history[-1].span if state.history else None),
            "{left} sts beyond the last turn have not been worked",
            left=beyond,
            hint="work the two rows once more, or fewer stitches before the first turn",
        )
    )
    state.piece.needle = replace(needle, turns=())


def repeat_rows(state: SizeState, step: RepeatRows, expected: int | None) -> None:
    """Works rows again: so many times, at a rate, or until something."""
    if step.rows.kind == "numbers" and not step.rows.name:
        _finish_range(state, step.rows)
    if step.start in ("RS", "WS"):
        begin_with(state, step.start, step.span)
    rows = rows_meant(state, step.rows)
    if not rows:
        state.piece.doubt = True
        return
    if step.rows.kind == "numbers" and step.rows.name and step.every is None and step.every_side is None:
        beside = rows_of_chart(state, step, len(rows), expected)
        if beside is not None and step.extent is not None and step.times is None:
            repeat_until(state, beside, step.extent, step.span, expected)
        if beside is not None:
            return
    if step.every is not None or step.every_side is not None:
        _at_a_rate(state, step, rows, expected)
        return
    # a single row that is repeated comes on both sides, whatever its first one was
    cycle = [replace(row, side=None) if len(rows) == 1 else row for row in rows]
    before = state.piece.needle.stitches
    state.cycle = len(cycle)
    number = 0
    if step.extent is not None and step.times is None:
        repeat_until(state, cycle, step.extent, step.span, expected)
    else:
        times = step.times
        number = _times_more(state, times, rows, expected)
        run_rows(
            state, cycle, number * len(cycle), step.span, expected=_last_expected(state, times, cycle, number, expected)
        )
        if step.extent is not None and isinstance(step.extent.until, UntilWorked):
            mind_turns(state, step.extent.span)
    if step.growing is not None and step.times is not None and number:
        mind_growing(state, step.growing, rows, before, number)
    state.piece.before = before
    state.counted += state.last_rows


def begin_with(state: SizeState, side: str, span: Span) -> None:
    """A line that says which side comes first must find that side due; rows worked to a length end so that it is."""
    piece = state.piece
    if piece.form == "round":
        return
    if piece.loose_end and piece.due not in (None, side):
        work_row(state, one_more(state, span), said=False)
    wanted: Side = "RS" if side == "RS" else "WS"
    if piece.due is None or not piece.started:
        piece.due = wanted
    elif piece.due != wanted:
        face(wanted, state)
        state.report(
            fault(
                WRONG_SIDE,
                span,
                "the first row is printed for the {said}, a {due} row is due",
                hint="a row is missing or one too many before it",
                said=side,
                due=piece.due,
            )
        )
        piece.due = wanted
        face(wanted, state)


def _last_expected(
    state: SizeState, times: Times | None, cycle: Sequence[RowDef], number: int, expected: int | None
) -> int | None:
    return expected if number else None


def _times_more(state: SizeState, times: Times | None, rows: Sequence[RowDef], expected: int | None) -> int:
    """How often rows are still to be worked: "5 times in all" counts the working that was described.

    A plain "5 times" is five more, unless only five in all come to the printed total.
    """
    if times is None:
        return 1
    number = state.number_of(times.count, 1)
    if times.kind == "all" and state.last_worked_are(rows):
        return max(0, number - 1)
    if times.kind == "ambiguous" and expected is not None and number and state.last_worked_are(rows):
        change = state.piece.needle.stitches - _stitches_before(state, len(rows))
        if state.piece.needle.stitches + change * number != expected:
            fits = state.piece.needle.stitches + change * (number - 1) == expected
            return number - 1 if fits else number
    elif times.kind == "ambiguous" and expected is None and number and state.last_worked_are(rows):
        _mind_readings(state, times, number, len(rows))
    return number


def _mind_readings(state: SizeState, times: Times, number: int, rows: int) -> None:
    """ "Rep rows 1 and 2 6 times" without a total: 6 more or 6 in all, which are not the same number of stitches."""
    have = state.piece.needle.stitches
    change = have - _stitches_before(state, rows)
    if not change or state.piece.doubt:
        return
    state.report(
        fault(
            TWO_READINGS,
            times.span,
            "the rows can be worked {times} more times ({more} sts) or {times} times in all ({all} sts)",
            hint="write `{times} more times`, or `{times} times in all`, or the total behind it",
            times=number,
            more=have + change * number,
            all=have + change * (number - 1),
        )
    )


def _stitches_before(state: SizeState, rows: int) -> int:
    """Stitches on the needle before the rows worked last."""
    have = state.piece.needle.stitches
    for record in reversed(state.piece.records):
        if rows <= 0:
            break
        rows -= record.rows
        have = record.before
    return have


def _finish_range(state: SizeState, ref: RowRef) -> None:
    """Before rows 1 to 8 come again, row 8 must have been worked, where "every WS row" stands for it."""
    last = max((last.at(state.size) or 0 for _, last in ref.ranges), default=0)
    if last == state.number + 1 and last not in state.defs:
        fill(state, last + 1)


def _at_a_rate(state: SizeState, step: RepeatRows, rows: Sequence[RowDef], expected: int | None) -> None:
    rates = [(step.every, step.times), *step.then]
    before = state.piece.needle.stitches
    total = 0
    for at, (every, times) in enumerate(rates):
        side = step.every_side if every is step.every else None
        apart = 0 if every is not None and not state.number_of(every) else rows_apart(state, every, side)
        if apart <= 0:
            continue
        between = RowDef(
            state.shared.acts_of(standing_fabric(state, step.span)), "row between", unit=rows[0].unit, span=step.span
        )
        cycle = [between] * (apart - len(rows)) + [replace(row, side=None) for row in rows]
        if step.extent is not None and times is None:
            repeat_until(state, cycle, step.extent, step.span, expected)
            total += state.last_rows
            continue
        number = 1 if times is None else state.number_of(times.count, 1)
        _mind_rate_side(state, step, rows, apart)
        last = at == len(rates) - 1
        if not run_rows(state, cycle, number * len(cycle), step.span, expected=expected if last and number else None):
            break
        total += number * len(cycle)
    state.piece.before = before
    state.last_rows = total


def _mind_rate_side(state: SizeState, step: RepeatRows, rows: Sequence[RowDef], apart: int) -> None:
    """A row printed for one side cannot come every third row; nor from a row of the other side on every fourth."""
    piece = state.piece
    side = rows[0].side
    if side is None or piece.form == "round" or piece.due is None or piece.doubt:
        return
    if step.every_side not in (None, side):
        state.report(
            fault(
                WRONG_SIDE,
                step.span,
                "{label} is printed for the {side}, and is to be worked on {every} rows",
                hint="every {side} row",
                label=rows[0].label,
                side=side,
                every=step.every_side or "",
            )
        )
        return
    first = piece.due if (apart - len(rows)) % 2 == 0 else "WS" if piece.due == "RS" else "RS"
    if apart % 2 == 0 and first == side:
        return
    state.report(
        fault(
            WRONG_SIDE,
            step.span,
            "{label} is printed for the {side}; every {apart} rows it falls on the {other}"
            if apart % 2 == 0
            else "{label} is printed for the {side}; {apart} rows apart it falls on both sides",
            hint="a row is missing or one too many before it" if apart % 2 == 0 else "an even number of rows",
            label=rows[0].label,
            side=side,
            apart=apart,
            other=first,
        )
    )


def rows_apart(state: SizeState, every: Count | None, side: Side | None) -> int:
    """Rows from one to the next of "every 4th row", "every RS row", "every other RS row"."""
    apart = max(1, state.number_of(every, 1))
    return 2 * apart if side is not None and state.piece.form == "flat" else apart


def repeat_until(state: SizeState, cycle: Sequence[RowDef], extent: Extent, span: Span, expected: int | None) -> None:
    """Works a cycle of rows until an extent is reached."""
    until = extent.until
    if isinstance(until, UntilWorked):
        _until_worked(state, cycle, until, span, expected)
        return
    if isinstance(until, UntilTimes):
        # each working of the rows does it once, and they may have been worked already
        times = max(0, state.number_of(until.count) - state.last_worked_are([replace(row, side=None) for row in cycle]))
        run_rows(state, cycle, times * len(cycle), span, expected=expected)
        return
    if not isinstance(until, UntilStitches):
        rows = rows_of_extent(state, extent, len(cycle)) or 0
        rows = mind_ending_row(state, extent, rows, [row.number for row in cycle if row.number is not None])
        run_rows(state, cycle, rows, span, expected=expected)
        loose = extent.ending is None and extent.ending_row is None
        state.piece.loose_end = loose and not isinstance(until, ForRows)
        return
    wanted = until.stitches.at(state.size)
    piece = state.piece
    if wanted is None or piece.doubt:
        if wanted is not None and not until.where:
            piece.needle = piece.needle.resized(wanted)
        return
    counted = counter_of(state, until.where, until.span)
    if counted is None:
        return
    counts = [counted()]
    if counts[0] == wanted:
        return
    start = piece.needle.stitches
    worked = 0

    def reached() -> bool:
        nonlocal worked
        worked += 1
        if between_wraps(until.where) and worked % len(cycle):
            return False  # turns come in pairs, one at each side
        counts.append(counted())
        now = counts[-1]
        if now is None:
            return worked > 2 * len(cycle)
        first = counts[0] if counts[0] is not None else wanted + start - piece.needle.stitches
        if now == wanted or (now < wanted if first > wanted else now > wanted):
            return True
        # no nearer than two and four cycles ago: it goes on like that
        far = [abs(wanted if count is None else count - wanted) for count in counts[-1 : 0 : -2 * len(cycle)][:3]]
        return far == sorted(far, reverse=True) and (len(far) == 3 or (len(far) == 2 and far[0] == far[1]))

    known = len(state.faults)
    whole = None if until.where else wanted
    sound = run_rows(state, cycle, MOST_ROWS - piece.rows - 1, span, stop=reached, until=whole)
    now = counted()
    if not sound and state.last_rows > 1 and len(state.faults) > known:
        # rows that were folded have not been counted one by one
        last = [record.after for record in piece.records[-min(3, state.last_rows - 1) :]]
        steps = [start, *last] if not until.where else [each for each in counts if each is not None]
        _blame_the_end(state, known, until, wanted, steps)
        return
    if sound and now != wanted:
        steps = [each for each in dict.fromkeys(counts) if each is not None][-3:]
        nearest = steps[-2] if len(steps) > 1 else now or 0
        state.report(
            fault(
                NEVER_ENDS,
                until.span,
                "{wanted} sts never come up: the count goes {steps}",
                hint="{last} sts come up" if len(steps) > 1 else None,
                wanted=wanted,
                steps=", ".join(str(each) for each in steps),
                last=nearest,
            )
        )
        if not until.where:
            _go_on_from(state, (wanted, *reversed(steps)))
    elif sound:
        _finish_the_cycle(state, cycle, extent)


def _go_on_from(state: SizeState, counts: Sequence[int]) -> None:
    """Of the counts that may be meant, the first that comes furthest in what follows; in doubt where none does."""
    piece = state.piece
    piece.strayed = piece.strayed or bool(piece.needle.marks)
    trials = [tried(state, piece.needle.resized(count), guessed=True) for count in dict.fromkeys(counts)]
    best = max(range(len(trials)), key=lambda at: (trials[at].where is None, trials[at].steps, -at))
    piece.needle = piece.needle.resized([*dict.fromkeys(counts)][best])
    piece.doubt = trials[best].where is not None


def _blame_the_end(state: SizeState, at: int, until: UntilStitches, wanted: int, counts: Sequence[int]) -> None:
    """Rows that were sound, repeated until one fails: it is the number to be reached that is wrong."""
    failed = state.faults[at]
    steps = [*dict.fromkeys(counts[-3:])]
    state.faults[at:] = [
        fault(
            NEVER_ENDS,
            until.span,
            "{wanted} sts never come up: the count goes {steps}, and then a row fails",
            hint="{last} sts come up",
            wanted=wanted,
            steps=", ".join(str(each) for each in steps),
            last=steps[-1],
            related=() if failed.span is None else (Pointer(failed.span, failed.message, failed.values),),
        )
    ]


def _finish_the_cycle(state: SizeState, cycle: Sequence[RowDef], extent: Extent) -> None:
    """ "Rep these 2 rows until 16 sts rem, ending with a WS row": the plain row behind the last decrease comes too.

    Where no ending is told it comes if the next line is for the other side.
    """
    piece = state.piece
    last = state.history[-1].acts if state.history else None
    place = next((at for at, row in enumerate(cycle) if row.acts is last), len(cycle) - 1)
    rest = cycle[place + 1 :]
    plain = bool(rest) and all(_keeps_its_count(row) for row in rest)
    if piece.form == "flat" and extent.ending is not None and piece.due == extent.ending and plain:
        run_rows(state, rest, len(rest), extent.span)
    elif extent.ending is None and plain and len(rest) == 1:
        piece.loose_end, piece.loose_row = True, rest[0]
    if piece.form == "flat" and extent.ending is not None and piece.due == extent.ending:
        state.report(
            fault(
                WRONG_ENDING,
                extent.span,
                "the sts are reached on a {last} row, not on a {ending} row",
                last=other(extent.ending),
                ending=extent.ending,
            )
        )


def _keeps_its_count(row: RowDef) -> bool:
    """Whether a row is plain: stitches are knitted, purled or slipped, whatever their number."""
    acts = [inner for act in row.acts for inner in (act.body if isinstance(act, Repeat) else (act,))]
    return all(
        isinstance(act, StitchTo | WorkFabric | MarkerAct | Remark)
        or (isinstance(act, Stitch) and act.name in ("k", "p", "sl", "k tbl", "p tbl"))
        for act in acts
    )


def _until_worked(
    state: SizeState, cycle: Sequence[RowDef], until: UntilWorked, span: Span, expected: int | None
) -> None:
    """Short rows again and again, until one has reached the last of the stitches; they must come further each time."""
    piece = state.piece
    seen = [signature(state, 0)]
    idle = False

    def reached() -> bool:
        nonlocal idle
        here = signature(state, len(seen) % len(cycle))
        idle = here in seen
        seen.append(here)
        return idle or not piece.needle.turns

    state.till_all_worked = True
    sound = run_rows(state, cycle, MOST_ROWS - piece.rows - 1, span, expected=expected, stop=reached)
    state.till_all_worked = False
    if not idle or not piece.needle.turns or not sound:
        return
    state.report(
        fault(
            NEVER_ENDS,
            until.span,
            "all sts are never worked: the rows come no further, and {open} places where they turned are still open",
            hint="rows that are repeated must turn further on each time",
            open=len(piece.needle.turns),
        )
    )
    piece.doubt = True
