"""Less yarn is stated than the fabric takes.

Counts the loops of every row in every size, takes their length from the weighed swatch or from the gauge, and holds the
sum against `needs:`. An amount below it by more than such an estimate can err leaves the knitter a sleeve short.

Fires:
    yarns: {A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g, needs: 5 m}}

Silent:
    yarns: {A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g, needs: 30 m}}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.checks.yarn_needed import amounts, told
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("yarn-short", "error", __doc__ or "")

# An estimate from the gauge alone lands within a tenth of the yarn used, one in ten beyond it; twice that refutes.
REFUTED_BELOW = 0.8


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each yarn of which some size has too little."""
    for amount in amounts(evidence):
        short = [
            size
            for size, (has, takes) in enumerate(zip(amount.stated, amount.used, strict=True))
            if has is not None and float(has) < takes * REFUTED_BELOW
        ]
        if short:
            yield told(RULE, evidence, amount, short)
