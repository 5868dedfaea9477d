"""Documents put together at random: each is set in every style and passes the checkers, and no renderer stumbles."""

from __future__ import annotations

import random

import page
import pytest
from tests.render import samples

from castoff.document import tree as t
from castoff.document.edition import Edition, Paper
from castoff.render.html import render_html
from castoff.render.pdf.faces import Faces, load_faces
from castoff.render.pdf.press import render_pdf
from castoff.render.pdf.sheet import Run, Sheet
from castoff.render.style import Style, load_style
from castoff.render.text import render_text

LETTERS = "abcdeknit½¼(),*"
PAPERS: tuple[Paper, ...] = ("A4", "Letter", "either")
ROLES: tuple[t.Role, ...] = ("body", "lead", "note", "credit", "colophon", "small", "notice")
STYLES: tuple[tuple[Style, Faces], ...] = tuple(
    (style, load_faces(style, samples.assets))
    for style in (load_style(name, samples.assets) for name in ("saltmarsh", "lighthouse", "large-print"))
)


class Author:
    """Writes a document from a seed."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)
        self.figures = 0

    def words(self, least: int, most: int) -> t.Text:
        pick = self.random
        count = pick.randint(least, most)
        return t.Text(" ".join("".join(pick.choices(LETTERS, k=pick.randint(1, 12))) for _ in range(count)))

    def inline(self, depth: int = 0) -> t.Inlines:
        return tuple(self.node(depth) for _ in range(self.random.randint(0 if depth else 1, 4)))

    def node(self, depth: int) -> t.Inline:
        pick = self.random
        kind = pick.randint(0, 10 if depth < 2 else 6)
        match kind:
            case 3:
                values = [pick.randint(1, 4000) for _ in range(pick.randint(1, 14))]
                return samples.per_size(*values, unit=pick.choice(["", "cm"]))
            case 4:
                return t.Quantity("10", "cm")
            case 5:
                return samples.k2tog()
            case 6:
                return t.LineBreak()
            case 7:
                return t.Strong(self.inline(depth + 1))
            case 8:
                return t.Emphasis(self.inline(depth + 1))
            case 9:
                return t.NoBreak((self.words(1, 3),))
            case 10:
                return t.Link((self.words(0, 3),), pick.choice(["https://example.org/x", "#title"]))
            case _:
                return self.words(0, 25)

    def blocks(self, most: int, depth: int = 0) -> t.Blocks:
        return tuple(self.block(depth) for _ in range(self.random.randint(0, most)))

    def block(self, depth: int) -> t.Block:
        pick = self.random
        match pick.randint(0, 14 if depth < 2 else 9):
            case 0:
                return t.Heading(pick.randint(2, 4), (self.words(1, 4), *self.inline(3)))
            case 1:
                facts = tuple(
                    t.Fact(self.inline(), tuple(self.inline() for _ in range(pick.randint(0, 3))))
                    for _ in range(pick.randint(0, 9))
                )
                return t.FactList(facts, "glossary" if pick.random() < 0.5 else "facts")
            case 2:
                return self.table()
            case 3:
                return t.Figure(samples.schematic(), self.alt(), self.inline(), self.inline())
            case 4:
                return t.Figure(samples.chart(), self.alt())
            case 5:
                rows = tuple(
                    t.TickRow(self.inline(), self.inline(), pick.randint(1, 60), pick.choice([(), self.inline()]))
                    for _ in range(pick.randint(0, 14))
                )
                return t.TickTable(self.inline(), rows)
            case 6:
                breaks: tuple[t.Block, ...] = (t.PageBreak(), t.Rule(), t.Rule("space"))
                return pick.choice(breaks)
            case 10:
                items = tuple(self.blocks(3, depth + 1) for _ in range(pick.randint(0, 3)))
                return t.NumberedList(items, pick.randint(1, 200)) if pick.random() < 0.5 else t.BulletList(items)
            case 11:
                return t.InstructionList(tuple(self.row(depth) for _ in range(pick.randint(0, 12))))
            case 12:
                return t.Caution(self.inline(), self.blocks(3, depth + 1))
            case 13:
                return t.KeepTogether(self.blocks(3, depth + 1))
            case 14:
                return t.Columns(self.blocks(4, depth + 1), pick.randint(1, 3))
            case _:
                return t.Paragraph(self.inline(), pick.choice(ROLES))

    def alt(self) -> str:
        self.figures += 1
        return f"Figure {self.figures}"

    def row(self, depth: int) -> t.InstructionRow:
        pick = self.random
        label = self.inline() if pick.random() < 0.7 else None
        stated = self.inline() if pick.random() < 0.5 else None
        notes = self.blocks(2, depth + 2) if pick.random() < 0.2 else ()
        return t.InstructionRow(label, self.inline(), stated, notes, pick.randint(0, 2))

    def table(self) -> t.Table:
        pick = self.random
        columns = pick.randint(1, 15)
        aligns: tuple[t.Align, ...] = ("left", "right", "decimal", "center")
        head = tuple(
            tuple(t.Cell(self.inline() if pick.random() < 0.2 else (t.Text("S"),), "column") for _ in range(columns))
            for _ in range(pick.randint(0, 2))
        )
        body = tuple(
            tuple(
                t.Cell((t.Text(str(pick.randint(1, 9999))),), None if column else "row", pick.choice(aligns))
                for column in range(columns)
            )
            for _ in range(pick.randint(1, 40))
        )
        return t.Table(self.inline() if pick.random() < 0.6 else (), head, body, pick.random() < 0.5)

    def document(self) -> t.Document:
        figure = samples.photograph() if self.random.random() < 0.5 else None
        front = t.TitlePage((t.Text("Cap"), self.words(0, 9)), summary=self.inline(), figure=figure)
        return t.Document(samples.meta(), (front, t.Contents((t.Text("Contents"),), 3), *self.blocks(12)))


Piece = tuple[int, float, float, float, float, str]
"""page, base line, left, right, size, text"""


def overlaps(pieces: list[Piece]) -> list[tuple[str, str]]:
    """Pieces of text that stand on each other: base lines closer than the type is high, and widths that meet."""
    found = []
    for index, (page_index, y, left, right, size, text) in enumerate(sorted(pieces)):
        for other_page, other_y, other_left, other_right, other_size, other in sorted(pieces)[index + 1 :]:
            if other_page != page_index or other_y - y >= 0.62 * min(size, other_size):
                break
            if min(right, other_right) - max(left, other_left) > 1.0:
                found.append((text, other))
    return found


@pytest.mark.parametrize("seed", range(100, 130))
def test_no_text_stands_on_other_text_or_off_the_page(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    pieces: list[Piece] = []
    draw = Sheet.runs

    def runs(self: Sheet, y: float, placed: list[tuple[float, Run]], line_end: bool = False) -> None:
        for x, run in placed:
            if run.text.strip():
                pieces.append((self.page_index, y, x, x + run.width, run.size, run.text))
        draw(self, y, placed, line_end)

    monkeypatch.setattr(Sheet, "runs", runs)
    style, faces = STYLES[seed % 3]
    render_pdf(Author(seed).document(), Edition(), style, samples.assets, faces)
    assert pieces
    assert overlaps(pieces) == []
    right_edge = 595.3 - style.page.right_mm * 72 / 25.4 + 1.0
    for _, y, left, right, _, text in pieces:
        assert style.page.left_mm * 72 / 25.4 - 1.0 <= left, text
        assert right - (len(text) - len(text.rstrip())) * 6.0 <= right_edge, text
        assert y > style.page.footer_mm * 72 / 25.4 - 1.0, text


@pytest.mark.parametrize("seed", range(24))
def test_any_document_passes_and_reads(seed: int) -> None:
    document = Author(seed).document()
    style, faces = STYLES[seed % 3]
    data = render_pdf(document, Edition(paper=PAPERS[seed // 3 % 3]), style, samples.assets, faces)
    for profile in (page.ValidationProfile.PDF_UA_1, page.ValidationProfile.PDF_A_2A):
        assert [str(failure) for failure in page.validate_pdf_bytes(data, profile=profile).failures] == []
    assert render_text(document).startswith(b"# Cap")
    assert render_html(document, style).endswith(b"</html>\n")
