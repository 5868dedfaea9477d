"""The yarn's category does not knit to this gauge.

The standard gives every yarn category a range of stitches in stockinette. A worsted at 32 stitches, or a lace yarn at
14, is a slip of the pen more often than a design; lace and felted fabrics are accepted under `allow:`.

Fires:
    yarns: {A: {name: Low Tide Fingering, weight: fingering, ball: 400 m / 100 g}}

Silent:
    yarns: {A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.checks.unit_pairs import say_number
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.model.pattern import StatedGauge
from castoff.trade.materials import YarnWeight

RULE = Rule("yarn-weight-off-gauge", "warning", __doc__ or "")

# Ranges of the standard meet end to end and many designs sit just outside; 2 stitches either way are no slip.
_LEEWAY = Fraction(2)
_PLAIN = ("stockinette", "stocking", "st st", "plain")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each yarn whose category is far from the plain gauge."""
    gauges = [gauge for gauge in evidence.pattern.gauges if _plain(gauge)]
    if not gauges or len({yarn.held.value for yarn in evidence.pattern.yarns}) > 1:
        return
    stitches = [_per_10_cm(gauge) for gauge in gauges]
    for yarn in evidence.pattern.yarns:
        if yarn.weight is None or yarn.held.value != 1:
            continue
        weights = evidence.trade.yarn_weights.find(yarn.weight.value)
        ranges = [weight.gauge for weight in weights if weight.gauge != (None, None)]
        if not ranges or any(_near(each, low, high) for each in stitches for low, high in ranges):
            continue
        low = min((low for low, _ in ranges if low is not None), default=None)
        high = max((high for _, high in ranges if high is not None), default=None)
        usual = "–".join(say_number(end) for end in (low, high) if end is not None)
        fits = evidence.trade.yarn_weights.by_gauge(stitches[0])
        yield Diagnostic.of(
            RULE,
            f"{yarn.weight.value} is knitted at {usual} stitches to 10 cm, and the gauge has {say_number(stitches[0])}",
            yarn.weight.span(),
            hint=f"{' or '.join(_name(evidence, weight) for weight in fits)} suits this gauge" if fits else None,
            related=(Related(gauges[0].stitches.span or gauges[0].key.span(), "the gauge"),),
        )


def _name(evidence: Evidence, weight: YarnWeight) -> str:
    names = weight.names("UK" if evidence.pattern.terms.value == "UK" else "US")
    return names[0] if names else weight.name


def _plain(gauge: StatedGauge) -> bool:
    words = f"{gauge.key.value} {gauge.fabric.value if gauge.fabric is not None else ''}".casefold()
    return any(name in words for name in _PLAIN)


def _per_10_cm(gauge: StatedGauge) -> Fraction:
    over = gauge.over.value
    # 4 in and 10 cm are one square
    square = Fraction(1016, 10) if gauge.over.unit == "in" else Fraction(100)
    return gauge.stitches.value * square / over


def _near(stitches: Fraction, low: Fraction | None, high: Fraction | None) -> bool:
    return (low is None or stitches >= low - _LEEWAY) and (high is None or stitches <= high + _LEEWAY)
