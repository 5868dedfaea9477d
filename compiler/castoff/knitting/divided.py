"""Work that parts: a neck or a round divided, one side worked while the other waits, and the other taken up again.

In: the state behind a row that stopped before its end, or before stitches it put aside. Out: the state moved on: the row
is a row of the side in work, a divided round goes on in rows, and what waits is found again.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.faults import NOT_HELD, fault
from castoff.knitting.loops import Group
from castoff.knitting.state import Acts, PieceState, SizeState
from castoff.notation.syntax import HoldAct, MarkerAct, Remark, Turn
from castoff.span import Span


def whole_row(piece: PieceState) -> None:
    """A row that was turned before stitches which then wait is a whole row of the side that goes on."""
    last = piece.records[-1] if piece.records else None
    if last is None or not last.short or last.rows != 1:
        return
    height = piece.turned_height
    piece.rows += 1
    piece.short_rows -= 1
    piece.length += height
    changes = [replace(event, row=piece.rows) for event in last.changes]
    for event, moved in zip(last.changes, changes, strict=True):
        at = next((at for at in range(len(piece.events) - 1, -1, -1) if piece.events[at] is event), None)
        if at is not None:
            piece.events[at] = moved
    piece.records[-1] = replace(
        last,
        row=piece.rows,
        after=piece.needle.stitches,
        faces=piece.needle.faces,
        short=False,
        height_mm=height,
        length_mm=piece.length,
        changes=tuple(changes),
    )


def ends_with_held(acts: Acts) -> bool:
    """Whether the last stitches that a row meets are put aside: the yarn is left before them."""
    for act in reversed(acts):
        if isinstance(act, (Turn, Remark, MarkerAct)):
            continue
        return isinstance(act, HoldAct) and not act.worked
    return False


def divide_round(state: SizeState) -> None:
    """The yarn turns back before stitches that a round has put aside: from here the work goes in rows."""
    piece = state.piece
    piece.form, piece.turned, piece.before_held = "flat", False, False
    piece.due = "WS"
    piece.needle = replace(piece.needle, at=piece.needle.stitches, turns=(), gaps=())
    note_division(piece)


def note_division(piece: PieceState) -> None:
    """Armholes, fronts and backs of a divided round are measured from where it was divided."""
    here = (piece.rows, piece.length)
    bound = piece.landmarks.get("last bind-off", (-9, piece.length))
    piece.landmarks["armhole"] = bound if here[0] - bound[0] in (0, 1, 2) else here
    piece.landmarks["round divided"] = here


def left_behind(state: SizeState) -> int | None:
    """Index of the stitches of this piece that were left unworked last; None when none wait."""
    found = [at for at, group in enumerate(state.holders) if group.left and group.piece == state.piece.name]
    return found[-1] if found else None


def just_left(state: SizeState) -> int | None:
    """Index of the stitches that the last row left behind a gap without a word of them."""
    at = left_behind(state)
    last = state.piece.records[-1] if state.piece.records else None
    if at is None or last is None or state.holders[at].name or state.holders[at].span != last.span:
        return None
    return at


def name_what_was_left(state: SizeState, act: HoldAct, at: int, span: Span) -> None:
    """ "…, turn and leave rem sts on a holder", where a gap has parted them already."""
    group = state.holders[at]
    number = None if act.count is None else act.count.at(state.size)
    if number is not None and number != group.stitches:
        _wrong_number(state, act, number, group)
    state.holders[at] = replace(group, name=act.holder)
    state.event("hold", group.stitches, act.holder, span)


def hold_from_waiting(state: SizeState, act: HoldAct, at: int, span: Span) -> None:
    """ "With RS facing, slip next 20 sts onto a holder, rejoin yarn to rem sts": the next of those that were left."""
    group = state.holders[at]
    number = group.stitches if act.count is None else state.number_of(act.count)
    if number > group.stitches or (act.told == "rem" and number != group.stitches):
        _wrong_number(state, act, number, group)
        number = min(number, group.stitches)
    if not number:
        return
    total = group.stitches
    from_end = state.piece.facing == "WS"
    first, last = (total - number, total) if from_end else (0, number)
    rest = group.needle.part(0, first) if from_end else group.needle.part(last, total)
    put = replace(group, name=act.holder, needle=replace(group.needle.part(first, last), at=0), left=False, span=span)
    held = [put] if not rest.stitches else [put, replace(group, needle=replace(rest, at=0))]
    state.holders[at : at + 1] = held
    state.event("hold", number, act.holder, span)


def _wrong_number(state: SizeState, act: HoldAct, number: int, group: Group) -> None:
    state.report(
        fault(
            NOT_HELD,
            act.span,
            "{told}{number} sts are to be put on hold; {have} wait",
            hint="{have} sts" if act.told else None,
            told=f"{act.told} " if act.told else "",
            number=number,
            have=group.stitches,
            related=((group.span, "they were left here"),) if group.span is not None else (),
        )
    )
