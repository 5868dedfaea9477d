"""The same row is named twice where two rows are meant.

"Rows 1 and 1", "rnds 1–1", or "rnds 1–20: rep rnd 1", which has round 1 repeat itself: one of the numbers is a slip, and
the count of rows is off by it.

Fires:
    Row 1 (RS): Knit.
    Row 2 (WS): Purl.
    Rep rows 1 and 1 twice more.

Fires:
    Row 1 (RS): Knit.
    Row 2 (WS): Purl.
    Rep rows 2–2 twice more.

Silent:
    Row 1 (RS): Knit.
    Row 2 (WS): Purl.
    Rep rows 1 and 2 twice more.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import Count, Label, RowRef, RowsAs

RULE = Rule("rows-named-twice", "error", __doc__ or "")

_RANGE_OF_ONE = re.compile(r"\b(\d+)\s*(?:[-–—]|to)\s*\1\b")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each list or range of rows that says a row twice."""
    for placed in evidence.placed:
        node = placed.node
        if isinstance(node, (Label, RowRef)) and node.ranges:
            said = node.span.source.text[node.span.start : node.span.end]
            numbers = [number for first, last in node.ranges for number in {_first(first), _first(last)}]
            twice = sorted({number for number in numbers if number is not None and numbers.count(number) > 1})
            one = _RANGE_OF_ONE.search(said)
            if twice or one is not None:
                row = twice[0] if twice else one[1] if one is not None else ""
                yield Diagnostic.of(
                    RULE, f"`{said.strip()}` names row {row} twice", node.span, hint="give the other row's number"
                )
        elif isinstance(node, RowsAs) and node.rows.kind == "numbers":
            own = {n for first, last in node.label.ranges for n in range(_first(first) or 0, (_first(last) or 0) + 1)}
            copied = {n for first, last in node.rows.ranges for n in range(_first(first) or 0, (_first(last) or 0) + 1)}
            if own & copied:
                row = min(own & copied)
                yield Diagnostic.of(
                    RULE,
                    f"{node.label.unit} {row} is told as itself",
                    node.label.span,
                    hint=f"begin with {node.label.unit} {row + 1}",
                )


def _first(count: Count) -> int | None:
    """A row number; it is the same for every size, or the list is taken at its first."""
    return count.values[0] if count.values else None
