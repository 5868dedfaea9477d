"""Charts in the knitting: where on the needle each stands, and which of its rows is due there.

In: a row in work that comes to a chart or stitch pattern of the source. Out: the acts of the row that is due, and the
places of the chart's first and last stitch, kept on the needle like markers that nobody sees.

A chart's place outlives the line: the rows between may decrease beside it, put it on a holder and take it back. A chart
that is worked twice on one needle has two places, each with a row of its own. A row number that is told is held against
the row that is due.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from castoff.knitting.faults import LEFT_OVER, NO_SUCH_ROW, ROW_NUMBER, WRONG_SIDE, Fault, fault
from castoff.knitting.loops import PANEL, Needle
from castoff.knitting.row import RowWork
from castoff.knitting.targets import count_of
from castoff.notation.syntax import (
    Action,
    Fabric,
    MarkerAct,
    Remark,
    Repeat,
    Stitch,
    StitchTo,
    UseYarn,
    WorkFabric,
)
from castoff.span import Span

_FIRST, _LAST = "<", ">"


@dataclass(frozen=True, slots=True)
class ChartRow:
    """A row of a chart about to be worked.

    panel: its place. pattern: the chart, lower case; called: as the source calls it. number: of the row, from 1.
    """

    panel: str
    pattern: str
    called: str
    number: int
    acts: tuple[Action, ...]


@dataclass(frozen=True, slots=True)
class Panel:
    """Where a chart stands in a row, in the order in which the row meets its stitches."""

    name: str
    start: int
    stop: int

    @property
    def pattern(self) -> str:
        """The chart, lower case."""
        return pattern_of(self.name)


def stands_beside(needle: Needle, pattern: str) -> bool:
    """Whether a chart stands on part of a needle, beside other stitches."""
    places = [place for place, name in needle.marks if name.startswith(PANEL) and pattern_of(name[1:-1]) == pattern]
    return bool(places) and (len(places) > 2 or places[0] > 0 or places[-1] < needle.stitches)


def pattern_of(panel: str) -> str:
    """The chart that stands at a place: "chart a" for "chart a|1"."""
    return panel.rpartition("|")[0] or panel


def panels_on(needle: Needle) -> tuple[str, ...]:
    """The places of charts on a needle, in its order."""
    return tuple(dict.fromkeys(name[1:-1] for _, name in needle.marks if name.startswith(PANEL)))


def _panels(row: RowWork) -> list[Panel]:
    """The charts that lie ahead in a row; a mark at the beginning of a round is not kept, and stands for it."""
    places: dict[str, dict[str, int]] = {}
    for place, name in row.ahead:
        if name.startswith(PANEL):
            places.setdefault(name[1:-1], {})[name[-1]] = place
    here = {name for place, name in row.out_marks if place == row.outn and name.startswith(PANEL)}
    for name in here:
        places.setdefault(name[1:-1], {}).setdefault(name[-1], row.pos)
    left, right = (_FIRST, _LAST) if row.setting.side == "RS" else (_LAST, _FIRST)
    found = []
    for panel, ends in places.items():
        if right in ends and ends[right] == row.pos and left not in ends:
            continue  # it ends here, and has been worked
        start, stop = ends.get(left, 0), ends.get(right, row.end)
        if start >= row.pos and stop > start:
            found.append(Panel(panel, start, stop))
    return sorted(found, key=lambda panel: (panel.start, panel.stop))


def chart_here(row: RowWork, action: WorkFabric) -> int | None:
    """Stitches of the chart that stands here and that a line goes on with, without saying how far; None when none does."""
    fabric = action.fabric
    chart = fabric.kind == "set" and fabric.name == "chart"
    if not chart and (fabric.kind != "named" or fabric.name.lower() not in row.plan.patterns):
        return None
    for panel in _panels(row):
        if panel.start == row.pos and (chart or panel.pattern == fabric.name.lower()):
            return panel.stop - panel.start
    return None


def chart_meant(row: RowWork, fabric: Fabric, span: Span | None) -> Fabric | None:
    """The chart that "continue chart" goes on with: the one that stands here, or the only one in work."""
    here = [panel.pattern for panel in _panels(row) if panel.start == row.pos]
    known = list(dict.fromkeys(pattern_of(name) for name, _ in row.setting.pattern_rows))
    found = here[:1] or (known if len(known) == 1 else [])
    if found:
        return replace(fabric, kind="named", name=found[0])
    row.fail(
        fault(
            NO_SUCH_ROW,
            span,
            "which chart is meant is not told: {names}",
            names="several are in work, " + ", ".join(row.plan.called(each) for each in known)
            if known
            else "none has been begun",
            hint="name it: `chart A`",
        )
    )
    return None


def charts_among(row: RowWork, count: int, span: Span | None) -> list[Panel]:
    """The charts that stand among the next stitches; a chart that only partly does cannot go on."""
    stop = row.pos + count
    found: list[Panel] = []
    right = _LAST if row.setting.side == "RS" else _FIRST
    met = {panel.name for panel in _panels(row)}
    for place, name in row.ahead:
        if name.startswith(PANEL) and name[-1] == right and place > row.pos and name[1:-1] not in met:
            row.fail(
                fault(
                    LEFT_OVER,
                    span,
                    "what is worked as set begins in the middle of {name}: {left} of its sts are left",
                    name=row.plan.called(pattern_of(name[1:-1])),
                    left=place - row.pos,
                )
            )
            return []
    for panel in _panels(row):
        if panel.start >= stop:
            continue
        if panel.stop > stop:
            row.fail(
                fault(
                    LEFT_OVER,
                    span,
                    "{name} stands over {width} sts, the last {over} of them lie beyond what is worked as set",
                    name=row.plan.called(panel.pattern),
                    width=panel.stop - panel.start,
                    over=panel.stop - stop,
                )
            )
            return []
        if not found or panel.start >= found[-1].stop:
            found.append(panel)
    return found


def begin_chart(row: RowWork, fabric: Fabric, count: int, span: Span | None) -> ChartRow | None:
    """The row of a chart that is worked over the next stitches; None, with a fault, when there is no such row."""
    name = fabric.name.lower()
    steps = row.setting_rows(name)
    if not steps:
        row.take(1, 1, count, row.src[row.pos : row.pos + count], fabric.name, span)
        return None
    here = next((panel for panel in _panels(row) if panel.start == row.pos and panel.pattern == name), None)
    panel = here.name if here is not None else _new_panel(row, name)
    last = _last_row(row, panel, name, known=here is not None)
    due = last % len(steps) + 1
    number = due if fabric.row is None else count_of(row, fabric.row, due)
    if not 0 < number <= len(steps):
        row.fail(
            fault(
                NO_SUCH_ROW,
                span,
                "row {number} of {name} is told; it has {rows} rows",
                number=number,
                name=row.plan.called(name),
                rows=len(steps),
            )
        )
        return None
    if number != due and fabric.start is None and not row.setting.fresh:
        row.told.append(
            fault(
                ROW_NUMBER,
                span,
                "row {number} of {name} is told, row {due} is due"
                if last
                else "the first row told of {name} is row {number}",
                hint="row {due}; a chart that begins again is told so: `beginning with row {number}`",
                number=number,
                name=row.plan.called(name),
                due=due,
            )
        )
    _mind_repeat(row, fabric, name)
    if number == due:
        _mind_side(row, fabric, name, number, span)
    row.ahead = [mark for mark in row.ahead if mark[1][1:-1] != panel or not mark[1].startswith(PANEL)]
    row.out_marks = [mark for mark in row.out_marks if mark[1][1:-1] != panel or not mark[1].startswith(PANEL)]
    return ChartRow(panel, name, row.plan.called(name), number, steps[number - 1])


def keeps(row: RowWork, fabric: Fabric, count: int) -> bool:
    """Whether a pattern goes on over stitches that are no whole repeats: a line said so, and its rows keep the count."""
    name = fabric.name.lower()
    pattern = row.plan.patterns.get(name)
    if not row.setting.kept or pattern is None or not row.setting_rows(name):
        return False
    part = count < pattern.plus or (count - pattern.plus) % max(pattern.multiple, 1) != 0
    return part and all(_level(row, acts) for acts in row.setting_rows(name))


def _level(row: RowWork, acts: Sequence[Action]) -> bool:
    """Whether acts leave as many stitches as they take, in every repeat."""
    change = 0
    for act in acts:
        if isinstance(act, Repeat | UseYarn) and act.body is not None:
            if not _level(row, act.body):
                return False
        elif isinstance(act, Stitch):
            known = row.plan.stitch(act.name)
            if known is None:
                return False
            change += (known.makes - known.takes) * (1 if act.count is None else count_of(row, act.count, 1))
        elif not isinstance(act, Remark | StitchTo | WorkFabric | UseYarn):
            return False
    return change == 0


def go_on_kept(row: RowWork, name: str) -> None:
    """Notes that the row due of a pattern has been worked as far as its repeats go; its places are not known any more."""
    if name not in row.patterns:
        row.patterns[name] = dict(row.setting.pattern_rows).get(name, 0) % len(row.setting_rows(name)) + 1
    row.ahead = [mark for mark in row.ahead if not _of_pattern(mark[1], name)]
    row.out_marks = [mark for mark in row.out_marks if not _of_pattern(mark[1], name)]


def _of_pattern(mark: str, name: str) -> bool:
    return mark.startswith(PANEL) and pattern_of(mark[1:-1]) == name


def parted_patterns(row: RowWork) -> tuple[str, ...]:
    """The patterns on the needle, where they are kept over stitches that are no whole repeats."""
    if not row.setting.kept:
        return ()
    marks = (*row.ahead, *row.out_marks)
    here = dict.fromkeys(pattern_of(name[1:-1]) for _, name in marks if name.startswith(PANEL))
    return tuple(name for name in here if all(_level(row, acts) for acts in row.setting_rows(name)))


def end_chart(row: RowWork, chart: ChartRow, start: int) -> None:
    """Notes where the chart stands now and which of its rows has been worked."""
    left, right = (_FIRST, _LAST) if row.setting.side == "RS" else (_LAST, _FIRST)
    row.out_marks.append((start, f"{PANEL}{chart.panel}{left}"))
    row.out_marks.append((row.outn, f"{PANEL}{chart.panel}{right}"))
    row.patterns[chart.panel] = chart.number
    row.patterns[chart.pattern] = chart.number


def told_of_chart(row: RowWork, found: Fault, chart: ChartRow, count: int, span: Span | None) -> Fault:
    """A fault within a chart's row: the chart's own where the stitches fit it, else that of the line which counts them."""
    pattern = row.plan.patterns[chart.pattern]
    if span is None or count < pattern.plus or (count - pattern.plus) % max(pattern.multiple, 1) == 0:
        return found
    less = (count - pattern.plus) // pattern.multiple * pattern.multiple + pattern.plus
    return fault(
        found.rule,
        span,
        "row {number} of {name} is worked over {count} sts; it needs a multiple of {multiple} sts"
        + (" plus {plus}" if pattern.plus else ""),
        hint="{less} or {more} sts would fit" if less else "{more} sts would fit",
        related=() if found.span is None or found.span == span else ((found.span, "here the row does not come out"),),
        number=chart.number,
        name=chart.called,
        count=count,
        multiple=pattern.multiple,
        plus=pattern.plus,
        less=less,
        more=less + pattern.multiple,
    )


def _new_panel(row: RowWork, name: str) -> str:
    taken = {mark[1:-1] for _, mark in (*row.ahead, *row.out_marks) if mark.startswith(PANEL)}
    number = 0
    while f"{name}|{number}" in taken:
        number += 1
    return f"{name}|{number}"


def _last_row(row: RowWork, panel: str, name: str, *, known: bool) -> int:
    """The row worked last at a place; a new place begins with the chart, one whose marks were lost goes on."""
    worked = dict(row.setting.pattern_rows)
    others = any(pattern_of(mark[1:-1]) == name for _, mark in row.needle.marks if mark.startswith(PANEL))
    if known or not others:
        return worked.get(panel, worked.get(name, 0)) if known else worked.get(name, 0)
    return 0


def _mind_repeat(row: RowWork, fabric: Fabric, name: str) -> None:
    """ "Work 8-st rep of chart": the repeat told must be the chart's."""
    multiple = row.plan.patterns[name].multiple
    told = count_of(row, fabric.repeat, multiple)
    if told == multiple:
        return
    row.told.append(
        fault(
            NO_SUCH_ROW,
            None if fabric.repeat is None else fabric.repeat.span,
            "the repeat of {name} is told as {told} sts; it has {multiple}",
            name=row.plan.called(name),
            told=told,
            multiple=multiple,
        )
    )


