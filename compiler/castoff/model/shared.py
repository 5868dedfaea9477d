"""What several patterns share: entries of `shared.yaml` put in where a pattern asks for them with `use`.

In: the root of a source, and that of the shared file beside it. Out: the root with every `use` filled in, each value with
its place in the file it was typed in. What the pattern says itself goes before what is shared.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from castoff.diagnostic import Checked, Diagnostic, Rule
from castoff.model.schema import SHARED, SOURCE, Listing, Part, Prose, Shape, Table
from castoff.model.shape import misfits, nearest
from castoff.source.node import Entry, Mapping, Node, Scalar, Sequence
from castoff.span import Text

UNKNOWN_SHARED = Rule(
    "unknown-shared",
    "error",
    """A pattern uses something shared that is not there.

`shared.yaml` beside the patterns, or beside their folder, holds what several of them share: `yarns`, `needles`,
`stitch_patterns`, `stitches`, `pictures`, and texts under `paragraphs`. A pattern has it with `use` and its name.

Fires:
    yarns:
      A: {use: low tide worsted}
Silent:
    yarns:
      A: {name: Low Tide Worsted, weight: worsted}
""",
)
RULES = (UNKNOWN_SHARED,)


def read_shared(root: Mapping) -> tuple[Diagnostic, ...]:
    """Every fault of shape in the shared file."""
    return misfits(root, SHARED, "the shared file")


def with_shared(root: Mapping, shared: Mapping | None) -> Checked[Mapping]:
    """A source with what it uses of the shared file.

    shared: None when there is no such file; a `use` is then a finding.
    """
    filler = _Filler(shared)
    filled = filler.fill(root, SOURCE)
    assert isinstance(filled, Mapping), "a mapping stays one"
    return Checked(filled, tuple(filler.findings))


class _Filler:
    """Puts shared entries in; kept apart from the result so that the result stays a value."""

    __slots__ = ("findings", "shared")

    def __init__(self, shared: Mapping | None) -> None:
        self.shared = shared
        self.findings: list[Diagnostic] = []

    def fill(self, node: Node, shape: Shape) -> Node:
        if isinstance(shape, Prose):
            return self._text(node) if shape.shared else node
        if isinstance(shape, Listing) and isinstance(node, Sequence):
            return replace(node, items=tuple(self.fill(item, shape.of) for item in node.items))
        if isinstance(shape, Table) and isinstance(node, Mapping):
            entries = tuple(replace(entry, value=self.fill(entry.value, shape.of)) for entry in node.entries)
            return replace(node, entries=entries)
        if isinstance(shape, Part) and isinstance(node, Mapping):
            if shape.shared:
                node = self._part(node, shape)
            return replace(node, entries=tuple(self._entries(node, shape)))
        return node

    def _entries(self, node: Mapping, part: Part) -> Iterator[Entry]:
        for entry in node.entries:
            key = part.key(entry.key.value)
            yield entry if key is None else replace(entry, value=self.fill(entry.value, key.holds))

    def _part(self, node: Mapping, part: Part) -> Mapping:
        """An entry with `use`: what it says itself, then what the shared entry says besides."""
        asked = node.get("use")
        if not isinstance(asked, Scalar):
            return node
        own = tuple(entry for entry in node.entries if entry.key.value != "use")
        found = self._shared(part.shared, asked.text)
        if not isinstance(found, Mapping):
            return replace(node, entries=own)
        said = {entry.key.value for entry in own}
        more = tuple(entry for entry in found.entries if entry.key.value not in said)
        return replace(node, entries=(*own, *more))

    def _text(self, node: Node) -> Node:
        if not isinstance(node, Mapping) or [entry.key.value for entry in node.entries] != ["use"]:
            return node
        asked = node.get("use")
        if not isinstance(asked, Scalar):
            return node
        found = self._shared("paragraphs", asked.text)
        return found if isinstance(found, Scalar) else Scalar(asked.text, asked.span)

    def _shared(self, kind: str, name: Text) -> Node | None:
        table = None if self.shared is None else self.shared.get(kind)
        found = table.get(name.value) if isinstance(table, Mapping) else None
        if found is not None:
            return found
        known = tuple(entry.key.value for entry in table.entries) if isinstance(table, Mapping) else ()
        near = nearest(name.value, known)
        if self.shared is None:
            hint = "write a `shared.yaml` beside the pattern"
        elif near is not None:
            hint = f"did you mean `{near}`?"
        elif known:
            hint = f"there are {', '.join(f'`{each}`' for each in known)}"
        else:
            hint = f"add it to `shared.yaml` under `{kind}`"
        message = f"there is nothing shared under `{kind}` that is called `{name.value}`"
        self.findings.append(Diagnostic.of(UNKNOWN_SHARED, message, name.span(), hint=hint))
        return None
