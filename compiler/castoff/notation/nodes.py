"""Every node of a syntax tree, for those who look for one kind of node wherever it stands.

In: a node, or a tuple of nodes however deep. Out: the nodes, each before what it holds, in the order of the words.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

_LEAVES = frozenset({"span", "tokens", "text", "values", "formula", "millimetres", "twin", "as_written", "sizes"})
"""Fields that hold no node of their own."""


def nodes_of(node: Any) -> Iterator[Any]:
    """A syntax node and all nodes inside it; of a tuple, those of its members. Whatever else there is is passed over."""
    if isinstance(node, tuple):
        for part in node:
            yield from nodes_of(part)
    elif hasattr(node, "span"):
        yield node
        for name in type(node).__slots__:
            if name not in _LEAVES:
                value = getattr(node, name)
                if value and not isinstance(value, (str, int)):
                    yield from nodes_of(value)
