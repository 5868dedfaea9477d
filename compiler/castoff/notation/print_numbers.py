"""Numbers and lengths of the syntax tree as text that reads back to the same values.

In: `Count`, `Length`. Out: text.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

from castoff.notation.syntax import Count, Length
from castoff.numeral import UNITS
from castoff.per_size import size_list

T = TypeVar("T")
_SKIPS = "–"


def _listed(values: tuple[T | None, ...], show: Callable[[T], str], tail: str = "") -> str:
    if all(value == values[0] for value in values) and values[0] is not None:
        return show(values[0]) + tail
    return size_list(tuple(_SKIPS if value is None else show(value) + tail for value in values))


def print_count(count: Count) -> str:
    """The count as typed: its formula, one number for all sizes, or the list."""
    if count.formula is not None:
        return "{" + count.formula + "}"
    return _listed(count.values, str)


def print_ordinal(count: Count) -> str:
    """ "4th", "6th (6th, 4th)"."""
    if count.formula is not None:
        return "{" + count.formula + "}th"
    return _listed(count.values, ordinal)


def ordinal(number: int) -> str:
    """1 is "1st", 12 is "12th"."""
    if 10 < number % 100 < 14:
        return f"{number}th"
    return f"{number}" + {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")


def print_length(length: Length) -> str:
    """The length in its unit, with its twin behind a slash."""
    if length.formula is not None:
        return "{" + length.formula + "}"
    text = _in_unit(length.millimetres, length.unit or "mm")
    if length.twin is not None:
        text += " / " + _in_unit(length.twin, length.twin_unit)
    return text


def _in_unit(millimetres: tuple[Fraction | None, ...], unit: str) -> str:
    factor = UNITS[unit][2]
    return _listed(tuple(None if value is None else value / factor for value in millimetres), _number) + f" {unit}"


def _number(value: Fraction) -> str:
    """A decimal where one is exact, else whole and fraction ("5 1/3")."""
    if value.denominator == 1:
        return str(value.numerator)
    for places in range(1, 7):
        scaled = value * 10**places
        if scaled.denominator == 1:
            return f"{int(value)}.{int(scaled) % 10**places:0{places}d}"
    whole = int(value)
    rest = f"{value.numerator - whole * value.denominator}/{value.denominator}"
    return f"{whole} {rest}" if whole else rest
