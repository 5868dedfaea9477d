"""Short rows as a whole: wraps that are left, turns that nobody closes, and what is told of wrapped stitches.

In: where the knitting stands, and what a row has done. Out: faults.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.knitting.faults import PART_OFF, Fault, Values, fault
from castoff.knitting.row_faults import other
from castoff.knitting.setting import NO_WRAPS_MET, RowResult
from castoff.knitting.short_row_halves import keep_turn, mind_halves
from castoff.knitting.short_row_rules import NO_WRAP, OFF_CENTRE, TURN_OPEN, WRAPPED_BEYOND, WRAPS_IN_GARTER, WRAPS_LEFT
from castoff.knitting.state import Acts, PieceState, RowDef, SizeState
from castoff.knitting.turn_acts import NAMES
from castoff.knitting.wraps import centre
from castoff.notation.syntax import InstructionLine, Meanwhile, PickUpWrap, RowStep, Side, Stated, Step
from castoff.span import Span


def mind_wraps(state: SizeState, row: RowDef, acts: Acts, result: RowResult, gathers: PickUpWrap | None) -> None:
    """After a row: wraps that it should have worked and has not, or has been told to work where there were none.

    gathers: the act by which it picks up wraps as they come.
    """
    piece = state.piece
    met = result.wraps
    piece.short_row = row.span if result.turned else None
    if result.turned or piece.turned_rows or piece.halves:
        _mind_turned_rows(state, row, result)
    if met is NO_WRAPS_MET and gathers is None:
        return
    lone = sum(wrap.kind == "yo" for wrap in met.left)
    left = sum(wrap.kind == "wrap" for wrap in met.left)
    if gathers is not None and not met.closed and not result.rest:
        state.report(
            fault(
                NO_WRAP,
                gathers.span,
                "{label} meets no {name} that could be worked with its stitch",
                label=row.label,
                name=NAMES[gathers.what],
            )
        )
    if lone:
        state.report(
            fault(
                WRAPS_LEFT,
                row.span,
                "{label} works yarn-overs of turns as stitches of their own: {left}",
                hint="`k yo tog with next st`, or `working each yo tog with next st`",
                label=row.label,
                left=lone,
            )
        )
    if left and picks_wraps(state):
        garter = piece.standing == "flip"
        state.report(
            fault(
                WRAPS_IN_GARTER if garter else WRAPS_LEFT,
                row.span,
                "{label} works over wraps and picks none of them up: {left}",
                hint=None if garter else "`picking up wraps`; or the rows that do are worked too few times",
                label=row.label,
                left=left,
            )
        )
    if met.again:
        _mind_beyond(state, row, acts, all(met.again))


def _mind_turned_rows(state: SizeState, row: RowDef, result: RowResult) -> None:
    """Keeps where rows turned, until a row has gone from end to end."""
    piece = state.piece
    if result.turned:
        keep_turn(state, row, result, other(piece.due or "RS"))
    elif not result.short:
        mind_halves(state)
    if piece.form != "flat":
        piece.turned_rows = []
    elif result.turned:
        side = other(piece.due or "RS")
        left = next((event.count for event in reversed(result.events) if event.kind == "turn"), 0)
        piece.turned_rows.append((side, left, row.span))
    elif not result.short:
        mind_centre(state)


def mind_centre(state: SizeState) -> None:
    """Whether the short rows that are over now turned as far from one end as from the other."""
    turned = state.piece.turned_rows
    state.piece.turned_rows = []
    sides: tuple[Side, Side] = ("RS", "WS")
    one, two = (sorted(left for each, left, _ in turned if each == side) for side in sides)
    off = {first - second for first, second in zip(one, two, strict=False)}
    if len(one) < 2 or len(one) != len(two) or len(off) != 1 or abs(next(iter(off))) not in (1, 2):
        return
    first = next(span for side, _, span in turned if side == turned[1][0])
    state.report(
        fault(
            OFF_CENTRE,
            first,
            "the turns lie off centre: the outermost leave {one} st at the end of RS rows and {two} at that of WS rows",
            hint="the first turn of one side has a wrong count",
            one=one[0],
            two=two[0],
        )
    )


def _mind_beyond(state: SizeState, row: RowDef, acts: Acts, again: bool) -> None:
    """Rows that wrapped wrapped stitches, and come to one that is none."""
    piece = state.piece
    before = piece.wrapped_again.get(id(acts))
    if before and not again:
        state.report(
            fault(
                WRAPPED_BEYOND,
                row.span,
                "{label} has come to the end of the wrapped sts, and wraps one beyond them",
                hint="one time fewer",
                label=row.label,
            )
        )
    piece.wrapped_again[id(acts)] = again


def between_turns(piece: PieceState) -> tuple[int, int] | None:
    """In a round that has been turned: where the stitches of the last row begin, and how many they are.

    A row that ends with the first turn began with the round. None when it has not been turned, or when the last row has
    gone on over the place where it began.
    """
    needle = piece.needle
    total = needle.stitches
    if piece.form != "round" or not piece.turned or not needle.turns:
        return None
    others = [turn for turn in needle.turns if turn != needle.at % total] or [0]
    if piece.due == "RS":
        begin = needle.at % total
        length = min((turn - needle.at) % total for turn in others)
    else:
        length = min((needle.at - turn) % total for turn in others)
        begin = (needle.at - length) % total
    return (begin, length) if 0 < length < total else None


def picks_wraps(state: SizeState) -> bool:
    """Whether the pattern asks anywhere for wraps to be worked with their stitches."""
    shared = state.shared
    if shared.picks_wraps is None:
        shared.picks_wraps = any(
            act.what == "wrap" for section in state.plan.sections for act in _pickings(section.lines)
        )
    return shared.picks_wraps


def _pickings(lines: object) -> Iterator[PickUpWrap]:
    for line in lines if isinstance(lines, tuple) else ():
        if isinstance(line, InstructionLine):
            for step in line.steps:
                yield from _in_step(step)


def _in_step(step: Step) -> Iterator[PickUpWrap]:
    if isinstance(step, Meanwhile):
        for inner in step.steps:
            yield from _in_step(inner)
    elif isinstance(step, RowStep):
        yield from _in_acts(step.work)


def _in_acts(acts: Acts) -> Iterator[PickUpWrap]:
    for act in acts:
        if isinstance(act, PickUpWrap):
            yield act
        inner = getattr(act, "body", None)
        if isinstance(inner, tuple):
            yield from _in_acts(inner)


def mind_turned(state: SizeState, span: Span | None, what: str) -> None:
    """Work that starts from an end of the needle, while the yarn hangs where the last row turned.

    what: what is to be done, "bind off".
    """
    piece = state.piece
    needle = piece.needle
    mind_centre(state)
    mind_halves(state)
    if piece.short_row is None or needle.at in (0, needle.stitches) or piece.doubt:
        return
    if piece.form == "flat":
        behind = needle.at if piece.due == "RS" else needle.stitches - needle.at
        message = "{what}: the last row has turned; sts behind the yarn that nobody has worked since: {behind}"
    else:
        behind = needle.stitches - needle.at if piece.due == "RS" else needle.at
        message = "{what}: the last row has turned; sts from the yarn to the beginning of the round: {behind}"
    wrapped = sum(wrap.kind != "yo" for wrap in needle.wraps)
    state.report(
        fault(
            TURN_OPEN,
            span,
            message + ("; wrapped sts still to be worked: {wrapped}" if wrapped else ""),
            hint="tell the row that goes back to the end (`k to end`), or repeat the rows before it more often",
            related=((piece.short_row, "the row that turned"),),
            what=what,
            behind=behind,
            wrapped=wrapped,
        )
    )


# ------------------------------------------------------------------------------------------------ told counts

_TOLD = re.compile(r"\b(unwrapped|double-wrapped|wrapped|wraps?|ds|double)\b")
_BETWEEN = re.compile(r"^between (the )?(wraps|wrapped sts?|turns|gaps|ds|double (sts?|stitches)|wrapped stitches)$")


def between_wraps(where: str) -> bool:
    """Whether words name the stitches that no short row has wrapped yet: "unwrapped", "between wraps"."""
    return where == "unwrapped" or bool(_BETWEEN.match(where))


def unwrapped(state: SizeState) -> int:
    """Stitches between the innermost wraps of both sides; all of them without wraps."""
    needle = state.piece.needle
    found = centre(needle.wraps, needle.stitches, needle.at, round_=state.piece.form == "round")
    return needle.stitches if found is None else found[1] - found[0]


def tells_wraps(stated: Stated) -> bool:
    """Whether a printed number speaks of wrapped or unwrapped stitches."""
    return bool(_TOLD.search(stated.part) or _BETWEEN.match(stated.part))


def check_wraps(state: SizeState, stated: Stated) -> None:
    """Holds "10 unwrapped sts", "9 wrapped sts each side", "8 sts between wraps" against the needle."""
    number = stated.stitches.at(state.size)
    piece = state.piece
    if number is None or piece.doubt or piece.wraps_unknown:
        return
    needle = piece.needle
    kind = _TOLD.search(stated.part)
    asked = None if _BETWEEN.match(stated.part) or kind is None or kind[1] == "unwrapped" else kind[1]
    which = "ds" if asked in ("ds", "double") else "wrap"
    wraps = tuple(wrap for wrap in needle.wraps if asked is None or wrap.kind == which)
    found = centre(wraps, needle.stitches, needle.at, round_=piece.form == "round")
    if found is None:
        if number or asked is None:
            _off(state, stated, number, "no st is wrapped" if which == "wrap" else "no st is doubled")
        return
    first, last, before, behind = found
    unwrapped = last - first
    if asked is None:
        if number != unwrapped:
            _off(state, stated, number, "{unwrapped} lie between the wrapped ones", unwrapped=unwrapped)
        return
    if any(word in stated.part for word in ("each", "either", "both")) or stated.each:
        if (before, behind) != (number, number):
            _off(
                state,
                stated,
                number,
                "{before} are on one side and {behind} on the other"
                if before != behind
                else "{before} are on each side",
                before=before,
                behind=behind,
            )
        elif piece.form == "flat":
            _mind_ends(state, stated, number)
        return
    there = sum(wrap.times >= (2 if asked == "double-wrapped" else 1) for wrap in wraps)
    if number != there:
        _off(state, stated, number, "{have} are on the needle", have=there)


def _mind_ends(state: SizeState, stated: Stated, number: int) -> None:
    """As many wrapped stitches on both sides, one behind the other, stand as far from one end as from the other."""
    needle = state.piece.needle
    places = sorted({wrap.place for wrap in needle.wraps if wrap.kind != "yo"})
    left, right = places[0], needle.stitches - 1 - places[-1]
    close = places[number - 1] - left == number - 1 == places[-1] - places[-number]
    if close and left != right:
        _off(
            state,
            stated,
            number,
            "{left} st lie beyond them at one end and {right} at the other",
            left=left,
            right=right,
        )


def _off(state: SizeState, stated: Stated, number: int, there: str, **values: int | str) -> None:
    words = stated.part.split()
    told = f"{stated.part}" if words[0] in ("between", "ds", "wraps") else " ".join((words[0], "sts", *words[1:]))
    told = f"sts {told}" if words[0] == "between" else told
    numbers: Values = (("number", number), ("part", told), *values.items())
    state.report(Fault(PART_OFF, stated.span, "{number} {part} are printed; " + there, numbers))
