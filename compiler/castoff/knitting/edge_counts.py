"""Totals that leave the edge stitches out: "41 sts each side of center st, not counting the edge sts".

In: such a `Stated` and where the knitting stands. Out: nothing, or a fault with both numbers.
"""

from __future__ import annotations

from itertools import groupby, pairwise

from castoff.knitting.faults import PART_OFF, fault
from castoff.knitting.loops import hidden
from castoff.knitting.state import SizeState
from castoff.notation.syntax import Stated


def mind_without_edges(state: SizeState, stated: Stated) -> None:
    """Holds a number without the edges against the needle: as many at each end as are told, or as show there."""
    needle = state.piece.needle
    number = stated.stitches.at(state.size)
    if number is None:
        return
    shown = _shown_edge(needle.faces)
    edge = shown if stated.edge is None else stated.edge.at(state.size) or 0
    if edge is None:
        state.report(
            fault(
                PART_OFF,
                stated.span,
                "{number} sts are printed without the edge sts; where those end does not show on the needle",
                hint="`not counting the 3 edge sts at each end`",
                number=number,
            )
        )
        return
    if shown is not None and edge != shown:
        state.report(
            fault(
                PART_OFF,
                stated.span,
                "{edge} edge sts are printed, {shown} are at each end",
                edge=edge,
                shown=shown,
            )
        )
        return
    sides = _sides(state, stated)
    if sides is None:
        state.report(
            fault(
                PART_OFF,
                stated.span,
                "{number} sts are printed{part}; {have} sts have no centre st, and none is marked off",
                number=number,
                part=f" {stated.part}",
                have=needle.stitches,
            )
        )
        return
    ends = 1 if len(sides) > 1 else 2
    have = [side - ends * edge for side in sides]
    if any(each != number for each in have):
        state.report(
            fault(
                PART_OFF,
                stated.span,
                "{number} sts{part} are printed; without {edge} edge sts there are {have}",
                hint="{right} sts",
                number=number,
                part=(" each " if stated.each else " ") + stated.part if stated.part else "",
                edge=edge,
                have=" and ".join(str(each) for each in have),
                right=have[0],
            )
        )


def _shown_edge(faces: str) -> int | None:
    """Stitches at each end that show another face than those beside them, equally many at both; None when none do."""
    runs = [len(tuple(run)) for _, run in groupby(faces)]
    return runs[0] if len(runs) > 2 and runs[0] == runs[-1] else None


def _sides(state: SizeState, stated: Stated) -> list[int] | None:
    """The stitches of each side of the centre stitch with the edges, or of the whole needle; None without a centre."""
    needle = state.piece.needle
    total = needle.stitches
    if not stated.each and not stated.part:
        return [total]
    places = sorted({0, total, *(place for place, name in needle.marks if not hidden(name))})
    parts = [last - first for first, last in pairwise(places)]
    if len(parts) == 3 and parts[1] == 1:
        return [parts[0], parts[2]]
    if len(needle.marked) == 1:
        at = needle.marked[0][0]
        return [at, total - at - 1]
    if "marker" in stated.part.split() and len(parts) == 2:
        return parts
    return [total // 2, total // 2] if total % 2 and len(parts) == 1 else None
