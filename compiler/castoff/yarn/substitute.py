"""Another yarn instead: how many balls of it, and whether it fits.

In: an estimate, another put-up, and the gauge on the other yarn's band. Out: a `Substitute` with balls per size and what
speaks against it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from castoff.trade.materials import PutUp, YarnWeights
from castoff.yarn.estimate import Estimate


@dataclass(frozen=True, slots=True)
class Substitute:
    """balls: whole balls per size. doubts: what speaks against the yarn, in words; empty when nothing does."""

    balls: tuple[int, ...]
    doubts: tuple[str, ...]


def substitute(
    need: Estimate,
    put_up: PutUp,
    band: tuple[Fraction, Fraction] | None,
    stitches_per_10_cm: Fraction,
    weights: YarnWeights,
) -> Substitute:
    """Balls of another yarn for the same fabric.

    band: stitches to 10 cm that the other yarn's band gives, lowest and highest; None when it gives none.
    """
    length_mm = float(put_up.length_mm)
    balls = tuple(max(1, ceil(each.total / length_mm)) for each in need.amounts)
    return Substitute(balls, tuple(_doubts(need, put_up, band, stitches_per_10_cm, weights)))


def _doubts(
    need: Estimate,
    put_up: PutUp,
    band: tuple[Fraction, Fraction] | None,
    stitches: Fraction,
    weights: YarnWeights,
) -> Sequence[str]:
    doubts = []
    if band is not None and not band[0] <= stitches <= band[1]:
        doubts.append(f"the band gives {_range(band)} stitches to 10 cm, the pattern has {_plain(stitches)}")
    if need.yarn.ball is not None:
        ours = need.yarn.ball.length.value / need.yarn.ball.mass.value / 10
        theirs = put_up.m_per_100g
        apart = abs(theirs / ours - 1)
        if apart > Fraction(15, 100):
            word = "thinner" if theirs > ours else "thicker"
            doubts.append(
                f"it measures {_plain(put_up.m_per_100g)} m to 100 g, the pattern's yarn {_plain(ours)} m: "
                f"{round(float(apart) * 100)} % {word}"
            )
    asked = [each.name for each in weights.find(need.yarn.weight.value)] if need.yarn.weight is not None else []
    if asked and band is not None:
        names = [weight.name for weight in weights.by_gauge((band[0] + band[1]) / 2)]
        if names and not set(names) & set(asked):
            doubts.append(f"by its band it is {' or '.join(names)}, the pattern asks for {' or '.join(asked)}")
    return doubts


def _plain(value: Fraction) -> str:
    return f"{float(value):g}" if value.denominator != 1 else str(value.numerator)


def _range(band: tuple[Fraction, Fraction]) -> str:
    return _plain(band[0]) if band[0] == band[1] else f"{_plain(band[0])} to {_plain(band[1])}"
