"""Numbers as an author typed them: how finely they were rounded.

In: the text of a value. Out: its list when it is nothing but one, and the half step that its numbers may be off by.
"""

from __future__ import annotations

from fractions import Fraction

from castoff.checks.unit_pairs import unit_size
from castoff.numeral import Measure, NumeralList, read_measure
from castoff.per_size import Axes
from castoff.span import Text

HOUSE_HALF_STEP_MM = Fraction(5, 2)
"""Half of the half centimetre that the house rounds computed lengths to."""

_STEPS = (Fraction(1), Fraction(1, 2), Fraction(1, 4), Fraction(1, 8), Fraction(1, 10), Fraction(1, 100))


def typed_measure(text: Text, sizes: int | Axes) -> Measure | None:
    """The measure that a value is, when it is typed and no formula."""
    value = text.value.rstrip()
    start = len(value) - len(value.lstrip())
    measure = read_measure(value, start, sizes)
    return measure if isinstance(measure, Measure) and measure.end == len(value) else None


def half_step_mm(numbers: NumeralList, inch: Fraction) -> Fraction:
    """How far a number of a list may be off by its rounding, in millimetres.

    A list of three or more different whole numbers is taken to be rounded to wholes; a shorter one to the half
    centimetre or the quarter inch, which is what a ruler shows (common practice).
    """
    symbol = numbers.symbol or ""
    values = {value for value in numbers.values if value is not None}
    for step in _STEPS if len(values) >= 3 else _STEPS[2 if symbol == "in" else 1 :]:
        if all(value % step == 0 for value in values):
            return step * unit_size(symbol, inch) / 2
    return unit_size(symbol, inch) / 200
