"""Pieces are joined in another number than they are made.

Squares laid out four across and five down are twenty; when sixteen are made, the knitter finds out at the last seam. The
product of a layout, and the number of pieces that a line joins, are held against `make`.

Fires:
    sections:
      - title: Square
        make: 16
        worked: flat
        work: |
          With larger needles, CO 20 sts.
          Knit 40 rows.
          BO all sts.
      - title: Making up
        piece: Blanket
        work: |
          Sew the squares together, 4 across by 5 down.
    measurements: {side: {label: Side, is: 10 cm, of: width of Square}}

Silent:
    sections:
      - title: Square
        make: 20
        worked: flat
        work: |
          With larger needles, CO 20 sts.
          Knit 40 rows.
          BO all sts.
      - title: Making up
        piece: Blanket
        work: |
          Sew the squares together, 4 across by 5 down.
    measurements: {side: {label: Side, is: 10 cm, of: width of Square}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.notation.syntax import InstructionLine, ProseLine
from castoff.notation.words import NUMBER_WORDS
from castoff.span import Span

RULE = Rule("pieces-miscounted", "error", __doc__ or "")

_NUMBER = rf"(\d+|{'|'.join(NUMBER_WORDS)})"
_LAID_OUT = (
    rf"\b{_NUMBER}\s+(?:across|wide)\s*(?:,|by|and|x|×)+\s*{_NUMBER}\s+(?:down|deep|high|long|tall)\b"
    rf"|\b{_NUMBER}\s+(?:down|deep|high|long|tall)\s*(?:,|by|and|x|×)+\s*{_NUMBER}\s+(?:across|wide)\b"
    rf"|\b{_NUMBER}\s+(?:rows|strips|columns|lines)\s+of\s+{_NUMBER}\b(?!\s+(?:sts?|stitch|rows))"
)
_JOINED = (
    rf"\b(?:sew|join|seam|graft|crochet|lay out|arrange)\s+(?:together\s+)?(?:all\s+)?(?:the\s+)?(?:of\s+)?(?:the\s+)?"
    rf"{_NUMBER}\s+([a-z]+s)\b"
)
_STITCHES = frozenset(
    {"sts", "stitches", "ends", "sides", "seams", "edges", "times", "rows", "loops", "halves", "layers"}
)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each line that joins another number of pieces than are made."""
    made: dict[str, tuple[int, Span | None]] = {}
    for section in evidence.pattern.sections:
        name = section.piece.value
        if section.make.value > 1 and name not in made:
            made[name] = (section.make.value, section.make.span)
    if not made:
        return
    for lines in evidence.lines:
        for line in lines:
            if isinstance(line, (InstructionLine, ProseLine)):
                yield from _judge(line, made)


def _judge(line: InstructionLine | ProseLine, made: dict[str, tuple[int, Span | None]]) -> Iterator[Diagnostic]:
    words = line.text.value
    for match in (*re.finditer(_LAID_OUT, words, re.IGNORECASE), *re.finditer(_JOINED, words, re.IGNORECASE)):
        found = [each for each in match.groups() if each is not None]
        numbers = [_value(each) for each in found[:2] if _value(each)]
        laid_out = len(numbers) == 2
        if not laid_out and found[1].lower() in _STITCHES:
            continue
        pieces = _spoken_of(words if laid_out else found[1], made)
        if not pieces:
            continue
        total = sum(made[name][0] for name in pieces)
        joined = numbers[0] * numbers[1] if laid_out else numbers[0]
        if joined == total:
            continue
        sum_text = f"{numbers[0]} × {numbers[1]} = {joined}" if laid_out else str(joined)
        yield Diagnostic.of(
            RULE,
            f"{sum_text} pieces are joined, {total} are made",
            line.text.span(match.start(), match.end()),
            hint=f"`make: {joined}`" if len(pieces) == 1 else None,
            related=tuple(
                Related(span, f"`{name}` is made {number} times")
                for name, (number, span) in made.items()
                if name in pieces and span is not None
            ),
        )
        return


def _spoken_of(words: str, made: dict[str, tuple[int, Span | None]]) -> list[str]:
    """Pieces whose name has a noun of the line ("squares": `Square A`, `Square B`); the only ones that are made many times
    when the line names none of them."""
    nouns = {each.lower() for each in re.findall(r"[A-Za-z]+", words)}
    named = [name for name in made if any(each.lower() + "s" in nouns for each in re.findall(r"[A-Za-z]+", name))]
    if named:
        return named
    many = [name for name, (number, _) in made.items() if number > 2]
    return many if len(many) == 1 and " " in words else []


def _value(word: str) -> int:
    return int(word) if word.isdigit() else NUMBER_WORDS.get(word.lower(), 0)
