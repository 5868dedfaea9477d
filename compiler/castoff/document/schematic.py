"""The schematic: every piece as it was knitted, drawn in proportion, with its measures of every size.

In: the job, whose knitting knows the outline of each piece. Out: a figure a piece with lettered arrows, and a list of
what the letters measure. Pieces are drawn flat as they come off the needles, tubes laid flat, in the size that is
printed (of several, the first; the caption tells which). A reader who cannot see the drawing gets it in words, from
the same numbers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from castoff.document.job import Job
from castoff.document.measures import Sized, finished_measures
from castoff.document.shape import Band, PieceShape, course_of, is_tube, shape_of
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
from castoff.document.wording import Values, measure
from castoff.knitting.fabric import PieceKnitted

WIDTH_MM, HEIGHT_MM, MARGIN_MM = 84.0, 78.0, 13.0
"""Room for a piece, and for the arrows around it."""
_STEP = Fraction(1, 12)
"""A change of width in one row beyond this share of it is drawn as a step, below it as a slope."""
_OF = re.compile(r"(?P<kind>width|length|circumference) of (?P<rest>.*)")
_LETTERS = "ABCDEFGH"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measure of a piece: what it is, and how much in every size (None where the piece has none)."""

    name: str
    sized: Sized

    @property
    def values(self) -> Values:
        """Millimetres in every size."""
        return self.sized.values


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
    if piece is None or not any(band.width for band in shape_of(piece).main):
        return ()
    dimensions = _dimensions(job, pieces)
    facts: list[Fact] = []
    says: list[str] = []
    for letter, dimension in zip(_LETTERS, dimensions, strict=False):
        label = job.say("schematic", dimension.name)
        sized = dimension.sized
        value = measure(sized.values, sized.unit, job.setting, twin=sized.twin, twin_unit=sized.twin_unit)
        facts.append(Fact((Text(letter),), ((Text(f"{label}: "), *value),)))
        says.append(f"{label}: {plain_text(value)}")
    tube = is_tube(piece)
    size = job.setting.sizes[drawn]
    alt = job.say("schematic", "alt", piece=name, tube=tube, shape=course_of(piece), size=size)
    words = (Paragraph((Text(alt),)), *(Paragraph((Text(each),)) for each in says))
    drawing = _draw(piece, dimensions, words, tube)
    several = len(job.setting.shows) > 1
    caption = job.say("schematic", "caption", piece=name, make=piece.make, size=size, several=several)
    return (
        Figure(drawing, alt, (Text(caption),), key=f"schematic-{number}"),
        FactList(tuple(facts), "facts", f"schematic-{number}-measures"),
    )


def _dimensions(job: Job, pieces: Sequence[PieceKnitted | None]) -> tuple[Dimension, ...]:
    """Measures of a piece that differ in some printed size: lower edge, widest, upper edge, length, depth of a neck."""
    shapes = [None if piece is None else shape_of(piece) for piece in pieces]
    kind = "around" if any(piece is not None and is_tube(piece) for piece in pieces) else "width"
    bottom = _dimension(f"{kind}_bottom", [None if shape is None else shape.bottom for shape in shapes])
    widest = _dimension(f"{kind}_widest", [None if shape is None else shape.widest for shape in shapes])
    top = _dimension(f"{kind}_top", [None if shape is None else shape.top for shape in shapes])
    length = _dimension("length", [None if piece is None else piece.length_mm for piece in pieces])
    depth = _dimension("depth", [None if shape is None else shape.depth for shape in shapes])
    shown = [job.setting.pick(each.values) for each in (bottom, widest, top)]
    divided = any(value for value in job.setting.pick(depth.values))
    found = [bottom]
    if shown[1] not in (shown[0], shown[2]) or (divided and shown[1] != shown[0]):
        found.append(widest)
    if shown[2] != shown[0] and not divided and not _closed(job, shapes):
        found.append(top)
    found.append(length)
    if divided:
        found.append(depth)
    name = next((piece.name for piece in pieces if piece is not None), "")
    return tuple(_as_declared(job, name, found))


def _dimension(name: str, values: Sequence[Fraction | None]) -> Dimension:
    return Dimension(name, Sized(name, "", tuple(values)))


