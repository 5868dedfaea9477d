"""Two edges that are sewn together are not equally long.

Where a line tells to sew side, shoulder or raglan seams, the edges of back and fronts are measured along their rows and
slopes and held against each other; where a ring is closed, its first edge against its last. A slip of a few rows is eased
in without a thought; more than that, and the seam puckers or one end hangs lower.

Fires:
    measurements: {width: {label: Width, is: 35 cm}}
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 52 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Finishing
        piece: Jumper
        work: |
          Sew shoulder and side seams.

Fires:
    measurements: {width: {label: Width, is: 35 cm}}
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 12 sts at beg of next 2 rows. 36 sts.
          BO all sts.
      - title: Finishing
        piece: Jumper
        work: |
          Sew shoulder seams.

Fires:
    measurements: {width: {label: Width, is: 35 cm}}
    sections:
      - title: Cowl
        worked: flat
        work: |
          With larger needles, CO 40 sts.
          Work in st st for 90 rows.
          Dec row: K1, ssk, k to last 3 sts, k2tog, k1. 38 sts.
          Rep dec row every other row 3 more times. 32 sts.
          BO all sts.
          Sew cast-on edge to bound-off edge.

Silent:
    measurements: {width: {label: Width, is: 35 cm}}
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Finishing
        piece: Jumper
        work: |
          Sew shoulder and side seams.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations

from castoff.checks.evidence import Evidence
from castoff.checks.garment import Part, cast_on_of, cm, making_up_words, parts_of, told_to
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.edges import Side
from castoff.notation.syntax import Seam
from castoff.span import Span

RULE = Rule("seam-edges-differ", "warning", __doc__ or "")

# ours: what easing hides along a seam, as a share of it and at least
_SHARE, _LEAST_MM = 0.04, 15.0
_SHOULDER_SHARE, _SHOULDER_LEAST_MM = 0.05, 8.0


@dataclass(frozen=True, slots=True)
class _Pair:
    """Two edges in one size, in millimetres, with the names of their parts."""

    size: int
    names: tuple[str, str]
    lengths: tuple[float, float]

    @property
    def gap_mm(self) -> float:
        """How far they are apart."""
        return abs(self.lengths[0] - self.lengths[1])


_Edges = Callable[[tuple[Part, ...]], Iterator[tuple[str, float]]]


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each kind of seam and pair of parts, over all the sizes it hits."""
    # "leaving the lower 10 cm open" and the like mean edges that are not sewn in full
    seams: tuple[tuple[str, Span | None, _Edges, float, float], ...] = (
        ("side seam", told_to(evidence, r"\bsides?\b(?! of)", r"^(?!.*leav)"), _side_seams, _SHARE, _LEAST_MM),
        (
            "shoulder", told_to(evidence, r"\bshoulders?\b", r"^(?!.*(armhole|sleeve))"), _shoulders,
            _SHOULDER_SHARE, _SHOULDER_LEAST_MM,
        ),
        ("raglan edge", told_to(evidence, r"\braglans?\b"), _raglans, _SHARE, _LEAST_MM),
    )  # fmt: skip
    if any(span is not None for _, span, *_ in seams):
        parts = [parts_of(evidence, size) for size in range(len(evidence.sizes))]
        for what, span, edges, share, least in seams:
            if span is not None:
                yield from _compared(evidence, parts, span, what, edges, share, least)
    yield from _rings(evidence)


