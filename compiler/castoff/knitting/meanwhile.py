"""AT THE SAME TIME: shaping that runs beside other rows, as a timetable.

In: a `Meanwhile` and the rows that are worked meanwhile. Out: the same rows, with the second shaping on those that the
timetable names. What is left of it when the other rows are done is worked in the fabric as it stands.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.fabric import Event, EventKind
from castoff.knitting.faults import BOUND_OFF_TOO_MANY, fault
from castoff.knitting.loops import Needle
from castoff.knitting.shape_acts import BESIDE_MARKED
from castoff.knitting.state import Beside, SizeState
from castoff.notation.syntax import BindOffAct, CastOnAct, EndShaping, UntilStitches, UntilTimes


def change_of(state: SizeState, act: EndShaping | BindOffAct | CastOnAct) -> int:
    """Stitches that one working of a shaping act adds; negative when it takes away."""
    if isinstance(act, EndShaping):
        ends = 2 if act.ends in ("each", "both") else 1
        if act.ends == BESIDE_MARKED:
            ends = 2 * max(1, len(state.piece.needle.marked))
        number = state.number_of(act.stitches) * ends
        return -number if act.decrease else number
    if isinstance(act, BindOffAct):
        return -state.number_of(act.count)
    return state.number_of(act.count)


def tick(state: SizeState) -> None:
    """After a row: the shaping beside it, where the timetable has some for it."""
    piece = state.piece
    for beside in state.beside:
        if beside.start is None and _moment(state, beside):
            beside.start = piece.rows
            continue
        while beside.start is not None and beside.at < piece.rows - beside.start:
            beside.go_on(piece.needle.stitches)
            if beside.done:
                break
            shaped = beside.rows[beside.at]
            beside.at += 1
            if shaped and beside.change:
                _apply(state, beside)
            beside.go_on(piece.needle.stitches)


def _moment(state: SizeState, beside: Beside) -> bool:
    """Whether the row just worked is the one that the shaping waits for."""
    trigger = beside.source.trigger
    until = None if trigger is None else trigger.until
    last = state.piece.records[-1] if state.piece.records else None
    if last is not None and last.before != last.after:
        beside.changed += 1
    if isinstance(until, UntilStitches):
        return state.piece.needle.stitches == until.stitches.at(state.size)
    if isinstance(until, UntilTimes):
        return beside.changed == until.count.at(state.size)
    return False


def _apply(state: SizeState, beside: Beside) -> None:
    piece = state.piece
    have = piece.needle.stitches
    number = abs(beside.change)
    if beside.change < 0 and number >= have:
        state.report(
            fault(
                BOUND_OFF_TOO_MANY,
                beside.span,
                "{number} sts are to be taken away at the same time; {have} are there",
                number=number,
                have=have,
            )
        )
        piece.doubt = True
        return
    needle = piece.needle
    at_end = needle.at == have and have > 0
    far = number // 2 if beside.both else 0
    first, last = (far, number - far) if at_end else (number - far, far)
    taken = beside.change < 0
    faces = needle.faces[first : have - last] if taken else "k" * first + needle.faces + "k" * last
    shift = first if beside.change > 0 else -first
    marks = tuple((place + shift, name) for place, name in needle.marks if 0 <= place + shift <= len(faces))
    marked = tuple((place + shift, name) for place, name in needle.marked if 0 <= place + shift < len(faces))
    piece.needle = Needle(faces, len(faces) if at_end else 0, marks, marked=marked)
    stitch = {"inc": "m1", "dec": "k2tog"}.get(beside.what, beside.what)
    state.add_loops(stitch, number)
    if piece.records:
        row = piece.records[-1]
        kind: EventKind = "decrease" if beside.change < 0 else "increase"
        if beside.what == "bind off":
            kind = "bind off"
        event = Event(kind, number, "at the same time", piece.rows, beside.span)
        piece.records[-1] = replace(row, after=len(faces), faces=faces, changes=(*row.changes, event))
    if piece.unaccounted is None:
        piece.unaccounted = (beside.span, beside.change)
