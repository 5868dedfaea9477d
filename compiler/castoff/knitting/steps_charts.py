"""Rows as set, and rows of charts that lines call by their numbers.

In: where the knitting stands, and lines such as "cont as set", "work rows 1–24 of chart A". Out: the rows to be worked;
or, where a chart stands beside other stitches, the rows worked.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.charts import advancing, goes_on, pattern_of, stands_beside
from castoff.knitting.extents import chart_rows
from castoff.knitting.faults import NO_SUCH_ROW, ROW_NUMBER, ROWS_OFF, fault
from castoff.knitting.pattern_rows import rows_of_pattern
from castoff.knitting.run import run_rows
from castoff.knitting.state import RowDef, SizeState
from castoff.knitting.steps_rows import chart_called
from castoff.notation.syntax import Fabric, RepeatRows, ToldRepeat
from castoff.span import Span


def unit_of_rows(state: SizeState) -> str:
    """What a row is called here."""
    return "rnd" if state.piece.form == "round" else "row"


def standing_fabric(state: SizeState, span: Span) -> Fabric:
    """The fabric as it stands: the one named last, or every stitch as set."""
    return state.piece.fabric or Fabric("set", span=span)


def called(fabric: Fabric) -> str:
    """A fabric as part of the name of its rows."""
    if fabric.kind in ("knit", "purl"):
        return fabric.kind
    return fabric.name or "even"


def set_cycle(state: SizeState, span: Span) -> list[RowDef]:
    """The rows of "as set": numbered rows where those were worked last, else the fabric and the charts as they stand."""
    numbered = numbered_cycle(state)
    if numbered:
        return [again_as_set(state, row) for row in numbered]
    fabric = standing_fabric(state, span)
    unit = unit_of_rows(state)
    return [RowDef(state.shared.acts_of(fabric), f"{called(fabric)} {unit}", unit=unit, span=span)]


def numbered_cycle(state: SizeState) -> list[RowDef]:
    """The numbered rows in work, beginning with the one that is due; empty when they are no pattern to go on with."""
    if not state.defs or not state.history or state.history[-1].number is None:
        return []
    numbers = sorted(state.defs)
    if len(numbers) < 2 or numbers != list(range(1, len(numbers) + 1)):
        return []
    changed = {record.label for record in state.piece.records[-4 * len(numbers) :] if record.before != record.after}
    if any(state.defs[number].label in changed for number in numbers):
        return []
    last = state.history[-1].number
    if last not in numbers:
        return []
    order = [number for number in numbers if number > last] + [number for number in numbers if number <= last]
    rows = [state.defs[number] for number in order]
    if not any(row.acts != rows[0].acts for row in rows):
        return []
    return rows


def again_as_set(state: SizeState, row: RowDef) -> RowDef:
    """A row worked again as set: its charts go on with the rows that are due."""
    if not goes_on(row.acts, state.plan.patterns):
        return row
    known = state.shared.going_on.get(id(row.acts))
    if known is None:
        known = (row.acts, advancing(row.acts))
        state.shared.going_on[id(row.acts)] = known
    return replace(row, acts=known[1])


def start_charts(state: SizeState, name: str, row: int, span: Span | None) -> None:
    """A chart goes on from a row, wherever it stands."""
    rows = state.piece.pattern_rows
    have = len(rows_of_pattern(state, name))
    if not 0 < row <= have:
        state.report(
            fault(
                NO_SUCH_ROW,
                span,
                "{name} is to begin with row {row}; it has {have} rows",
                name=state.plan.called(name),
                row=row,
                have=have,
            )
        )
        return
    for panel in [each for each in rows if pattern_of(each) == name]:
        rows[panel] = row - 1


def rows_of_chart(state: SizeState, step: RepeatRows, rows: int, expected: int | None) -> list[RowDef] | None:
    """Minds which rows of a chart are told. Where the chart stands beside other stitches, which go on as set, the rows are
    worked here, or given back when an extent says how far; None when the chart is worked over the whole row.

    rows: how many are told.
    """
    piece = state.piece
    name = chart_called(state, step.rows)
    if name not in state.plan.patterns:
        return None
    ranges = [(low.at(state.size) or 0, high.at(state.size) or 0) for low, high in step.rows.ranges]
    _mind_rows(state, step, name, ranges[0][0], ranges[-1][1])
    if not stands_beside(piece.needle, name):
        return None
    cycle = set_cycle(state, step.span)
    if step.extent is not None and step.times is None:
        _mind_whole(state, step, name, rows)
        start_charts(state, name, ranges[0][0], step.rows.span)
        return cycle
    before = piece.needle.stitches
    times = 1 if step.times is None else state.number_of(step.times.count, 1)
    if step.times is not None and step.times.kind == "all" and piece.pattern_rows.get(name) == ranges[-1][1]:
        times -= 1
    total = 0
    for turn in range(times):
        for first, last in ranges:
            start_charts(state, name, first, step.rows.span)
            final = turn == times - 1 and (first, last) == ranges[-1]
            run_rows(state, cycle, last - first + 1, step.span, expected=expected if final else None)
            total += last - first + 1
    piece.before = before
    state.last_rows = total
    state.counted += total
    return cycle


def _mind_rows(state: SizeState, step: RepeatRows, name: str, low: int, high: int) -> None:
    piece = state.piece
    due = piece.pattern_rows.get(name, 0) % len(rows_of_pattern(state, name)) + 1
    if low in (1, due) or high <= piece.pattern_reach.get(name, 0) or piece.fresh_charts:
        return
    state.report(
        fault(
            ROW_NUMBER,
            step.rows.span,
            "row {low} of {name} is told, row {due} is due",
            hint="rows {due}–{high}" if due < high else "row {due}",
            low=low,
            high=high,
            name=state.plan.called(name),
            due=due,
        )
    )


def _mind_whole(state: SizeState, step: RepeatRows, name: str, rows: int) -> None:
    have = len(rows_of_pattern(state, name))
    if rows % have == 0:
        return
    state.report(
        fault(
            NO_SUCH_ROW,
            step.rows.span,
            "{rows} of the {have} rows of {name} are to come again and again beside other stitches, until a length",
            hint="say how often they are worked",
            rows=rows,
            have=have,
            name=state.plan.called(name),
        )
    )


def check_repeat(state: SizeState, step: ToldRepeat) -> None:
    """Holds what is told of a chart's repeat against the chart, and against the stitches it is worked over."""
    known = state.plan.patterns.get(step.chart.lower())
    name = step.chart.lower()
    if known is None:
        found = chart_rows(state, step.chart, step.span)
        if found is None:
            return
        name = found[0]
        known = state.plan.patterns[name]
    rows = len(rows_of_pattern(state, name))
    if step.rows is not None and step.rows.at(state.size) not in (None, rows):
        state.report(
            fault(
                ROWS_OFF,
                step.rows.span,
                "{name} is told to repeat every {told} rows; it has {rows} rows",
                hint="{rows} rows",
                name=state.plan.called(name),
                told=state.number_of(step.rows),
                rows=rows,
            )
        )
    if step.stitches is not None and step.stitches.at(state.size) not in (None, known.multiple):
        state.report(
            fault(
                NO_SUCH_ROW,
                step.stitches.span,
                "the repeat of {name} is told as {told} sts; it has {multiple}",
                hint="{multiple} sts",
                name=state.plan.called(name),
                told=state.number_of(step.stitches),
                multiple=known.multiple,
            )
        )
    wanted = None if step.times is None else step.times.at(state.size)
    over = _width(state, name)
    fits = (over - known.plus) // max(known.multiple, 1)
    if step.times is not None and wanted is not None and fits != wanted:
        state.report(
            fault(
                NO_SUCH_ROW,
                step.times.span,
                "the repeat of {name} is told {told} times; {over} sts hold it {fits} times",
                hint="{fits} times",
                name=state.plan.called(name),
                told=wanted,
                over=over,
                fits=fits,
            )
        )


def _width(state: SizeState, name: str) -> int:
    """Stitches that a chart stands over; all of them when it has no place of its own."""
    needle = state.piece.needle
    places = [place for place, mark in needle.marks if pattern_of(mark[1:-1]) == name]
    return places[1] - places[0] if len(places) > 1 else needle.stitches
