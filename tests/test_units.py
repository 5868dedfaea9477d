"""Quantities against an independent units library, and in words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, TypeAlias

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.numeral import UNITS
from castoff.units import (
    BALLS,
    INCH_MM,
    LENGTH,
    MASS,
    NUMBER,
    ROWS,
    STITCHES,
    Dimension,
    Quantity,
    decimal,
    in_words,
)

Registry: TypeAlias = pint.UnitRegistry[Any]


@pytest.fixture(scope="module")
def registry() -> Registry:
    """The library's own definitions, with exact fractions, and the craft's counts beside them."""
    found: Registry = pint.UnitRegistry(non_int_type=Fraction)
    for count in ("knitstitch", "knitrow", "ball"):
        found.define(f"{count} = [{count}s]")
    return found


LIBRARY = {"mm": "mm", "cm": "cm", "m": "m", "in": "inch", "ft": "foot", "yd": "yard", "g": "g", "kg": "kg",
           "oz": "ounce", "lb": "pound"}  # fmt: skip


@pytest.mark.parametrize("word", sorted(UNITS))
def test_every_unit_is_what_the_library_says(word: str, registry: Registry) -> None:
    dimension, symbol, size = UNITS[word]
    base = "mm" if dimension == "length" else "g"
    assert registry.Quantity(Fraction(1), LIBRARY[symbol]).to(base).magnitude == size


def test_exact_units_as_published() -> None:
    """16 CFR 500.19 (US Fair Packaging and Labeling): 1 inch is 2.54 cm, 1 yard 0.9144 m, 1 foot 30.48 cm, exactly."""
    assert INCH_MM == UNITS["in"][2] == Fraction("25.4")
    assert UNITS["yd"][2] == Fraction("914.4")
    assert UNITS["ft"][2] == Fraction("304.8")
    # pound 0.45359237 kg, ounce a sixteenth of it: the 1959 agreement, from memory
    assert UNITS["lb"][2] == Fraction("453.59237")
    assert UNITS["oz"][2] == Fraction("28.349523125")


POWERS = st.builds(Dimension, *(st.integers(-2, 2) for _ in range(5)))
NAMES = ("mm", "g", "knitstitch", "knitrow", "ball")


def in_library(dimension: Dimension, registry: Registry) -> object:
    unit = registry.Unit("")
    powers = (dimension.length, dimension.mass, dimension.stitches, dimension.rows, dimension.balls)
    for name, power in zip(NAMES, powers, strict=True):
        unit = unit * registry.Unit(name) ** power
    return unit.dimensionality


@given(POWERS, POWERS)
def test_products_and_quotients_of_dimensions(one: Dimension, other: Dimension) -> None:
    registry: Registry = pint.UnitRegistry(None, non_int_type=Fraction, cache_folder=None)
    for count in ("mm = [length]", "g = [mass]", "knitstitch = [s]", "knitrow = [r]", "ball = [b]"):
        registry.define(count)
    assert (one * other == NUMBER) == (in_library(one * other, registry) == in_library(NUMBER, registry))
    assert in_library(one * other / other, registry) == in_library(one, registry)
    assert (one / other).powers == tuple(
        (name, power)
        for name, power in (
            ("stitches", one.stitches - other.stitches), ("rows", one.rows - other.rows),
            ("balls", one.balls - other.balls), ("mass", one.mass - other.mass), ("length", one.length - other.length),
        )
        if power
    )  # fmt: skip


@pytest.mark.parametrize(
    ("dimension", "words"),
    [
        (NUMBER, "a plain number"), (LENGTH, "a length"), (MASS, "a mass"), (STITCHES, "stitches"), (ROWS, "rows"),
        (ROWS / STITCHES, "rows divided by stitches"), (STITCHES / LENGTH, "stitches divided by length"),
        (NUMBER / ROWS, "a number divided by rows"), (LENGTH * LENGTH, "length squared"),
        (STITCHES * LENGTH / ROWS, "stitches times length divided by rows"),
    ],
)  # fmt: skip
def test_dimensions_in_words(dimension: Dimension, words: str) -> None:
    assert dimension.words == words


@pytest.mark.parametrize(
    ("value", "dimension", "words"),
    [
        (84, STITCHES, "84 stitches"), (1, STITCHES, "1 stitch"), (1, ROWS, "1 row"),
        (Fraction("105.6"), ROWS, "105.6 rows"),
        (Fraction(125), LENGTH, "12.5 cm"), (-40, LENGTH, "−4 cm"), (200, MASS, "200 g"), (3, BALLS, "3 balls"),
        (Fraction(2, 10), STITCHES / LENGTH, "20 stitches to 10 cm"), (Fraction(1, 3), NUMBER, "0.333"),
    ],
)  # fmt: skip
def test_amounts_in_words(value: Fraction | int, dimension: Dimension, words: str) -> None:
    assert Quantity(Fraction(value), dimension).words == in_words(Fraction(value), dimension) == words


def test_a_stitch_count_over_a_row_gauge_is_no_length() -> None:
    """22 sts to 10 cm: 48 cm are 105.6 sts (a published worked example); by the row gauge it is something else."""
    stitches = Quantity(Fraction(480), LENGTH) * Quantity(Fraction(22, 100), STITCHES / LENGTH)
    assert stitches == Quantity(Fraction("105.6"), STITCHES)
    wrong = stitches / Quantity(Fraction(28, 100), ROWS / LENGTH)
    assert wrong.dimension.words == "stitches times length divided by rows"


@given(st.fractions(min_value=-(10**6), max_value=10**6))
def test_decimals_are_within_half_a_digit(value: Fraction) -> None:
    shown = Fraction(decimal(value).replace("−", "-"))
    assert abs(shown - value) <= Fraction(1, 2000)
