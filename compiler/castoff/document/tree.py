"""The document tree: what a pattern says in one edition, before anything decides how it looks.

In: nothing, these are values. Out: `Document`, a tuple of blocks that hold inline text. One tree is made per
edition (the edition's choices of units, terms and size are already taken), and every renderer (PDF, HTML,
plain text) reads the same tree, so that they all say the same in the same order. Nothing here knows of
pages, fonts or colours; drawings are shapes in millimetres until a renderer draws them.

Reading order is the order of the fields of a block, top to bottom. Inline text and the shapes of drawings have
modules of their own; a reader of the tree finds all of it here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from castoff.document.inline import (
    NO_BREAK_SPACE,
    SKIPPED,
    Abbreviation,
    Emphasis,
    Inline,
    Inlines,
    LineBreak,
    Link,
    NoBreak,
    Pair,
    Quantity,
    SizeList,
    StitchTerm,
    Strong,
    Text,
    plain_text,
    size_groups,
)
from castoff.document.shapes import Circle, Ink, Label, Polyline, Shape

__all__ = (
    "NO_BREAK_SPACE",
    "SKIPPED",
    "Abbreviation",
    "Align",
    "Block",
    "Blocks",
    "BulletList",
    "Caution",
    "Cell",
    "ChartCell",
    "ChartColour",
    "ChartGrid",
    "ChartSymbol",
    "Circle",
    "Columns",
    "Contents",
    "Document",
    "Drawing",
    "Emphasis",
    "Fact",
    "FactList",
    "Figure",
    "Heading",
    "Ink",
    "Inline",
    "Inlines",
    "InstructionList",
    "InstructionRow",
    "KeepTogether",
    "Label",
    "LineBreak",
    "Link",
    "Meta",
    "NoBreak",
    "NumberedList",
    "PageBreak",
    "Pair",
    "Paragraph",
    "Picture",
    "Polyline",
    "Quantity",
    "Role",
    "Rule",
    "Shape",
    "SizeList",
    "StitchTerm",
    "Strong",
    "Table",
    "Text",
    "TickRow",
    "TickTable",
    "TitlePage",
    "headings",
    "plain_text",
    "size_groups",
    "walk",
)  # fmt: skip

# ── Blocks ────────────────────────────────────────────────────────────────────────────────────────

Role = Literal["body", "lead", "note", "credit", "colophon", "small", "notice"]
"""What a paragraph is: running text, an opening that is set larger, a remark, a picture's credit, the small
print at the end, anything else small, or a notice set apart (such as "an invented pattern for
demonstration")."""


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading. Level 1 is the title and stands once, in the `TitlePage`; levels go down one at a time."""

    level: int
    inline: Inlines
    key: str = ""

    def __post_init__(self) -> None:
        if not 1 <= self.level <= 6:
            raise ValueError(f"a heading's level is 1 to 6, not {self.level}")
        if not plain_text(self.inline).strip():
            raise ValueError("a heading needs words")


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph in one of the roles."""

    inline: Inlines
    role: Role = "body"
    key: str = ""


@dataclass(frozen=True, slots=True)
class BulletList:
    """Things in no order; every item is a tuple of blocks."""

    items: tuple[Blocks, ...]
    key: str = ""


@dataclass(frozen=True, slots=True)
class NumberedList:
    """Steps in order, counted from `start`."""

    items: tuple[Blocks, ...]
    start: int = 1
    key: str = ""


@dataclass(frozen=True, slots=True)
class Fact:
    """A term and what it is: "Yarn" and its description, one or more paragraphs."""

    term: Inlines
    says: tuple[Inlines, ...]


@dataclass(frozen=True, slots=True)
class FactList:
    """Facts a knitter decides by ("Yarn", "Needles", "Gauge"), or a glossary ("k2tog": "knit two together").

    kind: "facts" is a panel of a few long entries; "glossary" is many short ones, which a renderer may set
        in columns.
    """

    facts: tuple[Fact, ...]
    kind: Literal["facts", "glossary"] = "facts"
    key: str = ""


Align = Literal["left", "right", "center", "decimal"]


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of a table.

    scope: "column" or "row" makes it a header of that direction; None is data.
    columns, rows: how many it spans.
    """

    inline: Inlines = ()
    scope: Literal["column", "row"] | None = None
    align: Align = "left"
    columns: int = 1
    rows: int = 1


@dataclass(frozen=True, slots=True)
class Table:
    """A table. Every row fills the same number of columns, spans counted (checked here).

    caption: what the table shows; may be empty only when the heading just before says it.
    head, body: rows of cells; head rows are repeated when the table breaks.
    keep: whether it should stay on one page when it can. system: of its measures, when another table says the same in
    the other system.
    """

    caption: Inlines
    head: tuple[tuple[Cell, ...], ...]
    body: tuple[tuple[Cell, ...], ...]
    keep: bool = True
    key: str = ""
    system: Literal["metric", "imperial"] | None = None

    def __post_init__(self) -> None:
        if not self.body:
            raise ValueError("a table needs a row")
        widths = {sum(1 for _ in line) for line in _table_lines((*self.head, *self.body))}
        if len(widths) > 1:
            raise ValueError(f"the rows of a table fill {sorted(widths)} columns")

    @property
    def column_count(self) -> int:
        """How many columns the table has, spans counted."""
        rows = (*self.head, *self.body)
        return sum(cell.columns for cell in rows[0]) if rows else 0


@dataclass(frozen=True, slots=True)
class InstructionRow:
    """One row, round or step of the instructions.

    label: "Row 1 (RS)", without colon; None for a sentence without a label.
    text: what to do.
    stated: the count the knitter should now have ("72 (81, 90) sts"), set apart at the line's end; None for
        none.
    notes: remarks that belong to this row, printed under it.
    indent: 0 for a row of the section, 1 for a row inside a repeated group, and so on.
    side: the side that faces the knitter, when the fabric has one.
    repeats: whether the line sends the knitter back over earlier rows ("Rep rows 1-4 …").
    """

    label: Inlines | None
    text: Inlines
    stated: Inlines | None = None
    notes: Blocks = ()
    indent: int = 0
    side: Literal["RS", "WS"] | None = None
    repeats: bool = False


@dataclass(frozen=True, slots=True)
class InstructionList:
    """The rows of a section, or a stretch of them, in working order."""

    rows: tuple[InstructionRow, ...]
    key: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety warning."""

    title: Inlines
    blocks: Blocks
    key: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture file of the pattern: PNG or JPEG bytes as read, with its size in pixels."""

    data: bytes
    media_type: Literal["image/png", "image/jpeg"]
    width_px: int
    height_px: int


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture or a drawing with its words.

    alt: what it shows, for a reader who cannot see it; never empty, and different for every figure.
    caption: printed under it; may be empty.
    credit: who made it; may be empty (a computed drawing needs none).
    """

    content: Picture | Drawing | ChartGrid
    alt: str
    caption: Inlines = ()
    credit: Inlines = ()
    key: str = ""

    def __post_init__(self) -> None:
        if not self.alt.strip():
            raise ValueError("a figure needs an alternative text")


@dataclass(frozen=True, slots=True)
class TickRow:
    """A line to tick off: its label, a remark such as the count, and how many boxes it has.

    times: how often it is worked, where the boxes do not say it: the sizes differ, and the boxes are those of the size
        with most, or there are too many to tick. Empty where there is a box for each time in every size.
    """

    label: Inlines
    remark: Inlines = ()
    boxes: int = 1
    times: Inlines = ()

    @property
    def says(self) -> Inlines:
        """Times and remark, as they stand behind the boxes."""
        return (*self.times, *((Text("; "),) if self.times and self.remark else ()), *self.remark)


@dataclass(frozen=True, slots=True)
class TickTable:
    """A list of rows with boxes to tick while knitting."""

    caption: Inlines
    rows: tuple[TickRow, ...]
    key: str = ""


@dataclass(frozen=True, slots=True)
class TitlePage:
    """The front page: what it is and what a knitter decides by.

    title: also the document's heading of level 1.
    kicker: a short line over the title (the studio, a collection); may be empty.
    byline: designer and studio; may be empty.
    summary: one or two sentences; may be empty.
    figure: the main picture, or None.
    facts: sizes, finished measures, yarn, needles, gauge, skill.
    notice: for instance that the pattern is invented; may be empty.
    """

    title: Inlines
    kicker: Inlines = ()
    byline: Inlines = ()
    summary: Inlines = ()
    figure: Figure | None = None
    facts: FactList | None = None
    notice: Inlines = ()
    key: str = "title"


@dataclass(frozen=True, slots=True)
class Contents:
    """A list of the document's headings of levels 2 to `depth`, with page numbers where there are pages."""

    title: Inlines
    depth: int = 2
    key: str = "contents"


@dataclass(frozen=True, slots=True)
class KeepTogether:
    """Blocks that belong on one page when they can."""

    blocks: Blocks
    key: str = ""


@dataclass(frozen=True, slots=True)
class Columns:
    """Blocks that may be set in several columns; in reading order they simply follow each other."""

    blocks: Blocks
    count: int = 2
    key: str = ""


@dataclass(frozen=True, slots=True)
class PageBreak:
    """What follows starts a new page where there are pages."""

    key: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """A dividing line, or just room ("space"); it says nothing."""

    kind: Literal["line", "space"] = "line"
    key: str = ""


Block: TypeAlias = (
    Heading
    | Paragraph
    | BulletList
    | NumberedList
    | FactList
    | Table
    | InstructionList
    | Caution
    | Figure
    | TickTable
    | TitlePage
    | Contents
    | KeepTogether
    | Columns
    | PageBreak
    | Rule
)
Blocks: TypeAlias = tuple[Block, ...]

# ── Drawings ──────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Drawing:
    """A schematic or diagram: shapes in mm inside a frame of `width_mm` by `height_mm`.

    words: the drawing said in full, block by block; printed instead of it where there are no drawings.
    """

    width_mm: float
    height_mm: float
    shapes: tuple[Shape, ...]
    words: Blocks = ()


@dataclass(frozen=True, slots=True)
class ChartSymbol:
    """A sign of a chart in a cell of 1 by 1 (x right, y down): shapes, with widths in parts of a cell.

    columns: cells that it spans, so that x runs to that number (a cable).
    name: what the cells call it. meaning: its line in the key (both sides' meaning where they differ).
    text: the sign as a character for renderers without drawings; may be empty.
    """

    name: str
    shapes: tuple[Shape, ...]
    meaning: Inlines
    text: str = ""
    columns: int = 1


@dataclass(frozen=True, slots=True)
class ChartCell:
    """A cell: the name of its symbol ("" for an empty cell), its yarn colour "#rrggbb", or no stitch at all.

    columns: how many cells the sign spans (a cable).
    """

    symbol: str = ""
    colour: str | None = None
    no_stitch: bool = False
    columns: int = 1


@dataclass(frozen=True, slots=True)
class ChartColour:
    """A colour of the chart: its value, the sign that tells it without colour, and its line in the key."""

    colour: str
    meaning: Inlines
    symbol: str = ""


@dataclass(frozen=True, slots=True)
class ChartGrid:
    """A chart. The last row of `rows` is the first that is knitted, at the bottom.

    row_labels: one per row: the number, and the side of the chart where the row starts.
    outlines: repeats as (left, top, right, bottom) in cells, counted from the top left corner.
    column_labels: from left to right, or empty.
    words: the chart written out, always there: no step may depend on a chart.
    """

    rows: tuple[tuple[ChartCell, ...], ...]
    row_labels: tuple[tuple[str, Literal["left", "right"]], ...]
    symbols: tuple[ChartSymbol, ...]
    colours: tuple[ChartColour, ...] = ()
    outlines: tuple[tuple[int, int, int, int], ...] = ()
    column_labels: tuple[str, ...] = ()
    cell_ratio: float = 1.0
    words: Blocks = ()


# ── The document ──────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Meta:
    """What is known of a document besides its text.

    date: ISO text, "2026-11-01"; the only date a renderer may use.
    edition: the words in the footer that tell this edition from others ("metric, A4, size M").
    invented: whether the pattern is a demonstration.
    """

    title: str
    version: str
    date: str
    designer: str = ""
    studio: str = ""
    summary: str = ""
    language: Literal["en-US", "en-GB"] = "en-US"
    terms: Literal["US", "UK"] = "US"
    subject: str = ""
    keywords: tuple[str, ...] = ()
    edition: str = ""
    invented: bool = False


@dataclass(frozen=True, slots=True)
class Document:
    """One edition of a pattern, ready to be rendered."""

    meta: Meta
    blocks: Blocks


# ── Reading a tree ────────────────────────────────────────────────────────────────────────────────


def headings(blocks: Blocks) -> Iterator[Heading]:
    """All headings in reading order, the title among them."""
    for block in walk(blocks):
        if isinstance(block, Heading):
            yield block
        elif isinstance(block, TitlePage):
            yield Heading(1, block.title, block.key)


def walk(blocks: Blocks) -> Iterator[Block]:
    """Every block in reading order, a container before what it holds."""
    for block in blocks:
        yield block
        for inner in _inner(block):
            yield from walk(inner)


def _inner(block: Block) -> tuple[Blocks, ...]:
    match block:
        case BulletList() | NumberedList():
            return block.items
        case Caution() | KeepTogether() | Columns():
            return (block.blocks,)
        case InstructionList():
            return tuple(row.notes for row in block.rows)
        case TitlePage():
            return ((block.figure,) if block.figure else (), (block.facts,) if block.facts else ())
        case _:
            return ()


def _table_lines(rows: tuple[tuple[Cell, ...], ...]) -> Iterator[tuple[Cell, ...]]:
    """Each row as one cell per column it fills, cells that reach down from above included."""
    reaching: list[tuple[Cell, int]] = []
    for row in rows:
        line = [cell for cell in row for _ in range(cell.columns)]
        line += [cell for cell, _ in reaching]
        reaching = [(cell, left - 1) for cell, left in reaching if left > 1]
        reaching += [(cell, cell.rows - 1) for cell in row for _ in range(cell.columns) if cell.rows > 1]
        yield tuple(line)
