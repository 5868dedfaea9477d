"""What a pattern is made with: gauges, swatches, yarns and needles, as a source states them.

In: entries of the node tree, and the `Reader`. Out: typed values; None for one that lacks what it cannot do without.
"""

from __future__ import annotations

from fractions import Fraction
from typing import cast

from castoff.diagnostic import Diagnostic, Rule
from castoff.model import values
from castoff.model.fields import Reader, text_of
from castoff.model.pattern import Amount, Amounts, Needle, NeedleType, PutUp, Said, StatedGauge, Swatch, Yarn
from castoff.source.node import Entry, Mapping
from castoff.span import Text

UNKNOWN_NEEDLE_SIZE = Rule(
    "needle-size-unknown",
    "error",
    """A needle size is not one that is made, or two sizes are given that are not the same.

Fires:
    needles:
      larger: {size: US 99}
Silent:
    needles:
      larger: {size: 5 mm}
""",
)


def gauge(reader: Reader, entry: Entry) -> StatedGauge | None:
    """A gauge; it says at least how many stitches, over what."""
    node = entry.value
    stitches = reader.number(node, "stitches")
    rows = reader.number(node, "rows")
    over = reader.amount(node, "over", "length")
    if stitches is None or over is None:
        return None
    stretch = text_of(node, "stretch")
    return StatedGauge(
        entry.key, stitches, rows, over, reader.form(node), text_of(node, "needles"), text_of(node, "fabric"),
        text_of(node, "note"), reader.number(node, "yarn_factor"),
        None if stretch is None else reader.take(values.share(stretch)),
    )  # fmt: skip


def swatch(reader: Reader, entry: Entry) -> Swatch | None:
    """A swatch, measured and weighed."""
    width = reader.amount(entry.value, "width", "length")
    height = reader.amount(entry.value, "height", "length")
    mass = reader.amount(entry.value, "mass", "mass")
    if width is None or height is None or mass is None:
        return None
    return Swatch(entry.key, width, height, mass)


def yarn(reader: Reader, entry: Entry) -> Yarn | None:
    """A yarn with its put-up and what is needed of it."""
    node = entry.value
    if not isinstance(node, Mapping):
        return None
    ball = text_of(node, "ball")
    put_up: PutUp | None = None if ball is None else reader.take(values.put_up(ball))
    needs = text_of(node, "needs")
    amounts: Amounts | None = None
    balls: tuple[Fraction | None, ...] | None = None
    if needs is not None and values.says_balls(needs):
        balls = reader.take(values.counts(needs, reader.sizes))
    elif needs is not None:
        mass = any(word in needs.value.split() for word in ("g", "kg", "oz", "grams"))
        amounts = reader.take(values.amounts(needs, reader.sizes, "mass" if mass else "length"))
    return Yarn(
        entry.key, text_of(node, "name"), text_of(node, "colour"), text_of(node, "weight"), text_of(node, "fibre"), put_up,
        amounts, balls, reader.whole(node, "held") or Said(1), text_of(node, "note"),
    )  # fmt: skip


def needle(reader: Reader, entry: Entry) -> Needle | None:
    """A needle of a size."""
    node = entry.value
    size = text_of(node, "size")
    length = reader.amount(node, "length", "length")
    kind = reader.word(node, "type", ("straight", "circular", "double-pointed", "cable"))
    if size is None:
        return None
    return Needle(
        entry.key, size, _diameter(reader, size), cast("Said[NeedleType] | None", kind), length, text_of(node, "note")
    )


def _diameter(reader: Reader, size: Text) -> Fraction | None:
    """A needle's millimetres: as typed, or by the table of sizes."""
    plain = values.amount(size, "length")
    if isinstance(plain, Amount) and plain.unit == "mm" and plain.twin is None:
        return plain.value
    if reader.read_needle is None:
        return None
    reading = reader.read_needle(size.value)
    if reading.fault:
        reader.findings.append(
            Diagnostic.of(UNKNOWN_NEEDLE_SIZE, reading.fault, size.span(), hint=reading.hint or None)
        )
    return None if reading.needle is None else reading.needle.mm
