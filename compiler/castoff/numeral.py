"""Numbers as the trade writes them: one reader for formulas, source values and instruction lines.

In: a text and a position. Out: exact numbers (`Fraction`), size lists `84 (92, 100, 108)`, and lengths, masses and
put-ups with their units. Nothing here knows about places in files: positions are indices into the text given.

Read: `12`, `1.5`, `1/2`, `1 1/2`, `1½`, `½`, `1-1/2`; lists in ( ) or [ ], separated by comma, colon or semicolon,
also grouped `4 (8, 12) (16, 20)`; a dash (-, –, —) where a size skips; units after the list or after every number;
two lengths side by side (`13 cm / 5 in`, `13 cm (5 in)`, `5 in [13 cm]`) are the same length said twice. Where sizes run in
two directions, a list for each size of the second stands behind the last, parted by bars: `84 (92, 100) | 88 (96, 104)`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from castoff.per_size import Axes

VULGAR = {
    "½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4), "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5), "⅘": Fraction(4, 5), "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip
_GLYPHS = "".join(VULGAR)
_SLASH = "/⁄"

_NUMBER = re.compile(
    rf"(?:(?P<mixed>\d+)(?:[ \u00a0\u202f-](?P<mn>\d+)[{_SLASH}](?P<md>\d+)(?!\d)|[ \u00a0\u202f]?(?P<mg>[{_GLYPHS}]))"
    rf"|(?P<fn>\d+)[{_SLASH}](?P<fd>\d+)(?![\d.]*\d)"
    rf"|(?P<glyph>[{_GLYPHS}])"
    r"|(?P<plain>\d+(?:\.\d+)?|\.\d+))"
)
_DASHES = "-–—−"

Dimension = Literal["length", "mass"]

UNITS: dict[str, tuple[Dimension, str, Fraction]] = {
    # word: what it measures, standard symbol, exact size in millimetres or grams.
    # inch and yard: 16 CFR 500.19; pound = 0.45359237 kg by the 1959 agreement (from memory), ounce = pound/16
    "mm": ("length", "mm", Fraction(1)),
    "millimetre": ("length", "mm", Fraction(1)), "millimetres": ("length", "mm", Fraction(1)),
    "cm": ("length", "cm", Fraction(10)), "cms": ("length", "cm", Fraction(10)),
    "centimetre": ("length", "cm", Fraction(10)), "centimetres": ("length", "cm", Fraction(10)),
    "centimeter": ("length", "cm", Fraction(10)), "centimeters": ("length", "cm", Fraction(10)),
    "m": ("length", "m", Fraction(1000)), "metre": ("length", "m", Fraction(1000)),
    "metres": ("length", "m", Fraction(1000)), "meter": ("length", "m", Fraction(1000)),
    "meters": ("length", "m", Fraction(1000)),
    "in": ("length", "in", Fraction(254, 10)), "ins": ("length", "in", Fraction(254, 10)),
    "inch": ("length", "in", Fraction(254, 10)), "inches": ("length", "in", Fraction(254, 10)),
    '"': ("length", "in", Fraction(254, 10)), "″": ("length", "in", Fraction(254, 10)),
    "”": ("length", "in", Fraction(254, 10)), "''": ("length", "in", Fraction(254, 10)),
    "ft": ("length", "ft", Fraction(3048, 10)), "foot": ("length", "ft", Fraction(3048, 10)),
    "feet": ("length", "ft", Fraction(3048, 10)),
    "yd": ("length", "yd", Fraction(9144, 10)), "yds": ("length", "yd", Fraction(9144, 10)),
    "yard": ("length", "yd", Fraction(9144, 10)), "yards": ("length", "yd", Fraction(9144, 10)),
    "g": ("mass", "g", Fraction(1)), "gr": ("mass", "g", Fraction(1)), "gram": ("mass", "g", Fraction(1)),
    "grams": ("mass", "g", Fraction(1)), "kg": ("mass", "kg", Fraction(1000)),
    "oz": ("mass", "oz", Fraction(45359237, 1600000)), "ounce": ("mass", "oz", Fraction(45359237, 1600000)),
    "ounces": ("mass", "oz", Fraction(45359237, 1600000)),
    "lb": ("mass", "lb", Fraction(45359237, 100000)), "lbs": ("mass", "lb", Fraction(45359237, 100000)),
}  # fmt: skip

_UNIT = re.compile(
    r"[ \u00a0\u202f]?(?:(?P<mark>''|[\"″”])|(?P<word>"
    + "|".join(sorted((unit for unit in UNITS if unit.isalpha()), key=len, reverse=True))
    + r")(?![A-Za-z])\.?)",
    re.IGNORECASE,
)
# "2 in patt", "2 in next st": the word after decides that this is no inch (design of the language).
_NOT_INCHES = re.compile(
    r"[ \u00a0\u202f]*(?:patt|pattern|next|each|every|same|st\b|sts\b|stitch|the\b|this\b|that\b|all\b|total|both|"
    r"between|front|back\b|[a-z]+ st\b|rib|garter|stockinette|stocking|seed|moss|colou?r|order|one\b|any\b|row|rnd|round|"
    r"[A-Z]\b|MC\b|CC\d?\b)"
)
_SPACE = re.compile(r"[ \u00a0\u202f]*")


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number at `start` up to `end`; `value` is None for a dash: the size skips."""

    value: Fraction | None
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class NumeralList:
    """A number, or a list with one number per size, from `start` up to `end`.

    numbers: the numbers in the order of the sizes; just one when the same holds for every size.
    opener: the bracket used, "" for a single number.
    grouping: sizes in each bracket.
    unit: unit word as typed, None for a bare number; a unit inside the list must be the same throughout.
    """

    numbers: tuple[Numeral, ...]
    start: int
    end: int
    opener: str = ""
    grouping: tuple[int, ...] = ()
    unit: str | None = None

    @property
    def values(self) -> tuple[Fraction | None, ...]:
        """The bare numbers."""
        return tuple(number.value for number in self.numbers)

    @property
    def dimension(self) -> Dimension | None:
        """What the unit measures."""
        return None if self.unit is None else UNITS[self.unit.lower()][0]

    @property
    def symbol(self) -> str | None:
        """The unit's standard symbol."""
        return None if self.unit is None else UNITS[self.unit.lower()][1]

    def in_base(self) -> tuple[Fraction | None, ...]:
        """The numbers in millimetres or grams; as they stand when there is no unit."""
        if self.unit is None:
            return self.values
        factor = UNITS[self.unit.lower()][2]
        return tuple(None if value is None else value * factor for value in self.values)

    def spread(self, sizes: int) -> NumeralList:
        """A single number repeated for every size; a list as it is."""
        if len(self.numbers) != 1 or sizes == 1:
            return self
        return NumeralList(self.numbers * sizes, self.start, self.end, self.opener, self.grouping, self.unit)


