"""A neck does not pass over the head.

Takes the narrowest row of a neckband or collar that is worked in the round, lets it stretch by half (or by the `stretch`
of its gauge), and holds it against the head: `body.head` where the source gives it, else the smallest head that the
published table has for the audience. A pattern with a left and a right front opens in the middle and is left alone.

Fires:
    sections:
      - title: Neckband
        worked: in the round
        work: |
          With larger needles, CO 60 sts. Place marker and join to work in the round.
          Knit 8 rnds.
          BO all sts.
    measurements: {neck: {label: Neck, is: 30 cm}}

Silent:
    sections:
      - title: Neckband
        worked: in the round
        work: |
          With larger needles, CO 80 sts. Place marker and join to work in the round.
          Knit 8 rnds.
          BO all sts.
    measurements: {neck: {label: Neck, is: 40 cm}}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from castoff.checks.evidence import Evidence
from castoff.checks.garment import cm
from castoff.checks.openings import body_mm, smallest_head_mm, stretch_at
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import OutlineStep, PieceKnitted

RULE = Rule("neck-too-small", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each neck, over all the sizes it hits."""
    names = [name.casefold() for name in evidence.pattern.pieces]
    if any("front" in name and ("left" in name or "right" in name) for name in names):
        return
    for name in evidence.pattern.pieces:
        if any(word in name.casefold() for word in ("neck", "collar")):
            yield from _neck(evidence, name)


def _neck(evidence: Evidence, name: str) -> Iterator[Diagnostic]:
    wrong: list[tuple[int, OutlineStep, Fraction, Fraction, str]] = []
    for index, size in enumerate(evidence.knitted.sizes):
        piece = size.pieces.get(name)
        narrow = None if piece is None else _narrowest(piece)
        if piece is None or narrow is None or narrow.width_mm is None:
            continue
        own = body_mm(evidence, "head", index)
        standard = smallest_head_mm(evidence)
        if own is None and standard is None:
            continue
        head, whose = (own, "`body.head`") if own is not None else standard or (Fraction(0), "")
        stretch = stretch_at(evidence, _gauge(piece, narrow))
        if narrow.width_mm * (1 + stretch) < head:
            said = whose if own is not None else f"the smallest head for this audience (`{whose}`)"
            wrong.append((index, narrow, head, stretch, said))
    if not wrong:
        return
    index, narrow, head, stretch, said = max(wrong, key=lambda each: each[2] - (each[1].width_mm or 0))
    width = narrow.width_mm or Fraction(0)
    where = f" in {evidence.sizes[index]}" if len(evidence.sizes) > 1 else ""
    section = next(each for each in evidence.pattern.sections if each.piece.value == name)
    stitches = ceil(head / (1 + stretch) / (width / narrow.stitches))
    yield Diagnostic.of(
        RULE,
        f"`{name}` has {narrow.stitches} sts, {cm(width)} round{where}; stretched by {float(stretch):.0%} they are "
        f"{cm(width * (1 + stretch))}, and {said} measures {cm(head)}",
        section.title.span(),
        sizes=[evidence.sizes[each[0]] for each in wrong] if len(wrong) < len(evidence.sizes) else (),
        hint=f"at least {stitches} sts pass over it, or state the gauge's `stretch`",
    )


def _narrowest(piece: PieceKnitted) -> OutlineStep | None:
    rounds = [step for step in piece.outline if step.form == "round" and step.width_mm and step.stitches]
    return min(rounds, key=lambda step: step.width_mm or 0, default=None)


def _gauge(piece: PieceKnitted, step: OutlineStep) -> str | None:
    return next((record.gauge for record in piece.records if record.row == step.row), None)
