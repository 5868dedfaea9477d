"""Shaping every so many rows does not say on which row it begins.

"Dec 1 st at each end every 4th row 5 times" is worked by some on rows 1, 5, 9 and by others on rows 4, 8, 12: two
different lengths. "Of next and every following 4th row" says it.

Fires:
    Dec 1 st at each end of every 4th row 2 times.

Silent:
    Dec 1 st at each end of next and every foll 4th row 2 times.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence, Placed
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import Rate, ShapeRows

RULE = Rule("first-row-unsaid", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each shaping whose first rate is open."""
    for placed in evidence.placed:
        if isinstance(placed.node, ShapeRows) and placed.node.rates:
            rate = placed.node.rates[0]
            every = sorted({value for value in rate.every.values if value})
            if _goes_on(placed):
                continue
            if rate.first == "unsaid" and rate.every_side is None and every and every[-1] > 1:
                yield _finding(rate, every)


def _goes_on(placed: Placed) -> bool:
    """ "… until there are 70 sts, then at each end of every foll 4th row": counted from the shaping row before it."""
    steps = placed.line.steps
    at = next((at for at, step in enumerate(steps) if step is placed.node), 0)
    before = steps[at - 1] if at else None
    return isinstance(before, ShapeRows) and before.until is not None and before.act == placed.node.act


def _finding(rate: Rate, every: list[int]) -> Diagnostic:
    unit = rate.unit
    step = every[0]
    return Diagnostic.of(
        RULE,
        f"every {_ordinal(step)} {unit}, but which is the first: {unit}s 1, {1 + step}, {1 + 2 * step} … "
        f"or {unit}s {step}, {2 * step}, {3 * step} …",
        rate.span,
        hint=f"write `next and every foll {_ordinal(step)} {unit}`, or `every foll {_ordinal(step)} {unit}` after a "
        f"shaping {unit} of its own",
    )


def _ordinal(number: int) -> str:
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10 if number % 100 not in (11, 12, 13) else 0, "th")
    return f"{number}{ending}"
