"""Customary pairs of measures, what a ruler shows, and the names of the skill levels.

In: `trade/units.yaml`, `trade/skills.yaml`. Out: whether a pair that is wrong by arithmetic is right by custom, how far
apart a pair is, and the steps to which each kind of number is rounded in print.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from castoff.trade.table import Entry, read_table

UNITS_FILE = "trade/units.yaml"
SKILLS_FILE = "trade/skills.yaml"

CM_PER_INCH = Fraction(254, 100)
"""Exact: 16 CFR 500.19."""
Closeness = Literal["exact", "loose", "apart", "wrong"]


class CustomaryPair(NamedTuple):
    """Two figures that the trade prints side by side.

    of: what they measure: gauge, length, circular needle, mass.
    imperial: inches, or ounces for a mass.
    metric: centimetres, or grams for a mass.
    exact: the arithmetic, in words.
    """

    of: str
    imperial: Fraction
    metric: Fraction
    exact: str
    sources: tuple[str, ...] = ()


class PrintStep(NamedTuple):
    """The step to which a kind of number is printed.

    steps: by unit ("in" 1/4, "cm" 1/2).
    up: whether it is always rounded up.
    """

    kind: str
    steps: Mapping[str, Fraction]
    up: bool
    sources: tuple[str, ...] = ()


class MeasurePairs(NamedTuple):
    """Customary pairs, print steps, and the limits (in cm) of an exact, a loose and a wrong pair."""

    customary: tuple[CustomaryPair, ...]
    steps: Mapping[str, PrintStep]
    exact_cm: Fraction
    loose_cm: Fraction
    wrong_cm: Fraction

    def is_customary(self, of: str, imperial: Fraction, metric: Fraction) -> bool:
        """Whether the trade prints this pair although it is not equal: 29 in and 75 cm, for a circular needle."""
        return any((p.of, p.imperial, p.metric) == (of, imperial, metric) for p in self.customary)

    def closeness(self, inches: Fraction, cm: Fraction) -> Closeness:
        """How well a printed pair agrees, by the exact inch.

        exact: it rounds to the same half centimetre; loose: it happens in most published tables; apart: worth a
        warning; wrong: almost always an error.
        """
        off = abs(cm - inches * CM_PER_INCH)
        if off <= self.exact_cm:
            return "exact"
        if off <= self.loose_cm:
            return "loose"
        return "apart" if off <= self.wrong_cm else "wrong"


def read_measure_pairs(text: str, file: str = UNITS_FILE) -> MeasurePairs:
    """The pairs of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "customary", "steps", "tolerance")
    steps = {name: _step(name, entry) for name, entry in table.entry("steps").items()}
    tolerance = table.entry("tolerance").cells("exact", "loose", "wrong")
    exact, loose, wrong = (
        tolerance.entry(name).cells("cm", "means").number("cm") for name in ("exact", "loose", "wrong")
    )
    if not exact <= loose <= wrong:
        raise tolerance.row.fault("the limits must rise from exact over loose to wrong")
    customary = tuple(_customary(entry) for entry in table.entry("customary").elements())
    return MeasurePairs(customary, steps, exact, loose, wrong)


def _customary(entry: Entry) -> CustomaryPair:
    cells = entry.cells("of", "in", "cm", "oz", "g", "exact", "src")
    of = cells.text("of")
    imperial, metric = ("oz", "g") if of == "mass" else ("in", "cm")
    return CustomaryPair(of, cells.number(imperial), cells.number(metric), cells.text("exact", ""), cells.texts("src"))


def _step(name: str, entry: Entry) -> PrintStep:
    cells = entry.cells("in", "cm", "stitches", "yd", "m", "balls", "to", "src")
    units = [unit for unit in ("in", "cm", "stitches", "yd", "m", "balls") if cells.has(unit)]
    steps = {unit: cells.number(unit) for unit in units}
    for unit, step in steps.items():
        if step <= 0:
            raise cells.found[unit].fault("a step must be above zero")
    return PrintStep(name, steps, cells.choice("to", ("nearest", "up"), "nearest") == "up", cells.texts("src"))


class SkillLevel(NamedTuple):
    """How much a pattern asks of the knitter."""

    name: str
    label: str
    means: str
    sources: tuple[str, ...] = ()


def read_skills(text: str, file: str = SKILLS_FILE) -> tuple[SkillLevel, ...]:
    """The skill levels of a table, easiest first. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("levels", "sources")
    levels: list[SkillLevel] = []
    for name, entry in table.entry("levels").items():
        cells = entry.cells("label", "means", "src")
        levels.append(SkillLevel(name, cells.text("label"), cells.text("means"), cells.texts("src")))
    return tuple(levels)
