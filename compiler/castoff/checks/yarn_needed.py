"""How much of each yarn the fabric takes.

In: the evidence. Out: metres' worth of millimetres per yarn and size, without margin: the loops that were knitted, each
as long as a weighed swatch says or as plain-knit geometry has it, and the tails that every piece needs.
"""

from __future__ import annotations

from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.knitting.yarn_use import loop_length_mm, swatch_loop_length_mm, yarn_lengths_mm
from castoff.model.pattern import Yarn
from castoff.trade.gauge import Gauge

TAIL_MM = 150
"""Left hanging wherever yarn is joined, broken, cast on or bound off, to be woven in (common practice)."""
HOUSE_MARGIN = Fraction(1, 10)
"""Share added for safety when the pattern declares none (from memory: the figure usually heard)."""


def needed_mm(evidence: Evidence) -> dict[str, tuple[float, ...]]:
    """Millimetres of each yarn by its key, one number per size; a yarn that no row uses is left out."""
    pattern = evidence.pattern
    only = pattern.yarns[0].key.value if len(pattern.yarns) == 1 else ""
    loops = _loop_lengths(evidence)
    needed: dict[str, list[float]] = {}
    for at, size in enumerate(evidence.knitted.sizes):
        for key, length in yarn_lengths_mm(size.loops, loops).items():
            known = key or only
            if known:
                needed.setdefault(known, [0.0] * len(evidence.knitted.sizes))[at] += length
        ends = sum(
            piece.make * sum(event.kind in ("cast on", "bind off", "join yarn", "break yarn") for event in piece.events)
            for piece in size.pieces.values()
        )
        if only and only in needed:
            needed[only][at] += ends * TAIL_MM
    return {key: tuple(lengths) for key, lengths in needed.items()}


def _loop_lengths(evidence: Evidence) -> dict[str | None, float]:
    pattern = evidence.pattern
    balls = [yarn.ball for yarn in pattern.yarns if yarn.ball is not None]
    lengths: dict[str | None, float] = {}
    for stated in pattern.gauges:
        gauge = Gauge(stated.stitches.value, stated.rows.value if stated.rows else None, stated.over.value)
        length = loop_length_mm(gauge)
        swatch = next((swatch for swatch in pattern.swatches if swatch.key.value == stated.key.value), None)
        if swatch is not None and balls:
            per_gram = balls[0].length.value / balls[0].mass.value
            length = swatch_loop_length_mm(
                gauge, float(swatch.width.value), float(swatch.height.value), float(swatch.mass.value), float(per_gram)
            )
        lengths[stated.key.value] = length
    if lengths:
        lengths.setdefault(None, next(iter(lengths.values())))
    return lengths


def stated_mm(yarn: Yarn, sizes: int) -> tuple[Fraction | None, ...] | None:
    """What the source says is needed, in millimetres per size: as a length, by mass, or in whole balls."""
    ball = yarn.ball
    if yarn.needs is not None:
        values = yarn.needs.values
        if yarn.needs.unit in ("g", "kg", "oz", "lb"):
            if ball is None:
                return None
            per_gram = ball.length.value / ball.mass.value
            values = tuple(None if value is None else value * per_gram for value in values)
    elif yarn.needs_balls is not None and ball is not None:
        values = tuple(None if value is None else value * ball.length.value for value in yarn.needs_balls)
    else:
        return None
    return values * sizes if len(values) == 1 else values
