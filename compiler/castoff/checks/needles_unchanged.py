"""A change to the needles that are in the hands already.

"Change to larger needles" behind rows that were knitted on the larger ones: either the rows before it belong on others, or
the change is one too many. A cuff cast on with the wrong needles comes out too wide, and no stitch count tells.

Fires:
    Change to larger needles.
    Work in st st for 4 rows.

Silent:
    needles:
      larger: {size: 5 mm, type: circular, length: 60 cm}
      smaller: {size: 4 mm, type: circular, length: 60 cm}
    Change to smaller needles.
    Work in st st for 4 rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import PieceKnitted
from castoff.notation.syntax import ChangeNeedles

RULE = Rule("needles-unchanged", "warning", __doc__ or "")

_CHANGE = re.compile(r"(?:change|changing|switch|switching)\b", re.IGNORECASE)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each such line."""
    for placed in evidence.placed:
        node = placed.node
        words = node.span.source.text[node.span.start : node.span.end]
        if not isinstance(node, ChangeNeedles) or not _CHANGE.match(words):
            continue
        name = evidence.pattern.sections[placed.section].piece.value
        pieces = [size.pieces.get(name) for size in evidence.knitted.sizes]
        same = [None if piece is None else _in_hand(piece, node.span.start) for piece in pieces]
        if same and same[0] is not None and all(each == same[0] for each in same):
            yield Diagnostic.of(
                RULE,
                f"the rows before it are knitted on needles `{same[0]}` already",
                node.span,
                hint="name other needles before those rows, or take the change out",
            )


def _in_hand(piece: PieceKnitted, start: int) -> str | None:
    """The needles of a change at this place, when the rows and the cast-on before it have no others."""
    at = next(
        (at for at, e in enumerate(piece.events) if e.kind == "change needles" and e.span and e.span.start == start),
        None,
    )
    if at is None:
        return None
    event = piece.events[at]
    before = [each for each in piece.events[:at] if each.kind == "change needles"]
    rows = [record for record in piece.records.folded() if record.span is not None and record.span.start < start]
    if not rows or rows[-1].needles != event.name or (before and before[-1].name != event.name):
        return None
    return event.name
