"""A finished part is far from the body it covers.

Holds upper arm, armhole depth, width across the back and width of the neck against the body, as `sizes: body:` or the table
that the pattern names gives it. How much room each part usually has is common practice, set wide: a finding means that a
number was taken from another size or another part.

Fires:
    sizes: {names: "M (L)", standard: women}
    measurements: {upper_arm: {label: Upper arm, is: 33 (24) cm}}

Silent:
    sizes: {names: "M (L)", standard: women}
    measurements: {upper_arm: {label: Upper arm, is: 33 (35) cm}}
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.checks.evidence import Evidence, Finished
from castoff.checks.garment import cm
from castoff.checks.openings import body_mm
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("part-off-body", "warning", __doc__ or "")


@dataclass(frozen=True, slots=True)
class _Usual:
    """A part and what covers it.

    names: what the finished measurement is called. body, called: the body's measurement. share: of the body's.
    least, most: finished less that share of the body, in millimetres; common practice.
    """

    names: tuple[str, ...]
    body: str
    called: str
    share: Fraction
    least: Fraction
    most: Fraction


_ALL = Fraction(1)
_USUAL = (
    _Usual(("upper arm", "bicep"), "upper_arm", "upper arm", _ALL, Fraction(-30), Fraction(180)),
    _Usual(("armhole depth", "armhole"), "armhole_depth", "armhole depth", _ALL, Fraction(-25), Fraction(110)),
    _Usual(("cross back", "across back", "shoulder width"), "cross_back", "width across the back", _ALL, Fraction(-70),
           Fraction(120)),
    # the tables have no neck; flat across the back, it is some two fifths of the cross back
    _Usual(("neck width", "back neck"), "cross_back", "width across the back", Fraction(2, 5), Fraction(-60), Fraction(90)),
)  # fmt: skip


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each measurement, over all the sizes it hits."""
    for finished in evidence.finished:
        usual = _usual(finished)
        if usual is not None and finished.values is not None:
            yield from _held(evidence, finished, finished.values, usual)


def _usual(finished: Finished) -> _Usual | None:
    label = finished.measurement.label.value.casefold().replace("-", " ").strip()
    return next((usual for usual in _USUAL if any(label.startswith(name) for name in usual.names)), None)


def _held(
    evidence: Evidence, finished: Finished, values: tuple[Fraction | None, ...], usual: _Usual
) -> Iterator[Diagnostic]:
    off: list[tuple[int, Fraction, Fraction, Fraction]] = []
    for index, value in enumerate(values):
        body = body_mm(evidence, usual.body, index)
        if value is None or body is None:
            continue
        room = value - body * usual.share
        if not usual.least <= room <= usual.most:
            off.append((index, value, body, max(usual.least - room, room - usual.most)))
    if not off:
        return
    index, value, body, _ = max(off, key=lambda each: each[3])
    part = "" if usual.share == 1 else f" {usual.share.numerator}/{usual.share.denominator} of"
    low, high = body * usual.share + usual.least, body * usual.share + usual.most
    label = finished.measurement.label.value
    where = f" in {evidence.sizes[index]}" if len(evidence.sizes) > 1 else ""
    room = value - body * usual.share
    yield Diagnostic.of(
        RULE,
        f"`{label}` is {cm(value)}{where}, {cm(abs(room))} {'less' if room < 0 else 'more'} than{part} the body's "
        f"{usual.called} of {cm(body)}",
        finished.measurement.expression.span(),
        sizes=[evidence.sizes[each[0]] for each in off] if len(off) < len(evidence.sizes) else (),
        hint=f"between {cm(low)} and {cm(high)} is usual there",
    )
