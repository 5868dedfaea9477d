"""Places: lines and columns from 1, and texts that know where each character was typed."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from castoff.span import SourceFile, Span, Text

FILE = SourceFile("cap.yaml", "title: Cap\r\nwork: |\n  Knit 3 rows.\n")


def test_lines_are_counted_from_one_and_lose_their_ends() -> None:
    assert FILE.line(1) == "title: Cap"
    assert FILE.line(3) == "  Knit 3 rows."
    assert FILE.line(0) == FILE.line(9) == ""


def test_a_span_tells_its_place() -> None:
    at = FILE.text.index("3")
    span = Span(FILE, at, at + 1)
    assert (span.line, span.column, span.end_place) == (3, 8, (3, 9))


def test_spans_join_in_either_order() -> None:
    one, other = Span(FILE, 2, 4), Span(FILE, 8, 9)
    assert (one.to(other).start, one.to(other).end) == (2, 9)
    assert other.to(one) == one.to(other)


def test_a_text_with_gaps_finds_each_part() -> None:
    text = Text("ab\ncd\n", SourceFile("x", "k: |\n  ab\n  cd\n"), ((0, 7), (3, 12)))
    assert [text.offset(index) for index in range(6)] == [7, 8, 9, 12, 13, 14]
    assert text.span(3, 5).line == 3
    assert text.part(4, 5).span() == text.span(4, 5)
    assert [line.value for line in text.lines()] == ["ab", "cd", ""]
    assert [line.span().line for line in text.lines()][:2] == [2, 3]


def test_an_empty_part_stands_between_two_characters() -> None:
    span = Text.plain("abc").span(1, 1)
    assert (span.start, span.end) == (1, 1)


def test_texts_are_equal_when_they_say_the_same() -> None:
    assert Text.plain("k2", "one") == Text.plain("k2", "two")


@given(st.text("ab\n", max_size=30), st.integers(0, 30), st.integers(0, 30), st.integers(0, 30))
def test_a_part_of_a_part_is_where_the_whole_has_it(value: str, start: int, length: int, inner: int) -> None:
    text = Text.plain(value)
    part = text.part(min(start, len(value)), min(start + length, len(value)))
    if inner < len(part.value):
        assert part.source.text[part.offset(inner)] == part.value[inner]
