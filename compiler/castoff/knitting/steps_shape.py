"""Rows in a fabric, and shaping told by rate.

In: `WorkRows`, `ShapeRows`, `AtBeginning` and where the knitting stands. Out: the rows worked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from castoff.knitting.both_sides import at_outer_edges
from castoff.knitting.charts import stands_beside
from castoff.knitting.extents import mind_ending_row, rows_of_extent
from castoff.knitting.fabrics import AS_IT_STANDS, REVERSE, STOCKINETTE, rib_columns
from castoff.knitting.faults import (
    COLUMNS_SHIFTED,
    DOES_NOT_DIVIDE,
    NEVER_ENDS,
    NO_END,
    NO_SUCH_ROW,
    THEN_MISSING,
    fault,
)
from castoff.knitting.meanwhile import change_of
from castoff.knitting.pattern_rows import rows_of_pattern
from castoff.knitting.run import Stretch, run_rows, run_stretches
from castoff.knitting.setting import settled
from castoff.knitting.short_rows import mind_turned
from castoff.knitting.state import Acts, RowDef, SizeState
from castoff.knitting.steps_charts import called, set_cycle, standing_fabric, start_charts, unit_of_rows
from castoff.knitting.steps_needles import mind_over, work_over_part
from castoff.knitting.steps_repeat import begin_with, repeat_until, rows_apart
from castoff.notation.syntax import (
    AtBeginning,
    BindOffAct,
    Border,
    CastOnAct,
    Count,
    EndShaping,
    Extent,
    Fabric,
    ForLength,
    Rate,
    ShapeRows,
    Side,
    Stitch,
    ToEnd,
    UntilLength,
    UntilRow,
    UntilStitches,
    UntilTimes,
    UntilWorked,
    WorkFabric,
    WorkRows,
)
from castoff.span import Span


def is_as_set(fabric: Fabric) -> bool:
    """Whether a fabric only says to go on."""
    return fabric.kind == "set" or (fabric.kind == "named" and fabric.name.lower() in AS_IT_STANDS)


def work_rows(state: SizeState, step: WorkRows, expected: int | None) -> None:
    """Works rows in a fabric, as far as the extent says."""
    if step.over is not None and step.which != "these":
        state.piece.worked_over, state.piece.worked_which = step.over, "next"
        work_over_part(state, step.span)
    if step.fabric.name == "i-cord":
        _cord(state, step, expected)
        return
    _mind_start(state, step.fabric)
    step = replace(step, fabric=_as_it_stands(state, step))
    cycle = fabric_cycle(state, step.fabric, step.span)
    if (step.fabric.kind == "named" and not is_as_set(step.fabric)) or step.fabric.kind == "rib":
        state.piece.fabric, state.piece.kept = step.fabric, False
        _start_row(state, step.fabric)
        state.event("fabric", name=step.fabric.name, span=step.span)
    elif not is_as_set(step.fabric):
        state.piece.fabric = None
    _mind_rib(state, step)
    mind_over(state, step.over if step.which == "these" else None)
    if state.piece.form == "round":
        mind_turned(state, step.span, "whole rounds")
    before = state.piece.needle.stitches
    if isinstance(step.extent.until, UntilTimes):
        state.report(
            fault(
                NEVER_ENDS,
                step.extent.span,
                "rows of one fabric bring about no {what}",
                what=step.extent.until.what,
                hint="repeat the rows that do, or say how many rows there are",
            )
        )
        state.piece.doubt = True
        return
    if isinstance(step.extent.until, (UntilStitches, UntilWorked)):
        repeat_until(state, cycle, step.extent, step.span, expected)
    else:
        rows = rows_of_extent(state, step.extent) or 0
        rows = mind_ending_row(state, step.extent, rows, _numbers(state, step.fabric, cycle))
        run_rows(state, cycle, rows, step.span, expected=expected)
        if isinstance(step.extent.until, (UntilLength, ForLength)):
            state.piece.loose_end = step.extent.ending is None and step.extent.ending_row is None
    state.piece.before = before
    state.counted += state.last_rows
    if state.number and step.fabric.kind == "set":
        return


def _cord(state: SizeState, step: WorkRows, expected: int | None) -> None:
    """A cord is never turned: every row is knitted from its right side."""
    piece = state.piece
    mind_over(state, step.over if step.which == "these" else None)
    form, before = piece.form, piece.needle.stitches
    piece.form, piece.turned = "round", False
    piece.needle = replace(piece.needle, at=0)
    row = RowDef(state.shared.acts_of(step.fabric), "cord row", unit="rnd", span=step.span)
    rows = rows_of_extent(state, step.extent) or 0
    run_rows(state, [row], rows, step.span, expected=expected)
    piece.form, piece.due, piece.before = form, "RS", before
    piece.loose_end = False
    state.counted += state.last_rows


def _as_it_stands(state: SizeState, step: WorkRows) -> Fabric:
    """The fabric of rows: a chart that stands beside other stitches is worked with them as set; "through row 4 of chart A"
    begins the chart where it has not been begun."""
    fabric, until = step.fabric, step.extent.until
    name = fabric.name.lower()
    charted = fabric.kind == "named" and fabric.border is None and name in state.plan.patterns
    if charted and stands_beside(state.piece.needle, name):
        _start_row(state, fabric)
        return Fabric("set", span=fabric.span)
    begun = state.piece.pattern_rows
    if fabric.kind == "set" and isinstance(until, UntilRow) and until.chart not in begun:
        return replace(fabric, kind="named", name=until.chart) if until.chart in state.plan.patterns else fabric
    return fabric


def _mind_start(state: SizeState, fabric: Fabric) -> None:
    """ "Beginning with a purl row, work in St st": the side that such a row has must be the one that is due."""
    words = (fabric.start or "").split()
    side = next((word for word in words if word in ("RS", "WS")), None)
    name = fabric.name.lower()
    if side is None and words[:1] in (["k"], ["p"]) and (name in STOCKINETTE or name in REVERSE):
        side = "RS" if (words[0] == "k") == (name in STOCKINETTE) else "WS"
    if side is not None:
        begin_with(state, side, fabric.span)


def _numbers(state: SizeState, fabric: Fabric, cycle: list[RowDef]) -> list[int]:
    """Row numbers of a fabric from here on, as its pattern or the author's labels count them; empty without any."""
    rows = len(rows_of_pattern(state, fabric.name.lower())) if fabric.kind == "named" else 0
    if rows:
        done = state.piece.pattern_rows.get(fabric.name.lower(), 0)
        return [(done + at) % rows + 1 for at in range(rows)]
    return [row.number for row in cycle if row.number is not None]


