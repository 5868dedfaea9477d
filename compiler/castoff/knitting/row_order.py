"""Rows that are told by what they do, and worked by their numbers: "Rows 1, 3 and 5: Knit", then "Rows 2 and 4: Purl".

In: the lines of a section. Out: the same lines, such rows one by one and in their order. Lines whose numbers do not make
an unbroken run together stay as they are; the needle then finds the row that is missing or told twice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from castoff.knitting.pattern_rows import stands_for
from castoff.notation.syntax import Count, InstructionLine, Label, Line, Note, RowsAs, RowStep, Total

_MOST = 400


def in_row_order(lines: Sequence[Line]) -> tuple[Line, ...]:
    """The lines as they are worked."""
    ordered: list[Line] = []
    at = 0
    while at < len(lines):
        taken = _group(lines[at:])
        ordered.extend(_sorted(lines[at : at + taken]) if taken > 1 else lines[at : at + 1])
        at += max(taken, 1)
    return tuple(ordered)


def _group(lines: Sequence[Line]) -> int:
    """How many lines from the first on tell an unbroken run of rows together; 1 when the first is none of such."""
    first = _numbers(lines[0])
    if not first or not _broken(first):
        return 1
    numbers: list[int] = []
    every: list[tuple[Label, int]] = []
    for count, line in enumerate(lines, start=1):
        more = _numbers(line)
        if not more or line.sizes != lines[0].sizes or set(more) & set(numbers):
            return 1
        numbers.extend(more)
        label = _label(line)
        if label is not None and _stands_for_more(label):
            every.append((label, more[0]))
        missing = [number for number in range(min(numbers), max(numbers)) if number not in numbers]
        if all(any(stands_for(label, number, origin) for label, origin in every) for number in missing):
            return count
    return 1


def _sorted(lines: Sequence[Line]) -> list[Line]:
    """One line for every row, by its number; what is told behind a line is told behind the last of its rows."""
    rows: list[tuple[int, Line]] = []
    for line in lines:
        numbers = _numbers(line)
        assert isinstance(line, InstructionLine), "a line with numbers is an instruction"
        row = line.steps[0]
        assert isinstance(row, (RowStep, RowsAs)) and row.label is not None, "a line with numbers has a label"
        for number in numbers:
            count = Count((number,) * len(line.sizes), span=row.label.ranges[0][0].span)
            one = replace(row, label=replace(row.label, ranges=((count, count),)))
            behind = line.steps[1:] if number == numbers[-1] else ()
            rows.append((number, replace(line, steps=(one, *behind))))
    return [line for _, line in sorted(rows, key=lambda row: row[0])]


def _label(line: Line) -> Label | None:
    """The label of a line that tells numbered rows and nothing else but their total."""
    if not isinstance(line, InstructionLine) or not all(isinstance(step, Total | Note) for step in line.steps[1:]):
        return None
    row = line.steps[0]
    if isinstance(row, RowsAs) and (row.times is not None or not _one_row(row)):
        return None
    return row.label if isinstance(row, (RowStep, RowsAs)) else None


def _one_row(row: RowsAs) -> bool:
    ranges = row.rows.ranges
    return row.rows.kind == "numbers" and len(ranges) == 1 and ranges[0][0].values == ranges[0][1].values


def _numbers(line: Line) -> list[int]:
    """The row numbers that a line tells, rising and the same in all sizes; empty when it is no such line."""
    label = _label(line)
    if label is None or label.which != "numbers":
        return []
    numbers: list[int] = []
    for first, last in label.ranges:
        low, high = first.of_all, last.of_all
        if low is None or high is None or high - low > _MOST or (numbers and low <= numbers[-1]):
            return []
        numbers.extend(range(low, high + 1))
    return numbers


def _broken(numbers: Sequence[int]) -> bool:
    """Whether a number is left out between two others."""
    return any(later != former + 1 for former, later in pairwise(numbers))


def _stands_for_more(label: Label) -> bool:
    """ "Row 2 and all WS rows"."""
    return label.every_side is not None or label.every_step is not None
