"""Where fabric begins and goes on: casting on, joining into a round, picking up, markers, turning.

In: the steps of the syntax tree that make live stitches. Out: the state moved on.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.divided import divide_round
from castoff.knitting.divisions import over_needle
from castoff.knitting.faults import (
    NO_MARKER,
    PART_OFF,
    TOO_MANY,
    UNCOUNTED,
    WRONG_SIDE,
    fault,
)
from castoff.knitting.holding import beyond_turn, hold
from castoff.knitting.loops import MOST_STITCHES, Group, Needle, hidden
from castoff.knitting.short_rows import between_turns, mind_turned
from castoff.knitting.sources import sources_of
from castoff.knitting.starting import cast_on_beside, mind_corners
from castoff.knitting.state import RowDef, SizeState, begin_finger
from castoff.knitting.steps_needles import REST, rejoin_rest, set_aside, use_needles, use_yarn
from castoff.knitting.work_row import work_row
from castoff.notation.syntax import (
    Action,
    CastOn,
    CastOnAct,
    Count,
    Hold,
    HoldAct,
    JoinRound,
    Opening,
    PickUp,
    PickUpRow,
    Place,
    Turn,
    TurnWork,
    WorkHeld,
)
from castoff.span import Span


def cast_on(state: SizeState, step: CastOn) -> None:
    """Begins a piece or a part. Live stitches of an earlier part of the piece are set aside, as worded or not."""
    number = step.count.at(state.size)
    if number is None:
        return
    piece = state.piece
    if step.needles is not None:
        use_needles(state, step.needles, step.span)
    if step.yarns:
        use_yarn(state, step.yarns, step.span, joins=True)
    if number > MOST_STITCHES:
        state.report(fault(TOO_MANY, step.span, "{number} sts are more than any needle holds", number=number))
        number = 100
        piece.doubt = True
    if step.onto and piece.needle.stitches:
        cast_on_beside(state, step, number)
        return
    if piece.needle.stitches:
        set_aside(state, "", step.span)
    if step.provisional:
        piece.provisional = (number, step.span)
    begun = piece.started or piece.cast_on[0]
    piece.needle = Needle("k" * number)
    piece.short_row, piece.wraps_unknown = None, False
    piece.form = (state.section.form if state.section is not None else None) or "flat"
    piece.due = "RS" if piece.form == "round" else None
    piece.started = False
    piece.standing = "same"
    piece.fabric = None
    piece.turned = False
    piece.unaccounted = None
    piece.doubt = False
    piece.told = (step.span, number, "cast on here")
    piece.before = number
    if begun:
        piece.part += 1
        piece.rows, piece.length = 0, piece.length * 0
    else:
        piece.cast_on = (number, state.gauge)
    piece.landmarks["cast-on"] = (0, piece.length * 0)
    begin_finger(piece, "cast on")
    state.add_loops("cast on", number)
    state.event("cast on", number, step.method or "", step.span)
    state.use_needles()
    state.forget_rows()
    state.history = []


def join_round(state: SizeState, step: JoinRound) -> None:
    """Joins the ends into a round, or goes back to rows."""
    piece = state.piece
    goes_on = step.form == "round" and _goes_on_from_yarn(state, step.span)
    if step.form == "round":
        rejoin_rest(state)
    total = piece.needle.stitches
    if step.form == "round":
        marks = tuple(mark for mark in piece.needle.marks if 0 < mark[0] < total)
        at = piece.needle.at if goes_on and piece.needle.at < total else 0
        piece.needle = replace(piece.needle, at=at, marks=marks, gaps=(), turns=())
        piece.form, piece.due, piece.turned = "round", "RS", False
        piece.parted = False
        if piece.worked_part == "heel":
            piece.landmarks["heel worked"] = (piece.rows, piece.length)
        piece.landmarks.setdefault("join", (piece.rows, piece.length))
        state.event("join round", total, span=step.span)
        return
    over = over_needle(state, step) or step.over
    if step.which == "these" and piece.form == "round" and _between_turns(state, step):
        return
    if step.which == "these" and piece.form == "flat" and beyond_turn(piece):
        # "k30, turn; work back and forth on these 30 sts": the rest of the row waits
        act = HoldAct(over, "hold", told="these", on="hold", span=step.span)
        hold(state, Hold(act, leave=True, only=True, span=step.span))
        return
    if piece.form == "round" and piece.before_held and over is None:
        divide_round(state)
    elif piece.needle.at == 0 and piece.started:
        # from the end of a round the yarn can go on in a right-side row, or turn: the next line says which
        free = piece.form == "round" and not piece.turned and over is None
        piece.due = None if free else "RS"
    piece.form = "flat"
    piece.worked_part = step.what
    if step.what:
        piece.called.append((step.what, piece.part, piece.rows))
    piece.worked_over, piece.worked_which = over, step.which


def _between_turns(state: SizeState, step: JoinRound) -> bool:
    """ "K14, turn. Sl 1, p27. Work back and forth on these 28 sts": those of the last row go on, the rest waits."""
    piece = state.piece
    lying = between_turns(piece)
    if lying is None:
        if step.what and step.over is None and not piece.turned and _nothing_waits(state):
            state.report(
                fault(
                    PART_OFF,
                    step.span,
                    "the {what} is worked back and forth, and nothing says over which of the {have} sts",
                    hint="`work back and forth over the first {half} sts`, or `on needle 1 only`",
                    what=step.what,
                    have=piece.needle.stitches,
                    half=piece.needle.stitches // 2,
                )
            )
        return False
    begin, length = lying
    if step.over is not None and state.number_of(step.over) != length:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{over} sts are to be worked over, {have} lie between the turns",
                hint="{have} sts",
                over=state.number_of(step.over),
                have=length,
                related=sources_of(state.piece),
            )
        )
    total = piece.needle.stitches
    around = piece.needle.rotated(begin)
    rest = replace(around.part(length, total), at=0, turns=())
    state.holders.append(Group(REST, rest, piece.name, "RS", piece.rows, piece.length, True, step.span))
    piece.needle = replace(around.part(0, length), at=0 if piece.due == "RS" else length, turns=())
    piece.form, piece.turned, piece.rotated = "flat", False, begin
    piece.worked_part, piece.worked_over = step.what, None
    return True


def _nothing_waits(state: SizeState) -> bool:
    return not any(group.piece == state.piece.name for group in state.holders)


def _goes_on_from_yarn(state: SizeState, span: Span) -> bool:
    """Whether stitches worked back and forth go on in the round from where the yarn hangs, and not from its beginning.

    So it is after a short row, when a right-side row is due, and at the end of a part whose round waits beside it.
    """
    piece = state.piece
    needle = piece.needle
    if 0 < needle.at < needle.stitches and piece.due == "RS" and piece.short_row is not None:
        return True
    if piece.form == "flat" or piece.turned:
        mind_turned(state, span, "working in the round")
    waits = any(group.name == REST and group.piece == piece.name for group in state.holders)
    return waits and piece.form == "flat" and needle.at == needle.stitches and piece.due == "WS"


def pick_up_row(state: SizeState, step: PickUpRow, expected: int | None) -> None:
    """A row made by picking up along an edge, with held stitches worked in between."""
    if step.needles is not None:
        use_needles(state, step.needles, step.span)
    if step.yarns:
        use_yarn(state, step.yarns, step.span, joins=True)
    piece = state.piece
    new = not piece.needle.stitches
    if new:
        piece.form = "flat"
        piece.due = None
        piece.started = False
        piece.standing = "same"
    elif piece.bound_to == piece.rows and all(isinstance(part, PickUp) for part in step.parts):
        # on from the last stitch of a bound-off edge, along another edge: a new part begins
        piece.form, piece.due, piece.standing = "flat", step.side or "RS", "same"
        piece.needle = replace(piece.needle, at=piece.needle.stitches)
        new = True
    elif _round_a_corner(state, step):
        # on from the stitches worked last, round the corners of a strip; what was worked stays behind the yarn
        piece.due = "RS"
        piece.needle = replace(piece.needle, at=piece.needle.stitches)
        mind_corners(state, step)
    elif piece.form == "flat" and sum(isinstance(part, PickUp) for part in step.parts) > 1:
        # along both sides of a flap, with what was held in between: it goes on in rounds
        piece.form, piece.due, piece.turned = "round", "RS", False
        piece.parted = False
    step = _turned_to_cast_on(step)
    parts = _counted(state, step, expected)
    row = RowDef(parts, "picking up", side=step.side, unit="rnd" if piece.form == "round" else "row", span=step.span)
    if not piece.started:
        piece.due = step.side or "RS"
    work_row(state, row, expected)
    if new:
        piece.cast_on = (piece.needle.stitches, state.gauge)
        form = state.section.form if state.section is not None else None
        piece.rows = 0
        piece.length = piece.length * 0
        piece.told = (step.span, piece.needle.stitches, "picked up here")
        piece.unaccounted = None
        if form == "round":
            piece.form, piece.due = "round", "RS"
            piece.needle = replace(piece.needle, at=0)
    state.event("join yarn", 1, " ".join(step.yarns), step.span)
    state.remember(row)
    state.forget_rows()
    state.landmark_section()
    begin_finger(piece, "taken back")


def _turned_to_cast_on(step: PickUpRow) -> PickUpRow:
    """ "Pick up and knit 30 sts, then turn and cast on 31 sts": new stitches at the end of the row that picks up."""
    at = next((at for at, part in enumerate(step.parts) if isinstance(part, Turn)), None)
    if at is None or not all(isinstance(part, CastOnAct) for part in step.parts[at + 1 :]) or at + 1 == len(step.parts):
        return step
    return replace(step, parts=(*step.parts[:at], *step.parts[at + 1 :]))


def _round_a_corner(state: SizeState, step: PickUpRow) -> bool:
    """Whether stitches are picked up along one edge after another of a strip (a garter tab): nothing waits in between."""
    piece = state.piece
    here = state.section
    if piece.form != "flat" or here is None or here.form == "round" or len(step.parts) < 2:
        return False
    edges = all(isinstance(part, PickUp) for part in step.parts)
    return edges and not any(group.piece == piece.name for group in state.holders)


def place(state: SizeState, step: Place) -> None:
    """Markers between rows: on the needle where the yarn is, or in the fabric as a landmark."""
    piece = state.piece
    here = (piece.rows, piece.length)
    where = step.where.lower()
    name = (step.act.name or "").lower()
    if step.act.act != "place":
        _pass_marker(state, step)
        return
    state.event("place marker", state.number_of(step.count, 1) or 1, step.act.name or "", step.span)
    if "row" in where or "end" in where or "edge" in where or "arm" in where:
        piece.landmarks["marker"] = here
        piece.landmarks["armhole" if "arm" in where + name or "each end" in where else "marker"] = here
        return
    if 0 < piece.needle.at < piece.needle.stitches:
        at = piece.needle.at
        if piece.form == "round" and not piece.turned:
            # "rnd now begins here": the place of the yarn is the new beginning
            piece.needle = replace(piece.needle.rotated(at), at=0)
            return
        piece.needle = replace(piece.needle, marks=tuple(sorted((*piece.needle.marks, (at, step.act.name or "")))))


def _pass_marker(state: SizeState, step: Place) -> None:
    """Between rows a marker is removed from the needle; slipping one there changes nothing."""
    piece = state.piece
    needle = piece.needle
    act = step.act
    real = [mark for mark in needle.marks if not hidden(mark[1])]
    if act.act == "slip":
        return
    if act.every:
        gone = real
    elif act.name is not None and any(other.lower() == act.name.lower() for _, other in real):
        gone = [mark for mark in real if mark[1].lower() == act.name.lower()][:1]
    else:
        gone = [mark for mark in real if mark[0] == needle.at][:1]
    at_start = piece.form == "round" and needle.at in (0, needle.stitches)
    if not gone and not act.every and not at_start and "marker" not in piece.landmarks:
        state.report(fault(NO_MARKER, step.span, "no marker is here to be removed"))
        return
    state.event("remove marker", len(gone) or 1, "all" if act.every else act.name or "", step.span)
    piece.needle = replace(needle, marks=tuple(mark for mark in needle.marks if mark not in gone))


def turn_work(state: SizeState, step: TurnWork) -> None:
    """Turns between rows, or says which side faces."""
    piece = state.piece
    if step.facing is None:
        _turn_here(state)
        return
    if not piece.needle.stitches:
        # a side that waits is taken up with the side facing that is told
        piece.facing = step.facing
        return
    if piece.form == "flat" and piece.started and piece.due not in (None, step.facing) and not piece.loose_end:
        state.report(
            fault(
                WRONG_SIDE,
                step.span,
                "the {facing} is to face; a {due} row is due",
                hint="a row is missing or one too many before it",
                facing=step.facing,
                due=piece.due or "",
            )
        )
        piece.due = step.facing
        return
    if piece.due is None or not piece.started:
        piece.due = step.facing
        piece.started = piece.started or (piece.form == "flat" and piece.fresh)
        if piece.needle.at in (0, piece.needle.stitches):
            piece.needle = replace(piece.needle, at=0 if step.facing == "RS" else piece.needle.stitches)


def _turn_here(state: SizeState) -> None:
    """ "Turn." behind a row that has stopped in mid-round: the next row goes back."""
    piece = state.piece
    if piece.form == "round" and piece.before_held:
        divide_round(state)
    elif piece.form == "round" and not piece.turned and piece.started and 0 < piece.needle.at < piece.needle.stitches:
        piece.turned = True
        piece.due = "WS"
        piece.needle = replace(piece.needle, turns=tuple(sorted({*piece.needle.turns, piece.needle.at})))


def opening(state: SizeState, step: Opening) -> None:
    """The state that an excerpt, or a section of its own, starts from."""
    piece = state.piece
    number = None if step.stitches is None else step.stitches.at(state.size)
    if number is not None:
        piece.needle = Needle("k" * number)
        piece.form = (state.section.form if state.section is not None else None) or piece.form
        piece.due = step.side or ("RS" if piece.form == "round" else None)
        if step.side == "WS":
            piece.needle = replace(piece.needle, at=number)
        piece.started = step.side is not None
        piece.fresh_charts = True
        piece.doubt = False
        piece.told = (step.span, number, "told here")
        if not piece.cast_on[0]:
            piece.cast_on = (number, state.gauge)
    _lay_out(state, step)
    for count, name in step.held:
        held = count.at(state.size)
        if held:
            state.holders.append(Group(name, Needle("k" * held), piece.name, span=step.span))


def _lay_out(state: SizeState, step: Opening) -> None:
    """Parts that an opening tells of lie between markers; together they are all the stitches."""
    needle = state.piece.needle
    parts = [state.number_of(part.stitches) for part in step.parts]
    if not parts:
        return
    if sum(parts) > needle.stitches:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{sum} = {total} sts are told of, {have} are on the needle",
                sum=" + ".join(str(part) for part in parts),
                total=sum(parts),
                have=needle.stitches,
            )
        )
    elif sum(parts) == needle.stitches:
        places = [sum(parts[:at]) for at in range(1, len(parts))]
        state.piece.needle = replace(needle, marks=tuple((place, "") for place in places))


def _counted(state: SizeState, step: PickUpRow, expected: int | None) -> tuple[Action, ...]:
    """The parts of a row of picking up; a ratio ("3 sts for every 4 rows") comes to what the printed total leaves."""
    unsaid = [part for part in step.parts if isinstance(part, PickUp) and part.count is None]
    if not unsaid:
        return step.parts
    others = sum(
        state.number_of(part.count)
        for part in step.parts
        if isinstance(part, (PickUp, WorkHeld)) and part.count is not None
    )
    left = None if expected is None else expected - state.piece.needle.stitches - others
    if left is None or left <= 0 or len(unsaid) > 1:
        state.report(
            fault(
                UNCOUNTED,
                unsaid[0].span,
                "how many stitches are picked up is not told",
                hint="print the number of stitches behind it",
            )
        )
        state.piece.doubt = True
        return step.parts
    count = Count((left,) * len(state.plan.sizes), span=unsaid[0].span)
    return tuple(replace(part, count=count) if part is unsaid[0] else part for part in step.parts)
