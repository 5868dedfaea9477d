"""The acts of a row, one after another, on a row in work.

In: a `RowWork` and the acts of the syntax tree. Out: nothing; the row has been worked or has failed.
"""

from __future__ import annotations

from castoff.knitting.charts import (
    begin_chart,
    chart_here,
    chart_meant,
    charts_among,
    end_chart,
    go_on_kept,
    keeps,
    parted_patterns,
    told_of_chart,
)
from castoff.knitting.edge_acts import bind_off, cast_on, hold, make_opening, pick_up
from castoff.knitting.fabric import Done, DoneRepeat
from castoff.knitting.fabrics import AS_IT_STANDS, faces_made, names_worked, standing_of
from castoff.knitting.faults import (
    CABLE_HELD,
    DOES_NOT_DIVIDE,
    ENDLESS,
    LEFT_OVER,
    NO_MARKER,
    OVER_A_GAP,
    TOO_MANY,
    UNKNOWN_STITCH,
    Fault,
    fault,
)
from castoff.knitting.held import lie_in_work, take_held, work_joined
from castoff.knitting.loops import MOST_STITCHES, PANEL
from castoff.knitting.marker_acts import work_marker
from castoff.knitting.marking import mark_in_row, mind_marked
from castoff.knitting.needle_acts import from_needle, go_onto
from castoff.knitting.plan import crossed
from castoff.knitting.row import RowWork
from castoff.knitting.shape_acts import shape_ends, shape_evenly
from castoff.knitting.targets import count_of, reach
from castoff.knitting.turn_acts import make_double, pick_up_wrap, turn
from castoff.knitting.unit import Unit, taken_by, unit_of
from castoff.notation.syntax import (
    Action,
    BindOffAct,
    Cable,
    CastOnAct,
    Count,
    Drop,
    EndShaping,
    Evenly,
    Fabric,
    FromNeedle,
    HoldAct,
    IntoOne,
    Join,
    MarkerAct,
    MarkStitch,
    OnNeedle,
    OpeningAct,
    PickUp,
    PickUpWrap,
    Remark,
    Repeat,
    Stitch,
    StitchTo,
    ToEnd,
    Turn,
    UseYarn,
    WorkFabric,
    WorkHeld,
)
from castoff.span import Span

WITH_LOOP = "with the loop"
"""Whose stitches they are when the loop of the bind-off before them is one."""

MOST_TURNS_OF_A_REPEAT = 10_000
_AFTER_LOOP = (
    Stitch,
    StitchTo,
    Repeat,
    WorkFabric,
    IntoOne,
    Cable,
    UseYarn,
    CastOnAct,
    Turn,
    BindOffAct,
    HoldAct,
)
"""Acts before which the loop left by binding off becomes a stitch of its own."""


def work(row: RowWork, actions: tuple[Action, ...]) -> None:
    """Works acts in order, until the row fails or turns."""
    for at, action in enumerate(actions):
        if row.halted:
            return
        if row.turned:
            row.rest = actions[at:] + row.rest
            return
        if isinstance(action, Stitch) and action.of == WITH_LOOP:
            if not row.loop_waiting:
                row.fail(fault(NO_MARKER, action.span, "no st is left from binding off, to be one of them"))
                return
            row.loop_waiting = False
        if row.loop_waiting and row.reading.loop_counted and isinstance(action, _AFTER_LOOP):
            row.settle_loop()
        if isinstance(action, CastOnAct) and action.where == "each gap":
            _over_each_gap(
                row, action, actions[at - 1] if at else None, actions[at + 1] if at + 1 < len(actions) else None
            )
        else:
            behind = actions[at + 1] if at + 1 < len(actions) else None
            row.replacing = isinstance(behind, MarkerAct) and behind.act == "replace"
            row.removing = isinstance(behind, MarkerAct) and behind.along
            row.replaced = row.replaced and not row.replacing
            made = row.outn
            _act(row, action)
            if not isinstance(action, (Remark, MarkerAct)):
                row.last_made = row.outn - made


def _over_each_gap(row: RowWork, action: CastOnAct, before: Action | None, behind: Action | None) -> None:
    """So many stitches over every gap of the row, worked in between as the act beside it says."""
    filler = next((act for act in (before, behind) if isinstance(act, (StitchTo, WorkFabric))), None)
    if not row.gaps or filler is None:
        row.fail(fault(OVER_A_GAP, action.span, "no gap is in this row to cast on over"))
        return
    while row.gaps and not row.halted:
        if row.gaps[0] != row.pos:
            _act(row, filler)
        if row.halted or not row.gaps or row.gaps[0] != row.pos:
            break
        cast_on(row, action)
    if filler is before and not row.halted and row.pos < row.end:
        _act(row, filler)