def set_fabric(state: SizeState, fabric: Fabric) -> None:
    """ "Cont in St st", "in k2, p2 rib": the fabric of the rows that follow."""
    if fabric.name == "this manner":
        state.report(
            fault(
                NO_SUCH_ROW,
                fabric.span,
                "how far to go on in this manner is not told",
                hint="write `rep rows 1–4` with how often, or until when",
            )
        )
        state.piece.doubt = True
    if is_as_set(fabric):
        if fabric.border is not None:
            state.piece.fabric = replace(standing_fabric(state, fabric.span), border=fabric.border)
        return
    _mind_start(state, fabric)
    state.piece.fabric, state.piece.kept = fabric, False
    _start_row(state, fabric)


def _mind_rib(state: SizeState, step: WorkRows) -> None:
    """A rib must fit into the round, and go on in the columns of the rib that was worked in the row before."""
    columns = rib_columns(step.fabric)
    period = sum(number for _, number in columns)
    faces = settled(state.piece.needle.faces)
    if not columns or not faces or step.fabric.border is not None:
        return
    name = ", ".join(f"{letter}{number}" for letter, number in columns)
    if state.piece.form == "round" and len(faces) % period:
        state.report(
            fault(
                DOES_NOT_DIVIDE,
                step.span,
                "{name} rib: {have} sts do not divide by {period}: {left} left over",
                name=name,
                have=len(faces),
                period=period,
                left=len(faces) % period,
            )
        )
        return
    if state.piece.form == "flat" and len(set(faces)) < 2:
        _mind_last_column(state, step, name, columns, len(faces))
    ribbed = state.history and state.history[-1].number is not None and len(set(faces)) > 1 and state.defs
    if ribbed and faces[period:] != faces[:-period]:
        state.report(
            fault(
                COLUMNS_SHIFTED,
                step.span,
                "{name} rib does not go on in the columns of {label}",
                name=name,
                label=state.history[-1].label,
            )
        )


