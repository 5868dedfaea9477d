"""The one place where numbers are rounded.

In: exact `Fraction`s. Out: rounded ones, with whether they fell on a tie. Counts go to the nearest, or up, or down, to
a multiple plus edge stitches, even or odd; printed measures go by the house's step for their kind.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from castoff.numeral import UNITS

Way = Literal["nearest", "up", "down"]
Parity = Literal["even", "odd"]
MeasureKind = Literal["length", "fine", "needle", "yarn", "put-up", "mass"]
"""What a measure is of; it decides how it is rounded for print. fine: small things, typed in millimetres."""


@dataclass(frozen=True, slots=True)
class Rounded:
    """A rounded number. tie: it lay exactly between two, and went up."""

    value: Fraction
    tie: bool = False


def to_step(value: Fraction, step: Fraction, way: Way = "nearest", offset: Fraction = Fraction(0)) -> Rounded:
    """The number of the form `offset + n · step` that a value rounds to.

    Between two that are equally near, nearest takes the larger and says so. Raises ValueError for a step that is not
    above zero.
    """
    if step <= 0:
        raise ValueError(f"a step has to be above zero, not {step}")
    steps = (value - offset) / step
    if way == "up":
        return Rounded(offset + ceil(steps) * step)
    if way == "down":
        return Rounded(offset + floor(steps) * step)
    whole = floor(steps)
    rest = steps - whole
    half = Fraction(1, 2)
    return Rounded(offset + (whole + (1 if rest >= half else 0)) * step, rest == half)


def to_count(
    value: Fraction, way: Way = "nearest", multiple: int = 1, plus: int = 0, parity: Parity | None = None
) -> Rounded | None:
    """The whole count that fits a repeat: a multiple, plus edge stitches, even or odd if asked.

    None when no count can be both, such as an odd multiple of 4. A value that rounds below zero is not mended here.
    """
    step, offset = multiple, plus
    if parity is not None:
        wanted = 0 if parity == "even" else 1
        if multiple % 2 == 0:
            if plus % 2 != wanted:
                return None
        else:
            step = 2 * multiple
            offset = plus if plus % 2 == wanted else plus + multiple
    return to_step(value, Fraction(step), way, Fraction(offset))


_UP: Way = "up"
_NEAREST: Way = "nearest"
_LONG = {"m": (Fraction(1), _UP), "yd": (Fraction(1), _UP)}
"""Whole metres and yards, rounded up: common practice."""
_WEIGHED = {
    "g": (Fraction(1), _NEAREST), "kg": (Fraction(1, 10), _NEAREST),
    "oz": (Fraction(1, 4), _NEAREST), "lb": (Fraction(1, 10), _NEAREST),
}  # fmt: skip
STEPS: dict[MeasureKind, dict[str, tuple[Fraction, Way]]] = {
    # unit to its step and way, for each kind of measure.
    # half centimetres: garment specifications and leaflets of three publishers use nothing finer; quarter inches: one
    # publisher's schematics throughout
    "length": {"cm": (Fraction(1, 2), _NEAREST), "in": (Fraction(1, 4), _NEAREST), **_LONG},
    # a button or a gap, typed in millimetres, becomes inches in eighths: common practice
    "fine": {"in": (Fraction(1, 8), _NEAREST)},
    "needle": {"cm": (Fraction(1), _NEAREST), "in": (Fraction(1), _NEAREST), **_LONG},
    "yarn": _LONG,
    # a ball's label is no amount to buy: it is rounded to the nearest, where a need is rounded up
    "put-up": {"m": (Fraction(1), _NEAREST), "yd": (Fraction(1), _NEAREST), **_WEIGHED},
    "mass": _WEIGHED,
}
"""The house's steps for measures that are printed: the only table of them."""


def printed(value: Fraction, unit: str, kind: MeasureKind = "length") -> Fraction:
    """Millimetres or grams as the number that is printed in a unit, on the house's step for its kind.

    A unit that the house has no step for gets tenths. A value that is not nothing never becomes nothing.
    """
    exact = value / UNITS[unit][2]
    step, way = STEPS[kind].get(unit, (Fraction(1, 10), _NEAREST))
    found = to_step(exact, step, way).value
    return found if found or value <= 0 else to_step(exact, Fraction(1, 8)).value or Fraction(1, 8)
