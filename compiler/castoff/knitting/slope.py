"""Shaping that goes on at one rate, folded: rows of a cycle that differ from those of the cycle before in numbers only.

In: records, and how each of a cycle's rows grows from one working to the next. Out: `Records`, the rows of a piece in
order, of which those inside a `Slope` are written out when somebody reads them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import chain
from typing import TypeAlias, overload

from castoff.knitting.fabric import Done, DoneRepeat, RowRecord, Rows, Worked
from castoff.knitting.loops import Needle

Steps: TypeAlias = tuple[tuple[str, int, int], ...]
"""Runs of equal letters: the letter, how many, and how many more by each cycle."""

Marks: TypeAlias = tuple[tuple[int, int, str], ...]
"""Markers: the place, how much further on it is after each cycle, and the name."""

_RUNS = re.compile(r"(.)\1*")


@dataclass(frozen=True, slots=True)
class Faces:
    """A needle's faces, growing. most: the last cycle in which every run is still there; None when none shrinks."""

    runs: Steps
    most: int | None

    def at(self, cycle: int) -> str:
        """The faces after so many cycles."""
        return "".join([letter * (count + cycle * step) for letter, count, step in self.runs])


def faces_between(one: str, two: str) -> Faces | None:
    """How faces grow from one cycle to the next; None when they do not hold the same runs."""
    if one == two:
        return Faces(((one, 1, 0),), None)
    first, second = ([match.group() for match in _RUNS.finditer(faces)] for faces in (one, two))
    if len(first) != len(second) or any(old[0] != new[0] for old, new in zip(first, second, strict=True)):
        return None
    runs = tuple((old[0], len(old), len(new) - len(old)) for old, new in zip(first, second, strict=True))
    return Faces(runs, _most((count, step) for _, count, step in runs))


