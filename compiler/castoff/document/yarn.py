"""How much yarn each size takes, and how many balls that is.

In: the job and a yarn. Out: lines of inline text: the amount as the author states it, else as worked out from the
stitches with its margin, in length and in mass where the put-up tells both; then whole balls to buy.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from castoff.document.job import Job
from castoff.document.tree import NO_BREAK_SPACE, Inline, Inlines, Text
from castoff.document.wording import Kind, Values, counts, decimal, measure
from castoff.model.pattern import Yarn


def yarn_amounts(job: Job, yarn: Yarn) -> Iterator[Inlines]:
    """What is needed of a yarn and what is to be bought of it; nothing when neither is known."""
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
        grams = _mass_of(yarn, length)
        if grams is not None:
            parts += [Text(" ("), *measure(grams, "g", job.setting, kind="mass"), Text(")")]
        name = "amount_estimated" if need.by_swatch else "amount_geometry"
        margin = f"{decimal(need.margin * 100)}{NO_BREAK_SPACE}%"
        parts.append(Text(job.say("materials", name, margin=margin) + "."))
        yield tuple(parts)
    balls = _balls(yarn, length)
    if balls is not None:
        shown = job.setting.pick(balls)
        word = job.say("materials", "balls", one=set(shown) == {1})
        lead = Text(job.say("materials", "balls_lead") + " ")
        yield lead, *counts(balls, job.setting), Text(f"{NO_BREAK_SPACE}{word}.")


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
