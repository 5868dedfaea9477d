"""The schematic: every piece as it was knitted, drawn in proportion, with its measures of every size.

In: the job, whose knitting knows the outline of each piece. Out: a figure a piece with lettered arrows, and a list of
what the letters measure. Pieces are drawn flat as they come off the needles, tubes laid flat, in the size that is
printed (of several, the first; the caption tells which). A reader who cannot see the drawing gets it in words, from
the same numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from castoff.document.job import Job
from castoff.document.tree import (
    Block,
    Blocks,
    Drawing,
    Fact,
    FactList,
    Figure,
    Heading,
    Label,
    Paragraph,
    Polyline,
    Shape,
    Text,
    plain_text,
)
from castoff.document.wording import measure
from castoff.knitting.fabric import OutlineStep, PieceKnitted

WIDTH_MM, HEIGHT_MM, MARGIN_MM = 84.0, 78.0, 13.0
"""Room for a piece, and for the arrows around it."""
_STEP = Fraction(1, 12)
"""A change of width in one row beyond this share of it is drawn as a step, below it as a slope."""
_LETTERS = "ABCDEFGH"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measure of a piece: what it is, and its value in every size (None where the piece has none)."""

    name: str
    values: tuple[Fraction | None, ...]


def schematic(job: Job) -> Blocks:
    """The heading with a figure for each piece; nothing when no piece has both a width and a length."""
    blocks: list[Block] = []
    for number, name in enumerate(job.pattern.pieces, 1):
        blocks.extend(_piece(job, number, name))
    return (Heading(2, (Text(job.say("headings", "schematic")),), "schematic"), *blocks) if blocks else ()


def _piece(job: Job, number: int, name: str) -> Blocks:
    pieces = [size.pieces.get(name) for size in job.knitted.sizes]
    drawn = job.setting.shows[0]
    piece = pieces[drawn]
    if piece is None or not _drawable(piece):
        return ()
    dimensions = _dimensions(job, pieces)
    facts: list[Fact] = []
    says: list[str] = []
    for letter, dimension in zip(_LETTERS, dimensions, strict=False):
        label = job.say("schematic", dimension.name)
        value = measure(dimension.values, "", job.setting)
        facts.append(Fact((Text(letter),), ((Text(f"{label}: "), *value),)))
        says.append(f"{label}: {plain_text(value)}")
    tube = _tube(piece)
    size = job.setting.sizes[drawn]
    alt = job.say("schematic", "alt", piece=name, tube=tube, shape=_shape_word(piece), size=size)
    words = (Paragraph((Text(alt),)), *(Paragraph((Text(each),)) for each in says))
    drawing = _draw(piece, dimensions, words, tube)
    several = len(job.setting.shows) > 1
    caption = job.say("schematic", "caption", piece=name, make=piece.make, size=size, several=several)
    return (
        Figure(drawing, alt, (Text(caption),), key=f"schematic-{number}"),
        FactList(tuple(facts), "facts", f"schematic-{number}-measures"),
    )


def _drawable(piece: PieceKnitted) -> bool:
    return any(step.width_mm and step.height_mm for step in piece.outline)


def _tube(piece: PieceKnitted) -> bool:
    """Whether most of the piece was worked in the round."""
    total = sum(step.height_mm for step in piece.outline)
    return sum(step.height_mm for step in piece.outline if step.form == "round") * 2 > total


def _shape_word(piece: PieceKnitted) -> str:
    """"even", "wider" or "narrower" towards the top, or "shaped" when it is both."""
    widths = [step.width_mm for step in piece.outline if step.width_mm is not None]
    rises = any(after > before for before, after in pairwise(widths))
    falls = any(after < before for before, after in pairwise(widths))
    return "shaped" if rises and falls else "wider" if rises else "narrower" if falls else "even"


def _dimensions(job: Job, pieces: Sequence[PieceKnitted | None]) -> tuple[Dimension, ...]:
    """Measures of a piece that differ from each other in some printed size: lower edge, widest, upper edge, length."""
    around = any(piece is not None and _tube(piece) for piece in pieces)
    kind = "around" if around else "width"
    bottom = Dimension(f"{kind}_bottom", tuple(_edge(piece, 0) for piece in pieces))
    widest = Dimension(f"{kind}_widest", tuple(None if piece is None else piece.widest() for piece in pieces))
    top = Dimension(f"{kind}_top", tuple(_edge(piece, -1) for piece in pieces))
    length = Dimension("length", tuple(None if piece is None else piece.length_mm for piece in pieces))
    found = [bottom]
    shown = [job.setting.pick(each.values) for each in (bottom, widest, top)]
    if shown[1] not in (shown[0], shown[2]):
        found.append(widest)
    if shown[2] != shown[0]:
        found.append(top)
    return (*found, length)


