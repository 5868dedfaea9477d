"""Outlines: the shape of a piece as closed lines to draw, and the lines that its widths are measured along.

In: a `PieceShape`. Out: points in millimetres of fabric, y upwards, the middle of the piece at x = 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from castoff.document.shape import Band, PieceShape

_STEP = Fraction(1, 12)
"""A change of width in one row beyond this share of it is drawn as a step, below it as a slope."""

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
    """A closed outline of some bands. hold: "middle" keeps them centred, "left" or "right" keeps that edge upright."""
    levels: list[tuple[Fraction, Fraction]] = []
    height = base
    for band in bands:
        width = band.width * flat
        # stitches bound off or cast on at once make a step; in the round a change is spread about and slopes
        before = levels[-1][1] if levels else width
        if not levels or (not band.round and abs(before - width) > width * _STEP):
            levels.append((height, width))
        height += band.height
        levels.append((height, width))

    def edges(width: Fraction) -> tuple[Fraction, Fraction]:
        if hold == "left":
            return -half, -half + width
        if hold == "right":
            return half - width, half
        return -width / 2, width / 2

    lower = [(edges(width)[0], y) for y, width in levels]
    upper = [(edges(width)[1], y) for y, width in reversed(levels)]
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
    spans = [(min(x for x, at in outline if at == y), max(x for x, at in outline if at == y), y) for y in heights]
    if name.endswith("bottom"):
        return spans[0]
    if name.endswith("top"):
        return spans[-1]
    return max(spans, key=lambda span: span[1] - span[0])
