"""Rows after which the work is not turned: the next one is worked on the same side again, from its other end.

In: a step, the one behind it, and where the knitting stands. Out: the side that is due set back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from castoff.knitting.row_faults import other
from castoff.knitting.state import SizeState
from castoff.notation.syntax import Note, OnLastRow, Remark, RepeatRows, RowsAs, RowStep, Step, Total, WorkRows

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
