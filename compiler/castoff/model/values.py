"""Scalars to typed values: amounts with units, lists per size, whole numbers, dates, put-ups and size names.

In: a `Text` and the number of sizes. Out: the value, or the `Diagnostic` that says what stands in its way; never
both. How numbers, units and lists are written is `numeral.py`'s business, for the whole language alike.
"""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from fractions import Fraction

from castoff.diagnostic import Diagnostic, Rule
from castoff.model.pattern import Amount, Amounts, PutUp, Said
from castoff.model.shape import nearest
from castoff.numeral import UNITS, Dimension, Misfit, read_list, read_measure, read_numeral
from castoff.per_size import axes_of
from castoff.span import Text

UNREADABLE_VALUE = Rule(
    "unreadable-value",
    "error",
    """A value is not written in a way that can be read.

Fires:
    date: last Tuesday
Silent:
    date: 2026-11-01
""",
)
WRONG_UNIT = Rule(
    "wrong-unit",
    "error",
    """A length or mass has no unit, one that is not known, or one that measures something else.

Fires:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 g}
Silent:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 cm}
""",
)
SIZE_LIST_LENGTH = Rule(
    "size-list-length",
    "error",
    """A list per size has too many values, or too few.

Each size needs a value of its own, or a dash where it skips; one value without brackets holds for all.

Fires:
    sizes:
      names: S (M, L)
      body:
        head: 52 (56) cm
Silent:
    sizes:
      names: S (M, L)
      body:
        head: 52 (56, 60) cm
""",
)
SIZE_NAMES = Rule(
    "size-names-unreadable",
    "error",
    """The names of the sizes are no list that the others could follow.

The first name stands outside the brackets and the others in them, just as the numbers will. No name stands twice.

Fires:
    sizes:
      names: S, M, L
Silent:
    sizes:
      names: S (M, L)
""",
)

RULES = (UNREADABLE_VALUE, WRONG_UNIT, SIZE_LIST_LENGTH, SIZE_NAMES)

_BRACKET_OF_NUMBERS = re.compile(r"[ \u00a0\u202f]*[(\[][^)\]]*\d[^)\]]*[)\]]")
_PER = re.compile(r"[ \u00a0\u202f]*(?:/|\bper\b|=|,|\bto\b|\()[ \u00a0\u202f]*", re.IGNORECASE)
_BALLS = re.compile(r"[ \u00a0\u202f]*(?:balls?|skeins?|hanks?|cones?)\b", re.IGNORECASE)
_DATE = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_EXAMPLE: dict[Dimension, str] = {"length": "10 cm", "mass": "50 g"}


def trimmed(text: Text) -> Text:
    """The text without white space at its ends."""
    value = text.value
    start = len(value) - len(value.lstrip())
    return text.part(start, max(start, len(value.rstrip())))


def _unit_fault(text: Text, at: int, dimension: Dimension) -> Diagnostic:
    """What stands where a unit should: nothing, or a word that is none."""
    match = re.compile(r"[ \u00a0\u202f]*([^\W\d]+)").match(text.value, at)
    if match is None:
        message = f"`{text.value}` has no unit"
        return Diagnostic.of(WRONG_UNIT, message, text.span(), hint=f"write a {dimension}, such as `{text.value} cm`"
                             if dimension == "length" else f"write a mass, such as `{text.value} g`")  # fmt: skip
    near = nearest(match[1], tuple(unit for unit in UNITS if unit.isalpha() and UNITS[unit][0] == dimension))
    hint = f"did you mean `{near}`?" if near else f"write a {dimension}, such as `{_EXAMPLE[dimension]}`"
    return Diagnostic.of(WRONG_UNIT, f"`{match[1]}` is no unit of {dimension}", text.span(*match.span(1)), hint=hint)


def list_fault(text: Text, at: int, found: int, sizes: tuple[str, ...]) -> Diagnostic:
    """A list with another number of values than there are sizes."""
    if sizes == ("",):
        message = f"{found} values stand where one should be"
        return Diagnostic.of(SIZE_LIST_LENGTH, message, text.span(at, len(text.value)), hint="give one value")
    axes = axes_of(sizes)
    values = "1 value" if found == 1 else f"{found} values"
    count = "1 size" if len(axes.first) == 1 else f"{len(axes.first)} sizes"
    hint = f"give one value for each of {', '.join(axes.first)}, or a single one for all"
    if "|" in text.value and axes.second:
        values = f"{found} lists" if found > 1 else values
        count = f"{len(axes.second)} {axes.name or 'second'} sizes"
        hint = f"give a list for each of {', '.join(axes.second)}, with ` | ` between"
    return Diagnostic.of(SIZE_LIST_LENGTH, f"{values} for {count}", text.span(at, len(text.value)), hint=hint)


