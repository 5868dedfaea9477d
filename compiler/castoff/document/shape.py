"""The shape of a piece: bands of rows of one width, and the sides it divides into.

In: a piece as it was knitted. Out: `PieceShape`, in millimetres of fabric: what the schematic draws and measures.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from castoff.document.courses import Row, parts_of
from castoff.knitting.fabric import PieceKnitted


@dataclass(frozen=True, slots=True)
class Band:
    """Rows of one width, in millimetres; `round` for rows of a tube, whose width is the distance around."""

    width: Fraction
    height: Fraction
    round: bool


@dataclass(frozen=True, slots=True)
class PieceShape:
    """A piece as it was knitted: its main part, and the parts that go on above it side by side.

    bottom, top, widest: of the main part; None without a gauge. depth: from where the piece divides to its top.
    """

    main: tuple[Band, ...]
    sides: tuple[tuple[Band, ...], ...]

    @property
    def bottom(self) -> Fraction | None:
        """Width of the first rows."""
        return self.main[0].width if self.main else None

    @property
    def top(self) -> Fraction | None:
        """Width of the last rows of the main part."""
        return self.main[-1].width if self.main else None

    @property
    def widest(self) -> Fraction | None:
        """The greatest width."""
        return max((band.width for band in self.main), default=None)

    @property
    def depth(self) -> Fraction | None:
        """Height of the tallest side; None for a piece that does not divide."""
        return max((sum((band.height for band in side), Fraction(0)) for side in self.sides), default=None)


def shape_of(piece: PieceKnitted) -> PieceShape:
    """The shape of a piece; bands without a width are left out."""
    parts = parts_of(piece.records)
    if not parts:
        return PieceShape((), ())
    sides = [part for part in parts[1:] if part]
    main = parts[0]
    if mostly_round(main):
        # what is worked off a tube later (a thumb, an afterthought heel) is no side of it
        return PieceShape(_bands(piece, main), ())
    if sides:
        # the rows of the first side follow those of the main part without a gap: they begin where the second side does
        start = min(side[0].number for side in sides)
        first = tuple(row for row in main if row.number >= start)
        main = tuple(row for row in main if row.number < start)
        sides = [first, *sides]
    return PieceShape(_bands(piece, main), tuple(_bands(piece, side) for side in sides if side))


def _bands(piece: PieceKnitted, rows: Sequence[Row]) -> tuple[Band, ...]:
    found: list[Band] = []
    for row in rows:
        pitch = piece.gauges.get(row.gauge)
        if pitch is None or not row.height_mm:
            continue
        # a row that binds off is as wide as the stitches it still works
        width = max(row.after, 0) * pitch[0]
        last = found[-1] if found else None
        if last is not None and last.width == width and last.round == (row.form == "round"):
            found[-1] = Band(width, last.height + row.height_mm, last.round)
        else:
            found.append(Band(width, row.height_mm, row.form == "round"))
    return tuple(found)


def mostly_round(rows: Sequence[Row]) -> bool:
    """Whether most of the height of some rows was worked in the round."""
    return sum(row.height_mm for row in rows if row.form == "round") * 2 > sum(row.height_mm for row in rows)


def turns_corner(piece: PieceKnitted) -> bool:
    """Whether a tube has flat or short rows between its rounds, as a sock has its heel: it does not lie flat."""
    forms = ["flat" if record.short else record.form for record in piece.records]
    first = next((index for index, form in enumerate(forms) if form == "round"), len(forms))
    return "round" in forms[first:][_first_flat(forms[first:]) :]


def _first_flat(forms: Sequence[str]) -> int:
    return next((index for index, form in enumerate(forms) if form == "flat"), len(forms))


def is_tube(piece: PieceKnitted) -> bool:
    """Whether most of the piece was worked in the round."""
    bands = shape_of(piece).main
    return sum(band.height for band in bands if band.round) * 2 > sum(band.height for band in bands)


def course_of(piece: PieceKnitted) -> str:
    """"even", "wider" or "narrower" towards the top, or "shaped" when it is both."""
    shape = shape_of(piece)
    widths = [band.width for band in (*shape.main, *(shape.sides[0] if shape.sides else ()))]
    rises = any(after > before for before, after in pairwise(widths))
    falls = any(after < before for before, after in pairwise(widths))
    return "shaped" if rises and falls else "wider" if rises else "narrower" if falls else "even"
