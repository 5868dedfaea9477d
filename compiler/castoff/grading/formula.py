"""A formula's text to its tree.

In: a `Text` and the number of sizes. Out: a frozen `Expression` with the place of every part, or what is wrong.
Numbers, units and size lists are read by `numeral.py`, as everywhere: `-4 cm`, `8 1/4 in`, `84 (92, 100)`. Beside
them: names (`cast_on`, `body.head`, `gauge.rib.rows`), `+ - * / ( )`, `%`, and functions with keyword arguments.
Nothing is ever handed to Python to evaluate.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeAlias

from castoff.diagnostic import Diagnostic, Rule
from castoff.model.values import SIZE_LIST_LENGTH
from castoff.numeral import Misfit, NumeralList, read_list, read_measure
from castoff.per_size import axes_of
from castoff.span import Span, Text
from castoff.units import LENGTH, MASS, NUMBER, Dimension

FORMULA_UNREADABLE = Rule(
    "formula-unreadable",
    "error",
    """A formula cannot be read.

Formulas know numbers with units, lists per size, names, `+ - * /`, brackets, and functions such as
`stitches(length, gauge=stockinette)`.

Fires:
    numbers:
      cast_on: 84 +
Silent:
    numbers:
      cast_on: 84 + 8
""",
)
FORMULA_AMBIGUOUS = Rule(
    "formula-ambiguous",
    "error",
    """A formula can be read in two ways.

`12-1/2` is twelve and a half as the trade writes it, and twelve less a half as arithmetic does. Spaces decide it.

Fires:
    numbers:
      width: 12-1/2 in
Silent:
    numbers:
      width: 12 1/2 in
