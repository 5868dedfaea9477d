"""The shape of a pattern source: which keys there are, what each holds, and which words it may be.

In: nothing, this is a table. Out: `SOURCE`, with a sentence on every key, which `shape.py` holds a file against and
makes the JSON Schema for editors from. Numbers, units and size lists are read in `load.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

LANGUAGE = 1
"""The version of the source language that this compiler reads."""


@dataclass(frozen=True, slots=True)
class Value:
    """A text that cannot be empty; an editor's YAML parser may take it for a number."""


@dataclass(frozen=True, slots=True)
class Prose:
    """A text of any length, but not empty. shared: whether it may be a paragraph of the shared file."""

    shared: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """One of a list of words."""

    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """A list; every item has the same shape."""

    of: Shape


@dataclass(frozen=True, slots=True)
class Table:
    """Keys that the author chooses; every value has the same shape."""

    of: Shape


@dataclass(frozen=True, slots=True)
class Key:
    """A key of a part.

    about: what it is for, a sentence. must: whether it has to be there. examples: values as typed.
    """

    name: str
    holds: Shape
    about: str
    must: bool = False
    examples: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a source with fixed keys. shared: where such parts stand in the shared file; "" when they do not."""

    about: str
    keys: tuple[Key, ...]
    shared: str = ""

    def key(self, name: str) -> Key | None:
        """The key of a name."""
        return next((key for key in self.keys if key.name == name), None)


Shape: TypeAlias = Value | Prose | Words | Listing | Table | Part


def must(name: str, holds: Shape, about: str, *examples: str) -> Key:
    """A key that has to be there."""
    return Key(name, holds, about, True, examples)


def may(name: str, holds: Shape, about: str, *examples: str) -> Key:
    """A key that can be left out."""
    return Key(name, holds, about, False, examples)


VALUE = Value()
PROSE = Prose()
PARAGRAPH = Prose(shared=True)
FLAG = Words(("true", "false", "yes", "no"))
WORKED = Words(("flat", "in the round"))

SECOND = Part(
    "A second direction of sizes: cups, leg lengths.",
    (
        must("name", VALUE, "What it is called.", "cup"),
        must("names", VALUE, "The names in order, first size outside the brackets.", "B (C, D)"),
    ),
)
SIZES = Part(
    "The sizes, and the bodies they are meant to fit.",
    (
        must("names", VALUE, "The names in order, first size outside the brackets.", "S (M, L, XL)", "One size"),
        may("second", SECOND, "Sizes in a second direction; every pair is a size."),
        may("standard", VALUE, "Published body table that formulas take measurements from.", "women"),
        may("standard_sizes", VALUE, "The table's name of each size, when it is not the pattern's own.", "S (M, L)"),
        may("body", Table(VALUE), "Body measurements per size; formulas call them `body.head` and so on."),
    ),
)
GAUGE = Part(
    "A gauge: stitches and rows over a length.",
    (
        must("stitches", VALUE, "Stitches over the length.", "20"),
        may("rows", VALUE, "Rows or rounds over the length.", "28"),
        must("over", VALUE, "The length: 10 cm and 4 in are taken for the same square.", "10 cm"),
        may("worked", WORKED, "How the swatch was worked."),
        may("needles", VALUE, "Key of the needles it was worked on.", "larger"),
        may("fabric", VALUE, "The fabric, when the key of the gauge does not say it.", "stockinette"),
        may("yarn_factor", VALUE, "Yarn of a stitch against plain knitting at the same gauge; 1 when left out.", "1.2"),
        may("stretch", VALUE, "By what share of its width the fabric stretches.", "50%"),
        may("note", PROSE, "Anything the knitter should know of it."),
    ),
)
SWATCH = Part(
    "A washed swatch, measured and weighed.",
    (
        must("width", VALUE, "Width.", "16 cm"),
        must("height", VALUE, "Height.", "16 cm"),
        must("mass", VALUE, "Mass.", "11 g"),
    ),
)
YARN = Part(
    "A yarn, or one colour of it.",
    (
        may("name", PROSE, "The yarn's name."),
        may("colour", PROSE, "The colour's name.", "slate"),
        may("weight", VALUE, "Category, in the words of any region or as a number.", "worsted", "DK", "4"),
        may("fibre", PROSE, "What it is made of.", "100% wool"),
        may("ball", VALUE, "Put-up: what one ball holds.", "200 m / 100 g"),
        may("needs", VALUE, "Yarn needed per size, when the author states it.", "180 (200, 220) m", "2 (2, 3) balls"),
        may("held", VALUE, "Strands worked together; 1 when left out.", "2"),
        may("note", PROSE, "Anything the knitter should know of it."),
    ),
    "yarns",
)
NEEDLE = Part(
    "Needles, under the word the instructions use.",
    (
        must("size", VALUE, "Size: millimetres, or US or UK size.", "5 mm", "US 8"),
        may("type", Words(("straight", "circular", "double-pointed", "cable")), "Kind of needle."),
        may("length", VALUE, "Length, of circular and straight needles.", "40 cm"),
        may("note", PROSE, "Anything the knitter should know of it."),
    ),
    "needles",
)
STITCH_PATTERN = Part(
    "A stitch pattern of the author's own.",
    (
        must("multiple", VALUE, "Stitches in one repeat.", "8"),
        may("plus", VALUE, "Stitches beyond the repeats; 0 when left out.", "1"),
        may("worked", WORKED, "How its rows are worked."),
        must("rows", PROSE, "Its rows, one a line, in the words of instructions."),
        may("mirror", VALUE, "The stitch pattern that is its other side.", "left twist"),
        may("centred", FLAG, "Whether as many stitches lie on both sides of it wherever it is worked."),
        may("every", VALUE, "One of its rows is worked on every so many rows of the fabric.", "4"),
        may("chart", FLAG, "Whether a chart of it is printed beside its rows."),
        may("note", PROSE, "Anything the knitter should know of it."),
    ),
    "stitch_patterns",
)
STITCH = Part(
    "A stitch of the author's own.",
    (
        must("takes", VALUE, "Stitches it takes from the left needle.", "1"),
        must("makes", VALUE, "Stitches it leaves on the right needle.", "1"),
        must("words", PROSE, "The stitch in words.", "make bobble"),
        may("how", PROSE, "How it is worked."),
        may("symbol", VALUE, "What a chart shows for it.", "●"),
        may("mirror", VALUE, "The stitch that is its other side: itself when it looks alike from both.", "mb"),
    ),
    "stitches",
)
INSTEAD = Part(
    "A line of a mirrored section, written out.",
    (
        must("of", VALUE, "How the line begins in the section that is mirrored.", "Row 5 (RS)"),
        must("work", PROSE, "What is worked on this side."),
    ),
)
SECTION = Part(
    "A titled stretch of instructions.",
    (
        must("title", VALUE, "Heading.", "Brim"),
        may("piece", VALUE, "Piece it belongs to; the title when left out.", "Cap"),
        may("worked", WORKED, "How it starts; as the piece's section before when left out."),
        may("gauge", VALUE, "Key of the gauge it is worked at; as the section before when left out."),
        may("needles", VALUE, "Key of the needles it starts on."),
        may("yarn", VALUE, "Key of the yarn it starts with."),
        may("make", VALUE, "How many of it.", "2"),
        may("mirrors", VALUE, "Title of the section that this one is the other side of.", "Left Front"),
        may("option", Table(VALUE), "Choices it belongs to; it is worked in no other."),
        may("instead", Listing(INSTEAD), "Lines of the other side that are written out."),
        may("begins", PROSE, "The state it starts from.", "You have 84 (92, 100) sts, RS facing."),
        may("notes", PARAGRAPH, "Printed before the instructions (Markdown)."),
        may("work", PROSE, "The instructions, one line each; a line that starts with > is prose."),
    ),
)
MEASUREMENT = Part(
    "A finished measurement: printed, and held against the fabric.",
    (
        must("label", PROSE, "What it is called in print.", "Circumference"),
        must("is", VALUE, "A formula or a list per size.", "20 (21, 22) cm"),
        may("of", VALUE, "Where it is taken.", "width of Cap"),
        may("note", PROSE, "Anything the knitter should know of it."),
    ),
)
PICTURE = Part(
    "A picture from a file beside the source.",
    (
        must("file", VALUE, "File, relative to the source.", "cap.jpg"),
        must("alt", VALUE, "What it shows, for who cannot see it."),
        must("credit", VALUE, "Who made it."),
        may("place", VALUE, "front, end, or the title of a section.", "front"),
        may("caption", PROSE, "Printed below it."),
    ),
    "pictures",
)
CHANGE = Part(
    "One line of the history.",
    (
        must("version", VALUE, "Version.", "1.0.1"),
        must("date", VALUE, "Day, as year-month-day.", "2026-11-01"),
        must("change", VALUE, "What changed, for the knitter."),
    ),
)
ALLOW = Part(
    "A finding that the author accepts.",
    (
        must("rule", VALUE, "Name of the rule."),
        must("because", VALUE, "Why."),
        may("where", VALUE, "Title of the section it holds for; the whole pattern when left out."),
    ),
)
SOURCE = Part(
    "A knitting-pattern source.",
    (
        must("written_for", VALUE, "Version of the source language.", "1"),
        must("title", VALUE, "Name of the pattern."),
        may("version", VALUE, "The pattern's own version.", "1.0.0"),
        may("date", VALUE, "Day of this version, as year-month-day.", "2026-11-01"),
        may("designer", PROSE, "Who designed it."),
        may("studio", PROSE, "Who publishes it."),
        may("invented", FLAG, "A demonstration: a notice says that nothing in it is for sale."),
        may("summary", PARAGRAPH, "One or two sentences: what it is and how it is worked."),
        may("audience", Words(("baby", "child", "adult")), "Who wears it; decides which cautions are printed."),
        may("skill", Words(("basic", "easy", "intermediate", "complex")), "What it asks of the knitter."),
        may("terms", Words(("US", "UK")), "The words the source is written in; US when left out."),
        may("inch", VALUE, "Centimetres the author converts an inch by.", "2.54", "2.5"),
        must("sizes", SIZES, "The sizes."),
        may("options", Table(Table(VALUE)), "What the knitter chooses: each option with its choices, and their words."),
        may("gauge", Table(GAUGE), "Gauges, each under the name of its fabric."),
        may("swatch", Table(SWATCH), "Weighed swatches, each under the name of its gauge."),
        may("yarns", Table(YARN), "Yarns, each under the letter the instructions use."),
        may("needles", Table(NEEDLE), "Needles, each under the word the instructions use."),
        may("notions", Listing(VALUE), "What else is needed, beyond what the compiler finds from use."),
        may("numbers", Table(VALUE), "Named numbers: formulas or lists per size."),
        may("stitch_patterns", Table(STITCH_PATTERN), "Stitch patterns of the author's own."),
        may("stitches", Table(STITCH), "Stitches of the author's own."),
        may("abbreviations", Table(VALUE), "Abbreviations the author explains; checked like any typed text."),
        must("sections", Listing(SECTION), "The instructions."),
        may("measurements", Table(MEASUREMENT), "Finished measurements."),
        may("pictures", Listing(PICTURE), "Pictures."),
        may("cautions", Listing(VALUE), "Cautions, beyond those the audience and material ask for."),
        may("notes", PARAGRAPH, "Notes printed before the instructions (Markdown)."),
        may("care", PARAGRAPH, "How to wash and dry it."),
        may("help", PARAGRAPH, "Where to ask for help."),
        may("terms_of_use", PARAGRAPH, "What may be done with the pattern."),
        may("history", Listing(CHANGE), "What changed from version to version."),
        may("allow", Listing(ALLOW), "Findings that the author accepts, each with the reason."),
        may("tested", VALUE, "Sizes that were test-knitted.", "S, L"),
        may("margin", VALUE, "Share of yarn added for safety; the house's own when left out.", "10%"),
        may("excerpt", FLAG, "Part of a pattern: what is missing is no fault."),
    ),
)

SHARED = Part(
    "What several patterns of a folder share; a pattern has it with `use` and its name.",
    (
        may("yarns", Table(YARN), "Yarns."),
        may("needles", Table(NEEDLE), "Needles."),
        may("stitch_patterns", Table(STITCH_PATTERN), "Stitch patterns."),
        may("stitches", Table(STITCH), "Stitches."),
        may("pictures", Table(PICTURE), "Pictures, each under a name."),
        may("paragraphs", Table(PROSE), "Texts, each under a name."),
    ),
)
