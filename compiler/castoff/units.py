"""Quantities: an exact number with what it counts or measures.

In: `Fraction`s. Out: `Dimension`, `Quantity`, and their words for messages. There are five base units and no others:
millimetres of length, grams of mass, stitches, rows (a round counts as a row) and balls. Since stitches and rows are
dimensions of their own, stitches per millimetre cannot be taken for rows per millimetre.

Exact sizes of the units people type are in `numeral.UNITS`, with their sources. The dimensions are ours, and not a
units library's, because a check has no tenth of a second to spare for importing one; the tests hold them against one.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

INCH_MM = Fraction(254, 10)
"""Exactly 25.4 mm: 16 CFR 500.19."""
TRADE_INCH_MM = Fraction(25)
"""The inch of the gauge square, where 4 in stand for 10 cm: common practice."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """What a number counts or measures: powers of the five base units."""

    length: int = 0
    mass: int = 0
    stitches: int = 0
    rows: int = 0
    balls: int = 0

    def __mul__(self, other: Dimension) -> Dimension:
        return Dimension(
            self.length + other.length,
            self.mass + other.mass,
            self.stitches + other.stitches,
            self.rows + other.rows,
            self.balls + other.balls,
        )

    def __truediv__(self, other: Dimension) -> Dimension:
        return Dimension(
            self.length - other.length,
            self.mass - other.mass,
            self.stitches - other.stitches,
            self.rows - other.rows,
            self.balls - other.balls,
        )

    @property
    def powers(self) -> tuple[tuple[str, int], ...]:
        """Base units with their powers, those with a power only, in fixed order."""
        named = (
            ("stitches", self.stitches), ("rows", self.rows), ("balls", self.balls), ("mass", self.mass),
            ("length", self.length),
        )  # fmt: skip
        return tuple((name, power) for name, power in named if power)

    @property
    def words(self) -> str:
        """In words: "stitches", "a length", "rows divided by stitches", "a plain number"."""
        over = " times ".join(_power(name, power) for name, power in self.powers if power > 0)
        under = " times ".join(_power(name, -power) for name, power in self.powers if power < 0)
        if under:
            return f"{over or 'a number'} divided by {under}"
        return {"": "a plain number", "length": "a length", "mass": "a mass"}.get(over, over)

    @property
    def counted(self) -> bool:
        """Whether it counts stitches, rows or balls, which come in whole numbers."""
        return self in (STITCHES, ROWS, BALLS)

    @property
    def usual(self) -> bool:
        """Whether a named number can be of it: a count, a measure, or a rate between a count and a measure."""
        return self in _USUAL


def _power(name: str, power: int) -> str:
    return name if power == 1 else f"{name} squared" if power == 2 else f"{name} to the power {power}"


NUMBER = Dimension()
LENGTH = Dimension(length=1)
MASS = Dimension(mass=1)
STITCHES = Dimension(stitches=1)
ROWS = Dimension(rows=1)
BALLS = Dimension(balls=1)
_USUAL = (
    NUMBER, LENGTH, MASS, STITCHES, ROWS, BALLS, STITCHES / LENGTH, ROWS / LENGTH, LENGTH / STITCHES, LENGTH / ROWS,
    LENGTH / MASS, MASS / LENGTH, LENGTH / BALLS, MASS / BALLS, LENGTH * LENGTH,
)  # fmt: skip

Kind = Literal["count", "length", "mass", "number"]
"""What instructions can print: a whole count, a length, a mass, or a plain number that need not be whole."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact amount: millimetres, grams, stitches, rows, balls, or powers of these."""

    value: Fraction
    dimension: Dimension = NUMBER

    def __mul__(self, other: Quantity) -> Quantity:
        return Quantity(self.value * other.value, self.dimension * other.dimension)

    def __truediv__(self, other: Quantity) -> Quantity:
        return Quantity(self.value / other.value, self.dimension / other.dimension)

    @property
    def words(self) -> str:
        """For a message: "84 stitches", "12.5 cm", "200 g", "2.2 stitches per cm"."""
        return in_words(self.value, self.dimension)


def decimal(value: Fraction, places: int = 3) -> str:
    """A number with no more decimals than it needs, at most `places`: 16.5, −4, 0.333."""
    scaled = round(value * 10**places)
    whole, rest = divmod(abs(scaled), 10**places)
    digits = str(rest).rjust(places, "0").rstrip("0") if places else ""
    return ("−" if scaled < 0 else "") + str(whole) + (f".{digits}" if digits else "")


def in_words(value: Fraction, dimension: Dimension) -> str:
    """An amount for a message, lengths in centimetres."""
    if dimension == LENGTH:
        return f"{decimal(value / 10)} cm"
    if dimension == MASS:
        return f"{decimal(value)} g"
    if dimension == NUMBER:
        return decimal(value)
    if dimension in (STITCHES, ROWS, BALLS):
        name = dimension.words
        return f"{decimal(value)} {_ONE[name] if value == 1 else name}"
    if dimension in (STITCHES / LENGTH, ROWS / LENGTH):
        return f"{decimal(value * 100)} {'stitches' if dimension.stitches else 'rows'} to 10 cm"
    return f"{decimal(value, 6)} ({dimension.words})"


_ONE = {"stitches": "stitch", "rows": "row", "balls": "ball"}
