"""A printed measurement is not what the instructions say of it.

A measurement without an `of` is held against the words of the lines: "leg measures 8 cm", or "until foot measures 9.5 cm"
and the rows that follow. Where most sizes agree and one does not, one of the two numbers is wrong.

Fires:
    sizes: {names: "S (M, L)"}
    measurements:
      rib: {label: Depth of the hem, is: "20 (21, 20) cm"}
    Work in st st until hem measures 20 (20, 20) cm.

Silent:
    sizes: {names: "S (M, L)"}
    measurements:
      rib: {label: Depth of the hem, is: "20 (20, 20) cm"}
    Work in st st until hem measures 20 (20, 20) cm.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.checks.evidence import Evidence, Finished, Placed
from castoff.checks.typed_list import HOUSE_HALF_STEP_MM, half_step_mm, typed_measure
from castoff.checks.unit_pairs import INCH, converted, say
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.notation.syntax import ToldLength, UntilLength
from castoff.numeral import UNITS

RULE = Rule("measurement-contradicted", "error", __doc__ or "")

_ANY_PART = frozenset({"piece", "work", "it", "knitting", ""})


@dataclass(frozen=True, slots=True)
class _Said:
    """What the lines say of a part: its length per size, with what is still to come; how far it may be off by a row."""

    values: tuple[Fraction | None, ...]
    row_mm: Fraction
    placed: Placed


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each measurement that some sizes' lines contradict and most sizes' bear out."""
    if len(evidence.sizes) < 3:
        return
    for finished in evidence.finished:
        if finished.measurement.of is not None or finished.values is None:
            continue
        typed = typed_measure(finished.measurement.expression, evidence.pattern.sizes.axes)
        inch = evidence.pattern.inch.value if evidence.pattern.inch is not None else INCH
        half = HOUSE_HALF_STEP_MM if typed is None else half_step_mm(typed.first, inch)
        for said in _said_of(evidence, finished):
            off = [
                size
                for size, (mine, told) in enumerate(zip(finished.values, said.values, strict=True))
                if mine is not None and told is not None and abs(mine - told) > half + said.row_mm / 2
            ]
            if len(off) * 2 > len(evidence.sizes):
                continue
            piece = evidence.pattern.sections[said.placed.section].piece.value
            off = [size for size in off if not evidence.unsure(size, piece)]
            if off:
                yield _finding(evidence, finished, said, off, typed.first.symbol if typed is not None else "cm")
            break


def _said_of(evidence: Evidence, finished: Finished) -> Iterator[_Said]:
    measurement = finished.measurement
    words = set(re.findall(r"[a-z]+", f"{measurement.key.value} {measurement.label.value}".casefold()))
    for placed in evidence.placed:
        node = placed.node
        if (
            isinstance(node, (ToldLength, UntilLength))
            and node.what
            and node.what not in _ANY_PART
            and node.what.split()[-1] in words
        ):
            if isinstance(node, ToldLength):
                yield _Said(node.length.millimetres, Fraction(0), placed)
                continue
            behind = [_rows_behind(evidence, placed, size) for size in range(len(evidence.sizes))]
            row = max((row for _, row in behind), default=Fraction(0))
            yield _Said(node.length.millimetres, row, placed)
            yield _Said(
                tuple(
                    None if length is None else length + more
                    for length, (more, _) in zip(node.length.millimetres, behind, strict=True)
                ),
                row,
                placed,
            )


def _rows_behind(evidence: Evidence, placed: Placed, size: int) -> tuple[Fraction, Fraction]:
    """Length of the rows that the piece still has after a line, and the height of one."""
    piece = evidence.knitted.sizes[size].pieces.get(evidence.pattern.sections[placed.section].piece.value)
    if piece is None:
        return Fraction(0), Fraction(0)
    behind = [
        record
        for record in piece.records.folded()
        if record.span is not None and record.span.start >= placed.line.span.end and not record.short
    ]
    row = piece.records[-1].height_mm if piece.records else Fraction(0)
    return sum((record.rows * record.height_mm for record in behind), Fraction(0)), row


def _finding(evidence: Evidence, finished: Finished, said: _Said, off: list[int], unit: str | None) -> Diagnostic:
    names = evidence.sizes
    symbol = unit or "cm"
    told: list[str] = []
    for size in off:
        mine, other = (finished.values or ())[size], said.values[size]
        if mine is not None and other is not None:
            told.append(
                f"size {names[size]}: {say(mine / UNITS[symbol][2], symbol)} is printed, "
                f"and the lines come to {say(converted(other, 'mm', symbol, INCH), symbol)}"
            )
    return Diagnostic.of(
        RULE,
        f"`{finished.measurement.label.value}`: {'; '.join(told)}",
        finished.measurement.expression.span(),
        sizes=(names[size] for size in off),
        hint="the other sizes agree: one of the two numbers is a slip",
        related=(Related(said.placed.node.span, "said here"),),
    )
