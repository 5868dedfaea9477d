"""Where fabric ends: binding off, shoulders joined on three needles, grafting.

In: the steps of the syntax tree that end live stitches. Out: the state moved on.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.binding_off import work_off
from castoff.knitting.faults import (
    BOUND_OFF_TOO_MANY,
    DOES_NOT_DIVIDE,
    NEVER_ENDS,
    NO_STITCHES,
    SEAM_COUNTS,
    SIDES_DIFFER,
    fault,
)
from castoff.knitting.held import find_group, telling
from castoff.knitting.loops import Group, Needle
from castoff.knitting.marking import decreased_beside
from castoff.knitting.row_faults import other
from castoff.knitting.short_rows import mind_turned
from castoff.knitting.sources import sources_of
from castoff.knitting.state import PieceState, SizeState
from castoff.notation.cords import folded_of
from castoff.notation.syntax import (
    BindOff,
    Count,
    Graft,
)
from castoff.span import Span


def bind_off(state: SizeState, step: BindOff) -> None:
    """Binds off all the stitches, or so many of them."""
    piece = state.piece
    have = piece.needle.stitches
    number = have if step.count is None else step.count.at(state.size)
    if number is None:
        return
    if have == 0:
        if number or step.count is None:
            state.report(fault(NO_STITCHES, step.span, "no stitches are on the needle to be bound off"))
        return
    if step.count is not None and number != have:
        more = number > have
        state.report(
            fault(
                BOUND_OFF_TOO_MANY,
                step.span,
                "{number} sts are to be bound off, {have} are on the needle"
                + ("" if more else "; {left} would be left"),
                hint="{have} sts",
                number=number,
                have=have,
                left=have - number,
                related=sources_of(state.piece),
            )
        )
    left = 0 if step.leaves is None else state.number_of(step.leaves)
    if left >= have:
        state.report(
            fault(
                BOUND_OFF_TOO_MANY,
                step.span,
                "all but {left} sts are to be bound off, {have} are on the needle",
                left=left,
                have=have,
                related=sources_of(state.piece),
            )
        )
        left = 0
    _mind_sides(state, have, step.span)
    if folded_of(step.manner):
        _mind_fold(state, have, step.span)
    else:
        mind_turned(state, step.span, "binding off")
    have -= left
    if step.picot is not None:
        _mind_picots(state, step.picot, have, left, step.span)
    if step.so is not None:
        left = work_off(state, step.so, have)
        have -= left
    gone = decreased_beside(state, step)
    state.add_loops("k2tog", gone)
    if step.so is None:
        state.add_loops("bind off", have - gone)
    state.event("bind off", have - gone, " ".join(step.manner), step.span)
    if any("three-needle" in manner or "3-needle" in manner for manner in step.manner):
        _three_needle(state, have, step.span)
    piece.landmarks.setdefault("bind-off", (piece.rows, piece.length))
    piece.landmarks["end"] = (piece.rows, piece.length)
    piece.needle = piece.needle.resized(left) if left else Needle()
    piece.before = have
    piece.unaccounted = None
    piece.doubt = False
    if left and step.so is not None:  # a cord is slipped back, and goes on with the same side facing
        piece.needle = Needle("k" * left, left if piece.due == "WS" else 0)
    elif left:
        piece.needle = replace(piece.needle, at=0)
        piece.bound_to = piece.rows
        piece.due = other(piece.due) if piece.form == "flat" and piece.due is not None else piece.due


def _mind_fold(state: SizeState, have: int, span: Span) -> None:
    """Two halves of one needle are joined from where the yarn is: that must be the middle."""
    at = state.piece.needle.at
    if 2 * at == have or at in (0, have):
        return
    state.report(
        fault(
            SEAM_COUNTS,
            span,
            "{at} sts are on one side of the fold, {rest} on the other",
            at=at,
            rest=have - at,
            hint="work to the middle: {half} sts" if have % 2 == 0 else "an even number",
            half=have // 2,
        )
    )


def _mind_picots(state: SizeState, picot: tuple[Count, Count], have: int, stay: int, span: Span) -> None:
    """Every point uses up the stitches that it binds off more than it casts on; they must come out."""
    on, off = (state.number_of(count) for count in picot)
    uses = off - on
    if uses <= 0:
        state.report(
            fault(
                NEVER_ENDS,
                span,
                "every point casts on {on} sts and binds off {off}: the stitches never come to an end",
                on=on,
                off=off,
            )
        )
    elif have % uses:
        state.report(
            fault(
                DOES_NOT_DIVIDE,
                span,
                "{have} sts"
                + (" without the {stay} that stay" if stay else "")
                + " do not divide by {uses}, which every point uses: {left} left over",
                hint="{less} or {more} sts would fit",
                have=have,
                uses=uses,
                left=have % uses,
                stay=stay,
                less=have - have % uses + stay,
                more=have - have % uses + uses + stay,
            )
        )
    elif on:
        state.add_loops("cast on", have // uses * on)
        state.add_loops("bind off", have // uses * on)


def _mind_sides(state: SizeState, have: int, span: Span) -> None:
    """Two sides that part at the same row are usually of one length, and end alike when they begin alike."""
    piece = state.piece
    if piece.form == "flat" and piece.part and piece.ends:
        (row, _), last, stitches = piece.ends[-1]
        divided = piece.begun[0]
        if stitches == have and row <= divided < last and abs(last - piece.rows) > 2:
            state.report(
                fault(
                    SIDES_DIFFER,
                    span,
                    "this side ends with row {mine}, the other with row {other}; they part after row {row}",
                    hint="work {rows} rows on both sides",
                    mine=piece.rows,
                    other=last,
                    row=divided,
                    rows=last - divided,
                )
            )
        elif (
            # what is not shaped is no side: a neck's middle, taken up and bound off
            piece.begun[1] == _begun_with(piece) not in (have, stitches) and stitches != have and row <= divided < last
        ):
            state.report(
                fault(
                    SIDES_DIFFER,
                    span,
                    "this side ends with {mine} sts, the other with {other}; both began with {begun}",
                    hint="shape both sides alike",
                    mine=have,
                    other=stitches,
                    begun=piece.begun[1],
                )
            )
    if piece.form == "flat":
        piece.ends.append((piece.begun, piece.rows, have))


def _begun_with(piece: PieceState) -> int:
    """Stitches of the side worked before this one, behind the row at which they parted; 0 when it went its own way."""
    (row, began), _, _ = piece.ends[-1]
    divided = piece.begun[0]
    if row == divided and began:
        return began
    of_side = [each for each in piece.records if each.part == piece.part - 1 and each.row == divided + 1]
    return of_side[0].after if of_side else 0


def _three_needle(state: SizeState, have: int, span: Span) -> None:
    """Stitches bound off together with those of another needle, which must be as many; or with its own other half."""
    at = find_group(state.holders, "", have)
    if at is None:
        if have % 2:
            state.report(
                fault(
                    SEAM_COUNTS, span, "{have} sts do not divide into two equal sides", have=have, hint="an even number"
                )
            )
        return
    group = state.holders[at]
    if group.stitches != have:
        state.report(
            fault(SEAM_COUNTS, span, "{have} sts are bound off together with {other}", have=have, other=group.stitches)
        )
    del state.holders[at]


def graft(state: SizeState, step: Graft) -> None:
    """Joins live stitches to live stitches, equally many on each side."""
    piece = state.piece
    have = piece.needle.stitches
    counts = [count.at(state.size) for count in step.counts]
    numbers = [number for number in counts if number is not None]
    halves = len(piece.arranged) == 2 and sum(piece.arranged) == have
    if halves:
        numbers = list(piece.arranged)
    elif len(numbers) == 1 and numbers[0] == 2:
        numbers = []  # "the two sets of sts"
    piece.arranged = ()
    if len(numbers) == 2 and numbers[0] != numbers[1]:
        state.report(fault(SEAM_COUNTS, step.span, "{one} sts are grafted to {two}", one=numbers[0], two=numbers[1]))
    elif len(numbers) == 1 and have and have not in (numbers[0], 2 * numbers[0]):
        state.report(
            fault(
                SEAM_COUNTS,
                step.span,
                "{one} sts are to be grafted, {have} are on the needle",
                one=numbers[0],
                have=have,
            )
        )
    elif len(numbers) == 2 and sum(numbers) not in (have, have + sum(g.stitches for g in state.holders)):
        state.report(
            fault(
                SEAM_COUNTS,
                step.span,
                "{one} sts are to be grafted to {two}, {have} are on the needle",
                one=numbers[0],
                two=numbers[1],
                have=have,
                related=sources_of(state.piece),
            )
        )
    mine = _to_be_grafted(state, step, have, halves or (piece.form == "round" and have % 2 == 0))
    if have and not numbers and have % 2 and not mine and "cast-on" not in " ".join(step.parts):
        state.report(
            fault(
                SEAM_COUNTS,
                step.span,
                "{have} sts do not divide into two equal sides",
                have=have,
                hint="an even number",
            )
        )
    waiting = sum(group.stitches for group in mine)
    if mine and have and waiting != have and not numbers:
        state.report(
            fault(
                SEAM_COUNTS,
                step.span,
                "{one} sts are grafted to {two}",
                one=have,
                two=waiting,
                related=sources_of(state.piece),
            )
        )
    state.holders = [group for group in state.holders if group not in mine]
    state.event("graft", have or waiting, step.manner, step.span)
    piece.needle = Needle()
    piece.doubt = False
    piece.unaccounted = None


def _to_be_grafted(state: SizeState, step: Graft, have: int, alone: bool) -> list[Group]:
    """Waiting stitches that a line grafts: those it names, those on a holder without a name, and those as many as are live.

    "Graft rem sts" speaks of no other part: a thumb goes on waiting. alone: the live ones make two sides by themselves.
    """
    mine = [group for group in state.holders if group.piece == state.piece.name]
    named = telling(" ".join(step.parts))
    return [
        group
        for group in mine
        if (not telling(group.name) and not (alone and group.stitches != have))
        or telling(group.name) & named
        or (group.stitches == have and step.parts != ("sts",))
    ]
