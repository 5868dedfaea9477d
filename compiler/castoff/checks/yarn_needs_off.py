"""The yarn stated is far from what the fabric takes.

Less than the fabric takes by the estimate, though not by so much that it is refuted, or more than twice as much: a knitter
who buys by it runs short, or pays for yarn that stays in the bag.

Fires:
    yarns: {A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g, needs: 300 m}}

Silent:
    yarns: {A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g, needs: 30 m}}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.checks.yarn_needed import amounts, told
from castoff.checks.yarn_short import REFUTED_BELOW
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("yarn-needs-off", "warning", __doc__ or "")

# An estimate may be a tenth too high; a swatch, long tails and a margin may double a small piece's figure.
_LEAST = 0.92
_MOST = 2.0
# less than this no author states
_SMALL_MM = 60_000.0


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each yarn whose stated amount is doubtful in some size."""
    for amount in amounts(evidence):
        yarn = amount.yarn
        # whole balls overshoot by up to one
        ball = float(yarn.ball.length.value) if yarn.needs is None and yarn.ball is not None else 0.0
        doubtful = [
            size
            for size, (has, takes) in enumerate(zip(amount.stated, amount.used, strict=True))
            if has is not None
            and (
                REFUTED_BELOW * takes <= float(has) < _LEAST * takes
                or float(has) > _MOST * takes + max(ball, _SMALL_MM)
            )
        ]
        if doubtful:
            yield told(RULE, evidence, amount, doubtful)
