"""Stitches put aside between rows: the rest of a row that was turned, a part of a round, the middle of a neck.

In: a `Hold` and where the knitting stands. Out: the state moved on, what waits among the holders.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.divided import (
    divide_round,
    hold_from_waiting,
    just_left,
    left_behind,
    name_what_was_left,
    whole_row,
)
from castoff.knitting.divisions import mind_waits_on
from castoff.knitting.faults import NO_MARKER, NOT_HELD, PART_OFF, fault
from castoff.knitting.loops import Group, hidden
from castoff.knitting.sources import sources_of
from castoff.knitting.state import PieceState, SizeState, begin_finger
from castoff.notation.syntax import Hold, HoldAct, ToMarker


def hold(state: SizeState, step: Hold, expected: int | None = None) -> None:
    """Puts stitches aside between rows: those furthest from the yarn, or all of them.

    expected: the total printed behind it, which then says what is wrong with the number.
    """
    piece = state.piece
    act = step.act
    if step.only:
        _only_these(state, step)
        return
    if act.on.startswith("needle ") and mind_waits_on(state, act):
        act = replace(act, count=None)
        step = replace(step, act=act)
    have = piece.needle.stitches
    waiting = left_behind(state)
    if not have and waiting is not None:
        hold_from_waiting(state, act, waiting, step.span)
        return
    parted = just_left(state)
    if parted is not None and (act.told == "rem" or (step.leave and not act.told)):
        name_what_was_left(state, act, parted, step.span)
        return
    number = have if act.count is None else act.count.at(state.size)
    if act.target is not None:
        number = _up_to(state, act)
    elif act.count is None and (step.leave or piece.needle.turns) and piece.form == "flat":
        number = beyond_turn(piece) or have
    if not number:
        return
    if piece.form == "round" and piece.turned and piece.needle.turns:
        _hold_beyond_turns(state, step, number if act.count is not None else None, expected)
        return
    _mind_told(state, act, number, have)
    if act.told == "rem" and beyond_turn(piece) and have - number != expected:
        number = beyond_turn(piece)  # what the row did not reach, whatever is printed
    if number > have:
        state.report(
            fault(
                NOT_HELD,
                step.span,
                "{number} sts are to be put on hold, {have} are on the needle",
                number=number,
                have=have,
                hint="{have} sts",
                related=sources_of(state.piece),
            )
        )
        number = have
    at_start = piece.form == "flat" and piece.needle.at == have
    if piece.fresh:
        at_start = piece.due != "WS"  # no yarn is there: the next ones are those that the next row begins with
    if beyond_turn(piece) == number:
        at_start = piece.due == "RS"
    if at_start:
        part, rest = piece.needle.part(0, number), piece.needle.part(number, have)
    else:
        part, rest = piece.needle.part(have - number, have), piece.needle.part(0, have - number)
    state.holders.append(
        Group(act.holder, replace(part, at=0), piece.name, piece.due, piece.rows, piece.length, step.leave, step.span)
    )
    turned = beyond_turn(piece) == number
    piece.needle = rest
    piece.parted = piece.form == "round" and 0 < number < have
    state.event("hold", number, act.holder, step.span)
    if turned:
        whole_row(piece)
        piece.needle = replace(rest, at=rest.stitches if piece.due == "WS" else 0)
    piece.landmarks["division"] = (piece.rows, piece.length)
    piece.landmarks["underarm"] = (piece.rows, piece.length)
    begin_finger(piece, "hold")


def _only_these(state: SizeState, step: Hold) -> None:
    """ "Work on these 20 sts only": what the last row did not reach waits, if it does not wait already."""
    piece = state.piece
    beyond = beyond_turn(piece)
    have = piece.needle.stitches - beyond
    number = have if step.act.count is None else state.number_of(step.act.count)
    if number != have:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{number} sts are to be worked on; {have} are there",
                hint="{have} sts",
                number=number,
                have=have,
                related=sources_of(state.piece),
            )
        )
    if beyond:
        hold(state, replace(step, act=replace(step.act, count=None, told=""), only=False))


def beyond_turn(piece: PieceState) -> int:
    """Stitches that the last row did not reach, because it was turned before its end; 0 when it reached the end."""
    needle = piece.needle
    if not needle.turns or not 0 < needle.at < needle.stitches:
        return 0
    return needle.stitches - needle.at if piece.due == "WS" else needle.at


def _up_to(state: SizeState, act: HoldAct) -> int:
    """Stitches from the yarn to the marker that a line names."""
    needle = state.piece.needle
    target = act.target
    places = [place for place, name in needle.marks if place > needle.at and not hidden(name)]
    if not isinstance(target, ToMarker) or not places:
        state.report(
            fault(NO_MARKER, act.span, "no marker is ahead of the yarn, up to which stitches could be put on hold")
        )
        return 0
    return places[0] - needle.at - state.number_of(target.before)


def _mind_told(state: SizeState, act: HoldAct, number: int, have: int) -> None:
    """ "These 56 sts", "rem 40 sts": as many as there are on the needle, or beyond the place where the row has turned."""
    piece = state.piece
    beyond = beyond_turn(piece)
    there = have
    if beyond:
        there = beyond if act.told == "rem" else have - beyond
    if not act.told or act.count is None or number == there or number > have:
        return
    state.report(
        fault(
            NOT_HELD,
            act.span,
            "{told} {number} sts are to be put on hold; {have} are there",
            told=act.told,
            number=number,
            have=there,
            hint="{have} sts",
            related=sources_of(state.piece),
        )
    )
    piece.doubt = True


def _hold_beyond_turns(state: SizeState, step: Hold, number: int | None, expected: int | None) -> None:
    """In the middle of a round that was turned at both ends: what lies beyond the turns is put aside."""
    piece = state.piece
    if len(piece.needle.turns) == 1 and piece.needle.turns[0] == piece.needle.at and piece.due == "WS":
        _hold_rest_of_round(state, step, number)
        return
    needle = piece.needle.rotated(piece.needle.at) if piece.needle.at < piece.needle.stitches else piece.needle
    far = next((turn for turn in sorted(needle.turns) if turn > 0), needle.stitches)
    rest = needle.stitches - far
    if number is not None and number != rest and expected is not None and 0 < number < needle.stitches:
        rest, far = number, needle.stitches - number
    elif number is not None and number != rest:
        state.report(
            fault(
                NOT_HELD,
                step.span,
                "{number} sts are to be put on hold, {rest} lie beyond the turns",
                hint="{rest} sts",
                number=number,
                rest=rest,
            )
        )
    state.holders.append(
        Group(
            step.act.holder,
            replace(needle.part(far, needle.stitches), at=0),
            piece.name,
            "RS",
            piece.rows,
            piece.length,
            step.leave,
            step.span,
        )
    )
    piece.needle = replace(needle.part(0, far), at=0 if piece.due != "WS" else far, gaps=(), turns=())
    piece.form, piece.turned = "flat", False
    state.event("hold", rest, step.act.holder, step.span)


def _hold_rest_of_round(state: SizeState, step: Hold, number: int | None) -> None:
    """A round that was turned once: what it has not reached is put aside, and the rest goes on in rows."""
    piece = state.piece
    needle = piece.needle
    rest = needle.stitches - needle.at
    if number is not None and number != rest:
        state.report(
            fault(
                NOT_HELD,
                step.span,
                "{number} sts are to be put on hold, {rest} lie beyond the turn",
                hint="{rest} sts",
                number=number,
                rest=rest,
            )
        )
    part = replace(needle.part(needle.at, needle.stitches), at=0)
    state.holders.append(
        Group(step.act.holder, part, piece.name, "RS", piece.rows, piece.length, step.leave, step.span)
    )
    piece.needle = needle.part(0, needle.at)
    state.event("hold", rest, step.act.holder, step.span)
    whole_row(piece)
    divide_round(state)
    piece.landmarks["division"] = piece.landmarks["underarm"] = (piece.rows, piece.length)
