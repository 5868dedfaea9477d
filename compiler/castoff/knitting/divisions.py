"""How the stitches of a piece lie on the needles of a set: where one ends and the next begins.

In: the state of one size. Out: stitches on each needle; the divisions set, moved, or held against what a line tells.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from castoff.knitting.faults import NO_MARKER, PART_OFF, fault
from castoff.knitting.loops import DIVISION
from castoff.knitting.needle_numbers import needle_number
from castoff.knitting.state import SizeState
from castoff.notation.syntax import Count, HoldAct, JoinRound, RoundStart, ShiftStitches
from castoff.span import Span


def on_needles(state: SizeState) -> list[int]:
    """Stitches on each needle, in order; all of them where nothing says how they lie."""
    needle = state.piece.needle
    places = [0, *(place for place, name in needle.marks if name.startswith(DIVISION)), needle.stitches]
    return [later - place for place, later in pairwise(places)]


def divide(state: SizeState, shares: list[int]) -> None:
    """Notes where one needle of a set ends and the next begins."""
    needle = state.piece.needle
    marks = [mark for mark in needle.marks if not mark[1].startswith(DIVISION)]
    place = 0
    for number, share in enumerate(shares[:-1], 1):
        place += share
        marks.append((place, f"{DIVISION}{number}"))
    state.piece.needle = replace(needle, marks=tuple(sorted(marks)))


def _part(state: SizeState, name: str, span: Span) -> tuple[int, int] | None:
    """The place at which a needle begins, and its stitches; None, with a fault, when there is no such needle."""
    lying = on_needles(state)
    number = needle_number(name)
    if len(lying) < 2 or not 0 < number <= len(lying):
        state.report(
            fault(
                NO_MARKER,
                span,
                "{name} is spoken of; the stitches lie on {needles} needles"
                if len(lying) > 1
                else "{name} is spoken of; nothing says how the stitches lie on needles",
                hint=None if len(lying) > 1 else "say how many lie on each: `arrange sts over 2 needles: …`",
                name=name,
                needles=len(lying),
            )
        )
        return None
    return sum(lying[: number - 1]), lying[number - 1]


def over_needle(state: SizeState, step: JoinRound) -> Count | None:
    """How many stitches the rows are worked over when a line names a needle; what it tells of them must be so."""
    if not step.which.startswith("needle"):
        return None
    part = _part(state, step.which, step.span)
    if part is None:
        state.piece.doubt = True
        return None
    told = None if step.over is None else step.over.at(state.size)
    if told is not None and told != part[1]:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{told} sts are to be worked over, {have} are on {name}",
                hint="{have} sts",
                told=told,
                have=part[1],
                name=step.which,
            )
        )
    needle = state.piece.needle
    if needle.at % needle.stitches != part[0]:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "the yarn is {at} sts into the round; {name} begins after {begin}",
                hint="work to the beginning of {name} first",
                at=needle.at % needle.stitches,
                name=step.which,
                begin=part[0],
            )
        )
    return Count((part[1],) * len(state.plan.sizes), span=step.span)


def begin_of(state: SizeState, which: str) -> int:
    """Where the stitches that are worked over begin, when that is in the middle of the round; 0 at its beginning."""
    needle = state.piece.needle
    if which.startswith("needle"):
        return sum(on_needles(state)[: needle_number(which) - 1])
    return needle.at if which == "next" and needle.at < needle.stitches else 0


def shift(state: SizeState, step: ShiftStitches) -> None:
    """Slips stitches from one needle to the one beside it."""
    part = _part(state, step.source, step.span)
    if part is None or _part(state, step.to, step.span) is None:
        return
    number = state.number_of(step.count)
    if number >= part[1]:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{number} sts are to be slipped from {name}, which has {have}",
                number=number,
                name=step.source,
                have=part[1],
            )
        )
        return
    lying = on_needles(state)
    lying[needle_number(step.source) - 1] -= number
    lying[needle_number(step.to) - 1] += number
    divide(state, lying)


def mind_each(state: SizeState, number: int) -> bool:
    """ "12 sts on each needle": lays them out so where nothing says how they lie; whether it is so."""
    lying = on_needles(state)
    have = state.piece.needle.stitches
    if len(lying) > 1:
        return all(each == number for each in lying)
    if number and have % number == 0 and 1 < have // number <= 8:
        divide(state, [number] * (have // number))
        return True
    return False


def mind_needle(state: SizeState, name: str, number: int) -> bool | None:
    """ "28 sts on needle 1": whether it is so; None when nothing says how the stitches lie."""
    lying = on_needles(state)
    at = needle_number(name)
    if len(lying) < 2 or not at:
        return None
    return at <= len(lying) and lying[at - 1] == number


def mind_between(state: SizeState, step: RoundStart) -> None:
    """ "The beginning of the round is between N3 and N1": it lies between the last needle and the first."""
    last = len(on_needles(state))
    told = tuple(needle_number(name) for name in step.between or ())
    if last > 1 and told != (last, 1):
        state.report(
            fault(
                PART_OFF,
                step.span,
                "the round is told to begin between needles {one} and {two}; it begins between needles {last} and 1",
                one=told[0],
                two=told[1],
                last=last,
            )
        )


def mind_waits_on(state: SizeState, act: HoldAct) -> bool:
    """ "Leave the 28 instep sts on hold on N2": as many as lie on that needle; whether it was wrong."""
    number = None if act.count is None else act.count.at(state.size)
    if number is None or mind_needle(state, act.on, number) is not False:
        return False
    lying = on_needles(state)
    at = needle_number(act.on)
    state.report(
        fault(
            PART_OFF,
            act.span,
            "{number} sts are told on {name}; on the needles are {there}",
            number=number,
            name=act.on,
            there=", ".join(str(each) for each in lying),
            hint="{have} sts" if at <= len(lying) else None,
            have=lying[at - 1] if at <= len(lying) else 0,
        )
    )
    return True
