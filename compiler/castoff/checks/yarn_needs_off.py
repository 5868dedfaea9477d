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
from castoff.checks.yarn_needed import needed_mm, stated_mm
from castoff.checks.yarn_short import REFUTED_BELOW, told
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("yarn-needs-off", "warning", __doc__ or "")

# An estimate may be a tenth too high; a swatch, long tails and a margin may double a small piece's figure.
_LEAST = 0.92
_MOST = 2.0
# of a whole ball no author states less
_SMALL_MM = 60_000.0


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each yarn whose stated amount is doubtful in some size."""
    needed = needed_mm(evidence)
    for yarn in evidence.pattern.yarns:
        stated = stated_mm(yarn, len(evidence.sizes))
        used = needed.get(yarn.key.value)
        if stated is None or used is None:
            continue
        # whole balls overshoot by up to one
        ball = float(yarn.ball.length.value) if yarn.needs is None and yarn.ball is not None else 0.0
        doubtful = [
            size
            for size, (has, takes) in enumerate(zip(stated, used, strict=True))
            if has is not None
            and (
                float(REFUTED_BELOW) * takes <= float(has) < _LEAST * takes
                or float(has) > _MOST * takes + max(ball, _SMALL_MM)
            )
        ]
        if doubtful:
            yield told(RULE, evidence, yarn, doubtful, stated, used)
