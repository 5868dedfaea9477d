"""Beginnings that the piece comes back to: a provisional cast-on undone, the corner of a garter tab.

In: the steps of the syntax tree and where the knitting stands. Out: the state moved on.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.faults import EDGE_TOO_SHORT, NOT_HELD, Fault, fault
from castoff.knitting.loops import Group, Needle
from castoff.knitting.state import SizeState
from castoff.knitting.steps_needles import use_needles
from castoff.notation.syntax import CastOn, PickUp, PickUpRow, Release

UNDONE = "provisional cast-on"


def release(state: SizeState, step: Release) -> None:
    """The stitches of a provisional cast-on become live: as many as were cast on, or one fewer where the line says so."""
    piece = state.piece
    have, spot = piece.provisional
    told = None if step.count is None else step.count.at(state.size)
    if not have:
        state.report(
            fault(
                NOT_HELD,
                step.span,
                "no provisional cast-on is there to be undone",
                hint="say `using a provisional cast-on` where it is cast on",
            )
        )
        return
    if told is not None and told not in (have, have - 1):
        state.report(
            fault(
                NOT_HELD,
                step.span,
                "{told} sts are taken from the provisional cast-on, {have} were cast on",
                hint="{have} sts",
                told=told,
                have=have,
                related=() if spot is None else ((spot, "they were cast on here"),),
            )
        )
    number = have if told is None else told
    piece.provisional = (0, None)
    state.event("resume", number, UNDONE, step.span)
    if step.aside or (piece.needle.stitches and step.needles is None):
        state.holders.append(
            Group(UNDONE, Needle("k" * number), piece.name, None, piece.rows, piece.length, span=step.span)
        )
        return
    if step.needles is not None:
        use_needles(state, step.needles, step.span)
    if piece.needle.stitches:
        state.holders.append(
            Group("", replace(piece.needle, at=0), piece.name, piece.due, piece.rows, piece.length, True, step.span)
        )
    piece.part += 1
    piece.rows, piece.length = 0, piece.length * 0
    piece.needle = Needle("k" * number)
    piece.form = (state.section.form if state.section is not None else None) or "flat"
    piece.due = "RS" if piece.form == "round" else None
    piece.started, piece.turned, piece.doubt = False, False, False
    piece.standing, piece.fabric, piece.unaccounted = "same", None, None
    piece.before = number
    state.forget_rows()
    state.landmark_section()


def cast_on_beside(state: SizeState, step: CastOn, number: int) -> None:
    """New stitches on the left needle, before those that are live: the next row begins with them."""
    piece = state.piece
    needle = piece.needle
    at = needle.stitches if piece.due == "WS" else 0
    faces = needle.faces[:at] + "k" * number + needle.faces[at:]
    shift = 0 if at else number
    piece.needle = Needle(
        faces,
        len(faces) if at else 0,
        tuple((place + shift, name) for place, name in needle.marks),
        tuple(gap + shift for gap in needle.gaps),
        tuple(turn + shift for turn in needle.turns),
    )
    piece.unaccounted = None
    state.add_loops("cast on", number)
    state.event("cast on", number, step.method or "", step.span)
    state.use_needles()


def mind_corners(state: SizeState, step: PickUpRow) -> None:
    """Along the side of a garter tab there are as many places as ridges, along its beginning as many as were cast on."""
    piece = state.piece
    rows = piece.rows
    plain = all(set(record.faces) <= {"k", "p"} and record.before == record.after for record in piece.records[-rows:])
    garter = piece.standing == "flip" and plain
    for part in step.parts:
        if not isinstance(part, PickUp) or part.count is None:
            continue
        number = part.count.at(state.size) or 0
        words = part.edge.lower()
        if "cast" in words or words.endswith(" co edge"):
            if number > piece.cast_on[0] > 0:
                state.report(_short(part, number, piece.cast_on[0], "{have} sts were cast on"))
        elif part.each == "ridge" or (garter and part.each == ""):
            ridges = (rows + 1) // 2
            if number > ridges or (part.each and number != rows // 2 and number != ridges):
                state.report(_short(part, number, ridges, f"{rows} rows make {{have}} ridges"))
        elif part.each == "row" and number != rows:
            state.report(_short(part, number, rows, "{have} rows are there"))


def _short(part: PickUp, number: int, have: int, there: str) -> Fault:
    each = f", one in each {part.each}" if part.each else ""
    return fault(
        EDGE_TOO_SHORT,
        part.span,
        f"{{number}} sts are picked up {part.edge}{each}; {there}",
        hint="{have} sts",
        number=number,
        have=have,
    )
