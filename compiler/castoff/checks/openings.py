"""What an opening of a garment stretches to.

In: the evidence. Out: the stretched width of an opening, and the smallest head it may have to pass. A knitted edge gives by
half of its width when nothing else is said (common practice for ribs bound off loosely); a gauge may state its own
`stretch`.
"""

from __future__ import annotations

from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.grading.formula import FormulaFault, Name
from castoff.units import LENGTH

STRETCH = Fraction(1, 2)
# rows of the published table `heads_standard`: the smallest head that a garment for these wearers is put on over
_HEADS = (("adult", "woman"), ("child", "toddler"), ("baby", "baby"))


def stretch_at(evidence: Evidence, gauge: str | None) -> Fraction:
    """By what share of its width fabric of a gauge stretches."""
    stated = None if gauge is None else evidence.pattern.gauge(gauge)
    return STRETCH if stated is None or stated.stretch is None else stated.stretch.value


def body_mm(evidence: Evidence, name: str, size: int) -> Fraction | None:
    """A body measurement of a size: the source's own, else the table's; None when neither gives it."""
    try:
        worth = evidence.numbers.scene.named(Name(("body", name), evidence.pattern.sizes.span))
    except FormulaFault:
        return None
    return worth.values[size] if worth.dimension == LENGTH else None


def smallest_head_mm(evidence: Evidence) -> tuple[Fraction, str] | None:
    """The smallest head of the audience, and the row of the table it comes from."""
    row = dict(_HEADS).get(evidence.pattern.audience.value)
    table = evidence.trade.bodies.find("heads_standard")
    bounds = None if table is None or row is None else table.look_up("head", row, "cm")
    return None if bounds is None or row is None else (bounds[0] * 10, row)
