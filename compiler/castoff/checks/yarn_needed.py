"""What the source says of a yarn's amount, beside what the fabric takes of it.

In: the evidence. Out: `Amount`s for every yarn that has both, in millimetres per size. The estimate is the yarn stage's:
loops that were knitted, each as long as a weighed swatch or plain-knit geometry has it, cast-on, ends and seams.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.model.pattern import Yarn
from castoff.per_size import pair_list, size_list
from castoff.yarn.estimate import Estimate, estimate


@dataclass(frozen=True, slots=True)
class Amount:
    """A yarn with its stated amount and its estimate, in millimetres per size. used: without swatch and margin."""

    yarn: Yarn
    stated: tuple[Fraction | None, ...]
    used: tuple[float, ...]
    estimate: Estimate


def amounts(evidence: Evidence) -> Iterator[Amount]:
    """The yarns whose amount is stated, in the order of the source."""
    pattern = evidence.pattern
    if not any(yarn.needs is not None or yarn.needs_balls is not None for yarn in pattern.yarns):
        return
    for each in estimate(pattern, evidence.knitted, evidence.trade.stitches, evidence.margin):
        stated = stated_mm(each.yarn, len(evidence.sizes))
        if stated is not None:
            yield Amount(each.yarn, stated, tuple(amount.used for amount in each.amounts), each)


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


def told(rule: Rule, evidence: Evidence, amount: Amount, sizes: list[int]) -> Diagnostic:
    """A finding on a stated amount in some sizes, with the estimate and what would be right."""
    names = evidence.sizes
    form = evidence.pattern.sizes
    has = size_list(tuple(f"{float(amount.stated[size] or 0) / 1000:.0f}" for size in sizes))
    takes = size_list(tuple(f"{amount.used[size] / 1000:.0f}" for size in sizes))
    right = tuple(str(amount.estimate.metres(size)) for size in range(len(names)))
    shown = pair_list(right, form.axes, form.opener, form.grouping)
    yarn = amount.yarn
    return Diagnostic.of(
        rule,
        f"{has} m of yarn `{yarn.key.value}` are stated, and the fabric takes about {takes} m",
        yarn.needs.span if yarn.needs is not None else yarn.key.span(),
        sizes=(names[size] for size in sizes) if len(sizes) < len(names) else (),
        hint=f"with a swatch and {float(amount.estimate.margin * 100):g} % to spare: {shown} m",
    )
