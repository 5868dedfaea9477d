"""The same document set by others, without structure: yardsticks for how long pages take.

`by_platypus` is plain ReportLab: paragraphs, tables and drawings with its own layout, no tags, no archive. `as_typst`
writes the markup that Typst sets, and WeasyPrint takes our own web page. All of them use the same faces and sizes.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import Image, Paragraph, SimpleDocTemplate, Spacer, Table, TableStyle

from castoff.document import tree as t

BODY = ParagraphStyle("body", fontName="Text", fontSize=10, leading=14, bulletFontName="Text")
SMALL = ParagraphStyle("small", parent=BODY, fontSize=8.5, leading=11)
HEADS = {
    1: ParagraphStyle("h1", parent=BODY, fontSize=34, leading=40),
    2: ParagraphStyle("h2", parent=BODY, fontSize=17, leading=22, keepWithNext=1),
    3: ParagraphStyle("h3", parent=BODY, fontName="Text-Bold", fontSize=12, leading=16, keepWithNext=1),
}
HANGING = ParagraphStyle("row", parent=BODY, leftIndent=90, bulletIndent=0)


def fonts(assets: Any) -> None:
    """Makes the faces known to ReportLab."""
    for name, file in (("Text", "Spectral-Regular.ttf"), ("Text-Bold", "Spectral-SemiBold.ttf")):
        pdfmetrics.registerFont(TTFont(name, BytesIO(assets(f"fonts/{file}"))))
    pdfmetrics.registerFont(TTFont("Table", BytesIO(assets("fonts/IBMPlexSansCondensed-Regular.ttf"))))
    pdfmetrics.registerFontFamily("Text", "Text", "Text-Bold", "Text", "Text-Bold")


def by_platypus(document: t.Document) -> bytes:
    """The document as plain ReportLab sets it."""
    out = BytesIO()
    template = SimpleDocTemplate(out, pagesize=A4, initialFontName="Text", title=document.meta.title, invariant=1)
    template.build(list(flowables(document.blocks)))
    return out.getvalue()


def markup(inline: t.Inlines) -> str:
    return escape(t.plain_text(inline))


def flowables(blocks: t.Blocks) -> Iterator[Any]:
    for block in blocks:
        match block:
            case t.TitlePage():
                yield Paragraph(markup(block.kicker), SMALL)
                yield Paragraph(markup(block.title), HEADS[1])
                yield Paragraph(markup(block.byline), BODY)
                yield Paragraph(markup(block.summary), BODY)
                yield from flowables(tuple(part for part in (block.figure, block.facts) if part is not None))
                yield Paragraph(markup(block.notice), SMALL)
            case t.Heading():
                yield Spacer(1, 14)
                yield Paragraph(markup(block.inline), HEADS.get(block.level, HEADS[3]))
            case t.Paragraph():
                yield Paragraph(markup(block.inline), BODY if block.role == "body" else SMALL)
            case t.FactList():
                for fact in block.facts:
                    for index, says in enumerate(fact.says):
                        term = t.plain_text(fact.term) if not index else None
                        yield Paragraph(markup(says), HANGING, bulletText=term)
            case t.InstructionList():
                for row in block.rows:
                    stated = f" <b>{markup(row.stated)}</b>" if row.stated else ""
                    label = t.plain_text(row.label) + ":" if row.label else None
                    yield Paragraph(markup(row.text) + stated, HANGING, bulletText=label)
                    yield from flowables(row.notes)
            case t.BulletList() | t.NumberedList():
                for item in block.items:
                    yield from flowables(item)
            case t.Caution():
                yield Paragraph(markup(block.title), BODY)
                yield from flowables(block.blocks)
            case t.Table():
                rows = [[t.plain_text(cell.inline) for cell in row] for row in (*block.head, *block.body)]
                looks = [
                    ("FONT", (0, 0), (-1, -1), "Table", 8),
                    ("LINEBELOW", (0, 0), (-1, -1), 0.35, colors.grey),
                ]
                yield Paragraph(markup(block.caption), BODY)
                yield Table(rows, repeatRows=len(block.head), style=TableStyle(looks))
            case t.TickTable():
                for tick in block.rows:
                    yield Paragraph(f"{markup(tick.label)} {'☐ ' * tick.boxes}{markup(tick.says)}", BODY)
            case t.Figure():
                if isinstance(block.content, t.Picture):
                    yield Image(
                        BytesIO(block.content.data), 300, 300 * block.content.height_px / block.content.width_px
                    )
                yield Paragraph(markup(block.caption), SMALL)
            case t.KeepTogether() | t.Columns():
                yield from flowables(block.blocks)


def as_typst(document: t.Document) -> str:
    """The document's text as Typst markup, for its own layout and tagging."""
    head = [
        f'#set document(title: "{typst_string(document.meta.title)}", date: none)',
        '#set text(font: "Spectral", size: 10pt, lang: "en")',
        '#set page(paper: "a4", margin: 24mm)',
    ]
    return "\n".join([*head, *typst_blocks(document.blocks)])


def typst_string(text: str) -> str:
    return text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ")


def typst_text(inline: t.Inlines) -> str:
    return f'#text("{typst_string(t.plain_text(inline))}")'


def typst_blocks(blocks: t.Blocks) -> Iterator[str]:
    for block in blocks:
        match block:
            case t.TitlePage():
                yield f"= {typst_text(block.title)}\n"
                yield from (
                    f"{typst_text(part)}\n" for part in (block.kicker, block.byline, block.summary, block.notice)
                )
                yield from typst_blocks((block.facts,) if block.facts else ())
            case t.Heading():
                yield f"{'=' * block.level} {typst_text(block.inline)}\n"
            case t.Paragraph():
                yield typst_text(block.inline) + "\n"
            case t.FactList():
                yield from (f"/ {typst_text(one.term)}: {' '.join(map(typst_text, one.says))}" for one in block.facts)
            case t.InstructionList():
                for row in block.rows:
                    label = row.label or (t.Text("–"),)
                    yield f"/ {typst_text(label)}: {typst_text(row.text)} *{typst_text(row.stated or ())}*"
            case t.BulletList() | t.NumberedList():
                for item in block.items:
                    yield "- " + " ".join(typst_blocks(item)).replace("\n", " ")
            case t.Caution():
                yield typst_text(block.title) + "\n"
                yield from typst_blocks(block.blocks)
            case t.Table():
                cells = ", ".join(f"[{typst_text(cell.inline)}]" for row in (*block.head, *block.body) for cell in row)
                yield f"#table(columns: {block.column_count}, {cells})\n"
            case t.TickTable():
                yield from (f"- {typst_text(tick.label)} {'☐' * tick.boxes}" for tick in block.rows)
            case t.KeepTogether() | t.Columns():
                yield from typst_blocks(block.blocks)
