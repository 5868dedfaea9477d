"""How much yarn each size takes, and how many balls that is.

In: the job and a yarn. Out: lines of inline text: the amount as the author states it, else as worked out from the
stitches with its margin, in length and in mass where the put-up tells both; then whole balls to buy.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from castoff.document.job import Job, YarnNeed
from castoff.document.tree import NO_BREAK_SPACE, Inline, Inlines, Text
from castoff.document.wording import Kind, Values, counts, decimal, measure
from castoff.model.pattern import Yarn
from castoff.yarn.estimate import Estimate


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
            *measure(stated.values, stated.unit, job.setting, twin=stated.twin, twin_unit=stated.twin_unit, kind=kind),
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


def needs_of(estimates: Iterable[Estimate]) -> dict[str, YarnNeed]:
    """What is printed of the yarn stage's estimates, by yarn key: whole metres, up, swatch and margin included."""
    return {
        each.yarn.key.value: YarnNeed(
            tuple(Fraction(each.metres(size)) * 1000 for size in range(len(each.amounts))),
            each.margin,
            each.method == "swatch",
        )
        for each in estimates
    }


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
