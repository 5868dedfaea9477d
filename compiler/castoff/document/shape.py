"""The shape of a piece: bands of rows of one width, and the sides it divides into.

In: a piece as it was knitted. Out: `PieceShape`, in millimetres of fabric: what the schematic draws and measures.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

from castoff.document.courses import Row, parts_of
from castoff.knitting.fabric import Knitted, PieceKnitted


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
    length: of the whole piece. make: how many are made. corner: a tube that turns a corner.
    """

    main: tuple[Band, ...]
    sides: tuple[tuple[Band, ...], ...]
    length: Fraction
    make: int
    corner: bool = False

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

    @property
    def tube(self) -> bool:
        """Whether most of the main part was worked in the round."""
        return sum(band.height for band in self.main if band.round) * 2 > sum(band.height for band in self.main)

    @property
    def drawable(self) -> bool:
        """Whether it has a width, and lies flat as it is drawn."""
        return not self.corner and any(band.width for band in self.main)

    @property
    def course(self) -> str:
        """ "even", "wider" or "narrower" towards the top, or "shaped" when it is both."""
        widths = [band.width for band in (*self.main, *(self.sides[0] if self.sides else ()))]
        rises = any(after > before for before, after in pairwise(widths))
        falls = any(after < before for before, after in pairwise(widths))
        return "shaped" if rises and falls else "wider" if rises else "narrower" if falls else "even"


Shapes: TypeAlias = Mapping[str, tuple[PieceShape | None, ...]]
"""By piece, its shape in every size; None in a size that has no such piece."""


def shapes_of(knitted: Knitted) -> Shapes:
    """The shapes of all pieces: the same for every edition, so that a run works them out once."""
    names = dict.fromkeys(name for size in knitted.sizes for name in size.pieces)
    return {
        name: tuple(None if (piece := size.pieces.get(name)) is None else shape_of(piece) for size in knitted.sizes)
        for name in names
    }


def shape_of(piece: PieceKnitted) -> PieceShape:
    """The shape of a piece; bands without a width are left out."""
    parts = parts_of(piece.records)
    if not parts:
        return PieceShape((), (), piece.length_mm, piece.make)
    main, sides = parts[0], list(parts[1:])
    if sides and min(side[0].number for side in sides) <= main[0].number:
        # stitches picked up or taken back count as a row of the same number as the first that is worked on them
        main, sides = tuple(row for part in parts for row in part), []
    main_bands = _bands(piece, main)
    whole = PieceShape(main_bands, (), piece.length_mm, piece.make, _turns_corner(piece))
    if whole.tube or not sides:
        # what is worked off a tube later (a thumb, an afterthought heel) is no side of it
        return whole
    # the rows of the first side follow those of the main part without a gap: they begin where the second side does
    start = min(side[0].number for side in sides)
    first = tuple(row for row in main if row.number >= start)
    lower = tuple(row for row in main if row.number < start)
    side_bands = tuple(_bands(piece, side) for side in (first, *sides) if side)
    return PieceShape(_bands(piece, lower), side_bands, piece.length_mm, piece.make, whole.corner)


def _bands(piece: PieceKnitted, rows: Sequence[Row]) -> tuple[Band, ...]:
    found: list[Band] = []
    run: Row | None = None
    count = 0
    for row in (*rows, None):
        # rows that are alike are counted first and measured together: fractions are slow
        if row is not None and run is not None and _alike(row, run):
            count += 1
            continue
        if run is not None:
            pitch = piece.gauges.get(run.gauge)
            if pitch is not None and run.height_mm:
                _add(found, Band(run.after * pitch[0], run.height_mm * count, run.form == "round"))
        run, count = row, 1
    return tuple(found)


def _alike(one: Row, other: Row) -> bool:
    return (
        one.after == other.after
        and one.gauge == other.gauge
        and one.form == other.form
        and (one.height_mm is other.height_mm or one.height_mm == other.height_mm)
    )


def _add(found: list[Band], band: Band) -> None:
    last = found[-1] if found else None
    if last is not None and last.width == band.width and last.round == band.round:
        found[-1] = Band(band.width, last.height + band.height, band.round)
    else:
        found.append(band)


def _turns_corner(piece: PieceKnitted) -> bool:
    """Whether a tube has flat or short rows between its rounds, as a sock has its heel: it does not lie flat."""
    forms = ["flat" if record.short else record.form for record in piece.records]
    if "round" not in forms:
        return False
    after = forms[forms.index("round") :]
    return "flat" in after and "round" in after[after.index("flat") :]