def amounts(text: Text, sizes: tuple[str, ...], dimension: Dimension) -> Amounts | Diagnostic:
    """A length or mass per size, once or said twice: `13 (14, 15) cm / 5 (5½, 6) in`."""
    text = trimmed(text)
    value = text.value
    measure = read_measure(value, 0, axes_of(sizes))
    if isinstance(measure, Misfit):
        return list_fault(text, 0, measure.found, sizes)
    if measure is None:
        bare = read_list(value, 0, axes_of(sizes))
        if bare is None or isinstance(bare, Misfit):
            return Diagnostic.of(
                UNREADABLE_VALUE, f"`{value}` is no {dimension}", text.span(),
                hint=f"write a {dimension}, such as `{_EXAMPLE[dimension]}`",
            )  # fmt: skip
        if _BRACKET_OF_NUMBERS.match(value, bare.end):
            return list_fault(text, 0, 2, sizes)
        return _unit_fault(text, bare.end, dimension)
    if measure.end != len(value):
        if _BRACKET_OF_NUMBERS.match(value, measure.first.end):
            return list_fault(text, 0, 2, sizes)
        rest = value[measure.end :].strip()
        return Diagnostic.of(
            UNREADABLE_VALUE, f"`{rest}` is left over behind `{value[: measure.end]}`",
            text.span(measure.end, len(value)),
        )  # fmt: skip
    first = measure.first
    if first.dimension != dimension:
        message = f"`{value}` is a {first.dimension}; a {dimension} stands here"
        return Diagnostic.of(WRONG_UNIT, message, text.span(), hint=f"write it like `{_EXAMPLE[dimension]}`")
    second = measure.second
    twin = None if second is None else second.spread(len(sizes)).in_base()
    return Amounts(
        first.spread(len(sizes)).in_base(), first.symbol or "", text, twin,
        "" if second is None else second.symbol or "",
    )  # fmt: skip


def amount(text: Text, dimension: Dimension) -> Amount | Diagnostic:
    """One length or mass above zero."""
    read = amounts(text, ("",), dimension)
    if isinstance(read, Diagnostic):
        return read
    value = read.values[0]
    if value is None or value <= 0:
        return Diagnostic.of(UNREADABLE_VALUE, f"`{read.text.value}` should be above zero", read.text.span())
    return Amount(value, read.unit, read.text, None if read.twin is None else read.twin[0], read.twin_unit)


def counts(text: Text, sizes: tuple[str, ...]) -> tuple[Fraction | None, ...] | Diagnostic:
    """A bare number per size, with or without the word "balls" behind it."""
    text = trimmed(text)
    read = read_list(text.value, 0, axes_of(sizes))
    if isinstance(read, Misfit):
        return list_fault(text, 0, read.found, sizes)
    if read is None or read.unit is not None:
        return Diagnostic.of(UNREADABLE_VALUE, f"`{text.value}` is no number per size", text.span())
    end = _BALLS.match(text.value, read.end)
    if (end.end() if end else read.end) != len(text.value):
        if _BRACKET_OF_NUMBERS.match(text.value, read.end):
            return list_fault(text, 0, 2, sizes)
        return Diagnostic.of(UNREADABLE_VALUE, f"`{text.value}` is no number per size", text.span())
    return read.spread(len(sizes)).values


def says_balls(text: Text) -> bool:
    """Whether an amount is counted in balls."""
    return re.search(r"(?:balls?|skeins?|hanks?|cones?)\s*$", text.value, re.IGNORECASE) is not None


def number(text: Text) -> Said[Fraction] | Diagnostic:
    """One number above zero."""
    text = trimmed(text)
    read = read_numeral(text.value, 0)
    if read is None or read.end != len(text.value) or read.value is None:
        return Diagnostic.of(UNREADABLE_VALUE, f"`{text.value}` is no number", text.span())
    if read.value <= 0:
        return Diagnostic.of(UNREADABLE_VALUE, f"`{text.value}` should be above zero", text.span())
    return Said(read.value, text.span())


def whole(text: Text, least: int = 1) -> Said[int] | Diagnostic:
    """One whole number from `least` up."""
    text = trimmed(text)
    if not re.fullmatch(r"[0-9]{1,9}", text.value) or int(text.value) < least:
        message = f"`{text.value}` should be a whole number from {least} up"
        return Diagnostic.of(UNREADABLE_VALUE, message, text.span())
    return Said(int(text.value), text.span())


