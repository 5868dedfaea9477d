"""Outlines: the shape of a piece as closed lines to draw, and the lines that its widths are measured along.

In: a `PieceShape`. Out: points in millimetres of fabric, y upwards, the middle of the piece at x = 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from castoff.document.shape import Band, PieceShape

_STEP = Fraction(1, 12)
"""A change of width in one row beyond this share of it is drawn as a step, below it as a slope."""
_FEW_MM = Fraction(8)
"""A change of less than this is a slope, however narrow the piece: a stitch or two."""

Outline = list[tuple[Fraction, Fraction]]
"""Points of a closed outline, millimetres of fabric, y upwards."""


def outlines_of(shape: PieceShape, flat: Fraction) -> list[Outline]:
    """The main part about its own middle, and the parts above it at its edges."""
    outlines = [_stretch(shape.main, Fraction(0), flat, "middle", Fraction(0))] if shape.main else []
    top = sum((band.height for band in shape.main), Fraction(0))
    half = (shape.top or Fraction(0)) * flat / 2
    for index, bands in enumerate(shape.sides):
        if bands:
            outlines.append(_stretch(bands, top, flat, "left" if index % 2 == 0 else "right", half))
    return outlines


def _stretch(bands: Sequence[Band], base: Fraction, flat: Fraction, hold: str, half: Fraction) -> Outline:
    """A closed outline of some bands. hold: "middle" keeps them centred, "left" or "right" keeps that edge upright.

    Bands that know where their left edge lies are drawn there, the first about the middle.
    """
    first = bands[0].width * flat / 2

    def edges(band: Band) -> tuple[Fraction, Fraction]:
        width = band.width * flat
        if band.left is not None:
            return band.left * flat - first, band.left * flat - first + width
        if hold == "left":
            return -half, -half + width
        if hold == "right":
            return half - width, half
        return -width / 2, width / 2

    levels: list[tuple[Fraction, Fraction, Fraction]] = []
    height = base
    for band in bands:
        left, right = edges(band)
        _, was_left, was_right = levels[-1] if levels else (height, left, right)
        # stitches bound off or cast on at once make a step; in the round a change is spread about and slopes
        furthest = max(_FEW_MM, band.width * flat * _STEP / (2 if hold == "middle" else 1))
        steps = [not band.round and abs(now - was) > furthest for now, was in ((left, was_left), (right, was_right))]
        if not levels or any(steps):
            levels.append((height, left if steps[0] else was_left, right if steps[1] else was_right))
        height += band.height
        levels.append((height, left, right))
    lower = [(left, y) for y, left, _ in levels]
    upper = [(right, y) for y, _, right in reversed(levels)]
    return _thinned([*lower, *upper])


def _thinned(points: Outline) -> Outline:
    """Points without those that lie on the line between their neighbours."""
    kept: Outline = []
    for index, point in enumerate(points):
        before, after = points[index - 1], points[(index + 1) % len(points)]
        cross = (point[0] - before[0]) * (after[1] - before[1]) - (point[1] - before[1]) * (after[0] - before[0])
        if cross != 0 and point != before:
            kept.append(point)
    return kept


def across(outline: Outline, name: str) -> tuple[Fraction, Fraction, Fraction]:
    """Left and right end and height of the line that a width is measured along."""
    heights = sorted({y for _, y in outline})
    spans = []
    for height in heights:
        crossed = [x for x, y in outline if y == height]
        for (x, y), (next_x, next_y) in zip(outline, [*outline[1:], outline[0]], strict=True):
            if min(y, next_y) < height < max(y, next_y):
                crossed.append(x + (next_x - x) * (height - y) / (next_y - y))
        spans.append((min(crossed), max(crossed), height))
    if name.endswith("bottom"):
        return spans[0]
    if name.endswith("top"):
        return spans[-1]
    return max(spans, key=lambda span: span[1] - span[0])
