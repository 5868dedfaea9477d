"""Shoulders joined on the needles by binding off front and back together, what lies between waiting for the neck.

In: a `JoinShoulders` and the stitches of a body knitted in the round. Out: nothing on the needle; the neck on its holder.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.faults import NO_STITCHES, SEAM_COUNTS, fault
from castoff.knitting.loops import Group, Needle
from castoff.knitting.sources import sources_of
from castoff.knitting.state import SizeState
from castoff.knitting.totals import segments
from castoff.notation.syntax import JoinShoulders


def join_shoulders(state: SizeState, step: JoinShoulders) -> None:
    """Binds off so many stitches of the front together with as many of the back, on both sides."""
    piece = state.piece
    have = piece.needle.stitches
    if not have:
        state.report(
            fault(
                NO_STITCHES,
                step.span,
                "no stitches are on the needle to be joined at the shoulders",
                hint="return the held sts of front and back to the needles first",
            )
        )
        return
    each = state.number_of(step.count)
    rest = 0 if step.rest is None or step.rest.count is None else state.number_of(step.rest.count)
    parts = segments(state)
    if 4 * each + rest != have:
        state.report(
            fault(
                SEAM_COUNTS,
                step.span,
                "2 x ({each} + {each}) sts are joined and {rest} left, {sum} in all; {have} are on the needle",
                each=each,
                rest=rest,
                sum=4 * each + rest,
                have=have,
                related=sources_of(piece),
            )
        )
    elif len(parts) > 1 and (parts.count(each) < 2 or 2 * each + rest not in parts):
        state.report(
            fault(
                SEAM_COUNTS,
                step.span,
                "{each} sts of each front shoulder are joined to the back; the stitches lie as {parts}",
                each=each,
                parts=" + ".join(str(part) for part in parts),
            )
        )
    state.add_loops("bind off", 2 * each)
    state.event("bind off", 4 * each, "three-needle bind-off", step.span)
    state.event("seam", name="three-needle + shoulder seams", span=step.span)
    if step.rest is not None and rest:
        neck = replace(piece.needle.part(have - each - rest, have - each), at=0, gaps=(), marks=())
        state.holders.append(
            Group(step.rest.holder, neck, piece.name, "RS", piece.rows, piece.length, True, step.rest.span)
        )
        state.event("hold", rest, step.rest.holder, step.rest.span)
    piece.landmarks.setdefault("bind-off", (piece.rows, piece.length))
    piece.landmarks["end"] = (piece.rows, piece.length)
    piece.needle = Needle()
    piece.before = have
    piece.unaccounted = None
    piece.doubt = False
