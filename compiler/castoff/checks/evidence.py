"""Everything a judgement may look at: one finished pattern, from its source to its fabric.

In: what the earlier stages made of one source. Out: `Evidence`, frozen; the parts that several rules read (all texts,
all nodes of the instruction lines, the measurements worked out) are gathered once here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from castoff.checks.printed_words import Printed, printed_words
from castoff.grading.evaluate import Numbers, resolve
from castoff.knitting.fabric import Knitted
from castoff.model.pattern import Measurement, Pattern, Section
from castoff.notation.nodes import nodes_of
from castoff.notation.syntax import InstructionLine, Line, UnreadLine
from castoff.trade import Trade
from castoff.yarn.estimate import MARGIN

_HAND = re.compile(r"\b(?:left|right)\b", re.IGNORECASE)


def is_handed(section: Section) -> bool:
    """Whether a section is a left or a right one by its title or its piece: two of them mirror each other."""
    return bool(_HAND.search(section.title.value) or _HAND.search(section.piece.value))


@dataclass(frozen=True, slots=True)
class Placed:
    """A node of the syntax tree with the line and the section it stands in.

    section: index into `Pattern.sections`. line: index into that section's lines.
    """

    node: Any
    line: InstructionLine
    section: int
    line_index: int


@dataclass(frozen=True, slots=True)
class Finished:
    """A measurement with the value its `is` comes to, in exact millimetres per size; None where a size skips.

    values is None when `is` is no length or could not be worked out (grading has told why).
    """

    measurement: Measurement
    values: tuple[Fraction | None, ...] | None


@dataclass(frozen=True, slots=True)
class Evidence:
    """One pattern with everything that was made of it.

    lines: the instruction lines of every section, in the order of `pattern.sections`.
    picture_files: which of the picture files exist; None when nobody could look (a text without a folder).
    margin: share of yarn added where the pattern does not say its own.
    """

    pattern: Pattern
    numbers: Numbers
    lines: tuple[tuple[Line, ...], ...]
    knitted: Knitted
    trade: Trade
    picture_files: frozenset[str] | None = None
    margin: Fraction = MARGIN
    printed: tuple[Printed, ...] = field(init=False, repr=False)
    placed: tuple[Placed, ...] = field(init=False, repr=False)
    finished: tuple[Finished, ...] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "printed", tuple(printed_words(self.pattern)))
        object.__setattr__(self, "placed", tuple(self._place()))
        object.__setattr__(self, "finished", tuple(self._measure()))

    def _place(self) -> Iterator[Placed]:
        for section, lines in enumerate(self.lines):
            for index, line in enumerate(lines):
                if isinstance(line, InstructionLine):
                    for step in line.steps:
                        for node in nodes_of(step):
                            yield Placed(node, line, section, index)

    def _measure(self) -> Iterator[Finished]:
        for measurement in self.pattern.measurements:
            resolved = resolve(measurement.expression, self.numbers).value
            known = resolved is not None and resolved.kind == "length"
            yield Finished(measurement, resolved.values if known and resolved is not None else None)

    def unsure(self, size: int, *names: str) -> bool:
        """Whether an error was found while these pieces or sections were knitted (any piece at all when none is named), so
        that their counts and lengths need not be those that are meant."""
        knitted = self.knitted.sizes[size]
        owners = {section.title: section.piece for section in knitted.sections}
        pieces = [owners.get(name, name) if name not in knitted.pieces else name for name in names] or [*knitted.pieces]
        return any(name in knitted.pieces and knitted.pieces[name].unsure for name in pieces)

    @property
    def unread(self) -> bool:
        """Whether a line could not be read, so that nobody knows what it uses."""
        return any(isinstance(line, UnreadLine) for lines in self.lines for line in lines)

    @property
    def sizes(self) -> tuple[str, ...]:
        """Names of the sizes."""
        return self.pattern.sizes.labels
