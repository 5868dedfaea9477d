"""Abbreviations that the instructions use.

In: the evidence. Out: each short form once, at its first place, in the order of the text; stitches by their canonical
name, words by the trade's table. Yarn letters and needle words are the pattern's own and no abbreviations.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from castoff.checks.evidence import Evidence
from castoff.notation.syntax import InstructionLine, Token
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
            tokens = [token for token in line.tokens if token.kind != "space"]
            at = 0
            while at < len(tokens):
                length, form = _longest(evidence, tokens[at : at + 3], own, keys)
                at += length
                if form is not None and not {form.name.casefold(), form.as_written.casefold()} & seen:
                    seen |= {form.name.casefold(), form.as_written.casefold()}
                    yield form


def _longest(
    evidence: Evidence, tokens: list[Token], own: dict[str, str], keys: set[str]
) -> tuple[int, ShortForm | None]:
    """How many tokens the short form at their start takes up, and what it is: "st st" goes before "st"."""
    for length in range(len(tokens), 0, -1):
        some = tokens[:length]
        if any(token.kind not in ("word", "stitch") for token in some):
            continue
        written = " ".join(token.text.strip() for token in some)
        if length == 1:
            written = re.sub(r"\d+$", "", written)
        name = some[0].stitch if length == 1 and some[0].stitch else written
        if written.casefold() in keys:
            return length, None
        words = own.get(name.casefold()) or _words(evidence, written)
        # a stitch that is spelled out explains itself: "knit", "purl"
        if words is None or len(written) >= len(words) or written.casefold() in words.casefold().split():
            continue
        return length, ShortForm(name, written, words, some[0].span.to(some[-1].span))
    return 1, None


def _words(evidence: Evidence, written: str) -> str | None:
    """What the trade reads; a unit needs no explaining."""
    entry = evidence.trade.abbreviations.find(written)
    if entry is not None and entry.kind == "unit":
        return None
    return evidence.trade.expansion(written, evidence.pattern.terms.value)


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