def share(text: Text) -> Said[Fraction] | Diagnostic:
    """A share of the whole: `10%`, `10 %`."""
    text = trimmed(text)
    read = read_numeral(text.value, 0)
    if read is None or read.value is None or text.value[read.end :].strip() != "%" or read.value > 100:
        message = f"`{text.value}` is no share from 0 % to 100 %"
        return Diagnostic.of(UNREADABLE_VALUE, message, text.span(), hint="write it like `10%`")
    return Said(read.value / 100, text.span())


def day(text: Text) -> Said[datetime.date] | Diagnostic:
    """A day as year-month-day."""
    text = trimmed(text)
    match = _DATE.fullmatch(text.value)
    try:
        if match is not None:
            return Said(datetime.date(int(match[1]), int(match[2]), int(match[3])), text.span())
        fault = f"`{text.value}` is no date"
    except ValueError:
        fault = f"there is no such day as `{text.value}`"
    return Diagnostic.of(UNREADABLE_VALUE, fault, text.span(), hint="write year-month-day, such as `2026-11-01`")


def put_up(text: Text) -> PutUp | Diagnostic:
    """What a ball holds: `200 m / 100 g`, `123 yd per 50 g`, `50 g = 112 m (123 yd)`."""
    text = trimmed(text)
    value = text.value
    hint = "write it like `200 m / 100 g`"
    halves: dict[Dimension, Amount] = {}
    at = 0
    while at < len(value):
        measure = read_measure(value, at, 1)
        if measure is None or isinstance(measure, Misfit) or measure.first.dimension is None:
            break
        dimension = measure.first.dimension
        if dimension in halves:
            break
        said = amount(text.part(at, measure.end), dimension)
        if isinstance(said, Diagnostic):
            return said
        halves[dimension] = said
        at = measure.end
        between = _PER.match(value, at)
        if between is None:
            break
        at = between.end()
    rest = value[at:].strip()
    if rest and rest != ")":
        return Diagnostic.of(UNREADABLE_VALUE, f"`{rest}` cannot be read in a put-up", text.span(at), hint=hint)
    for dimension in ("length", "mass"):
        if dimension not in halves:
            return Diagnostic.of(UNREADABLE_VALUE, f"this put-up gives no {dimension}", text.span(), hint=hint)
    return PutUp(halves["length"], halves["mass"], text)


@dataclass(frozen=True, slots=True)
class NameList:
    """Names as the trade lists them, `S (M, L, XL)`: their bracket, and how many stand in each."""

    names: tuple[Text, ...]
    opener: str
    grouping: tuple[int, ...]


_GROUP = re.compile(r"[ \u00a0\u202f]*(?:\((?P<round>[^()\[\]]*)\)|\[(?P<square>[^()\[\]]*)\])")


def name_list(text: Text) -> NameList | Diagnostic:
    """The names of the sizes: the first outside the brackets, the others in one pair or more."""
    text = trimmed(text)
    value = text.value
    opening = min((at for at in (value.find("("), value.find("[")) if at != -1), default=len(value))
    names = [trimmed(text.part(0, opening))]
    grouping: list[int] = []
    at = opening
    openers: list[str] = []
    while at < len(value):
        match = _GROUP.match(value, at)
        if match is None:
            return Diagnostic.of(
                SIZE_NAMES, f"`{value[at:].strip()}` is no bracket of size names", text.span(at),
                hint="write the sizes like `S (M, L, XL)`",
            )  # fmt: skip
        kind = "round" if match["round"] is not None else "square"
        openers.append("(" if kind == "round" else "[")
        at = start = match.start(kind)
        count = 0
        # sizes parted by colons are usual in Britain: `34 [36: 38: 40]` (common practice)
        between = r"[,;]" if re.search(r"[,;]", match[kind]) else r"[:]"
        for piece in re.split(between, match[kind]):
            names.append(trimmed(text.part(start, start + len(piece))))
            start += len(piece) + 1
            count += 1
        grouping.append(count)
        at = match.end()
    if len(names) == 1 and re.search(r"[,;]", value):
        parts = [part.strip() for part in re.split(r"[,;]", value)]
        hint = f"write `{parts[0]} ({', '.join(parts[1:])})`"
        return Diagnostic.of(SIZE_NAMES, "the sizes stand in no brackets", text.span(), hint=hint)
    seen: dict[str, Text] = {}
    for name in names:
        if not name.value:
            hint = "take out the comma that is over"
            return Diagnostic.of(SIZE_NAMES, "a size has no name", text.span(), hint=hint)
        if name.value in seen:
            return Diagnostic.of(SIZE_NAMES, f"size `{name.value}` stands twice", name.span())
        seen[name.value] = name
    return NameList(tuple(names), openers[0] if openers else "(", tuple(grouping) if len(grouping) > 1 else ())
