"""Yarn from loops: how long the loops are that were counted.

In: loops per yarn, gauge and stitch. Out: millimetres per yarn. The length of one loop comes from a swatch's mass and
put-up, or from plain-knit geometry (D. L. Munden, Journal of the Textile Institute 50, 1959: stitch density times the
square of the loop length is constant; about 19 dry-relaxed, 21.6 wet-relaxed, 23.1 fully relaxed: from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import sqrt

from castoff.knitting.plan import GaugeFact

MUNDEN = 21.6
"""Constant of a wet-relaxed plain fabric (from memory, after Munden 1959)."""

LOOPS_OF_A_STITCH = {"sl": 0.0, "drop": 0.0, "cast on": 1.0, "bind off": 1.0, "pick up": 1.0}
"""Yarn of a stitch in loops, where it is not one loop for each stitch that it makes (common practice)."""


def rows_of(gauge: GaugeFact) -> Fraction:
    """Rows over the gauge's length; where it gives none, four for every three stitches (common practice)."""
    return gauge.stitches * Fraction(4, 3) if gauge.rows is None else gauge.rows


def loop_length_mm(gauge: GaugeFact, constant: float = MUNDEN) -> float:
    """Millimetres of yarn in one plain loop at a gauge."""
    over = float(gauge.over_mm)
    density = float(gauge.stitches) * float(rows_of(gauge)) / (over * over)
    return sqrt(constant / density)


def swatch_loop_length_mm(gauge: GaugeFact, width_mm: float, height_mm: float, mass_g: float, mm_per_g: float) -> float:
    """Millimetres of yarn in one loop, from a swatch's size and mass and the put-up's length per mass."""
    over = float(gauge.over_mm)
    loops = float(gauge.stitches) * width_mm / over * float(rows_of(gauge)) * height_mm / over
    return mass_g * mm_per_g / loops


def yarn_lengths_mm(
    loops: Mapping[tuple[str, str | None, str], int], loop_length: Mapping[str | None, float]
) -> dict[str, float]:
    """Millimetres of each yarn in the fabric, tails and margin not counted.

    loops: as `SizeKnitted.loops`; a yarn of "A+B" was held double. loop_length: millimetres by gauge key.
    """
    lengths: dict[str, float] = {}
    for (yarn, gauge, stitch), count in loops.items():
        each = loop_length.get(gauge, 0.0) * LOOPS_OF_A_STITCH.get(stitch.split()[0] if stitch else "", 1.0)
        if stitch in LOOPS_OF_A_STITCH:
            each = loop_length.get(gauge, 0.0) * LOOPS_OF_A_STITCH[stitch]
        for strand in yarn.split("+"):
            lengths[strand] = lengths.get(strand, 0.0) + each * count
    return lengths
