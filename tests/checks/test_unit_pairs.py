"""Pairs of units: which are found in a text, and which can be one length.

Sources of the figures: R = garment specification sheet of a yarn maker's book, Y = leaflets of a yarn maker (2020 to
2024), S = schematics of two published sweaters, D = a published pullover sheet, P = three printed size sheets of a
pattern series, M = a shop's listing of a published vest. Figures without a letter are common practice.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from castoff.checks.unit_pairs import INCH, TRADE_INCH, converted, pairs_in, same_amount, say
from castoff.span import Text


def said(text: str, sizes: int = 1) -> list[str]:
    """The pairs of a text, as text."""
    found = []
    for pair in pairs_in(Text.plain(text), sizes):
        halves = (
            ",".join("-" if value is None else f"{float(value):g}" for value in values) + unit
            for values, unit in ((pair.first, pair.first_unit), (pair.second, pair.second_unit))
        )
        found.append(" = ".join(halves))
    return found


@pytest.mark.parametrize(
    ("text", "sizes", "pairs"),
    [
        ("until brim measures 1½ in / 4 cm from cast-on edge", 5, ["1.5in = 4cm"]),
        ("measures 5½ (6, 6¼) in / 14 (15, 16) cm", 3, ["5.5,6,6.25in = 14,15,16cm"]),
        ("36 (36, 37) cm (14¼ [14¼, 14½] in)", 3, ["36,36,37cm = 14.25,14.25,14.5in"]),
        ("to fit 86–91 cm (34–36 in)", 3, ["86,91cm = 34,36in"]),
        ("leave a 20 cm (8 in) tail", 3, ["20cm = 8in"]),
        ("about 345 yd (316 m)", 1, ["345yd = 316m"]),
        ("100 g / 3.5 oz", 1, ["100g = 3.5oz"]),
        ("200 m / 100 g", 1, []),
        ("Work 2 in patt / 5 cm", 1, []),
        ("4 in of rib, then 10 cm of lace", 1, []),
        ("K2 (3, 4) in / 5 (8, 10) cm", 3, []),
        ("5 (–, 6) cm / 2 (–, 2½) in", 3, ["5,-,6cm = 2,-,2.5in"]),
    ],
)
def test_pairs_of_a_text(text: str, sizes: int, pairs: list[str]) -> None:
    assert said(text, sizes) == pairs


def test_a_pair_knows_its_place() -> None:
    text = Text.plain("rib for 4 cm / 1½ in, then")
    (pair,) = pairs_in(text, 1)
    assert text.value[pair.span.start : pair.span.end] == "4 cm / 1½ in"


PUBLISHED_RIGHT = [  # inches, centimetres, source
    ("28", "71", "Y"), ("34", "86.5", "Y"), ("36", "91.5", "Y"), ("38", "96.5", "Y"), ("40", "101.5", "Y"),
    ("42", "106.5", "Y"), ("44", "112", "Y"), ("62", "157.5", "Y"), ("26.5", "67.5", "Y"), ("32.5", "82.5", "R"),
    ("52.5", "133.5", "R"), ("20.25", "51.5", "S"), ("9.25", "23.5", "S"), ("54", "137", "D"), ("58", "147", "D"),
    ("8", "20", ""), ("2", "5", ""), ("1", "2.5", ""), ("6", "15", ""), ("12", "30", ""),
    # a length of 7.6 in rounds to both
    ("7.5", "19.5", ""),
]  # fmt: skip
PUBLISHED_WRONG = [
    ("58", "142.5", "Y, finished bust of a leaflet of 2020"), ("65", "168", "Y, the same leaflet"),
    ("50", "137", "Y, to-fit chest; 54 was meant"), ("29.875", "79.9", "P, back length"),
    ("48", "112", "P, bust; the sister sheet prints 122"), ("42", "102", "P, waist; the sister sheet prints 107"),
    ("29.25", "74.9", "P, back length"), ("10.25", "24", "M, underarm to hem"),
]  # fmt: skip


@pytest.mark.parametrize(("inches", "cm", "source"), PUBLISHED_RIGHT)
def test_published_pairs_that_are_right(inches: str, cm: str, source: str) -> None:
    assert same_amount(Fraction(inches), "in", Fraction(cm), "cm", INCH), source


@pytest.mark.parametrize(("inches", "cm", "source"), PUBLISHED_WRONG)
def test_published_pairs_that_are_wrong(inches: str, cm: str, source: str) -> None:
    for inch in (INCH, TRADE_INCH):
        assert not same_amount(Fraction(inches), "in", Fraction(cm), "cm", inch), source


@pytest.mark.parametrize("inch", [INCH, TRADE_INCH])
@pytest.mark.parametrize("quarters", [*range(2, 40, 3), *range(40, 260, 7)])
def test_a_slip_of_a_centimetre_or_half_an_inch_is_never_one_length(inch: Fraction, quarters: int) -> None:
    length = Fraction(quarters, 4)
    cm = converted(length, "in", "cm", inch)
    assert same_amount(length, "in", cm, "cm", inch)
    for slip in (-1, 1):
        assert not same_amount(length, "in", cm + slip, "cm", inch)
        assert not same_amount(length + Fraction(slip, 2), "in", cm, "cm", inch)


@pytest.mark.parametrize(
    ("first", "unit", "second", "other", "right"),
    [
        (345, "yd", 316, "m", True),  # common practice, no source
        (345, "yd", 317, "m", False),
        (200, "m", 219, "yd", True),
        (200, "m", 218, "yd", True),
        (200, "m", 220, "yd", True),  # to the five, upwards
        (180, "yd", 165, "m", True),
        (180, "yd", 200, "m", False),
        (100, "g", "3.5", "oz", True),  # 99.2 g: the trade's pair
        (50, "g", "1.75", "oz", True),
        (50, "g", "2.5", "oz", False),
    ],
)
def test_yarn(first: int, unit: str, second: int | str, other: str, right: bool) -> None:
    assert same_amount(Fraction(first), unit, Fraction(second), other, INCH) is right
    assert same_amount(Fraction(second), other, Fraction(first), unit, TRADE_INCH) is right


@pytest.mark.parametrize(
    ("value", "unit", "into", "inch", "shown"),
    [
        ("16.5", "in", "cm", INCH, "42 cm"),  # common practice, no source: the tube of 75 sts
        ("8.25", "in", "cm", INCH, "21 cm"),
        ("27.25", "in", "cm", INCH, "69 cm"),
        ("16", "in", "cm", INCH, "40.5 cm"),
        ("60", "in", "cm", INCH, "152.5 cm"),
        ("60", "in", "cm", TRADE_INCH, "150 cm"),
        ("14", "cm", "in", INCH, "5½ in"),
        ("345", "yd", "m", INCH, "316 m"),
    ],
)
def test_the_right_value_is_rounded_as_print_has_it(
    value: str, unit: str, into: str, inch: Fraction, shown: str
) -> None:
    assert say(converted(Fraction(value), unit, into, inch), into) == shown
