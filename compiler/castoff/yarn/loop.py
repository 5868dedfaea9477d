"""The length of one loop at a gauge: from plain-knit geometry, and from a weighed swatch.

In: gauges, swatches and put-ups, exact. Out: millimetres of yarn per loop, as floats: these are estimates.

Geometry: D. L. Munden, Journal of the Textile Institute 50, 1959: in a plain fabric, stitch density times the square of
the loop length is a constant, about 19 dry-relaxed, 21.6 wet-relaxed and 23.1 fully relaxed (the three values are from
memory). A washed swatch is wet-relaxed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from castoff.model.pattern import Pattern, StatedGauge, Swatch

DRY_RELAXED = 19.0
WET_RELAXED = 21.6
FULLY_RELAXED = 23.1

ROWS_PER_STITCH = Fraction(4, 3)
"""Rows to a stitch of width where a gauge gives no rows: common practice for plain fabrics."""


@dataclass(frozen=True, slots=True)
class LoopLength:
    """Millimetres of yarn in one loop at a gauge. by_swatch is None when no weighed swatch stands behind it."""

    by_geometry: float
    by_swatch: float | None


def density_per_mm2(gauge: StatedGauge) -> float:
    """Stitches to a square millimetre of fabric."""
    rows = gauge.stitches.value * ROWS_PER_STITCH if gauge.rows is None else gauge.rows.value
    over = gauge.over.value
    return float(gauge.stitches.value * rows / (over * over))


def by_geometry(gauge: StatedGauge, constant: float = WET_RELAXED) -> float:
    """Millimetres in one loop of a plain fabric at a gauge."""
    return sqrt(constant / density_per_mm2(gauge))


def _geometry(gauge: StatedGauge) -> float:
    """The loop of geometry times what the fabric takes more than a plain one."""
    factor = 1.0 if gauge.yarn_factor is None else float(gauge.yarn_factor.value)
    return by_geometry(gauge) * factor


def by_swatch(gauge: StatedGauge, swatch: Swatch, mm_per_gram: float) -> float:
    """Millimetres in one loop, from a swatch's size and mass and what a gram of its yarn measures."""
    loops = density_per_mm2(gauge) * float(swatch.width.value * swatch.height.value)
    return float(swatch.mass.value) * mm_per_gram / loops


def loop_lengths(pattern: Pattern) -> dict[str, LoopLength]:
    """The loop length at every gauge of a pattern.

    One weighed swatch serves every gauge: another fabric's loop is taken to differ from the swatch's as geometry says
    it does. The swatch is read with the put-up of the pattern's first yarn that states one. A gauge's `yarn_factor`
    lengthens the plain loop of geometry; a swatch of that very fabric has its yarn in its mass already.
    """
    ball = next((yarn.ball for yarn in pattern.yarns if yarn.ball is not None), None)
    weighed: tuple[StatedGauge, float] | None = None
    own: dict[str, float] = {}
    if ball is not None:
        mm_per_gram = float(ball.length.value / ball.mass.value)
        for swatch in pattern.swatches:
            gauge = pattern.gauge(swatch.key.value)
            if gauge is not None:
                own[gauge.key.value] = by_swatch(gauge, swatch, mm_per_gram)
                weighed = weighed or (gauge, own[gauge.key.value])
    lengths: dict[str, LoopLength] = {}
    for gauge in pattern.gauges:
        plain = _geometry(gauge)
        measured = own.get(gauge.key.value)
        if measured is None and weighed is not None:
            measured = weighed[1] * plain / _geometry(weighed[0])
        lengths[gauge.key.value] = LoopLength(plain, measured)
    return lengths
