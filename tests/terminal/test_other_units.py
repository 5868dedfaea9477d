"""Conversions against exact definitions; sources as in `numeral.UNITS`."""

from fractions import Fraction

import pint
import pytest

from castoff.numeral import UNITS
from castoff.terminal.other_units import converted


@pytest.mark.parametrize(
    ("value", "base", "symbol", "result"),
    [
        (Fraction(254), "mm", "in", Fraction(10)),  # an inch is 25.4 mm: 16 CFR 500.19
        (Fraction(9144), "mm", "yd", Fraction(10)),  # a yard is 0.9144 m: 16 CFR 500.19
        (Fraction(3048), "mm", "ft", Fraction(10)),
        (Fraction(45359237, 100000), "g", "lb", Fraction(1)),  # 1959 agreement, from memory
        (Fraction(45359237, 100000), "g", "oz", Fraction(16)),
        (Fraction(100), "mm", "cm", Fraction(10)),
    ],
)
def test_exact(value: Fraction, base: str, symbol: str, result: Fraction) -> None:
    assert converted(value, base, symbol) == result


def test_every_unit_that_sources_may_use_converts_back() -> None:
    for dimension, symbol, size in dict.fromkeys(UNITS.values()):
        base = "mm" if dimension == "length" else "g"
        assert converted(size, base, symbol) == 1


def test_a_length_is_no_mass() -> None:
    with pytest.raises(pint.DimensionalityError):
        converted(Fraction(1), "mm", "oz")
