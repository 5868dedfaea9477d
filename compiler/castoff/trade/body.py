"""Body tables and fit words, exactly as published.

In: `trade/body.yaml` (which tables there are), the tables it names, `trade/ease.yaml`. Out: cells in inches and in
centimetres, each as printed: neither unit is ever computed from the other, so that a reader's own table is reproduced.
A cell that was published in one unit only has None for the other.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal, NamedTuple

from castoff.trade.table import Cells, Entry, Range, TradeTableError, read_table

INDEX_FILE = "trade/body.yaml"
EASE_FILE = "trade/ease.yaml"

LengthUnit = Literal["in", "cm"]
Bounds = tuple[Fraction, Fraction]
"""Low and high end as printed; the same number twice for a single figure."""


class BodyCell(NamedTuple):
    """One measurement of one size.

    inches, cm: as printed; None when not published in that unit.
    flag: "loose" or "disagrees" when the two units are apart, "suspect" when other tables contradict it.
    off_cm: printed centimetres less exact ones at the worse end; None when not flagged.
    sources: keys of the table's source list; "m" is from memory.
    """

    inches: Bounds | None
    cm: Bounds | None
    flag: str = ""
    off_cm: Fraction | None = None
    note: str = ""
    sources: tuple[str, ...] = ()

    def bounds(self, unit: LengthUnit) -> Bounds | None:
        """The figure in a unit, as printed."""
        return self.inches if unit == "in" else self.cm

    @property
    def from_memory(self) -> bool:
        """Whether nobody has seen it in print."""
        return "m" in self.sources


class BodyMeasurement(NamedTuple):
    """Where the tape goes."""

    name: str
    label: str
    how: str
    also: tuple[str, ...] = ()


class BodySize(NamedTuple):
    """One size: its cells by the measurement's name, in the order of the table."""

    name: str
    cells: Mapping[str, BodyCell]
    also: tuple[str, ...] = ()


def _key(name: str) -> str:
    return re.sub(r"[\s_\-–]+", "", name).casefold()


@dataclass(frozen=True, eq=False)
class BodyTable:
    """A published table.

    name: by which patterns call it ("women").
    standard: who publishes it.
    """

    name: str
    title: str
    standard: str
    measurements: tuple[BodyMeasurement, ...]
    sizes: tuple[BodySize, ...]
    note: str = ""

    @cached_property
    def _sizes(self) -> dict[str, BodySize]:
        spellings = {_key(spelling): size for size in self.sizes for spelling in size.also}
        spellings.update({_key(size.name): size for size in self.sizes})
        return spellings

    @cached_property
    def _measurements(self) -> dict[str, BodyMeasurement]:
        spellings = {_key(spelling): m for m in self.measurements for spelling in m.also}
        spellings.update({_key(m.name): m for m in self.measurements})
        return spellings

    def size(self, name: str) -> BodySize | None:
        """A size by its name or another spelling of it ("2XL" for 2X); case, spaces and dashes aside."""
        return self._sizes.get(_key(name))

    def measurement(self, name: str) -> BodyMeasurement | None:
        """A measurement by its name or another spelling of it ("bust")."""
        return self._measurements.get(_key(name))

    def cell(self, measurement: str, size: str) -> BodyCell | None:
        """The cell; None when the table has no such size or measurement, or leaves the cell empty."""
        row, column = self.size(size), self.measurement(measurement)
        return None if row is None or column is None else row.cells.get(column.name)

    def look_up(self, measurement: str, size: str, unit: LengthUnit) -> Bounds | None:
        """The figure exactly as printed, low and high; None when there is none."""
        cell = self.cell(measurement, size)
        return None if cell is None else cell.bounds(unit)

    def near_size(self, name: str) -> str | None:
        """The size that a slip of the pen may have meant."""
        near = difflib.get_close_matches(_key(name), sorted(self._sizes), 1)
        return self._sizes[near[0]].name if near else None


