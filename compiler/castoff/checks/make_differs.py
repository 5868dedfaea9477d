"""Sections of one piece say different numbers of it.

A sleeve whose cuff is made twice and whose upper part once cannot be counted: print says how many to make, and the yarn is
worked out from it.

Fires:
    sections:
      - title: Strip
        piece: Strip
        make: 2
        worked: flat
        work: |
          With larger needles, CO 20 sts.
          Knit 4 rows.
      - title: Strip end
        piece: Strip
        make: 3
        work: |
          Knit 4 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 10 cm, of: width of Strip}}

Silent:
    sections:
      - title: Strip
        piece: Strip
        make: 2
        worked: flat
        work: |
          With larger needles, CO 20 sts.
          Knit 4 rows.
      - title: Strip end
        piece: Strip
        make: 2
        work: |
          Knit 4 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 10 cm, of: width of Strip}}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.span import Span

RULE = Rule("make-differs", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each section that says another number than an earlier one of its piece."""
    said: dict[str, tuple[int, Span]] = {}
    for section in evidence.pattern.sections:
        span = section.make.span
        if span is None:
            continue
        number, first = said.setdefault(section.piece.value, (section.make.value, span))
        if number != section.make.value:
            yield Diagnostic.of(
                RULE,
                f"`{section.piece.value}` is made {section.make.value} times here and {number} times in a section before",
                span,
                hint=f"`make: {number}` in all sections of the piece, or another `piece`",
                related=(Related(first, "said here before"),),
            )
