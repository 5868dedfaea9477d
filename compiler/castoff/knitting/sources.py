"""Where a wrong number of stitches may have come from.

In: the piece in work. Out: places to point at beside a fault: the first row that changed the count since it was told
last, or the line that told it (cast on, picked up, a printed total).
"""

from __future__ import annotations

from castoff.knitting.faults import Pointer
from castoff.knitting.state import PieceState
from castoff.span import Span


def sources_of(piece: PieceState, here: Span | None = None) -> tuple[Pointer, ...]:
    """Where the count of a piece may have gone wrong. here: the place of the fault, which is not pointed at."""
    source = piece.unaccounted
    if source is not None and source[0] != here:
        return (
            Pointer(
                source[0],
                "since the last printed total, this is the first row that changed the count ({since})",
                (("since", f"{source[1]:+d}"),),
            ),
        )
    return told_by(piece, here)


def told_by(piece: PieceState, here: Span | None = None) -> tuple[Pointer, ...]:
    """The line that told the count last, unless it is that of the fault."""
    told = piece.told
    if told is None or (here is not None and told[0].line == here.line):
        return ()
    return (Pointer(told[0], "{told} sts are {how}", (("told", told[1]), ("how", told[2]))),)
