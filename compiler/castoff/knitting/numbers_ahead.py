"""Whether it is the number of a row that is wrong, or a row that is missing: the numbers that come next say which.

In: the state of one size at a row whose number is not due. Out: the place where a later line counts on the number that
was due, or None where nothing does.
"""

from __future__ import annotations

from castoff.knitting.following import steps_ahead
from castoff.knitting.state import SizeState
from castoff.notation.syntax import RepeatRows, RowsAs, RowStep, Step
from castoff.span import Span


def counts_on(state: SizeState, due: int) -> Span | None:
    """Where the next row has the number behind the one due, or where rows are repeated up to the one due."""
    for step in steps_ahead(state):
        first = _first_number(step, state.size)
        if first is not None:
            return step.span if first == due + 1 else None
        if isinstance(step, RepeatRows) and step.rows.kind == "numbers" and not step.rows.name:
            return step.rows.span if due in [high.at(state.size) for _, high in step.rows.ranges] else None
    return None


def row_follows(state: SizeState, number: int) -> bool:
    """Whether the next numbered row has this number, and no rows are repeated before it."""
    for step in steps_ahead(state):
        first = _first_number(step, state.size)
        if first is not None or isinstance(step, RepeatRows):
            return first == number
    return False


def _first_number(step: Step, size: int) -> int | None:
    """The number of a row, or the first of several told together."""
    if not isinstance(step, (RowStep, RowsAs)) or step.label is None or step.label.which != "numbers":
        return None
    return step.label.ranges[0][0].at(size) if step.label.ranges else None
