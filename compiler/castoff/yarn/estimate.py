"""The yarn of a pattern: where the length goes, per yarn and size.

In: a pattern and its knitting. Out: an `Estimate` per yarn: parts (fabric, cast-on, floats, ends, seams, swatch, margin) in
millimetres, by plain-knit geometry and, where a swatch was weighed, by the swatch.

Rules that no source gives are common practice: a join or break leaves an end of 15 cm, a long-tail cast-on takes the yarn
of two loops for each stitch, a mattress seam two and a half times its length, a graft four times its edge, and a swatch of
15 cm square is knitted before the piece. The margin is 10 % unless the source or the
house says otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Literal

from castoff.knitting.fabric import Knitted as AllKnitted
from castoff.knitting.fabric import PieceKnitted, RowRecord, SizeKnitted
from castoff.model.pattern import Pattern, Yarn
from castoff.trade.stitch_book import StitchBook
from castoff.yarn.loop import LoopLength, density_per_mm2, loop_lengths

END_MM = 150.0
SEAM_TIMES = 2.5
GRAFT_TIMES = 4.0
CAST_ON_LOOPS = 2
SWATCH_SIDE_MM = 150.0
MARGIN = Fraction(1, 10)

Method = Literal["swatch", "geometry"]
PART_NAMES = ("fabric", "cast-on", "floats", "ends", "seams", "swatch", "margin")


@dataclass(frozen=True, slots=True)
class Amounts:
    """Millimetres of a yarn in one size, part by part."""

    fabric: float = 0.0
    cast_on: float = 0.0
    floats: float = 0.0
    ends: float = 0.0
    seams: float = 0.0
    swatch: float = 0.0
    margin: float = 0.0

    @property
    def used(self) -> float:
        """What is in the finished piece with its ends: neither swatch nor margin."""
        return self.fabric + self.cast_on + self.floats + self.ends + self.seams

    @property
    def total(self) -> float:
        """What is needed, swatch and margin included."""
        return self.used + self.swatch + self.margin

    @property
    def parts(self) -> tuple[tuple[str, float], ...]:
        """The parts by name, in fixed order."""
        values = (self.fabric, self.cast_on, self.floats, self.ends, self.seams, self.swatch, self.margin)
        return tuple(zip(PART_NAMES, values, strict=True))


@dataclass(frozen=True, slots=True)
class Estimate:
    """A yarn in every size.

    by_geometry, by_swatch: one entry per size; by_swatch is None when no weighed swatch with a put-up is given.
    margin: the share added.
    """

    yarn: Yarn
    by_geometry: tuple[Amounts, ...]
    by_swatch: tuple[Amounts, ...] | None
    margin: Fraction

    @property
    def method(self) -> Method:
        """What the printed amount rests on: the swatch where there is one."""
        return "geometry" if self.by_swatch is None else "swatch"

    @property
    def amounts(self) -> tuple[Amounts, ...]:
        """The amounts by the better method."""
        return self.by_geometry if self.by_swatch is None else self.by_swatch

    def metres(self, size: int) -> int:
        """Whole metres needed in a size, up."""
        return ceil(self.amounts[size].total / 1000)

    def balls(self, size: int) -> int | None:
        """Whole balls to buy for a size; None without a put-up."""
        if self.yarn.ball is None:
            return None
        return max(1, ceil(self.amounts[size].total / float(self.yarn.ball.length.value)))


def estimate(pattern: Pattern, knitted: AllKnitted, book: StitchBook, usual: Fraction = MARGIN) -> tuple[Estimate, ...]:
    """The yarns of a pattern in the order of the source; empty when it states no gauge or nothing was knitted.

    usual: the margin of a pattern that states none.
    """
    lengths = loop_lengths(pattern)
    if not lengths or not knitted.sizes:
        return ()
    margin = usual if pattern.margin is None else pattern.margin.value
    found = []
    for yarn in pattern.yarns:
        plain = tuple(_amounts(yarn, size, pattern, book, lengths, "geometry", margin) for size in knitted.sizes)
        weighed = None
        if yarn.ball is not None and all(each.by_swatch is not None for each in lengths.values()):
            weighed = tuple(_amounts(yarn, size, pattern, book, lengths, "swatch", margin) for size in knitted.sizes)
        found.append(Estimate(yarn, plain, weighed, margin))
    return tuple(found)


def _amounts(
    yarn: Yarn,
    size: SizeKnitted,
    pattern: Pattern,
    book: StitchBook,
    lengths: Mapping[str, LoopLength],
    method: Method,
    margin: Fraction,
) -> Amounts:
    key = yarn.key.value
    loop = {name: _chosen(each, method) for name, each in lengths.items()}
    usual = next(iter(loop.values()))
    fabric = cast_on = 0.0
    for (yarns, gauge, stitch), count in size.loops.items():
        if key not in (yarns or _main(pattern)).split("+"):
            continue
        each = loop.get(gauge or "", usual) * count
        if stitch == "cast on":
            cast_on += CAST_ON_LOOPS * each
        else:
            fabric += each * _loops_of(stitch, book)
    floats = _floats(key, size, pattern)
    main = key == _main(pattern)
    ends = seams = swatch = 0.0
    if fabric or cast_on:
        ends = END_MM * _ends(key, size, main)
    if main:
        seams = _seams(size)
        swatch = _swatch_loops(pattern) * usual
    held = yarn.held.value
    used = (fabric + cast_on + floats + ends + seams) * held
    return Amounts(
        fabric * held,
        cast_on * held,
        floats * held,
        ends * held,
        seams * held,
        swatch * held,
        (used + swatch * held) * float(margin),
    )


def _chosen(length: LoopLength, method: Method) -> float:
    if method == "swatch" and length.by_swatch is not None:
        return length.by_swatch
    return length.by_geometry


def _main(pattern: Pattern) -> str:
    return pattern.yarns[0].key.value if pattern.yarns else ""


def _loops_of(stitch: str, book: StitchBook) -> float:
    """Loops of yarn that one working of a stitch draws."""
    if stitch in ("bind off", "pick up"):
        return 1.0
    if stitch == "drop":
        return 0.0
    known = book.find(stitch)
    return 1.0 if known is None else float(known.loops)


def _ends(key: str, size: SizeKnitted, main: bool) -> int:
    """Ends left hanging: two for each piece in the main yarn, and one for every join and break of this yarn."""
    count = 0
    for piece in size.pieces.values():
        if main and piece.records:
            count += 2 * piece.make
        for event in piece.events:
            if event.kind in ("join yarn", "break yarn") and (event.name == key or (main and not event.name)):
                count += piece.make
    if not main:
        count = max(count, 2)
    return count


def _seams(size: SizeKnitted) -> float:
    """Yarn for sewing and grafting.

    Flat pieces are sewn along their sides and bound-off edges, two edges to a seam; a graft takes its own edge.
    """
    length = 0.0
    sewn = any(event.kind == "seam" for piece in size.pieces.values() for event in piece.events)
    for piece in size.pieces.values():
        if sewn and any(record.form == "flat" for record in piece.records.folded()):
            edges = [edge for edge in piece.edges if edge.kind in ("left", "right", "bind off")]
            length += SEAM_TIMES * piece.make * sum(float(edge.length_mm or 0) for edge in edges) / 2
        for event in piece.events:
            if event.kind == "graft":
                length += GRAFT_TIMES * piece.make * float(_graft_width(piece, event.count))
    return length


def _graft_width(piece: PieceKnitted, stitches: int) -> Fraction:
    pitch = next(iter(piece.gauges.values()), None)
    return Fraction(0) if pitch is None else stitches * pitch[0]


def _floats(key: str, size: SizeKnitted, pattern: Pattern) -> float:
    """Yarn that runs behind stitches of another colour: a stitch's width for each, in rows that repeat their colours."""
    length = 0.0
    if len({yarn for yarn, _, _ in size.loops}) < 2:
        return length
    for piece in size.pieces.values():
        for record in piece.records:
            counts = _colours(record.tally)
            if len(counts) < 2 or key not in counts:
                continue
            others = sum(count for yarn, count in counts.items() if yarn != key)
            width = _stitch_width(piece, record, pattern)
            length += others * width * record.rows * piece.make
    return length


def _colours(tally: Iterable[tuple[tuple[str, str], int]]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for (yarn, _), count in tally:
        counts[yarn] = counts.get(yarn, 0) + count
    return counts


def _stitch_width(piece: PieceKnitted, record: RowRecord, pattern: Pattern) -> float:
    pitch = piece.gauges.get(record.gauge)
    if pitch is not None:
        return float(pitch[0])
    first = pattern.gauges[0]
    return float(first.over.value / first.stitches.value)


def _swatch_loops(pattern: Pattern) -> float:
    """Loops of the swatch that is knitted before the piece: the pattern's own, else a square of 15 cm."""
    gauge = pattern.gauges[0]
    swatch = next((each for each in pattern.swatches if each.key.value == gauge.key.value), None)
    area = SWATCH_SIDE_MM**2 if swatch is None else float(swatch.width.value * swatch.height.value)
    return density_per_mm2(gauge) * area
