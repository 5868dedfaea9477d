"""Stitches marked in the loop: marking them in a row or between rows, and holding a line that speaks of them to them.

In: a row in work or the state of one size, and a `MarkStitch`, a `Stitch` or a `BindOff` that names the marked stitch.
Out: the mark on the needle, or a fault.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from castoff.knitting.faults import BOUND_OFF_TOO_MANY, NO_MARKER, TOTAL_OFF, fault
from castoff.knitting.row import RowWork
from castoff.knitting.state import SizeState
from castoff.knitting.targets import marked_stitch
from castoff.notation.syntax import BindOff, MarkStitch, Stitch


def mark_in_row(row: RowWork, action: MarkStitch) -> None:
    """Marks the stitch just made, or the next one, of a row in work."""
    if action.which == "this":
        if row.last_made != 1:
            row.fail(
                fault(
                    NO_MARKER,
                    action.span,
                    "{made} sts are made just before: which of them is marked cannot be told",
                    hint="work the st to be marked by itself",
                    made=row.last_made,
                )
            )
            return
        row.out_marked.append((row.outn - 1, "marked"))
    elif action.which == "next" and row.pos < row.end:
        row.marked = sorted([*row.marked, (row.pos, "marked")])
    else:
        row.fail(
            fault(
                NO_MARKER,
                action.span,
                "no st is left to be marked"
                if action.which == "next"
                else "in the middle of a row only this st or the next one can be marked",
                hint=None if action.which == "next" else "mark it in a line of its own, between rows",
            )
        )
        return
    row.event("place marker", 1, "marked", action.span)


def mark_between(state: SizeState, step: MarkStitch) -> None:
    """Marks a stitch between rows: the centre one, or one that is counted from the beginning."""
    piece = state.piece
    needle = piece.needle
    total = needle.stitches
    at: int | None = None
    if step.which == "centre":
        if total % 2 == 0:
            state.report(
                fault(NO_MARKER, step.span, "{have} sts have no centre st", hint="an odd number of sts", have=total)
            )
            return
        at = total // 2
    elif step.which == "counted":
        number = state.number_of(step.at)
        if not 0 < number <= total:
            state.report(
                fault(
                    NO_MARKER,
                    step.span,
                    "st {number} is to be marked; {have} are on the needle",
                    number=number,
                    have=total,
                )
            )
            return
        # rows begin with the st that was cast on last, rounds with the first one
        turned = piece.form == "flat" and not piece.started
        at = total - number if turned else number - 1
    elif piece.records and step.which == "this" and not needle.at:
        at = total - 1
    elif step.which == "this" and needle.at:
        at = needle.at - 1 if piece.due != "WS" or piece.form == "round" else needle.at
        at = min(at, total - 1)
    elif total:
        at = min(needle.at, total - 1) if piece.due != "WS" or piece.form == "round" else needle.at - 1
    if at is None or not 0 <= at < total:
        state.report(fault(NO_MARKER, step.span, "no st is here to be marked"))
        return
    state.event("place marker", 1, "" if step.behind else "marked", step.span)
    if step.behind:
        place = at if piece.form == "flat" and not piece.started else at + 1
        piece.needle = replace(needle, marks=tuple(sorted((*needle.marks, (place, "")))))
        return
    piece.needle = replace(needle, marked=tuple(sorted((*needle.marked, (at, "marked")))))


def mind_marked(row: RowWork, action: Stitch) -> bool:
    """Whether the stitch that comes next is the marked one that a line says it is; if not, the row has failed."""
    place = marked_stitch(row, action.of, action.span)
    if place is None:
        return False
    if place != row.pos:
        row.fail(
            fault(
                NO_MARKER,
                action.span,
                "the {which} st is {off} st{s} further on",
                which=action.of,
                off=place - row.pos,
                s="" if place - row.pos == 1 else "s",
            )
            if place > row.pos
            else fault(NO_MARKER, action.span, "the {which} st was {off} before", which=action.of, off=row.pos - place)
        )
        return False
    return True


def decreased_beside(state: SizeState, step: BindOff) -> int:
    """Stitches decreased while binding off, at both sides of every marked stitch; 0 when the line tells of none."""
    needle = state.piece.needle
    number = state.number_of(step.beside)
    if not number:
        return 0
    if not needle.marked:
        state.report(
            fault(NO_MARKER, step.span, "no st is marked", hint="write `mark this st` behind the st where it is made")
        )
        return 0
    places = [-1, *(at for at, _ in needle.marked), needle.stitches]
    room = min((later - at - 1) // (1 if at == -1 or later == needle.stitches else 2) for at, later in pairwise(places))
    if room < 2 * number:
        state.report(
            fault(
                BOUND_OFF_TOO_MANY,
                step.span,
                "{number} sts cannot be decreased at each side of the marked st: {room} lie there",
                number=number,
                room=room,
            )
        )
        return 0
    gone = 2 * number * len(needle.marked)
    if step.as_before:
        last = next((record for record in reversed(state.piece.records) if record.before != record.after), None)
        change = 0 if last is None else last.before - last.after
        if change != gone:
            state.report(
                fault(
                    TOTAL_OFF,
                    step.span,
                    "{gone} sts are to be decreased as before; the last row that changed the count took {change} away",
                    gone=gone,
                    change=change,
                )
            )
    return gone
