"""Inline text: what a line says, with what it knows of numbers per size, measures and short forms.

In: nothing, these are values. Out: `Inline` and its kinds. `plain_text` is the one definition of what inline text says; a
renderer that prints something else has a fault.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

NO_BREAK_SPACE = "\u00a0"
SKIPPED = "–"
"""What stands in a size list for a size that skips (an en dash)."""


@dataclass(frozen=True, slots=True)
class Text:
    """Running text, typographically ready: real fractions (½), primes and quotes. Fractions are single
    characters."""

    text: str


@dataclass(frozen=True, slots=True)
class Strong:
    """Text that must not be overlooked."""

    inline: Inlines


@dataclass(frozen=True, slots=True)
class Emphasis:
    """Text with a light stress; large print sets it bold, since it has no italics."""

    inline: Inlines


@dataclass(frozen=True, slots=True)
class Abbreviation:
    """A short form: `text` is printed, `expansion` is what a screen reader says ("st" for "stitch")."""

    text: str
    expansion: str


@dataclass(frozen=True, slots=True)
class StitchTerm:
    """A stitch in shorthand ("k2tog") and in words ("knit two stitches together")."""

    text: str
    expansion: str


@dataclass(frozen=True, slots=True)
class SizeList:
    """One number per size, `84 (92, 100, 108)`.

    values: ready strings, first size first, one per size; `SKIPPED` where a size skips. Never empty.
    names: the sizes' names, as many as values, for readers that announce them; may be empty.
    shown: index of the only size shown (a one-size edition), or None for all of them.
    groups: how many numbers stand in each bracket after the first number; empty means one bracket. They add
        up to len(values) - 1. See `size_groups` for the house's rule.
    unit: printed once behind the last bracket, joined so that no line ends between ("cm"), or "".
    """

    values: tuple[str, ...]
    names: tuple[str, ...] = ()
    shown: int | None = None
    groups: tuple[int, ...] = ()
    unit: str = ""

    def __post_init__(self) -> None:
        if not self.values:
            raise ValueError("a size list needs a value")
        if self.groups and sum(self.groups) != len(self.values) - 1:
            raise ValueError(f"groups {self.groups} do not add up to {len(self.values) - 1} values")

    @property
    def parts(self) -> tuple[str, ...]:
        """The list in pieces that must stay whole, in order: "84", "(92,", "100,", "108) cm". A line may end
        between pieces, never inside one; joined with single spaces they are the text of the list."""
        if self.shown is not None:
            return (self._with_unit(self.values[self.shown]),)
        if len(set(self.values)) == 1:
            return (self._with_unit(self.values[0]),)
        parts = [self.values[0]]
        at = 1
        for length in self.groups or (len(self.values) - 1,):
            group = self.values[at : at + length]
            at += length
            for index, value in enumerate(group):
                opening = "(" if index == 0 else ""
                closing = ")" if index == len(group) - 1 else ","
                parts.append(f"{opening}{value}{closing}")
        parts[-1] = self._with_unit(parts[-1])
        return tuple(parts)

    def _with_unit(self, text: str) -> str:
        return f"{text}{NO_BREAK_SPACE}{self.unit}" if self.unit else text


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number and its unit, never parted at a line's end ("10 cm", "8¼ in"). `glue` stands between them."""

    number: str
    unit: str
    glue: str = NO_BREAK_SPACE


@dataclass(frozen=True, slots=True)
class Pair:
    """A measure in both systems, "20 cm / 8 in". A reader who may choose is shown one of them.

    metric, imperial: the measure in each. first: the system that stands first. glue: what stands between.
    """

    metric: Inlines
    imperial: Inlines
    first: Literal["metric", "imperial"] = "metric"
    glue: str = f"{NO_BREAK_SPACE}/ "

    @property
    def inline(self) -> Inlines:
        """Both, one behind the other, as they are printed."""
        one, other = (self.metric, self.imperial) if self.first == "metric" else (self.imperial, self.metric)
        return (*one, Text(self.glue), *other)


@dataclass(frozen=True, slots=True)
class NoBreak:
    """Inline text that stays on one line."""

    inline: Inlines


@dataclass(frozen=True, slots=True)
class LineBreak:
    """The end of a line inside a paragraph."""


@dataclass(frozen=True, slots=True)
class Link:
    """Text that leads somewhere.

    target: an address ("https://…", "mailto:…") or "#key" of a block in this document.
    description: what the link is, in words, for readers who hear it out of its sentence; empty means the
        text says it.
    """

    inline: Inlines
    target: str
    description: str = ""


Inline: TypeAlias = (
    Text | Strong | Emphasis | Abbreviation | StitchTerm | SizeList | Quantity | Pair | NoBreak | LineBreak | Link
)
Inlines: TypeAlias = tuple[Inline, ...]


def plain_text(inline: Inlines) -> str:
    """What inline text says, as one string; line breaks become newlines, no-break spaces stay."""
    return "".join(_says(node) for node in inline)


def _says(node: Inline) -> str:
    match node:
        case Text() | Abbreviation() | StitchTerm():
            return node.text
        case SizeList():
            return " ".join(node.parts)
        case Quantity():
            return f"{node.number}{node.glue}{node.unit}"
        case LineBreak():
            return "\n"
        case _:
            return plain_text(node.inline)


def size_groups(count: int) -> tuple[int, ...]:
    """The house's brackets for `count` sizes: up to six sizes one bracket, beyond that brackets of three
    (the last of two to four), so that the eye finds a number by its bracket. Common practice."""
    rest = count - 1
    if count <= 6:
        return (rest,) if rest else ()
    groups = [3] * (rest // 3)
    left = rest % 3
    if left == 1:
        groups[-1] += 1
    elif left == 2:
        groups.append(2)
    return tuple(groups)
