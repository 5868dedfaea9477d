"""Places in a source file.

In: the text of one file. Out: `Span`, a stretch of that text that can tell its line and columns, and `Text`, a piece
of text that remembers where in the file each of its characters was typed (block scalars lose their indent on the
way, so the two are not the same thing).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, eq=False)
class SourceFile:
    """One file as it was read: `name` is what a report prints, `text` its decoded contents."""

    name: str
    text: str
    line_starts: tuple[int, ...] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        starts = [0]
        found = self.text.find("\n")
        while found != -1:
            starts.append(found + 1)
            found = self.text.find("\n", found + 1)
        object.__setattr__(self, "line_starts", tuple(starts))

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column of a character, both counted from 1."""
        line = bisect_right(self.line_starts, offset)
        return line, offset - self.line_starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of a line (counted from 1) without its line end; empty beyond the last."""
        if not 1 <= number <= len(self.line_starts):
            return ""
        start = self.line_starts[number - 1]
        end = self.line_starts[number] if number < len(self.line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")


@dataclass(frozen=True, slots=True)
class Span:
    """Characters `start` up to, not including, `end` of a file."""

    source: SourceFile
    start: int
    end: int

    @property
    def line(self) -> int:
        """Line of the first character, from 1."""
        return self.source.place(self.start)[0]

    @property
    def column(self) -> int:
        """Column of the first character, from 1."""
        return self.source.place(self.start)[1]

    @property
    def end_place(self) -> tuple[int, int]:
        """Line and column just behind the last character, from 1."""
        return self.source.place(self.end)

    def to(self, other: Span) -> Span:
        """From the start of this span to the end of another in the same file."""
        return Span(self.source, min(self.start, other.start), max(self.end, other.end))


@dataclass(frozen=True, slots=True)
class Text:
    """A value of the source with the place of every character.

    `anchors` holds pairs (index into `value`, offset in the file), ascending; from one anchor to the next, value and
    file run in step. Texts compare by value alone, so that trees made of them can be compared.
    """

    value: str
    source: SourceFile = field(compare=False, repr=False)
    anchors: tuple[tuple[int, int], ...] = field(compare=False, repr=False)

    def __str__(self) -> str:
        return self.value

    def offset(self, index: int) -> int:
        """Where in the file a character of the value was typed."""
        at = max(0, bisect_right(self.anchors, (index, 1 << 60)) - 1)
        value_index, file_offset = self.anchors[at]
        return file_offset + index - value_index

    def span(self, start: int = 0, end: int | None = None) -> Span:
        """The place of a part of the value; of the whole when no part is given."""
        if end is None:
            end = len(self.value)
        first = self.offset(start)
        last = self.offset(end - 1) + 1 if end > start else first
        return Span(self.source, first, max(first, last))

    def part(self, start: int, end: int) -> Text:
        """A stretch of this text as a text of its own."""
        first = max(0, bisect_right(self.anchors, (start, 1 << 60)) - 1)
        anchors = [(0, self.offset(start))]
        for value_index, file_offset in self.anchors[first + 1 :]:
            if value_index >= end:
                break
            if value_index > start:
                anchors.append((value_index - start, file_offset))
        return Text(self.value[start:end], self.source, tuple(anchors))

    def lines(self) -> Iterator[Text]:
        """The lines of the text, without line ends."""
        start = 0
        for line in self.value.split("\n"):
            yield self.part(start, start + len(line))
            start += len(line) + 1

    @staticmethod
    def plain(value: str, name: str = "<text>") -> Text:
        """A text that is a file of its own: for tests and for generated lines."""
        return Text(value, SourceFile(name, value), ((0, 0),))
