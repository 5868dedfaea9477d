"""Values under the keys of a node, and what is wrong with them.

In: nodes of a source. Out: texts and typed values, None where there is nothing or nothing that can be read; the `Reader`
gathers the faults. The modules that load the parts of a pattern read through it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeVar

from castoff.diagnostic import Diagnostic, Rule
from castoff.model import shape, values
from castoff.model.pattern import Amount, Form, Said
from castoff.numeral import Dimension
from castoff.source.node import Entry, Mapping, Node, Scalar, Sequence
from castoff.span import Text
from castoff.trade.materials import NeedleReading

UNKNOWN_NAME = Rule(
    "unknown-name",
    "error",
    """A gauge, yarn, needle, size or section is named that the source does not have.

Fires:
    sections:
      - title: Brim
        gauge: ribb
        work: |
          Knit 1 row.
Silent:
    sections:
      - title: Brim
        work: |
          Knit 1 row.
""",
)

_UNDER = {"yarn": "yarns", "section": "sections", "option": "options"}
"""Keys of the source that names of a kind stand under, where the two differ."""

T = TypeVar("T")
NeedleReader = Callable[[str], NeedleReading]


def key_of(node: Node | None, key: str) -> Node | None:
    """What stands under a key."""
    return node.get(key) if isinstance(node, Mapping) else None


def entries_of(node: Node | None) -> tuple[Entry, ...]:
    """The entries of a mapping."""
    return node.entries if isinstance(node, Mapping) else ()


def items_of(node: Node | None) -> tuple[Node, ...]:
    """The items of a list."""
    return node.items if isinstance(node, Sequence) else ()


def text_of(node: Node | None, key: str) -> Text | None:
    """The text under a key, without white space at its ends; None when there is none."""
    found = key_of(node, key)
    return values.trimmed(found.text) if isinstance(found, Scalar) and not found.blank else None


def whole_text_of(node: Node | None, key: str) -> Text | None:
    """The text under a key as it was typed, with the indents of its lines."""
    found = key_of(node, key)
    return found.text if isinstance(found, Scalar) and not found.blank else None


@dataclass(slots=True)
class Reader:
    """Reads values of a source, gathering what is wrong with them.

    read_needle: looks up a needle size that is not in plain millimetres; None when nobody can. sizes: their names, once
    they have been read.
    """

    findings: list[Diagnostic]
    read_needle: NeedleReader | None
    sizes: tuple[str, ...] = field(default=("One size",))

    def take(self, read: T | Diagnostic) -> T | None:
        """What was read; None when it was a fault, which is kept."""
        if isinstance(read, Diagnostic):
            self.findings.append(read)
            return None
        return read

    def whole(self, node: Node | None, key: str, least: int = 1) -> Said[int] | None:
        """A whole number under a key."""
        text = text_of(node, key)
        return None if text is None else self.take(values.whole(text, least))

    def number(self, node: Node | None, key: str) -> Said[Fraction] | None:
        """A number under a key."""
        text = text_of(node, key)
        return None if text is None else self.take(values.number(text))

    def amount(self, node: Node | None, key: str, dimension: Dimension) -> Amount | None:
        """A length or mass under a key."""
        text = text_of(node, key)
        return None if text is None else self.take(values.amount(text, dimension))

    def word(self, node: Node | None, key: str, choices: tuple[str, ...]) -> Said[str] | None:
        """A word of a few, under a key."""
        text = text_of(node, key)
        return None if text is None or text.value not in choices else Said(text.value, text.span())

    def form(self, node: Node | None) -> Said[Form] | None:
        """How a node is worked: flat or in the round."""
        said = self.word(node, "worked", ("flat", "in the round"))
        return None if said is None else Said("flat" if said.value == "flat" else "round", said.span)

    def flag(self, node: Node | None, key: str) -> bool:
        """Whether a key says yes."""
        text = text_of(node, key)
        return text is not None and text.value in ("true", "yes")

    def texts(self, node: Node | None) -> tuple[Text, ...]:
        """The texts of a list."""
        return tuple(
            values.trimmed(item.text) for item in items_of(node) if isinstance(item, Scalar) and not item.blank
        )

    def known(self, name: Text | None, what: str, known: tuple[str, ...]) -> None:
        """Reports a name that the source does not have."""
        if name is None or name.value in known:
            return
        near = shape.nearest(name.value, known)
        hint = f"did you mean `{near}`?" if near else f"add it under `{_UNDER.get(what, what)}`"
        if near is None and known:
            hint = f"the source has {', '.join(f'`{each}`' for each in known)}"
        self.findings.append(Diagnostic.of(UNKNOWN_NAME, f"there is no {what} `{name.value}`", name.span(), hint=hint))