def _most(steps: Iterable[tuple[int, int]]) -> int | None:
    return min(((count - 1) // -step for count, step in steps if step < 0), default=None)


def _least(*limits: int | None) -> int | None:
    return min((limit for limit in limits if limit is not None), default=None)


@dataclass(frozen=True, slots=True)
class NeedleGrowth:
    """A needle, growing: its faces, where the yarn is, its markers and the stitches that are marked."""

    faces: Faces
    at_place: tuple[int, int]
    marks: Marks
    marked: Marks

    def at(self, cycle: int) -> Needle:
        """The needle after so many cycles."""
        place, step = self.at_place
        return Needle(
            self.faces.at(cycle),
            place + cycle * step,
            _marks_at(self.marks, cycle),
            marked=_marks_at(self.marked, cycle),
        )


def _marks_at(marks: Marks, cycle: int) -> tuple[tuple[int, str], ...]:
    return tuple([(place + cycle * step, name) for place, step, name in marks])


def needle_between(one: Needle, two: Needle) -> NeedleGrowth | None:
    """How a needle grows from one cycle to the next; None when it has gaps, turns or wraps, or other markers."""
    if any(needle.gaps or needle.turns or needle.wraps for needle in (one, two)):
        return None
    faces = faces_between(one.faces, two.faces)
    marks, marked = _marks_between(one.marks, two.marks), _marks_between(one.marked, two.marked)
    if faces is None or marks is None or marked is None:
        return None
    return NeedleGrowth(faces, (one.at, two.at - one.at), marks, marked)


def _marks_between(one: tuple[tuple[int, str], ...], two: tuple[tuple[int, str], ...]) -> Marks | None:
    if [name for _, name in one] != [name for _, name in two]:
        return None
    return tuple((place, later - place, name) for (place, name), (later, _) in zip(one, two, strict=True))


@dataclass(frozen=True, slots=True)
class RowGrowth:
    """A row of a cycle, and by how much each later working of the cycle differs from this one.

    row, before, after, length_mm, worked, tally: what is added to each of these by every cycle. most: the last cycle in
    which everything is still there.
    """

    one: RowRecord
    row: int
    before: int
    after: int
    length_mm: Fraction
    faces: Faces
    worked: tuple[int, ...]
    tally: tuple[int, ...]
    most: int | None

    def at(self, cycle: int, rows: int = 1) -> RowRecord:
        """The row as it is so many cycles later; as one that stands for those of so many cycles from there."""
        one = self.one
        return RowRecord(
            one.label,
            one.row + cycle * self.row,
            one.side,
            one.form,
            one.before + cycle * self.before,
            one.after + cycle * self.after,
            rows,
            1 if rows == 1 else self.row,
            one.yarns,
            one.gauge,
            one.needles,
            (),
            one.length_mm + (cycle + rows - 1) * self.length_mm,
            one.height_mm,
            False,
            self.faces.at(cycle),
            self.worked_at(cycle),
            self.tally_at(cycle),
            one.span,
            one.part,
        )

    def worked_at(self, cycle: int) -> tuple[Worked, ...]:
        """What is worked in it so many cycles later."""
        return tuple(
            [
                part if not step else _grown(part, cycle * step)
                for part, step in zip(self.one.worked, self.worked, strict=True)
            ]
        )

    def tally_at(self, cycle: int) -> tuple[tuple[tuple[str, str], int], ...]:
        """What it comes to so many cycles later, by yarn and stitch."""
        return tuple(
            [(key, count + cycle * step) for (key, count), step in zip(self.one.tally, self.tally, strict=True)]
        )

    def stitches_in(self, first: int, cycles: int) -> Iterator[tuple[tuple[str, str], int]]:
        """Yarn and stitch to how many are worked, from cycle `first` on, in so many cycles together."""
        steps = cycles * first + cycles * (cycles - 1) // 2
        for (key, count), step in zip(self.one.tally, self.tally, strict=True):
            yield key, count * cycles + step * steps


def _grown(part: Worked, more: int) -> Worked:
    if isinstance(part, Done):
        return Done(part.stitch, part.count + more, part.yarn)
    return DoneRepeat(part.body, part.times + more)


def row_between(one: RowRecord, two: RowRecord) -> RowGrowth | None:
    """How a row grows from one cycle to the next; None when more than numbers has changed, or something happened in it."""
    plain = all(record.rows == 1 and not record.short and not record.changes for record in (one, two))
    if not plain or one.span != two.span or len(one.worked) != len(two.worked):
        return None
    if [key for key, _ in one.tally] != [key for key, _ in two.tally]:
        return None
    worked: list[tuple[int, int]] = []
    for old, new in zip(one.worked, two.worked, strict=True):
        if isinstance(old, Done) and isinstance(new, Done) and (old.stitch, old.yarn) == (new.stitch, new.yarn):
            worked.append((old.count, new.count - old.count))
        elif isinstance(old, DoneRepeat) and isinstance(new, DoneRepeat) and old.body == new.body:
            worked.append((old.times, new.times - old.times))
        else:
            return None
    tally = [(count, other - count) for (_, count), (_, other) in zip(one.tally, two.tally, strict=True)]
    faces = faces_between(one.faces, two.faces)
    if faces is None:
        return None
    return RowGrowth(
        one,
        two.row - one.row,
        two.before - one.before,
        two.after - one.after,
        two.length_mm - one.length_mm,
        faces,
        tuple(step for _, step in worked),
        tuple(step for _, step in tally),
        _least(faces.most, _most(worked), _most(tally)),
    )


@dataclass(slots=True)
class Slope:
    """Cycles of rows that were not worked one by one: each row as its growth has it.

    growths: of the rows of a cycle. first: which cycle of the growths is the first here. cycles: how many.
    """

    growths: tuple[RowGrowth, ...]
    first: int
    cycles: int
    written: list[RowRecord] | None = field(default=None, compare=False, repr=False)
    few: list[RowRecord] | None = field(default=None, compare=False, repr=False)
    """All rows, and one for each of a cycle, once somebody has read them."""

    def __len__(self) -> int:
        return len(self.growths) * self.cycles

    def row(self, at: int) -> RowRecord:
        """One of its rows."""
        if self.written is not None:
            return self.written[at]
        cycle, place = divmod(at, len(self.growths))
        return self.growths[place].at(self.first + cycle)

    def folded(self) -> list[RowRecord]:
        """One record for each row of the cycle, with the counts of its first working."""
        if self.few is None:
            self.few = [growth.at(self.first, self.cycles) for growth in self.growths]
        return self.few

    def rows(self) -> list[RowRecord]:
        """All of its rows."""
        if self.written is None:
            self.written = [
                growth.at(cycle) for cycle in range(self.first, self.first + self.cycles) for growth in self.growths
            ]
        return self.written


Part: TypeAlias = RowRecord | Slope


class Records(Rows):
    """Rows in order. A slope counts as all of its rows; they are written out when they are read."""

    __slots__ = ("_few", "_flat", "_hidden", "_parts")

    def __init__(self, parts: Iterable[Part] = ()) -> None:
        self._parts: list[Part] = list(parts)
        self._hidden = sum(len(part) - 1 for part in self._parts if isinstance(part, Slope))
        self._flat: list[RowRecord] | None = None
        self._few: list[RowRecord] | None = None

    def copied(self) -> Records:
        """The same rows, in a list that may be written on by itself."""
        return Records(self._parts)

    def append(self, record: RowRecord) -> None:
        """One more row."""
        self._parts.append(record)
        self._flat = self._few = None

    def fold(self, slope: Slope) -> None:
        """Many more rows."""
        self._parts.append(slope)
        self._hidden += len(slope) - 1
        self._flat = self._few = None

    def worked(self) -> Iterator[RowRecord]:
        """The rows that were worked one by one: all but those of slopes."""
        return (part for part in self._parts if isinstance(part, RowRecord))

    def folded(self) -> Iterator[RowRecord]:
        """The same rows in fewer records, those of a slope as one for each row of its cycle."""
        if self._few is None:
            parts = (part.folded() if isinstance(part, Slope) else (part,) for part in self._parts)
            self._few = list(chain.from_iterable(parts))
        return iter(self._few)

    def _written(self) -> list[RowRecord]:
        if self._flat is None:
            parts = (part.rows() if isinstance(part, Slope) else (part,) for part in self._parts)
            self._flat = list(chain.from_iterable(parts))
        return self._flat

    def _place(self, index: int) -> tuple[int, int]:
        """Which part a row is in, and which of its rows it is."""
        size = len(self)
        at = index + size if index < 0 else index
        if not 0 <= at < size:
            raise IndexError(index)
        if not self._hidden:
            return at, 0
        if index < 0:
            for back in range(1, len(self._parts) + 1):
                part = self._parts[-back]
                rows = len(part) if isinstance(part, Slope) else 1
                size -= rows
                if at >= size:
                    return len(self._parts) - back, at - size
        for place, part in enumerate(self._parts):
            rows = len(part) if isinstance(part, Slope) else 1
            if at < rows:
                return place, at
            at -= rows
        raise IndexError(index)

    def __len__(self) -> int:
        return len(self._parts) + self._hidden

    @overload
    def __getitem__(self, index: int) -> RowRecord: ...
    @overload
    def __getitem__(self, index: slice) -> Records: ...
    def __getitem__(self, index: int | slice) -> RowRecord | Records:
        if isinstance(index, int):
            place, inside = self._place(index)
            part = self._parts[place]
            return part.row(inside) if isinstance(part, Slope) else part
        first, last, step = index.indices(len(self))
        if not self._hidden:
            return Records(self._parts[first:last:step])
        if step == 1 and last == len(self) and first < last:
            place, inside = self._place(first - last)
            part = self._parts[place]
            head = part.rows()[inside:] if isinstance(part, Slope) and inside else [part]
            return Records([*head, *self._parts[place + 1 :]])
        return Records(self._written()[index])

    def __setitem__(self, index: int, record: RowRecord) -> None:
        place, inside = self._place(index)
        part = self._parts[place]
        if isinstance(part, Slope):
            rows = list(part.rows())
            rows[inside] = record
            self._parts[place : place + 1] = rows
            self._hidden -= len(rows) - 1
        else:
            self._parts[place] = record
        self._flat = self._few = None

    def __iter__(self) -> Iterator[RowRecord]:
        if not self._hidden:
            return self.worked()
        return iter(self._written())

    def __reversed__(self) -> Iterator[RowRecord]:
        for part in reversed(self._parts):
            if isinstance(part, Slope):
                yield from (part.row(at) for at in range(len(part) - 1, -1, -1))
            else:
                yield part

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, (Records, list, tuple)):
            return NotImplemented
        return len(self) == len(other) and all(one == two for one, two in zip(self, other, strict=True))

    def __hash__(self) -> int:
        return hash(len(self))

    def __repr__(self) -> str:
        return f"Records({list(self)!r})"
