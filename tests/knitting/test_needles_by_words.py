"""Needles that a line names by no key: by their size, by their type, or as the larger or smaller of two."""

from __future__ import annotations

from fractions import Fraction

import pytest

from castoff.knitting.plan import NeedleSpec
from castoff.knitting.steps_needles import needles_meant

TWO = {
    "US 6": NeedleSpec(Fraction(4), "circular", names=("4 mm", "us 6")),
    "US 4": NeedleSpec(Fraction(7, 2), "circular", names=("3.5 mm", "us 4")),
}
FOUR = {
    "larger": NeedleSpec(Fraction(13, 4), "circular"),
    "smaller": NeedleSpec(Fraction(11, 4), "circular"),
    "small DPNs": NeedleSpec(Fraction(11, 4), "double-pointed"),
    "larger DPNs": NeedleSpec(Fraction(13, 4), "double-pointed"),
}


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("larger needle", "US 6"),
        ("smaller needles", "US 4"),
        ("smaller circular needle", "US 4"),
        ("us 4 needle", "US 4"),
        ("4 mm circular needle", "US 6"),
        ("larger dpns", None),
        ("medium needles", None),
    ],
)
def test_two_sizes_are_the_larger_and_the_smaller(words: str, key: str | None) -> None:
    assert needles_meant(words, TWO) == key


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("smaller dpns", "small DPNs"),
        ("larger dpns", "larger DPNs"),
        ("larger circular needle", "larger"),
        ("smaller needles", "smaller"),
    ],
)
def test_a_type_that_is_said_is_the_type_that_is_meant(words: str, key: str) -> None:
    assert needles_meant(words, FOUR) == key


def test_of_three_sizes_none_is_the_larger_one() -> None:
    three = {**TWO, "US 8": NeedleSpec(Fraction(5), "circular", names=("5 mm", "us 8"))}
    assert needles_meant("larger needle", three) is None
