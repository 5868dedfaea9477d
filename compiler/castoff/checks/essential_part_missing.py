"""A part is missing without which nobody can knit.

A pattern needs its yarn, its needles, a gauge, its finished measurements, and instructions. A source that is a fragment
says `excerpt: true` and is left alone.

Fires:
    gauge: {}

Fires:
    measurements: {}

Silent:
    excerpt: true
    measurements: {}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import InstructionLine

RULE = Rule("essential-part-missing", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each part that is missing."""
    pattern = evidence.pattern
    if pattern.excerpt:
        return
    told = any(isinstance(line, InstructionLine) for lines in evidence.lines for line in lines)
    mirrored = any(section.mirrors is not None for section in pattern.sections)
    parts = (
        (bool(pattern.yarns), "yarn", "list it under `yarns:` with its put-up, such as `ball: 200 m / 100 g`"),
        (bool(pattern.needles), "needles", "list them under `needles:`, such as `larger: {size: 5 mm}`"),
        (bool(pattern.gauges), "gauge", "give it under `gauge:`: `stockinette: {stitches: 20, rows: 28, over: 10 cm}`"),
        (bool(pattern.measurements), "finished measurements", "`measurements:` are what a knitter chooses the size by"),
        (told or mirrored, "instructions", "write them under `sections:`, in the `work: |` of each"),
    )  # fmt: skip
    for there, name, hint in parts:
        if not there:
            yield Diagnostic.of(RULE, f"the pattern has no {name}", pattern.title.span(), hint=hint)
