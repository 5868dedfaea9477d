"""What an expression comes to: a value per size, with how it was rounded, or a shaping plan per size.

In: `Fraction`s. Out: frozen values, and the sums of them, with the rules on what may be added to what.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from castoff.grading.faults import DIVISION_BY_ZERO, WRONG_DIMENSION, fault
from castoff.grading.shaping import Curve, Evenly, Slope, Spread
from castoff.span import Span
from castoff.units import LENGTH, MASS, NUMBER, Dimension

Plan: TypeAlias = Spread | Evenly | Slope | Curve
_Change: TypeAlias = Callable[[Fraction, Fraction], Fraction]
Values: TypeAlias = tuple[Fraction | None, ...]
"""One per size; None where the size skips."""


@dataclass(frozen=True, slots=True)
class Worth:
    """A value per size.

    before: the values before they were rounded; None when nothing was rounded.
    ties: indices of the sizes in which rounding fell on a tie.
    """

    values: Values
    dimension: Dimension
    before: Values | None = None
    ties: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Planned:
    """A shaping plan per size; its numbers are asked for by name, `plan.every`.

    cost: by index of the size, what it cost there that all sizes are said in one sentence.
    """

    plans: tuple[Plan | None, ...]
    cost: tuple[tuple[int, str], ...] = ()

    def number(self, name: str) -> Values | None:
        """A number of the plan, per size; None when it has none of that name."""
        if name not in self.names:
            return None
        return tuple(None if plan is None else Fraction(dict(plan.numbers)[name]) for plan in self.plans)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the plan's numbers."""
        first = next((plan for plan in self.plans if plan is not None), None)
        return () if first is None else tuple(name for name, _ in first.numbers)


def typed(span: Span) -> str:
    """A part of a formula as typed, on one line."""
    return " ".join(span.source.text[span.start : span.end].split())


def added(left: Worth, right: Worth, sign: str, places: tuple[Span, Span]) -> Worth:
    """The sum or difference. A plain number may be added to a count, and to nothing else that has a unit."""
    dimension = together(left, right, ("added to", "taken from")[sign == "-"], places)
    if sign == "+":
        values = _each(left.values, right.values, lambda one, other: one + other)
    else:
        values = _each(left.values, right.values, lambda one, other: one - other)
    return Worth(values, dimension)


def together(left: Worth, right: Worth, verb: str, places: tuple[Span, Span]) -> Dimension:
    """The dimension of two values that stand side by side; a fault when they measure different things."""
    if left.dimension == right.dimension:
        return left.dimension
    for one, other in ((left, right), (right, left)):
        if one.dimension == NUMBER and other.dimension.counted:
            return other.dimension
    first, second = (right, left), (places[1], places[0])
    if verb == "compared with":
        first, second = (left, right), places
    message = (
        f"`{typed(second[0])}` ({first[0].dimension.words}) cannot be {verb} "
        f"`{typed(second[1])}` ({first[1].dimension.words})"
    )
    raise fault(WRONG_DIMENSION, message, places[0].to(places[1]), hint=_way_out(left, right, places))


def _way_out(left: Worth, right: Worth, places: tuple[Span, Span]) -> str | None:
    for one, other, place in ((left, right, places[0]), (right, left, places[1])):
        if one.dimension == NUMBER and other.dimension == LENGTH:
            return f"give `{typed(place)}` a unit, such as `cm`"
        if one.dimension == NUMBER and other.dimension == MASS:
            return f"give `{typed(place)}` a unit, such as `g`"
        if one.dimension.counted and other.dimension == LENGTH:
            turn = "width" if one.dimension.stitches else "length"
            return f"`{turn}({typed(place)}, gauge=…)` makes a length of it"
    if left.dimension.counted and right.dimension.counted:
        return f"write `count({typed(places[1])})` if the bare number is meant"
    return None


def multiplied(left: Worth, right: Worth) -> Worth:
    """The product."""
    values = _each(left.values, right.values, lambda one, other: one * other)
    return Worth(values, left.dimension * right.dimension)


def divided(left: Worth, right: Worth, sizes: tuple[str, ...], places: tuple[Span, Span]) -> Worth:
    """The quotient; a fault when a size divides by zero."""
    zero = [
        index
        for index, (one, other) in enumerate(zip(left.values, right.values, strict=True))
        if one is not None and other == 0
    ]
    if zero:
        names = [sizes[index] for index in zero]
        where = "" if len(names) == len(sizes) else f" in size {', '.join(names)}"
        message = f"`{typed(places[0])}` is divided by `{typed(places[1])}`, which is 0{where}"
        raise fault(DIVISION_BY_ZERO, message, places[0].to(places[1]), sizes=names)
    values = _each(left.values, right.values, lambda one, other: one / other)
    return Worth(values, left.dimension / right.dimension)


def _each(left: Values, right: Values, change: _Change) -> Values:
    return tuple(
        None if one is None or other is None else change(one, other) for one, other in zip(left, right, strict=True)
    )
