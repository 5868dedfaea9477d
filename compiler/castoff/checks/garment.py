"""The parts of a garment that are sewn to each other: armholes, shoulders, side seams, sleeve caps.

In: the evidence. Out: for one size, the `Part`s of the garment with their edges measured from the fabric, and the line of
the source that tells to sew them. Back, fronts and sleeves are known by the names of their pieces; a piece worked in the
round, or one whose edges cannot be told apart, is left out, and nothing is said of it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from castoff.checks.evidence import Evidence
from castoff.knitting.edges import Side, Sides, sides_of
from castoff.knitting.fabric import PieceKnitted
from castoff.notation.syntax import Finish, Graft, Seam
from castoff.span import Span

Role = Literal["back", "front", "sleeve"]
_OTHER = ("band", "neck", "collar", "pocket", "facing", "placket", "yoke", "hood", "cuff")
_SHORTEST_ARMHOLE_MM = 50
"""Less than 5 cm above a bind-off is a shoulder or a neck, no armhole: of the published tables, the smallest armhole is
8 cm deep (babies, 3 months)."""


@dataclass(frozen=True, slots=True)
class Edge:
    """One side of a part, in rows of its piece: the seam below, the armhole or cap, and the shoulder.

    armhole: the first row of the armhole or cap; None when there is none. shoulder: the first row of the shoulder.
    shoulder_sts: stitches bound off for it in the rows, the last bind-off not counted.
    """

    side: Side
    armhole: int | None
    shoulder: int
    shoulder_sts: Fraction

    @property
    def seam_mm(self) -> float:
        """From the lower edge to the armhole."""
        return self.side.length_mm(0, self.side.rows if self.armhole is None else self.armhole - 1)

    @property
    def armhole_mm(self) -> float | None:
        """Along the armhole or the slope of a cap."""
        return None if self.armhole is None else self.side.length_mm(self.armhole - 1, self.shoulder - 1)


@dataclass(frozen=True, slots=True)
class Part:
    """A back, a front or a sleeve. edges: those that are sewn to other parts. sides: both, as knitted."""

    role: Role
    piece: PieceKnitted
    sides: Sides
    edges: tuple[Edge, ...]

    @property
    def name(self) -> str:
        """Its name in the source."""
        return self.piece.name

    @property
    def stitch_mm(self) -> Fraction:
        """Width of a stitch in its last rows."""
        return self.piece.gauges[self.piece.records[-1].gauge][0]

    @property
    def row_mm(self) -> Fraction:
        """Height of its last row."""
        return self.piece.records[-1].height_mm

    @property
    def shoulder_mm(self) -> Fraction | None:
        """Width of one shoulder; None when none was bound off."""
        if self.role == "sleeve" or not self.edges:
            return None
        stitches = self.edges[0].shoulder_sts
        if self.sides.divided:
            stitches += Fraction(self.sides.top, 2)
        elif len(self.edges) == 1:
            stitches += self.sides.top
        return stitches * self.stitch_mm or None


def parts_of(evidence: Evidence, size: int) -> tuple[Part, ...]:
    """The parts of the garment in one size, in the order of the source."""
    found: list[Part] = []
    for name, piece in evidence.knitted.sizes[size].pieces.items():
        role = role_of(name)
        if role is None or not piece.records:
            continue
        sides = sides_of(piece, evidence.trade.stitches)
        if sides is not None:
            found.append(Part(role, piece, sides, _edges(role, piece, sides)))
    return tuple(found)


def role_of(name: str) -> Role | None:
    """What a piece is by its name."""
    words = re.findall(r"\w+", name.casefold())
    if any(word.startswith(other) or word.endswith(other) for word in words for other in _OTHER):
        return None
    for role in ("sleeve", "back", "front"):
        if any(word in (role, role + "s") for word in words):
            return role
    return None


def _edges(role: Role, piece: PieceKnitted, sides: Sides) -> tuple[Edge, ...]:
    both = tuple(_edge(role, piece, side) for side in (sides.right, sides.left))
    if role != "front" or sides.divided or not _is_half(piece.name):
        return both
    # half a front: the armhole is where stitches are bound off, the other edge is the middle
    bound = [sum((step.lost for step in edge.side.steps if step.bound), Fraction(0)) for edge in both]
    if bound[0] == bound[1]:
        return ()
    return (both[0] if bound[0] > bound[1] else both[1],)


def _is_half(name: str) -> bool:
    return any(word in name.casefold() for word in ("left", "right"))


def _edge(role: Role, piece: PieceKnitted, side: Side) -> Edge:
    bound = [step for step in side.steps if step.bound and step.lost > 0]
    if role == "sleeve":
        return Edge(side, bound[0].row if bound else None, side.rows + 1, Fraction(0))
    shoulder: list[Fraction] = []
    first = side.rows + 1
    for step in reversed(bound):
        # bind-offs at one edge are two rows apart; the last is within two rows of the top
        if first - step.row > (3 if first > side.rows else 2):
            break
        first = step.row
        shoulder.append(step.lost)
    marked = piece.landmarks.get("armhole")
    if marked is not None:
        armhole: int | None = marked[0] + 1
    else:
        below = [step for step in bound if step.row < first]
        deep = bool(below) and side.heights[-1] - below[0].height_mm >= _SHORTEST_ARMHOLE_MM
        armhole = below[0].row if deep else None
    return Edge(side, armhole, first, sum(shoulder, Fraction(0)))


def cast_on_of(piece: PieceKnitted) -> int:
    """Stitches that a piece is cast on with; 0 when it begins with picked-up or held ones."""
    return sum(edge.stitches for edge in piece.edges if edge.kind == "cast on" and edge.rows == 0)


def told_to(evidence: Evidence, *words: str) -> Span | None:
    """The first making-up line that holds all of some words (regular expressions); None when no line does."""
    for placed in evidence.placed:
        node = placed.node
        if isinstance(node, (Seam, Finish, Graft)):
            said = making_up_words(node)
            if all(re.search(word, said) for word in words):
                return node.span
    return None


def making_up_words(node: Seam | Finish | Graft) -> str:
    """What a making-up line says, lower case."""
    if isinstance(node, Finish):
        return node.words.casefold()
    return " to ".join((node.manner, *(node.edges if isinstance(node, Seam) else node.parts))).casefold()


def cm(millimetres: float | Fraction) -> str:
    """A length for a message, to a millimetre: "44.7 cm"."""
    return f"{float(millimetres) / 10:.1f}".removesuffix(".0") + " cm"
