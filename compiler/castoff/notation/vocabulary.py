"""What the lines of one pattern may speak of: its sizes, yarns, needles, stitch patterns, own stitches and numbers.

In: names from the pattern source, the stitch book of the trade, and the function that works out `{formula}`.
Out: `Vocabulary`, the one thing besides the text that the parser reads.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, Protocol

from castoff.diagnostic import Checked
from castoff.grading.evaluate import Resolved
from castoff.span import Text


class NamedStitch(Protocol):
    """A stitch of the book as far as the parser needs it."""

    @property
    def name(self) -> str:
        """The name the book knows it by."""
        ...

    @property
    def takes(self) -> int:
        """How many stitches it takes off the left needle."""
        ...


class StitchFinder(Protocol):
    """The stitch book as far as the parser needs it."""

    def find(self, token: str, /) -> NamedStitch | None:
        """The stitch of a word ("K2TOG", "yfwd", "2/2 lc"); None when it is no stitch."""
        ...


Resolve = Callable[[Text], Checked[Resolved | None]]


def _nothing_resolves(formula: Text) -> Checked[Resolved | None]:
    return Checked(None)


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The words of one pattern.

    sizes: size names in the order of every list. yarns, needles: the keys of the source.
    stitch_patterns, gauges: names of fabrics. own_stitches: name to (takes, makes).
    book: the stitches of the trade. resolve: works out the text between braces.
    """

    sizes: tuple[str, ...]
    book: StitchFinder
    terms: Literal["US", "UK"] = "US"
    yarns: tuple[str, ...] = ()
    needles: tuple[str, ...] = ()
    stitch_patterns: tuple[str, ...] = ()
    gauges: tuple[str, ...] = ()
    own_stitches: Mapping[str, tuple[int, int]] = field(default_factory=lambda: MappingProxyType({}))
    pieces: tuple[str, ...] = ()
    sections: tuple[str, ...] = ()
    resolve: Resolve = _nothing_resolves
