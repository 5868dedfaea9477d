"""Needles are listed and never called for.

Needles under a key must be named by some line ("change to larger needles"), or be the `needles:` of a section. Needles
that only a gauge names are listed and never taken up: often a change back that was forgotten. An excerpt need not use
what its whole pattern lists.

Fires:
    needles:
      larger: {size: 5 mm, type: circular, length: 40 cm}
      spare: {size: 4 mm, type: circular, length: 40 cm}

Silent:
    needles:
      larger: {size: 5 mm, type: circular, length: 40 cm}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("needle-unused", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each set of needles without a mention, when there are several."""
    pattern = evidence.pattern
    if len(pattern.needles) < 2 or pattern.excerpt:
        return
    taken = {section.needles.value for section in pattern.sections if section.needles is not None}
    taken |= {
        event.name
        for size in evidence.knitted.sizes
        for piece in size.pieces.values()
        for event in piece.events
        if event.kind == "change needles"
    }
    words = "\n".join(printed.text.value for printed in evidence.printed if printed.section is not None)
    for needle in pattern.needles:
        key = needle.key.value
        sizes = () if needle.size_mm is None else evidence.trade.needles.names(needle.size_mm)
        called = "|".join(re.escape(name).replace("\\ ", r"\s*(?:size\s*)?#?") for name in (key, *sizes))
        if key not in taken and not re.search(rf"(?<![\w.])(?:{called})(?!\w)", words, re.IGNORECASE):
            yield Diagnostic.of(
                RULE,
                f"needles `{key}` are listed, and no line calls for them",
                needle.key.span(),
                hint=f"say `with {key} needles` or `change to {key} needles` where they are taken up",
            )
