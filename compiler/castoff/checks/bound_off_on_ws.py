"""Rows end with a right-side row, and all stitches are bound off behind it without a word about the side.

The bind-off then falls on a wrong-side row. It may be meant, for the ridge that it leaves; then a line says so: "bind off
all sts on the wrong side", "bind off all sts purlwise". Where every other length of the pattern ends with a wrong-side row,
the one side that differs is mostly a slip. Left and right parts mirror each other and are not asked about, nor are bands,
whose rows begin where they are picked up.

Fires:
    sections:
      - title: Panel
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until panel measures 20 cm, ending with a RS row.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Panel
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until panel measures 20 cm, ending with a WS row.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Panel
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until panel measures 20 cm, ending with a RS row.
          BO all sts knitwise on the wrong side.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence, is_handed
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.notation.syntax import (
    BindOff,
    Extent,
    InstructionLine,
    PickUpRow,
    RepeatRows,
    Step,
    ToldLength,
    ToldRows,
    Total,
    WorkRows,
)
from castoff.span import Span

RULE = Rule("bound-off-on-ws", "warning", __doc__ or "")

_SAYS_HOW = frozenset(("knitwise", "purlwise"))


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding, where one length alone ends with a right-side row and what follows is a bind-off."""
    ends = 0
    found: list[tuple[Span, Span]] = []
    bands: set[str] = set()
    for section, lines in zip(evidence.pattern.sections, evidence.lines, strict=True):
        handed = is_handed(section)
        before: Extent | None = None
        for line in lines:
            for step in line.steps if isinstance(line, InstructionLine) else ():
                if isinstance(step, (Total, ToldLength, ToldRows)):
                    continue
                if isinstance(step, PickUpRow):
                    bands.add(section.piece.value)
                if before is not None and _unsaid(step) and section.piece.value not in bands:
                    found.append((step.span, before.span))
                before = None if handed else _ending_on_rs(step)
                ends += before is not None
    if len(found) == 1 and ends == 1:
        bound, rows = found[0]
        yield Diagnostic.of(
            RULE,
            "the rows before end with a RS row, so that all sts are bound off on a WS row",
            bound,
            hint="`ending with a WS row`, or `bind off all sts on the wrong side`",
            related=(Related(rows, "the last row is told here"),),
        )


def _ending_on_rs(step: Step) -> Extent | None:
    """How far rows go that are told to end with a right-side row."""
    extent = step.extent if isinstance(step, (WorkRows, RepeatRows)) else None
    return extent if extent is not None and extent.ending == "RS" else None


def _unsaid(step: Step) -> bool:
    """Whether a step binds off and says nothing that only one side of the fabric can mean."""
    return isinstance(step, BindOff) and not _SAYS_HOW.intersection(step.manner)
