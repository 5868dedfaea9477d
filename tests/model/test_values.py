"""Scalars to typed values, for all inputs."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.diagnostic import Diagnostic
from castoff.model import values
from castoff.span import Text

SIZES = ("S", "M", "L")


@pytest.mark.parametrize(
    ("text", "length", "mass"),
    [
        ("200 m / 100 g", 200_000, 100), ("100 g / 200 m", 200_000, 100), ("200m/100g", 200_000, 100),
        ("123 yd per 50 g", Fraction(1_124_712, 10), 50), ("50 g = 112 m (123 yd)", 112_000, 50),
        ("220 yd (201 m) / 100 g", 201_168, 100), ("166 m / 3.5 oz", 166_000, Fraction(45359237 * 35, 16000000)),
    ],
)  # fmt: skip
def test_put_up(text: str, length: Fraction, mass: Fraction) -> None:
    read = values.put_up(Text.plain(text))
    assert not isinstance(read, Diagnostic)
    assert (read.length.value, read.mass.value) == (length, mass)


@pytest.mark.parametrize(
    "text", ["200 m", "100 g", "200 m / 100", "m / g", "200 m / 100 g / 3", "200 m and 100 g", "0 m / 1 g"]
)
def test_no_put_up(text: str) -> None:
    assert isinstance(values.put_up(Text.plain(text)), Diagnostic)


def test_amounts_in_every_form() -> None:
    read = values.amounts(Text.plain(" 13 (14, –) cm / 5 (5½, –) in "), SIZES, "length")
    assert not isinstance(read, Diagnostic)
    assert (read.values, read.unit) == ((Fraction(130), Fraction(140), None), "cm")
    assert (read.twin, read.twin_unit) == ((Fraction(127), Fraction(1397, 10), None), "in")
    one = values.amounts(Text.plain("4 in"), SIZES, "length")
    assert not isinstance(one, Diagnostic)
    assert one.values == (Fraction(1016, 10),) * 3


@pytest.mark.parametrize(
    ("text", "expected"),
    [("2 (2, 3) balls", (2, 2, 3)), ("1 ball", (1, 1, 1)), ("4 (5, –) skeins", (4, 5, None))],
)
def test_balls(text: str, expected: tuple[int | None, ...]) -> None:
    assert values.says_balls(Text.plain(text))
    assert values.counts(Text.plain(text), SIZES) == expected


@given(st.text(max_size=40))
def test_any_text_gives_a_value_or_a_finding_with_a_place(text: str) -> None:
    place = Text.plain(text)
    for read in (
        values.amounts(place, SIZES, "length"), values.amount(place, "mass"), values.counts(place, SIZES),
        values.number(place), values.whole(place), values.share(place), values.day(place), values.put_up(place),
        values.name_list(place),
    ):  # fmt: skip
        if isinstance(read, Diagnostic):
            assert read.span is not None and read.span.end <= len(text)


@given(st.lists(st.integers(1, 999), min_size=3, max_size=3), st.sampled_from(["cm", "in", "mm"]))
def test_lists_of_lengths_are_exact(numbers: list[int], unit: str) -> None:
    factor = {"cm": Fraction(10), "in": Fraction(254, 10), "mm": Fraction(1)}[unit]
    read = values.amounts(Text.plain(f"{numbers[0]} ({numbers[1]}, {numbers[2]}) {unit}"), SIZES, "length")
    assert not isinstance(read, Diagnostic)
    assert read.values == tuple(number * factor for number in numbers)
