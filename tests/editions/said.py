"""What an edition ought to say, from its document tree alone, to be held against what a reader finds in the file."""

from __future__ import annotations

from collections.abc import Iterator

from tests.editions.structure import Node, tidy

from castoff.document import tree as t

MARKS = frozenset("•-–:;,#()")
"""Signs that one edition sets where another has a place of its own on the page."""


def said(blocks: t.Blocks, pictures: bool = True) -> Iterator[str]:
    """A page edition's text in reading order, block by block; figures say their alternative text."""
    for block in blocks:
        match block:
            case t.TitlePage():
                yield from (t.plain_text(part) for part in (block.kicker, block.title, block.byline, block.summary))
                if block.figure:
                    yield from said((block.figure,), pictures)
                if block.facts:
                    yield from said((block.facts,), pictures)
                yield t.plain_text(block.notice)
            case t.Heading() | t.Paragraph():
                yield t.plain_text(block.inline)
            case t.FactList():
                for fact in block.facts:
                    yield t.plain_text(fact.term)
                    yield from (t.plain_text(part) for part in fact.says)
            case t.Table():
                yield t.plain_text(block.caption)
                for row in (*block.head, *block.body):
                    yield from (t.plain_text(cell.inline) for cell in row)
            case t.InstructionList():
                for line in block.rows:
                    if line.label:
                        yield t.plain_text(line.label) + ":"
                    yield t.plain_text(line.text)
                    yield t.plain_text(line.stated or ())
                    yield from said(line.notes, pictures)
            case t.NumberedList():
                for number, item in enumerate(block.items, block.start):
                    yield f"{number}."
                    yield from said(item, pictures)
            case t.BulletList():
                for item in block.items:
                    yield "•"
                    yield from said(item, pictures)
            case t.Caution():
                yield t.plain_text(block.title)
                yield from said(block.blocks, pictures)
            case t.Figure():
                if pictures or not isinstance(block.content, t.Picture):
                    yield block.alt
                    yield t.plain_text(block.caption)
                    yield t.plain_text(block.credit)
            case t.TickTable():
                yield t.plain_text(block.caption)
                for tick in block.rows:
                    yield t.plain_text(tick.label)
                    yield f"({tick.boxes} times)" if tick.boxes > 1 and not tick.times else ""
                    yield t.plain_text(tick.says)
            case t.KeepTogether() | t.Columns():
                yield from said(block.blocks, pictures)
            case t.PageBreak() | t.Rule():
                pass
            case _:
                raise AssertionError(f"the text of {type(block).__name__} is not told here")


def heard(node: Node) -> Iterator[str]:
    """What the structure tree of a PDF says, in reading order; the inside of a figure is drawn, not read."""
    if node.tag == "Figure":
        yield node.alt
    elif node.speaks:
        yield node.text
    else:
        for kid in node.elements:
            yield from heard(kid)


def words(pieces: Iterator[str] | list[str]) -> list[str]:
    """The words of some texts."""
    return [word for piece in pieces for word in tidy(piece.replace("\u2011", "-")).split()]


def read_out(node: Node, photographs: frozenset[str]) -> Iterator[str]:
    """A PDF's structure as a screen reader that knows no pages says it: tables row by row with the headings that their
    scopes give, photographs announced, entries of the contents without their page. photographs: their alternative texts.
    """
    if node.tag == "Figure":
        yield f"Picture {node.alt}" if node.alt in photographs else node.alt
    elif node.tag == "TOCI":
        yield node.text.rsplit(" ", 1)[0]
    elif node.tag == "Div":
        yield "Caution"
        for kid in node.elements:
            yield from read_out(kid, photographs)
    elif node.tag == "Table":
        yield from table_out(node)
    elif node.speaks:
        yield node.text
    else:
        for kid in node.elements:
            yield from read_out(kid, photographs)


def table_out(table: Node) -> Iterator[str]:
    """A table from its header cells alone: each row's heading, then every filled cell behind its column's heading."""
    yield from (caption.text for caption in table.children("Caption"))
    heads: list[str] = []
    for row in (row for part in table.children("THead") for row in part.children("TR")):
        cells = row.elements
        assert not heads, "a second row of heads needs a reader that joins them"
        assert all((cell.tag == "TH" and cell.attributes["/Scope"] == "/Column") or not cell.text for cell in cells)
        heads = [cell.text for cell in cells]
    for row in (row for part in table.children("TBody") for row in part.children("TR")):
        cells = row.elements
        for place, cell in enumerate(cells):
            if cell.tag == "TH":
                assert cell.attributes["/Scope"] == "/Row" and place == 0
                yield cell.text
            elif cell.text:
                yield from ((heads[place],) if heads else ())
                yield cell.text


def bare(pieces: Iterator[str] | list[str]) -> list[str]:
    """Words without the signs that editions set differently."""
    found = []
    for word in words(pieces):
        stripped = word.strip("".join(MARKS))
        if stripped:
            found.append(stripped)
    return found
