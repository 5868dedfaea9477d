"""What a pattern source says, typed.

In: nothing, these are values; `load.py` makes them. Out: `Pattern`, frozen, in the order of the source.

Free text is a `Text`, which knows the place of every character; a parsed value is a `Said`, an `Amount` or an
`Amounts`, which keep the text they were read from. Formulas (`numbers`, `measurements`) and instruction lines are
still text here: grading and notation read them. Lengths are exact millimetres, masses exact grams.

An entry that has a key in the source ("A" under `yarns`) holds it as `key`, a `Text` of its own.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, Literal, TypeAlias, TypeVar

from castoff.per_size import Axes, SizeNames
from castoff.span import Span, Text

T = TypeVar("T")

Audience: TypeAlias = Literal["baby", "child", "adult"]
Skill: TypeAlias = Literal["basic", "easy", "intermediate", "complex"]
Terms: TypeAlias = Literal["US", "UK"]
Form: TypeAlias = Literal["flat", "round"]
"""`worked: flat` and `worked: in the round`."""
NeedleType: TypeAlias = Literal["straight", "circular", "double-pointed", "cable"]


@dataclass(frozen=True, slots=True)
class Said(Generic[T]):
    """A value that was read from one scalar.

    span: where it was typed; None when it was not, and `value` is what the language fills in.
    """

    value: T
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """One length or mass: `10 cm`, `200 m`, `4 in / 10 cm`.

    value: exact millimetres or grams.
    unit: standard symbol of the unit it was typed in ("cm", "in", "g" …).
    twin, twin_unit: the same amount as typed a second time in another unit; None and "" when it was typed once.
    """

    value: Fraction
    unit: str
    text: Text
    twin: Fraction | None = None
    twin_unit: str = ""

    @property
    def span(self) -> Span:
        """Where it was typed."""
        return self.text.span()


@dataclass(frozen=True, slots=True)
class Amounts:
    """A length or mass per size: `48 (52, 56, 60) cm`. One value per size; None where a size skips.

    Fields as in `Amount`.
    """

    values: tuple[Fraction | None, ...]
    unit: str
    text: Text
    twin: tuple[Fraction | None, ...] | None = None
    twin_unit: str = ""

    @property
    def span(self) -> Span:
        """Where it was typed."""
        return self.text.span()


@dataclass(frozen=True, slots=True)
class BodyMeasure:
    """A body measurement the sizes are meant to fit, `head: 48 (52, 56, 60) cm`; formulas call it `body.head`."""

    key: Text
    amounts: Amounts


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes of a pattern.

    names: in the order of every size list; one name for a pattern in one size. Where sizes run in two directions, or the
        knitter has a choice, the names of all pairs in all choices, as `axes` says.
    opener, grouping: how the author writes size lists: "(" or "[", and how many sizes stand in each bracket.
    standard: name of a published body table ("women"); None when the pattern brings all measurements itself.
    standard_sizes: the table's name for each size; the sizes' own names when the source gives no others.
    body: body measurements given in the source; they go before those of the table.
    """

    names: tuple[Text, ...]
    span: Span
    opener: str = "("
    grouping: tuple[int, ...] = ()
    standard: Text | None = None
    standard_sizes: tuple[Text, ...] = ()
    body: tuple[BodyMeasure, ...] = ()
    made_of: Axes | None = None

    def __len__(self) -> int:
        return len(self.names)

    @property
    def axes(self) -> Axes:
        """What the sizes are made of."""
        return Axes(tuple(name.value for name in self.names)) if self.made_of is None else self.made_of

    @property
    def labels(self) -> SizeNames:
        """The names as plain strings."""
        return SizeNames.of(self.axes)


@dataclass(frozen=True, slots=True)
class StatedGauge:
    """A gauge: so many stitches and rows over a length, in the fabric its key names.

    stitches: over `over`; exact. rows: the same (rounds count as rows); None when the source gives no row gauge.
    over: 10 cm or 4 in as typed (the trade takes the two for one), or another length ("1 in").
    worked: None when the source does not say.
    needles: the key of the needles it was worked on.
    fabric: the fabric in words when the key is not its name ("stockinette").
    yarn_factor: yarn of a stitch against plain knitting at the same gauge (1.2 for a cable); None takes it for plain.
    stretch: by what share of its width the fabric stretches (1/2 for 50 %); None when the source does not say.
    """

    key: Text
    stitches: Said[Fraction]
    rows: Said[Fraction] | None
    over: Amount
    worked: Said[Form] | None = None
    needles: Text | None = None
    fabric: Text | None = None
    note: Text | None = None
    yarn_factor: Said[Fraction] | None = None
    stretch: Said[Fraction] | None = None