def _act(row: RowWork, action: Action) -> None:
    if isinstance(action, Stitch):
        _stitch(row, action)
    elif isinstance(action, StitchTo):
        distance = reach(row, action.target)
        if distance is not None:
            work_stitch(row, action.name, distance, action.span, to_place=True)
    elif isinstance(action, Repeat):
        _repeat(row, action)
    elif isinstance(action, WorkFabric):
        _fabric(row, action)
    elif isinstance(action, MarkerAct):
        work_marker(row, action)
    elif isinstance(action, MarkStitch):
        mark_in_row(row, action)
    elif isinstance(action, UseYarn):
        _yarn(row, action)
    elif isinstance(action, BindOffAct):
        bind_off(row, action)
    elif isinstance(action, CastOnAct):
        cast_on(row, action)
    elif isinstance(action, PickUp):
        pick_up(row, action)
    elif isinstance(action, HoldAct):
        hold(row, action)
    elif isinstance(action, OnNeedle):
        go_onto(row, action)
    elif isinstance(action, FromNeedle):
        number = from_needle(row, action)
        if number:
            work_stitch(row, action.stitch, number, action.span)
    elif isinstance(action, OpeningAct):
        make_opening(row, action)
    elif isinstance(action, WorkHeld):
        if row.may_wrap and 0 < row.pos < len(row.src):
            row.fail(
                fault(
                    LEFT_OVER,
                    action.span,
                    "{left} sts are left unworked before the held ones",
                    left=len(row.src) - row.pos,
                )
            )
            return
        made = take_held(row, action.holder, action.count, action.span)
        if made is not None:
            _work_within(row, made, action.body, action.span)
    elif isinstance(action, Join) and action.stitch and lie_in_work(row, action):
        work_stitch(row, action.stitch, row.end - row.pos, action.span, to_place=True)
    elif isinstance(action, Join):
        made = work_joined(row, action)
        if made is not None:
            row.close_gap()
            row.out.append(made)
            row.outn += len(made)
            row.level = False
    elif isinstance(action, Turn):
        turn(row, action)
    elif isinstance(action, (IntoOne, Cable)):
        _crossed_or_into(row, action)
    elif isinstance(action, PickUpWrap):
        pick_up_wrap(row, action)
    elif isinstance(action, Drop):
        _drop(row, action)
    elif isinstance(action, Evenly):
        shape_evenly(row, action)
    elif isinstance(action, EndShaping):
        shape_ends(row, action, work_fabric)
    elif isinstance(action, Remark):
        return


def _stitch(row: RowWork, action: Stitch) -> None:
    if action.count is None and row.only_stitch and action.name in ("k", "p"):
        # "With A, knit.": the whole row
        work_stitch(row, action.name, row.end - row.pos, action.span, to_place=True)
        return
    if action.name == "ds":
        make_double(row, action.span)
        return
    times = count_of(row, action.count, 1)
    if action.of in ("marked", "centre") and not mind_marked(row, action):
        return
    if action.of in ("the last", "the rem") and row.setting.partial and 0 < times < row.end - row.pos:
        row.fail(
            fault(
                LEFT_OVER,
                action.span,
                "{of} {times} sts are to be worked; {left} are left",
                hint="{left} sts",
                of=action.of,
                times=times,
                left=row.end - row.pos,
            )
        )
        return
    work_stitch(row, action.name, times, action.span)


