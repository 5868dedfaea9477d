"""`castoff yarn`: where the length goes, per yarn and size, by both methods; and what another yarn would take.

In: a proof, or an estimate with another put-up. Out: text. Lengths are whole metres, up, so that parts need not add up to
the last metre.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from castoff.numeral import Measure, read_measure, read_numeral
from castoff.pipeline import Proof
from castoff.terminal.other_units import converted
from castoff.trade.materials import PutUp
from castoff.yarn.estimate import PART_NAMES, Amounts, Estimate
from castoff.yarn.substitute import substitute


class YarnWordsError(ValueError):
    """A put-up or a band that cannot be read."""


def show_yarn(proof: Proof) -> str:
    """The estimate of every yarn: parts and totals in metres, yards, grams and balls, per size."""
    assert proof.pattern is not None
    if not proof.estimates:
        return "no gauge is given, so no yarn can be worked out\n"
    labels = proof.pattern.sizes.labels
    return "\n".join(_yarn(estimate, labels) for estimate in proof.estimates)


def _yarn(estimate: Estimate, labels: Sequence[str]) -> str:
    yarn = estimate.yarn
    words = [yarn.key.value, *(each.value for each in (yarn.name, yarn.colour) if each is not None)]
    head = f"{words[0]}: {', '.join(words[1:])}" if len(words) > 1 else words[0]
    used = "the weighed swatch" if estimate.method == "swatch" else "plain-knit geometry"
    rows: list[list[str]] = [["", *labels]]
    for part in PART_NAMES:
        values = [dict(each.parts)[part] for each in estimate.amounts]
        if any(values):
            name = f"margin {float(estimate.margin) * 100:g} %" if part == "margin" else part
            rows.append([name, *(f"{_metres(value)} m" for value in values)])
    rows.append(["used", *(f"{_metres(each.used)} m" for each in estimate.amounts)])
    rows.append(["needed", *(f"{_metres(each.total)} m" for each in estimate.amounts)])
    rows.append(["", *(f"{_yards(each.total)} yd" for each in estimate.amounts)])
    if yarn.ball is not None:
        per_mm = float(yarn.ball.mass.value / yarn.ball.length.value)
        rows.append(["", *(f"{ceil(each.total * per_mm)} g" for each in estimate.amounts)])
        rows.append([f"balls of {yarn.ball.text.value}", *(str(estimate.balls(at)) for at in range(len(labels)))])
    if estimate.by_swatch is not None:
        rows.append(["by geometry", *(_other(plain) for plain in estimate.by_geometry)])
        pairs = zip(estimate.by_geometry, estimate.by_swatch, strict=True)
        rows.append(["  differs by", *(_difference(plain, weighed) for plain, weighed in pairs)])
    if yarn.needs is not None and yarn.needs.unit not in ("g", "kg", "oz", "lb"):
        rows.append(["stated", *("–" if each is None else f"{_metres(float(each))} m" for each in yarn.needs.values)])
    return f"{head} (by {used})\n" + "".join(f"  {line}\n" for line in _columns(rows))


def show_substitute(proof: Proof, put_up: str, band: str | None, yarn: str | None) -> str:
    """What another put-up comes to for one yarn, the first when none is named.

    put_up: "105 m / 50 g". band: stitches to 10 cm on the other yarn's band, "20" or "20-22".
    Raises YarnWordsError for words that cannot be read and for a yarn that the pattern does not have.
    """
    assert proof.pattern is not None and proof.trade is not None
    keys = [each.yarn.key.value for each in proof.estimates]
    wanted = yarn or (keys[0] if keys else "")
    if wanted not in keys:
        raise YarnWordsError(f"no yarn `{wanted}`: the yarns are {', '.join(keys)}")
    estimate = proof.estimates[keys.index(wanted)]
    gauge = proof.pattern.gauges[0]
    stitches = gauge.stitches.value * 100 / gauge.over.value
    found = substitute(estimate, read_put_up(put_up), read_band(band), stitches, proof.trade.yarn_weights)
    labels = proof.pattern.sizes.labels
    rows = [["", *labels], [f"balls of {put_up}", *(str(each) for each in found.balls)]]
    lines = [f"instead of {wanted}:", *(f"  {line}" for line in _columns(rows))]
    lines += [f"  mind: {doubt}" for doubt in found.doubts] or ["  nothing speaks against it but a swatch"]
    return "\n".join(lines) + "\n"


def read_put_up(text: str) -> PutUp:
    """ "105 m / 50 g" in either order and any units. Raises YarnWordsError."""
    parts = [read_measure(part.strip(), 0, 1) for part in text.split("/")]
    amounts = {
        part.first.dimension: part.first.in_base()[0]
        for part in parts
        if isinstance(part, Measure) and part.second is None
    }
    length, mass = amounts.get("length"), amounts.get("mass")
    if len(parts) != 2 or not length or not mass:
        raise YarnWordsError(f"`{text}` is no put-up: write it as in `105 m / 50 g`")
    return PutUp(length, mass)


def read_band(text: str | None) -> tuple[Fraction, Fraction] | None:
    """ "20" or "20-22" as lowest and highest. Raises YarnWordsError."""
    if text is None:
        return None
    ends = [read_numeral(part.strip(), 0) for part in text.replace("–", "-").split("-")]
    values = [each.value for each in ends if each is not None and each.value is not None]
    if len(values) != len(ends) or not 1 <= len(values) <= 2:
        raise YarnWordsError(f"`{text}` is no gauge of a band: write it as in `20-22`")
    return min(values), max(values)


def _metres(length_mm: float) -> int:
    return ceil(length_mm / 1000)


def _yards(length_mm: float) -> int:
    return ceil(converted(Fraction(length_mm), "mm", "yd"))


def _other(amounts: Amounts) -> str:
    return f"{_metres(amounts.total)} m"


def _difference(plain: Amounts, weighed: Amounts) -> str:
    return f"{(plain.total / weighed.total - 1) * 100:+.0f} %" if weighed.total else "–"


def _columns(rows: Sequence[Sequence[str]]) -> list[str]:
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    return [
        "  ".join(
            cell.rjust(width) if at else cell.ljust(width)
            for at, (cell, width) in enumerate(zip(row, widths, strict=True))
        )
        for row in rows
    ]
