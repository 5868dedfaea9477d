"""Prose holds an instruction with a number.

A line that starts with `>` and the notes are for the reader; nothing in them is knitted, so a number there is proven by
nobody. Stitches to be worked belong into an instruction line.

Fires:
    > Work 5 sts in rib before going on.
    Work in st st for 4 rows.

Fires:
    > K3, p2 to the marker.
    Work in st st for 4 rows.

Silent:
    > The k2, p2 rib pulls in; measure it slightly stretched.
    Work in st st for 4 rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import ProseLine
from castoff.span import Text

RULE = Rule("prose-instruction", "warning", __doc__ or "")

_NUMBER = r"(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_INSTRUCTION = re.compile(
    # k3, p2, sl1, yo2, k2tog 4 times; but the name of a rib is no instruction
    r"\b(?:k|p|sl|yo|m)\d+\b(?:tog\b)?(?:\s*(?:,|\band\b)?\s*\b(?:k|p)\d+\b)*(?!\s*(?:,\s*)?(?:rib|twisted|garter|moss|seed))"
    rf"|\b(?:work|knit|purl|k|p|cast on|cast off|bind off|co|bo|pick up(?: and knit)?|inc|increase|dec|decrease|slip|sl|"
    rf"place|skip|drop|graft|rep|repeat)\s(?:[^.;:\n]{{0,30}}\s)?(?<!every )(?<!each ){_NUMBER}\b[^.;:\n]{{0,24}}?"
    r"\b(?:sts?|stitch(?:es)?|rows?|rnds?|rounds?|times)\b",
    re.IGNORECASE,
)
_MEANING = re.compile(r"^[.;\n]?\s*[^\s.;]{1,12}(?: [^\s.;]{1,12})?\s*(?:means|stands for|=)\s", re.IGNORECASE)
_RIB_NAME = re.compile(r"\b[kp]\d+(?:\s*(?:,|/|×|x|by|and)?\s*[kp]\d+)*\s*,?\s*(?:twisted\s+)?rib\w*", re.IGNORECASE)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each line of prose, and each sentence of the notes."""
    for lines in evidence.lines:
        for line in lines:
            if isinstance(line, ProseLine):
                yield from _judge(line.text, "a line of prose")
    for printed in evidence.printed:
        if printed.where == "notes":
            yield from _judge(printed.text, "the notes")


def _judge(text: Text, where: str) -> Iterator[Diagnostic]:
    ribs = [match.span() for match in _RIB_NAME.finditer(text.value)]
    for match in _INSTRUCTION.finditer(text.value):
        sentence = text.value[max(text.value.rfind(".", 0, match.start()), 0) : match.end()].lower()
        # a swatch is no part of the piece, and "sk2p means slip 1 st, k2tog, …" tells what a short form stands for
        if "swatch" in sentence or (where == "the notes" and _MEANING.match(sentence)):
            continue
        if any(start <= match.start() < end for start, end in ribs):
            continue
        yield Diagnostic.of(
            RULE,
            f"{where} says `{match.group().strip()}`, which nobody knits or checks",
            text.span(match.start(), match.end()),
            hint="write it as an instruction line, without `>`",
        )
        return
