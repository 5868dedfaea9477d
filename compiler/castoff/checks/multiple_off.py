"""A section tells a multiple that the repeat of its rows is not.

"A multiple of twelve stitches plus one" lets a knitter change the size, and is the one place that says how wide the repeat
is meant to be: a stitch left out of it may still fit across the row, eighteen times instead of twelve.

Fires:
    sections:
      - title: Scarf
        worked: flat
        work: |
          With larger needles, CO 49 sts.
          > The ripple is a multiple of twelve stitches plus one.
          Row 1 (RS): *K1, yo, sl 1, k2tog, psso, k4, yo; rep from * to last st, k1.
          Row 2: Purl.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Scarf
        worked: flat
        work: |
          With larger needles, CO 49 sts.
          > The ripple is a multiple of twelve stitches plus one.
          Row 1 (RS): *K1, yo, k4, sl 1, k2tog, psso, k4, yo; rep from * to last st, k1.
          Row 2: Purl.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.taken import stitches_taken
from castoff.notation.syntax import Action, InstructionLine, ProseLine, Repeat, RowStep, Stitch

RULE = Rule("multiple-off", "warning", __doc__ or "")

_TOLD = re.compile(r"\bmultiple of (?P<number>\d+|[a-z]+(?:-[a-z]+)?)\b(?! rows| rounds| rnds)", re.IGNORECASE)
_WORDS = {
    word: number
    for number, word in enumerate(
        (
            "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
            "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
        ),
        2,
    )
}  # fmt: skip
_PLAIN = frozenset(("k", "p", "sl"))


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each row whose repeat goes neither into the multiple told before it nor the multiple into it."""
    for lines in evidence.lines:
        told: int | None = None
        for line in lines:
            if isinstance(line, ProseLine):
                told = _told(line.text.value) or told
            elif isinstance(line, InstructionLine) and told is not None:
                for step in line.steps:
                    if isinstance(step, RowStep):
                        yield from _off(evidence, step, told)


def _told(text: str) -> int | None:
    found = _TOLD.search(text)
    if found is None:
        return None
    word = found["number"].lower()
    return int(word) if word.isdigit() else _WORDS.get(word)


def _off(evidence: Evidence, row: RowStep, told: int) -> Iterator[Diagnostic]:
    def takes(name: str) -> int | None:
        return _takes(evidence, name)

    for act in row.work:
        if not isinstance(act, Repeat) or act.times.kind != "to" or act.last:
            continue
        for size in range(len(evidence.sizes)):
            width = stitches_taken(act.body, takes, size)
            # ribs and borders of the section need not be of the pattern's width
            if width and told % width and width % told and _patterned(act.body):
                yield Diagnostic.of(
                    RULE,
                    f"the repeat takes {width} sts, and the multiple is told as {told}",
                    act.span,
                    hint=f"a repeat of {told} sts, or `a multiple of {width} stitches`",
                )
                break


def _patterned(body: Sequence[Action]) -> bool:
    return any(isinstance(act, Stitch) and act.name not in _PLAIN for act in body)


def _takes(evidence: Evidence, name: str) -> int | None:
    own = next((each for each in evidence.pattern.stitches if each.key.value.lower() == name.lower()), None)
    known = evidence.trade.stitches.find(name)
    return own.takes.value if own is not None else known.takes if known is not None else None
