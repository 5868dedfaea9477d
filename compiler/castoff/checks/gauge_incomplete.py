"""A gauge lacks its rows.

Without a row gauge no length can be worked out or held to, and the knitter cannot tell whether the piece will come out
long. It is also the half of the gauge that differs most between knitters.

Fires:
    gauge:
      stockinette: {stitches: 20, over: 10 cm, worked: flat, needles: larger}

Silent:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("gauge-incomplete", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each gauge without rows."""
    for gauge in evidence.pattern.gauges:
        if gauge.rows is None:
            yield Diagnostic.of(
                RULE,
                f"gauge `{gauge.key.value}` says {_number(float(gauge.stitches.value))} stitches and no rows",
                gauge.stitches.span or gauge.key.span(),
                hint="give `rows:` over the same length",
            )


def _number(value: float) -> str:
    return f"{value:g}"
