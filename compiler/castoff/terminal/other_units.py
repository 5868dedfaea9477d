"""Lengths and masses in the units of the other system, by pint on a closed registry of ours.

In: exact millimetres and grams. Out: exact inches, yards and ounces. The registry knows the units of the trade and no
others, each defined from the table that source texts are read with, so that nothing can be converted two ways.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Any

import pint

from castoff.numeral import UNITS

_BASE = {"length": "mm", "mass": "g"}


@lru_cache(maxsize=1)
def _registry() -> Any:
    registry: Any = pint.UnitRegistry(None, non_int_type=Fraction)
    for dimension, base in _BASE.items():
        registry.define(f"{base} = [{dimension}]")
    for dimension, symbol, size in dict.fromkeys(UNITS.values()):
        if symbol not in _BASE.values():
            registry.define(f"{_name(symbol)} = {size.numerator} / {size.denominator} * {_BASE[dimension]}")
    return registry


def _name(symbol: str) -> str:
    # "in" is a word of the registry's own grammar
    return "inch" if symbol == "in" else symbol


def converted(value: Fraction, base: str, symbol: str) -> Fraction:
    """An amount in another unit: `converted(Fraction(254), "mm", "in")` is 10.

    base: "mm" or "g". symbol: standard symbol of `numeral.UNITS`. Raises pint.DimensionalityError when the two do not
    measure the same.
    """
    registry = _registry()
    amount = registry.Quantity(value, base).to(_name(symbol)).magnitude
    return Fraction(amount)
