"""Shaping at the beginning of the next two rows begins on a wrong-side row.

Armholes and shoulders are bound off over a right-side and a wrong-side row, in this order (common practice): so the same
edge is first on every piece, and what is sewn together is as high. Where the rows before are told to end with a right-side
row, the pair begins on the wrong side. Where several such pairs of a pattern begin so, it is meant.

Fires:
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until back measures 20 cm, ending with a RS row.
          BO 5 sts at beg of next 2 rows. 30 sts.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until back measures 20 cm, ending with a WS row.
          BO 5 sts at beg of next 2 rows. 30 sts.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence, Placed
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import RowRecord
from castoff.notation.syntax import AtBeginning, RepeatRows, WorkRows

RULE = Rule("pair-begins-on-ws", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding, where a single pair of all begins on a wrong-side row although the line before could end elsewhere."""
    begun = [
        (placed, record)
        for placed in evidence.placed
        if isinstance(placed.node, AtBeginning) and _pairs(placed.node)
        if (record := _first_row(evidence, placed)) is not None and record.form == "flat"
    ]
    wrong = [placed for placed, record in begun if record.side == "WS"]
    if len(wrong) == 1 and _ends_where_told(evidence, wrong[0]):
        yield Diagnostic.of(
            RULE,
            "the first of these rows is a WS row: the left edge is shaped a row before the right one",
            wrong[0].node.span,
            hint="let the rows before end with a WS row",
        )


def _pairs(step: AtBeginning) -> bool:
    return step.side is None and all(rows is None or rows % 2 == 0 for rows in step.rows.values)


def _first_row(evidence: Evidence, placed: Placed) -> RowRecord | None:
    for size in evidence.knitted.sizes:
        if placed.section < len(size.sections):
            span = placed.node.span
            found = next((each for each in size.sections[placed.section].records if each.span == span), None)
            if found is not None:
                return found
    return None


def _ends_where_told(evidence: Evidence, placed: Placed) -> bool:
    """Whether the rows before were told to end with a right-side row."""
    steps = [
        step
        for line in evidence.lines[placed.section][: placed.line_index + 1]
        for step in getattr(line, "steps", ())
        if step.span.start < placed.node.span.start
    ]
    rows = [step for step in steps if isinstance(step, (WorkRows, RepeatRows))]
    extent = rows[-1].extent if rows else None
    return extent is not None and extent.ending == "RS"
