"""Numbers as the trade writes them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.numeral import Measure, Misfit, NumeralList, read_list, read_measure, read_numeral, read_unit


@pytest.mark.parametrize(
    ("text", "value", "length"),
    [
        ("12", Fraction(12), 2), ("1.5", Fraction(3, 2), 3), (".5", Fraction(1, 2), 2), ("1/2", Fraction(1, 2), 3),
        ("1 1/2", Fraction(3, 2), 5), ("1-1/2", Fraction(3, 2), 5), ("1½", Fraction(3, 2), 2), ("½", Fraction(1, 2), 1),
        ("8 ¼", Fraction(33, 4), 3), ("8\u00a01/4 in", Fraction(33, 4), 5), ("1⁄3", Fraction(1, 3), 3),
        ("12.", Fraction(12), 2), ("3 4", Fraction(3), 1), ("5 1/0", Fraction(5), 1), ("7/0", Fraction(7), 1),
    ],
)  # fmt: skip
def test_numeral(text: str, value: Fraction, length: int) -> None:
    found = read_numeral(text, 0)
    assert found is not None
    assert (found.value, found.end) == (value, length)


@pytest.mark.parametrize("text", ["", "k2", "-4", "(12)", "–"])
def test_no_numeral(text: str) -> None:
    assert read_numeral(text, 0) is None


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        (" cm", "cm"), ("cm", "cm"), (" in patt", None), (" in next st", None), (" in / 5 cm", "in"), (" in.", "in"),
        ('"', '"'), ("″", "″"), ("''", "''"), (" M", None), (" m", "m"), (" metres", "metres"), (" minutes", None),
        (" in rib", None), (" in from edge", "in"),
    ],
)  # fmt: skip
def test_unit(text: str, unit: str | None) -> None:
    found = read_unit(text, 0)
    assert (found and found[0]) == unit


@pytest.mark.parametrize(
    ("text", "sizes", "values", "unit"),
    [
        ("84 (92, 100, 108)", 4, (84, 92, 100, 108), None),
        ("84 [92, 100, 108] sts", 4, (84, 92, 100, 108), None),
        ("4 (8, 12) (16, 20)", 5, (4, 8, 12, 16, 20), None),
        ("84 (92: 100: 108)", 4, (84, 92, 100, 108), None),
        ("84 (–, 100)", 3, (84, None, 100), None),
        ("– (92, 100)", 3, (None, 92, 100), None),
        ("48 (52, 56) cm", 3, (48, 52, 56), "cm"),
        ("48 cm (52 cm, 56 cm)", 3, (48, 52, 56), "cm"),
        ("12", 3, (12,), None),
        ("12 (k1, p1)", 3, (12,), None),
        ("40 cm (16 in)", 2, (40,), "cm"),
    ],
)
def test_list(text: str, sizes: int, values: tuple[int | None, ...], unit: str | None) -> None:
    found = read_list(text, 0, sizes)
    assert isinstance(found, NumeralList)
    assert found.values == tuple(None if value is None else Fraction(value) for value in values)
    assert found.unit == unit


def test_a_list_of_the_wrong_length_is_told() -> None:
    assert read_list("84 (92, 100)", 0, 4) == Misfit(3, 0, 12)
    assert read_list("84 (92, 100, 108)", 0, 3) == Misfit(4, 0, 17)


def test_the_same_length_twice() -> None:
    found = read_measure("13 (14, 15) cm / 5 (5½, 6) in", 0, 3)
    assert isinstance(found, Measure) and found.second is not None
    assert found.first.in_base() == (Fraction(130), Fraction(140), Fraction(150))
    assert found.second.in_base() == (Fraction(127), Fraction(1397, 10), Fraction(1524, 10))
    nested = read_measure("16 (16½) in [40.5 (42) cm] from", 0, 2)
    assert isinstance(nested, Measure) and nested.second is not None and nested.end == 26


def test_a_put_up_is_no_length_twice() -> None:
    found = read_measure("200 m / 100 g", 0, 1)
    assert isinstance(found, Measure)
    assert found.second is None and found.end == 5


@given(st.integers(0, 10**6), st.integers(0, 999), st.integers(1, 999))
def test_mixed_numbers_are_exact(whole: int, top: int, bottom: int) -> None:
    found = read_numeral(f"{whole} {top}/{bottom}", 0)
    assert found is not None and found.value == whole + Fraction(top, bottom)


@given(st.text(max_size=30), st.integers(1, 9))
def test_any_text_is_read_or_not(text: str, sizes: int) -> None:
    for at in range(len(text)):
        found = read_measure(text, at, sizes)
        assert found is None or at < found.end <= len(text)
