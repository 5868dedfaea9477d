"""A row as the eye sees it: shaping, markers and stretches like posts, and the plain stitches that stand between them.

In: nothing. Out: frozen `RowShape`s; `shape_reading.py` reads them from the acts of a row, `symmetry.py` and `answering.py`
hold them against themselves and each other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from castoff.knitting.faults import ENDS_UNLIKE, Fault, fault
from castoff.span import Span

MIRROR = {
    "k2tog": "ssk", "ssk": "k2tog", "m1l": "m1r", "m1r": "m1l", "p2tog": "ssp", "ssp": "p2tog", "k3tog": "sssk",
    "sssk": "k3tog", "m1lp": "m1rp", "m1rp": "m1lp", "yo": "yo", "m1": "m1", "m1p": "m1p",
}  # fmt: skip
"""Shaping and what answers it at the other end."""
UPRIGHT = frozenset(("yo", "m1", "m1p"))
"""Shaping that leans to neither side, so that any two of it answer each other."""
CENTRED = frozenset(("sk2p", "s2kp", "s2pp"))
"""Double decreases that a motif may stand about."""
SLIPPED = "sl"


@dataclass(frozen=True, slots=True)
class Post:
    """What stands between plain stitches.

    kind: a shaping stitch by its mirror's name, "marker", "on" (a stretch worked as far as a place), "repeat", or any other
    stitch by its own name. stitch: of a stretch that is all of one stitch. end: the stretch goes to the end of the row.
    """

    kind: str
    span: Span | None
    stitch: str = ""
    end: bool = False

    @property
    def shapes(self) -> bool:
        """Whether it is shaping that something can answer."""
        return self.kind in MIRROR

    @property
    def opens(self) -> bool:
        """Whether plain stitches beside it say nothing: the stretch takes them up, or the repeat needs them."""
        return self.kind in ("on", "repeat")


@dataclass(frozen=True, slots=True)
class Gap:
    """Plain stitches between two posts. plain: (stitch, count) in order. span: where they stand, or would stand.

    open: beside a stretch of the same stitch, so that their number does not show. kind: "" for none at all.
    """

    plain: tuple[tuple[str, int], ...] = ()
    span: Span | None = None
    open: bool = False

    @property
    def count(self) -> int:
        """How many."""
        return sum(count for _, count in self.plain)

    @property
    def kind(self) -> str:
        """Knit or purl, whichever it is all of; "" for none, or both."""
        kinds = {name for name, _ in self.plain if name != SLIPPED}
        return kinds.pop() if len(kinds) == 1 else ""

    @property
    def words(self) -> str:
        """As a row would say it: "k1", "sl1, k2", "nothing"."""
        return ", ".join(f"{name}{count}" for name, count in self.plain) or "nothing"

    def like(self, other: Gap) -> bool:
        """Whether both are of one stitch, whatever their numbers, so that they can be held against each other."""
        return not self.plain or not other.plain or self.kind == other.kind != ""


@dataclass(frozen=True, slots=True)
class RowShape:
    """posts in order, and the gaps before, between and behind them: one gap more than posts."""

    posts: tuple[Post, ...]
    gaps: tuple[Gap, ...]


def answers_itself(posts: Sequence[Post]) -> bool:
    """Whether posts read the same from both ends, shaping answered by shaping that leans the other way."""
    shaping = [post.kind for post in posts if post.shapes]
    if len(shaping) < 2 or (set(shaping) <= UPRIGHT and not any(not post.shapes for post in posts)):
        return False
    kinds = [post.kind for post in posts]
    return kinds == [MIRROR.get(kind, kind) for kind in reversed(kinds)]


@dataclass(frozen=True, slots=True)
class Told:
    """A row as told.

    part: how often stitches had been taken back to a needle before it. repeated: the row says it of each of several
    stretches. slips: stitches slipped at its very beginning. numbered: it is one of rows that are numbered. turned:
    it ends before its stitches do, so that it says nothing of its ends.
    """

    piece: str
    section: str
    part: int
    label: str
    span: Span
    shape: RowShape
    round: bool
    repeated: bool = False
    slips: int = 0
    numbered: bool = False
    turned: bool = False


def unlike(label: str, span: Span, first: Gap, last: Gap) -> Fault:
    """The fault of a row with other plain stitches on one side than on the other."""
    return fault(
        ENDS_UNLIKE,
        first.span or span,
        "{label} has {one} on one side and {other} on the other",
        hint="{one} on both sides, or {other}" if first.plain and last.plain else "{more} on both sides",
        label=label,
        one=first.words,
        other=last.words,
        more=first.words if first.plain else last.words,
    )
