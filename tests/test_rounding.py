"""Rounding: to counts that fit a repeat, and to the steps of print."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.rounding import MeasureKind, Parity, Rounded, Way, printed, to_count, to_step

NUMBERS = st.fractions(min_value=0, max_value=2000, max_denominator=1000)
WAYS = st.sampled_from(("nearest", "up", "down"))


def test_worked_examples() -> None:
    """Published arithmetic: 105.6 sts to 106; 49.5 to 50 and 71.5 to 72 (ties go up); 72.8 and 156.8 down to even."""
    assert to_count(Fraction("105.6")) == Rounded(Fraction(106))
    assert to_count(Fraction("49.5")) == Rounded(Fraction(50), tie=True)
    assert to_count(Fraction("71.5")) == Rounded(Fraction(72), tie=True)
    assert to_count(Fraction("72.8"), "down", parity="even") == Rounded(Fraction(72))
    assert to_count(Fraction("156.8"), "down", parity="even") == Rounded(Fraction(156))


@pytest.mark.parametrize(
    ("value", "multiple", "plus", "parity", "expected"),
    [
        (
            90,
            4,
            2,
            None,
            90,
        ),
        (
            91,
            4,
            2,
            None,
            90,
        ),
        (
            92,
            4,
            2,
            None,
            94,
        ),
        (
            90,
            8,
            0,
            None,
            88,
        ),
        (
            87,
            1,
            0,
            "even",
            88,
        ),
        (
            88,
            1,
            0,
            "odd",
            89,
        ),
        (
            50,
            3,
            0,
            "even",
            48,
        ),
        (
            51,
            3,
            0,
            "odd",
            51,
        ),
        (
            50,
            3,
            1,
            "odd",
            49,
        ),
        (
            7,
            4,
            1,
            "odd",
            9,
        ),
    ],
)  # fmt: skip
def test_multiples_plus_edge(value: int, multiple: int, plus: int, parity: Parity | None, expected: int) -> None:
    found = to_count(Fraction(value), "nearest", multiple, plus, parity)
    assert found is not None and found.value == expected


def test_an_odd_multiple_of_four_does_not_exist() -> None:
    assert to_count(Fraction(90), "nearest", 4, 0, "odd") is None
    assert to_count(Fraction(90), "nearest", 4, 3, "even") is None


@given(NUMBERS, WAYS, st.integers(1, 24), st.integers(0, 12), st.sampled_from((None, "even", "odd")))
def test_counts_against_trying_every_count(
    value: Fraction, way: Way, multiple: int, plus: int, parity: Parity | None
) -> None:
    """Brute force over every whole number in reach."""
    fitting = [
        count
        for count in range(-100, 2200)
        if (count - plus) % multiple == 0 and (parity is None or count % 2 == (parity == "odd"))
    ]
    found = to_count(value, way, multiple, plus, parity)
    if not fitting:
        assert found is None
        return
    assert found is not None
    if way == "up":
        expected = min(count for count in fitting if count >= value)
    elif way == "down":
        expected = max(count for count in fitting if count <= value)
    else:
        least = min(abs(count - value) for count in fitting)
        nearest = [count for count in fitting if abs(count - value) == least]
        expected = max(nearest)
        assert found.tie == (len(nearest) == 2)
    assert found.value == expected


@given(NUMBERS, st.fractions(min_value=Fraction(1, 16), max_value=50, max_denominator=16))
def test_rounding_twice_changes_nothing(value: Fraction, step: Fraction) -> None:
    once = to_step(value, step).value
    assert to_step(once, step) == Rounded(once)
    assert abs(once - value) <= step / 2


def test_a_step_is_above_zero() -> None:
    with pytest.raises(ValueError, match="above zero"):
        to_step(Fraction(1), Fraction(0))


@pytest.mark.parametrize(
    ("inches", "centimetres"),
    [
        # matching pairs out of published leaflets, schematics and garment specifications
        ("28", "71"), ("34", "86.5"), ("36", "91.5"), ("38", "96.5"), ("40", "101.5"), ("42", "106.5"), ("44", "112"),
        ("62", "157.5"), ("26.5", "67.5"), ("32.5", "82.5"), ("52.5", "133.5"), ("20.25", "51.5"), ("9.25", "23.5"),
    ],
)  # fmt: skip
def test_schematic_centimetres_as_published(inches: str, centimetres: str) -> None:
    assert printed(Fraction(inches) * Fraction("25.4"), "cm") == Fraction(centimetres)


@pytest.mark.parametrize(
    ("value", "unit", "kind", "shown"),
    [
        (Fraction(210), "in", "length", "8.25"),  # 21 cm laid flat are 8¼ in: common practice
        (Fraction(690), "in", "length", "27.25"),  # 69 cm are 27¼ in: common practice
        (345 * Fraction("914.4"), "m", "yarn", "316"),  # 345 yd are stated as 316 m: common practice
        (Fraction(316_000), "yd", "yarn", "346"),
        (Fraction(2_000_001), "m", "length", "2001"),
        (16 * Fraction("25.4"), "cm", "needle", "41"),  # a 16 in circular as 41 cm: common practice
        (Fraction(20), "in", "fine", "0.75"),  # a button of 20 mm as ¾ in: common practice
        (Fraction(120_000), "yd", "put-up", "131"),  # 120 m on a label are 131 yd, to the nearest
        (Fraction(50), "oz", "put-up", "1.75"),  # 50 g are 1¾ oz: common practice
        (Fraction("10.2"), "g", "mass", "10"),
        (Fraction(1), "in", "length", "0.125"),  # a millimetre is no quarter inch, and is not nothing
        (Fraction(0), "in", "length", "0"),
    ],
)
def test_measures_of_print(value: Fraction, unit: str, kind: MeasureKind, shown: str) -> None:
    assert printed(value, unit, kind) == Fraction(shown)