def work_stitch(row: RowWork, name: str, times: int, span: Span, *, to_place: bool = False) -> None:
    """The same stitch so many times; as far as a place when `to_place`, and then `times` are loops to use up."""
    if times <= 0:
        return
    known = row.plan.stitch(name)
    if known is None:
        row.fail(fault(UNKNOWN_STITCH, span, "nothing says how many stitches {name} takes and makes", name=name))
        return
    takes, makes = known.takes, known.makes
    if to_place:
        if takes == 0:
            row.fail(fault(ENDLESS, span, "{name} uses up no stitches, so that it never comes to the place", name=name))
            return
        if times % takes:
            row.fail(
                fault(
                    DOES_NOT_DIVIDE,
                    span,
                    "{have} sts do not divide by {takes}: {left} left over",
                    have=times,
                    takes=takes,
                    left=times % takes,
                )
            )
            return
        times //= takes
    if row.wraps.picking and takes == makes == 1 and known.kind != "slip":
        yarn_over = row.wraps.next_of(("yo",))
        if yarn_over is not None and yarn_over < row.pos + times:
            _around_yarn_over(row, name, times, yarn_over - row.pos, span, to_place=to_place)
            return
    if max(takes, makes) * times > MOST_STITCHES:
        row.fail(fault(TOO_MANY, span, "{name} {times} times is more than any needle holds", name=name, times=times))
        return
    if known.kind == "slip" and takes == makes:
        faces = row.src[row.pos : row.pos + takes * times]
    elif takes == 0 and known.kind == "increase" and "yo" in name.lower():
        faces = "y" * (makes * times)
    elif row.setting.side == "RS" and (crossing := crossed(known)):
        faces = crossing * times
    elif known.kind in ("cable", "twist"):
        faces = row.src[row.pos : row.pos + takes * times]
    else:
        faces = row.face(known.face) * (makes * times)
    if row.take(takes, makes, times, faces, name, span):
        row.count_stitch(name, times)
        if known.kind in ("cable", "twist"):
            row.event("cable needle", times, name, span)
            row.level = False


def _around_yarn_over(row: RowWork, name: str, times: int, ahead: int, span: Span, *, to_place: bool) -> None:
    """Works on over the yarn-over of a turn, which goes together with the stitch behind it and counts as none."""
    work_stitch(row, name, ahead, span, to_place=to_place)
    together = f"{name[0]}2tog"
    if row.halted or not row.take(2, 1, 1, row.face("purl" if name[0] == "p" else "knit"), together, span):
        return
    row.count_stitch(together, 1)
    work_stitch(row, name, times - ahead - (2 if to_place else 1), span, to_place=to_place)


# ------------------------------------------------------------------------------------------------ repeats


def _repeat(row: RowWork, action: Repeat) -> None:
    times = action.times
    unit = unit_of(row, action.body)
    if times.kind == "to":
        _repeat_to(row, action, unit)
        return
    number = count_of(row, times.count, 1)
    if times.kind == "more" or (times.kind == "ambiguous" and row.reading.more):
        number += 1
    if times.kind == "ambiguous":
        row.ambiguous = True
    if unit is not None:
        _work_unit(row, unit, number, action.span)
        return
    if number > MOST_TURNS_OF_A_REPEAT:
        row.fail(fault(TOO_MANY, times.span, "{times} times is more often than any needle allows", times=number))
        return
    for _ in range(number):
        if row.halted or row.turned:
            return
        work(row, action.body)


