"""Sentences about turning: that work is not turned behind a row, or that it is before the row has come to its end.

In: a step, the one behind it, and where the knitting stands. Out: the side that is due set back; rows with their turn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from castoff.knitting.row_faults import other
from castoff.knitting.state import SizeState
from castoff.notation.syntax import (
    Action,
    Count,
    Note,
    OnLastRow,
    PickUpWrap,
    Remark,
    RepeatRows,
    RowsAs,
    RowStep,
    Step,
    Stitch,
    StitchTo,
    ToEnd,
    Total,
    Turn,
    TurnWork,
    WorkFabric,
    WorkRows,
)

_ROWS = (RowStep, RowsAs, RepeatRows, WorkRows)
"""What can be worked on the same side again; stitches picked up round a corner go on where the yarn is."""


def mind_unturned(state: SizeState, step: Step, behind: Sequence[Step]) -> None:
    """Sets the side back when a row, or a remark behind it, says that the work is not turned and another row follows."""
    if not _says_so(step) or (behind and isinstance(behind[0], Note) and _says_so(behind[0])):
        return
    follows = next((each for each in behind if not isinstance(each, (Note, Total, OnLastRow))), None)
    piece = state.piece
    if not isinstance(follows, _ROWS) or piece.form != "flat" or not piece.started or piece.due is None or piece.doubt:
        return
    piece.due = other(piece.due)
    piece.needle = replace(piece.needle, at=0 if piece.due == "RS" else piece.needle.stitches)


def _says_so(step: Step) -> bool:
    if isinstance(step, Note):
        return _unturned(step.words)
    last = step.work[-1] if isinstance(step, RowStep) and step.work else None
    return isinstance(last, Remark) and _unturned(last.words)


def _unturned(words: str) -> bool:
    return words.startswith(("do not turn", "don't turn", "without turning", "slide", "not turning"))


def turned_in_sentences(steps: Sequence[Step]) -> list[Step]:
    """ "K10. Turn. MDS. P6. Turn. MDS.": the turn ends the row before it, and the double stitch belongs to the turn."""
    found: list[Step] = []
    for step in steps:
        before = found[-1] if found else None
        if isinstance(before, RowStep):
            last = before.work[-1] if before.work else None
            if isinstance(step, TurnWork) and step.facing is None and last is not None and _stops_short(last):
                found[-1] = replace(before, work=(*before.work, Turn(span=step.span)))
                continue
            if isinstance(last, Turn) and last.method == "plain" and _only_doubles(step):
                found[-1] = replace(before, work=(*before.work[:-1], replace(last, method="german")))
                continue
        found.append(step)
    return found


def _stops_short(act: Action) -> bool:
    """Whether an act goes so many stitches, or to a place, and not to the end of the row."""
    if isinstance(act, Stitch):
        return act.count is not None
    if isinstance(act, StitchTo):
        return not isinstance(act.target, ToEnd)
    if isinstance(act, WorkFabric):
        return isinstance(act.over, Count) or not isinstance(act.over, ToEnd)
    return isinstance(act, PickUpWrap) and not act.come


def _only_doubles(step: Step) -> bool:
    return (
        isinstance(step, RowStep)
        and step.label is None
        and len(step.work) == 1
        and isinstance(step.work[0], Stitch)
        and step.work[0].name == "ds"
    )
