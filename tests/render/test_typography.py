"""Nothing off the page, nothing over anything else, no page of a few lines: at one size and at twelve with four digits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pypdfium2
import pytest
from PIL import ImageOps
from tests.render import samples

from castoff.document import tree as t
from castoff.document.edition import Edition, Paper
from castoff.render.pdf.press import EITHER_TOP_BOTTOM_MM, render_pdf
from castoff.render.style import load_style

MM = 72 / 25.4


def only(document: t.Document, index: int) -> t.Document:
    """A document with the numbers of one size alone."""

    def inline(given: t.Inlines) -> t.Inlines:
        return tuple(replace(node, shown=index) if isinstance(node, t.SizeList) else node for node in given)

    def block(given: t.Block) -> t.Block:
        if isinstance(given, t.InstructionList):
            rows = tuple(
                replace(row, text=inline(row.text), stated=inline(row.stated) if row.stated else None)
                for row in given.rows
            )
            return replace(given, rows=rows)
        if isinstance(given, t.Table):
            return replace(given, head=tuple(row[:2] for row in given.head), body=tuple(row[:2] for row in given.body))
        return given

    return replace(document, blocks=tuple(map(block, document.blocks)))


DOCUMENTS = ("one", "twelve", "cap")
STYLES = ("saltmarsh", "lighthouse", "large-print")
PAPERS: tuple[Paper, ...] = ("A4", "Letter", "either")


@cache
def data(name: str, style: str, paper: Paper) -> bytes:
    document = only(samples.twelve(), 3) if name == "one" else getattr(samples, name)()
    edition = Edition(paper=paper, reading="large" if style == "large-print" else "standard")
    return render_pdf(document, edition, load_style(style, samples.assets), samples.assets)


def sheets(name: str, style: str, paper: Paper) -> Iterator[tuple[int, Any]]:
    yield from enumerate(pypdfium2.PdfDocument(data(name, style, paper)))


every = pytest.mark.parametrize(
    ("name", "style", "paper"), [(name, style, paper) for name in DOCUMENTS for style in STYLES for paper in PAPERS]
)


@every
def test_all_ink_is_inside_the_margins(name: str, style: str, paper: Paper) -> None:
    page = load_style(style, samples.assets).page
    head, foot = page.top_mm, page.footer_mm
    if paper == "either":
        head, foot = max(head, EITHER_TOP_BOTTOM_MM), max(foot, EITHER_TOP_BOTTOM_MM)
    for index, sheet in sheets(name, style, paper):
        seen = sheet.render(scale=2, grayscale=True).to_pil().convert("L")
        ink = ImageOps.invert(seen).point(lambda shade: 255 if shade > 60 else 0).getbbox()
        assert ink is not None
        left, top, right, bottom = (side / 2 for side in ink)
        width, height = sheet.get_size()
        if style == "lighthouse" and index == 0:
            # the band of the title page goes to the edges of the paper on purpose
            assert (left, top, right) == pytest.approx((0, 0, width), abs=1)
        else:
            assert left >= page.left_mm * MM - 2
            assert right <= width - page.right_mm * MM + 2
            assert top >= head * MM - 2
        assert bottom <= height - foot * MM + 8


@every
def test_no_line_stands_on_another(name: str, style: str, paper: Paper) -> None:
    for index, sheet in sheets(name, style, paper):
        boxes = [drawn.get_bounds() for drawn in sheet.get_objects([pypdfium2.raw.FPDF_PAGEOBJ_TEXT])]
        assert len(boxes) > 3
        boxes.sort()
        for place, (left, bottom, right, top) in enumerate(boxes):
            for other_left, other_bottom, other_right, other_top in boxes[place + 1 :]:
                if other_left >= right:
                    break
                wide = min(right, other_right) - other_left
                high = min(top, other_top) - max(bottom, other_bottom)
                # glyphs of neighbouring words may touch; the boxes of a schematic's turned labels are upright
                assert wide < 2.0 or high < 2.0, (index, (left, bottom, right, top), (other_left, other_bottom))


@every
def test_the_last_page_is_more_than_a_few_lines(name: str, style: str, paper: Paper) -> None:
    texts = [sheet.get_textpage().get_text_range() for _, sheet in sheets(name, style, paper)]
    lines = [line for line in texts[-1].splitlines() if line.strip() and "Page " not in line]
    assert len(texts) == 1 or len(lines) > 3


@every
def test_lines_begin_and_end_where_they_may(name: str, style: str, paper: Paper) -> None:
    """No line ends in an opening bracket or begins with what closes one, nor with the unit of a number."""
    for _, sheet in sheets(name, style, paper):
        for line in sheet.get_textpage().get_text_range().splitlines():
            said = line.strip()
            assert not said.endswith(("(", "–\u00a0"))
            assert not said.startswith((")", ",", ";", ".", "sts", "cm", "in)"))
