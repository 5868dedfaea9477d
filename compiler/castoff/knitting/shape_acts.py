"""Shaping told without its place: evenly across a row, or at its ends.

In: a row in work and one of these acts. Out: nothing; the row has been worked or has failed.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from castoff.knitting.fabrics import faces_made
from castoff.knitting.faults import BOUND_OFF_TOO_MANY, NO_MARKER, NO_SPACING, fault
from castoff.knitting.row import RowWork
from castoff.knitting.setting import flipped
from castoff.knitting.targets import count_of, reach
from castoff.notation.syntax import EndShaping, Evenly, Fabric
from castoff.span import Span

BESIDE_MARKED = "each side of marked st"
"""`ends` of shaping at both sides of a stitch that is marked."""

FabricWorker: TypeAlias = Callable[[RowWork, Fabric, int, Span | None], None]
"""Works a fabric over the next stitches of a row."""


def shape_evenly(row: RowWork, action: Evenly) -> None:
    """Increases or decreases evenly across the row, or as far as a place."""
    distance = row.end - row.pos if action.target is None else reach(row, action.target)
    if distance is None:
        return
    number = _change(row, action, distance)
    if number is None:
        return
    uses = 2 if action.decrease else 1
    if number * uses > distance:
        row.fail(
            fault(
                NO_SPACING,
                action.span,
                "{number} {what} do not fit evenly across {have} sts",
                number=number,
                what="decreases" if action.decrease else "increases",
                have=distance,
                hint="at most {most} fit",
                most=distance // uses,
            )
        )
        return
    plain = distance - number * uses if action.decrease else distance
    faces = row.src[row.pos : row.pos + distance]
    fabric = action.fabric or Fabric("set", span=action.span)
    over = faces_made(fabric, faces, row.setting, row.pos)
    made = over[: distance - number] if action.decrease else over + over[:1] * number
    marks, row.ahead = row.ahead, [mark for mark in row.ahead if mark[0] >= row.pos + distance]
    # where shaping falls is left open, so that nobody knows which stitch a marked one has become
    row.marked = [each for each in row.marked if each[0] >= row.pos + distance]
    start, outn = row.pos, row.outn
    if row.take(distance, len(made), 1, made, "evenly", action.span):
        # markers in between keep their share of the way
        row.out_marks += [
            (outn + (place - start) * len(made) // max(distance, 1), name)
            for place, name in marks
            if place < start + distance
        ]
        row.count_stitch("k" if row.face("knit") == "k" else "p", plain)
        row.count_stitch(action.stitch or ("k2tog" if action.decrease else "m1"), number)
    row.level = False


def _change(row: RowWork, action: Evenly, distance: int) -> int | None:
    """How many changes are asked for; None when the row is to end with a number that lies the other way."""
    if action.made is None:
        return abs(count_of(row, action.change, 0))
    made = count_of(row, action.made, 0) - row.outn
    number = distance - made if action.decrease else made - distance
    if number >= 0:
        return number
    row.fail(
        fault(
            NO_SPACING,
            action.span,
            "{what} are to make {made} sts of {have}",
            what="decreases" if action.decrease else "increases",
            made=made,
            have=distance,
            hint="write `{verb} evenly to {made} sts`",
            verb="inc" if action.decrease else "dec",
        )
    )
    return None


def shape_ends(row: RowWork, action: EndShaping, work_fabric: FabricWorker) -> None:
    """Increases or decreases at the ends named, the rest in the fabric as it stands."""
    number = count_of(row, action.stitches, 0)
    fabric = action.fabric or Fabric("set", span=action.span)
    if action.ends == BESIDE_MARKED:
        _beside_marked(row, action, fabric, number, work_fabric)
        return
    at_start = action.ends in ("each", "both") or action.ends not in ("end",)
    at_finish = action.ends in ("each", "both", "end")
    if action.decrease:
        if at_start and number:
            row.take(2, 1, number, row.face("knit") * number, "dec", action.span)
            row.count_stitch("k2tog", number)
        if row.halted:
            return
        middle = row.end - row.pos - (2 * number if at_finish else 0)
        if middle < 0:
            row.fail(
                fault(
                    BOUND_OFF_TOO_MANY,
                    action.span,
                    "{number} sts cannot be decreased at each end of {have} sts",
                    number=number,
                    have=row.end,
                )
            )
            return
        work_fabric(row, fabric, middle, action.span)
        if at_finish and number:
            row.take(2, 1, number, row.face("knit") * number, "dec", action.span)
            row.count_stitch("ssk", number)
        return
    first = row.src[row.pos : row.pos + 1]
    growth = row.face("knit") if row.setting.standing == "same" and settled_knit(first) else flipped(first or "k")
    if at_start and number:
        row.make((growth or "k") * number)
        row.count_stitch("m1", number)
    work_fabric(row, fabric, row.end - row.pos, action.span)
    if at_finish and number and not row.halted:
        row.make((growth or "k") * number)
        row.count_stitch("m1", number)


def _beside_marked(row: RowWork, action: EndShaping, fabric: Fabric, number: int, work_fabric: FabricWorker) -> None:
    """Shaping at both sides of every marked stitch; that stitch itself is worked as it lies."""
    while not row.halted:
        ahead = [place for place, _ in row.marked if row.pos <= place < row.end]
        if not ahead:
            break
        room = ahead[0] - row.pos
        used = 2 * number if action.decrease else 0
        behind = (ahead[1] if len(ahead) > 1 else row.end) - ahead[0] - 1
        if min(room, behind) < used:
            row.fail(
                fault(
                    BOUND_OFF_TOO_MANY,
                    action.span,
                    "{number} sts cannot be decreased at each side of the marked st: {room} lie there",
                    number=number,
                    room=min(room, behind),
                )
            )
            return
        work_fabric(row, fabric, room - used, action.span)
        _shaped(row, action, number, "k2tog")
        work_fabric(row, fabric, 1, action.span)
        _shaped(row, action, number, "ssk")
    if not row.halted and not row.out_marked:
        row.fail(fault(NO_MARKER, action.span, "no st is marked", hint="write `mark this st` where it is made"))
        return
    if not row.halted:
        work_fabric(row, fabric, row.end - row.pos, action.span)


def _shaped(row: RowWork, action: EndShaping, number: int, decrease: str) -> None:
    if row.halted or not number:
        return
    if not action.decrease:
        row.make(row.face("knit") * number)
        row.count_stitch("m1", number)
    elif row.take(2, 1, number, row.face("knit") * number, "dec", action.span):
        row.count_stitch(decrease, number)


def settled_knit(face: str) -> bool:
    """Whether a stitch shows as knit, or will."""
    return face in ("k", "y", "")
