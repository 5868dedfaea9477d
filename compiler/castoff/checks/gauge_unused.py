"""A gauge is given and nothing is worked to it.

A gauge belongs to a fabric that is knitted: a section names it, or a formula does.

Fires:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
      lace: {stitches: 18, rows: 26, over: 10 cm, worked: flat, needles: larger}

Silent:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("gauge-unused", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each gauge that neither a section nor a formula names, when there are several."""
    pattern = evidence.pattern
    if len(pattern.gauges) < 2:
        return
    used = {section.gauge.value for section in pattern.sections if section.gauge is not None}
    formulas = "\n".join(
        [number.formula.value for number in pattern.numbers]
        + [measurement.expression.value for measurement in pattern.measurements]
        + [printed.text.value for printed in evidence.printed if "{" in printed.text.value]
    )
    for gauge in pattern.gauges:
        key = gauge.key.value
        if key not in used and not re.search(rf"(?:=\s*|gauge\.){re.escape(key)}(?!\w)", formulas):
            yield Diagnostic.of(
                RULE,
                f"gauge `{key}` is given, and nothing is worked to it",
                gauge.key.span(),
                hint=f"write `gauge: {key}` in the section that is worked in it, or take it out",
            )