def _compared(
    evidence: Evidence,
    parts: list[tuple[Part, ...]],
    span: Span,
    what: str,
    edges: _Edges,
    share: float,
    least: float,
) -> Iterator[Diagnostic]:
    apart: dict[tuple[str, str], list[_Pair]] = {}
    for size, known in enumerate(parts):
        backs = any(part.role == "back" for part in known)
        fronts = {part.name for part in known if part.role == "front"}
        for one, other in combinations(edges(known), 2):
            # both fronts are held against the back already
            if backs and one[0] in fronts and other[0] in fronts:
                continue
            pair = _Pair(size, (one[0], other[0]), (one[1], other[1]))
            if pair.names[0] != pair.names[1] and pair.gap_mm > max(least, share * max(pair.lengths)):
                apart.setdefault(pair.names, []).append(pair)
    for names, pairs in apart.items():
        worst = max(pairs, key=lambda pair: pair.gap_mm)
        where = f" in {evidence.sizes[worst.size]}" if len(evidence.sizes) > 1 else ""
        longer = names[0] if worst.lengths[0] > worst.lengths[1] else names[1]
        yield Diagnostic.of(
            RULE,
            f"the {what} of `{names[0]}` is {cm(worst.lengths[0])} {'wide' if what == 'shoulder' else 'long'} "
            f"and that of `{names[1]}` {cm(worst.lengths[1])}{where}: {cm(worst.gap_mm)} apart",
            span,
            sizes=_sizes(evidence, [pair.size for pair in pairs]),
            hint=_way_out(parts[worst.size], worst, what, longer),
        )


def _way_out(parts: tuple[Part, ...], pair: _Pair, what: str, longer: str) -> str:
    part = next(part for part in parts if part.name == pair.names[0])
    if what == "shoulder":
        return f"narrow that of `{longer}` or widen the other, by {round(pair.gap_mm / float(part.stitch_mm))} sts"
    return f"shorten `{longer}` or lengthen the other, by about {round(pair.gap_mm / float(part.row_mm))} rows"


def _sizes(evidence: Evidence, sizes: list[int]) -> list[str]:
    return [evidence.sizes[size] for size in sizes] if len(sizes) < len(evidence.sizes) else []


def _side_seams(parts: tuple[Part, ...]) -> Iterator[tuple[str, float]]:
    for part in parts:
        if part.role != "sleeve" and part.edges and all(edge.armhole is not None for edge in part.edges):
            yield part.name, sum(edge.seam_mm for edge in part.edges) / len(part.edges)


def _shoulders(parts: tuple[Part, ...]) -> Iterator[tuple[str, float]]:
    for part in parts:
        width = part.shoulder_mm
        if width is not None:
            yield part.name, float(width)


def _raglans(parts: tuple[Part, ...]) -> Iterator[tuple[str, float]]:
    for part in parts:
        starts = [(edge.side, _raglan(edge.side)) for edge in part.edges]
        slopes = [side.length_mm(first - 1, side.rows) for side, first in starts if first is not None]
        if slopes:
            yield part.name, sum(slopes) / len(slopes)


def _raglan(side: Side) -> int | None:
    """The row in which the raglan begins: the first that loses stitches and is followed by no gain."""
    first: int | None = None
    for step in side.steps:
        if step.lost < 0:
            first = None
        elif first is None:
            first = step.row
    return first if first is not None and first < side.rows else None


def _rings(evidence: Evidence) -> Iterator[Diagnostic]:
    for placed in evidence.placed:
        node = placed.node
        if not isinstance(node, Seam):
            continue
        words = making_up_words(node)
        if not (re.search(r"cast[- ]?on", words) and re.search(r"bound[- ]off|bind[- ]off|cast[- ]off", words)):
            continue
        name = evidence.pattern.sections[placed.section].piece.value
        wrong: list[tuple[int, int, int]] = []
        for index, size in enumerate(evidence.knitted.sizes):
            piece = size.pieces.get(name)
            first = 0 if piece is None else cast_on_of(piece)
            if piece is None or not first or not piece.records:
                continue
            last = max((event.row for event in piece.events if event.kind == "bind off"), default=-1)
            bound = sum(event.count for event in piece.events if event.kind == "bind off" and event.row == last)
            if bound and last >= piece.rows - 1 and abs(bound - first) > max(2, first / 20):
                wrong.append((index, first, bound))
        if wrong:
            index, first, end = max(wrong, key=lambda each: abs(each[1] - each[2]))
            where = f" in {evidence.sizes[index]}" if len(evidence.sizes) > 1 else ""
            yield Diagnostic.of(
                RULE,
                f"`{name}` begins with {first} sts and ends with {end}{where}, and the two edges are sewn together",
                node.span,
                sizes=_sizes(evidence, [each[0] for each in wrong]),
                hint=f"end with {first} sts, or cast on {end}",
            )
