"""Stitches are picked up in an order that the other side of the fabric has to face for.

A row goes from right to left. With the right side facing, stitches are therefore picked up down the left front and up the
right one, as they are worn, and the parts of a neck come in the order left front, right front, back; with the wrong side
facing it is the other way round. Where the printed side and the printed order contradict each other, the knitter cannot
follow both.

Fires:
    sections:
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 112 rows.
          BO all sts.
      - title: Neckband
        worked: flat
        work: |
          With WS facing and larger needles, pick up and knit 20 sts down left front and 20 sts up right front. 40 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 112 rows.
          BO all sts.
      - title: Neckband
        worked: flat
        work: |
          With RS facing and larger needles, pick up and knit 20 sts down left front and 20 sts up right front. 40 sts.
          Knit 5 rows.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import PickUp, PickUpRow, Side, WorkHeld

RULE = Rule("picked-up-the-wrong-way", "error", __doc__ or "")

_WAY = re.compile(r"\b(up|down)\b.*\b(left|right)\b")
_PART = re.compile(r"\b(left|right|back)\b")
_ELSEWHERE = re.compile(r"\b(armholes?|sleeves?|back|pockets?)\b")
"""Edges that are not those of a front, so that up and down say something else."""
_ROUND_THE_NECK = ("left", "right", "back")
"""The parts of a neck in the order in which they come with the right side facing, from any one of them on."""


@dataclass(frozen=True, slots=True)
class Way:
    """The side that the printed order needs, and the words that say so."""

    side: Side
    because: str


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each row of picking up whose side and order contradict each other."""
    for placed in evidence.placed:
        step = placed.node
        if not isinstance(step, PickUpRow) or step.side is None:
            continue
        way = way_of(step)
        if way is not None and way.side != step.side:
            yield Diagnostic.of(
                RULE,
                f"picked up with {step.side} facing, and {way.because} comes with {way.side} facing",
                step.span,
                hint=f"`With {way.side} facing`, or the edges in the other order",
            )


def way_of(step: PickUpRow) -> Way | None:
    """The side that has to face for the order of the edges; None when it does not show, or contradicts itself."""
    ways = [way for part in step.parts if isinstance(part, PickUp) and (way := _by_words(part.edge)) is not None]
    order = _by_order([part.edge if isinstance(part, PickUp) else part.holder or "" for part in _parts(step)])
    if order is not None:
        ways.append(order)
    return ways[0] if ways and len({way.side for way in ways}) == 1 else None


def _parts(step: PickUpRow) -> list[PickUp | WorkHeld]:
    return [part for part in step.parts if isinstance(part, (PickUp, WorkHeld))]


def _by_words(edge: str) -> Way | None:
    """ "down left front neck"."""
    found = _WAY.search(edge)
    if found is None or _ELSEWHERE.search(edge):
        return None
    side: Side = "RS" if (found[1] == "down") == (found[2] == "left") else "WS"
    return Way(side, f"`{edge}`")


def _by_order(edges: Sequence[str]) -> Way | None:
    """Left front, right front and back in their order, each met once."""
    met: list[str] = []
    for edge in edges:
        parts = _PART.findall(edge)
        if parts and (not met or met[-1] != parts[-1]):
            met.append(parts[-1])
        if len(parts) > 1:
            return None
    if len(met) == len(_ROUND_THE_NECK) + 1 and met[0] == met[-1]:
        met.pop()
    if sorted(met) != sorted(_ROUND_THE_NECK):
        return None
    at = _ROUND_THE_NECK.index(met[0])
    side: Side = "RS" if met[1] == _ROUND_THE_NECK[(at + 1) % len(_ROUND_THE_NECK)] else "WS"
    return Way(side, f"the order {', '.join(met)}")
