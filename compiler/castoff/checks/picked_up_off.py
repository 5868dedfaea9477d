"""Stitches picked up along an edge do not suit its length.

Along a cast-on or bound-off edge one stitch is picked up in each stitch (common practice); along the side of a front, as
many as the length of the edge gives at the gauge of what is picked up. A fifth too few or too many, and the band pulls
the edge in or lets it wave.

Fires:
    sections:
      - title: Left Front
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 112 rows.
          BO all sts.
      - title: Band
        worked: flat
        work: |
          With RS facing and larger needles, pick up and knit 50 sts along left front edge. 50 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Fires:
    sections:
      - title: Cuff
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 12 rows.
          BO all sts.
      - title: Edging
        worked: flat
        work: |
          With RS facing and larger needles, pick up and knit 25 sts along cast-on edge of cuff. 25 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Left Front
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 112 rows.
          BO all sts.
      - title: Band
        worked: flat
        work: |
          With RS facing and larger needles, pick up and knit 80 sts along left front edge. 80 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.checks.evidence import Evidence, Placed
from castoff.checks.garment import Part, cast_on_of, cm, parts_of, role_of
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import PieceKnitted, SizeKnitted
from castoff.notation.syntax import PickUp

RULE = Rule("picked-up-off", "warning", __doc__ or "")

_SHARE = Fraction(1, 5)
_FEW = 3
"""So many stitches more or less close a gap or a corner."""


@dataclass(frozen=True, slots=True)
class _Suits:
    """What an edge gives: fewest and most stitches that suit it, and how that comes about."""

    least: Fraction
    most: Fraction
    sum: str

    def off(self, count: int) -> bool:
        """Whether a count is further off than the eye forgives."""
        low, high = self.least * (1 - _SHARE), self.most * (1 + _SHARE)
        return not min(low, self.least - _FEW) <= count <= max(high, self.most + _FEW)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each edge that a section picks up along, over all the sizes it hits."""
    along: dict[tuple[int, str], list[Placed]] = {}
    for placed in evidence.placed:
        if isinstance(placed.node, PickUp) and placed.node.count is not None and placed.node.edge:
            along.setdefault((placed.section, placed.node.edge), []).append(placed)
    parts: dict[int, tuple[Part, ...]] = {}
    for (section, edge), places in along.items():
        # a line that is worked again, or in some sizes only, says nothing of the whole edge
        if all(all(placed.line.sizes) for placed in places):
            yield from _edge(evidence, section, edge, places, parts)


def _edge(
    evidence: Evidence, section: int, edge: str, places: list[Placed], parts: dict[int, tuple[Part, ...]]
) -> Iterator[Diagnostic]:
    wrong: list[tuple[int, int, _Suits]] = []
    own = evidence.pattern.sections[section].piece.value
    for index, size in enumerate(evidence.knitted.sizes):
        values = [placed.node.count.values[index] for placed in places]
        if _of_front(edge) and index not in parts:
            parts[index] = parts_of(evidence, index)
        suits = _suits(parts.get(index, ()), size, own, edge)
        if suits is None or any(value is None for value in values):
            continue
        count = sum(int(value) for value in values)
        if count and suits.off(count):
            wrong.append((index, count, suits))
    if not wrong:
        return
    index, count, suits = wrong[0]
    where = f" in {evidence.sizes[index]}" if len(evidence.sizes) > 1 else ""
    low, high = round(suits.least), round(suits.most)
    wanted = f"{low}" if low == high else f"{low} to {high}"
    yield Diagnostic.of(
        RULE,
        f"{count} sts are picked up {edge}{where}, and {suits.sum} give {wanted}",
        places[0].node.span,
        sizes=[evidence.sizes[each[0]] for each in wrong] if len(wrong) < len(evidence.sizes) else (),
        hint=f"pick up about {wanted} sts{where}",
    )


def _of_front(edge: str) -> bool:
    """Whether the words name the edge of a front; its centre is what is bound off for the neck."""
    return "front" in edge and not {"neck", "center", "centre"} & set(edge.split())


def _suits(parts: tuple[Part, ...], size: SizeKnitted, own: str, edge: str) -> _Suits | None:
    at = re.search(r"cast[- ]?on|bound[- ]off|bind[- ]off|cast[- ]off", edge)
    # "along cast-on sts of little finger" speaks of a few of them, "edge" of all
    if at is not None and "edge" in edge:
        return _end(size, own, edge, at.group().startswith("cast") and "off" not in at.group())
    return _front(parts, size, own, edge) if _of_front(edge) else None


def _named(size: SizeKnitted, own: str, edge: str) -> PieceKnitted | None:
    """The piece that an edge's words name; "the cast-on edge" alone is that of the only other piece that has one."""
    words = set(re.findall(r"\w+", edge))
    named = [
        piece
        for name, piece in size.pieces.items()
        if name != own and set(re.findall(r"\w+", name.casefold())) <= words
    ]
    if named:
        return named[0] if len(named) == 1 else None
    if words & {"underarm", "thumb", "gap", "heel", "toe", "flap"}:
        return None
    others = [piece for name, piece in size.pieces.items() if name != own and cast_on_of(piece)]
    return others[0] if len(others) == 1 else None


def _end(size: SizeKnitted, own: str, edge: str, first: bool) -> _Suits | None:
    piece = _named(size, own, edge)
    if piece is None or piece.make != 1:
        return None
    if first:
        stitches, word = cast_on_of(piece), "cast-on"
    else:
        last = max((event.row for event in piece.events if event.kind == "bind off"), default=-1)
        stitches = sum(event.count for event in piece.events if event.kind == "bind off" and event.row == last)
        word = "bound-off"
    if not stitches:
        return None
    return _Suits(Fraction(stitches), Fraction(stitches), f"the {stitches} {word} sts of `{piece.name}`")


def _front(parts: tuple[Part, ...], size: SizeKnitted, own: str, edge: str) -> _Suits | None:
    """The middle edge of half a front, as far as it is straight or all the way."""
    words = set(re.findall(r"\w+", edge))
    piece = size.pieces.get(own)
    pitch = None if piece is None or not piece.records else piece.gauges.get(piece.records[0].gauge)
    if pitch is None:
        return None
    for part in parts:
        if role_of(part.name) != "front" or not set(re.findall(r"\w+", part.name.casefold())) <= words:
            continue
        outer = part.edges[0].side if len(part.edges) == 1 else None
        inner = part.sides.left if outer is part.sides.right else part.sides.right
        first = inner.steps[0].row if inner.steps else inner.rows + 1
        straight, whole = inner.length_mm(0, first - 1), inner.length_mm(0, inner.rows)
        long = cm(straight) if round(straight) == round(whole) else f"{cm(straight)} to the neck, {cm(whole)} in all,"
        return _Suits(
            Fraction(straight) / pitch[0], Fraction(whole) / pitch[0],
            f"its {long} at {float(100 / pitch[0]):g} sts to 10 cm",
        )  # fmt: skip
    return None
