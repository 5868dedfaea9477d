"""Every text of a source that ends up in print, one after another.

In: a `Pattern`. Out: `Printed` texts, each with the kind of place it stands in, in the order of the model.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from castoff.model.pattern import Pattern
from castoff.span import Text

Where = Literal[
    "front", "body", "gauge", "swatch", "yarn", "needle", "notion", "formula", "stitch pattern", "title", "work",
    "notes", "measurement", "picture", "end", "history",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Printed:
    """A text and the kind of place it stands in; `section` is the index of its section, None outside sections."""

    where: Where
    text: Text
    section: int | None = None


def printed_words(pattern: Pattern) -> Iterator[Printed]:
    """All texts of the source but its keys, the names of its sizes, and what the author accepts under `allow`."""
    for where, text in _texts(pattern):
        if text is not None and text.value.strip():
            yield Printed(where, text)
    for index, section in enumerate(pattern.sections):
        parts: tuple[tuple[Where, Text | None], ...] = (
            ("title", section.title), ("notes", section.notes), ("work", section.begins), ("work", section.work),
        )  # fmt: skip
        for where, text in parts:
            if text is not None and text.value.strip():
                yield Printed(where, text, index)


def _texts(pattern: Pattern) -> Iterator[tuple[Where, Text | None]]:
    for text in (pattern.title, pattern.designer, pattern.studio, pattern.summary):
        yield "front", text
    for body in pattern.sizes.body:
        yield "body", body.amounts.text
    for gauge in pattern.gauges:
        yield "gauge", gauge.over.text
        yield "gauge", gauge.fabric
        yield "gauge", gauge.note
    for swatch in pattern.swatches:
        for amount in (swatch.width, swatch.height, swatch.mass):
            yield "swatch", amount.text
    yield from _materials(pattern)
    for number in pattern.numbers:
        yield "formula", number.formula
    for stitch_pattern in pattern.stitch_patterns:
        yield "stitch pattern", stitch_pattern.rows
        yield "notes", stitch_pattern.note
    for stitch in pattern.stitches:
        yield "front", stitch.words
        yield "front", stitch.how
    for abbreviation in pattern.abbreviations:
        yield "front", abbreviation.words
    for measurement in pattern.measurements:
        yield "measurement", measurement.label
        yield "measurement", measurement.expression
        yield "measurement", measurement.note
    for picture in pattern.pictures:
        for text in (picture.alt, picture.credit, picture.caption):
            yield "picture", text
    for caution in pattern.cautions:
        yield "end", caution
    yield "notes", pattern.notes
    for text in (pattern.care, pattern.help, pattern.terms_of_use):
        yield "end", text
    for change in pattern.history:
        yield "history", change.change


def _materials(pattern: Pattern) -> Iterator[tuple[Where, Text | None]]:
    for yarn in pattern.yarns:
        for text in (yarn.name, yarn.colour, yarn.weight, yarn.fibre, yarn.note):
            yield "yarn", text
        if yarn.ball is not None:
            yield "yarn", yarn.ball.text
        if yarn.needs is not None:
            yield "yarn", yarn.needs.text
    for needle in pattern.needles:
        yield "needle", needle.size
        yield "needle", needle.length.text if needle.length is not None else None
        yield "needle", needle.note
    for notion in pattern.notions:
        yield "notion", notion
