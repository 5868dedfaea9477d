"""The course of the knitting: records unfolded into rows, parts that grow beside each other kept apart.

In: the records of a section or piece. Out: parts (the two sides of a neck are two parts), each its rows in working
order. A record may stand for several rows with others between; where a record begins at a lower row than the one
before it, the work has gone back to stitches that waited, and a new part begins.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from castoff.knitting.fabric import RowRecord
from castoff.notation.syntax import Form


@dataclass(frozen=True, slots=True)
class Row:
    """One worked row.

    label: what a knitter calls it. number: in its piece. before, after: stitches. height_mm: of the row; short rows
    have none. gauge: key of its gauge.
    """

    label: str
    number: int
    before: int
    after: int
    height_mm: Fraction = Fraction(0)
    gauge: str | None = None
    form: Form = "flat"


def parts_of(records: Iterable[RowRecord]) -> tuple[tuple[Row, ...], ...]:
    """The parts in the order in which they are worked."""
    parts: list[list[RowRecord]] = []
    for record in records:
        if not parts or _goes_back(parts[-1][-1], record):
            parts.append([])
        parts[-1].append(record)
    return tuple(_unfolded(part) for part in parts)


def _goes_back(before: RowRecord, record: RowRecord) -> bool:
    """Whether a record begins no higher than the one before it; short rows may share the number of a whole one."""
    if record.short or before.short:
        return record.row < before.row
    return record.row <= before.row


def _unfolded(records: list[RowRecord]) -> tuple[Row, ...]:
    found: list[tuple[int, int, RowRecord]] = []
    for order, record in enumerate(records):
        found.extend((record.row + worked * record.step, order, record) for worked in range(record.rows))
    found.sort(key=lambda each: each[:2])
    return tuple(
        Row(
            record.label,
            number,
            record.before,
            record.after,
            Fraction(0) if record.short else record.height_mm,
            record.gauge,
            record.form,
        )
        for number, _, record in found
    )
