"""The choices that decide how numbers and words are set in one edition.

In: a pattern and an edition. Out: `Setting`, which every module of the document passes on to `wording`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations
from typing import Literal, TypeVar

from castoff.document.edition import Edition, Units
from castoff.document.tree import size_groups
from castoff.model.pattern import Pattern, Terms
from castoff.per_size import Axes, axes_of
from castoff.units import INCH_MM

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Setting:
    """How one edition is set.

    sizes: names of all sizes of the pattern, which know what they are made of. shown: the only size of a one-size
        edition, or None. among: sizes that are printed, where the edition keeps one choice or a part of the pattern is for
        some sizes; None for all.
    bars: whether lists of the second direction are parted by bars, as in rows, or named.
    units: measures that are printed. leads: the system that comes first when both are printed, and that a mass or
        length is meant in when nobody said: the author's own. inch_mm: factor that the author converts by.
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
    among: tuple[int, ...] | None = None
    bars: bool = False

    @property
    def shows(self) -> tuple[int, ...]:
        """Indices of the sizes that are printed."""
        if self.shown is not None:
            return (self.shown,)
        return tuple(range(len(self.sizes))) if self.among is None else self.among

    @property
    def axes(self) -> Axes:
        """What the sizes are made of."""
        return axes_of(self.sizes)

    def parted(self, values: Sequence[object]) -> tuple[tuple[str, tuple[int, ...]], ...]:
        """The printed sizes in runs along the first direction, with the words that tell one run from the others.

        values: one per size. A direction in which they do not differ is left out: of a list that is the same for both
        necks there is one run, without words.
        """
        axes, shows = self.axes, self.shows
        if axes.plain or self.shown is not None:
            return (("", shows),)
        places = {size: axes.place(size) for size in shows}
        numbers = [number for number, _ in axes.directions]
        matters = [
            number
            for number in numbers[1:]
            if any(
                values[one] != values[other]
                for one, other in combinations(shows, 2)
                if all(places[one][at] == places[other][at] for at in numbers if at != number)
            )
        ]
        runs: dict[tuple[int, ...], dict[int, int]] = {}
        for size in shows:
            key = tuple(places[size][number] for number in matters)
            runs.setdefault(key, {}).setdefault(places[size][0], size)
        return tuple(
            (", ".join(axes.words(number, at) for number, at in zip(matters, key, strict=True)), tuple(run.values()))
            for key, run in runs.items()
        )

    def only(self, flags: Sequence[bool]) -> Setting:
        """The setting of what is for some sizes only: for whole runs of the first direction, where there are several."""
        if self.axes.plain or all(flags):
            return self
        wanted = [size for run in self.axes.runs if any(flags[each] for each in run) for size in run]
        return replace(self, among=tuple(size for size in self.shows if size in wanted) or self.among)

    @property
    def heads(self) -> tuple[str, ...]:
        """What the columns of a table over the sizes are called: the printed sizes of the first direction."""
        if self.shown is not None or self.axes.plain:
            return self.pick(self.sizes)
        return tuple(dict.fromkeys(self.axes.first[self.axes.place(size)[0]] for size in self.shows))

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
    count = len(pattern.sizes.axes.first)
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
        among=edition.sizes(pattern.sizes.labels) if edition.kept else None,
    )
