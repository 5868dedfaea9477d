"""A list rises with the sizes and falls back.

Cast-ons, printed totals, lengths to work to, measurements and yarn amounts go up with the size, or now and then down all
the way. One number that falls back among rising ones is usually two digits or two sizes swapped. Totals that follow from
a list that was told before, and what is left of a bind-off, are not told again.

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
from castoff.notation.nodes import nodes_of
from castoff.notation.syntax import BindOff, BindOffAct, CastOn, Count, InstructionLine, Note, Stated, UntilLength
from castoff.numeral import UNITS
from castoff.span import Span

Amounts = tuple[Fraction | int | None, ...]
RULE = Rule("size-numbers-shrink", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each list that goes both ways."""
    axes = evidence.pattern.sizes.axes
    if len(axes.first) < 3:
        return
    told_of: set[tuple[str, str, tuple[int, ...]]] = set()
    for what, values, unit, span, piece, run in _runs(evidence):
        known = [(index, value) for index in run if (value := values[index]) is not None]
        steps = [(b[0], a[1], b[1]) for a, b in itertools.pairwise(known)]
        rises = [step for step in steps if step[2] > step[1]]
        falls = [step for step in steps if step[2] < step[1]]
        if not rises or not falls:
            continue
        odd, verb = (falls, "falls") if len(falls) <= len(rises) else (rises, "rises")
        if piece is not None:  # counts follow from one another: where they turn is told once
            turn = (piece, verb, tuple(index for index, _, _ in odd))
            if turn in told_of:
                continue
            told_of.add(turn)
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


def _runs(evidence: Evidence) -> Iterator[tuple[str, Amounts, str, Span, str | None, range]]:
    """The lists along the sizes of one direction; of equal ones the first alone."""
    for what, values, unit, span, piece in _lists(evidence):
        seen = []
        for run in evidence.pattern.sizes.axes.runs:
            stretch = values[run.start : run.stop]
            if stretch not in seen:
                seen.append(stretch)
                yield what, values, unit, span, piece, run


def _lists(evidence: Evidence) -> Iterator[tuple[str, Amounts, str, Span, str | None]]:
    """What, its values, unit and place; and the piece, of counts on the needle."""
    pattern = evidence.pattern
    for body in pattern.sizes.body:
        yield f"the body's `{body.key.value}`", body.amounts.values, body.amounts.unit, body.amounts.span, None
    for yarn in pattern.yarns:
        if yarn.needs is not None:
            yield f"yarn `{yarn.key.value}`", yarn.needs.values, yarn.needs.unit, yarn.needs.span, None
    for finished in evidence.finished:
        if finished.values is not None:
            measurement = finished.measurement
            yield f"`{measurement.label.value}`", finished.values, "cm", measurement.expression.span(), None
    for placed in evidence.placed:
        node = placed.node
        if not all(placed.line.sizes):
            continue
        piece = pattern.sections[placed.section].piece.value
        if isinstance(node, CastOn) and node.count.formula is None:
            yield "the cast-on", node.count.values, "", node.count.span, piece
        elif isinstance(node, Stated) and not node.part and not node.change and isinstance(node.stitches, Count):
            if node.stitches.formula is None and not _bound_off(placed.line, node):
                yield "the total", node.stitches.values, "", node.stitches.span, piece
        elif isinstance(node, UntilLength) and node.length.formula is None:
            yield "the length", node.length.millimetres, node.length.unit, node.length.span, None


def _bound_off(line: InstructionLine, total: Stated) -> bool:
    """Whether a total says what a bind-off leaves: steps of an edge go by its shape, not by the size."""
    before = None
    for step in line.steps:
        nodes = tuple(nodes_of(step))
        if any(node is total for node in nodes):
            return before is not None and any(isinstance(node, BindOff | BindOffAct) for node in (*before, *nodes))
        before = nodes if not isinstance(step, Note) else before
    return False


def _shown(value: Fraction | int, unit: str) -> str:
    if not unit:
        return str(value)
    return f"{say_number(Fraction(value) / UNITS[unit][2], unit)} {unit}"
