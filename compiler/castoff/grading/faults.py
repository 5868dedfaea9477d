"""What can be wrong with a formula that could be read.

In: nothing. Out: the rules of this stage, and the exception that ends the evaluation of one formula.
"""

from __future__ import annotations

from collections.abc import Iterable

from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.grading.formula import RULES as FORMULA_RULES
from castoff.grading.formula import FormulaFault
from castoff.span import Span

WRONG_DIMENSION = Rule(
    "wrong-dimension",
    "error",
    """A formula adds, compares or hands on what does not measure the same thing.

Stitches are wide and rows are high: a stitch count worked out with a row gauge gives a number that looks right
and is not. Write `count(x)` where the number of stitches is meant to stand for a number of rows.

Fires:
    numbers:
      cast_on: rows(20 cm)
      depth: cast_on + 4 cm
Silent:
    numbers:
      depth: 20 cm + 4 cm
""",
)
UNKNOWN_NUMBER = Rule(
    "unknown-number",
    "error",
    """A formula uses a name that stands for nothing.

Names are the keys under `numbers`, body measurements (`body.head`) and gauges (`gauge.rib.rows`).

Fires:
    numbers:
      cast_on: 84
      wedge: caston / 8
Silent:
    numbers:
      cast_on: 84
      wedge: cast_on / 8
""",
)
UNKNOWN_FUNCTION = Rule(
    "unknown-function",
    "error",
    """A formula calls a function that does not exist.

Fires:
    numbers:
      cast_on: stiches(40 cm)
Silent:
    numbers:
      cast_on: stitches(40 cm)
""",
)
WRONG_ARGUMENT = Rule(
    "wrong-argument",
    "error",
    """A function is given too much, too little, or something it cannot use.

Fires:
    numbers:
      cast_on: stitches(40 cm, to=sideways)
Silent:
    numbers:
      cast_on: stitches(40 cm, to=up)
""",
)
GAUGE_UNNAMED = Rule(
    "gauge-unnamed",
    "error",
    """A formula needs a gauge, and the pattern has several or none.

Fires:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 cm}
      rib: {stitches: 22, rows: 30, over: 10 cm}
    numbers:
      cast_on: stitches(40 cm)
Silent:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 cm}
      rib: {stitches: 22, rows: 30, over: 10 cm}
    numbers:
      cast_on: stitches(40 cm, gauge=rib)
""",
)
FORMULA_LOOP = Rule(
    "formula-loop",
    "error",
    """Numbers are worked out from each other in a circle.

Fires:
    numbers:
      width: half * 2
      half: width / 2
Silent:
    numbers:
      width: 40 cm
      half: width / 2
""",
)
DIVISION_BY_ZERO = Rule(
    "division-by-zero",
    "error",
    """A formula divides by zero, in one size or in all.

Fires:
    numbers:
      left: 0
      each: 84 / left
Silent:
    numbers:
      left: 4
      each: 84 / left
""",
)
NUMBER_NOT_WHOLE = Rule(
    "number-not-whole",
    "error",
    """A count of stitches or rows that instructions use is no whole number.

Nothing is rounded behind the author's back: say how, with `nearest`, `up`, `down`, or `multiple_of`.

Fires:
    numbers:
      cast_on: stitches(41 cm)
      half: cast_on / 4
    sections:
      - title: Edge
        work: |
          Cast on {half} sts.
Silent:
    numbers:
      cast_on: stitches(40 cm, multiple_of=4)
      half: cast_on / 4
    sections:
      - title: Edge
        work: |
          Cast on {half} sts.
""",
)
ROUNDING_TIE = Rule(
    "rounding-tie",
    "note",
    """A number lay exactly between two that it could be rounded to, and the larger was taken.

Fires:
    numbers:
      cast_on: nearest(90, 4)
Silent:
    numbers:
      cast_on: nearest(91, 4)
""",
)
SHAPING_IMPOSSIBLE = Rule(
    "shaping-impossible",
    "error",
    """There are not enough rows or stitches for the shaping.

Fires:
    numbers:
      shaping: spread(12, over=10)
Silent:
    numbers:
      shaping: spread(12, over=60)
""",
)
BODY_MEASUREMENT = Rule(
    "body-measurement-missing",
    "error",
    """A body table, one of its sizes, or one of its measurements does not exist.

Fires:
    sizes:
      names: S (M, L)
    numbers:
      width: body.head
Silent:
    sizes:
      names: S (M, L)
      body:
        head: 52 (55, 58) cm
    numbers:
      width: body.head
""",
)
NUMBER_NAME = Rule(
    "number-name",
    "error",
    """A number has a name that formulas could not use.

Names are letters, digits and `_`, and begin with a letter; `body`, `gauge` and `fit` have a meaning already.

Fires:
    numbers:
      cast on: 84
Silent:
    numbers:
      cast_on: 84
""",
)
WITHOUT_VALUE = Rule(
    "number-without-value",
    "error",
    """A formula uses a number that could not be worked out.

The fault is where that number is worked out, and is told there.

Fires:
    numbers:
      cast_on: 84 +
    sections:
      - title: Edge
        work: |
          Cast on {cast_on} sts.
Silent:
    numbers:
      cast_on: 84
    sections:
      - title: Edge
        work: |
          Cast on {cast_on} sts.
""",
)

RULES = (
    *FORMULA_RULES, WRONG_DIMENSION, UNKNOWN_NUMBER, UNKNOWN_FUNCTION, WRONG_ARGUMENT, GAUGE_UNNAMED, FORMULA_LOOP,
    DIVISION_BY_ZERO, NUMBER_NOT_WHOLE, ROUNDING_TIE, SHAPING_IMPOSSIBLE, BODY_MEASUREMENT, NUMBER_NAME,
    WITHOUT_VALUE,
)  # fmt: skip


def fault(
    rule: Rule,
    message: str,
    span: Span,
    *,
    sizes: Iterable[str] = (),
    hint: str | None = None,
    related: Iterable[Related] = (),
) -> FormulaFault:
    """A finding that ends the evaluation of a formula."""
    return FormulaFault(Diagnostic.of(rule, message, span, sizes=sizes, hint=hint, related=related))
