"""The choices that decide how numbers and words are set in one edition.

In: a pattern and an edition. Out: `Setting`, which every module of the document passes on to `wording`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeVar

from castoff.document.edition import Edition, Units
from castoff.document.tree import size_groups
from castoff.model.pattern import Pattern, Terms
from castoff.units import INCH_MM

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Setting:
    """How one edition is set.

    sizes: names of all sizes of the pattern. shown: the only size of a one-size edition, or None.
    units: measures that are printed. leads: the system that comes first when both are printed, and that a mass or
    length is
        meant in when nobody said: the author's own. inch_mm: factor that the author converts by.
    terms: words that are printed. typed_terms: words that the source is written in.
    written_out: whether short forms are said in full. groups: numbers in each bracket of a size list.
    """

    sizes: tuple[str, ...]
    shown: int | None = None
    units: Units = "both"
    leads: Literal["metric", "imperial"] = "metric"
    inch_mm: Fraction = INCH_MM
    terms: Terms = "US"
    typed_terms: Terms = "US"
    written_out: bool = False
    groups: tuple[int, ...] = ()

    @property
    def shows(self) -> tuple[int, ...]:
        """Indices of the sizes that are printed."""
        return tuple(range(len(self.sizes))) if self.shown is None else (self.shown,)

    @property
    def systems(self) -> tuple[Literal["metric", "imperial"], ...]:
        """The systems of measure that are printed, in order."""
        if self.units != "both":
            return (self.units,)
        return ("metric", "imperial") if self.leads == "metric" else ("imperial", "metric")

    def pick(self, values: Sequence[T]) -> tuple[T, ...]:
        """Of one value per size, those that are printed."""
        return tuple(values[index] for index in self.shows)


def setting_of(pattern: Pattern, edition: Edition) -> Setting:
    """The setting of a pattern in an edition.

    Size lists keep the author's brackets when the author groups them; one long bracket is grouped by the house.
    """
    first = pattern.gauges[0].over.unit if pattern.gauges else "cm"
    count = len(pattern.sizes)
    grouped = pattern.sizes.grouping
    typed = pattern.terms.value
    return Setting(
        sizes=pattern.sizes.labels,
        shown=edition.size,
        units=edition.units,
        leads="imperial" if first in ("in", "ft", "yd") else "metric",
        inch_mm=pattern.inch.value if pattern.inch is not None else INCH_MM,
        terms=edition.terms or typed,
        typed_terms=typed,
        written_out=edition.written_out,
        groups=grouped if len(grouped) > 1 and sum(grouped) == count - 1 else size_groups(count),
    )