@dataclass(frozen=True, slots=True)
class Swatch:
    """A washed and measured swatch, weighed: what the yarn estimate is worked out from.

    key: the gauge it belongs to. mass: grams.
    """

    key: Text
    width: Amount
    height: Amount
    mass: Amount


@dataclass(frozen=True, slots=True)
class PutUp:
    """What one ball holds, `200 m / 100 g`: length in millimetres, mass in grams."""

    length: Amount
    mass: Amount
    text: Text


@dataclass(frozen=True, slots=True)
class Yarn:
    """A yarn, or one colour of it, under the letter the instructions use.

    weight: the category in any region's words ("worsted", "aran", "10 ply", "4").
    ball: None when the put-up is not known.
    needs: yarn stated as needed per size, a length or a mass as `needs.unit` says; None leaves it to the compiler.
    needs_balls: balls stated as needed per size; None when not stated.
    held: strands worked together (2 for yarn held double).
    """

    key: Text
    name: Text | None = None
    colour: Text | None = None
    weight: Text | None = None
    fibre: Text | None = None
    ball: PutUp | None = None
    needs: Amounts | None = None
    needs_balls: tuple[Fraction | None, ...] | None = None
    held: Said[int] = Said(1)
    note: Text | None = None


@dataclass(frozen=True, slots=True)
class Needle:
    """Needles under the word the instructions use ("larger").

    size: as typed ("5 mm", "US 8"). size_mm: its diameter; None when no size table knows the word.
    type: None when the source does not say. length: of a circular or straight needle.
    """

    key: Text
    size: Text
    size_mm: Fraction | None
    type: Said[NeedleType] | None = None
    length: Amount | None = None
    note: Text | None = None


@dataclass(frozen=True, slots=True)
class Number:
    """A named number: a formula, or a list per size."""

    key: Text
    formula: Text


@dataclass(frozen=True, slots=True)
class StitchPattern:
    """A stitch pattern of the author's: instruction lines over a multiple of stitches plus edge stitches.

    mirror: name of the stitch pattern that is its other side; None when it is its own, or has none.
    chart: whether a chart of it is printed. centred: as many stitches lie on both sides of it wherever it is worked.
    every: one of its rows is worked on every so many rows of the fabric; None when nothing is promised.
    """

    key: Text
    multiple: Said[int]
    plus: Said[int]
    rows: Text
    worked: Said[Form] | None = None
    note: Text | None = None
    mirror: Text | None = None
    chart: bool = False
    centred: bool = False
    every: Said[int] | None = None


@dataclass(frozen=True, slots=True)
class OwnStitch:
    """A stitch of the author's: takes so many stitches of the left needle, makes so many on the right.

    key: the shorthand that rows use. words: written out. how: how it is worked. symbol: what a chart shows.
    mirror: the stitch that is its other side, itself when it looks alike from both; None when the source does not say.
    """

    key: Text
    takes: Said[int]
    makes: Said[int]
    words: Text
    how: Text | None = None
    symbol: Text | None = None
    mirror: Text | None = None


@dataclass(frozen=True, slots=True)
class Instead:
    """A line of a mirrored section that the author writes: `of` begins the line of the first side that `work` replaces."""

    of: Text
    work: Text


@dataclass(frozen=True, slots=True)
class Section:
    """A titled stretch of instructions that belongs to one piece.

    piece: the title itself when the source names no piece.
    worked: how it starts; when the source does not say, as the piece's section before, else flat (span None).
    gauge, needles, yarn: keys; when the source does not say, those of the piece's section before (a pattern's only
        gauge, needles or yarn for the first); None when there is none or several to choose from.
    make: how many of it (2 sleeves).
    mirrors: title of the section that this one is the other side of; its work is then that section's, turned round.
    instead: lines of the other side that the author writes.
    option: the choices that it belongs to, as (option, choice); it is worked in no other. Empty: in all of them.
    begins: the state it starts from, for a section or excerpt that is checked by itself.
    work: the instruction lines; None when it mirrors another section, until they have been made from it.
    """

    title: Text
    piece: Text
    worked: Said[Form]
    gauge: Text | None = None
    needles: Text | None = None
    yarn: Text | None = None
    make: Said[int] = Said(1)
    mirrors: Text | None = None
    begins: Text | None = None
    notes: Text | None = None
    work: Text | None = None
    instead: tuple[Instead, ...] = ()
    option: tuple[tuple[Text, Text], ...] = ()

    def worked_in(self, axes: Axes) -> tuple[bool, ...]:
        """For every size, whether the section is worked in it."""
        flags = [axes.chosen(option.value, choice.value) for option, choice in self.option]
        return tuple(all(each[size] for each in flags) for size in range(axes.count))


