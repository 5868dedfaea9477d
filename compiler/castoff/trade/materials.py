"""Materials: needle sizes in every system, circular lengths, yarn weights and put-ups.

In: `trade/needles.yaml`, `trade/yarn_weights.yaml`, and texts such as "US 8", "5 mm (US 8)", "10 ply" or
"200 m / 100 g". Out: frozen rows, and readings that say in words what is wrong with a text. Diameters are exact
millimetres, put-ups exact millimetres and grams; nothing is rounded here.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal, NamedTuple

from castoff.numeral import UNITS, read_numeral, read_unit
from castoff.trade.gauge import INCH_MM
from castoff.trade.table import Cells, Entry, Range, read_table

NEEDLES_FILE = "trade/needles.yaml"
YARN_FILE = "trade/yarn_weights.yaml"

System = Literal["mm", "US", "UK", "JP"]
YarnRegion = Literal["US", "UK", "AU/NZ"]

_SIZE = r"(?:\d+(?:[ ]?[½¼¾]|[ -]\d/\d|\.\d+)?)"
_NAMED = re.compile(
    rf"(?P<mm>\d+(?:\.\d+)?)\s*-?mm\b"
    rf"|\b(?P<system>US|UK|JP|Japan(?:ese)?|CAN|Canad(?:a|ian))\s*(?:size|no\.?|[Nn]umber)?\s*#?\s*(?P<size>{_SIZE})"
    rf"|(?P<after>{_SIZE})\s*(?P<behind>US|UK|JP)\b"
)
_HALVES = {"½": ".5", "¼": ".25", "¾": ".75", "1/2": ".5", "1/4": ".25", "3/4": ".75"}


class Needle(NamedTuple):
    """A knitting needle or crochet hook.

    mm: diameter.
    us, uk, jp: local sizes as text; empty where a system has none.
    disputed: makers put the same local size on another diameter too.
    note: disagreements seen.
    sources: keys of the table's source list.
    """

    mm: Fraction
    us: str = ""
    uk: str = ""
    jp: str = ""
    disputed: bool = False
    note: str = ""
    sources: tuple[str, ...] = ()

    def size(self, system: System) -> str:
        """The size in a system, "5 mm" or "US 8"; empty where the system has none."""
        if system == "mm":
            return f"{decimal(self.mm)} mm"
        number = {"US": self.us, "UK": self.uk, "JP": self.jp}[system]
        return f"{system} {number}" if number else ""

    def words(self, *systems: System) -> str:
        """Millimetres first, then the local sizes that exist: "5 mm (US 8, UK 6)"."""
        local = [name for name in (self.size(system) for system in systems if system != "mm") if name]
        return self.size("mm") + (f" ({', '.join(local)})" if local else "")


class NeedleReading(NamedTuple):
    """What a needle text says.

    needles: needles that fit everything it says; several for a number that is sold in two diameters.
    sizes: (system, number) as read, in the order of the text.
    fault: what is wrong, in words; empty when the text names exactly one needle.
    hint: what would be right; may be empty.
    """

    needles: tuple[Needle, ...]
    sizes: tuple[tuple[System, str], ...]
    fault: str = ""
    hint: str = ""

    @property
    def needle(self) -> Needle | None:
        """The needle, when there is no doubt."""
        return self.needles[0] if len(self.needles) == 1 else None


class CircularLength(NamedTuple):
    """A circular needle's nominal length, tip to tip.

    inches, cm: the trade's pair, neither computed from the other.
    suits_in: smallest and largest circumference in inches that it holds comfortably.
    use: what it is usual for; may be empty.
    """

    inches: Fraction
    cm: Fraction
    suits_in: Range
    use: str = ""
    note: str = ""
    sources: tuple[str, ...] = ()

    def suits(self, circumference_mm: Fraction) -> bool:
        """Whether a piece of this circumference can be worked round on it."""
        low, high = self.suits_in
        return (low is None or circumference_mm >= low * INCH_MM) and (
            high is None or circumference_mm <= high * INCH_MM
        )


def decimal(number: Fraction) -> str:
    """A number in decimals as short as it can be: 5, 4.5, 12.75."""
    return f"{float(number):.4f}".rstrip("0").rstrip(".")


@dataclass(frozen=True, eq=False)
class NeedleChart:
    """Needles from the thinnest up, circular lengths and hooks in the order of the table."""

    needles: tuple[Needle, ...]
    circulars: tuple[CircularLength, ...]
    hooks: tuple[Needle, ...]

    @cached_property
    def _by_mm(self) -> dict[Fraction, Needle]:
        return {needle.mm: needle for needle in self.needles}

    def by_mm(self, mm: Fraction) -> Needle | None:
        """The needle of exactly this diameter."""
        return self._by_mm.get(mm)

    def nearest(self, mm: Fraction) -> Needle:
        """The needle whose diameter is nearest; of two as near, the thinner."""
        return min(self.needles, key=lambda needle: (abs(needle.mm - mm), needle.mm))

    def by_local(self, system: System, number: str) -> tuple[Needle, ...]:
        """Needles that carry a number in a system: two for US 17, none for US 12."""
        if system == "mm":
            needle = self.by_mm(Fraction(number))
            return () if needle is None else (needle,)
        return tuple(needle for needle in self.needles if needle.size(system) == f"{system} {number}")

    def names(self, mm: Fraction) -> tuple[str, ...]:
        """Every local name of a diameter, millimetres first; only the millimetres when the chart has no such size."""
        needle = self.by_mm(mm) or Needle(mm)
        systems: tuple[System, ...] = ("mm", "US", "UK", "JP")
        return tuple(name for name in map(needle.size, systems) if name)

    def read(self, text: str) -> NeedleReading:
        """The needle that a text names: "5 mm", "US 8", "UK 6", "5 mm (US 8)", "5.0mm / US #8".

        A text that gives several sizes must mean one needle by all of them.
        """
        sizes = _read_sizes(text)
        if not sizes:
            return NeedleReading((), (), f"`{text}` names no needle size", "write it like `5 mm` or `US 8`")
        matching = [self.by_local(system, number) for system, number in sizes]
        for (system, number), found in zip(sizes, matching, strict=True):
            if not found and system == "mm":
                fault = f"no needle of {number} mm is on the chart"
                return NeedleReading((), sizes, fault, self._neighbours(Fraction(number)))
            if not found:
                return NeedleReading((), sizes, f"there is no needle {system} {number}")
        common = tuple(needle for needle in matching[0] if all(needle in found for found in matching[1:]))
        if not common:
            said = " and ".join(f"{number} mm" if system == "mm" else f"{system} {number}" for system, number in sizes)
            meant = "; ".join(" or ".join(needle.words("US", "UK") for needle in found) for found in matching)
            return NeedleReading((), sizes, f"{said} are not the same needle", meant)
        if len(common) > 1:
            diameters = " and ".join(needle.size("mm") for needle in common)
            fault = f"{' '.join(sizes[0])} is sold as {diameters}"
            return NeedleReading(common, sizes, fault, "give the millimetres")
        return NeedleReading(common, sizes)

    def _neighbours(self, mm: Fraction) -> str:
        """The next thinner and the next thicker needle that the West sells, in words."""
        western = [needle for needle in self.needles if needle.us or needle.uk]
        thinner = [needle for needle in western if needle.mm < mm][-1:]
        thicker = [needle for needle in western if needle.mm > mm][:1]
        return "the nearest are " + " and ".join(needle.words("US", "UK") for needle in thinner + thicker)

    def suitable_circulars(self, circumference_mm: Fraction) -> tuple[CircularLength, ...]:
        """Circular lengths on which a piece of this circumference can be worked in the round, shortest first."""
        return tuple(length for length in self.circulars if length.suits(circumference_mm))

    def circular(self, length_mm: Fraction) -> CircularLength | None:
        """The nominal length nearest to a length in millimetres, when it is within 1.5 cm of either printed figure."""
        near = [
            (min(abs(length.cm * 10 - length_mm), abs(length.inches * INCH_MM - length_mm)), index)
            for index, length in enumerate(self.circulars)
        ]
        gap, index = min(near, default=(Fraction(16), 0))
        return self.circulars[index] if gap <= 15 else None


def _read_sizes(text: str) -> tuple[tuple[System, str], ...]:
    sizes: list[tuple[System, str]] = []
    for match in _NAMED.finditer(text):
        if match["mm"] is not None:
            sizes.append(("mm", decimal(Fraction(match["mm"]))))
            continue
        word = (match["system"] or match["behind"]).upper()
        system: System = "US" if word == "US" else "JP" if word.startswith("J") else "UK"
        sizes.append((system, _local_number(match["size"] or match["after"])))
    return tuple(sizes)


def _local_number(text: str) -> str:
    """`10½`, `10 1/2` and `10-1/2` as `10.5`; zeros are kept, for 0, 00 and 000 are three sizes."""
    for written, plain in _HALVES.items():
        if text.endswith(written):
            return text[: -len(written)].rstrip(" -") + plain
    return text.rstrip("0").rstrip(".") if "." in text else text


def read_needles(text: str, file: str = NEEDLES_FILE) -> NeedleChart:
    """The needle chart of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "needles", "circulars", "hooks")
    needles = tuple(_needle(entry) for entry in table.entry("needles").elements())
    seen: set[Fraction] = set()
    for needle, entry in zip(needles, table.entry("needles").elements(), strict=True):
        if needle.mm in seen:
            raise entry.fault(f"{decimal(needle.mm)} mm stands in the chart twice")
        seen.add(needle.mm)
    circulars = tuple(_circular(entry) for entry in table.entry("circulars").elements())
    hooks = tuple(_needle(entry) for entry in table.found["hooks"].elements()) if table.has("hooks") else ()
    return NeedleChart(tuple(sorted(needles, key=lambda needle: needle.mm)), circulars, hooks)


