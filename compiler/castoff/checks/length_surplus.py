"""How much longer a piece was knitted than its text asks.

"Until piece measures 37 cm, ending with a WS row" ends on a whole, here even, row: 37.3 cm at 30 rows to 10 cm. An author
who adds up the lengths of the text is as right as one who counts the rows; and one who prints "6¼ in / 16 cm" may have
added up either.

In: the evidence, a piece and a stretch of its rows. Out: surpluses in exact millimetres, negative when the nearest row
came short.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.knitting.fabric import PieceKnitted, RowRecord
from castoff.notation.syntax import Extent, ForLength, UntilLength

_WHOLE = frozenset({"", "cast-on", "beginning", "section", "start"})


def surpluses_mm(evidence: Evidence, piece: str, rows: tuple[int, int], size: int) -> tuple[Fraction, Fraction]:
    """The least and the greatest surplus of the part of a piece between two of its rows.

    They differ where a length is typed in two units that are not quite the same.
    """
    knitted = evidence.knitted.sizes[size].pieces.get(piece)
    least = most = Fraction(0)
    if knitted is None:
        return least, most
    for placed in evidence.placed:
        if not isinstance(placed.node, Extent) or evidence.pattern.sections[placed.section].piece.value != piece:
            continue
        until = placed.node.until
        if not isinstance(until, (UntilLength, ForLength)):
            continue
        span = placed.line.span
        mine = [
            record
            for record in knitted.records.folded()
            if record.span is not None and span.start <= record.span.start < span.end and not record.short
        ]
        if not mine or not rows[0] < mine[-1].last_row <= rows[1]:
            continue
        whole = _WHOLE | _at_the_beginning(until, knitted)
        over = [found for target in _targets(until, size) if (found := _over(until, target, mine, whole)) is not None]
        if not over:
            continue
        # a length from the cast-on edge takes up whatever surplus the lines below it had
        if isinstance(until, UntilLength) and _from_the_start(until, mine[-1], next(_targets(until, size)), whole):
            least, most = min(over), max(over)
        else:
            least, most = least + min(over), most + max(over)
    return least, most


def _targets(until: UntilLength | ForLength, size: int) -> Iterator[Fraction]:
    """The length as typed first, and as typed a second time."""
    first = until.length.at(size)
    second = until.length.twin[size] if until.length.twin is not None else None
    yield from (length for length in (first, second) if length is not None)


def _at_the_beginning(until: UntilLength | ForLength, piece: PieceKnitted) -> frozenset[str]:
    """A place that a sleeve picked up at the armhole begins with: its underarm."""
    origin = until.origin if isinstance(until, UntilLength) else None
    if origin is None or piece.landmarks.get(origin.kind, (0, Fraction(0)))[0] > 1:
        return frozenset()
    return frozenset({origin.kind}) if origin.kind in ("underarm", "picked-up") else frozenset()


def _from_the_start(until: UntilLength, last: RowRecord, target: Fraction, whole: frozenset[str]) -> bool:
    kind = until.origin.kind if until.origin is not None else ""
    return kind in whole and abs(last.length_mm - target) <= 2 * last.height_mm


def _over(
    until: UntilLength | ForLength, target: Fraction, mine: list[RowRecord], whole: frozenset[str]
) -> Fraction | None:
    last = mine[-1]
    if isinstance(until, UntilLength) and _from_the_start(until, last, target, whole):
        return last.length_mm - target
    worked = sum((record.rows * record.height_mm for record in mine), Fraction(0))
    over = worked - target
    # measured from some other point: what the line itself worked says nothing
    return over if abs(over) <= 2 * last.height_mm else None
