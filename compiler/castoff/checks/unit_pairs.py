"""Lengths and masses that a source says twice, `13 (14, 15) cm / 5 (5½, 6) in`, wherever they stand.

In: a text and the number of sizes. Out: `Pair`s with their places, and the arithmetic of whether the two halves can be
one length: they can when some length rounds to both at the printed rounding.

Rounding of the trade (common practice; published leaflets and schematics hold to it): inches to the quarter,
centimetres to the half or the whole; "published" here means the sources named in tests/checks/test_unit_pairs.py.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.numeral import UNITS, VULGAR, Misfit, NumeralList, read_list, read_measure, read_numeral, read_unit
from castoff.per_size import Axes
from castoff.span import Span, Text

INCH = Fraction(254, 10)
"""Exact inch in millimetres, 16 CFR 500.19."""
TRADE_INCH = Fraction(25)
"""The inch of a trade whose gauge square is 4 in = 10 cm."""

_GLYPH_OF = {value: glyph for glyph, value in VULGAR.items()}
_STARTS = re.compile(rf"(?<![\w.⁄/\-–])(?=[\d{''.join(VULGAR)}])")
_DASH = re.compile(r"[ \u00a0]?[-–—][ \u00a0]?")
_BETWEEN = re.compile(r"[ \u00a0\u202f]*(?:[/(\[=]|\bor\b)[ \u00a0\u202f]*")


@dataclass(frozen=True, slots=True)
class Pair:
    """One amount said in two units.

    first, second: the numbers as typed, in `first_unit` and `second_unit` (standard symbols).
    by_size: whether the numbers are a list over the sizes; else they are single, or the two ends of a range.
    """

    first: tuple[Fraction | None, ...]
    first_unit: str
    second: tuple[Fraction | None, ...]
    second_unit: str
    by_size: bool
    span: Span


def pairs_in(text: Text, sizes: int | Axes) -> Iterator[Pair]:
    """The pairs of a text, in order."""
    value = text.value
    at = 0
    while (start := _STARTS.search(value, at)) is not None:
        at = start.start()
        ranged = _range_pair(text, at)
        if ranged is not None:
            pair, at = ranged
            yield pair
            continue
        plain = read_list(value, at, sizes)
        if plain is None or isinstance(plain, Misfit):
            at = plain.end if plain is not None else at + 1
            continue
        at = plain.end
        if plain.unit is None:
            continue
        measure = read_measure(value, plain.start, sizes)
        if measure is None or isinstance(measure, Misfit):
            continue
        at = measure.end
        if measure.second is not None:
            yield _pair(text, measure.first, measure.second, measure.start, measure.end, sizes)


def _pair(text: Text, first: NumeralList, second: NumeralList, start: int, end: int, made_of: int | Axes) -> Pair:
    sizes = made_of.count if isinstance(made_of, Axes) else made_of
    listed = len(first.numbers) > 1 or len(second.numbers) > 1
    if listed:
        first, second = first.spread(sizes), second.spread(sizes)
    return Pair(
        first.values, first.symbol or "", second.values, second.symbol or "", listed and sizes > 1,
        text.span(start, end),
    )  # fmt: skip


def _range_pair(text: Text, at: int) -> tuple[Pair, int] | None:
    """`86–91 cm (34–36 in)`: the lower ends are one length, and the upper ends another."""
    first = _range(text.value, at)
    if first is None:
        return None
    between = _BETWEEN.match(text.value, first[3])
    second = _range(text.value, between.end()) if between is not None else None
    if second is None or UNITS[first[2]][0] != UNITS[second[2]][0] or UNITS[first[2]][1] == UNITS[second[2]][1]:
        return None
    pair = Pair(
        first[:2], UNITS[first[2]][1], second[:2], UNITS[second[2]][1], False, text.span(at, second[3])
    )  # fmt: skip
    return pair, second[3]


def _range(value: str, at: int) -> tuple[Fraction, Fraction, str, int] | None:
    low = read_numeral(value, at)
    dash = _DASH.match(value, low.end) if low is not None else None
    high = read_numeral(value, dash.end()) if dash is not None else None
    unit = read_unit(value, high.end) if high is not None else None
    if low is None or high is None or unit is None or low.value is None or high.value is None:
        return None
    return low.value, high.value, unit[0].lower(), unit[1]


# ------------------------------------------------------------------------------------------------ arithmetic


def unit_size(symbol: str, inch: Fraction) -> Fraction:
    """A unit in millimetres or grams, with the inch (and the foot) of the pattern; a yard is always exact."""
    if symbol == "in":
        return inch
    if symbol == "ft":
        return 12 * inch
    return UNITS[symbol][2]


def _half_step(value: Fraction, symbol: str) -> Fraction:
    """Half of the step that a printed number was rounded to, in its own unit."""
    steps: tuple[Fraction, ...]
    match symbol:
        case "in" | "oz":
            steps = (Fraction(1, 4), Fraction(1, 8))
        case "cm":
            steps = (Fraction(1, 2),)
        case "mm":
            steps = (Fraction(5),) if value >= 20 else (Fraction(1),)
        case "m":
            steps = (Fraction(1, 2),)
        case _:
            steps = (Fraction(1),)
    for step in steps:
        if value % step == 0:
            return step / 2
    step = Fraction(1)
    while value % step != 0 and step > Fraction(1, 10000):
        step /= 10
    return step / 2


def same_amount(first: Fraction, first_unit: str, second: Fraction, second_unit: str, inch: Fraction) -> bool:
    """Whether one amount rounds to both printed numbers."""
    if {first_unit, second_unit} == {"yd", "m"}:
        return _same_yardage(first, first_unit, second, second_unit)
    one, other = unit_size(first_unit, inch), unit_size(second_unit, inch)
    slack = _half_step(first, first_unit) * one + _half_step(second, second_unit) * other
    return abs(first * one - second * other) <= slack


def _same_yardage(first: Fraction, first_unit: str, second: Fraction, second_unit: str) -> bool:
    """Yards and metres of yarn: whole ones, rounded either way; both to the five when both are multiples of five."""
    one, other = UNITS[first_unit][2], UNITS[second_unit][2]
    allowed = Fraction(5) if first % 5 == 0 and second % 5 == 0 else Fraction(1)
    return abs(first * one / other - second) < allowed or abs(second * other / one - first) < allowed


def converted(value: Fraction, unit: str, into: str, inch: Fraction) -> Fraction:
    """A printed number in another unit, rounded as the trade prints it."""
    exact = value * unit_size(unit, inch) / unit_size(into, inch)
    match into:
        case "in" | "oz":
            step = Fraction(1, 4)
        case "cm":
            step = Fraction(1, 2)
        case "m" if exact < 10:
            step = Fraction(1, 10)
        case _:
            step = Fraction(1)
    if into in ("yd", "m") and step == 1:
        return Fraction(-((-exact) // 1))
    return ((exact / step + Fraction(1, 2)) // 1) * step


def say(value: Fraction, unit: str) -> str:
    """A number with its unit as print has it: `5½ in`, `16.5 cm`."""
    return f"{say_number(value, unit)} {unit}".strip()


def say_number(value: Fraction, unit: str = "") -> str:
    """A number as print has it: with a fraction sign in inches, with decimals elsewhere."""
    whole, rest = divmod(value, 1)
    if rest == 0:
        return str(whole)
    if unit in ("in", "oz", "ft") and rest in _GLYPH_OF:
        return f"{whole or ''}{_GLYPH_OF[rest]}"
    return f"{float(value):.3f}".rstrip("0").rstrip(".")