def _mind_last_column(
    state: SizeState, step: WorkRows, name: str, columns: tuple[tuple[str, int], ...], have: int
) -> None:
    """A rib set up in rows may end with part of its repeat, not in the middle of a column."""
    ends = [0]
    for _, width in columns:
        ends.append(ends[-1] + width)
    left = have % ends[-1]
    if left in ends:
        return
    below = max(end for end in ends if end < left)
    above = min(end for end in ends if end > left)
    state.report(
        fault(
            DOES_NOT_DIVIDE,
            step.span,
            "{name} rib: {have} sts end {into} st{s} into a column of {width}",
            hint="{less} or {more} sts would end with a whole column",
            name=name,
            have=have,
            into=left - below,
            s="" if left - below == 1 else "s",
            width=above - below,
            less=have - left + below,
            more=have - left + above,
        )
    )


def _start_row(state: SizeState, fabric: Fabric) -> None:
    name = fabric.name.lower()
    rows = state.piece.pattern_rows
    if name in state.plan.patterns:
        rows.setdefault(name, 0)
        if fabric.start is not None and fabric.start.isdigit():
            start_charts(state, name, int(fabric.start), fabric.span)
        elif fabric.row is not None:
            start_charts(state, name, state.number_of(fabric.row, 1), fabric.span)


def fabric_cycle(state: SizeState, fabric: Fabric, span: Span) -> list[RowDef]:
    """The rows of a fabric in turn; "as set" goes on with numbered rows where those were worked last."""
    unit = unit_of_rows(state)
    if fabric.name == "this manner":
        return _this_manner(state, span)
    if is_as_set(fabric):
        border = fabric.border
        if border is None:
            return set_cycle(state, span)
        fabric = replace(standing_fabric(state, span), border=border)
        state.piece.fabric = fabric
    return [RowDef(state.shared.acts_of(fabric), f"{called(fabric)} {unit}", unit=unit, span=span)]


def _this_manner(state: SizeState, span: Span) -> list[RowDef]:
    """The rows as they were told, shaping and all, from the one that is due."""
    last = state.history[-1].number if state.history else None
    numbers = sorted(state.defs)
    if last not in state.defs or numbers != list(range(1, len(numbers) + 1)):
        state.report(
            fault(
                NO_SUCH_ROW,
                span,
                "which rows are meant is not told: no numbered rows come before it",
                hint="write `rep rows 1–4`, or `rep last 2 rows`",
            )
        )
        state.piece.doubt = True
        return []
    order = [number for number in numbers if number > last] + [number for number in numbers if number <= last]
    return [state.defs[number] for number in order]


# ------------------------------------------------------------------------------------------------ shaping by rate


