"""A trade table read with its places: every fault names file, line and entry.

In: the name and the text of a YAML file. Out: an `Entry` tree, all scalars as text; typed cells are asked for by kind
(`text`, `whole`, `number`, `choice`, `texts`, `span_of`). A house overrides these files, so that a wrong or missing
cell is a `TradeTableError` in plain words and never a KeyError.

Written in the YAML 1.1 subset of mappings, lists and plain scalars. An empty value is the same as none at all.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

import yaml

# The C parser is some ten times faster; it is absent from a few builds of PyYAML, and the result is the same.
_LOADER: type = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_NUMBER = re.compile(r"[+-]?\d+(?:\.\d+)?(?:/[1-9]\d*)?")


class TradeTableError(ValueError):
    """A trade table holds something that cannot be used.

    file: name of the table, as asked for ("trade/needles.yaml").
    entry: path of the entry inside it ("needles › 5.0 › us"); empty for a fault of the whole file.
    line: line of the file, from 1; 0 when unknown.
    """

    def __init__(self, file: str, entry: str, line: int, fault: str) -> None:
        place = f"{file}, line {line}" if line else file
        super().__init__(f"{place}: {entry + ': ' if entry else ''}{fault}")
        self.file = file
        self.entry = entry
        self.line = line
        self.fault = fault


class Entry(NamedTuple):
    """One node of a table.

    file: name of the table.
    path: keys that lead to the node.
    node: the YAML node.
    """

    file: str
    path: tuple[str, ...]
    node: yaml.Node

    def fault(self, message: str) -> TradeTableError:
        """An error that points at this entry."""
        return TradeTableError(self.file, " › ".join(self.path), self.node.start_mark.line + 1, message)

    def items(self) -> Iterator[tuple[str, Entry]]:
        """Keys and entries of a mapping, in the order of the file; a repeated key is an error."""
        if not isinstance(self.node, yaml.MappingNode):
            if self.is_empty():
                return
            raise self.fault("should hold `key: value` entries")
        seen: set[str] = set()
        for key, value in self.node.value:
            name = str(key.value)
            entry = Entry(self.file, (*self.path, name), value)
            if name in seen:
                raise entry.fault("is given twice")
            seen.add(name)
            yield name, entry

    def only(self, *allowed: str) -> None:
        """Refuses keys that mean nothing here."""
        for name, entry in self.items():
            if name not in allowed:
                near = difflib.get_close_matches(name, allowed, 1)
                raise entry.fault(
                    f"`{name}` is not a column of this table"
                    + (f"; is `{near[0]}` meant?" if near else f"; the columns are {', '.join(allowed)}")
                )

    def cells(self, *allowed: str) -> Cells:
        """The entry's columns, ready to be asked for; a column outside `allowed` is an error."""
        found: dict[str, Entry] = {}
        for name, entry in self.items():
            found[name] = entry
        if allowed and not found.keys() <= set(allowed):
            self.only(*allowed)
        return Cells(self, found)

    def elements(self) -> tuple[Entry, ...]:
        """The parts of a list; a single scalar counts as a list of one."""
        if isinstance(self.node, yaml.SequenceNode):
            return tuple(Entry(self.file, (*self.path, str(i)), node) for i, node in enumerate(self.node.value, 1))
        return () if self.is_empty() else (self,)

    def is_empty(self) -> bool:
        """Whether nothing stands here."""
        return isinstance(self.node, yaml.ScalarNode) and self.node.value in ("", "~", "null")

    def text(self) -> str:
        """The scalar as text."""
        if not isinstance(self.node, yaml.ScalarNode):
            raise self.fault("should be a single value")
        return "" if self.is_empty() else str(self.node.value)

    def number(self) -> Fraction:
        """The scalar as an exact number."""
        text = self.text()
        if not _NUMBER.fullmatch(text):
            raise self.fault(f"should be a number, and is `{text}`")
        return Fraction(text)

    def whole(self) -> int:
        """The scalar as a whole number from 0 up."""
        number = self.number()
        if number.denominator != 1 or number < 0:
            raise self.fault(f"should be a whole number from 0 up, and is `{self.text()}`")
        return int(number)

    def texts(self) -> tuple[str, ...]:
        """The list as texts."""
        return tuple(element.text() for element in self.elements())

    def range(self) -> Range:
        """`[low, high]`, an end left empty (`~`) when open; or one number for both ends."""
        elements = self.elements()
        if len(elements) == 1:
            number = elements[0].number()
            return number, number
        if len(elements) != 2:
            raise self.fault("should be `[low, high]`")
        low, high = (None if element.is_empty() else element.number() for element in elements)
        if low is not None and high is not None and low > high:
            raise self.fault(f"the low end {elements[0].text()} is above the high end {elements[1].text()}")
        return low, high


Range = tuple[Fraction | None, Fraction | None]
"""A low and a high end; None where the range is open."""


class Cells(NamedTuple):
    """The columns of one entry by name.

    row: the entry.
    found: its columns.
    """

    row: Entry
    found: dict[str, Entry]

    def entry(self, name: str) -> Entry:
        """A column that must be there."""
        entry = self.found.get(name)
        if entry is None or entry.is_empty():
            raise self.row.fault(f"has no `{name}`")
        return entry

    def has(self, name: str) -> bool:
        """Whether a column is there and holds something."""
        entry = self.found.get(name)
        return entry is not None and not entry.is_empty()

    def text(self, name: str, default: str | None = None) -> str:
        """Text of a column; without a default it must be there."""
        if default is not None and not self.has(name):
            return default
        return self.entry(name).text()

    def whole(self, name: str, default: int | None = None) -> int:
        """Whole number of a column."""
        if default is not None and not self.has(name):
            return default
        return self.entry(name).whole()

    def number(self, name: str) -> Fraction:
        """Exact number of a column."""
        return self.entry(name).number()

    def texts(self, name: str) -> tuple[str, ...]:
        """Texts of a list column, empty when the column is left out."""
        return self.found[name].texts() if name in self.found else ()

    def range(self, name: str) -> Range:
        """Range of a column, open at both ends when it is left out."""
        return self.entry(name).range() if self.has(name) else (None, None)

    def choice(self, name: str, choices: Sequence[str], default: str | None = None) -> str:
        """Text of a column that must be one of a few."""
        value = self.text(name, default)
        if value not in choices and value != default:
            near = difflib.get_close_matches(value, choices, 1)
            hint = f"is `{near[0]}` meant?" if near else f"use one of {', '.join(c for c in choices if c)}"
            raise self.found[name].fault(f"`{value}` is not known here; {hint}")
        return value

    def flag(self, name: str) -> bool:
        """`yes` or `no` of a column, no when it is left out."""
        return self.choice(name, ("yes", "no"), "no") == "yes"


def read_table(file: str, text: str) -> Cells:
    """The sections of a table by name.

    file: name used in errors.
    text: YAML. Raises TradeTableError when it is no YAML or no mapping.
    """
    try:
        node = yaml.compose(text, Loader=_LOADER)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        fault = getattr(error, "problem", None) or str(error)
        raise TradeTableError(file, "", mark.line + 1 if mark else 0, f"is not readable YAML: {fault}") from error
    if node is None:
        raise TradeTableError(file, "", 0, "is empty")
    return Entry(file, (), node).cells()