@dataclass(frozen=True, slots=True)
class Measurement:
    """A finished measurement that is printed and held against the fabric.

    expression: what it comes to, a formula or a list per size. of: where it is taken ("width of Cap"), None when
    nowhere in the fabric.
    """

    key: Text
    label: Text
    expression: Text
    of: Text | None = None
    note: Text | None = None


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture from a file beside the source. place: "front", "end", or the title of the section it belongs to."""

    file: Text
    alt: Text
    credit: Text
    place: Text | None = None
    caption: Text | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """One line of the change history, newest first or last as the author has it."""

    version: Text
    date: Said[datetime.date]
    change: Text


@dataclass(frozen=True, slots=True)
class Allowance:
    """A finding that the author accepts, and why. where: a section's title, None for the whole pattern."""

    rule: Text
    because: Text
    where: Text | None = None


@dataclass(frozen=True, slots=True)
class TypedAbbreviation:
    """An abbreviation that the author explains; it is checked against what the compiler would print."""

    key: Text
    words: Text


@dataclass(frozen=True, slots=True)
class Pattern:
    """Everything one source says.

    span: the whole source. Tuples are in the order of the source; empty when the source says nothing.
    inch: millimetres that the author converts an inch by (25.4 or 25); None when not declared.
    margin: share of yarn added for safety (1/10 for 10 %); None leaves it to the house.
    tested: names of the sizes that were test-knitted.
    excerpt: part of a pattern: what is missing from it is no fault.
    invented: a demonstration; a notice says so.
    """

    span: Span
    written_for: Said[int]
    title: Text
    sizes: Sizes
    version: Text | None = None
    date: Said[datetime.date] | None = None
    designer: Text | None = None
    studio: Text | None = None
    invented: bool = False
    summary: Text | None = None
    audience: Said[Audience] = Said("adult")
    skill: Said[Skill] | None = None
    terms: Said[Terms] = Said("US")
    inch: Said[Fraction] | None = None
    gauges: tuple[StatedGauge, ...] = ()
    swatches: tuple[Swatch, ...] = ()
    yarns: tuple[Yarn, ...] = ()
    needles: tuple[Needle, ...] = ()
    notions: tuple[Text, ...] = ()
    numbers: tuple[Number, ...] = ()
    stitch_patterns: tuple[StitchPattern, ...] = ()
    stitches: tuple[OwnStitch, ...] = ()
    abbreviations: tuple[TypedAbbreviation, ...] = ()
    sections: tuple[Section, ...] = ()
    measurements: tuple[Measurement, ...] = ()
    pictures: tuple[Picture, ...] = ()
    cautions: tuple[Text, ...] = ()
    notes: Text | None = None
    care: Text | None = None
    help: Text | None = None
    terms_of_use: Text | None = None
    history: tuple[Change, ...] = ()
    allow: tuple[Allowance, ...] = ()
    tested: tuple[Text, ...] = ()
    margin: Said[Fraction] | None = None
    excerpt: bool = False

    def gauge(self, key: str) -> StatedGauge | None:
        """The gauge under a key."""
        return next((gauge for gauge in self.gauges if gauge.key.value == key), None)

    def yarn(self, key: str) -> Yarn | None:
        """The yarn under a key."""
        return next((yarn for yarn in self.yarns if yarn.key.value == key), None)

    def needle(self, key: str) -> Needle | None:
        """The needles under a key."""
        return next((needle for needle in self.needles if needle.key.value == key), None)

    def section(self, title: str) -> Section | None:
        """The section of a title."""
        return next((section for section in self.sections if section.title.value == title), None)

    @property
    def pieces(self) -> tuple[str, ...]:
        """Names of the pieces, in the order of their first sections."""
        return tuple(dict.fromkeys(section.piece.value for section in self.sections))
