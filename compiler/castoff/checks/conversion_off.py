"""The two units of a pair are not the same length.

Holds every length, mass and needle size that the source prints in two units against one conversion. A pair is right
when one length rounds to both numbers (inches to the quarter, centimetres to the half or whole). The trade converts by
2.5 cm to the inch, because gauge is 4 in = 10 cm, or by the exact 2.54: the factor declared as `inch:` decides; without
one, whichever factor explains every pair. Half of the knitters read the other number.

Fires:
    measurements:
      chest: {label: Chest, is: 44 in / 102 cm}

Silent:
    measurements:
      chest: {label: Chest, is: 44 in / 112 cm}

Silent:
    inch: 2.5
    measurements:
      chest: {label: Chest, is: 44 in / 110 cm}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.checks.unit_pairs import INCH, TRADE_INCH, Pair, converted, pairs_in, same_amount, say
from castoff.diagnostic import Diagnostic, Related, Rule

RULE = Rule("conversion-off", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each pair that is wrong in some size."""
    pattern = evidence.pattern
    pairs = [
        (printed.where == "needle", pair)
        for printed in evidence.printed
        for pair in pairs_in(printed.text, pattern.sizes.axes)
    ]
    lengths = [pair for needle, pair in pairs if not needle and _has_inches(pair)]
    inch = pattern.inch.value if pattern.inch is not None else likelier_inch(lengths)
    for needle, pair in pairs:
        wrong = _wrong(pair, inch)
        if needle and wrong:
            wrong = _wrong_needle_length(evidence, pair)
        if wrong:
            yield _finding(evidence, pair, wrong, inch, not needle and _has_inches(pair))


def likelier_inch(pairs: list[Pair]) -> Fraction:
    """The factor that explains more pairs of a source; the exact one when both explain as many."""
    exact = sum(bool(_wrong(pair, INCH)) for pair in pairs)
    trade = sum(bool(_wrong(pair, TRADE_INCH)) for pair in pairs)
    return TRADE_INCH if trade < exact else INCH


def _has_inches(pair: Pair) -> bool:
    return "in" in (pair.first_unit, pair.second_unit) or "ft" in (pair.first_unit, pair.second_unit)


def _wrong(pair: Pair, inch: Fraction) -> tuple[int, ...]:
    """Indices of the sizes (or ends of a range) whose two numbers are not one amount."""
    return tuple(
        index
        for index, (first, second) in enumerate(zip(pair.first, pair.second, strict=True))
        if (first is None) != (second is None)
        or (
            first is not None
            and second is not None
            and not same_amount(first, pair.first_unit, second, pair.second_unit, inch)
        )
    )


def _wrong_needle_length(evidence: Evidence, pair: Pair) -> tuple[int, ...]:
    """Needles are sold under round names in both systems, whatever the pattern's factor: 80 cm is called 32 in."""
    both = set(_wrong(pair, INCH)) & set(_wrong(pair, TRADE_INCH))
    return tuple(index for index in sorted(both) if not _is_name(evidence, pair, index))


def _is_name(evidence: Evidence, pair: Pair, index: int) -> bool:
    said = {pair.first_unit: pair.first[index], pair.second_unit: pair.second[index]}
    inches, cm = said.get("in"), said.get("cm")
    return inches is not None and cm is not None and evidence.trade.pairs.is_customary("circular needle", inches, cm)


def _finding(evidence: Evidence, pair: Pair, wrong: tuple[int, ...], inch: Fraction, by_inch: bool) -> Diagnostic:
    names = evidence.sizes
    factor = f" by {float(inch / 10):g}" if by_inch else ""
    said: list[str] = []
    right: list[str] = []
    for index in wrong:
        first, second = pair.first[index], pair.second[index]
        size = f"size {names[index]}: " if pair.by_size else ""
        if first is None or second is None:
            said.append(f"{size}a number in one unit and a dash in the other")
            continue
        there = say(converted(first, pair.first_unit, pair.second_unit, inch), pair.second_unit)
        back = say(converted(second, pair.second_unit, pair.first_unit, inch), pair.first_unit)
        one, other = say(first, pair.first_unit), say(second, pair.second_unit)
        said.append(f"{size}{one} is {there}{factor}, not {other}")
        right.append(f"{one} / {there}, or {back} / {other}")
    declared = evidence.pattern.inch
    related: tuple[Related, ...] = ()
    if by_inch and declared is not None and declared.span is not None:
        related = (Related(declared.span, "the factor is declared here"),)
    return Diagnostic.of(
        RULE,
        "; ".join(said),
        pair.span,
        sizes=(names[index] for index in wrong) if pair.by_size else (),
        hint="; ".join(right) or None,
        related=related,
    )
