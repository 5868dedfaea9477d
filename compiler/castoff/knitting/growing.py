"""Repeats within rows that come more often each time: "working one more rep of the diamond in each half each time".

In: the rows that were worked again, how often, and what was printed. Out: nothing, or a fault with both numbers.
"""

from __future__ import annotations

from collections.abc import Sequence

from castoff.knitting.faults import PART_OFF, fault
from castoff.knitting.state import RowDef, SizeState
from castoff.knitting.taken import stitches_taken
from castoff.notation.syntax import Growing, Repeat


def mind_growing(state: SizeState, growing: Growing, rows: Sequence[RowDef], before: int, times: int) -> None:
    """What every working adds must be so many repeats of those that go as far as a place, in each half or once."""
    if state.piece.doubt:
        return

    def takes(name: str) -> int | None:
        known = state.plan.stitch(name)
        return None if known is None else known.takes

    gained = state.piece.needle.stitches - before
    repeats = [
        [act for act in row.acts if isinstance(act, Repeat) and act.times.kind == "to"]
        for row in rows
        if any(isinstance(act, Repeat) and act.times.kind == "to" for act in row.acts)
    ]
    sizes = sorted({stitches_taken(act.body, takes, state.size) or 0 for acts in repeats for act in acts})
    halves = 2 if growing.each else 1
    if len(sizes) != 1 or not sizes[0] or any(len(acts) != halves for acts in repeats):
        state.report(
            fault(
                PART_OFF,
                growing.span,
                "which repeat of the rows comes more often cannot be told{where}",
                hint="leave the words out: rows worked to a place grow by themselves",
                where=" in each half" if growing.each else "",
            )
        )
        return
    reps = state.number_of(growing.reps)
    wanted = halves * reps * sizes[0]
    if gained != wanted * times:
        state.report(
            fault(
                PART_OFF,
                growing.span,
                "{reps} more {unit} of {size} sts{where} would be {wanted} more sts each time; {there}",
                reps=reps,
                unit="repeat" if reps == 1 else "repeats",
                size=sizes[0],
                where=" in each half" if growing.each else "",
                wanted=wanted,
                there=f"{gained // times} are made" if gained % times == 0 else f"{gained} are made in {times} times",
            )
        )
