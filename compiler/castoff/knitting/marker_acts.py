"""Markers met in a row: placed, slipped, removed.

In: a row in work and the act. Out: nothing; the row has gone on, or has failed.
"""

from __future__ import annotations

from castoff.knitting.faults import (
    NO_MARKER,
    fault,
)
from castoff.knitting.loops import hidden
from castoff.knitting.row import RowWork
from castoff.notation.syntax import (
    MarkerAct,
)


def work_marker(row: RowWork, action: MarkerAct) -> None:
    """Places, slips or removes a marker where the row stands."""
    if action.every:
        if action.act == "remove":
            row.ahead = [mark for mark in row.ahead if hidden(mark[1])]
            row.out_marks = [mark for mark in row.out_marks if hidden(mark[1])]
            row.event("remove marker", name="all", span=action.span)
            row.dropping_marks = True
        return
    name = action.name or ""
    if action.act == "replace":
        if not row.replaced:
            row.fail(fault(NO_MARKER, action.span, "no marker stands between the sts worked together before it"))
        return
    if action.act == "place":
        row.out_marks.append((row.outn, name))
        row.event("place marker", 1, name, action.span)
        return
    while row.ahead and row.ahead[0][0] == row.pos and hidden(row.ahead[0][1]):
        row.out_marks.append((row.outn, row.ahead.pop(0)[1]))
    if row.ahead and row.ahead[0][0] == row.pos:
        _, there = row.ahead.pop(0)
        others = (other.lower() for _, other in (*row.ahead, *row.out_marks))
        if there and name and there.lower() != name.lower() and name.lower() in others:
            row.fail(fault(NO_MARKER, action.span, "marker {there} is here, not {name}", there=there, name=name))
            return
        if action.act == "slip":
            row.out_marks.append((row.outn, there))
        else:
            row.event("remove marker", 1, there, action.span)
        return
    if action.act == "remove" and row.bound_marks[0] == row.outn and row.bound_marks[1]:
        # it hung between stitches that have just been bound off
        row.bound_marks = (row.outn, row.bound_marks[1] - 1)
        row.event("remove marker", 1, name, action.span)
        return
    if row.setting.form == "round" and (row.pos in (0, row.end) or row.pos == row.bor):
        return  # the marker of the round's beginning
    if row.dropping_marks:
        return
    if row.ahead and row.ahead[0][0] < row.end:
        row.fail(
            fault(
                NO_MARKER,
                action.span,
                "no marker is here; the next one is {ahead} sts further on",
                ahead=row.ahead[0][0] - row.pos,
            )
        )
    else:
        row.fail(
            fault(
                NO_MARKER,
                action.span,
                "no marker is here, nor further on; {left} sts are left in the row",
                left=row.end - row.pos,
            )
        )
