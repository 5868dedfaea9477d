"""A marker is listed and never placed.

The list says what to lay ready. A stitch marker on it that no line places was left over from another version, or the line
that places it was lost.

Fires:
    notions: [2 stitch markers]
    Work in st st for 4 rows.

Silent:
    notions: [2 stitch markers]
    Next row (RS): K10, pm, k20, pm, k10.
    Next row: Purl, removing markers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("marker-unused", "warning", __doc__ or "")

_LISTED = re.compile(r"\b(?:markers?|mkrs?)\b", re.IGNORECASE)
_SPOKEN_OF = re.compile(r"\bpm\b|\b(?:un)?mark(?:ed|er|ers|ing|s)?\b|\bmkrs?\b", re.IGNORECASE)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for the first notion that lists markers nobody places."""
    listed = next((notion for notion in evidence.pattern.notions if _LISTED.search(notion.value)), None)
    if listed is None:
        return
    spoken = (printed.text.value for printed in evidence.printed if printed.section is not None)
    patterns = (each.rows.value for each in evidence.pattern.stitch_patterns)
    if any(_SPOKEN_OF.search(text) for text in (*spoken, *patterns)):
        return
    yield Diagnostic.of(
        RULE,
        f"`{listed.value.strip()}` is listed, and no line places a marker",
        listed.span(),
        hint="say `pm` where it is placed, or take it off the list",
    )
