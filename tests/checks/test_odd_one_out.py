"""When one size stands out against exact others."""

from __future__ import annotations

from fractions import Fraction

import pytest

from castoff.checks.odd_one_out import odd_sizes

ROW = Fraction(25, 10)


@pytest.mark.parametrize(
    ("off", "odd"),
    [
        ([0, 0, "2.5", 0], (2,)),
        ([0, "-2.5", 0], (1,)),
        # nothing is off
        ([0, 0, 0, 0], ()),
        # rounding spreads the sizes: nobody is exact, nobody is told
        (["1.2", "-0.9", "2.4", "0.4"], ()),
        # two sizes that changed places, and two that did not
        ([0, "2.5", "-2.5", 0, 0], (1, 2)),
        (["2.5", "-2.5", 0, 0], (0, 1)),
        (["2.5", 0, "-2.5", 0], ()),
        (["2.5", "2.5", 0, 0], ()),
        # one witness is none
        ([0, "2.5"], ()),
        ([0, None, "2.5", 0], (2,)),
    ],
)
def test_odd_sizes(off: list[int | str | None], odd: tuple[int, ...]) -> None:
    assert odd_sizes([None if value is None else Fraction(value) for value in off], ROW) == odd
