"""The schematic: every piece as it was knitted, drawn in proportion, with its measures of every size.

In: the job, whose knitting knows the shape of each piece. Out: one figure with the pieces side by side at one scale and
lettered arrows, and a list of what the letters measure; pieces that share a measure share its letter. Pieces are drawn
flat as they come off the needles, tubes laid flat, in the size that is printed (of several, the first; the caption
tells which). A reader who cannot see the drawing gets it in words, from the same numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial
from typing import Literal

from castoff.document.dimensions import Dimension, dimensions_of
from castoff.document.job import Job
from castoff.document.outlines import Outline, across, outlines_of
from castoff.document.shape import PieceShape
from castoff.document.tree import (
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
)
from castoff.document.wording import joined, measure

WIDTH_MM = 152.0
"""Widest drawing, in millimetres; a narrower page sets it smaller."""
TALLEST_MM, BROADEST_MM = 54.0, 54.0
"""Room for the largest piece; the others follow at its scale."""
MARGIN_MM = 10.5
"""Room round a piece for arrows and letters."""
LETTER_MM = 1.6
"""Width of a letter of a piece's name, about."""
NAME_MM = 6.0
"""Room under a piece for its name."""
_SHARED_LENGTH_MM = 12
"""Lengths of equally wide pieces that are this near are one measure: a front differs from its back by a row."""
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Drawn:
    """A piece ready to be drawn: its outlines at half width for a tube, and its lettered dimensions.

    names: of all pieces that look like this one, in their order.
    """

    names: tuple[str, ...]
    shape: PieceShape
    outlines: tuple[Outline, ...]
    letters: tuple[tuple[str, Dimension], ...]

    @property
    def name(self) -> str:
        """What is written under it."""
        return joined(self.names)

    @property
    def left(self) -> Fraction:
        """Least x of the outlines."""
        return min(x for outline in self.outlines for x, _ in outline)

    @property
    def wide(self) -> Fraction:
        """Width, in millimetres of fabric."""
        return max(x for outline in self.outlines for x, _ in outline) - self.left

    @property
    def high(self) -> Fraction:
        """Height, in millimetres of fabric."""
        return max(y for outline in self.outlines for _, y in outline)


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter of the drawing: the measure it stands for, and the pieces that have it."""

    letter: str
    dimension: Dimension
    widest: tuple[Fraction | None, ...]
    pieces: tuple[str, ...]


def schematic(job: Job) -> Blocks:
    """The heading with the figure and its measures; nothing when no piece has both a width and a length."""
    drawn, letters = _pieces(job)
    if not drawn:
        return ()
    several = len(drawn) > 1
    facts = tuple(_fact(job, each, several) for each in letters)
    size = job.setting.sizes[job.setting.shows[0]]
    parts = [
        job.say("schematic", "piece", piece=each.name.lower(), tube=each.shape.tube, shape=each.shape.course)
        for each in drawn
    ]
    alt = job.say("schematic", "alt", pieces="; ".join(parts), size=size, several=several)
    sided = any(
        word in each.name.lower().split()
        for each in drawn
        if each.shape.centred and not each.shape.tube
        for word in ("left", "right")
    )
    caption = job.say(
        "schematic", "caption", size=size, several=len(job.setting.shows) > 1, sided=sided, pieces=len(drawn)
    )
    drawing = _draw(job, drawn, (Paragraph((Text(alt),)),))
    return (
        Heading(2, (Text(job.say("headings", "schematic")),), "schematic"),
        Figure(drawing, alt, (Text(caption),) if caption else (), key="schematic-drawing"),
        FactList(facts, "facts", "schematic-measures"),
    )


def _pieces(job: Job) -> tuple[tuple[Drawn, ...], tuple[Letter, ...]]:
    """The pieces that can be drawn, and the letters of their measures."""
    drawn: list[Drawn] = []
    letters: list[Letter] = []
    for name in job.pattern.pieces:
        shapes = job.shapes.get(name, (None,) * len(job.setting.sizes))
        shape = shapes[job.setting.shows[0]]
        if shape is None or not shape.drawable:
            continue
        widest = tuple(None if each is None else each.widest for each in shapes)
        room = len(_LETTERS) - len(letters)
        own = tuple((_letter(letters, each, widest, name), each) for each in dimensions_of(job, name, shapes)[:room])
        outlines = tuple(outlines_of(shape, Fraction(1, 2) if shape.tube else Fraction(1)))
        piece = Drawn((name,), shape, outlines, own)
        # a pair of mittens or bands is drawn once; two fronts that mirror each other are not alike
        twin = next((at for at, other in enumerate(drawn) if _alike(other, piece)), None)
        if twin is None:
            drawn.append(piece)
        else:
            drawn[twin] = replace(drawn[twin], names=(*drawn[twin].names, name))
    return tuple(drawn), tuple(letters)


def _alike(one: Drawn, other: Drawn) -> bool:
    """Whether one drawing stands for two pieces: every measure is the same, and the outline, or both are tubes."""
    outline = one.outlines == other.outlines or (one.shape.tube and other.shape.tube)
    measured = one.letters and [letter for letter, _ in one.letters] == [letter for letter, _ in other.letters]
    return bool(measured) and outline and one.shape.make == other.shape.make


def _letter(letters: list[Letter], dimension: Dimension, widest: tuple[Fraction | None, ...], piece: str) -> str:
    """The letter of a measure: that of the same measure of an earlier piece, else the next one."""
    for index, known in enumerate(letters):
        same = known.dimension.name == dimension.name and known.widest == widest
        near = _SHARED_LENGTH_MM if dimension.name == "length" else 0
        gaps = [
            abs(one - other)
            for one, other in zip(known.dimension.values, dimension.values, strict=True)
            if one is not None and other is not None
        ]
        if same and gaps and max(gaps) <= near:
            letters[index] = Letter(known.letter, known.dimension, known.widest, (*known.pieces, piece))
            return known.letter
    letters.append(Letter(_LETTERS[len(letters)], dimension, widest, (piece,)))
    return letters[-1].letter


def _fact(job: Job, letter: Letter, several: bool) -> Fact:
    sized = letter.dimension.sized
    value = measure(sized.values, sized.unit, job.setting, twin=sized.twin, twin_unit=sized.twin_unit)
    label = job.say("schematic", letter.dimension.name)
    if several:
        label = job.say("schematic", "of_piece", pieces=joined(letter.pieces), label=label)
    return Fact((Text(letter.letter),), ((Text(f"{label[:1].upper()}{label[1:]}: "), *value),))


# ── the drawing ───────────────────────────────────────────────────────────────────────────────────


def _draw(job: Job, drawn: Sequence[Drawn], words: Blocks) -> Drawing:
    """Pieces from left to right at one scale, in as many lines as they need."""
    highest, broadest = max(each.high for each in drawn), max(each.wide for each in drawn)
    scale = min(TALLEST_MM / float(highest), BROADEST_MM / float(broadest))
    shapes: list[Shape] = []
    top = widest = 0.0
    for line in _lines(drawn, scale, partial(_name, job)):
        tallest = max(sum(box.height for box in column) for column in line)
        x = 0.0
        for column in line:
            width = max(box.width for box in column)
            bottom = top + tallest
            for box in reversed(column):
                middle = x + width / 2
                lower = bottom - NAME_MM - MARGIN_MM
                shapes.extend(_piece(box.piece, scale, middle - float(box.piece.wide) * scale / 2, lower))
                shapes.append(
                    Label(round(middle, 2), round(lower + MARGIN_MM + 0.5, 2), _name(job, box.piece), 3.0, ink="ink")
                )
                bottom -= box.height
            x += width
        widest = max(widest, x)
        top += tallest
    return Drawing(round(widest, 2), round(top, 2), tuple(shapes), words)


def _name(job: Job, drawn: Drawn) -> str:
    return job.say("schematic", "name", piece=drawn.name, make=drawn.shape.make)


@dataclass(frozen=True, slots=True)
class _Box:
    """The room that a piece takes in the drawing, with its arrows and its name, in millimetres."""

    piece: Drawn
    width: float
    height: float


def _lines(drawn: Sequence[Drawn], scale: float, name: Callable[[Drawn], str]) -> list[list[list[_Box]]]:
    """Lines of columns: low pieces, such as bands, stand above each other beside a tall one."""
    lines: list[list[list[_Box]]] = []
    for each in drawn:
        width = max(float(each.wide) * scale + 2 * MARGIN_MM, len(name(each)) * LETTER_MM + 2)
        box = _Box(each, width, float(each.high) * scale + 2 * MARGIN_MM + NAME_MM)
        line = lines[-1] if lines else []
        columns = [max(other.width for other in column) for column in line]
        tallest = max((sum(other.height for other in column) for column in line), default=0.0)
        stacked = sum(other.height for other in line[-1]) + box.height if line else 0.0
        if line and stacked <= tallest and sum(columns[:-1]) + max(columns[-1], box.width) <= WIDTH_MM:
            line[-1].append(box)
        elif line and sum(columns) + box.width <= WIDTH_MM:
            line.append([box])
        else:
            lines.append([[box]])
    return lines


def _piece(drawn: Drawn, scale: float, x: float, bottom: float) -> list[Shape]:
    """One piece with its arrows. x: of its left edge; bottom: of its lower edge, in millimetres of the drawing."""
    left, wide, high = drawn.left, float(drawn.wide) * scale, float(drawn.high) * scale

    def place(point: tuple[Fraction, Fraction]) -> tuple[float, float]:
        return round(x + float(point[0] - left) * scale, 2), round(bottom - float(point[1]) * scale, 2)

    shapes: list[Shape] = [
        Polyline(tuple(place(point) for point in outline), closed=True, width_mm=0.4, fill="pale")
        for outline in drawn.outlines
    ]
    for letter, dimension in drawn.letters:
        if dimension.name == "length":
            shapes += _upright(x + wide + 4, bottom - high, bottom, letter, "start")
        elif dimension.name == "depth":
            low = place((left, max(y for _, y in drawn.outlines[0])))[1]
            shapes += _upright(x - 4, bottom - high, low, letter, "end")
        else:
            start, end, at = across(drawn.outlines[0], dimension.name)
            (first, y), (last, _) = place((start, at)), place((end, at))
            below = dimension.name.endswith("bottom")
            y += 4 if below else -3.5 if dimension.name.endswith("top") else 0
            shapes.append(_arrow((first, y), (last, y)))
            beside = round(y + (3.8 if below else -1.4), 2)
            shapes.append(Label(round((first + last) / 2, 2), beside, letter, 3.2, strong=True))
    return shapes


def _upright(x: float, top: float, bottom: float, letter: str, anchor: Literal["start", "end"]) -> list[Shape]:
    beside = 1.8 if anchor == "start" else -1.8
    label = Label(round(x + beside, 2), round((top + bottom) / 2 + 1.1, 2), letter, 3.2, anchor, strong=True)
    return [_arrow((x, top), (x, bottom)), label]


def _arrow(start: tuple[float, float], end: tuple[float, float]) -> Polyline:
    rounded = tuple((round(x, 2), round(y, 2)) for x, y in (start, end))
    return Polyline(rounded, width_mm=0.25, ink="accent", arrows="both")
