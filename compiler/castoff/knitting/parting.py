"""Stitches that wait together and are worked in parts: the front and the back of a body, the last 6 sts of a holder.

In: a row about to be worked, and the stitches that wait. Out: the groups parted as the row takes them: where they were
bound off between, or where the row says ("the first 7 sts", "the last 6 sts", "the remaining 6 sts").
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.faults import NOT_HELD, fault
from castoff.knitting.held import find_group, telling
from castoff.knitting.loops import Group
from castoff.knitting.state import RowDef, SizeState
from castoff.notation.syntax import Action, SlipHeld, Stitch, StitchTo, WorkHeld


def parting(state: SizeState, row: RowDef) -> RowDef:
    """The row as it is to be worked, its groups parted."""
    acts: list[Action] = []
    taken: list[Group] = []
    rest: Group | None = None
    for act in row.acts:
        if isinstance(act, SlipHeld):
            slipped = _slipped(state, act)
            rest = slipped[1] if slipped is not None else rest
            continue
        if isinstance(act, WorkHeld) and act.holder is None and act.which == "rem":
            act = _remaining(state, act, rest)
        if not isinstance(act, WorkHeld) or act.count is None:
            acts.append(act)
            continue
        number = state.number_of(act.count)
        used = [at for at, group in enumerate(state.holders) if any(group is each for each in taken)]
        at = _between_gaps(state, act, number, used)
        if at is None:
            at = find_group(state.holders, act.holder, number, used)
        if at is None:
            acts.append(_on_the_needle(state, act))
            continue
        group = _part_off(state, act, at, number)
        if group is not None and not _is_made_again(state, group):
            taken.append(group)
        acts.append(act)
    return row if acts == list(row.acts) else replace(row, acts=tuple(acts))


def _slipped(state: SizeState, act: SlipHeld) -> tuple[Group, Group] | None:
    """A group parted behind the stitches that are slipped to the right needle: those, and the rest."""
    number = state.number_of(act.count)
    at = find_group(state.holders, act.holder, None)
    have = 0 if at is None else state.holders[at].stitches
    if at is None or not 0 < number < have:
        state.report(
            fault(
                NOT_HELD,
                act.span,
                "the first {number} held sts are to be slipped; {have} are held",
                number=number,
                have=have,
            )
        )
        return None
    group = state.holders[at]
    first = replace(group, needle=replace(group.needle.part(0, number), at=0))
    second = replace(group, needle=replace(group.needle.part(number, have), at=0))
    state.holders[at : at + 1] = [first, second]
    return first, second


def _remaining(state: SizeState, act: WorkHeld, rest: Group | None) -> Action:
    """ "K rem 6 sts": those left on the holder, where some were slipped off it; else those left of the row."""
    if rest is not None:
        return replace(act, holder=rest.name)
    body = act.body[0] if len(act.body) == 1 else None
    return Stitch(body.name, act.count, body.name, span=act.span) if isinstance(body, StitchTo) else act


def _between_gaps(state: SizeState, act: WorkHeld, number: int, used: list[int]) -> int | None:
    """The stitches of which so many lie before a gap, where no holder has the name: "100 front sts" of a body."""
    words = telling(act.holder or "")
    if any(words & (telling(group.name) | telling(group.piece)) for group in state.holders):
        return None
    if any(group.stitches == number for at, group in enumerate(state.holders) if at not in used):
        return None
    for at, group in enumerate(state.holders):
        if at not in used and {number, group.stitches - number} & set(group.needle.gaps):
            return at
    return None


def _part_off(state: SizeState, act: WorkHeld, at: int, number: int) -> Group | None:
    """The group that an act takes, parted from what it leaves."""
    group = state.holders[at]
    if act.which == "rem" and number != group.stitches and number:
        state.report(
            fault(
                NOT_HELD,
                act.span,
                "the remaining {number} held sts are to be worked; {have} are left",
                hint="{have} sts",
                number=number,
                have=group.stitches,
                related=((group.span, "they were put aside here"),) if group.span is not None else (),
            )
        )
        return None
    if not 0 < number < group.stitches or _is_made_again(state, group):
        return group
    behind = act.which == "last" or (not act.which and group.stitches - number in group.needle.gaps)
    if not act.which and not behind and number not in group.needle.gaps:
        return group
    if not act.which and number in group.needle.gaps:
        behind = False
    place = group.stitches - number if behind else number
    first = replace(group, needle=replace(group.needle.part(0, place), at=0))
    second = replace(group, needle=replace(group.needle.part(place, group.stitches), at=0))
    state.holders[at : at + 1] = [first, second]
    return second if behind else first


def _is_made_again(state: SizeState, group: Group) -> bool:
    source = state.pieces.get(group.piece)
    return source is not None and source.make > 1 and source is not state.piece


def _on_the_needle(state: SizeState, act: WorkHeld) -> Action:
    """ "Knit across 28 heel sts", where nothing waits under that name and the heel is on the needle."""
    body = act.body[0] if len(act.body) == 1 else None
    words = telling(act.holder or "")
    if not words or not isinstance(body, StitchTo) or not state.piece.needle.stitches:
        return act
    waiting = any(words & (telling(group.name) | telling(group.piece)) for group in state.holders)
    return act if waiting else Stitch(body.name, act.count, body.name, span=act.span)