def _as_declared(job: Job, piece: str, found: Sequence[Dimension]) -> Iterator[Dimension]:
    """Dimensions under the numbers that the author declares for them, so that a page never says two things of one edge.

    A declared measure `of: width of Back …` stands for the dimension of that kind that it is nearest to, within a
    centimetre and a half in every size; the check of measurements holds the two against each other.
    """
    declared: dict[str, Sized] = {}
    sized = {each.key: each for each in finished_measures(job)}
    for measurement in job.pattern.measurements:
        said = measurement.of.value.casefold() if measurement.of is not None else ""
        match = _OF.match(said)
        measured = sized.get(measurement.key.value)
        if match is None or measured is None or not match["rest"].startswith(piece.casefold()):
            continue
        long = match["kind"] == "length"
        alike = [each for each in found if (each.name == "length") == long and each.name != "depth"]
        near = [(gap, each.name) for each in alike if (gap := _gap(each.values, measured.values)) is not None]
        if near and min(near)[0] <= 15:
            declared.setdefault(min(near)[1], measured)
    for each in found:
        yield Dimension(each.name, declared.get(each.name, each.sized))


def _gap(some: Values, others: Values) -> Fraction | None:
    """The greatest difference between two measures over the sizes that have both; None when no size does."""
    both = [abs(one - other) for one, other in zip(some, others, strict=True) if one is not None and other is not None]
    return max(both, default=None)


def _closed(job: Job, shapes: Sequence[PieceShape | None]) -> bool:
    """Whether a piece runs to a point: a crown or a toe, whose last width is of no use to anybody."""
    return all(
        shape is None or shape.top is None or shape.widest is None or shape.top * 5 <= shape.widest
        for shape in job.setting.pick(tuple(shapes))
    )


# ── the drawing ───────────────────────────────────────────────────────────────────────────────────


def _draw(piece: PieceKnitted, dimensions: Sequence[Dimension], words: Blocks, tube: bool) -> Drawing:
    flat = Fraction(1, 2) if tube else Fraction(1)
    outlines = _outlines(shape_of(piece), flat)
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
            middle = round((MARGIN_MM + bottom) / 2 + 1.2, 2)
            shapes.append(Label(round(x + 2.2, 2), middle, letter, 3.6, "start", strong=True))
            continue
        if dimension.name == "depth":
            x = MARGIN_MM - 5
            low = place((left, max(y for _, y in outlines[0])))[1]
            shapes.append(_arrow((x, MARGIN_MM), (x, low)))
            shapes.append(Label(x - 2.2, round((MARGIN_MM + low) / 2 + 1.2, 2), letter, 3.6, "end", strong=True))
            continue
        start, end, height = _across(outlines[0], dimension.name)
        (first, y), (last, _) = place((start, height)), place((end, height))
        if dimension.name.endswith("bottom"):
            y += 5
        elif dimension.name.endswith("top"):
            y = MARGIN_MM - 5 if len(outlines) == 1 else y - 3
        shapes.append(_arrow((first, y), (last, y)))
        below = 4.4 if dimension.name.endswith("bottom") else -1.6
        shapes.append(Label(round((first + last) / 2, 2), round(y + below, 2), letter, 3.6, strong=True))
    return Drawing(round(right + MARGIN_MM, 2), round(bottom + MARGIN_MM, 2), tuple(shapes), words)


def _arrow(start: tuple[float, float], end: tuple[float, float]) -> Polyline:
    rounded = tuple((round(x, 2), round(y, 2)) for x, y in (start, end))
    return Polyline(rounded, width_mm=0.25, ink="accent", arrows="both")


Outline = list[tuple[Fraction, Fraction]]
"""Points of a closed outline, millimetres of fabric, y upwards."""


def _outlines(shape: PieceShape, flat: Fraction) -> list[Outline]:
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


def _across(outline: Outline, name: str) -> tuple[Fraction, Fraction, Fraction]:
    """Left and right end and height of the line that a width is measured along."""
    heights = sorted({y for _, y in outline})
    spans = [(min(x for x, at in outline if at == y), max(x for x, at in outline if at == y), y) for y in heights]
    if name.endswith("bottom"):
        return spans[0]
    if name.endswith("top"):
        return spans[-1]
    return max(spans, key=lambda span: span[1] - span[0])
