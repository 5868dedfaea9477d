"""Plain text: an edition for screen readers, braille displays and search.

In: a `Document`. Out: UTF-8 text. One paragraph, row or fact is one line, however long, since a reader's own device
breaks lines; a blank line parts blocks. Headings stand on lines of their own with as many "#" as their level. Tables
are said row by row, drawings and charts in their words. Nothing is drawn with characters.
"""

from __future__ import annotations

from castoff.document.tree import (
    Block,
    Blocks,
    BulletList,
    Caution,
    Columns,
    Contents,
    Document,
    Emphasis,
    FactList,
    Figure,
    Heading,
    Inlines,
    InstructionList,
    KeepTogether,
    Link,
    NoBreak,
    NumberedList,
    PageBreak,
    Paragraph,
    Picture,
    Rule,
    Strong,
    Table,
    TickTable,
    TitlePage,
    headings,
    plain_text,
)
from castoff.render.linear import table_in_words


def render_text(document: Document, pictures: bool = True) -> bytes:
    """The document as text that ends in a line end. pictures: whether photographs are described."""
    chunks = _Reader(document, pictures).chunks(document.blocks)
    return ("\n\n".join(chunk for chunk in chunks if chunk) + "\n").encode("utf-8")


def line_of(inline: Inlines) -> str:
    """Inline text as a screen reader takes it: plain spaces, its own line breaks."""
    return plain_text(inline).replace("\u00a0", " ").replace("\u2011", "-")


def _addresses(inline: Inlines) -> str:
    """Where a paragraph's links lead, in brackets behind it: plain text has no other way to say so."""
    found: list[str] = []
    for node in inline:
        if isinstance(node, Link):
            target = node.target.removeprefix("mailto:")
            if not target.startswith("#") and target not in plain_text(node.inline):
                found.append(target)
        elif isinstance(node, Strong | Emphasis | NoBreak):
            found += [address for address in [_addresses(node.inline).strip(" ()")] if address]
    return f" ({', '.join(found)})" if found else ""


class _Reader:
    """Reads the blocks of one document out."""

    def __init__(self, document: Document, pictures: bool) -> None:
        self.document = document
        self.pictures = pictures

    def chunks(self, blocks: Blocks) -> list[str]:
        """One text for each block, or several."""
        return [chunk for block in blocks for chunk in self.chunk(block) if chunk.strip()]

    def chunk(self, block: Block) -> list[str]:
        match block:
            case TitlePage():
                return self.title_page(block)
            case Heading():
                return [f"{'#' * block.level} {line_of(block.inline)}"]
            case Paragraph():
                return [line_of(block.inline) + _addresses(block.inline)]
            case BulletList():
                return ["\n".join(self.item("-", item) for item in block.items)]
            case NumberedList():
                return ["\n".join(self.item(f"{n}.", item) for n, item in enumerate(block.items, block.start))]
            case FactList():
                return self.facts(block)
            case Table():
                return self.chunks(table_in_words(block))
            case InstructionList():
                return self.rows(block)
            case Caution():
                return [f"Caution: {line_of(block.title)}", *self.chunks(block.blocks)]
            case Figure():
                return self.figure(block)
            case TickTable():
                return self.ticks(block)
            case Contents():
                entries = [heading for heading in headings(self.document.blocks) if 2 <= heading.level <= block.depth]
                lines = "\n".join(f"{'  ' * (entry.level - 2)}{line_of(entry.inline)}" for entry in entries)
                return [f"{line_of(block.title)}:\n{lines}"]
            case KeepTogether() | Columns():
                return self.chunks(block.blocks)
            case PageBreak() | Rule():
                return []

    def title_page(self, block: TitlePage) -> list[str]:
        made = [line_of(block.kicker), f"# {line_of(block.title)}", line_of(block.byline), line_of(block.summary)]
        if block.figure is not None:
            made += self.figure(block.figure)
        if block.facts is not None:
            made += self.facts(block.facts)
        return [*made, line_of(block.notice)]

    def item(self, mark: str, blocks: Blocks) -> str:
        return f"{mark} " + "\n  ".join("\n".join(self.chunks(blocks)).split("\n"))

    def facts(self, block: FactList) -> list[str]:
        lines = []
        for fact in block.facts:
            says = ""
            for part in (part for paragraph in fact.says for part in line_of(paragraph).split("\n") if part):
                says += part if not says else f" {part}" if says.endswith((".", ":")) else f"; {part}"
            lines.append(f"{line_of(fact.term)}: {says}")
        return ["\n".join(lines)]

    def rows(self, block: InstructionList) -> list[str]:
        made: list[str] = []
        for row in block.rows:
            parts = [f"{line_of(row.label)}:"] if row.label is not None else []
            parts.append(line_of(row.text))
            if row.stated is not None:
                parts.append(line_of(row.stated))
            made.append(" ".join(part for part in parts if part))
            made += self.chunks(row.notes)
        return made

    def figure(self, block: Figure) -> list[str]:
        if isinstance(block.content, Picture):
            if not self.pictures:
                return []
            return [f"Picture: {block.alt}", line_of(block.caption), line_of(block.credit)]
        return [line_of(block.caption), *(self.chunks(block.content.words) or [block.alt])]

    def ticks(self, block: TickTable) -> list[str]:
        lines = [line_of(block.caption)] if block.caption else []
        for row in block.rows:
            remark = f", {line_of(row.says)}" if row.says else ""
            times = f" ({row.boxes} times)" if row.boxes > 1 and not row.times else ""
            lines.append(f"{line_of(row.label)}{times}{remark}")
        return ["\n".join(lines)]