def _edge(piece: PieceKnitted | None, index: int) -> Fraction | None:
    """Width of the first or the last rows of a piece's main part."""
    if piece is None:
        return None
    steps = [step for step in piece.outline if step.width_mm is not None and step.part == piece.outline[0].part]
    return steps[index].width_mm if steps else None


# ── the drawing ───────────────────────────────────────────────────────────────────────────────────


def _draw(piece: PieceKnitted, dimensions: Sequence[Dimension], words: Blocks, tube: bool) -> Drawing:
    flat = Fraction(1, 2) if tube else Fraction(1)
    outlines = _outlines(piece.outline, flat)
    points = [point for outline in outlines for point in outline]
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    high = max(y for _, y in points)
    scale = min(WIDTH_MM / float(wide), HEIGHT_MM / float(high))
    left, bottom = min(x for x, _ in points), MARGIN_MM + float(high) * scale

    def place(point: tuple[Fraction, Fraction]) -> tuple[float, float]:
        return round(MARGIN_MM + float(point[0] - left) * scale, 2), round(bottom - float(point[1]) * scale, 2)

    shapes: list[Shape] = [
        Polyline(tuple(place(point) for point in outline), closed=True, width_mm=0.5, fill="pale")
        for outline in outlines
    ]
    right = MARGIN_MM + float(wide) * scale
    for letter, dimension in zip(_LETTERS, dimensions, strict=False):
        if dimension.name == "length":
            x = right + 5
            shapes.append(_arrow((x, MARGIN_MM), (x, bottom)))
            shapes.append(Label(x + 2.2, (MARGIN_MM + bottom) / 2 + 1.2, letter, 3.6, "start", strong=True))
            continue
        start, end, height = _across(outlines[0], dimension.name)
        (first, y), (last, _) = place((start, height)), place((end, height))
        if dimension.name.endswith("bottom"):
            y += 5
        elif dimension.name.endswith("top"):
            y = MARGIN_MM - 5 if len(outlines) == 1 else y - 3
        shapes.append(_arrow((first, y), (last, y)))
        below = 4.4 if dimension.name.endswith("bottom") else -1.6
        shapes.append(Label((first + last) / 2, y + below, letter, 3.6, strong=True))
    return Drawing(round(right + MARGIN_MM, 2), round(bottom + MARGIN_MM, 2), tuple(shapes), words)


def _arrow(start: tuple[float, float], end: tuple[float, float]) -> Polyline:
    rounded = tuple((round(x, 2), round(y, 2)) for x, y in (start, end))
    return Polyline(rounded, width_mm=0.25, ink="accent", arrows="both")


Outline = list[tuple[Fraction, Fraction]]
"""Points of a closed outline, millimetres of fabric, y upwards."""


def _outlines(steps: Sequence[OutlineStep], flat: Fraction) -> list[Outline]:
    """The main part about its own middle, and parts above it (two sides of a neck) at its edges."""
    parts = list(dict.fromkeys(step.part for step in steps))
    main = [step for step in steps if step.part == parts[0]]
    outlines = [_stretch(main, Fraction(0), flat, "middle", Fraction(0))]
    top = sum((step.height_mm for step in main), Fraction(0))
    half = (_widths(main)[-1] if _widths(main) else Fraction(0)) * flat / 2
    for index, part in enumerate(parts[1:]):
        own = [step for step in steps if step.part == part]
        if any(step.width_mm for step in own):
            side = "left" if index % 2 == 0 else "right"
            outlines.append(_stretch(own, top, flat, side, half))
    return outlines


def _widths(steps: Sequence[OutlineStep]) -> list[Fraction]:
    return [step.width_mm for step in steps if step.width_mm is not None]


def _stretch(steps: Sequence[OutlineStep], base: Fraction, flat: Fraction, hold: str, half: Fraction) -> Outline:
    """A closed outline of some rows. hold: "middle" keeps them centred, "left" or "right" keeps that edge upright."""
    levels: list[tuple[Fraction, Fraction]] = []
    height = base
    for step in steps:
        if step.width_mm is None:
            continue
        width = step.width_mm * flat
        if not levels or abs(levels[-1][1] - width) > max(levels[-1][1], width) * _STEP:
            levels.append((height, width))
        height += step.height_mm
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


def _across(outline: Outline, name: str) -> tuple[Fraction, Fraction, Fraction]:
    """Left and right end and height of the line that a width is measured along."""
    heights = sorted({y for _, y in outline})
    spans = [(min(x for x, at in outline if at == y), max(x for x, at in outline if at == y), y) for y in heights]
    if name.endswith("bottom"):
        return spans[0]
    if name.endswith("top"):
        return spans[-1]
    return max(spans, key=lambda span: span[1] - span[0])
