"""Stitches: what an instruction takes off the left needle and leaves on the right one.

Here are the types alone. `stitch_book.py` reads the stitches that have a name of their own from the table,
`families.py` computes the regular ones (k4tog, C6B, 2/1 LPC, yo3).

Counts follow the usual reading: takes = live stitches off the left needle, makes = live stitches onto the right one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, NamedTuple

StitchKind = Literal[
    "knit", "purl", "slip", "decrease", "increase", "cable", "twist", "bobble", "turn", "pick_up", "drop"
]
Lean = Literal["left", "right", "centred", ""]
Side = Literal["RS", "WS"]
Face = Literal["knit", "purl", "slip"]
Region = Literal["US", "UK", ""]

KINDS: tuple[StitchKind, ...] = (
    "knit", "purl", "slip", "decrease", "increase", "cable", "twist", "bobble", "turn", "pick_up", "drop",
)  # fmt: skip
_NUMBER_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True, slots=True)
class Crossing:
    """How the stitches of a cable or twist change places.

    over: stitches of the group that passes in front.
    under: stitches of the group that passes behind.
    travels: direction of the front group on the right side of the fabric.
    under_worked: how the group behind is worked; the front group is always knitted.
    middle: stitches that keep their place between the two groups, behind both.
    middle_worked: how those are worked.
    """

    over: int
    under: int
    travels: Literal["left", "right"]
    under_worked: Literal["knit", "purl"] = "knit"
    middle: int = 0
    middle_worked: Literal["knit", "purl"] = "knit"

    @property
    def width(self) -> int:
        """Stitches that the crossing spans."""
        return self.over + self.middle + self.under

    @property
    def over_starts(self) -> range:
        """Cells where the front group comes from, 0 = first stitch worked (the right edge on the right side)."""
        first = 0 if self.travels == "left" else self.under + self.middle
        return range(first, first + self.over)

    @property
    def over_ends(self) -> range:
        """Cells where the front group arrives, counted as in `over_starts`."""
        first = 0 if self.travels == "right" else self.under + self.middle
        return range(first, first + self.over)


@dataclass(frozen=True, slots=True)
class Stitch:
    """An instruction for the needles.

    name: the abbreviation as it is printed.
    words: the abbreviation written out.
    takes: live stitches used up.
    makes: live stitches left.
    kind: what it does for the fabric.
    lean: slant on the right side of the fabric; empty when it has none.
    lean_from: the row, RS or WS, on which it is worked to slant that way.
    face: how it shows on the side on which it is worked.
    loops: new loops of yarn drawn.
    region: US or UK when only one side prints it.
    how: the working in full; empty when the words say it.
    spoken: the words with numbers spelled, for reading aloud.
    uk: what a UK pattern prints instead; empty when the same.
    also: other spellings.
    mirror: name of the same stitch turned left for right; empty when there is none.
    wrong_side: name of the stitch that gives the same look when worked on a wrong-side row; empty when there is none.
    crossing: for cables and twists.
    generic: whether the name leaves the method open, so that a pattern should add a key.
    note: what to beware of.
    sources: keys of the table's source list; "m" is from memory.
    """

    name: str
    words: str
    takes: int
    makes: int
    kind: StitchKind
    lean: Lean = ""
    lean_from: Side = "RS"
    face: Face = "knit"
    loops: int = 1
    region: Region = ""
    how: str = ""
    spoken: str = ""
    uk: str = ""
    also: tuple[str, ...] = ()
    mirror: str = ""
    wrong_side: str = ""
    crossing: Crossing | None = None
    generic: bool = False
    note: str = ""
    sources: tuple[str, ...] = ()

    @property
    def change(self) -> int:
        """Stitches that one of it adds to the row; negative for a decrease."""
        return self.makes - self.takes


def spell_numbers(words: str) -> str:
    """Words with their small numbers spelled: "knit 2 together" is read aloud "knit two together"."""
    return re.sub(r"\b(?:10|\d)\b", lambda match: _NUMBER_WORDS[int(match.group())], words)


class FamilyWords(NamedTuple):
    """What a family's members are called: words and working with `{n}`, `{over}` ... to be filled in."""

    words: str
    how: str
    note: str
    sources: tuple[str, ...]
