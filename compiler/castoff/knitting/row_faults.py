"""A row that failed: its fault in full, and how the knitting goes on.

In: the state of one size, the row and what it came to. Out: the fault with the row's label, its sum and where the wrong
number may have come from; the state as the pattern says it is after that row.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.fabric import Halt, Stopped
from castoff.knitting.faults import LEFT_OVER, NO_STITCHES, TOO_FEW, Fault, Pointer
from castoff.knitting.merging import in_words
from castoff.knitting.setting import RowResult
from castoff.knitting.sources import sources_of
from castoff.knitting.state import Acts, RowDef, SizeState
from castoff.knitting.sums import explained
from castoff.notation.syntax import Side


def other(side: Side) -> Side:
    """The other side of the fabric."""
    return "WS" if side == "RS" else "RS"


def after_fault(state: SizeState, result: RowResult, expected: int | None, *, marks: bool) -> None:
    """Goes on as sensibly as can be: with the printed total if there is one, as things were if not.

    marks: the row speaks of markers.
    """
    piece = state.piece
    side: Side = piece.due or "RS"
    wanted = expected if expected is not None else (result.after if result.after else piece.needle.stitches)
    piece.wraps_unknown = True
    piece.short_row = None
    piece.turned_rows = []
    # a row that only stopped too soon has placed its markers
    worked = all(found.rule is LEFT_OVER for found in result.faults) and result.needle.stitches
    piece.needle = replace((result.needle if worked else piece.needle).resized(wanted), wraps=())
    piece.rows += 1
    piece.length += state.row_height()
    if piece.form == "flat":
        piece.due = other(side)
        piece.needle = replace(piece.needle, at=0 if piece.due == "RS" else piece.needle.stitches, turns=(), gaps=())
    else:
        piece.needle = replace(piece.needle, at=0, turns=(), gaps=())
        piece.turned = False
        piece.due = "RS"
    piece.started = True
    piece.before = result.before
    piece.doubt = expected is None
    piece.unsure = True
    piece.strayed = piece.strayed or marks or bool(piece.needle.marks)
    if expected is not None:
        piece.unaccounted = None


def stopped(state: SizeState, row: RowDef, result: RowResult, told: Fault) -> Stopped:
    """The row and its needle, for whoever looks at the knitting row by row."""
    piece = state.piece
    side: Side = (piece.due or "RS") if piece.form == "flat" or piece.turned else "RS"
    halt = result.halt or Halt()
    return Stopped(row.label, piece.rows + 1, side, piece.form, result.before, halt, in_words(told), row.span)


def _begins_inside(state: SizeState) -> bool:
    needle = state.piece.needle
    return 0 < needle.at < needle.stitches


def labelled(state: SizeState, found: Fault, row: RowDef, acts: Acts, result: RowResult) -> Fault:
    """The fault with its row, the sum of the row, and where the wrong number may have come from."""
    message, hint, values = found.message, found.hint, found.values
    if found.rule in (TOO_FEW, LEFT_OVER):
        summed = explained(state, acts, result.before)
        # a row that begins in the middle has fewer stitches before it than the needle: its sum would prove nothing
        if summed is not None and (found.rule is LEFT_OVER or not _begins_inside(state)):
            message, hint, values = summed
    if "{label}" not in message:
        message = "{label}: " + message
    if all(name != "label" for name, _ in values):
        values = (("label", row.label), *values)
    related = found.related
    if found.rule is not NO_STITCHES:
        related = (*related, *sources_of(state.piece, row.span))
    span = found.span
    if row.span is not None and (span is None or not row.span.start <= span.start < row.span.end):
        # a row worked like another: the fault belongs to the line that says so
        related = related if span is None else (*related, Pointer(span, "the row it is worked like"))
        span = row.span
    return replace(found, span=span, message=message, hint=hint, values=values, related=related)
