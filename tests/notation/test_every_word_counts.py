"""Changing any one word of a line changes what it says, or is an error.

Each word of each line is changed into a word that means nothing, and into its opposite where it has one.
"""

from __future__ import annotations

import pytest
from tests.notation.corpus import LINES
from tests.notation.vocabularies import corpus_vocabulary

from castoff.notation.lines import parse_line
from castoff.notation.syntax import InstructionLine
from castoff.span import Text

_OPPOSITES = {
    "rs": "WS", "ws": "RS", "knit": "purl", "k": "p", "purl": "knit", "p": "k", "inc": "dec", "dec": "inc", "more": "fewer",
    "row": "rnd", "rnd": "row", "rows": "rnds", "rnds": "rows", "before": "past", "past": "before", "next": "last",
    "k2tog": "ssk", "ssk": "k2tog", "m1l": "m1r", "m1r": "m1l", "larger": "smaller", "smaller": "larger", "on": "off",
    "join": "break", "break": "join", "place": "remove", "left": "right", "right": "left", "front": "back", "back": "front",
    "beg": "end", "beginning": "end", "once": "twice", "twice": "once", "first": "second", "second": "first", "th": "rd",
    "even": "odd", "odd": "even", "cast": "bind", "knitwise": "purlwise", "purlwise": "knitwise", "wyif": "wyib",
    "wyib": "wyif", "cm": "in", "sm": "rm", "pm": "sm", "toe": "heel", "neck": "armhole", "stockinette": "garter",
    "every": "last", "from": "to", "foll": "last", "other": "4th", "end": "m", "mc": "CC", "sleeve": "body",
}  # fmt: skip
# Pairs that may say the same: "rep last 2 rows" in the round, "BO next 4 sts" and "BO last 4 sts", "cast off" and
# "bind off", a second holder that has a name of its own.
_SAME_TREE = {("row", "rnd"), ("rnd", "row"), ("rows", "rnds"), ("rnds", "rows"), ("next", "last"), ("cast", "bind")}
_SAME_IN = {("second", "on a second holder for right side")}


def _steps(text: str) -> object:
    value = parse_line(Text.plain(text), corpus_vocabulary()).value
    return value.steps if isinstance(value, InstructionLine) else None


def _words(text: str) -> list[tuple[int, int, str]]:
    value = parse_line(Text.plain(text), corpus_vocabulary()).value
    assert isinstance(value, InstructionLine)
    at, found = 0, []
    for token in value.tokens:
        if token.kind in ("word", "stitch") and token.text[:1].isalpha():
            found.append((at, at + len(token.text), token.text.lower().rstrip(".")))
        at += len(token.text)
    return found


@pytest.mark.parametrize("text", LINES)
def test_a_meaningless_word_is_an_error_or_another_tree(text: str) -> None:
    steps = _steps(text)
    silent = [text[start:end] for start, end, _ in _words(text) if _steps(f"{text[:start]}zzyx{text[end:]}") == steps]
    assert silent == []


@pytest.mark.parametrize("text", LINES)
def test_the_opposite_word_is_an_error_or_another_tree(text: str) -> None:
    steps = _steps(text)
    silent = [
        f"{word} -> {_OPPOSITES[word]}"
        for start, end, word in _words(text)
        if word in _OPPOSITES
        and (word, _OPPOSITES[word]) not in _SAME_TREE
        and not any(word == one and where in text for one, where in _SAME_IN)
        and _steps(text[:start] + _OPPOSITES[word] + text[end:]) == steps
    ]
    assert silent == []


@pytest.mark.parametrize("text", LINES)
def test_a_number_one_more_is_another_tree(text: str) -> None:
    value = parse_line(Text.plain(text), corpus_vocabulary()).value
    assert isinstance(value, InstructionLine)
    at, silent = 0, []
    for token in value.tokens:
        if token.kind in ("number", "length") and token.text[0].isdigit():
            for index, sign in enumerate(token.text):
                if sign.isdigit():
                    other = str((int(sign) + 1) % 10)
                    changed = text[: at + index] + other + text[at + index + 1 :]
                    if _steps(changed) == value.steps:
                        silent.append(changed)
        at += len(token.text)
    assert silent == []
