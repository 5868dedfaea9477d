"""Numbers and measures in words: the one place where a value becomes text.

In: exact numbers, one per size, and the `Setting` of an edition. Out: inline text: size lists that collapse where every
size has the same, lengths in the systems that the edition prints, real fractions for inches, decimals for centimetres.

A value that the author typed is printed as typed, in its own unit; only what has to be converted is rounded, by the
house rounding for its kind of number. A pair that was typed in both systems is printed as that pair.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Literal, TypeAlias

from castoff.document.setting import Setting
from castoff.document.tree import NO_BREAK_SPACE, SKIPPED, Inline, Inlines, Pair, Quantity, SizeList, Text
from castoff.numeral import UNITS, VULGAR
from castoff.rounding import MeasureKind, printed
from castoff.units import INCH_MM as INCH

Values: TypeAlias = Sequence[Fraction | None]
System: TypeAlias = Literal["metric", "imperial"]
Kind: TypeAlias = MeasureKind

_GLYPHS = {value: glyph for glyph, value in VULGAR.items()}
_SYSTEM: dict[str, System] = {
    "mm": "metric", "cm": "metric", "m": "metric", "g": "metric", "kg": "metric",
    "in": "imperial", "ft": "imperial", "yd": "imperial", "oz": "imperial", "lb": "imperial",
}  # fmt: skip
_OTHER = {
    "mm": "in", "cm": "in", "m": "yd", "g": "oz", "kg": "lb",
    "in": "cm", "ft": "m", "yd": "m", "oz": "g", "lb": "g",
}  # fmt: skip
_COMPUTED: dict[Kind, tuple[str, str]] = {"length": ("cm", "in"), "needle": ("cm", "in"), "mass": ("g", "oz")}
"""Units of a measure for which none was typed; yarn is told in metres and yards."""
_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)|(?<=s)'(?=\s)")
_ORDINALS = {1: "st", 2: "nd", 3: "rd"}


# ── numbers ───────────────────────────────────────────────────────────────────────────────────────


def decimal(value: Fraction, places: int = 3) -> str:
    """A number with a decimal point and no more digits than it needs: 16.5."""
    scaled = round(value * 10**places)
    whole, rest = divmod(abs(scaled), 10**places)
    digits = str(rest).rjust(places, "0").rstrip("0")
    return ("−" if scaled < 0 else "") + str(whole) + (f".{digits}" if digits else "")


def mixed(value: Fraction) -> str:
    """A number with a real fraction where there is a character for it, else with a decimal point: 8¼."""
    whole, part = divmod(value, 1)
    if part == 0:
        return str(whole)
    glyph = _GLYPHS.get(part)
    if glyph is None or value < 0:
        return decimal(value)
    return f"{whole or ''}{glyph}"


def ordinal(value: int) -> str:
    """1st, 2nd, 3rd, 4th … 11th."""
    ending = "th" if value % 100 in (11, 12, 13) else _ORDINALS.get(value % 10, "th")
    return f"{value}{ending}"


def listed(texts: Sequence[str | None], setting: Setting, unit: str = "") -> Inlines:
    """One ready text per size as inline text: a list, or once when it is the same in all sizes printed.

    texts: None where a size skips.
    """
    every = tuple(SKIPPED if text is None else text for text in texts)
    shown = setting.pick(every)
    if len(set(shown)) == 1:
        return (Quantity(shown[0], unit),) if unit else (Text(shown[0]),)
    if setting.axes.plain:
        return (SizeList(shown, setting.pick(setting.sizes), groups=setting.groups, unit=unit),)
    return _by_part(every, setting, unit)


def _by_part(texts: Sequence[str], setting: Setting, unit: str) -> Inlines:
    """Where sizes run in two directions or the knitter chooses: "cup B: 84 (92, 100), cup C: 88 (96, 104)".

    A direction in which nothing differs is left out. In rows, the lists of the second direction stand behind each other,
    parted by bars: "84 (92, 100) | 88 (96, 104)".
    """
    said: list[Inline] = []
    parts = setting.parted(texts)
    seconds = len(setting.axes.second)
    barred = setting.bars and len(parts) == seconds == len({setting.axes.place(run[0])[1] for _, run in parts})
    for lead, run in parts:
        if said:
            said.append(Text(f"{NO_BREAK_SPACE}| " if barred else ", "))
        if lead and not barred:
            said.append(Text(f"{lead}: "))
        values = tuple(texts[size] for size in run)
        if len(set(values)) == 1:
            said.append(Quantity(values[0], unit) if unit else Text(values[0]))
        else:
            heads = tuple(setting.axes.first[setting.axes.place(size)[0]] for size in run)
            groups = setting.groups if sum(setting.groups) == len(values) - 1 else ()
            said.append(SizeList(values, heads, groups=groups, unit=unit))
    return tuple(said)


def counts(values: Sequence[int | None], setting: Setting, *, ordinals: bool = False) -> Inlines:
    """Whole numbers per size; as 1st, 2nd … when they number something."""
    change: Callable[[int], str] = ordinal if ordinals else str
    return listed([None if value is None else change(value) for value in values], setting)


def numbers(values: Values, setting: Setting) -> Inlines:
    """Plain numbers per size, broken ones with a real fraction where there is one."""
    return listed([None if value is None else mixed(value) for value in values], setting)


def typeset(words: str) -> str:
    """Words of the source that are no Markdown, with the printer's apostrophe."""
    return _APOSTROPHE.sub("’", words)


