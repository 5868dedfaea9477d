"""How much yarn each size takes, and how many balls that is.

In: the job and a yarn. Out: lines of inline text: the amount as the author states it, else as worked out from the
stitches with its margin, in length and in mass where the put-up tells both; then whole balls to buy.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from castoff.document.job import Job, YarnNeed
from castoff.document.tree import NO_BREAK_SPACE, Inline, Inlines, Text
from castoff.document.wording import Kind, Values, counts, decimal, measure
from castoff.knitting.fabric import Knitted
from castoff.knitting.yarn_use import loop_length_mm, swatch_loop_length_mm, yarn_lengths_mm
from castoff.model.pattern import Pattern, Yarn
from castoff.trade.gauge import Gauge

HOUSE_MARGIN = Fraction(1, 10)
"""Share of yarn added for safety where the pattern says none: the figure usually heard (common practice)."""


def yarn_amounts(job: Job, yarn: Yarn, *, short: bool = False) -> Iterator[Inlines]:
    """What is needed of a yarn and what is to be bought of it; nothing when neither is known.

    short: the length alone, for the front page.
    """
    lead = Text(job.say("materials", "amount_lead") + " ")
    stated = yarn.needs
    need = job.yarn_needs.get(yarn.key.value)
    length: Values | None = None
    if stated is not None:
        by_mass = stated.unit in ("g", "kg", "oz", "lb")
        kind: Kind = "mass" if by_mass else "yarn"
        yield (
            lead,
            *measure(
                stated.values, stated.unit, job.setting, twin=stated.twin, twin_unit=stated.twin_unit, kind=kind
            ),
            Text("."),
        )
        length = _length_of(yarn, stated.values) if by_mass else stated.values
    elif need is not None:
        length = need.length_mm
        parts: list[Inline] = [lead, *measure(length, "", job.setting, kind="yarn")]
        if short:
            yield (*parts, Text("."))
            return
        grams = _mass_of(yarn, length)
        if grams is not None:
            # one list of masses is enough beside two of lengths: grams, ounces where nothing else is metric
            one = replace(job.setting, units="imperial" if job.setting.units == "imperial" else "metric")
            parts += [Text(" ("), *measure(grams, "g", one, kind="mass"), Text(")")]
        name = "amount_estimated" if need.by_swatch else "amount_geometry"
        margin = f"{decimal(need.margin * 100)}{NO_BREAK_SPACE}%"
        parts.append(Text(job.say("materials", name, margin=margin) + "."))
        yield tuple(parts)
    balls = _balls(yarn, length)
    if balls is not None and not short:
        shown = job.setting.pick(balls)
        word = job.say("materials", "balls", one=set(shown) == {1})
        lead = Text(job.say("materials", "balls_lead") + " ")
        yield lead, *counts(balls, job.setting), Text(f"{NO_BREAK_SPACE}{word}.")


def estimated(
    pattern: Pattern, knitted: Knitted, margin: Fraction = HOUSE_MARGIN
) -> dict[str, YarnNeed]:
    """How much of each yarn the stitches take, by yarn key, the margin included; empty without a gauge.

    The length of a loop comes from a weighed swatch where the pattern has one; a gauge without a swatch of its own is
    worked out from one that has, by the geometry of plain knitting, which alone serves when there is no swatch at all.
    """
    lengths, by_swatch = _loop_lengths(pattern)
    if not lengths or not pattern.yarns:
        return {}
    margin = pattern.margin.value if pattern.margin is not None else margin
    only = pattern.yarns[0].key.value
    used: dict[str, list[Fraction | None]] = {yarn.key.value: [] for yarn in pattern.yarns}
    for size in knitted.sizes:
        found = yarn_lengths_mm(size.loops, lengths)
        found[only] = found.get(only, 0.0) + found.get("", 0.0)
        for key, values in used.items():
            # a tenth of a millimetre is far below what a loop varies by, and keeps the numbers short
            values.append(Fraction(round(found.get(key, 0.0) * 10), 10) * (1 + margin) or None)
    return {
        key: YarnNeed(tuple(values), margin, by_swatch)
        for key, values in used.items()
        if any(value is not None for value in values)
    }


def _loop_lengths(pattern: Pattern) -> tuple[dict[str | None, float], bool]:
    """Millimetres of a loop by gauge key, and whether a swatch stands behind them."""
    gauges = {
        stated.key.value: Gauge(
            stated.stitches.value, stated.rows.value if stated.rows is not None else None, stated.over.value
        )
        for stated in pattern.gauges
    }
    ball = next((yarn.ball for yarn in pattern.yarns if yarn.ball is not None), None)
    plain: dict[str | None, float] = {key: loop_length_mm(gauge) for key, gauge in gauges.items()}
    weighed: dict[str, float] = {}
    for swatch in pattern.swatches:
        gauge = gauges.get(swatch.key.value)
        if gauge is not None and ball is not None:
            per_gram = float(ball.length.value / ball.mass.value)
            weighed[swatch.key.value] = swatch_loop_length_mm(
                gauge, float(swatch.width.value), float(swatch.height.value), float(swatch.mass.value), per_gram
            )
    if weighed:
        share = sum(weighed[key] / plain[key] for key in weighed) / len(weighed)
        plain = {key: weighed.get(key or "", length * share) for key, length in plain.items()}
    if plain:
        plain[None] = next(iter(plain.values()))
    return plain, bool(weighed)


def _length_of(yarn: Yarn, grams: Values) -> Values | None:
    if yarn.ball is None:
        return None
    per_gram = yarn.ball.length.value / yarn.ball.mass.value
    return tuple(None if value is None else value * per_gram for value in grams)


def _mass_of(yarn: Yarn, length_mm: Values) -> Values | None:
    """Whole grams of a length, up."""
    if yarn.ball is None:
        return None
    per_mm = yarn.ball.mass.value / yarn.ball.length.value
    return tuple(None if value is None else Fraction(math.ceil(value * per_mm)) for value in length_mm)


def _balls(yarn: Yarn, length_mm: Values | None) -> tuple[int | None, ...] | None:
    """Whole balls: as stated, else by length; a started ball must be bought (common practice)."""
    if yarn.needs_balls is not None:
        return tuple(None if value is None else math.ceil(value) for value in yarn.needs_balls)
    if yarn.ball is None or length_mm is None:
        return None
    each = yarn.ball.length.value
    return tuple(None if value is None else max(1, math.ceil(value / each)) for value in length_mm)
