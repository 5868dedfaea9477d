"""Numbers inside running text: size lists, lengths and masses found in a sentence and set for the edition.

In: a sentence as typed, its `Setting`, and the values of its `{formulas}`. Out: inline text in which a list per size
is a `SizeList`, a length is in the systems that the edition prints, and a one-size edition keeps no number of another
size.

Left as typed: versions and dates (1.0.0, 2026-11-01), shorthand (k2tog), a bare number, and small millimetres (a 5 mm
needle is a size and no length).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from castoff.document.setting import Setting
from castoff.document.tree import Inline, Inlines, Pair, Quantity, Text
from castoff.document.wording import Kind, System, Values, measure, numbers, system_of
from castoff.numeral import UNITS, Measure, NumeralList, read_list, read_measure, read_numeral
from castoff.per_size import Axes

FORMULA_START = 0xE000
"""Formulas go through Markdown as one private-use character each, so that their signs are not read as marks."""
FORMULA_LIMIT = 0x1000

_CARRIED = f"[{chr(FORMULA_START)}-{chr(FORMULA_START + FORMULA_LIMIT - 1)}]"
_START = re.compile(rf"(?<![\w.,/–-])[\d½⅓⅔¼¾⅛⅜⅝⅞]|{_CARRIED}")
_SMALL_MM = Fraction(25)
_RANGE = re.compile(r"[ \u00a0](?:to|and|or|by|x)[ \u00a0]|[ \u00a0]?[–×-][ \u00a0]?")
_ENDS = re.compile(r"\s*$|\s+[A-Z]")
_WHOLE = re.compile(r"[\d.]*[\d]")


def set_figures(text: str, setting: Setting, formulas: Mapping[str, Inlines] | None = None) -> Inlines:
    """Running text with its numbers set for the edition.

    formulas: for each private-use character, the inline text that stands for it.
    """
    found: list[Inline] = []
    at = 0
    look = 0
    while True:
        match = _START.search(text, look)
        if match is None:
            break
        start = match.start()
        char = text[start]
        if ord(char) >= FORMULA_START and char not in "½⅓⅔¼¾⅛⅜⅝⅞":
            said: Inlines | None = (formulas or {}).get(char, ())
            end = start + 1
        else:
            said, end = _figure(text, start, setting)
        if said is None:
            look = max(end, start + 1)
            continue
        if start > at:
            found.append(Text(text[at:start]))
        found.extend(said)
        at = look = end
    if at < len(text):
        found.append(Text(text[at:]))
    return merged(found)


def _figure(text: str, start: int, setting: Setting) -> tuple[Inlines | None, int]:
    """The number at a place set anew, or None to leave it, and where it ends."""
    sizes = setting.axes
    span = _range(text, start, setting, sizes)
    if span is not None:
        return span
    said = read_measure(text, start, sizes)
    if isinstance(said, Measure):
        inline = _measure(said, setting, sizes)
        # "in." may be a unit with its stop, or the stop of the sentence: it is kept where a sentence can end
        stop = inline is not None and text[said.end - 1] == "." and _ENDS.match(text, said.end) is not None
        return (*inline, Text(".")) if inline is not None and stop else inline, said.end
    plain = read_list(text, start, sizes)
    if isinstance(plain, NumeralList):
        if len(plain.numbers) > 1:
            return numbers(plain.values, setting), plain.end
        return None, plain.end
    word = _WHOLE.match(text, start)
    return None, word.end() if word else start + 1


def _range(text: str, start: int, setting: Setting, sizes: Axes) -> tuple[Inlines, int] | None:
    """Two numbers with one unit, "13 to 17.5 cm": both ends in each system, never one without the other."""
    low = read_numeral(text, start)
    between = _RANGE.match(text, low.end) if low is not None else None
    if low is None or low.value is None or between is None:
        return None
    high = read_measure(text, between.end(), sizes)
    if not isinstance(high, Measure) or high.second is not None or len(high.first.numbers) != 1:
        return None
    unit = high.first.symbol or ""
    factor = UNITS[unit][2]
    if high.first.dimension == "length" and unit == "mm" and low.value < _SMALL_MM:
        return (Text(text[start : high.end]),), high.end
    parts: dict[System, Inlines] = {}
    for system in (system_of(unit), *(each for each in ("metric", "imperial") if each != system_of(unit))):
        if system not in setting.systems:
            continue
        one = Setting(("",), None, system, inch_mm=setting.inch_mm)
        kind: Kind = "mass" if high.first.dimension == "mass" else "length"
        first = measure((low.value * factor,), unit, one, kind=kind)
        opening = Text("".join(node.number for node in first if isinstance(node, Quantity)) + between.group())
        parts[system] = (opening, *measure(high.first.in_base(), unit, one, kind=kind))
    if len(parts) > 1:
        return (Pair(parts["metric"], parts["imperial"], next(iter(parts))),), high.end
    return next(iter(parts.values())), high.end


def _measure(said: Measure, setting: Setting, sizes: Axes) -> Inlines | None:
    first = said.first.spread(sizes.count)
    values: Values = first.in_base()
    unit = first.symbol or ""
    if unit == "mm" and said.second is None and all(value is None or value < _SMALL_MM for value in values):
        return numbers_with_unit(first.values, setting, "mm")
    twin = said.second.spread(sizes.count) if said.second is not None else None
    kind: Kind = "mass" if first.dimension == "mass" else "length"
    return measure(
        values,
        unit,
        setting,
        twin=None if twin is None else twin.in_base(),
        twin_unit="" if twin is None else twin.symbol or "",
        kind=kind,
    )


def numbers_with_unit(values: Values, setting: Setting, unit: str) -> Inlines:
    """Numbers and their unit as they were typed, in every edition."""
    from_mm = {"mm": Fraction(1)}[unit]
    only_metric = Setting(setting.sizes, setting.shown, "metric", groups=setting.groups, among=setting.among)
    return measure([None if value is None else value * from_mm for value in values], unit, only_metric)


def merged(inline: Sequence[Inline]) -> Inlines:
    """Neighbouring stretches of plain text joined into one, empty ones left out."""
    found: list[Inline] = []
    for node in inline:
        if isinstance(node, Text):
            if not node.text:
                continue
            last = found[-1] if found else None
            if isinstance(last, Text):
                found[-1] = Text(last.text + node.text)
                continue
        found.append(node)
    return tuple(found)
