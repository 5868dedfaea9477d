"""A number is typed as nothing in every size.

"Sl 0", "K0" or "0 times" tells the knitter to do nothing. In a list a size may well work none; a number that is 0 for all
of them is a slip, or a line to take out. (A computed number that comes to 0 vanishes from print by itself.)

Fires:
    Row 1 (RS): Sl 0, k to end.
    Row 2 (WS): Purl.

Silent:
    Row 1 (RS): Sl 1, k to end.
    Row 2 (WS): Purl.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import Count

RULE = Rule("zero-typed", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each typed number that is 0 in every size."""
    seen: set[int] = set()
    for placed in evidence.placed:
        node = placed.node
        if not isinstance(node, Count) or node.formula is not None or any(value != 0 for value in node.values):
            continue
        source = node.span.source.text[node.span.start : node.span.end]
        if node.span.start not in seen and "0" in source:
            seen.add(node.span.start)
            yield Diagnostic.of(
                RULE, f"`{source}` works nothing in any size", node.span, hint="give the number, or take the words out"
            )
