"""Abbreviations that the instructions use.

In: the evidence. Out: each short form once, at its first place, in the order of the text; stitches by their canonical
name, words by the trade's table. Yarn letters and needle words are the pattern's own and no abbreviations.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from castoff.checks.evidence import Evidence
from castoff.notation.syntax import InstructionLine
from castoff.span import Span


@dataclass(frozen=True, slots=True)
class ShortForm:
    """A short form in use. name: canonical. as_written: first spelling met. words: written out, "" when unknown."""

    name: str
    as_written: str
    words: str
    span: Span


def used_short_forms(evidence: Evidence) -> Iterator[ShortForm]:
    """Each short form of the instruction lines once."""
    pattern = evidence.pattern
    own = {stitch.key.value.casefold(): stitch.words.value for stitch in pattern.stitches}
    keys = {yarn.key.value.casefold() for yarn in pattern.yarns}
    keys |= {needle.key.value.casefold() for needle in pattern.needles}
    seen: set[str] = set()
    for lines in evidence.lines:
        for line in lines:
            if not isinstance(line, InstructionLine):
                continue
            for token in line.tokens:
                if token.kind not in ("word", "stitch"):
                    continue
                written = re.sub(r"\d+$", "", token.text.strip())
                name = token.stitch or written
                if written.casefold() in keys or name.casefold() in seen or written.casefold() in seen:
                    continue
                words = own.get(name.casefold()) or evidence.trade.expansion(written)
                if words is None or words.casefold() == written.casefold() or len(written) > len(words):
                    continue
                # a stitch that is spelled out explains itself: "knit", "purl 3"
                if written.casefold() in words.casefold().split():
                    continue
                seen.add(name.casefold())
                seen.add(written.casefold())
                yield ShortForm(name, written, words, token.span)


def spellings(key: str) -> tuple[str, ...]:
    """The spellings that an entry of a list covers: `st(s)`, `rnd(s)`, `k / K`, `pm, sm`."""
    forms: list[str] = []
    for part in re.split(r"\s*(?:,|/(?=\s)|\bor\b)\s*", key):
        optional = re.fullmatch(r"(.*?)\((\w+)\)(.*)", part)
        if optional is not None:
            forms += [optional[1] + optional[3], optional[1] + optional[2] + optional[3]]
        elif part.strip():
            forms.append(part.strip())
    return tuple(forms)


def explained(evidence: Evidence) -> set[str]:
    """All spellings of the typed list, lower case; the pattern's own stitches explain themselves."""
    listed = {form.casefold() for entry in evidence.pattern.abbreviations for form in spellings(entry.key.value)}
    return listed | {stitch.key.value.casefold() for stitch in evidence.pattern.stitches}