@dataclass(frozen=True, slots=True)
class Misfit:
    """A bracket that looks like a size list and holds the wrong number of numbers."""

    found: int
    start: int
    end: int


def read_numeral(text: str, at: int) -> Numeral | None:
    """The number that starts at a position; None when none does."""
    match = _NUMBER.match(text, at)
    if match is None:
        return None
    if match["mixed"] is not None:
        whole = Fraction(match["mixed"])
        if match["mg"] is not None:
            return Numeral(whole + VULGAR[match["mg"]], at, match.end())
        if int(match["md"]) == 0:
            return Numeral(whole, at, at + len(match["mixed"]))
        return Numeral(whole + Fraction(int(match["mn"]), int(match["md"])), at, match.end())
    if match["fn"] is not None:
        if int(match["fd"]) == 0:
            return Numeral(Fraction(match["fn"]), at, at + len(match["fn"]))
        return Numeral(Fraction(int(match["fn"]), int(match["fd"])), at, match.end())
    if match["glyph"] is not None:
        return Numeral(VULGAR[match["glyph"]], at, match.end())
    return Numeral(Fraction(match["plain"]), at, match.end())


def read_unit(text: str, at: int) -> tuple[str, int] | None:
    """The unit word straight behind a number and where it ends; "in" before a noun is no inch."""
    match = _UNIT.match(text, at)
    if match is None:
        return None
    word = match["mark"] or match["word"]
    if word.lower() == "in" and not match.group().endswith(".") and _NOT_INCHES.match(text, match.end()):
        return None
    # "M" and "G" are size and yarn names; as units they are small letters
    if word in ("M", "G"):
        return None
    return word, match.end()


def _number_or_dash(text: str, at: int) -> Numeral | None:
    number = read_numeral(text, at)
    if number is not None:
        return number
    if at < len(text) and text[at] in _DASHES:
        return Numeral(None, at, at + 1)
    return None


def _bracket(text: str, at: int) -> tuple[tuple[Numeral, ...], str | None, int] | None:
    """Numbers of a bracket that holds nothing but numbers, dashes and units."""
    closer = {"(": ")", "[": "]"}[text[at]]
    numbers: list[Numeral] = []
    unit: str | None = None
    at += 1
    while True:
        at = _skip(text, at)
        number = _number_or_dash(text, at)
        if number is None:
            return None
        numbers.append(number)
        found = read_unit(text, number.end)
        if found is not None:
            unit, at = found
        else:
            at = number.end
        at = _skip(text, at)
        if at >= len(text):
            return None
        if text[at] == closer:
            return tuple(numbers), unit, at + 1
        if text[at] not in ",:;":
            return None
        at += 1


def _skip(text: str, at: int) -> int:
    match = _SPACE.match(text, at)
    return match.end() if match else at


