"""The rows of a stitch pattern of the source, in order, every row said once.

In: the pattern's lines. Out: the acts of each row, "Row 2 and all WS rows" and "As row 2" filled in.
"""

from __future__ import annotations

from collections.abc import Sequence

from castoff.knitting.state import Acts, SizeState
from castoff.notation.syntax import InstructionLine, Label, RepeatRows, RowsAs, RowStep, Side


def rows_of_pattern(state: SizeState, name: str) -> tuple[Acts, ...]:
    """The acts of every row of a named stitch pattern, row 1 first; empty when there is no such pattern."""
    key = (name, state.size)
    found = state.shared.pattern_acts.get(key)
    if found is None:
        pattern = state.plan.patterns.get(name)
        found = () if pattern is None else tuple(acts for _, acts in numbered_rows(pattern.lines, state.size))
        state.shared.pattern_acts[key] = found
    return found


def first_side(state: SizeState, name: str) -> Side | None:
    """The side on which row 1 of a stitch pattern is worked, as its labels say; None when they do not, or it varies.

    Rows of an uneven number change sides at every repeat.
    """
    pattern = state.plan.patterns.get(name)
    if pattern is None or pattern.form != "flat" or len(rows_of_pattern(state, name)) % 2:
        return None
    for line in pattern.lines:
        for step in line.steps if isinstance(line, InstructionLine) else ():
            label = step.label if isinstance(step, (RowStep, RowsAs)) else None
            numbers = [] if label is None else _numbers(label, state.size)
            if label is not None and label.side is not None and numbers:
                return label.side if numbers[0] % 2 else "WS" if label.side == "RS" else "RS"
    return None


def numbers_of(state: SizeState, label: Label) -> list[int]:
    """The row numbers that a label names, in this size."""
    return _numbers(label, state.size)


def _numbers(label: Label, size: int) -> list[int]:
    numbers: list[int] = []
    for first, last in label.ranges:
        low, high = first.at(size), last.at(size)
        if low is None or high is None:
            continue
        numbers.extend(range(low, min(high, low + 2000) + 1))
    return numbers


def stands_for(label: Label, number: int, origin: int) -> bool:
    """Whether an "and every … row" label covers a row. origin: the number that the label itself names."""
    step = 2
    if label.every_step is not None:
        step = next((value for value in label.every_step.values if value), 2)
    return number >= origin and (number - origin) % step == 0


def numbered_rows(lines: Sequence[object], size: int) -> tuple[tuple[int, Acts], ...]:
    """The rows that lines tell, by number and in order: what each says in a size."""
    rows: dict[int, Acts] = {}
    every: list[tuple[Label, int, Acts]] = []
    following = 1
    for line in lines:
        if not isinstance(line, InstructionLine) or not line.sizes[size]:
            continue
        for step in line.steps:
            if isinstance(step, RowStep):
                numbers = _numbers(step.label, size) if step.label is not None else []
                numbers = numbers or [following]
                for number in numbers:
                    rows[number] = step.work
                following = numbers[-1] + 1
                if step.label is not None and (step.label.every_side is not None or step.label.every_step is not None):
                    every.append((step.label, numbers[0], step.work))
            elif isinstance(step, RowsAs):
                numbers = _numbers(step.label, size)
                sources = [
                    number
                    for first, last in step.rows.ranges
                    for number in range(first.at(size) or 0, (last.at(size) or 0) + 1)
                ]
                for at, number in enumerate(numbers):
                    if sources and sources[at % len(sources)] in rows:
                        rows[number] = rows[sources[at % len(sources)]]
                if numbers:
                    following = numbers[-1] + 1
            elif isinstance(step, RepeatRows):
                continue
    if not rows:
        return ()
    last = max(rows)
    for label, origin, acts in every:
        for number in range(1, last + 2):
            if number not in rows and stands_for(label, number, origin) and number <= last + 1:
                rows[number] = acts
    last = max(rows)
    return tuple((number, rows[number]) for number in range(1, last + 1) if number in rows)
