"""A step between two sizes is unlike the others.

Finished measurements grow by steady steps, or follow the body's. Where one step stands out, a digit has slipped or a
stitch repeat forces it; the author knows which.

Fires:
    sizes: {names: "1 (2, 3, 4, 5)"}
    measurements:
      chest: {label: Finished chest, is: "80 (90, 109, 110, 120) cm"}

Silent:
    sizes: {names: "1 (2, 3, 4, 5)"}
    measurements:
      chest: {label: Finished chest, is: "80 (90, 100, 110, 120) cm"}
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from fractions import Fraction
from statistics import median

from castoff.checks.body_pairs import worn
from castoff.checks.evidence import Evidence
from castoff.checks.unit_pairs import say_number
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("size-step-uneven", "warning", __doc__ or "")

# A step may differ from the usual one by six tenths of it, or by 3 cm: a stitch repeat of 6 sts at 20 sts to 10 cm.
# The figures are ours, set so that published tables with uneven but meant steps stay silent.
_SHARE = Fraction(6, 10)
_LEAST_MM = Fraction(30)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each measurement, naming the steps that stand out."""
    under = {pair.finished.measurement.key.value: pair.body.amounts.values for pair in worn(evidence)}
    for finished in evidence.finished:
        values = finished.values
        if values is None or len(values) < 4:
            continue
        body = under.get(finished.measurement.key.value)
        # what the body does not explain
        steps = _steps(values, evidence)
        odd = _outliers(steps)
        if body is not None and odd:
            odd = [index for index in odd if index in _outliers(_steps(_less(values, body), evidence), _LEAST_MM)]
        if not odd:
            continue
        names = evidence.sizes
        usual = median([step for step in steps if step is not None])
        told = "; ".join(
            f"{say_number(step / 10)} cm from {names[index]} to {names[index + 1]}"
            for index in odd
            if (step := steps[index]) is not None
        )
        yield Diagnostic.of(
            RULE,
            f"`{finished.measurement.label.value}` grows by {told}; elsewhere by about "
            f"{say_number(round(Fraction(usual) / 5) * Fraction(1, 2))} cm",
            finished.measurement.expression.span(),
            sizes=(names[index + 1] for index in odd),
        )


def _steps(values: tuple[Fraction | None, ...], evidence: Evidence) -> tuple[Fraction | None, ...]:
    """From each size to the next of the same direction; None where there is none."""
    ends = {run.start for run in evidence.pattern.sizes.axes.runs}
    return tuple(
        None if low is None or high is None or index in ends else high - low
        for index, (low, high) in enumerate(itertools.pairwise(values), 1)
    )


def _less(values: tuple[Fraction | None, ...], body: tuple[Fraction | None, ...]) -> tuple[Fraction | None, ...]:
    return tuple(None if a is None or b is None else a - b for a, b in zip(values, body, strict=True))


def _outliers(steps: tuple[Fraction | None, ...], least: Fraction = _LEAST_MM) -> list[int]:
    known = [step for step in steps if step is not None]
    if len(known) < 3:
        return []
    usual = median(known)
    allowed = max(abs(usual) * _SHARE, least)
    return [index for index, step in enumerate(steps) if step is not None and abs(step - usual) > allowed]