def _repeat_to(row: RowWork, action: Repeat, unit: Unit | None) -> None:
    target = action.times.target
    assert target is not None, "a repeat to a place has one"
    distance = reach(row, target)
    if not distance:
        return
    if unit is not None and not action.last:
        if unit.takes == 0:
            row.fail(fault(ENDLESS, action.span, "the repeat uses up no stitches, so that it never comes to its end"))
            return
        if distance % unit.takes:
            row.fail(_undivided(row, action, distance, unit.takes))
            return
        _work_unit(row, unit, distance // unit.takes, action.span)
        return
    takes = taken_by(row, action.body) if unit is None and not action.last else None
    if takes and distance % takes:
        row.fail(_undivided(row, action, distance, takes))
        return
    stop = row.pos + distance
    if action.last:
        _repeat_with_last(row, action, distance)
        return
    for _ in range(MOST_TURNS_OF_A_REPEAT):
        if row.halted or row.turned or row.pos >= stop:
            break
        before = row.pos
        marks = len(row.ahead)
        work(row, action.body)
        if not row.halted and row.pos == before and len(row.ahead) == marks:
            row.fail(fault(ENDLESS, action.span, "the repeat uses up no stitches, so that it never comes to its end"))
            return
    if row.halted or row.turned:
        return
    if row.pos > stop:
        row.fail(
            fault(
                DOES_NOT_DIVIDE,
                action.span,
                "the last repeat runs {over} sts over the place where it is to end",
                over=row.pos - stop,
            )
        )
    elif row.pos < stop:
        row.fail(fault(TOO_MANY, action.span, "the repeat is worked more often than any needle allows"))


def _repeat_with_last(row: RowWork, action: Repeat, distance: int) -> None:
    """ "…, ending last rep k1": the last repeat has these acts in place of its last one."""
    ending = action.body[:-1] + action.last
    unit, last = unit_of(row, action.body), unit_of(row, ending)
    if unit is None or last is None or not unit.takes:
        row.fail(fault(ENDLESS, action.span, "how many stitches the last repeat takes cannot be told"))
        return
    if distance < last.takes or (distance - last.takes) % unit.takes:
        row.fail(
            fault(
                DOES_NOT_DIVIDE,
                action.span,
                "{have} sts do not divide by {takes} with {last} for the last repeat: {left} left over",
                have=distance,
                takes=unit.takes,
                last=last.takes,
                left=max(distance - last.takes, distance) % unit.takes
                if distance < last.takes
                else (distance - last.takes) % unit.takes,
            )
        )
        return
    _work_unit(row, unit, (distance - last.takes) // unit.takes, action.span)
    if not row.halted:
        _work_unit(row, last, 1, action.span)


def _undivided(row: RowWork, action: Repeat, distance: int, takes: int) -> Fault:
    left = distance % takes
    fits = distance // takes
    return fault(
        DOES_NOT_DIVIDE,
        action.span,
        "{have} sts do not divide by {takes}: {left} left over",
        hint="{below} or {above} sts would fit" if fits else "{above} sts would fit",
        have=distance,
        takes=takes,
        left=left,
        below=distance - left,
        above=distance - left + takes,
    )


def _work_unit(row: RowWork, unit: Unit, times: int, span: Span) -> None:
    if times <= 0:
        return
    if max(unit.takes, unit.makes, 1) * times > MOST_STITCHES:
        row.fail(fault(TOO_MANY, span, "{times} times is more often than any needle allows", times=times))
        return
    below = row.src[row.pos : row.pos + unit.takes * times]
    stop = row.pos + unit.takes * times
    crossed = any(row.pos < place < stop for place, _ in row.ahead)
    crossed = crossed and not unit.level and not unit.marker_free(row.ahead, row.pos, times)
    in_loop = any(row.pos <= place < stop for place, _ in row.marked) and not unit.level and not unit.together
    if crossed or in_loop:
        # a marker inside the repeat: work it act by act, so that the stitch at fault is named
        for _ in range(times):
            if row.halted:
                return
            work(row, unit.body)
        return
    faces = unit.faces_over(below, times)
    if not row.take(unit.takes, unit.makes, times, faces, unit.text, span, unit.lead):
        return
    row.level = row.level and unit.level
    if times == 1:
        for name, number in unit.stitches:
            row.count_stitch(name, number)
        return
    row.done.append(DoneRepeat(tuple(Done(name, number, row.yarn) for name, number in unit.stitches), times))
    for name, number in unit.stitches:
        key = (row.yarn, name)
        row.tally[key] = row.tally.get(key, 0) + number * times
    if row.yarn not in row.yarns:
        row.yarns.append(row.yarn)


# ------------------------------------------------------------------------------------------------ fabrics in a row


def _fabric(row: RowWork, action: WorkFabric) -> None:
    if isinstance(action.over, Count):
        distance: int | None = count_of(row, action.over, 0)
    else:
        distance = chart_here(row, action) if isinstance(action.over, ToEnd) else None
        if distance is None and not row.halted:
            distance = reach(row, action.over)
    if distance is not None and not row.halted:
        work_fabric(row, action.fabric, distance, action.span)


def work_fabric(row: RowWork, fabric: Fabric, count: int, span: Span | None) -> None:
    """A fabric over the next stitches; as set, every chart among them goes on with the row that is due."""
    if count <= 0:
        return
    if fabric.kind == "set" and fabric.name == "chart":
        named = chart_meant(row, fabric, span)
        if named is not None:
            _chart_row(row, named, count, span)
        return
    if fabric.kind == "named" and fabric.name.lower() in row.plan.patterns:
        if keeps(row, fabric, count):
            _plain_fabric(row, Fabric("set", span=fabric.span), count, span)
            go_on_kept(row, fabric.name.lower())
            return
        _chart_row(row, fabric, count, span)
        return
    parted = parted_patterns(row) if fabric.kind == "set" else ()
    if parted:
        _plain_fabric(row, fabric, count, span)
        for name in parted:
            go_on_kept(row, name)
        return
    if fabric.kind != "set" or not any(name.startswith(PANEL) for _, name in (*row.ahead, *row.out_marks)):
        _plain_fabric(row, fabric, count, span)
        return
    stop = row.pos + count
    for panel in charts_among(row, count, span):
        if row.halted:
            return
        _plain_fabric(row, fabric, panel.start - row.pos, span)
        if not row.halted:
            _chart_row(row, Fabric("named", panel.pattern, span=fabric.span), panel.stop - panel.start, span)
    if not row.halted:
        _plain_fabric(row, fabric, stop - row.pos, span)


def _plain_fabric(row: RowWork, fabric: Fabric, count: int, span: Span | None) -> None:
    if count <= 0:
        return
    src = row.src[row.pos : row.pos + count]
    faces = faces_made(fabric, src, row.setting, row.pos)
    level = row.level
    if row.take(1, 1, count, faces, "the fabric", span):
        for name, number in names_worked(faces, row.setting.side):
            row.count_stitch(name, number)
    named = fabric.kind in ("named", "rib") and fabric.name.lower() not in AS_IT_STANDS
    row.level = level and not (named and standing_of(fabric, row.setting.form) is None)


def _chart_row(row: RowWork, fabric: Fabric, count: int, span: Span | None) -> None:
    """A row of a chart or stitch pattern over the next stitches, by its own acts."""
    due = begin_chart(row, fabric, count, span)
    if due is None:
        return
    end, stop = row.end, row.pos + count
    if stop > len(row.src):
        row.take(1, 1, count, "k" * count, fabric.name, span)
        return
    row.end = stop
    start = row.outn
    work(row, due.acts)
    row.end = end
    if row.halted:
        row.faults[-1:] = [told_of_chart(row, each, due, count, span) for each in row.faults[-1:]]
        return
    if row.pos != stop:
        left = fault(
            LEFT_OVER,
            span,
            "row {number} of {name} uses {used} of the {count} sts it is worked over",
            number=due.number,
            name=fabric.name,
            used=count - (stop - row.pos),
            count=count,
        )
        row.fail(told_of_chart(row, left, due, count, span))
        return
    end_chart(row, due, start)


# ------------------------------------------------------------------------------------------------ yarn


def _yarn(row: RowWork, action: UseYarn) -> None:
    before = row.yarn
    row.yarn = "+".join(action.yarns)
    if action.body is not None:
        work(row, action.body)
        row.yarn = before


def _work_within(row: RowWork, faces: str, body: tuple[Action, ...], span: Span) -> None:
    """Works acts across stitches that come from elsewhere, laid in before those on the left needle."""
    row.close_gap()
    count = len(faces)
    if row.setting.side == "WS":
        faces = faces[::-1]
    row.insert(faces)
    end = row.end
    row.end = row.pos + count
    stop = row.end
    if body:
        work(row, body)
    else:
        work_stitch(row, "k" if row.setting.side == "RS" else "p", count, span)
    row.end = end
    row.level = False
    if not row.halted and row.pos != stop:
        used = count - (stop - row.pos)
        row.fail(fault(LEFT_OVER, span, "{used} of the {count} held sts are worked", used=used, count=count))


# ------------------------------------------------------------------------------------------------ groups of stitches


def _crossed_or_into(row: RowWork, action: IntoOne | Cable) -> None:
    unit = unit_of(row, (action,))
    if unit is None:
        row.fail(fault(UNKNOWN_STITCH, action.span, "nothing says how many stitches this takes and makes"))
        return
    if isinstance(action, Cable):
        back = unit_of(row, action.back)
        held = count_of(row, action.held, 0)
        if back is not None and back.takes != held:
            row.fail(
                fault(
                    CABLE_HELD,
                    action.span,
                    "{held} sts are put on the cable needle, {back} are worked off it",
                    held=held,
                    back=back.takes,
                    hint="work {held} from the cable needle",
                )
            )
            return
        row.event("cable needle", held, action.hold, action.span)
    _work_unit(row, unit, 1, action.span)


def _drop(row: RowWork, action: Drop) -> None:
    number = count_of(row, action.count, 0)
    if action.of is not None:
        return  # of every group of loops: they were dropped before the row began
    if number and row.take(number, 0, 1, "", "drop", action.span):
        row.count_stitch("drop", number)
