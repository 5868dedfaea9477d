"""Two rates at the same time shape the same edge.

"At armhole edge …; at the same time, at armhole edge …": one of the two is the neck edge. The stitches come out right, and
the piece does not.

Fires:
    Dec 1 st at armhole edge of next and every foll alt row 3 times in all; at the same time, dec 1 st at armhole edge of next and every foll 4th row 2 times in all. 35 sts.
    Purl 1 row.

Silent:
    Dec 1 st at armhole edge of next and every foll alt row 3 times in all; at the same time, dec 1 st at neck edge of next and every foll 4th row 2 times in all. 35 sts.
    Purl 1 row.
"""  # noqa: E501 - an example is one line

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.notation.syntax import EndShaping, InstructionLine, Meanwhile, ShapeRows, Step

RULE = Rule("edge-shaped-twice", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each second rate at an edge that is named."""
    for lines in evidence.lines:
        steps = [step for line in lines if isinstance(line, InstructionLine) for step in line.steps]
        for before, step in pairwise(steps):
            if isinstance(step, Meanwhile):
                yield from _judge(before, step)


def _judge(before: Step, beside: Meanwhile) -> Iterator[Diagnostic]:
    first = _edge(before)
    for step in beside.steps:
        second = _edge(step)
        if first is not None and second is not None and first.ends == second.ends and first.decrease == second.decrease:
            yield Diagnostic.of(
                RULE,
                f"both are worked at the {second.ends} at the same time",
                second.span,
                hint="name the other edge in one of them",
                related=(Related(first.span, "here as well"),),
            )


def _edge(step: Step) -> EndShaping | None:
    """Shaping at one edge that has a name."""
    act = step.act if isinstance(step, ShapeRows) else None
    return act if isinstance(act, EndShaping) and act.ends.endswith(" edge") and "each" not in act.ends else None
