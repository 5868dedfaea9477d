"""The node tree: a source file as scalars, sequences and mappings, each knowing its place.

In: nothing, these are values; `read.py` makes them. Out: `Node`. Every scalar is text, whatever it looks like: there
are no numbers, dates, nulls or truth values here, and the model gives each value its type.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from castoff.span import Span, Text


@dataclass(frozen=True, slots=True)
class Scalar:
    """A text.

    style: how it was typed: "" plain, "'" or '"' quoted, "|" or ">" a block.
    """

    text: Text
    span: Span
    style: str = ""

    @property
    def blank(self) -> bool:
        """Whether nothing was typed, or only white space."""
        return not self.text.value.strip()


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list of nodes, in order."""

    items: tuple[Node, ...]
    span: Span

    def __iter__(self) -> Iterator[Node]:
        return iter(self.items)

    def __len__(self) -> int:
        return len(self.items)


@dataclass(frozen=True, slots=True)
class Entry:
    """A key with its value."""

    key: Text
    value: Node


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys with values, in the order typed; no key stands twice."""

    entries: tuple[Entry, ...]
    span: Span

    def __iter__(self) -> Iterator[Entry]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)

    def entry(self, key: str) -> Entry | None:
        """The entry of a key."""
        return next((entry for entry in self.entries if entry.key.value == key), None)

    def get(self, key: str) -> Node | None:
        """The value of a key."""
        entry = self.entry(key)
        return None if entry is None else entry.value


Node: TypeAlias = Scalar | Sequence | Mapping


def kind(node: Node) -> str:
    """What a node is, in words for a message."""
    if isinstance(node, Mapping):
        return "keys with values"
    if isinstance(node, Sequence):
        return "a list"
    return "a text"


def plain(node: Node) -> object:
    """The node as dicts, lists and strings, for a validator that knows no places."""
    if isinstance(node, Scalar):
        return node.text.value
    if isinstance(node, Sequence):
        return [plain(item) for item in node.items]
    return {entry.key.value: plain(entry.value) for entry in node.entries}
