"""A bind-off that is told act by act, worked as it says: it must come out, with one loop left or with what the line tells.

In: the acts of a `BindOff` and where the knitting stands. Out: the stitches left and what was worked, or a fault.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from castoff.knitting.faults import DOES_NOT_DIVIDE, NEVER_ENDS, TOO_FEW, UNKNOWN_STITCH, fault
from castoff.knitting.loops import MOST_STITCHES
from castoff.knitting.state import SizeState
from castoff.notation.syntax import OffAct, WorkedOff
from castoff.span import Span

_SAID = {"back": "slipped back", "over": "passed over"}


@dataclass(slots=True)
class _Needles:
    """Stitches on the left needle and on the right one; how many were taken off the left, and what was worked, by stitch.

    lacking: an act that found too few.
    """

    left: int
    right: int = 0
    taken: int = 0
    worked: dict[str, int] = field(default_factory=dict)
    lacking: OffAct | None = None

    @property
    def all(self) -> int:
        """Both together."""
        return self.left + self.right


def work_off(state: SizeState, so: WorkedOff, have: int) -> int:
    """Binds off so many stitches as the line says, or says why that does not come out; how many are left."""
    needles = _Needles(have)
    rest = 0 if so.left is None else state.number_of(so.left)
    wanted = 1 if so.left is None else rest
    if not _work(state, so.lead, needles):
        _lacks(state, needles)
        return rest
    if so.plain:
        _as_worked(state, so, needles, have)
        return 0
    first, cord = needles.all, needles.left - have
    uses = 0
    while needles.all > wanted or (so.left is None and needles.left):
        before, held, taken = needles.all, needles.right, needles.taken
        if not _work(state, so.body, needles):
            if needles.lacking is not None and (needles.all > wanted or not uses):
                _left_over(state, so, needles, wanted, first, uses)
                return rest
            break
        uses, taken = before - needles.all, needles.taken - taken
        if needles.right != held or uses <= 0:
            _goes_on(state, so.span, held, needles.right)
            return rest
        if cord > 0 and taken != cord + uses:
            _misses(state, so.span, cord, taken, uses)
            return rest
    if needles.all != wanted:
        _left_over(state, so, needles, wanted, first, uses)
    for stitch, count in needles.worked.items():
        state.add_loops(stitch, count)
    return rest


def _as_worked(state: SizeState, so: WorkedOff, needles: _Needles, have: int) -> None:
    """Every stitch is bound off as soon as it is worked: the repeat must use them all up."""
    start = needles.left
    while needles.left:
        before = needles.left
        if not _work(state, so.body, needles) or needles.left == before:
            state.report(
                fault(
                    DOES_NOT_DIVIDE,
                    so.span,
                    "{have} sts do not divide by the {uses} of the repeat",
                    have=start,
                    uses=sum(_takes_of(state, act) for act in so.body),
                )
            )
            return
    for stitch, count in needles.worked.items():
        state.add_loops(stitch, count)
    state.add_loops("bind off", have)


def _takes_of(state: SizeState, act: OffAct) -> int:
    known = state.plan.stitch(act.stitch)
    return 0 if known is None else known.takes * state.number_of(act.count)


def _work(state: SizeState, acts: tuple[OffAct, ...], needles: _Needles) -> bool:
    """Works acts one after the other; False where the stitches do not suffice or a stitch is unknown."""
    for act in acts:
        number = state.number_of(act.count)
        if act.act == "on":
            needles.left += number
            needles.worked["cast on"] = needles.worked.get("cast on", 0) + number
        elif act.act == "back" and number <= needles.right:
            needles.left, needles.right = needles.left + number, needles.right - number
        elif act.act == "over" and number < needles.right:
            needles.right -= number
        elif act.act == "work":
            known = state.plan.stitch(act.stitch)
            if known is None:
                state.report(
                    fault(
                        UNKNOWN_STITCH,
                        act.span,
                        "nothing says how many stitches {name} takes and makes",
                        name=act.stitch,
                    )
                )
                return False
            for _ in range(min(number, MOST_STITCHES)):
                if known.takes > needles.left:
                    needles.lacking = act
                    return False
                needles.left, needles.right = needles.left - known.takes, needles.right + known.makes
                needles.taken += known.takes
                needles.worked[act.stitch] = needles.worked.get(act.stitch, 0) + 1
        else:
            needles.lacking = act
            return False
    return True


def _lacks(state: SizeState, needles: _Needles) -> None:
    act = needles.lacking
    if act is None:
        return
    state.report(
        fault(
            TOO_FEW,
            act.span,
            "{number} sts are to be {said}, {have} are there",
            number=state.number_of(act.count),
            said=_SAID.get(act.act, "worked"),
            have=needles.right if act.act in _SAID else needles.left,
        )
    )


def _goes_on(state: SizeState, span: Span, before: int, after: int) -> None:
    state.report(
        fault(
            NEVER_ENDS,
            span,
            "{before} sts are on the right needle before the repeat, {after} behind it"
            if after != before
            else "every repeat leaves as many sts as it found: they never come to an end",
            hint="each repeat must leave the right needle as it was and use up at least 1 st",
            before=before,
            after=after,
        )
    )


def _misses(state: SizeState, span: Span, cord: int, taken: int, uses: int) -> None:
    """A cord is joined to the piece by its last stitch: every repeat takes it whole, and what it binds off."""
    state.report(
        fault(
            NEVER_ENDS,
            span,
            "{cord} sts are cast on for the cord; each repeat works {taken} sts and not those and {uses} of the piece",
            hint="each repeat works {right} sts",
            cord=cord,
            taken=taken,
            uses=uses,
            right=cord + uses,
        )
    )


def _left_over(state: SizeState, so: WorkedOff, needles: _Needles, wanted: int, first: int, uses: int) -> None:
    """What is left does not come to what the line tells; or the very first repeat found too few."""
    if needles.lacking is not None and (needles.lacking.act in _SAID or not uses):
        _lacks(state, needles)
        return
    state.report(
        fault(
            DOES_NOT_DIVIDE,
            so.span,
            "{have} sts are bound off {uses} at a time: {left} are left, not {wanted}",
            have=first,
            uses=uses,
            left=needles.all,
            wanted=wanted,
        )
    )
