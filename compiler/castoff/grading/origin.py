"""Where a number comes from: the chain of formulas down to bodies, ease and gauge.

In: `Numbers` and a name. Out: `Step`s for one size, each with its formula, its value in words and how far rounding
moved it; and for whole tables, how far rounding moved a count as a length.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.grading.evaluate import RESERVED, Entry, Numbers
from castoff.grading.formula import Expression, FormulaFault, Name, Word, gauges_in
from castoff.grading.worth import Values
from castoff.span import Span
from castoff.trade.gauge import Gauge
from castoff.units import LENGTH, ROWS, STITCHES, Quantity, decimal, in_words


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the chain.

    depth: 0 for the number asked for, 1 for what it is worked out from, and so on.
    formula: as typed; for a gauge or body measurement, what the source or the table says.
    value: in words; "" where there is none.
    rounding: in words, such as "105.6 stitches before rounding"; "" when nothing was rounded.
    span: where it was typed; None for a published table.
    seen: whether the chain below it has been told already.
    quantity: the value, exact; None for a plan, a gauge, and where there is none.
    """

    depth: int
    name: str
    formula: str
    value: str
    rounding: str = ""
    span: Span | None = None
    seen: bool = False
    quantity: Quantity | None = None


def why(numbers: Numbers, asked: str | Entry, size: int) -> tuple[Step, ...]:
    """The chain of a number in one size, the number itself first; empty for an unknown name.

    asked: the name of a number, of a body measurement (`body.head`) or of a part of a plan (`taper.every`), or an
        entry made of any formula.
    """
    told: set[str] = set()
    if isinstance(asked, Entry):
        return tuple(_of_entry(numbers, asked, asked.name, size, 0, told))
    return tuple(_steps(numbers, asked, size, 0, told))


def _steps(numbers: Numbers, name: str, size: int, depth: int, told: set[str]) -> Iterator[Step]:
    entry = numbers.entry(name.split(".")[0])
    if entry is None:
        outside = _outside(numbers, name, size, depth)
        if outside is not None:
            yield outside
        return
    yield from _of_entry(numbers, entry, name, size, depth, told)


def _of_entry(numbers: Numbers, entry: Entry, name: str, size: int, depth: int, told: set[str]) -> Iterator[Step]:
    root = name.split(".")[0]
    seen = root in told
    told.add(root)
    formula = " ".join(entry.formula.value.split())
    whole = entry.values if name == entry.name else None
    quantity = None if whole is None else whole[size]
    value, rounding = _value(entry, size), _rounding(entry, size)
    yield Step(depth, name, formula, value, rounding, entry.formula.span(), seen, quantity)
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
    quantity = None if value is None else Quantity(value, worth.dimension)
    own = next((measure for measure in source.body if measure.key.value == rest[0]), None)
    if root == "gauge":
        return Step(depth, name, "as the gauge says", shown, quantity=quantity)
    if root == "fit":
        fit = numbers.scene.fit(rest[0])
        return Step(depth, name, f"published ease of `{'' if fit is None else fit.name}`", shown, quantity=quantity)
    if own is not None:
        return Step(depth, name, own.amounts.text.value, shown, span=own.amounts.span, quantity=quantity)
    standard = "" if source.standard is None else source.standard.value
    row = source.standard_sizes[size].value if source.standard_sizes else ""
    return Step(depth, name, f"table `{standard}`, size {row}", shown, quantity=quantity)


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


def gauge_of(numbers: Numbers, entry: Entry) -> Gauge | None:
    """The gauge that a count is knitted at: the one its formula works with, or that of the counts it is made of.

    None when nothing says so, or two gauges do.
    """
    keys = tuple(dict.fromkeys(_gauges_behind(numbers, entry, set())))
    if not keys and len(numbers.scene.gauges) == 1:
        return numbers.scene.gauges[0][1]
    return dict(numbers.scene.gauges)[keys[0]] if len(keys) == 1 else None


def _gauges_behind(numbers: Numbers, entry: Entry, seen: set[str]) -> Iterator[str]:
    if entry.expression is None or entry.name in seen:
        return
    seen.add(entry.name)
    own = _gauge_keys(numbers, entry.expression)
    yield from own
    if own or entry.worth is None:
        return
    for used in entry.needs:
        under = numbers.entry(used.split(".")[0])
        if under is not None and under.worth is not None and under.worth.dimension == entry.worth.dimension:
            yield from _gauges_behind(numbers, under, seen)


def extent_mm(numbers: Numbers, entry: Entry) -> Values | None:
    """How wide so many stitches are, or how long so many rows, in millimetres per size; None when nothing says so."""
    worth, gauge = entry.worth, gauge_of(numbers, entry)
    if worth is None or gauge is None or worth.dimension not in (STITCHES, ROWS):
        return None
    rate = _rate(gauge, worth.dimension == STITCHES)
    return None if rate is None else tuple(None if each is None else each / rate for each in worth.values)


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
    gauge = gauge_of(numbers, entry)
    if worth.dimension not in (STITCHES, ROWS) or gauge is None:
        return None
    rate = _rate(gauge, worth.dimension == STITCHES)
    return None if rate is None else tuple(None if each is None else each / rate for each in moved)


def _rate(gauge: Gauge, stitches: bool) -> Fraction | None:
    if stitches:
        return gauge.stitches_per_mm
    return None if gauge.rows is None else gauge.rows_per_mm