def shape_rows(state: SizeState, step: ShapeRows, expected: int | None) -> None:
    """Shaping rows at their rates, the rows between in the fabric as it stands; none where a size has 0 stitches."""
    if not change_of(state, step.act) and step.until is None:
        return
    _mind_then(state, step)
    if step.fabric is not None and not is_as_set(step.fabric):
        state.piece.fabric = step.fabric
    fabric = step.fabric if step.fabric is not None else standing_fabric(state, step.span)
    unit = unit_of_rows(state)
    between = RowDef(state.shared.acts_of(fabric), "row between", unit=unit, span=step.span)
    shaped = RowDef(shaping_acts(step.act, fabric, step.span), _shaping_name(step.act), unit=unit, span=step.span)
    before = state.piece.needle.stitches
    ended = step.rates if step.until is None else step.rates[:-1]
    open_rate = next((rate for rate in ended if rate.times is None), None)
    if open_rate is not None:
        _without_end(state, open_rate)
        return
    going_on = step.until is not None and bool(step.rates) and step.rates[-1].times is None
    until = step.until.until if step.until is not None else None
    wanted = until.stitches.at(state.size) if isinstance(until, UntilStitches) and not until.where else None
    rows = _plan(state, step, between, shaped, expected if wanted is None else wanted)
    again = [between] * (_apart(state, step.rates[-1]) - 1) + [shaped] if going_on else []
    if step.new is not None:
        each_row = [cycle[at % len(cycle)] for cycle, many in rows for at in range(many)]
        change = change_of(state, step.act)
        if going_on and wanted is not None and change > 0:
            there = before + change * sum(row is shaped for row in each_row)
            each_row += again * max(0, (wanted - there) // change)
        _with_new_stitches(state, step, step.new, each_row)
    elif going_on:
        run_stretches(state, rows, step.span)
    else:
        run_stretches(state, rows, step.span, expected=expected)
    if going_on and step.until is not None and (wanted is None or state.piece.needle.stitches != wanted):
        repeat_until(state, again, step.until, step.span, expected)
    elif step.until is not None and not going_on:
        _counted_and_ended(state, step, between, step.until, expected)
    state.piece.before = before
    state.counted += sum(many for _, many in rows)


def _counted_and_ended(
    state: SizeState, step: ShapeRows, between: RowDef, extent: Extent, expected: int | None
) -> None:
    """An end behind shaping that is counted: its stitches are those that the count comes to, a length is worked up to."""
    until = extent.until
    have = state.piece.needle.stitches
    if not isinstance(until, UntilStitches):
        repeat_until(state, [between], extent, step.span, expected)
    elif not until.where and until.stitches.at(state.size) not in (None, have) and not state.piece.doubt:
        state.report(
            fault(
                NEVER_ENDS,
                until.stitches.span,
                "the shaping is to end at {wanted} sts; as often as it is told, it comes to {have}",
                hint="{have} sts, or another number of times",
                wanted=until.stitches.at(state.size) or 0,
                have=have,
            )
        )


def _with_new_stitches(state: SizeState, step: ShapeRows, new: Fabric, rows: Sequence[RowDef]) -> None:
    """Rows whose stitches that come in at both ends are worked in a fabric of their own, which grows there."""
    within = step.fabric if step.fabric is not None else standing_fabric(state, step.span)
    each = abs(change_of(state, step.act)) // 2
    made = Stitch("m1", Count((each,) * len(state.plan.sizes), span=step.span), span=step.span)
    width = 0
    for row in rows:
        told = Count((width,) * len(state.plan.sizes), span=step.span)
        fabric = within if not width else replace(within, border=Border(told, new, span=step.span))
        acts = state.shared.acts_of(fabric)
        shapes = row.label == _shaping_name(step.act)
        run_rows(state, [replace(row, acts=(made, *acts, made) if shapes else acts)], 1, step.span)
        width += each if shapes else 0
    told = Count((width,) * len(state.plan.sizes), span=step.span)
    state.piece.fabric = replace(within, border=Border(told, new, span=step.span)) if width else within


def _mind_then(state: SizeState, step: ShapeRows) -> None:
    """Two rates side by side are worked one behind the other, if the line says so."""
    for rate in step.rates[1:]:
        if not rate.then:
            state.report(
                fault(
                    THEN_MISSING,
                    rate.span,
                    "the second rate is read as coming behind the first; the line does not say so",
                    hint="write `then` before it",
                )
            )


def _without_end(state: SizeState, rate: Rate) -> None:
    """A rate that is never told to stop cannot be worked."""
    state.report(
        fault(
            NO_END,
            rate.span,
            "how often, or up to how many stitches, is not said",
            hint="write `5 times` behind it, or `until 50 sts rem`",
        )
    )
    state.piece.doubt = True


def _apart(state: SizeState, rate: Rate) -> int:
    return rows_apart(state, rate.every, rate.every_side)


def _plan(state: SizeState, step: ShapeRows, between: RowDef, shaped: RowDef, expected: int | None) -> list[Stretch]:
    """Rows of all the rates in order, in the reading of "N times" that comes to the printed total."""

    def planned(more: bool) -> list[Stretch]:
        rows: list[Stretch] = []
        for at, rate in enumerate(step.rates):
            apart = _apart(state, rate)
            times = _times(state, rate, more)
            if times is None:
                continue
            rows += _rate_rows(state, rate, apart, min(times, 5000), between, shaped, first_rate=at == 0)
        return rows

    usual = planned(False)
    if expected is None:
        return usual
    change = change_of(state, step.act)
    start = state.piece.needle.stitches
    if start + change * _shapings(usual) == expected:
        return usual
    other = planned(True)
    return other if start + change * _shapings(other) == expected else usual


def _shapings(plan: list[Stretch]) -> int:
    """How many shaping rows there are: every cycle ends with one."""
    return sum(rows // len(cycle) for cycle, rows in plan)


def _times(state: SizeState, rate: Rate, more: bool) -> int | None:
    if rate.times is None:
        # "on next row" or "on 5th row" alone is one row; an open rate is worked by the `until` behind it
        return 1 if rate.first in ("next", "this") or isinstance(rate.first, int) else None
    times = state.number_of(rate.times.count, 1)
    if rate.first in ("next", "this") and (rate.times.kind == "more" or (more and rate.times.kind == "ambiguous")):
        return times + 1
    return times


def _rate_rows(
    state: SizeState, rate: Rate, apart: int, times: int, between: RowDef, shaped: RowDef, *, first_rate: bool
) -> list[Stretch]:
    if times <= 0:
        return []
    lead = apart - 1
    if rate.first in ("next", "this"):
        lead = 0
    elif isinstance(rate.first, int):
        lead = rate.first - 1
    elif first_rate and rate.every_side is not None and apart == 2:
        lead = 0  # "every RS row": the next one is the first
    if first_rate and not _falls_on(state, rate.every_side, lead):
        lead += 1 if lead == 0 or rate.first in ("next", "this") else -1
    cycle = (*[between] * (apart - 1), shaped)
    if lead == apart - 1:
        return [(cycle, times * apart)]
    first = (*[between] * lead, shaped)
    return [(first, len(first)), (cycle, (times - 1) * apart)]


def _falls_on(state: SizeState, side: Side | None, lead: int) -> bool:
    """Whether the row that so many others lead up to is of that side."""
    due = state.piece.due
    if side is None or due is None or state.piece.form == "round":
        return True
    return (due == side) == (lead % 2 == 0)


def _shaping_name(act: EndShaping | BindOffAct | CastOnAct) -> str:
    if isinstance(act, EndShaping):
        return "dec row" if act.decrease else "inc row"
    return "bind-off row" if isinstance(act, BindOffAct) else "cast-on row"


def shaping_acts(act: EndShaping | BindOffAct | CastOnAct, fabric: Fabric, span: Span, *, at_end: bool = False) -> Acts:
    """The acts of a whole row that does its shaping, the rest in the fabric."""
    rest = WorkFabric(fabric, ToEnd(span=span), span=span)
    if isinstance(act, EndShaping):
        if act.fabric is None:
            act = EndShaping(act.stitches, act.decrease, act.ends, fabric, span=act.span)
        return (act,)
    if isinstance(act, CastOnAct):
        return (rest, act) if at_end or act.where == "end" else (act, rest)
    return (act, rest)


def at_beginning(state: SizeState, step: AtBeginning, expected: int | None) -> None:
    """Binding off, casting on or shaping at the beginning (or end) of the next rows.

    Where a size has 0 stitches, it works none of these rows (trade usage: "where the figure 0 appears, no stitches or rows
    are worked for that size"; from memory).
    """
    if not change_of(state, step.act):
        return
    if step.side is not None:
        begin_with(state, step.side, step.span)
    fabric = step.fabric if step.fabric is not None else standing_fabric(state, step.span)
    rows = state.number_of(step.rows, 1)
    unit = unit_of_rows(state)
    row = RowDef(
        (step.act, *step.rest) if step.rest else shaping_acts(step.act, fabric, step.span, at_end=step.at_end),
        _shaping_name(step.act),
        unit=unit,
        span=step.span,
    )
    start = state.piece.needle.stitches
    outer = at_outer_edges(state, step, rows) if not isinstance(step.act, EndShaping) else None
    if outer is None:
        run_rows(state, [row], rows, step.span, expected=expected)
    else:
        plain = even_rows(state, step.span)[0]
        told = [row if each else plain for each in outer]
        if outer[:-1] and not outer[-1] and outer[-2] and expected is None and _takes_all(state, step, sum(outer)):
            told.pop()  # nothing is left on this side to be worked back across
        run_rows(state, told, len(told), step.span)
    state.piece.before = start
    state.counted += rows


def _takes_all(state: SizeState, step: AtBeginning, times: int) -> bool:
    """Whether binding off so often leaves no stitch."""
    return state.piece.needle.stitches + change_of(state, step.act) * times == 0


def even_rows(state: SizeState, span: Span) -> list[RowDef]:
    """A row of the fabric as it stands, to be worked as often as it takes."""
    return [RowDef(state.shared.acts_of(standing_fabric(state, span)), "even row", unit=unit_of_rows(state), span=span)]


def planned_rows(state: SizeState, step: ShapeRows) -> list[bool]:
    """For each row from here on, whether it is a shaping row."""
    unit = unit_of_rows(state)
    between = RowDef((), "row between", unit=unit, span=step.span)
    shaped = RowDef((), "shaping row", unit=unit, span=step.span)
    plan = _plan(state, step, between, shaped, None)
    return [cycle[at % len(cycle)] is shaped for cycle, rows in plan for at in range(rows)]
