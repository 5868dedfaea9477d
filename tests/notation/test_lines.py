"""Every line that designers may be expected to write is read, and nothing of it is lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.notation.corpus import LINES
from tests.notation.vocabularies import corpus_vocabulary, source_blocks, typed_sources

from castoff.notation.lines import parse_line, parse_work
from castoff.notation.print import print_line
from castoff.notation.syntax import InstructionLine, Line, ProseLine, SizesLine, UnreadLine
from castoff.span import Text

_SIZES = ("S", "M", "L", "XL")


def _read(text: str) -> InstructionLine:
    checked = parse_line(Text.plain(text), corpus_vocabulary())
    assert checked.findings == (), [finding.message for finding in checked.findings]
    assert isinstance(checked.value, InstructionLine)
    return checked.value


@pytest.mark.parametrize("text", LINES)
def test_a_line_of_the_corpus_is_read(text: str) -> None:
    line = _read(text)
    assert line.steps
    assert "".join(token.text for token in line.tokens) == text


@pytest.mark.parametrize("text", LINES)
def test_a_printed_line_reads_back_to_the_same_tree(text: str) -> None:
    line = _read(text)
    assert _read(print_line(line, _SIZES)).steps == line.steps


@pytest.mark.parametrize("text", LINES)
def test_capitals_and_typographic_marks_make_no_difference(text: str) -> None:
    changed = text.replace("'", "’").replace(" to ", " to\u00a0").replace(" - ", " — ")
    assert _read(changed).steps == _read(text).steps
    if not any(f" {yarn}" in text.upper() for yarn in ("A ", "A,", "A.", "B ", "B,", "B.")) and "{" not in text:
        assert _untyped(_read(text.upper()).steps) == _untyped(_read(text).steps)


def _untyped(steps: object) -> str:
    """The tree without regard to capitals in the author's own words."""
    return str(steps).lower()


@pytest.mark.parametrize("path", typed_sources(), ids=lambda path: path.stem)
def test_every_line_of_a_source_that_others_typed_is_read(path: Path) -> None:
    unread = []
    for block, vocabulary in source_blocks(path):
        checked = parse_work(Text.plain(block, path.name), vocabulary)
        unread += [f"{finding.span and finding.span.line}: {finding.message}" for finding in checked.findings]
        for line in checked.value:
            if isinstance(line, InstructionLine):
                assert "".join(token.text for token in line.tokens) == line.text.value
                again = parse_line(Text.plain(print_line(line, vocabulary.sizes)), vocabulary)
                assert getattr(again.value, "steps", None) == line.steps, print_line(line, vocabulary.sizes)
    assert unread == []


def _kinds(block: str) -> list[type[Line]]:
    return [type(line) for line in parse_work(Text.plain(block), corpus_vocabulary()).value]


def test_an_indented_line_continues_the_one_above_and_blank_lines_are_skipped() -> None:
    block = "Row 1: K2, p2,\n   k to end.\n\nRow 2: Purl.\n"
    checked = parse_work(Text.plain(block), corpus_vocabulary())
    assert checked.findings == ()
    assert [line.text.value for line in checked.value if isinstance(line, InstructionLine)] == [
        "Row 1: K2, p2,\n   k to end.",
        "Row 2: Purl.",
    ]


def test_prose_is_kept_and_not_read() -> None:
    assert _kinds("> Take your time here.\nKnit 1 row.") == [ProseLine, InstructionLine]


def test_sizes_hold_until_all_sizes() -> None:
    block = "Knit 1 row.\nSizes S and L only:\nKnit 2 rows.\nAll sizes:\nPurl 1 row.\nSize M: Knit 3 rows."
    checked = parse_work(Text.plain(block), corpus_vocabulary())
    assert checked.findings == ()
    assert [line.sizes for line in checked.value] == [
        (True, True, True, True),
        (True, False, True, False),
        (True, False, True, False),
        (True, True, True, True),
        (True, True, True, True),
        (False, True, False, False),
    ]
    assert isinstance(checked.value[1], SizesLine)


def test_a_run_of_sizes_and_names_with_dashes() -> None:
    vocabulary = corpus_vocabulary(("1–2 yrs", "3–4 yrs", "5–7 yrs", "8–10 yrs"))
    checked = parse_work(Text.plain("Sizes 3-4 yrs to 8–10 yrs only: Knit 1 row."), vocabulary)
    assert checked.findings == ()
    assert checked.value[0].sizes == (False, True, True, True)


def test_an_unread_line_does_not_stop_the_rest() -> None:
    block = "Knit 1 row.\nFrobnicate the widget.\nPurl 1 row."
    checked = parse_work(Text.plain(block), corpus_vocabulary())
    assert [type(line) for line in checked.value] == [InstructionLine, UnreadLine, InstructionLine]
    assert [finding.span and finding.span.line for finding in checked.findings] == [2]