def _needle(entry: Entry) -> Needle:
    cells = entry.cells("mm", "us", "uk", "jp", "disputed", "note", "src")
    mm = cells.number("mm")
    if mm <= 0:
        raise cells.found["mm"].fault("a diameter must be above zero")
    return Needle(
        mm, cells.text("us", ""), cells.text("uk", ""), cells.text("jp", ""),
        cells.flag("disputed"), cells.text("note", ""), cells.texts("src"),
    )  # fmt: skip


def _circular(entry: Entry) -> CircularLength:
    cells = entry.cells("in", "cm", "suits_in", "use", "note", "src")
    return CircularLength(
        cells.number("in"), cells.number("cm"), cells.entry("suits_in").range(),
        cells.text("use", ""), cells.text("note", ""), cells.texts("src"),
    )  # fmt: skip


class YarnWeight(NamedTuple):
    """A category of the standard yarn weights.

    number: 0-7.
    name: the standard's name.
    types: yarn types that the standard lists.
    gauge: stockinette stitches over 4 in = 10 cm.
    needle_mm: needles that the standard recommends.
    m_per_100g: usual metres in 100 g; no standard.
    us, uk, au_nz: local names.
    """

    number: int
    name: str
    types: tuple[str, ...]
    gauge: Range
    needle_mm: Range
    needle_us: tuple[str, ...] = ()
    crochet_gauge: Range = (None, None)
    crochet_stitch: str = ""
    hook_mm: Range = (None, None)
    m_per_100g: Range = (None, None)
    wpi: Range = (None, None)
    us: tuple[str, ...] = ()
    uk: tuple[str, ...] = ()
    au_nz: tuple[str, ...] = ()
    note: str = ""
    sources: tuple[str, ...] = ()

    def names(self, region: YarnRegion) -> tuple[str, ...]:
        """Local names, the usual one first."""
        return {"US": self.us, "UK": self.uk, "AU/NZ": self.au_nz}[region]


