"""What the knitter is given: everything a pattern says that matters to the needle, already typed.

In: nothing. Out: `Plan` and its parts, made by the pipeline from the pattern, its numbers and its parsed lines.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, Protocol

from castoff.notation.syntax import Form, Line
from castoff.trade.stitch import Crossing

Face = Literal["knit", "purl", "slip"]


class StitchFact(Protocol):
    """What the needle asks of a stitch: loops taken, loops left, how it shows, what it is."""

    @property
    def takes(self) -> int:
        """Live stitches used up."""

    @property
    def makes(self) -> int:
        """Live stitches left."""

    @property
    def kind(self) -> str:
        """knit, purl, slip, decrease, increase, cable, twist, bobble, turn, pick_up or drop."""

    @property
    def face(self) -> Face:
        """How it shows on the side on which it is worked."""

    @property
    def crossing(self) -> Crossing | None:
        """For cables: which stitches pass in front of which, seen from the right side."""


def crossed(known: StitchFact) -> str:
    """How a crossing shows on the right side, in the order worked; "" for any other stitch.

    The group that travels right is worked first; what passes behind, or stands in the middle, may be purled.
    """
    crossing = known.crossing
    if crossing is None or crossing.width != known.makes:
        return ""
    over = "k" * crossing.over
    middle = ("p" if crossing.middle_worked == "purl" else "k") * crossing.middle
    under = ("p" if crossing.under_worked == "purl" else "k") * crossing.under
    return over + middle + under if crossing.travels == "right" else under + middle + over


class StitchLookUp(Protocol):
    """Anything that knows stitches by their names; the trade's stitch book does."""

    def find(self, token: str, /) -> StitchFact | None:
        """The stitch of a name; None when there is none."""


class GaugeFact(Protocol):
    """Stitches and rows over a length, exact; the trade's gauge is one."""

    @property
    def stitches(self) -> Fraction:
        """Stitches over the length."""

    @property
    def rows(self) -> Fraction | None:
        """Rows over the length; None when the gauge gives stitches only."""

    @property
    def over_mm(self) -> Fraction:
        """The length in millimetres."""


@dataclass(frozen=True, slots=True)
class OwnStitch:
    """A stitch defined by the pattern itself."""

    takes: int
    makes: int
    kind: str = "bobble"
    face: Face = "knit"
    crossing: Crossing | None = None


@dataclass(frozen=True, slots=True)
class PlanGauge:
    """A gauge of the pattern.

    gauge: stitches and rows over a length. needles: key of the needles it is worked on. fabric: the fabric's name.
    """

    gauge: GaugeFact
    needles: str | None = None
    fabric: str = ""


@dataclass(frozen=True, slots=True)
class NeedleSpec:
    """Needles of the pattern: size and length in millimetres, None where unsaid.

    names: of the size in every system, lower case ("5 mm", "us 8", "uk 6"), which lines may use in place of the key.
    """

    size_mm: Fraction | None = None
    type: str = ""
    length_mm: Fraction | None = None
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StitchPattern:
    """A stitch pattern of the source: multiple of `multiple` plus `plus`, worked by its own lines. name: as it is typed.

    centred: as many stitches lie on both sides of it. every: its rows come on every so many rows; 0 where not promised.
    """

    multiple: int
    plus: int
    form: Form
    lines: tuple[Line, ...]
    name: str = ""
    centred: bool = False
    every: int = 0


@dataclass(frozen=True, slots=True)
class PlanSection:
    """A section in the order of the source.

    title: its heading. piece: the piece it works on. form: worked flat or in the round from its start; None as it lies.
    gauge, needles, yarn: keys, None where unsaid. make: how many are made. mirrors: title of the section it turns round.
    opening: lines that state where it starts. lines: what is worked. sizes: in which it is worked; None for all.
    """

    title: str
    piece: str
    lines: tuple[Line, ...]
    form: Form | None = None
    gauge: str | None = None
    needles: str | None = None
    yarn: str | None = None
    make: int = 1
    mirrors: str | None = None
    opening: tuple[Line, ...] = ()
    sizes: tuple[bool, ...] | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """A whole pattern as the needle reads it.

    sizes: their names. yarns: keys in order. needles: key to specification. gauges: key to gauge.
    patterns: stitch patterns by lower-case name. own_stitches: by lower-case name. book: the trade's stitches.
    excerpt: part of a pattern, which may end with stitches live or held.
    foot_mm: length of the foot that each size is for, where the source gives it; () otherwise.
    """

    sizes: tuple[str, ...]
    sections: tuple[PlanSection, ...]
    book: StitchLookUp
    gauges: Mapping[str, PlanGauge] = field(default_factory=dict)
    yarns: tuple[str, ...] = ()
    needles: Mapping[str, NeedleSpec] = field(default_factory=dict)
    patterns: Mapping[str, StitchPattern] = field(default_factory=dict)
    own_stitches: Mapping[str, OwnStitch] = field(default_factory=dict)
    terms: Literal["US", "UK"] = "US"
    excerpt: bool = False
    foot_mm: tuple[Fraction | None, ...] = ()
    found: dict[str, StitchFact | None] = field(default_factory=dict, init=False, compare=False, repr=False)
    """Stitches looked up before, so that every name is looked up once."""

    def pitch(self, gauge: str | None) -> tuple[Fraction, Fraction] | None:
        """Width of a stitch and height of a row in millimetres; height 0 when the gauge gives stitches only."""
        known = self.gauges.get(gauge) if gauge is not None else None
        if known is None:
            return None
        rows = known.gauge.rows
        over = known.gauge.over_mm
        return over / known.gauge.stitches, Fraction(0) if rows is None else over / rows

    @property
    def promising(self) -> bool:
        """Whether any stitch pattern promises where it stands or on which rows it is worked."""
        return any(pattern.every or pattern.centred for pattern in self.patterns.values())

    def called(self, pattern: str) -> str:
        """A stitch pattern as the source calls it."""
        known = self.patterns.get(pattern)
        return pattern if known is None or not known.name else known.name

    def stitch(self, name: str) -> StitchFact | None:
        """A stitch by its name, the pattern's own first."""
        try:
            return self.found[name]
        except KeyError:
            known = self.own_stitches.get(name.lower()) or self.book.find(name)
            self.found[name] = known
            return known
