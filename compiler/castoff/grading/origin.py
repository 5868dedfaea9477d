"""Where a number comes from: the chain of formulas down to bodies, ease and gauge.

In: `Numbers` and a name. Out: `Step`s for one size, each with its formula, its value in words and how far rounding
moved it; and for whole tables, how far rounding moved a count as a length.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.grading.evaluate import RESERVED, Entry, Numbers
from castoff.grading.formula import Call, Expression, FormulaFault, Name, Word, gauges_in
from castoff.grading.worth import Values
from castoff.span import Span
from castoff.trade.gauge import Gauge
from castoff.units import LENGTH, ROWS, STITCHES, decimal, in_words


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the chain.

    depth: 0 for the number asked for, 1 for what it is worked out from, and so on.
    formula: as typed; for a gauge or body measurement, what the source or the table says.
    value: in words; "" where there is none.
    rounding: in words, such as "105.6 stitches before rounding"; "" when nothing was rounded.
    span: where it was typed; None for a published table.
    seen: whether the chain below it has been told already.
    """

    depth: int
    name: str
    formula: str
    value: str
    rounding: str = ""
    span: Span | None = None
    seen: bool = False


def why(numbers: Numbers, name: str, size: int) -> tuple[Step, ...]:
    """The chain of a number in one size, the number itself first; empty for an unknown name."""
    told: set[str] = set()
    return tuple(_steps(numbers, name, size, 0, told))


def _steps(numbers: Numbers, name: str, size: int, depth: int, told: set[str]) -> Iterator[Step]:
    root = name.split(".")[0]
    entry = numbers.entry(root)
    if entry is None:
        outside = _outside(numbers, name, size, depth)
        if outside is not None:
            yield outside
        return
    seen = root in told
    told.add(root)
    formula = " ".join(entry.formula.value.split())
    yield Step(depth, name, formula, _value(entry, size), _rounding(entry, size), entry.formula.span(), seen)
    if seen:
        return
    for used in entry.needs:
        if used.split(".")[0] != root:
            yield from _steps(numbers, used, size, depth + 1, told)
    if entry.expression is not None:
        for key in _gauge_keys(numbers, entry.expression):
            yield _gauge_step(numbers, key, depth + 1)


def _value(entry: Entry, size: int) -> str:
    if entry.plan is not None:
        plan = entry.plan.plans[size]
        if plan is None:
            return ""
        return plan.words
    value = None if entry.worth is None else entry.worth.values[size]
    return "" if value is None or entry.worth is None else in_words(value, entry.worth.dimension)


def _rounding(entry: Entry, size: int) -> str:
    worth = entry.worth
    before = None if worth is None or worth.before is None else worth.before[size]
    if worth is None or before is None or before == worth.values[size]:
        return ""
    return f"{in_words(before, worth.dimension)} before rounding"


def _outside(numbers: Numbers, name: str, size: int, depth: int) -> Step | None:
    """A body measurement or gauge rate."""
    root, *rest = name.split(".")
    source = numbers.scene.source
    place = source.span
    if root not in RESERVED or not rest:
        return None
    try:
        worth = numbers.scene.named(Name((root, *rest), place))
    except FormulaFault:
        return None
    value = worth.values[size]
    shown = "" if value is None else in_words(value, worth.dimension)
    own = next((measure for measure in source.body if measure.key.value == rest[0]), None)
    if root == "gauge":
        return Step(depth, name, "as the gauge says", shown)
    if own is not None:
        return Step(depth, name, own.amounts.text.value, shown, span=own.amounts.span)
    standard = "" if source.standard is None else source.standard.value
    row = source.standard_sizes[size].value if source.standard_sizes else ""
    return Step(depth, name, f"table `{standard}`, size {row}", shown)


def _gauge_keys(numbers: Numbers, expression: Expression) -> tuple[str, ...]:
    """Keys of the gauges that the functions of a formula use."""
    keys: list[str] = []
    for word in gauges_in(expression):
        found = gauge_key(numbers, word)
        if found is not None and found not in keys:
            keys.append(found)
    return tuple(keys)


def gauge_key(numbers: Numbers, word: Word | None) -> str | None:
    """The key of the gauge that a function uses: the one named, or the only one."""
    for key, gauge in numbers.scene.gauges:
        try:
            if numbers.scene.gauge(word, "gauge", numbers.scene.source.span) is gauge:
                return key
        except FormulaFault:
            return None
    return None


def _gauge_step(numbers: Numbers, key: str, depth: int) -> Step:
    gauge = dict(numbers.scene.gauges)[key]
    rows = "" if gauge.rows is None else f" and {decimal(gauge.rows)} rows"
    return Step(
        depth, f"gauge.{key}", f"{decimal(gauge.stitches)} stitches{rows} over {decimal(gauge.over_mm / 10, 2)} cm", ""
    )


def moved_mm(numbers: Numbers, entry: Entry) -> Values | None:
    """How far rounding moved a number, as a length in millimetres per size; None when that cannot be said.

    For a count it is the width or length of the stitches or rows that rounding added (or, below zero, took away).
    """
    worth = entry.worth
    if worth is None or worth.before is None:
        return None
    moved = tuple(
        None if before is None or after is None else after - before
        for before, after in zip(worth.before, worth.values, strict=True)
    )
    if worth.dimension == LENGTH:
        return moved
    if worth.dimension not in (STITCHES, ROWS) or not isinstance(entry.expression, Call):
        return None
    words = tuple(gauges_in(entry.expression))
    key = gauge_key(numbers, words[0]) if words else None
    gauge = None if key is None else dict(numbers.scene.gauges)[key]
    if gauge is None:
        return None
    rate = _rate(gauge, worth.dimension == STITCHES)
    return None if rate is None else tuple(None if each is None else each / rate for each in moved)


def _rate(gauge: Gauge, stitches: bool) -> Fraction | None:
    if stitches:
        return gauge.stitches_per_mm
    return None if gauge.rows is None else gauge.rows_per_mm
