"""A place in the lexemes of a line, and the small questions the grammar asks there.

In: a lexed line. Out: answers, and how far anybody ever got (`far`), which is where an unread line is marked.
Readers take a cursor, return a node and leave the cursor behind it; when theirs is not what stands here they return
None and leave the cursor where it was.
"""

from __future__ import annotations

from typing import Never

from castoff.diagnostic import Diagnostic
from castoff.notation.lexemes import Lexeme
from castoff.notation.lexer import NOT_WHOLE
from castoff.notation.stitch_work import works_at
from castoff.notation.syntax import Count, Length
from castoff.notation.vocabulary import Vocabulary
from castoff.notation.words import TIMES_WORDS, key_of
from castoff.span import Span, Text

_NONE = 1 << 60
DEEPEST = 12
"""Repeats within repeats that are still read; nobody can knit more, and the parser must not run out of stack."""


class Cursor:
    """Where the parser stands in one line.

    line: the text. vocabulary: the pattern's words. lexemes: the line, end marker last.
    closers: for each opening bracket the index of the bracket that closes it.
    open_marks: repeat marks ("*") that are open here.
    far: the furthest lexeme that anything known led to. free: where words began that may be anything.
    wanted: what is missing, and where.
    """

    __slots__ = ("at", "closers", "far", "findings", "free", "lexemes", "line", "open_marks", "vocabulary", "wanted")

    def __init__(self, line: Text, lexemes: tuple[Lexeme, ...], vocabulary: Vocabulary) -> None:
        self.line = line
        self.lexemes = lexemes
        self.vocabulary = vocabulary
        self.at = 0
        self.far = 0
        self.free = _NONE
        self.wanted: tuple[int, str] | None = None
        self.findings: list[Diagnostic] = []
        self.open_marks: list[str] = []
        self.closers = _match_brackets(lexemes)

    # ------------------------------------------------------------------------------------------------ looking

    @property
    def here(self) -> Lexeme:
        """The lexeme at this place; the end marker behind the last."""
        return self.lexemes[self.at]

    def peek(self, ahead: int = 1) -> Lexeme:
        """A lexeme further on; the end marker beyond the end."""
        return self.lexemes[min(self.at + ahead, len(self.lexemes) - 1)]

    @property
    def done(self) -> bool:
        """Whether nothing is left."""
        return self.lexemes[self.at].kind == "end"

    def looking(self, *phrases: str) -> bool:
        """Whether one of the phrases stands here."""
        before = self.at
        found = self.take(*phrases)
        self.at = before
        return found

    def take(self, *phrases: str) -> bool:
        """Reads the first of the phrases that stands here; a phrase is keys with single spaces between."""
        for phrase in phrases:
            at = self.at
            for key in phrase.split(" "):
                if self.lexemes[at].key != key:
                    self.understood(at)
                    break
                at += 1
            else:
                self.at = at
                self.understood(at)
                return True
        return False

    def take_key(self, keys: frozenset[str]) -> str | None:
        """Reads one lexeme whose key is among those; its key."""
        key = self.lexemes[self.at].key
        if key in keys:
            self.step()
            return key
        return None

    def step(self) -> Lexeme:
        """Reads the lexeme here, whatever it is."""
        lexeme = self.lexemes[self.at]
        if lexeme.kind != "end":
            self.at += 1
            self.understood(self.at)
        return lexeme

    def reach(self) -> None:
        """Remembers that the parser understood everything up to here."""
        self.understood(self.at)

    def understood(self, at: int) -> None:
        """Remembers how far anybody got; words of the author's own that may still prove to be none do not count."""
        if self.far < at <= self.free:
            self.far = at

    def skip(self) -> None:
        """Passes a word that may be anything (a name, an edge, a place)."""
        if self.at < self.free:
            self.free = self.at
        self.at += 1

    def settle(self) -> None:
        """Says that what was read up to here stands, free words and all."""
        self.free = _NONE
        self.reach()

    def want(self, what: str) -> None:
        """Notes what is missing, for the finding; the note furthest on is the one told."""
        if self.wanted is None or self.at > self.wanted[0]:
            self.wanted = self.at, what

    # typed so that a reader of any node can end with `return c.back(start)`
    def back(self, at: int) -> Never | None:  # noqa: RUF020 - a checker refuses to use the result of `-> None`
        """Returns to an earlier place; always None, so that a reader can end with `return c.back(start)`."""
        self.at = at
        if at <= self.free:
            self.free = _NONE
        return None

    def span(self, start: int) -> Span:
        """From a lexeme up to the last one read."""
        first = self.lexemes[start]
        last = self.lexemes[max(start, self.at - 1)]
        return self.line.span(first.start, max(first.end, last.end))

    def raw(self, start: int, end: int) -> str:
        """The words from one lexeme up to another as typed, lower case, single spaces."""
        if end <= start:
            return ""
        text = self.line.value[self.lexemes[start].start : self.lexemes[end - 1].end]
        return " ".join(text.replace("’", "'").split()).lower()

    # ------------------------------------------------------------------------------------------------ numbers

    def count_at(self, ahead: int = 0) -> bool:
        """Whether a whole number (in figures or in words) stands here."""
        lexeme = self.peek(ahead) if ahead else self.here
        return lexeme.numbers is not None and lexeme.kind in ("number", "word") and lexeme.key not in TIMES_WORDS

    def count(self) -> Count | None:
        """A number of stitches, rows or times."""
        return self._whole() if self.count_at() else None

    def ordinal(self) -> Count | None:
        """A place in a count: "4th", "second", per size "6th (6th, 4th)"."""
        return self._whole() if self.here.kind == "ordinal" else None

    def often(self) -> Count | None:
        """ "once", "twice", "thrice"."""
        return self._whole() if self.here.key in TIMES_WORDS else None

    def _whole(self) -> Count:
        start = self.at
        lexeme = self.step()
        values: list[int | None] = []
        for size, value in enumerate(lexeme.numbers or ()):
            if value is not None and value.denominator != 1:
                self.not_whole(start, size)
                values.append(None)
            else:
                values.append(None if value is None else int(value))
        return Count(tuple(values), lexeme.formula, span=self.span(start))

    def not_whole(self, index: int, size: int) -> None:
        """Notes a count with a fraction; once for every place."""
        lexeme = self.lexemes[index]
        span = self.line.span(lexeme.start, lexeme.end)
        if any(finding.rule is NOT_WHOLE and finding.span == span for finding in self.findings):
            return
        value = (lexeme.numbers or ())[size]
        self.findings.append(
            Diagnostic.of(
                NOT_WHOLE,
                f"{lexeme.text} is no whole count" + ("" if lexeme.formula is None else f": {value}"),
                span,
                sizes=() if len(set(lexeme.numbers or ())) == 1 else (self.vocabulary.sizes[size],),
                hint="a length needs its unit (cm, in); a count needs rounding",
            )
        )

    def same(self, number: int, start: int) -> Count:
        """A count that words imply ("the last st" is 1), placed at those words."""
        return Count((number,) * len(self.vocabulary.sizes), span=self.span(start))

    def length(self) -> Length | None:
        """A length with its unit."""
        if self.here.length is None:
            return None
        return self.step().length

    # ------------------------------------------------------------------------------------------------ names

    def stitch(self, word: str) -> str | None:
        """The canonical name of a stitch of the trade, in lower case; None when there is none so called."""
        found = self.vocabulary.book.find(word)
        return None if found is None else found.name.lower()

    def yarn(self) -> str | None:
        """A yarn by its key; one-letter keys only as typed, so that the article "a" is no yarn."""
        for key in self.vocabulary.yarns:
            words = key.split()
            if all(_same_name(self.peek(index).text, word) for index, word in enumerate(words)):
                self.at += len(words)
                self.reach()
                return key
        return None

    def name_of(self, names: tuple[str, ...]) -> str | None:
        """The longest of some names that stands here, whatever its capitals."""
        best, length = None, 0
        for name in names:
            words = name.lower().split()
            if len(words) > length and all(
                self.peek(index).text.lower() == word or self.peek(index).key == key_of(word)
                for index, word in enumerate(words)
            ):
                best, length = name, len(words)
        if best is not None:
            self.at += length
            self.reach()
        return best

    def spelled(self, names: tuple[str, ...]) -> str | None:
        """The longest of some names that is spelled out here, whatever lexemes it falls into ("9–12 months")."""
        begin = self.here.start
        text = _plain_dashes(self.line.value)
        for name in sorted(names, key=lambda name: (-len(name), name)):
            end = begin + len(name)
            if text[begin:end] != _plain_dashes(name) or text[end : end + 1].isalnum():
                continue
            for at in range(self.at, len(self.lexemes)):
                if self.lexemes[at].end == end:
                    self.at = at + 1
                    self.reach()
                    return name
        return None

    def words_until(self, stops: frozenset[str], most: int = 12) -> str:
        """Free words as typed up to a stop word, stitch work, a mark, a number or the end; lower case."""
        start = self.at
        while self.at - start < most:
            lexeme = self.here
            if lexeme.kind not in ("word", "ordinal") or lexeme.key in stops or works_at(self.lexemes, self.at):
                break
            self.skip()
        return self.raw(start, self.at)


def _plain_dashes(text: str) -> str:
    return text.lower().replace("–", "-").replace("—", "-").replace("\u00a0", " ").replace("’", "'")


def _same_name(text: str, word: str) -> bool:
    return text == word or (len(word) > 1 and text.lower() == word.lower())


def _match_brackets(lexemes: tuple[Lexeme, ...]) -> dict[int, int]:
    pairs = {"(": ")", "[": "]", "{": "}"}
    waiting: list[tuple[int, str]] = []
    closers: dict[int, int] = {}
    for index, lexeme in enumerate(lexemes):
        if lexeme.kind != "mark":
            continue
        if lexeme.text in pairs:
            waiting.append((index, pairs[lexeme.text]))
        elif waiting and lexeme.text == waiting[-1][1]:
            closers[waiting.pop()[0]] = index
    return closers
