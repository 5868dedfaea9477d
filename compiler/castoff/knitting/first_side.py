"""Which side the first row is worked on, where only a later line says so: "CO 57. Knit 5 rows. Next row (RS): …".

In: the state of one size before plain knitting straight from a beginning, and the lines that follow. Out: the side, or
None. Garter rows look the same on both sides: the first line that names a side tells on which of them they began.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.following import steps_ahead
from castoff.knitting.pattern_rows import first_side, numbers_of
from castoff.knitting.row_faults import other
from castoff.knitting.state import SizeState
from castoff.notation.syntax import (
    ChangeNeedles,
    ChangeYarn,
    ForRows,
    Note,
    RowsAs,
    RowStep,
    Side,
    StitchTo,
    ToEnd,
    ToldRows,
    Total,
    TurnWork,
    WorkRows,
)


def mind_first_side(state: SizeState, step: WorkRows) -> None:
    """Lays the needle for the side on which plain knitting from the beginning starts, when a later line tells it."""
    piece = state.piece
    if piece.form != "flat" or piece.started or piece.due is not None or not piece.needle.stitches:
        return
    if piece.needle.at not in (0, piece.needle.stitches):
        return
    rows = 0
    for each in (step, *steps_ahead(state)):
        told, more = _told(state, each)
        if told is not None:
            piece.due = told if rows % 2 == 0 else other(told)
            piece.needle = replace(piece.needle, at=0 if piece.due == "RS" else piece.needle.stitches)
            return
        if more is None:
            return
        rows += more


def _told(state: SizeState, step: object) -> tuple[Side | None, int | None]:
    """The side on which a step says that it begins, or how many plain rows it is; neither ends the search."""
    if isinstance(step, (Note, Total, ToldRows, ChangeYarn, ChangeNeedles)):
        return None, 0
    if isinstance(step, TurnWork):
        return step.facing, 0 if step.facing is not None else None
    if isinstance(step, WorkRows):
        return _of_rows(state, step)
    if not isinstance(step, (RowStep, RowsAs)) or step.label is None:
        return None, None
    side = step.label.side or step.label.every_side
    numbers = numbers_of(state, step.label)
    if side is not None or not isinstance(step, RowStep) or len(numbers) > 1:
        return side, None
    act = step.work[0] if len(step.work) == 1 else None
    plain = isinstance(act, StitchTo) and act.name == "k" and isinstance(act.target, ToEnd)
    return None, 1 if plain else None


def _of_rows(state: SizeState, step: WorkRows) -> tuple[Side | None, int | None]:
    fabric, until = step.fabric, step.extent.until
    if fabric.kind == "named" and fabric.name.lower() in state.plan.patterns:
        return first_side(state, fabric.name.lower()), None
    garter = fabric.kind == "knit" or (fabric.kind == "named" and fabric.name.lower() == "garter")
    if not garter or fabric.start is not None or step.over is not None:
        return None, None
    rows = state.number_of(until.rows) if isinstance(until, ForRows) else None
    ending = step.extent.ending
    if rows is not None and ending is not None:
        return ending if rows % 2 else other(ending), None
    return None, rows
