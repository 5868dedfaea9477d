"""Shapes of drawings: lines, circles and words, until a renderer draws them.

In: nothing, these are values. Out: `Shape` and its kinds. Millimetres, x to the right, y down, the origin at the top left
corner.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Ink = str
"""A colour by its part in the drawing ("ink", "accent", "pale", "paper"), which the style decides, or
"#rrggbb"."""


@dataclass(frozen=True, slots=True)
class Polyline:
    """A line through points in mm; `closed` makes it a polygon, `fill` paints it.

    width_mm: of the stroke; 0 draws none. dashes: lengths of dash and gap in mm, empty for a full line.
    arrows: heads at the first point, the last, both or none.
    """

    points: tuple[tuple[float, float], ...]
    closed: bool = False
    width_mm: float = 0.3
    ink: Ink = "ink"
    fill: Ink | None = None
    dashes: tuple[float, ...] = ()
    arrows: Literal["none", "start", "end", "both"] = "none"


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle around (x, y), in mm."""

    x: float
    y: float
    radius: float
    width_mm: float = 0.3
    ink: Ink = "ink"
    fill: Ink | None = None


@dataclass(frozen=True, slots=True)
class Label:
    """Words in a drawing, in mm.

    (x, y): on the base line, at the `anchor` of the words. size_mm: height of the type (1 pt = 0.353 mm).
    angle: degrees, counter-clockwise. strong: bold.
    """

    x: float
    y: float
    text: str
    size_mm: float = 3.2
    anchor: Literal["start", "middle", "end"] = "middle"
    angle: float = 0.0
    ink: Ink = "ink"
    strong: bool = False


Shape: TypeAlias = Polyline | Circle | Label