def _within(value: Fraction, limits: Range) -> bool:
    low, high = limits
    return (low is None or value >= low) and (high is None or value <= high) and limits != (None, None)


@dataclass(frozen=True, eq=False)
class YarnWeights:
    """The categories in order."""

    weights: tuple[YarnWeight, ...]

    def find(self, text: str, region: YarnRegion | None = None) -> tuple[YarnWeight, ...]:
        """Categories that a name means, thinnest first; several where lists disagree, none when nobody uses it.

        text: a number ("4", "#4", "CYC 4"), the standard's name, or a local name ("DK weight", "10-ply").
        region: reads local names of one region only.
        """
        key = _yarn_key(text)
        numbered = re.fullmatch(r"(?:cyc|#|category|size|no)?(\d)", key)
        if numbered:
            return tuple(weight for weight in self.weights if weight.number == int(numbered[1]))
        regions: tuple[YarnRegion, ...] = (region,) if region else ("US", "UK", "AU/NZ")
        standard = () if region else tuple(w for w in self.weights if _yarn_key(w.name) == key)
        return standard or tuple(
            weight
            for weight in self.weights
            if any(_yarn_key(name) == key for place in regions for name in weight.names(place))
        )

    def by_gauge(self, stitches_per_10cm: Fraction) -> tuple[YarnWeight, ...]:
        """Categories whose range holds a stockinette gauge: two at 23, none at 20.5."""
        return tuple(weight for weight in self.weights if _within(stitches_per_10cm, weight.gauge))

    def by_metres(self, m_per_100g: Fraction) -> tuple[YarnWeight, ...]:
        """Categories whose usual metres in 100 g hold a figure."""
        return tuple(weight for weight in self.weights if _within(m_per_100g, weight.m_per_100g))

    def all_names(self) -> tuple[str, ...]:
        """Every name in use, for suggestions."""
        names = (name for w in self.weights for name in (w.name, *w.us, *w.uk, *w.au_nz))
        return tuple(dict.fromkeys(names))