class BodyTables:
    """Every body table by name, each read when it is first asked for.

    Not a frozen value but a shelf: what has been read is kept, and nothing else ever changes.
    """

    def __init__(self, read: Callable[[str], str], files: Mapping[str, str]) -> None:
        self._read = read
        self._files = dict(files)
        self._shelf: dict[str, BodyTable] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the tables, in the order of the index."""
        return tuple(self._files)

    def find(self, name: str) -> BodyTable | None:
        """A table by name; None when the index has none. Raises TradeTableError when its file is faulty."""
        if name not in self._files:
            return None
        if name not in self._shelf:
            self._shelf[name] = read_body_table(name, self._read(self._files[name]), self._files[name])
        return self._shelf[name]


def read_body_tables(read: Callable[[str], str], file: str = INDEX_FILE) -> BodyTables:
    """The tables that the index names; `read` gives the text of a table such as "trade/body_women.yaml"."""
    index = read_table(file, read(file))
    index.row.only("tables", "sources")
    folder = file.rpartition("/")[0]
    return BodyTables(read, {name: f"{folder}/{entry.text()}" for name, entry in index.entry("tables").items()})


def read_body_table(name: str, text: str, file: str) -> BodyTable:
    """One table of a file that may hold several. Raises TradeTableError for an entry that cannot be used."""
    root = read_table(file, text)
    root.row.only("sources", "tables")
    found = root.entry("tables").cells().found.get(name)
    if found is None:
        raise TradeTableError(file, "tables", 0, f"has no table `{name}`, though the index of body tables says so")
    table = found.cells("title", "standard", "note", "measurements", "sizes")
    measurements = tuple(_measurement(key, entry) for key, entry in table.entry("measurements").items())
    names = tuple(measurement.name for measurement in measurements)
    sizes = tuple(_size(key, entry, names) for key, entry in table.entry("sizes").items())
    return BodyTable(name, table.text("title"), table.text("standard"), measurements, sizes, table.text("note", ""))


def _measurement(name: str, entry: Entry) -> BodyMeasurement:
    cells = entry.cells("label", "how", "also")
    return BodyMeasurement(name, cells.text("label"), cells.text("how", ""), cells.texts("also"))


def _size(name: str, entry: Entry, measurements: tuple[str, ...]) -> BodySize:
    row = entry.cells("also", *measurements)
    cells = {column: _cell(row.found[column]) for column in measurements if row.has(column)}
    return BodySize(name, cells, row.texts("also"))


def _cell(entry: Entry) -> BodyCell:
    cells = entry.cells("in", "cm", "src", "flag", "off_cm", "note")
    inches, cm = _bounds(cells, "in"), _bounds(cells, "cm")
    if inches is None and cm is None:
        raise entry.fault("has neither `in` nor `cm`")
    flag = cells.choice("flag", ("loose", "disagrees", "suspect"), "")
    off = cells.number("off_cm") if cells.has("off_cm") else None
    return BodyCell(inches, cm, flag, off, cells.text("note", ""), cells.texts("src"))


def _bounds(cells: Cells, column: str) -> Bounds | None:
    low, high = cells.range(column)
    if low is None and high is None:
        return None
    if low is None or high is None:
        raise cells.found[column].fault("a body measurement has both a low and a high end")
    return low, high


class Fit(NamedTuple):
    """A fit word.

    inches, cm: garment chest less body chest, low and high; None for an open end.
    means: in words.
    """

    name: str
    inches: Range
    cm: Range
    means: str
    also: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()

    def holds(self, ease_cm: Fraction) -> bool:
        """Whether an ease lies within the fit."""
        low, high = self.cm
        return (low is None or ease_cm >= low) and (high is None or ease_cm <= high)


class Ease(NamedTuple):
    """Fit words of today, and those of the older booklet."""

    fits: tuple[Fit, ...]
    older_fits: tuple[Fit, ...]

    def find(self, word: str) -> Fit | None:
        """A fit of today by its word."""
        key = _key(word)
        return next((fit for fit in self.fits if key in map(_key, (fit.name, *fit.also))), None)

    def fit_of(self, ease_cm: Fraction) -> Fit | None:
        """The fit that an ease belongs to; the tighter at a shared end, None between two fits."""
        return next((fit for fit in self.fits if fit.holds(ease_cm)), None)


def read_ease(text: str, file: str = EASE_FILE) -> Ease:
    """The fit words of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "fits", "older_fits")
    older = table.found.get("older_fits")
    return Ease(
        tuple(_fit(name, entry) for name, entry in table.entry("fits").items()),
        tuple(_fit(name, entry) for name, entry in older.items()) if older else (),
    )


def _fit(name: str, entry: Entry) -> Fit:
    cells = entry.cells("in", "cm", "means", "also", "src")
    return Fit(
        name, cells.entry("in").range(), cells.entry("cm").range(), cells.text("means", ""),
        cells.texts("also"), cells.texts("src"),
    )  # fmt: skip