def joined(words: Sequence[str], last: str = "and") -> str:
    """A list in a sentence: "A, B and C"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


# ── measures ──────────────────────────────────────────────────────────────────────────────────────


def system_of(unit: str) -> System:
    """Which system of measure a unit belongs to."""
    return _SYSTEM[unit]


def in_unit(values: Values, unit: str) -> tuple[Fraction | None, ...]:
    """Millimetres or grams as numbers of a unit, exact."""
    size = UNITS[unit][2]
    return tuple(None if value is None else value / size for value in values)


def converted(
    values: Values, unit: str, setting: Setting, kind: Kind = "length"
) -> tuple[tuple[Fraction | None, ...], str]:
    """Millimetres or grams that are meant in one unit, as rounded numbers of the other system's unit.

    Inches and centimetres go by the factor the author declares. The steps are the house's, by kind.
    """
    target = _OTHER[unit]
    if setting.inch_mm != INCH and {unit, target} <= {"in", "cm", "mm"}:
        # the author's inch is another one: 4 in are typed as 101.6 mm and are meant as 100 mm
        factor = setting.inch_mm / INCH if unit == "in" else INCH / setting.inch_mm
        values = [None if value is None else value * factor for value in values]
    return tuple(None if value is None else _rounded(value, unit, target, kind) for value in values), target


def measure(
    values: Values,
    unit: str,
    setting: Setting,
    *,
    twin: Values | None = None,
    twin_unit: str = "",
    kind: Kind = "length",
) -> Inlines:
    """A length or mass per size in the systems printed, "20 cm / 8 in".

    values: exact millimetres or grams. unit: what it was typed in; "" for a computed one, which is rounded in each
    system by itself. twin: the same as typed a second time.
    """
    systems = ordered_systems(unit, setting)
    parts = {
        system: _listed_in(
            *in_system(values, unit, system, setting, twin=twin, twin_unit=twin_unit, kind=kind), setting
        )
        for system in systems
    }
    return (Pair(parts["metric"], parts["imperial"], systems[0]),) if len(systems) > 1 else parts[systems[0]]


def ordered_systems(unit: str, setting: Setting) -> tuple[System, ...]:
    """The systems an edition prints, the one that a measure was typed in first; "" for a computed measure."""
    if not unit:
        return setting.systems
    return tuple(sorted(setting.systems, key=lambda system: system != system_of(unit)))


def in_system(
    values: Values,
    unit: str,
    system: System,
    setting: Setting,
    *,
    twin: Values | None = None,
    twin_unit: str = "",
    kind: Kind = "length",
) -> tuple[tuple[Fraction | None, ...], str]:
    """A measure as numbers of one system and their unit: as typed where it was typed in that system, else rounded.

    Arguments as in `measure`.
    """
    if not unit:
        target = _COMPUTED.get(kind, ("m", "yd"))[0 if system == "metric" else 1]
        return tuple(None if value is None else _rounded(value, "", target, kind) for value in values), target
    if system == system_of(unit):
        return in_unit(values, unit), unit
    if twin is not None and twin_unit and system_of(twin_unit) == system:
        return in_unit(twin, twin_unit), twin_unit
    return converted(values, unit, setting, kind)


def _listed_in(values: Values, unit: str, setting: Setting) -> Inlines:
    change = mixed if unit in ("in", "ft") else decimal
    return listed([None if value is None else change(value) for value in values], setting, unit)


def _rounded(value: Fraction, typed: str, target: str, kind: Kind) -> Fraction:
    """Millimetres or grams on the house's steps in a unit. typed: the unit it was typed in, "" for a computed one."""
    return printed(value, target, "fine" if typed == "mm" and target == "in" else kind)
