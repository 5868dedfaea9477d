"""Acts that make or end live stitches in the middle of a row: binding off, casting on, picking up, holding.

In: a row in work and one of these acts. Out: nothing; the row has been worked or has failed.
"""

from __future__ import annotations

from castoff.knitting.faults import BOUND_OFF_TOO_MANY, TOO_MANY, fault
from castoff.knitting.loops import MOST_STITCHES, Group, Needle
from castoff.knitting.row import RowWork
from castoff.knitting.targets import count_of, reach
from castoff.notation.syntax import BindOffAct, CastOnAct, HoldAct, PickUp


def bind_off(row: RowWork, action: BindOffAct) -> None:
    """Binds off stitches in the row; the loop that is left on the right needle waits to be counted."""
    if action.count is not None:
        number = count_of(row, action.count, 0)
    elif action.target is not None:
        distance = reach(row, action.target)
        if distance is None:
            return
        number = distance
    else:
        number = row.end - row.pos
    if number <= 0:
        return
    have = row.end - row.pos
    if number > have:
        row.fail(
            fault(
                BOUND_OFF_TOO_MANY,
                action.span,
                "{number} sts are to be bound off; {have} are there",
                number=number,
                have=have,
            )
        )
        return
    if row.loop_waiting:
        row.loop_waiting = False
    start = row.outn
    if row.take(number, 0, 1, "", "bind off", action.span):
        row.count_stitch("bind off", number)
        row.event("bind off", number, " ".join(action.manner), action.span)
        if (start > 0 and row.pos < len(row.src)) or (start > 0 and row.setting.form == "round"):
            row.out_gaps.append(start)
        elif start == 0 and row.setting.form == "round" and row.pos < len(row.src):
            row.out_gaps.append(0)
        row.loop_waiting = row.pos < row.end and action.last_loop_counted is not False
        row.level = False


def cast_on(row: RowWork, action: CastOnAct) -> None:
    """Casts on stitches in the row, and closes a gap that is here."""
    number = count_of(row, action.count, 0)
    if number <= 0:
        return
    if number > MOST_STITCHES:
        row.fail(fault(TOO_MANY, action.span, "{number} sts are more than any needle holds", number=number))
        return
    row.out_gaps = [gap for gap in row.out_gaps if gap != row.outn]
    if row.gaps and row.gaps[0] == row.pos:
        row.gaps.pop(0)
        if row.end == row.pos:
            row.end = row.next_end()
    row.make("k" * number)
    row.count_stitch("cast on", number)
    row.event("cast on", number, action.method or action.where, action.span)


def pick_up(row: RowWork, action: PickUp) -> None:
    """Picks up stitches along an edge."""
    if action.count is None:
        return
    number = count_of(row, action.count, 0)
    if number <= 0:
        return
    if number > MOST_STITCHES:
        row.fail(fault(TOO_MANY, action.span, "{number} sts are more than any needle holds", number=number))
        return
    row.out_gaps = [gap for gap in row.out_gaps if gap != row.outn]
    row.make(row.face("knit") * number)
    row.picked_at = row.pos
    row.count_stitch("pick up", number)
    row.event("pick up", number, action.edge, action.span)


def hold(row: RowWork, action: HoldAct) -> None:
    """Puts the next stitches aside without working them, or those worked last."""
    if action.worked:
        _hold_worked(row, action)
        return
    if action.target is not None:
        distance = reach(row, action.target)
        if distance is None:
            return
    else:
        distance = count_of(row, action.count, 0) if action.count is not None else row.end - row.pos
    if distance <= 0:
        return
    faces = row.src[row.pos : row.pos + distance]
    start = row.outn
    if not row.take(distance, 0, 1, "", "hold", action.span):
        return
    row.out_marks = [mark for mark in row.out_marks if mark[0] <= start]
    row.held.append(Group(action.holder, _lying(row, faces), span=action.span))
    row.event("hold", distance, action.holder, action.span)
    if start > 0 and row.pos < row.end:
        row.out_gaps.append(start)
    row.level = False


def _hold_worked(row: RowWork, action: HoldAct) -> None:
    joined = "".join(row.out)
    number = count_of(row, action.count, row.outn)
    if number > len(joined):
        row.fail(
            fault(
                BOUND_OFF_TOO_MANY,
                action.span,
                "{number} sts are to be put on hold; {have} have been worked",
                number=number,
                have=len(joined),
            )
        )
        return
    rest = joined[: len(joined) - number]
    row.held.append(Group(action.holder, _lying(row, joined[len(rest) :]), span=action.span))
    row.out, row.outn = [rest], len(rest)
    row.out_marks = [mark for mark in row.out_marks if mark[0] <= len(rest)]
    row.event("hold", number, action.holder, action.span)
    if rest and row.pos < row.end:
        row.out_gaps.append(len(rest))
    row.level = False


def _lying(row: RowWork, faces: str) -> Needle:
    return Needle(faces if row.setting.side == "RS" else faces[::-1])