def _yarn_key(text: str) -> str:
    return re.sub(r"weight$|yarn$|[\s.\-()]+", "", re.sub(r"\s*(?:weight|yarn)\s*$", "", text.strip().casefold()))


def read_yarn_weights(text: str, file: str = YARN_FILE) -> YarnWeights:
    """The yarn weights of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "weights")
    return YarnWeights(tuple(_yarn_weight(name, entry) for name, entry in table.entry("weights").items()))


def _yarn_weight(name: str, entry: Entry) -> YarnWeight:
    if not name.isdigit():
        raise entry.fault("the key of a yarn weight is its number")
    cells: Cells = entry.cells(
        "name", "types", "gauge", "needle_mm", "needle_us", "crochet_gauge", "crochet_stitch", "hook_mm",
        "m_per_100g", "wpi", "us", "uk", "au_nz", "note", "src",
    )  # fmt: skip
    return YarnWeight(
        int(name), cells.text("name"), cells.texts("types"), cells.entry("gauge").range(),
        cells.entry("needle_mm").range(), cells.texts("needle_us"), cells.range("crochet_gauge"),
        cells.text("crochet_stitch", ""), cells.range("hook_mm"), cells.range("m_per_100g"), cells.range("wpi"),
        cells.texts("us"), cells.texts("uk"), cells.texts("au_nz"), cells.text("note", ""), cells.texts("src"),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class PutUp:
    """A ball as it is sold: length and mass, both exact. Raises ValueError when one is zero or less."""

    length_mm: Fraction
    mass_g: Fraction

    def __post_init__(self) -> None:
        if self.length_mm <= 0 or self.mass_g <= 0:
            raise ValueError("a ball needs a length and a mass above zero")

    @property
    def mm_per_gram(self) -> Fraction:
        """Length of a gram of yarn, in millimetres."""
        return self.length_mm / self.mass_g

    @property
    def m_per_100g(self) -> Fraction:
        """Metres in 100 g."""
        return self.mm_per_gram / 10

    def mass_of(self, length_mm: Fraction) -> Fraction:
        """Grams of a length of yarn."""
        return length_mm / self.mm_per_gram

    def length_of(self, mass_g: Fraction) -> Fraction:
        """Millimetres of a mass of yarn."""
        return mass_g * self.mm_per_gram

    def balls(self, length_mm: Fraction) -> int:
        """Whole balls to buy for a length: always up, for a started ball must be bought (common practice)."""
        return max(0, math.ceil(length_mm / self.length_mm))


def read_put_up(text: str) -> PutUp | None:
    """A put-up such as "200 m / 100 g", "100g = 219 yds", "137 yd (125 m) per 50 g"; None when it is none.

    Of two lengths or masses said side by side the first counts.
    """
    found: dict[str, Fraction] = {}
    at = 0
    while at < len(text):
        number = read_numeral(text, at)
        unit = read_unit(text, number.end) if number else None
        if number is None or number.value is None or unit is None:
            at = number.end if number else at + 1
            continue
        dimension, _, factor = UNITS[unit[0].lower()]
        found.setdefault(dimension, number.value * factor)
        at = unit[1]
    if found.get("length", 0) <= 0 or found.get("mass", 0) <= 0:
        return None
    return PutUp(found["length"], found["mass"])
