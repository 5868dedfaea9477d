"""AT THE SAME TIME: shaping that runs beside other rows, as a timetable.

In: a `Meanwhile` and the rows that are worked meanwhile. Out: the same rows, with the second shaping on those that the
timetable names. What is left of it when the other rows are done is worked in the fabric as it stands.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.fabric import Event, EventKind
from castoff.knitting.faults import BOUND_OFF_TOO_MANY, fault
from castoff.knitting.loops import Needle
from castoff.knitting.state import Beside, SizeState
from castoff.notation.syntax import BindOffAct, CastOnAct, EndShaping


def change_of(state: SizeState, act: EndShaping | BindOffAct | CastOnAct) -> int:
    """Stitches that one working of a shaping act adds; negative when it takes away."""
    if isinstance(act, EndShaping):
        number = state.number_of(act.stitches) * (2 if act.ends in ("each", "both") else 1)
        return -number if act.decrease else number
    if isinstance(act, BindOffAct):
        return -state.number_of(act.count)
    return state.number_of(act.count)


def tick(state: SizeState) -> None:
    """After a row: the shaping beside it, where the timetable has some for it."""
    piece = state.piece
    for beside in state.beside:
        if beside.done or piece.rows <= beside.start:
            continue
        shaped = beside.rows[beside.at]
        beside.at += 1
        if shaped and beside.change:
            _apply(state, beside)


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
    if beside.change < 0:
        faces = needle.faces[:-number] if at_end else needle.faces[number:]
    else:
        faces = needle.faces + "k" * number if at_end else "k" * number + needle.faces
    shift = 0 if at_end else beside.change
    marks = tuple((place + shift, name) for place, name in needle.marks if 0 <= place + shift <= len(faces))
    piece.needle = Needle(faces, len(faces) if at_end else 0, marks)
    stitch = {"inc": "m1", "dec": "k2tog"}.get(beside.what, beside.what)
    state.add_loops(stitch, number)
    if piece.records:
        last = piece.records[-1]
        kind: EventKind = "decrease" if beside.change < 0 else "increase"
        if beside.what == "bind off":
            kind = "bind off"
        event = Event(kind, number, "at the same time", piece.rows, beside.span)
        piece.records[-1] = replace(last, after=len(faces), faces=faces, changes=(*last.changes, event))
    if piece.unaccounted is None:
        piece.unaccounted = (beside.span, beside.change)