def _mind_side(row: RowWork, fabric: Fabric, name: str, number: int, span: Span | None) -> None:
    """A chart's row is worked on the side that the chart says."""
    first = None if row.first_side is None or row.setting.form != "flat" else row.first_side(name)
    if first is None:
        return
    # rows that come on every second or fourth row are all on the side of the first
    apart = (number - 1) * max(row.plan.patterns[name].every, 1)
    wanted = first if apart % 2 == 0 else "WS" if first == "RS" else "RS"
    if wanted != row.setting.side:
        row.told.append(
            fault(
                WRONG_SIDE,
                span,
                "row {number} of {name} is a {wanted} row, a {side} row is in work",
                hint="a row is missing or one too many before it",
                number=number,
                name=row.plan.called(name),
                wanted=wanted,
                side=row.setting.side,
            )
        )


def advancing(acts: Sequence[Action]) -> tuple[Action, ...]:
    """The acts of a row worked again as set: every chart at the row that is due, markers slipped that were placed."""
    again: list[Action] = []
    for act in acts:
        if isinstance(act, WorkFabric) and act.fabric.row is not None:
            again.append(replace(act, fabric=replace(act.fabric, row=None, start=None)))
        elif isinstance(act, MarkerAct) and act.act == "place":
            again.append(replace(act, act="slip"))
        else:
            again.append(act)
    return tuple(again)


def goes_on(row_acts: Sequence[Action], patterns: Collection[str]) -> bool:
    """Whether a row has a chart or stitch pattern in it."""
    return any(
        isinstance(act, WorkFabric)
        and (act.fabric.name.lower() in patterns or (act.fabric.kind == "set" and act.fabric.name == "chart"))
        for act in row_acts
    )
