"""Whatever is typed, the parser neither breaks nor takes long; what is valid is read and prints back."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.notation.corpus import LINES
from tests.notation.lines_at_random import read_lines
from tests.notation.vocabularies import corpus_vocabulary

from castoff.notation import syntax
from castoff.notation.lines import parse_line, parse_work
from castoff.notation.print import print_line
from castoff.notation.syntax import InstructionLine, UnreadLine
from castoff.span import Text

_PIECES = st.sampled_from(
    [word for line in LINES for word in line.split(" ")]
    + [
        "(",
        ")",
        "[",
        "]",
        "*",
        "**",
        ";",
        ",",
        ".",
        "rep",
        "from",
        "to",
        "end",
        "4 (5, 6, 7)",
        "½",
        "–",
        "{brim}",
        "{",
        "}",
    ]
)


def test_random_lines_valid_damaged_and_noise() -> None:
    tally = read_lines(5000, 7)
    assert tally.unread == []
    assert tally.changed == []
    assert tally.slowest[0] < 1, tally.slowest
    unions = (syntax.Action, syntax.Step, syntax.Until, syntax.Target)
    productions = {node.__name__ for union in unions for node in get_args(union)}
    assert productions - set(tally.nodes) == set()


@settings(max_examples=400, deadline=1000)
@given(st.text(max_size=80))
def test_any_text_at_all(text: str) -> None:
    for size in (("One size",), ("S", "M", "L", "XL")):
        checked = parse_work(Text.plain(text), corpus_vocabulary(size))
        assert all(finding.span is not None for finding in checked.findings)


@settings(max_examples=400, deadline=1000)
@given(st.lists(_PIECES, max_size=14))
def test_any_words_of_the_trade_in_any_order(words: list[str]) -> None:
    text = " ".join(words)
    value = parse_line(Text.plain(text), corpus_vocabulary()).value
    if isinstance(value, InstructionLine):
        assert "".join(token.text for token in value.tokens) == text


@pytest.mark.parametrize(
    "text",
    [
        "Row 1: " + "(" * 2000,
        "Row 1: " + "[k1, " * 400 + "p1" + "] twice" * 400,
        "Row 1: " + "*k1, " * 400,
        "Row 1: " + "(k1, p1) twice, " * 800,
        "Row 1: " + "k" * 20000,
        "{" * 5000,
        "Row " + "1 (" * 3000,
        "- (" * 3000,
        "4 (5, " * 3000,
        "Rep rows 1, 2, 3, " * 500,
        "Weave in " + "ends and " * 2000,
        "Row 1: K2, " + "and then " * 2000 + "k1.",
        "at the same time, " * 300 + "knit 1 row",
        "Sizes " + "S, " * 2000 + "only: knit.",
    ],
    ids=lambda text: text[:24],
)
def test_hostile_lines_come_to_an_end(text: str) -> None:
    read = parse_line(Text.plain(text), corpus_vocabulary())
    assert isinstance(read.value, UnreadLine) == bool(read.findings)


def test_a_repeat_of_a_thousand_million_is_a_number_and_more_digits_are_refused() -> None:
    large = parse_line(Text.plain("Row 1: *K2; rep from * 999999999 more times."), corpus_vocabulary())
    assert isinstance(large.value, InstructionLine)
    too_large = parse_line(Text.plain("Row 1: *K2; rep from * 10000000000 more times."), corpus_vocabulary())
    assert isinstance(too_large.value, UnreadLine)
    assert [finding.rule.name for finding in too_large.findings] == ["number-too-long"]
    assert too_large.findings[0].message == "a number of 11 digits"


# lines made at random that once were printed into another tree
ONCE_FAILED = (
    "Next k row: K20, CO 4 sts over gap, k to end.",
    "Next slip row: CO 19 (19, 1, 6) sts, remove m, p28, slip marker; 36 sts rem.",
    "Graft toe closed closed using Kitchener Kitchener stitch.",
    "Weave in ends.ds.ds.ds.",
    "Next rnd: K first 8 heel sts, turn.",
)


@pytest.mark.parametrize("text", ONCE_FAILED)
def test_a_line_that_once_failed_prints_back_to_its_tree(text: str) -> None:
    line = parse_line(Text.plain(text), corpus_vocabulary()).value
    assert isinstance(line, InstructionLine)
    again = parse_line(Text.plain(print_line(line, corpus_vocabulary().sizes)), corpus_vocabulary()).value
    assert isinstance(again, InstructionLine)
    assert again.steps == line.steps
