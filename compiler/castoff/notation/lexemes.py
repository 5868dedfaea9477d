"""Lexemes, the pieces that a line is cut into, and the tokens that the document sets lines from.

In: a line and its lexemes. Out: `Lexeme`, `Lexed`, `Token`s whose texts joined are the line exactly.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from castoff.diagnostic import Diagnostic
from castoff.notation.syntax import Count, Length, Token
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Span, Text

Kind = Literal["word", "number", "ordinal", "length", "mass", "mark", "end"]


@dataclass(frozen=True, slots=True)
class Lexeme:
    """One piece of a line.

    key: the form the grammar compares: canonical word, "#" for numbers, "#th" for ordinals, the mark itself.
    start, end: indices into the line. spaced: white space stands before it.
    numbers: one per size for numbers, ordinals and number words. formula: text between the braces.
    length: for lengths. stitch: canonical stitch name, when the stitch book knows the word.
    """

    kind: Kind
    text: str
    key: str
    start: int
    end: int
    spaced: bool = False
    numbers: tuple[Fraction | None, ...] | None = None
    formula: str | None = None
    length: Length | None = None
    stitch: str | None = None


@dataclass(frozen=True, slots=True)
class Lexed:
    """A line in lexemes, the end marker last; with the findings of this level."""

    lexemes: tuple[Lexeme, ...]
    findings: tuple[Diagnostic, ...]


def find_stitch(word: str, own: Mapping[str, str], vocabulary: Vocabulary) -> str | None:
    """The canonical name, in lower case, of a stitch of the author's or of the trade."""
    mine = own.get(word.lower())
    if mine is not None:
        return mine
    found = vocabulary.book.find(word)
    return None if found is None else found.name.lower()


def tokens_of(line: Text, lexed: Lexed) -> tuple[Token, ...]:
    """The line as printed, piece by piece, for the document; joined they are the line exactly."""
    tokens: list[Token] = []
    at = 0
    text = line.value
    for lexeme in lexed.lexemes:
        if lexeme.start > at:
            tokens.append(Token("space", text[at : lexeme.start], span=line.span(at, lexeme.start)))
        if lexeme.kind == "end":
            break
        tokens.append(_token(lexeme, line.span(lexeme.start, lexeme.end)))
        at = lexeme.end
    return tuple(tokens)


def _token(lexeme: Lexeme, span: Span) -> Token:
    if lexeme.kind == "length":
        return Token("length", lexeme.text, length=lexeme.length, span=span)
    listed = lexeme.text[-1:] in (")", "]")
    if lexeme.numbers and (listed or (lexeme.kind in ("number", "ordinal") and not lexeme.text[:1].isalpha())):
        whole = tuple(None if value is None or value.denominator != 1 else int(value) for value in lexeme.numbers)
        return Token("number", lexeme.text, count=Count(whole, lexeme.formula, span=span), span=span)
    if lexeme.stitch is not None:
        return Token("stitch", lexeme.text, stitch=lexeme.stitch, span=span)
    return Token("mark" if lexeme.kind == "mark" else "word", lexeme.text, span=span)
