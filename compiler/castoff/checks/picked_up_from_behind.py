"""Stitches are picked up and knitted with the wrong side facing.

The edge that is picked up lies behind the new stitches: knitted with the wrong side facing, its ridge shows on the right
side of the garment, and what follows in the round shows its knit side inside. For a collar or a cuff that is folded over
it is meant so, and a section that speaks of a fold, a turn or a collar is not asked about.

Fires:
    sections:
      - title: Cuff
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 12 rows.
          BO all sts.
      - title: Edging
        worked: flat
        work: |
          With WS facing and larger needles, pick up and knit 40 sts along cast-on edge of cuff. 40 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Cuff
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 12 rows.
          BO all sts.
      - title: Edging
        worked: flat
        work: |
          With RS facing and larger needles, pick up and knit 40 sts along cast-on edge of cuff. 40 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Cuff
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 12 rows.
          BO all sts.
      - title: Turn-back
        worked: flat
        work: |
          > It is folded to the right side when it is worn.
          With WS facing and larger needles, pick up and knit 40 sts along cast-on edge of cuff. 40 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.checks.picked_up_the_wrong_way import way_of
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import PickUp, PickUpRow

RULE = Rule("picked-up-from-behind", "warning", __doc__ or "")

_FOLDED = re.compile(
    r"\b(fold\w*|turn(s|ed)?[- ](back|over|down|up)\w*|collars?|lapels?|inside out|reversible)\b", re.I
)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each row of picking up that begins with the wrong side facing and is not meant to be folded over."""
    for placed in evidence.placed:
        step = placed.node
        if not isinstance(step, PickUpRow) or step.side != "WS" or way_of(step) is not None:
            continue
        knitted = any(isinstance(part, PickUp) and part.knit and not part.purl for part in step.parts)
        if knitted and not _folded(evidence, placed.section):
            yield Diagnostic.of(
                RULE,
                "picked up and knitted with WS facing: the ridge of the edge shows on the right side",
                step.span,
                hint="`With RS facing`, or say that it is folded over",
            )


def _folded(evidence: Evidence, index: int) -> bool:
    section = evidence.pattern.sections[index]
    texts = [section.title, section.work, section.notes]
    return any(text is not None and _FOLDED.search(text.value) for text in texts)
