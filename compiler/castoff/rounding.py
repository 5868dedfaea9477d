"""The one place where numbers are rounded.

In: exact `Fraction`s. Out: rounded ones, with whether they fell on a tie. Counts go to the nearest, or up, or down, to
a multiple plus edge stitches, even or odd; printed measures go by the house's step for their kind.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from castoff.units import INCH_MM

Way = Literal["nearest", "up", "down"]
Parity = Literal["even", "odd"]
MeasureKind = Literal["schematic", "long", "band", "yarn", "mass", "circular"]


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


_METRIC: dict[MeasureKind, tuple[Fraction, Fraction, Way]] = {
    # kind: unit in mm or g, step in that unit, way
    # half centimetres: garment specifications and leaflets of three publishers use nothing finer
    "schematic": (Fraction(10), Fraction(1, 2), "nearest"),
    "long": (Fraction(10), Fraction(1), "nearest"),  # common practice
    "band": (Fraction(10), Fraction(1, 2), "nearest"),
    "yarn": (Fraction(1000), Fraction(1), "up"),  # whole metres up: common practice
    "mass": (Fraction(1), Fraction(1), "up"),
    "circular": (Fraction(10), Fraction(1), "nearest"),
}
_IMPERIAL: dict[MeasureKind, tuple[Fraction, Fraction, Way]] = {
    # quarter inches: one publisher's schematics throughout; halves for long lengths, eighths for bands: common practice
    "schematic": (INCH_MM, Fraction(1, 4), "nearest"),
    "long": (INCH_MM, Fraction(1, 2), "nearest"),
    "band": (INCH_MM, Fraction(1, 8), "nearest"),
    "yarn": (36 * INCH_MM, Fraction(1), "up"),
    "mass": (Fraction(45359237, 1600000), Fraction(1, 4), "up"),
    "circular": (INCH_MM, Fraction(1), "nearest"),
}


def metric(value: Fraction, kind: MeasureKind = "schematic") -> Fraction:
    """Millimetres as the centimetres printed (metres for yarn), grams as the grams printed."""
    unit, step, way = _METRIC[kind]
    return to_step(value / unit, step, way).value


def imperial(value: Fraction, kind: MeasureKind = "schematic") -> Fraction:
    """Millimetres as the inches printed (yards for yarn), grams as the ounces printed."""
    unit, step, way = _IMPERIAL[kind]
    return to_step(value / unit, step, way).value
