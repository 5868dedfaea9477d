"""An opening does not pass over the hand or the foot.

Takes the edge that a hand or foot goes in at: the lower edge of a sleeve, the wider end of a mitt or sock. It may stretch
by half (or by the `stretch` of its gauge), and must pass the hand or foot that the source gives under `sizes: body:` or
names a table for (`body.hand`, `body.foot`).

Fires:
    sizes: {names: "S (M)", body: {hand: "18 (20) cm"}}
    sections:
      - title: Sleeve
        worked: in the round
        work: |
          With larger needles, CO 22 (24) sts. Place marker and join to work in the round.
          Knit 8 rnds.
          BO all sts.
    measurements: {cuff: {label: Cuff, is: 11 (12) cm}}

Silent:
    sizes: {names: "S (M)", body: {hand: "18 (20) cm"}}
    sections:
      - title: Sleeve
        worked: in the round
        work: |
          With larger needles, CO 28 (30) sts. Place marker and join to work in the round.
          Knit 8 rnds.
          BO all sts.
    measurements: {cuff: {label: Cuff, is: 14 (15) cm}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from castoff.checks.evidence import Evidence
from castoff.checks.garment import cast_on_of, cm
from castoff.checks.openings import body_mm, stretch_at
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import PieceKnitted

RULE = Rule("cuff-too-small", "warning", __doc__ or "")

_THROUGH = (
    (("sleeve",), ("hand", "palm")),
    (("mitt", "mitten", "glove"), ("hand", "palm")),
    (("sock", "stocking"), ("foot", "foot_circumference")),
)
"""Pieces, and the names of what goes through them."""


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each piece, over all the sizes it hits."""
    for name in evidence.pattern.pieces:
        words = [word.removesuffix("s") for word in re.findall(r"\w+", name.casefold())]
        for pieces, bodies in _THROUGH:
            if any(word in pieces for word in words):
                yield from _opening(evidence, name, bodies, "sleeve" in words)


def _opening(evidence: Evidence, name: str, bodies: tuple[str, ...], sleeve: bool) -> Iterator[Diagnostic]:
    wrong: list[tuple[int, int, Fraction, Fraction, Fraction, str]] = []
    for index, size in enumerate(evidence.knitted.sizes):
        piece = size.pieces.get(name)
        known = [(body, mm) for body in bodies if (mm := body_mm(evidence, body, index)) is not None]
        edge = None if piece is None else _edge(piece, sleeve)
        if edge is None or not known:
            continue
        stitches, width, gauge = edge
        stretch = stretch_at(evidence, gauge)
        if width * (1 + stretch) < known[0][1]:
            wrong.append((index, stitches, width, stretch, known[0][1], known[0][0]))
    if not wrong:
        return
    index, stitches, width, stretch, body, called = max(wrong, key=lambda each: each[4] - each[2])
    where = f" in {evidence.sizes[index]}" if len(evidence.sizes) > 1 else ""
    section = next(each for each in evidence.pattern.sections if each.piece.value == name)
    yield Diagnostic.of(
        RULE,
        f"the edge of `{name}` has {stitches} sts, {cm(width)} round{where}; stretched by {float(stretch):.0%} they are "
        f"{cm(width * (1 + stretch))}, and `body.{called}` is {cm(body)}",
        section.title.span(),
        sizes=[evidence.sizes[each[0]] for each in wrong] if len(wrong) < len(evidence.sizes) else (),
        hint=f"at least {ceil(body / (1 + stretch) / (width / stitches))} sts pass over it",
    )


def _edge(piece: PieceKnitted, sleeve: bool) -> tuple[int, Fraction, str | None] | None:
    """Stitches, width and gauge of the edge that is put on first; None when that cannot be said."""
    rows = [record for record in piece.records.folded() if not record.short]
    if not rows:
        return None
    ends = [(rows[-1].after, rows[-1].gauge)]
    if cast_on_of(piece):
        # the first row's gauge is that of the edge, whatever needle the stitches were cast on with
        ends.insert(0, (cast_on_of(piece), rows[0].gauge))
    measured = [(sts, sts * piece.gauges[gauge][0], gauge) for sts, gauge in ends if sts and gauge in piece.gauges]
    if not measured:
        return None
    return measured[0] if sleeve else max(measured, key=lambda each: each[1])
