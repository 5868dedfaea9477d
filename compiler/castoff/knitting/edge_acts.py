"""Acts that make or end live stitches in the middle of a row: binding off, casting on, picking up, holding.

In: a row in work and one of these acts. Out: nothing; the row has been worked or has failed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from castoff.knitting.faults import BOUND_OFF_TOO_MANY, NOT_HELD, OVER_A_GAP, PART_OFF, TOO_FEW, TOO_MANY, fault
from castoff.knitting.loops import MOST_STITCHES, Group, Needle, Wrap, hidden, ordered
from castoff.knitting.row import RowWork
from castoff.knitting.targets import count_of, reach
from castoff.notation.syntax import BindOffAct, CastOnAct, Count, HoldAct, OpeningAct, PickUp


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
    inside = [each for each in row.ahead if row.pos < each[0] < row.pos + number and not hidden(each[1])]
    if row.removing and inside:
        row.ahead = [each for each in row.ahead if each not in inside]
        row.bound_marks = (start, len(inside))
    if row.take(number, 0, 1, "", "bind off", action.span):
        row.count_stitch("bind off", number)
        row.bound_at = start
        row.event("bind off", number, " ".join(action.manner), action.span)
        round_ = row.setting.form == "round"
        if (start > 0 and (round_ or row.pos < len(row.src))) or (start == 0 and round_ and row.pos < len(row.src)):
            row.out_gaps.append(start)
            row.bound_gaps += 1
        row.loop_waiting = row.pos < row.end
        row.level = False
        if action.on_right is not None:
            _mind_right_needle(row, action.on_right)


def _mind_right_needle(row: RowWork, told: Count) -> None:
    """ "(1 st on right needle)" settles that the loop is a stitch of its own. 1 is said of the loop alone, too."""
    row.settle_loop()
    number = count_of(row, told, 0)
    if row.halted or number in (1, row.outn):
        return
    row.fail(
        fault(
            PART_OFF,
            told.span,
            "{number} st{s} on the right needle behind the bind-off, {have} are there",
            hint="{have} st{t} on right needle",
            number=number,
            s="" if number == 1 else "s",
            have=row.outn,
            t="" if row.outn == 1 else "s",
        )
    )


def cast_on(row: RowWork, action: CastOnAct) -> None:
    """Casts on stitches in the row, and closes a gap that is here."""
    number = count_of(row, action.count, 0)
    if number <= 0:
        return
    if number > MOST_STITCHES:
        row.fail(fault(TOO_MANY, action.span, "{number} sts are more than any needle holds", number=number))
        return
    if action.where == "gap" and row.gaps and row.gaps[0] != row.pos and row.outn not in row.out_gaps:
        row.fail(
            fault(
                OVER_A_GAP,
                action.span,
                "no gap is here to cast on over: it is {off} st{s} further on",
                off=row.gaps[0] - row.pos,
                s="" if row.gaps[0] - row.pos == 1 else "s",
            )
            if row.gaps[0] > row.pos
            else fault(
                OVER_A_GAP,
                action.span,
                "no gap is here to cast on over: it was {off} st{s} before",
                off=row.pos - row.gaps[0],
                s="" if row.pos - row.gaps[0] == 1 else "s",
            )
        )
        return
    row.close_gap()
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
    if row.wrapped:
        over = row.pos - row.original
        row.fail(
            fault(
                TOO_FEW,
                action.span,
                "the sts before these take {over} more than the round has: it ends before they are picked up",
                over=over,
            )
        )
        return
    row.close_gap()
    row.make(row.face("purl" if action.purl else "knit") * number)
    row.picked_at = row.pos
    if row.picked_first is None:
        row.picked_first = row.pos
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
        if action.told == "rem" and action.count is not None and 0 < distance != row.end - row.pos:
            row.fail(
                fault(
                    NOT_HELD,
                    action.span,
                    "rem {number} sts are to be put on hold; {have} are left in the row",
                    hint="{have} sts",
                    number=distance,
                    have=row.end - row.pos,
                )
            )
            return
    if distance <= 0:
        return
    faces = row.src[row.pos : row.pos + distance]
    start, first = row.outn, row.pos
    wraps = [wrap.to(wrap.place - first) for wrap in row.wraps.taken_out(first + distance)]
    # a marker among them comes off the needle with them, and is not put back (common practice)
    row.ahead = [mark for mark in row.ahead if not first < mark[0] < first + distance]
    if not row.take(distance, 0, 1, "", "hold", action.span):
        return
    row.out_marks = [mark for mark in row.out_marks if mark[0] <= start]
    row.held.append(Group(action.holder, _lying(row, faces, wraps), span=action.span))
    row.event("hold", distance, action.holder, action.span)
    if start > 0 and row.pos < row.end:
        row.out_gaps.append(start)
        row.held_gaps += 1
    row.level = False


def make_opening(row: RowWork, action: OpeningAct) -> None:
    """Knits on; the loops below and above the waste yarn wait until it is taken out."""
    number = count_of(row, action.count, 0)
    if number <= 0:
        return
    face = row.face("knit")
    if not row.take(number, number, 1, face * number, "waste yarn", action.span):
        return
    row.count_stitch("k", number)
    row.held.append(Group("waste yarn", Needle(face * (2 * number)), span=action.span, opening=True))
    row.event("hold", 2 * number, "waste yarn", action.span)


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
    before = _of_the_round_before(row, action, number)
    if before is None:
        return
    rest = joined[: len(joined) - number]
    wraps = [wrap.to(wrap.place - len(rest)) for wrap in row.wraps.made if wrap.place >= len(rest)]
    row.wraps.made = [wrap for wrap in row.wraps.made if wrap.place < len(rest)]
    wraps = [wrap.to(wrap.place + len(before)) for wrap in wraps]
    row.held.append(Group(action.holder, _lying(row, before + joined[len(rest) :], wraps), span=action.span))
    row.out, row.outn = [rest], len(rest)
    row.out_marks = [mark for mark in row.out_marks if mark[0] <= len(rest)]
    row.event("hold", len(before) + number, action.holder, action.span)
    if rest and row.pos < row.end:
        row.out_gaps.append(len(rest))
        row.held_gaps += 1
    row.level = False


def _of_the_round_before(row: RowWork, action: HoldAct, number: int) -> str | None:
    """The last stitches of the round before, which wait with those just worked; they are not met again in this one."""
    if action.behind is None:
        return ""
    wanted = count_of(row, action.behind, 0)
    if number != row.outn:
        row.fail(
            fault(
                NOT_HELD,
                action.span,
                "{number} sts of this round are to be put on hold with those of the round before; {have} have been worked",
                hint="{have} sts",
                number=number,
                have=row.outn,
            )
        )
        return None
    told = None if action.total is None else count_of(row, action.total, 0)
    if row.setting.form != "round" or wanted > row.end - row.pos:
        row.fail(
            fault(
                NOT_HELD,
                action.span,
                "{number} sts of the round before are to be put on hold; {have} are there",
                number=wanted,
                have=row.end - row.pos if row.setting.form == "round" else 0,
            )
        )
        return None
    if told is not None and told != wanted + number:
        row.fail(
            fault(
                NOT_HELD,
                action.span,
                "{number} + {wanted} = {sum} sts are put on hold, {told} are told",
                hint="{sum} sts",
                number=number,
                wanted=wanted,
                sum=wanted + number,
                told=told,
            )
        )
        return None
    stop = row.end - wanted
    faces = row.src[stop : row.end]
    row.ahead = [mark for mark in row.ahead if mark[0] <= stop]
    row.src = row.src[:stop]
    row.end, row.bor, row.original = min(row.end, stop), min(row.bor, stop), stop
    return faces


def _lying(row: RowWork, faces: str, wraps: Sequence[Wrap]) -> Needle:
    needle = Needle(faces, wraps=ordered(wraps))
    return needle if row.setting.side == "RS" else replace(needle.turned(), at=0)
