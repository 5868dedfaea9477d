"""Two pieces say the same in the same words, but for the side of a row.

A back and a front that are worked to the armholes in one way end there on one side of the fabric: where one ends with a
wrong-side row and the other with a right-side row, their seams are a row apart, and what comes next begins at the other
edge.
Left and right pieces may well end on different sides; the rows that both are shaped on, "every RS row", are the same.

Fires:
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until back measures 20 cm, ending with a WS row.
          Place a removable marker at each end of last row.
          Work 40 rows in st st.
          BO all sts.
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until front measures 20 cm, ending with a RS row.
          Place a removable marker at each end of last row.
          Work 40 rows in st st.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until back measures 20 cm, ending with a WS row.
          Place a removable marker at each end of last row.
          Work 40 rows in st st.
          BO all sts.
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st until front measures 20 cm, ending with a WS row.
          Place a removable marker at each end of last row.
          Work 40 rows in st st.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from castoff.checks.evidence import Evidence, is_handed
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.notation.syntax import CastOn, InstructionLine, Line, RowStep
from castoff.span import Span, Text

RULE = Rule("twin-on-other-side", "warning", __doc__ or "")

_SIDE = re.compile(r"\b(?P<ending>end(?:ing)? (?:with|on|after) an? )?(?P<side>RS|WS)(?= rows?\b)")
_RATE = re.compile(r"\b(?:every|alternate|alt)(?: \w+)? $")
_NUMBER = re.compile(r"\{[^}]*\}|[\d¼½¾.,/–()\[\]]+")
_NAME = re.compile(r"\b(?:left|right|back|front|sleeves?|piece|work|side)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Said:
    """A side as a line names it. open: nothing that follows has shown whether it is the right one."""

    piece: str
    side: str
    span: Span
    open: bool


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each line that alone names another side than the lines with the same words in other pieces."""
    twins: dict[tuple[str, int], list[_Said]] = {}
    for section, lines in zip(evidence.pattern.sections, evidence.lines, strict=True):
        handed = is_handed(section)
        for at, line in enumerate(lines):
            if not isinstance(line, InstructionLine):
                continue
            words = _words(line.text.value)
            for number, match in enumerate(_SIDE.finditer(line.text.value)):
                ending = match["ending"] is not None
                if (ending and not handed) or (not ending and _RATE.search(line.text.value[: match.start()])):
                    part = section.title.value if _cast_on(lines) else section.piece.value
                    said = _said(part, line.text, match, ending and _shown(lines[at + 1 :]))
                    twins.setdefault((words, number), []).append(said)
    for said_of_all in twins.values():
        yield from _odd(said_of_all)


def _cast_on(lines: Sequence[Line]) -> bool:
    """Whether a section begins with a cast-on of its own: it is a part by itself, whatever piece it becomes."""
    first = next((line for line in lines if isinstance(line, InstructionLine)), None)
    return first is not None and any(isinstance(step, CastOn) for step in first.steps)


def _words(text: str) -> str:
    """A line without its numbers, its sides and the names of parts."""
    masked = _NAME.sub("~", _NUMBER.sub("#", _SIDE.sub("§", text)))
    return re.sub(r"(?:[~#] ?)+", "~ ", masked).casefold()


def _said(piece: str, text: Text, match: re.Match[str], shown: bool) -> _Said:
    return _Said(piece, match["side"], text.span(match.start("side"), match.end("side")), not shown)


def _shown(after: Sequence[Line]) -> bool:
    """Whether the next row is printed for a side, so that the needle has held both against each other."""
    step = next((step for line in after if isinstance(line, InstructionLine) for step in line.steps[:1]), None)
    return isinstance(step, RowStep) and step.label is not None and step.label.side is not None


def _odd(twins: Sequence[_Said]) -> Iterator[Diagnostic]:
    counts = Counter(each.side for each in twins)
    if len(counts) != 2 or len({each.piece for each in twins}) < 2:
        return
    rare = min(counts.values())
    # of two that differ, the one that nothing else has shown to be right
    odd = [each for each in twins if counts[each.side] == rare and each.open]
    if rare > 1 or not odd:
        return
    one = odd[-1]
    other = next(each for each in twins if each.side != one.side)
    if other.piece == one.piece:
        return
    yield Diagnostic.of(
        RULE,
        f"a {one.side} row for `{one.piece}`; the same line says a {other.side} row for `{other.piece}`",
        one.span,
        hint=f"a {other.side} row here, or a {one.side} row there",
        related=(Related(other.span, "the same line there"),),
    )
