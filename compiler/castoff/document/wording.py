"""Numbers and measures in words: the one place where a value becomes text.

In: exact numbers, one per size, and the `Setting` of an edition. Out: inline text: size lists that collapse where every size
has the same, lengths in the systems that the edition prints, real fractions for inches, decimals for centimetres.

A value that the author typed is printed as typed, in its own unit; only what has to be converted is rounded, by the house
rounding for its kind of number. A pair that was typed in both systems is printed as that pair.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Literal, TypeAlias

from castoff.document.setting import Setting
from castoff.document.tree import NO_BREAK_SPACE, SKIPPED, Inline, Inlines, Quantity, SizeList, Text
from castoff.numeral import UNITS, VULGAR

Values: TypeAlias = Sequence[Fraction | None]
System: TypeAlias = Literal["metric", "imperial"]
Kind: TypeAlias = Literal["length", "needle", "yarn", "put-up", "mass"]
"""What a measure is of; it decides how a converted one is rounded."""

_GLYPHS = {value: glyph for glyph, value in VULGAR.items()}
_SYSTEM: dict[str, System] = {
    "mm": "metric", "cm": "metric", "m": "metric", "g": "metric", "kg": "metric",
    "in": "imperial", "ft": "imperial", "yd": "imperial", "oz": "imperial", "lb": "imperial",
}  # fmt: skip
_OTHER = {
    "mm": "in", "cm": "in", "m": "yd", "g": "oz", "kg": "lb",
    "in": "cm", "ft": "m", "yd": "m", "oz": "g", "lb": "g",
}  # fmt: skip
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
    shown = setting.pick(tuple(SKIPPED if text is None else text for text in texts))
    if len(set(shown)) == 1:
        return (Quantity(shown[0], unit),) if unit else (Text(shown[0]),)
    names = setting.pick(setting.sizes)
    return (SizeList(shown, names, groups=setting.groups, unit=unit),)


def counts(values: Sequence[int | None], setting: Setting, *, ordinals: bool = False) -> Inlines:
    """Whole numbers per size; as 1st, 2nd … when they number something."""
    change: Callable[[int], str] = ordinal if ordinals else str
    return listed([None if value is None else change(value) for value in values], setting)


def numbers(values: Values, setting: Setting) -> Inlines:
    """Plain numbers per size, broken ones with a real fraction where there is one."""
    return listed([None if value is None else mixed(value) for value in values], setting)


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


def converted(values: Values, unit: str, setting: Setting, kind: Kind = "length") -> tuple[tuple[Fraction | None, ...], str]:
    """Millimetres or grams that are meant in one unit, as rounded numbers of the other system's unit.

    Inches and centimetres go by the factor the author declares. House rounding by kind; see `_STEPS`.
    """
    target = _OTHER[unit]
    if setting.inch_mm != INCH and {unit, target} <= {"in", "cm", "mm"}:
        # the author's inch is another one: 4 in are typed as 101.6 mm and are meant as 100 mm
        values = [None if v is None else v * setting.inch_mm / INCH if unit == "in" else v * INCH / setting.inch_mm for v in values]
    step, way = _step(kind, unit, target)
    return tuple(None if value is None else stepped(value, step, way) for value in in_unit(values, target)), target


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

    values: exact millimetres or grams. unit: what it was typed in; "" for a computed one, which is meant in the author's
    system and rounded. twin: the same as typed a second time.
    """
    if not unit:
        return _computed(values, setting, kind)
    parts: list[Inlines] = []
    typed_first = (system_of(unit), *(system for system in ("metric", "imperial") if system != system_of(unit)))
    for system in typed_first:
        if system not in setting.systems:
            continue
        if system == system_of(unit):
            parts.append(_listed_in(in_unit(values, unit), unit, setting))
        elif twin is not None and twin_unit and system_of(twin_unit) == system:
            parts.append(_listed_in(in_unit(twin, twin_unit), twin_unit, setting))
        else:
            parts.append(_listed_in(*converted(values, unit, setting, kind), setting))
    return _beside(parts)


def _computed(values: Values, setting: Setting, kind: Kind) -> Inlines:
    """A measure that no unit was typed for: rounded in each system by itself, from the same exact value."""
    metric, imperial = {"length": ("cm", "in"), "needle": ("cm", "in"), "mass": ("g", "oz")}.get(kind, ("m", "yd"))
    parts = []
    for system in setting.systems:
        unit = metric if system == "metric" else imperial
        step, way = _step(kind, _OTHER[unit], unit)
        rounded = tuple(None if value is None else stepped(value, step, way) for value in in_unit(values, unit))
        parts.append(_listed_in(rounded, unit, setting))
    return _beside(parts)


def _beside(parts: Sequence[Inlines]) -> Inlines:
    """Both systems side by side: "20 cm / 8 in"."""
    set_: list[Inline] = []
    for part in parts:
        if set_:
            set_.append(Text(f"{NO_BREAK_SPACE}/ "))
        set_.extend(part)
    return tuple(set_)


def _listed_in(values: Values, unit: str, setting: Setting) -> Inlines:
    change = mixed if unit in ("in", "ft") else decimal
    return listed([None if value is None else change(value) for value in values], setting, unit)


# ── house rounding of converted measures ──────────────────────────────────────────────────────────
# Centimetres in halves and inches in quarters, since a ruler must show them; yards and metres up, so that nobody runs
# short (common practice). Needle lengths are sold in whole units; 16 in is called 41 cm (common practice).

INCH = Fraction(254, 10)
_STEPS: dict[tuple[Kind, str], tuple[Fraction, Literal["nearest", "up"]]] = {
    ("length", "cm"): (Fraction(1, 2), "nearest"),
    ("length", "in"): (Fraction(1, 4), "nearest"),
    ("length", "m"): (Fraction(1), "up"),
    ("length", "yd"): (Fraction(1), "up"),
    ("needle", "cm"): (Fraction(1), "nearest"),
    ("needle", "in"): (Fraction(1), "nearest"),
    ("yarn", "m"): (Fraction(1), "up"),
    ("yarn", "yd"): (Fraction(1), "up"),
    ("put-up", "m"): (Fraction(1), "nearest"),
    ("put-up", "yd"): (Fraction(1), "nearest"),
    ("mass", "g"): (Fraction(1), "up"),
    ("mass", "oz"): (Fraction(1, 4), "nearest"),
}
_FINE_IN = Fraction(1, 8)
"""Millimetres (a button, a gap) become inches in eighths."""


def _step(kind: Kind, unit: str, target: str) -> tuple[Fraction, Literal["nearest", "up"]]:
    if unit == "mm" and target == "in":
        return _FINE_IN, "nearest"
    return _STEPS.get((kind, target)) or _STEPS.get(("mass" if target in ("g", "oz") else "length", target)) or (Fraction(1, 10), "nearest")


def stepped(value: Fraction, step: Fraction, way: Literal["nearest", "up"]) -> Fraction:
    """A value on the steps of a ruler, halves upward; a value that is not nothing never becomes nothing."""
    scaled = value / step
    whole = -((-scaled.numerator) // scaled.denominator) if way == "up" else (scaled + Fraction(1, 2)).__floor__()
    if whole == 0 and value > 0:
        whole = 1
    return whole * step
