"""Two sides of a divided piece that are worked at once: what is told for both is knitted on the one, then on the other.

In: the state of one size at "work both sides at the same time", and the steps behind it. Out: both sides knitted, row for
row alike, each with the neck at its own end.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.faults import NOT_BESIDE, PART_OFF, fault
from castoff.knitting.loops import Group
from castoff.knitting.row_faults import other
from castoff.knitting.run import run_rows
from castoff.knitting.state import RowDef, SecondSide, SizeState
from castoff.knitting.steps_charts import standing_fabric
from castoff.notation.syntax import (
    AtBeginning,
    BindOff,
    BindOffAct,
    BindOffAtEdges,
    BothSides,
    EndShaping,
    GoOnShaping,
    RepeatRows,
    RowsAs,
    RowStep,
    ShapeRows,
    Side,
    Step,
    StitchTo,
    ToEnd,
    WorkFabric,
)

NECK = "each neck edge"


def part_sides(state: SizeState, step: BothSides) -> None:
    """Lays one side of the divided piece by until what is told for both has been worked on the first."""
    piece = state.piece
    needle = piece.needle
    if piece.form != "flat" or len(needle.gaps) != 1 or state.second is not None:
        state.report(
            fault(
                NOT_BESIDE,
                step.span,
                "the work is not divided into two sides: {gaps} gaps are on the needle",
                hint="write the dividing row first: `k20, join a second ball of yarn and bind off 20 sts, k to end`",
                gaps=len(needle.gaps),
            )
        )
        piece.doubt = True
        return
    gap = needle.gaps[0]
    at_end = piece.due == "WS"
    one, two = needle.part(0, gap), needle.part(gap, needle.stitches)
    mine, waiting = (two, one) if at_end else (one, two)
    if mine.stitches != waiting.stitches:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{one} sts are on the one side, {two} on the other: what is told for both is the same",
                one=one.stitches,
                two=two.stitches,
            )
        )
        piece.doubt = True
    at = mine.stitches if at_end else 0
    due: Side = piece.due or "RS"
    at_other = waiting.stitches if at_end else 0
    group = Group(
        "", replace(waiting, at=at_other), piece.name, due, piece.rows, piece.length, left=True, span=step.span
    )
    state.second = SecondSide(group, dict(piece.pattern_rows), piece.standing, dict(piece.charts_since))
    piece.needle = replace(mine, at=at)
    piece.gaps = (0, 0)
    piece.unaccounted = None
    # the side whose yarn is at the armhole begins its next row there, and the row after it at the neck
    piece.neck_rows = other(due)
    state.forget_rows()


def second_side(state: SizeState) -> tuple[Step, ...]:
    """Takes the second side up when the first is done; the steps that are now worked on it, none before that."""
    second, piece = state.second, state.piece
    if second is None or piece.needle.stitches or piece.name != second.group.piece:
        return ()
    group = second.group
    state.second = None
    piece.part += 1
    piece.rows, piece.length = group.rows, group.length_mm
    piece.begun = (group.rows, group.stitches)
    piece.needle, piece.due, piece.started = group.needle, group.side, True
    piece.standing, piece.pattern_rows = second.standing, dict(second.pattern_rows)
    piece.charts_since = dict(second.charts_since)
    piece.turned, piece.loose_end, piece.unaccounted, piece.doubt = False, False, None, False
    piece.before = group.stitches
    piece.neck_rows = group.side
    state.forget_rows()
    return tuple(second.steps)


def bind_off_at_edges(state: SizeState, step: BindOffAtEdges) -> None:
    """Binds off at the neck edge of the side in work: on those of its rows that begin there, two rows each time."""
    piece = state.piece
    if piece.neck_rows is None:
        _not_two(state, step)
        return
    unit = "row"
    fabric = standing_fabric(state, step.span)
    plain = RowDef(state.shared.acts_of(fabric), "row between", unit=unit, span=step.span)
    for count, times in step.groups:
        number = state.number_of(count)
        act = BindOffAct(count, span=count.span)
        rest = WorkFabric(fabric, ToEnd(span=step.span), span=step.span)
        bound = RowDef((act, rest), "bind-off row", unit=unit, span=step.span)
        for _ in range(state.number_of(times) if number else 0):
            pair = [bound, plain] if piece.due == piece.neck_rows else [plain, bound]
            if not run_rows(state, pair, 2, step.span):
                return


def at_outer_edges(state: SizeState, step: AtBeginning, rows: int) -> list[bool] | None:
    """For each of so many rows, whether it begins at the outer edge of the side in work; None where there is one side."""
    piece = state.piece
    if piece.neck_rows is None:
        return None
    due, found = piece.due, []
    for _ in range(rows):
        found.append(due != piece.neck_rows)
        due = other(due or "RS")
    return found


def mind_two_sides(state: SizeState, step: Step) -> bool:
    """Whether a step can be worked on both sides as it is told; a row with ends of its own cannot."""
    if isinstance(step, ShapeRows) and isinstance(step.act, EndShaping) and step.act.ends == NECK:
        if state.piece.neck_rows is None:
            _not_two(state, step)
            return False
        return True
    if isinstance(step, BindOff) and "each side" in step.manner and state.piece.neck_rows is None:
        _not_two(state, step)
        return False
    if state.piece.neck_rows is None or not isinstance(step, (RowStep, RowsAs, RepeatRows, GoOnShaping)):
        return True
    if isinstance(step, RowStep) and all(
        isinstance(act, (StitchTo, WorkFabric))
        and isinstance(act.target if isinstance(act, StitchTo) else act.over, ToEnd)
        for act in step.work
    ):
        return True
    state.report(
        fault(
            NOT_BESIDE,
            step.span,
            "a row that is not the same on both sides cannot be told for both at once",
            hint="`at each neck edge, bind off 3 sts once, then dec 1 st every RS row 4 times`, or each side by itself",
        )
    )
    state.piece.doubt = True
    return False


def _not_two(state: SizeState, step: Step) -> None:
    state.report(
        fault(
            NOT_BESIDE,
            step.span,
            "each side is spoken of; nothing says that two sides are in work",
            hint="write `work both sides at the same time` behind the dividing row",
        )
    )
    state.piece.doubt = True
