"""A printed length is not what has been knitted.

"18 rows worked; rib measures 6 cm", or a row count with its length beside it: rows by the row gauge must come to the
length, within the printed rounding. A knitter who measures something else believes that her gauge is off.

Fires:
    Work in st st for 28 rows. Piece measures 24 cm from cast-on edge.

Silent:
    Work in st st for 28 rows. Piece measures 20 cm from cast-on edge.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.evidence import Evidence, Placed
from castoff.checks.odd_one_out import odd_sizes
from castoff.checks.unit_pairs import INCH, converted, say, unit_size
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import RowRecord
from castoff.notation.syntax import ToldLength
from castoff.numeral import UNITS

RULE = Rule("stated-length-off", "error", __doc__ or "")

_ABOUT = ("approx", "about", "roughly", "circa", "ca.")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each printed length that is off in some size."""
    names = evidence.sizes
    for placed in evidence.placed:
        node = placed.node
        if not isinstance(node, ToldLength):
            continue
        off: list[tuple[int, Fraction, Fraction, int]] = []
        gaps: list[tuple[int, list[tuple[Fraction, int, Fraction]], Fraction]] = []
        for size in range(len(names)):
            stated: Fraction | None = node.length.at(size)
            stretches = list(_stretches(evidence, placed, size)) if placed.line.sizes[size] else []
            if stated is None or not stretches:
                continue
            allowed = _allowed(placed, node.length.unit, stated) + stretches[0][2] / 2
            gaps.append((size, stretches, stated))
            nearest = min(abs(length - stated) for length, _, _ in stretches)
            if nearest > allowed:
                length, rows, _ = next(each for each in stretches if abs(each[0] - stated) == nearest)
                off.append((size, stated, length, rows))
        if not off:
            off = _odd_row(gaps)
        if off:
            unit = node.length.unit or "cm"
            size, stated, length, rows = off[0]
            right = say(converted(length, "mm", unit, INCH), unit)
            if converted(length, "mm", unit, INCH) * UNITS[unit][2] == stated:
                right = f"{float(length / UNITS[unit][2]):.2f} {unit}, exact in the other sizes"
            at = f"size {names[size]}: " if len(names) > 1 and len(off) < len(names) else ""
            yield Diagnostic.of(
                RULE,
                f"{at}{say(stated / UNITS[unit][2], unit)} is printed, and {rows} rows come to {right}",
                node.span,
                sizes=(names[each[0]] for each in off) if len(off) < len(names) else (),
                hint=f"write `{right}`, or work another number of rows" if "exact" not in right else "look at the rows",
            )


def _odd_row(
    gaps: list[tuple[int, list[tuple[Fraction, int, Fraction]], Fraction]],
) -> list[tuple[int, Fraction, Fraction, int]]:
    """The sizes that are whole rows off where every other size is exact, by the stretch that fits best."""
    if len(gaps) < 3:
        return []
    kinds = min(len(stretches) for _, stretches, _ in gaps)
    by_kind = [[stretches[kind][0] - stated for _, stretches, stated in gaps] for kind in range(kinds)]
    fits = min(range(kinds), key=lambda kind: sum(abs(gap) for gap in by_kind[kind]))
    odd = [gaps[index] for index in odd_sizes(by_kind[fits], gaps[0][1][fits][2])]
    return [(size, stated, stretches[fits][0], stretches[fits][1]) for size, stretches, stated in odd]


def _allowed(placed: Placed, unit: str, stated: Fraction) -> Fraction:
    """Half the step that the length was rounded to; twice as much where the line says "approx"."""
    unit = unit or "cm"
    step = Fraction(1, 4) if unit == "in" else Fraction(1, 2)
    value = stated / UNITS[unit][2]
    while value % step != 0 and step > Fraction(1, 1000):
        step /= 2
    half = step * unit_size(unit, INCH) / 2
    about = any(word in placed.line.text.value.casefold() for word in _ABOUT)
    return half * 2 if about else half


def _stretches(evidence: Evidence, placed: Placed, size: int) -> Iterator[tuple[Fraction, int, Fraction]]:
    """The stretches that the words may mean, as (length, rows, height of a row).

    With "from cast-on edge" the whole piece, else the section, the piece, or the rows of one gauge ("rib measures").
    """
    knitted = evidence.knitted.sizes[size]
    section = evidence.pattern.sections[placed.section]
    piece = knitted.pieces.get(section.piece.value)
    if piece is None or piece.unsure:
        return
    end = placed.node.span.end
    before = [record for record in piece.records.folded() if record.span is not None and record.span.start < end]
    if not before or before[-1].short:
        return
    last = before[-1]
    if not placed.node.what:
        for event in knitted.sections[placed.section].events:
            if event.kind == "length told" and event.span == placed.node.span:
                yield event.count * last.height_mm, event.count, last.height_mm
        return
    line = placed.line.span.start
    yield last.length_mm, last.last_row, last.height_mm
    origin = placed.node.origin
    if origin is not None and origin.kind in ("cast-on", "beginning"):
        return
    start = (section.work or section.title).span().start
    yield _worked([record for record in before if record.span is not None and record.span.start >= start], last)
    same = []
    for record in reversed(before):
        if record.gauge != last.gauge:
            break
        same.append(record)
    yield _worked(same, last)
    yield _worked([record for record in before if record.span is not None and record.span.start >= line], last)
    if origin is not None:
        for row, length in piece.landmarks.values():
            yield last.length_mm - length, last.last_row - row, last.height_mm


def _worked(records: list[RowRecord], last: RowRecord) -> tuple[Fraction, int, Fraction]:
    # rows of one height are counted before they are multiplied: adding fractions is slow
    heights: dict[Fraction, int] = {}
    for record in records:
        if not record.short:
            heights[record.height_mm] = heights.get(record.height_mm, 0) + record.rows
    length = sum((height * rows for height, rows in heights.items()), Fraction(0))
    return length, sum(heights.values()), last.height_mm
