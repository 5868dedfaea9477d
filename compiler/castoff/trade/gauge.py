"""Gauge: stitches and rows over a length, and the exact arithmetic between counts and lengths.

In: counts and millimetres as exact fractions. Out: the same; nothing is rounded here.

4 in and 10 cm are one gauge square by the trade's convention (garment specifications and leaflets print
"20 sts = 4 in [10 cm]"), though 10 cm is 1.6 % shorter. A gauge is worked in the unit it was given in, and is never
multiplied by 1.016 for the other: `same_square` says when two squares are the same by convention.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

INCH_MM = Fraction(254, 10)
"""Exactly 25.4 mm: 16 CFR 500.19."""
TEN_CM = Fraction(100)
FOUR_INCHES = 4 * INCH_MM
# 5 cm = 2 in, 2.5 cm = 1 in and so on: pairs of the same convention as 10 cm = 4 in.
_SQUARE_RATIO = FOUR_INCHES / TEN_CM


def same_square(first_mm: Fraction, second_mm: Fraction) -> bool:
    """Whether two lengths measure a gauge over the same square by convention: equal, or as 10 cm is to 4 in."""
    low, high = sorted((first_mm, second_mm))
    return low == high or high == low * _SQUARE_RATIO


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows over a length.

    stitches: stitches over `over_mm` of width.
    rows: rows over `over_mm` of length; None when the gauge gives stitches only.
    over_mm: side of the square in millimetres (100 for 10 cm, 101.6 for 4 in).
    Raises ValueError when one of them is zero or less.
    """

    stitches: Fraction
    rows: Fraction | None
    over_mm: Fraction

    def __post_init__(self) -> None:
        for name, value in (("stitches", self.stitches), ("rows", self.rows), ("over_mm", self.over_mm)):
            if value is not None and value <= 0:
                raise ValueError(f"a gauge needs {name} above zero, and has {value}")

    @property
    def stitches_per_mm(self) -> Fraction:
        """Stitches to a millimetre of width."""
        return self.stitches / self.over_mm

    @property
    def rows_per_mm(self) -> Fraction:
        """Rows to a millimetre of length. Raises ValueError when the gauge gives none."""
        if self.rows is None:
            raise ValueError("this gauge gives stitches only, no rows")
        return self.rows / self.over_mm

    def width(self, stitches: Fraction | int) -> Fraction:
        """Width in millimetres of a number of stitches."""
        return stitches / self.stitches_per_mm

    def length(self, rows: Fraction | int) -> Fraction:
        """Length in millimetres of a number of rows. Raises ValueError when the gauge gives no rows."""
        return rows / self.rows_per_mm

    def stitches_in(self, width_mm: Fraction | int) -> Fraction:
        """Stitches in a width, exact: 105.6 for 48 cm at 22 sts to 10 cm."""
        return width_mm * self.stitches_per_mm

    def rows_in(self, length_mm: Fraction | int) -> Fraction:
        """Rows in a length, exact. Raises ValueError when the gauge gives no rows."""
        return length_mm * self.rows_per_mm

    def row_height_per_stitch_width(self) -> Fraction:
        """Stitch gauge over row gauge: stitches to pick up for each row end (10/13 at 20 sts and 26 rows)."""
        return self.stitches_per_mm / self.rows_per_mm

    def over(self, length_mm: Fraction) -> Gauge:
        """The same knitting counted over another square.

        Over a square that is the same by convention the counts stay as printed; otherwise they are in proportion.
        """
        if same_square(self.over_mm, length_mm):
            return Gauge(self.stitches, self.rows, length_mm)
        factor = length_mm / self.over_mm
        return Gauge(self.stitches * factor, None if self.rows is None else self.rows * factor, length_mm)

    def agrees_with(self, other: Gauge) -> bool:
        """Whether two gauges print the same counts over squares that are the same by convention."""
        return same_square(self.over_mm, other.over_mm) and self.stitches == other.stitches and self.rows == other.rows