""",
)
RULES = (FORMULA_UNREADABLE, FORMULA_AMBIGUOUS)

MAX_DEPTH = 40
MAX_LENGTH = 2000


@dataclass(frozen=True, slots=True)
class Given:
    """A number or list as typed, in base units; one value per size, or a single one for all."""

    values: tuple[Fraction | None, ...]
    dimension: Dimension
    span: Span


@dataclass(frozen=True, slots=True)
class Name:
    """A name, in the parts that dots separate."""

    parts: tuple[str, ...]
    span: Span

    @property
    def dotted(self) -> str:
        """The name as typed."""
        return ".".join(self.parts)


@dataclass(frozen=True, slots=True)
class Negative:
    """The negative of an expression."""

    of: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Binary:
    """Two expressions joined by `+`, `-`, `*` or `/`."""

    operator: str
    left: Expression
    right: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Word:
    """A word given to a keyword argument, such as `up` or the name of a gauge; quoted when it holds spaces."""

    word: str
    span: Span


@dataclass(frozen=True, slots=True)
class Argument:
    """A keyword argument."""

    keyword: str
    value: Expression | Word
    span: Span


@dataclass(frozen=True, slots=True)
class Call:
    """A function with its arguments."""

    function: str
    arguments: tuple[Expression, ...]
    keywords: tuple[Argument, ...]
    span: Span
    name_span: Span


Expression: TypeAlias = Given | Name | Negative | Binary | Call

_NAME = re.compile(r"[^\W\d]\w*(?:\.\w+)*")
_QUOTED = re.compile(r"\"([^\"]*)\"|'([^']*)'|“([^”]*)”")
_SPACE = re.compile(r"[\s\u00a0\u202f]*")
_NUMBER_START = re.compile(r"\.?\d|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]")
_HYPHEN_MIXED = re.compile(r"(\d+)-(\d+[/⁄]\d+)")
_BRACKET_OF_NUMBERS = re.compile(r"[ \u00a0\u202f]*[(\[][\s\d.,:;½⅓⅔¼¾⅛⅜⅝⅞/–—-]*[)\]]")
_MINUS = "-−–"
_TIMES = "*×·"
_OVER = "/÷"
_SLIPS = {
    "^": "powers are not known; multiply instead", "**": "powers are not known; multiply instead",
    "=": "a formula has no `=`; the name stands before the colon", "{": "leave the braces out",
    "}": "leave the braces out", "%": "a `%` stands behind a number",
}  # fmt: skip


class FormulaFault(Exception):
    """Carries the finding that ends the reading or evaluation of one formula; never leaves this stage."""

    def __init__(self, finding: Diagnostic) -> None:
        super().__init__(finding.message)
        self.finding = finding


def parse(text: Text, sizes: tuple[str, ...]) -> Expression | Diagnostic:
    """The tree of a formula, or the finding that says why there is none."""
    if len(text.value) > MAX_LENGTH:
        message = f"the formula is {len(text.value)} characters long; {MAX_LENGTH} are the limit"
        return Diagnostic.of(FORMULA_UNREADABLE, message, text.span(0, 40))
    reader = _Reader(text, sizes)
    try:
        expression = reader.sum(0)
        reader.skip()
        if reader.at < len(text.value):
            raise reader.unexpected()
    except FormulaFault as fault:
        return fault.finding
    return expression


def names_in(expression: Expression) -> Iterator[Name]:
    """Every name in a formula, from left to right; words of keyword arguments are none."""
    if isinstance(expression, Name):
        yield expression
    elif isinstance(expression, Negative):
        yield from names_in(expression.of)
    elif isinstance(expression, Binary):
        yield from names_in(expression.left)
        yield from names_in(expression.right)
    elif isinstance(expression, Call):
        for argument in expression.arguments:
            yield from names_in(argument)
        for keyword in expression.keywords:
            if keyword.keyword not in WORD_KEYWORDS and not isinstance(keyword.value, Word):
                yield from names_in(keyword.value)


GAUGED = ("stitches", "rows", "width", "length")
"""Functions that work at a gauge."""


def gauges_in(expression: Expression) -> Iterator[Word | None]:
    """What every function of a formula that works at a gauge is told of it: its name, or None for the only one."""
    if isinstance(expression, Negative):
        yield from gauges_in(expression.of)
    elif isinstance(expression, Binary):
        yield from gauges_in(expression.left)
        yield from gauges_in(expression.right)
    elif isinstance(expression, Call):
        words = [keyword.value for keyword in expression.keywords if keyword.keyword == "gauge"]
        if expression.function in GAUGED:
            yield next((word for word in words if isinstance(word, Word)), None)
        for argument in expression.arguments:
            yield from gauges_in(argument)
        for keyword in expression.keywords:
            if not isinstance(keyword.value, Word):
                yield from gauges_in(keyword.value)


WORD_KEYWORDS = ("gauge", "to", "parity", "on", "worked", "first", "ends", "rates", "wording")
"""Keyword arguments whose value is a word and no formula."""


@dataclass(slots=True)
class _Reader:
    """A place in the text of a formula."""

    text: Text
    sizes: tuple[str, ...]
    at: int = 0

    def skip(self) -> None:
        match = _SPACE.match(self.text.value, self.at)
        if match is not None:
            self.at = match.end()

    def fault(self, message: str, start: int, end: int, hint: str | None = None) -> FormulaFault:
        return FormulaFault(Diagnostic.of(FORMULA_UNREADABLE, message, self.text.span(start, end), hint=hint))

    def unexpected(self) -> FormulaFault:
        value = self.text.value
        if self.at >= len(value):
            end = len(value.rstrip())
            return self.fault("the formula ends too soon", max(0, end - 1), end, "a number or a name is missing here")
        match = _NAME.match(value, self.at)
        power = value.startswith("**", self.at)
        found = match.group() if match else "**" if power else value[self.at]
        hint = _SLIPS.get(found)
        if hint is None and match is not None:
            hint = "join the words of a name with `_`, or put `*` between two factors"
        return self.fault(f"`{found}` cannot stand here", self.at, self.at + len(found), hint)

    def peek(self) -> str:
        self.skip()
        return self.text.value[self.at : self.at + 1]

    def sum(self, depth: int) -> Expression:
        """Terms joined by `+` and `-`."""
        if depth > MAX_DEPTH:
            raise self.fault(f"brackets are nested more than {MAX_DEPTH} deep", self.at, self.at + 1)
        left = self.product(depth)
        while (sign := self.peek()) and sign in "+" + _MINUS:
            self.at += 1
            right = self.product(depth)
            left = Binary("+" if sign == "+" else "-", left, right, left.span.to(right.span))
        return left

    def product(self, depth: int) -> Expression:
        """Factors joined by `*` and `/`."""
        left = self.factor(depth)
        while (sign := self.peek()) and sign in _TIMES + _OVER:
            if self.text.value.startswith("**", self.at):
                raise self.unexpected()
            self.at += 1
            right = self.factor(depth)
            left = Binary("*" if sign in _TIMES else "/", left, right, left.span.to(right.span))
        return left

    def factor(self, depth: int) -> Expression:
        """A number, a list, a name, a call, a bracket, or the negative of one."""
        sign = self.peek()
        value, start = self.text.value, self.at
        if sign and sign in _MINUS:
            listed = read_list(value, start, axes_of(self.sizes))
            if isinstance(listed, NumeralList) and len(listed.numbers) > 1:
                return self.given(listed, listed.end)
            self.at += 1
            if depth > MAX_DEPTH:
                raise self.fault(f"signs are nested more than {MAX_DEPTH} deep", start, start + 1)
            inner = self.factor(depth + 1)
            return Negative(inner, self.text.span(start, start + 1).to(inner.span))
        if sign == "(":
            self.at += 1
            inner = self.sum(depth + 1)
            if self.peek() != ")":
                if self.at >= len(value):
                    raise self.fault("this bracket is never closed", start, start + 1, "add `)`")
                raise self.unexpected()
            self.at += 1
            return replace(inner, span=self.text.span(start, self.at))
        if _NUMBER_START.match(value, start):
            return self.number()
        match = _NAME.match(value, start)
        if match is None:
            raise self.unexpected()
        self.at = match.end()
        if self.text.value[self.at : self.at + 1] == "(":
            return self.call(match.group(), start, depth)
        return Name(tuple(match.group().split(".")), self.text.span(start, match.end()))

    def number(self) -> Expression:
        value, start = self.text.value, self.at
        hyphen = _HYPHEN_MIXED.match(value, start)
        if hyphen is not None:
            raise FormulaFault(
                Diagnostic.of(
                    FORMULA_AMBIGUOUS,
                    f"`{hyphen.group()}` can be `{hyphen[1]} {hyphen[2]}` and `{hyphen[1]} - {hyphen[2]}`",
                    self.text.span(*hyphen.span()),
                    hint="put spaces where they belong",
                )
            )
        measure = read_measure(value, start, axes_of(self.sizes))
        listed = measure if measure is None or isinstance(measure, Misfit) else measure.first
        end = 0 if measure is None or isinstance(measure, Misfit) else measure.end
        if listed is None:
            listed = read_list(value, start, axes_of(self.sizes))
            end = listed.end if isinstance(listed, NumeralList) else 0
        if isinstance(listed, Misfit):
            raise self.wrong_length(start, listed.end, listed.found)
        if listed is None:
            raise self.unexpected()
        bracket = _BRACKET_OF_NUMBERS.match(value, listed.end)
        if bracket is not None and len(listed.numbers) == 1 and end == listed.end:
            raise self.wrong_length(start, bracket.end(), 1 + len(re.split("[,:;]", bracket.group())))
        return self.given(listed, end)

    def wrong_length(self, start: int, end: int, found: int) -> FormulaFault:
        first = axes_of(self.sizes).first
        count = "1 size" if len(first) == 1 else f"{len(first)} sizes"
        hint = f"give one value for each of {', '.join(first)}, or a single one for all"
        return FormulaFault(
            Diagnostic.of(SIZE_LIST_LENGTH, f"{found} values for {count}", self.text.span(start, end), hint=hint)
        )

    def given(self, listed: NumeralList, end: int) -> Given:
        start, self.at = listed.start, end
        values = listed.in_base()
        dimension = {"length": LENGTH, "mass": MASS, None: NUMBER}[listed.dimension]
        if listed.unit is None and self.text.value[end : end + 1] == "%":
            self.at += 1
            values = tuple(None if each is None else each / 100 for each in values)
        return Given(values, dimension, self.text.span(start, self.at))

    def call(self, function: str, start: int, depth: int) -> Call:
        opened = self.at
        name_span = self.text.span(start, opened)
        self.at += 1
        arguments: list[Expression] = []
        keywords: list[Argument] = []
        while self.peek() != ")":
            if self.at >= len(self.text.value):
                raise self.fault("this bracket is never closed", opened, opened + 1, "add `)`")
            keyword = re.compile(r"([^\W\d]\w*)\s*=(?!=)").match(self.text.value, self.at)
            if keyword is not None:
                first = self.at
                self.at = keyword.end()
                value = self.keyword_value(keyword[1], depth)
                keywords.append(Argument(keyword[1], value, self.text.span(first, self.at)))
            elif keywords:
                raise self.fault(
                    "a value without a keyword stands behind one with", self.at, self.at + 1,
                    "put the values without keywords first",
                )  # fmt: skip
            else:
                arguments.append(self.sum(depth + 1))
            if self.peek() == ",":
                self.at += 1
            elif self.peek() != ")":
                if self.at >= len(self.text.value):
                    raise self.fault("this bracket is never closed", opened, opened + 1, "add `)`")
                raise self.unexpected()
        self.at += 1
        return Call(function, tuple(arguments), tuple(keywords), self.text.span(start, self.at), name_span)

    def keyword_value(self, keyword: str, depth: int) -> Expression | Word:
        self.skip()
        start = self.at
        quoted = _QUOTED.match(self.text.value, start)
        if quoted is not None:
            self.at = quoted.end()
            return Word(quoted.group()[1:-1], self.text.span(start, self.at))
        if keyword in WORD_KEYWORDS:
            match = _NAME.match(self.text.value, start)
            if match is None:
                raise self.unexpected()
            self.at = match.end()
            return Word(match.group(), self.text.span(start, self.at))
        return self.sum(depth + 1)
