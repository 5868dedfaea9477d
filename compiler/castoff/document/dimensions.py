"""The measures of a piece that a schematic letters, under the numbers that the author declares for them.

In: the job, and one piece in every size. Out: dimensions: widths where they differ, the length, the depth of a neck.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from castoff.document.job import Job
from castoff.document.measures import Sized, finished_measures
from castoff.document.shape import PieceShape
from castoff.document.wording import Values

_OF = re.compile(r"(?P<kind>width|length|circumference) of (?P<rest>.*)")
_NEAR_MM = 15
"""A declared measure stands for the knitted one that is no further from it than this in any size."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measure of a piece: what it is, and how much in every size (None where the piece has none)."""

    name: str
    sized: Sized

    @property
    def values(self) -> Values:
        """Millimetres in every size."""
        return self.sized.values


def dimensions_of(job: Job, name: str, shapes: Sequence[PieceShape | None]) -> tuple[Dimension, ...]:
    """Measures of a piece that differ in some printed size: lower edge, widest, upper edge, length, depth of a neck."""
    kind = "around" if any(shape is not None and shape.tube for shape in shapes) else "width"
    bottom = _dimension(f"{kind}_bottom", [None if shape is None else shape.bottom for shape in shapes])
    widest = _dimension(f"{kind}_widest", [None if shape is None else shape.widest for shape in shapes])
    top = _dimension(f"{kind}_top", [None if shape is None else shape.top for shape in shapes])
    length = _dimension("length", [None if shape is None else shape.length for shape in shapes])
    depth = _dimension("depth", [None if shape is None else shape.depth for shape in shapes])
    shown = [job.setting.pick(each.values) for each in (bottom, widest, top)]
    divided = any(value for value in job.setting.pick(depth.values))
    found = [bottom]
    if shown[1] not in (shown[0], shown[2]) or (divided and shown[1] != shown[0]):
        found.append(widest)
    if shown[2] != shown[0] and not divided and not _closed(job, shapes):
        found.append(top)
    found.append(length)
    if divided:
        found.append(depth)
    return tuple(_as_declared(job, name, found))


def _dimension(name: str, values: Sequence[Fraction | None]) -> Dimension:
    return Dimension(name, Sized(name, "", tuple(values)))


def _as_declared(job: Job, piece: str, found: Sequence[Dimension]) -> Iterator[Dimension]:
    """Dimensions under the numbers that the author declares for them, so that a page never says two things of one edge.

    A declared measure `of: width of Back …` stands for the dimension of that kind that it is nearest to, within a
    centimetre and a half in every size; the check of measurements holds the two against each other.
    """
    declared: dict[str, Sized] = {}
    sized = {each.key: each for each in finished_measures(job)}
    for measurement in job.pattern.measurements:
        said = measurement.of.value.casefold() if measurement.of is not None else ""
        match = _OF.match(said)
        measured = sized.get(measurement.key.value)
        if match is None or measured is None or not match["rest"].startswith(piece.casefold()):
            continue
        long = match["kind"] == "length"
        alike = [each for each in found if (each.name == "length") == long and each.name != "depth"]
        near = [(gap, each.name) for each in alike if (gap := _gap(each.values, measured.values)) is not None]
        if near and min(near)[0] <= _NEAR_MM:
            declared.setdefault(min(near)[1], measured)
    for each in found:
        yield Dimension(each.name, declared.get(each.name, each.sized))


def _gap(some: Values, others: Values) -> Fraction | None:
    """The greatest difference between two measures over the sizes that have both; None when no size does."""
    both = [abs(one - other) for one, other in zip(some, others, strict=True) if one is not None and other is not None]
    return max(both, default=None)


def _closed(job: Job, shapes: Sequence[PieceShape | None]) -> bool:
    """Whether a piece runs to a point: a crown or a toe, whose last width is of no use to anybody."""
    return all(
        shape is None or shape.top is None or shape.widest is None or shape.top * 5 <= shape.widest
        for shape in job.setting.pick(tuple(shapes))
    )
