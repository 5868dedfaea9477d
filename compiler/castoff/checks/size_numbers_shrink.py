"""A list rises with the sizes and falls back.

Cast-ons, printed totals, lengths to work to, measurements and yarn amounts go up with the size, or now and then down all
the way. One number that falls back among rising ones is usually two digits or two sizes swapped.

Fires:
    sizes: {names: "S (M, L, XL)", body: {chest: "80 (98, 90, 100) cm"}}

Silent:
    sizes: {names: "S (M, L, XL)", body: {chest: "80 (90, 98, 100) cm"}}
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.checks.unit_pairs import say_number
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import CastOn, Count, Stated, UntilLength
from castoff.numeral import UNITS
from castoff.span import Span

RULE = Rule("size-numbers-shrink", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each list that goes both ways."""
    axes = evidence.pattern.sizes.axes
    if len(axes.first) < 3:
        return
    for what, values, unit, span, run in _runs(evidence):
        known = [(index, value) for index in run if (value := values[index]) is not None]
        steps = [(b[0], a[1], b[1]) for a, b in itertools.pairwise(known)]
        rises = [step for step in steps if step[2] > step[1]]
        falls = [step for step in steps if step[2] < step[1]]
        if not rises or not falls:
            continue
        odd, verb = (falls, "falls") if len(falls) <= len(rises) else (rises, "rises")
        names = evidence.sizes
        told = ", ".join(
            f"{verb} from {_shown(low, unit)} to {_shown(high, unit)} in {names[index]}" for index, low, high in odd
        )
        yield Diagnostic.of(
            RULE,
            f"{what} {told}, and goes the other way elsewhere",
            span,
            sizes=(names[index] for index, _, _ in odd),
            hint="look for two digits or two sizes that changed places",
        )


def _runs(evidence: Evidence) -> Iterator[tuple[str, tuple[Fraction | int | None, ...], str, Span, range]]:
    """The lists along the sizes of one direction; of equal ones the first alone."""
    for what, values, unit, span in _lists(evidence):
        seen = []
        for run in evidence.pattern.sizes.axes.runs:
            stretch = values[run.start : run.stop]
            if stretch not in seen:
                seen.append(stretch)
                yield what, values, unit, span, run


def _lists(evidence: Evidence) -> Iterator[tuple[str, tuple[Fraction | int | None, ...], str, Span]]:
    pattern = evidence.pattern
    for body in pattern.sizes.body:
        yield f"the body's `{body.key.value}`", body.amounts.values, body.amounts.unit, body.amounts.span
    for yarn in pattern.yarns:
        if yarn.needs is not None:
            yield f"yarn `{yarn.key.value}`", yarn.needs.values, yarn.needs.unit, yarn.needs.span
    for finished in evidence.finished:
        if finished.values is not None:
            measurement = finished.measurement
            yield f"`{measurement.label.value}`", finished.values, "cm", measurement.expression.span()
    for placed in evidence.placed:
        node = placed.node
        if not all(placed.line.sizes):
            continue
        if isinstance(node, CastOn) and node.count.formula is None:
            yield "the cast-on", node.count.values, "", node.count.span
        elif isinstance(node, Stated) and not node.part and not node.change and isinstance(node.stitches, Count):
            if node.stitches.formula is None:
                yield "the total", node.stitches.values, "", node.stitches.span
        elif isinstance(node, UntilLength) and node.length.formula is None:
            yield "the length", node.length.millimetres, node.length.unit, node.length.span


def _shown(value: Fraction | int, unit: str) -> str:
    if not unit:
        return str(value)
    return f"{say_number(Fraction(value) / UNITS[unit][2], unit)} {unit}"
