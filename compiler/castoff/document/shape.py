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
from castoff.knitting.edges import sides_of
from castoff.knitting.fabric import Knitted, PieceKnitted
from castoff.trade.stitch_book import StitchBook

_ONE_SIDED = Fraction(1, 8)
"""Of the stitches: a piece whose edges never part further in what they lose is drawn alike on both sides."""


@dataclass(frozen=True, slots=True)
class Band:
    """Rows of one width, in millimetres; `round` for rows of a tube, whose width is the distance around.

    left: how far the left edge lies to the right of that of the first rows, as the right side shows it; None for rows
    that lie over the middle of those before.
    """

    width: Fraction
    height: Fraction
    round: bool
    left: Fraction | None = None


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
    def centred(self) -> bool:
        """Whether it is drawn about its middle: it is shaped alike at both edges, or nobody knows at which."""
        return all(band.left is None for band in self.main)

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


def shapes_of(knitted: Knitted, book: StitchBook) -> Shapes:
    """The shapes of all pieces: the same for every edition, so that a run works them out once.

    book: says at which end of a row stitches are gained and lost.
    """
    names = dict.fromkeys(name for size in knitted.sizes for name in size.pieces)
    return {
        name: tuple(
            None if (piece := size.pieces.get(name)) is None else shape_of(piece, book) for size in knitted.sizes
        )
        for name in names
    }


def shape_of(piece: PieceKnitted, book: StitchBook) -> PieceShape:
    """The shape of a piece; bands without a width are left out."""
    parts = parts_of(piece.records)
    if not parts:
        return PieceShape((), (), piece.length_mm, piece.make)
    main, sides = parts[0], list(parts[1:])
    if sides and min(side[0].number for side in sides) <= main[0].number:
        # stitches picked up or taken back count as a row of the same number as the first that is worked on them
        main, sides = tuple(row for part in parts for row in part), []
    main_bands = _bands(piece, main, {} if sides else _moves(piece, book))
    whole = PieceShape(main_bands, (), piece.length_mm, piece.make, _turns_corner(piece))
    if whole.tube or not sides:
        # what is worked off a tube later (a thumb, an afterthought heel) is no side of it
        return whole
    # the rows of the first side follow those of the main part without a gap: they begin where the second side does
    start = min(side[0].number for side in sides)
    first = tuple(row for row in main if row.number >= start)
    lower = tuple(row for row in main if row.number < start)
    side_bands = tuple(_bands(piece, side, {}) for side in (first, *sides) if side)
    return PieceShape(_bands(piece, lower, {}), side_bands, piece.length_mm, piece.make, whole.corner)


Moves = Mapping[int, tuple[Fraction, Fraction]]
"""Stitches lost at the left and at the right edge, by the row of the piece."""


def _moves(piece: PieceKnitted, book: StitchBook) -> Moves:
    """How the edges of a piece move; nothing for one that is shaped alike at both, or has no two edges of its own."""
    sides = sides_of(piece, book)
    if sides is None or sides.divided:
        return {}
    moves: dict[int, tuple[Fraction, Fraction]] = {}
    for step in sides.left.steps:
        moves[step.row] = (step.lost, Fraction(0))
    for step in sides.right.steps:
        moves[step.row] = (moves.get(step.row, (Fraction(0), Fraction(0)))[0], step.lost)
    ahead = furthest = Fraction(0)
    for row in sorted(moves):
        ahead += moves[row][0] - moves[row][1]
        furthest = max(furthest, abs(ahead))
    most = max((max(record.before, record.after) for record in piece.records), default=0)
    return moves if furthest > most * _ONE_SIDED else {}


def _bands(piece: PieceKnitted, rows: Sequence[Row], moves: Moves) -> tuple[Band, ...]:
    found: list[Band] = []
    run: Row | None = None
    count = 0
    left: Fraction | None = None
    width = Fraction(0)
    for row in (*rows, None):
        # rows that are alike are counted first and measured together: fractions are slow
        if row is not None and run is not None and _alike(row, run):
            count += 1
            continue
        if run is not None:
            pitch = piece.gauges.get(run.gauge)
            if pitch is not None and run.height_mm:
                if moves:
                    lost = moves.get(run.number, (Fraction(0), Fraction(0)))
                    # what no edge accounts for (another gauge, stitches drawn in) is shared out between both
                    shared = run.after * pitch[0] - width + sum(lost) * pitch[0]
                    left = Fraction(0) if left is None else left + lost[0] * pitch[0] - shared / 2
                    width = run.after * pitch[0]
                _add(found, Band(run.after * pitch[0], run.height_mm * count, run.form == "round", left))
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
    if last is not None and last.width == band.width and last.round == band.round and last.left == band.left:
        found[-1] = Band(band.width, last.height + band.height, band.round, band.left)
    else:
        found.append(band)


def _turns_corner(piece: PieceKnitted) -> bool:
    """Whether a tube has flat or short rows between its rounds, as a sock has its heel: it does not lie flat."""
    forms = ["flat" if record.short else record.form for record in piece.records]
    if "round" not in forms:
        return False
    after = forms[forms.index("round") :]
    return "flat" in after and "round" in after[after.index("flat") :]