_BAR = re.compile(r"[ \u00a0\u202f]*\|[ \u00a0\u202f]*")


def read_list(text: str, at: int, sizes: int | Axes) -> NumeralList | Misfit | None:
    """The number or size list that starts at a position, with its unit.

    sizes: how many sizes the pattern has, or what they are made of: a list then has a number for every one of them.
    """
    if not isinstance(sizes, Axes):
        return _read_one_list(text, at, sizes)
    listed = _read_one_list(text, at, len(sizes.first))
    if sizes.plain or not isinstance(listed, NumeralList):
        return listed
    lists = [listed]
    while len(lists) < len(sizes.second):
        bar = _BAR.match(text, lists[-1].end)
        more = None if bar is None else _read_one_list(text, bar.end(), len(sizes.first))
        if isinstance(more, Misfit):
            return more
        if more is None:
            break
        lists.append(more)
    if len(lists) == 1:
        if len(listed.numbers) == 1:
            return listed
        numbers = sizes.spread(listed.numbers)
        return NumeralList(numbers, at, listed.end, listed.opener, listed.grouping, listed.unit)
    units = list(dict.fromkeys(each.unit.lower() for each in lists if each.unit is not None))
    if len(lists) < len(sizes.second) or len({UNITS[unit] for unit in units}) > 1:
        return Misfit(len(lists), at, lists[-1].end)
    pairs = [number for each in lists for number in each.spread(len(sizes.first)).numbers]
    unit = next((each.unit for each in lists if each.unit is not None), None)
    return NumeralList(sizes.spread(pairs), at, lists[-1].end, listed.opener, listed.grouping, unit)


def _read_one_list(text: str, at: int, sizes: int) -> NumeralList | Misfit | None:
    """The number or size list of one direction that starts at a position.

    A bracket of numbers after a number is a size list exactly when together
    they give one number per size; with two numbers or more inside and another total it is a `Misfit`; a bracket of
    one number that does not fit is left alone.
    """
    first = _number_or_dash(text, at)
    if first is None:
        return None
    unit: str | None = None
    end = first.end
    if first.value is not None:
        found = read_unit(text, end)
        if found is not None:
            unit, end = found
    numbers = [first]
    grouping: list[int] = []
    opener = ""
    look = end
    while True:
        inside = _skip(text, look)
        if inside >= len(text) or text[inside] not in "([":
            break
        bracket = _bracket(text, inside)
        if bracket is None or (opener and text[inside] != opener):
            break
        more, inner_unit, after = bracket
        if unit is not None and inner_unit is not None and UNITS[unit.lower()] != UNITS[inner_unit.lower()]:
            break  # `13 cm (5 in)`: the same length said twice, no size list
        if len(numbers) + len(more) > sizes and grouping:
            break
        opener = text[inside]
        numbers.extend(more)
        grouping.append(len(more))
        unit = unit or inner_unit
        look = after
        if len(numbers) >= sizes:
            break
    if len(numbers) == 1:
        if first.value is None:
            return None  # a dash alone is a list only together with other sizes
        return NumeralList((first,), at, end, unit=unit)
    if len(numbers) != sizes:
        if len(numbers) == 2 and first.value is not None:
            return NumeralList((first,), at, end, unit=unit if end > first.end else None)
        return Misfit(len(numbers), at, look)
    found = read_unit(text, look)
    if found is not None and (unit is None or UNITS[unit.lower()] == UNITS[found[0].lower()]):
        unit, look = found
    return NumeralList(tuple(numbers), at, look, opener, tuple(grouping), unit)


@dataclass(frozen=True, slots=True)
class Measure:
    """A length or mass, once or said twice in two systems: `13 (14, 15) cm / 5 (5½, 6) in`."""

    first: NumeralList
    second: NumeralList | None
    start: int
    end: int


_BETWEEN = re.compile(r"[ \u00a0\u202f]*(?P<mark>[/(\[]|\bor\b|=)[ \u00a0\u202f]*")


def read_measure(text: str, at: int, sizes: int | Axes) -> Measure | Misfit | None:
    """A quantity with a unit at a position, together with its twin in the other system where one follows."""
    first = read_list(text, at, sizes)
    if first is None or isinstance(first, Misfit):
        return first
    if first.unit is None:
        return None
    between = _BETWEEN.match(text, first.end)
    if between is None:
        return Measure(first, None, at, first.end)
    second = read_list(text, between.end(), sizes)
    if (
        isinstance(second, NumeralList)
        and second.unit is not None
        and second.dimension == first.dimension
        and second.symbol != first.symbol
    ):
        end = second.end
        closer = {"(": ")", "[": "]"}.get(between["mark"])
        if closer is not None:
            end = _skip(text, end)
            if end >= len(text) or text[end] != closer:
                return Measure(first, None, at, first.end)
            end += 1
        return Measure(first, second, at, end)
    return Measure(first, None, at, first.end)
