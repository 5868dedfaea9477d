"""Every node of a syntax tree, for those who look for one kind of node wherever it stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from castoff.span import Span


def nodes_of(node: object) -> Iterator[object]:
    """Every syntax node of a step or of several, each before what it holds."""
    if isinstance(node, tuple):
        for part in node:
            yield from nodes_of(part)
    elif is_dataclass(node) and not isinstance(node, (Span, type)):
        yield node
        for each in fields(node):
            if each.name not in ("span", "sizes", "formula"):
                yield from nodes_of(getattr(node, each.name))
