"""Whole PDFs: what the checkers say, what can be read back, that the same input gives the same bytes."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from typing import Any

import page
import pypdf
import pypdfium2
import pytest
from tests.render import samples

from castoff.document import tree as t
from castoff.document.edition import Edition
from castoff.render.pdf.faces import MissingCharacter
from castoff.render.pdf.press import render_pdf
from castoff.render.pdf.sheet import DanglingLink
from castoff.render.style import load_style

PROFILES = (page.ValidationProfile.PDF_UA_1, page.ValidationProfile.PDF_A_2A)
STYLES = ("saltmarsh", "lighthouse", "large-print")


def pdf(document: t.Document, style: str = "saltmarsh", edition: Edition | None = None) -> bytes:
    chosen = edition or Edition(reading="large" if style == "large-print" else "standard")
    return render_pdf(document, chosen, load_style(style, samples.assets), samples.assets)


def read(data: bytes) -> Any:
    """The file as an independent reader sees it."""
    return pypdf.PdfReader(BytesIO(data))


def words(text: str) -> list[str]:
    return text.replace("\u00a0", " ").split()


def extracted(data: bytes) -> list[str]:
    """The words of the pages in the order of the file, running feet left out."""
    found: list[str] = []
    for sheet in pypdfium2.PdfDocument(data):
        lines = sheet.get_textpage().get_text_range().replace("\r", "").split("\n")
        found += words("\n".join(line for line in lines if not re.search(r"Page \d+ of \d+", line)))
    return found


def said(blocks: t.Blocks) -> Iterator[str]:
    """What a standard edition says, block by block, in reading order."""
    for block in blocks:
        match block:
            case t.TitlePage():
                yield from (t.plain_text(part) for part in (block.kicker, block.title, block.byline, block.summary))
                if block.figure:
                    yield t.plain_text(block.figure.caption)
                    yield t.plain_text(block.figure.credit)
                if block.facts:
                    yield from said((block.facts,))
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
                    yield from said(line.notes)
            case t.NumberedList():
                for number, item in enumerate(block.items, block.start):
                    yield f"{number}."
                    yield from said(item)
            case t.BulletList():
                for item in block.items:
                    yield "•"
                    yield from said(item)
            case t.Caution():
                yield t.plain_text(block.title)
                yield from said(block.blocks)
            case t.TickTable():
                yield t.plain_text(block.caption)
                for tick in block.rows:
                    yield t.plain_text(tick.label)
                    yield t.plain_text(tick.remark)
            case t.PageBreak() | t.Rule():
                pass
            case _:
                raise AssertionError(f"the text of {type(block).__name__} is not told here")


def failures(data: bytes) -> list[str]:
    return [str(failure) for profile in PROFILES for failure in page.validate_pdf_bytes(data, profile=profile).failures]


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("name", ["cap", "twelve"])
@pytest.mark.parametrize("paper", ["A4", "Letter", "either"])
def test_passes_pdf_ua_1_and_pdf_a_2a(name: str, style: str, paper: str) -> None:
    reading = "large" if style == "large-print" else "standard"
    data = pdf(getattr(samples, name)(), style, Edition(paper=paper, reading=reading))  # type: ignore[arg-type]
    assert failures(data) == []


BROKEN = [
    (b"/Marked true", b"/Marked none"),
    (b"/DisplayDocTitle true", b"/DisplayDocTitle nope"),
    (b"/Tabs /S", b"/Tabs /R"),
    (b"/Scope/", b"/Scape/"),
    (b"/Alt(Schematic", b"/Alx(Schematic"),
    (b"/S/LBody", b"/S/LBodx"),
    (b"/S/H2", b"/S/H4"),
    (b"<pdfuaid:part>1", b"<pdfuaid:part>7"),
    (b"<pdfaid:conformance>A", b"<pdfaid:conformance>Q"),
    (b"/FontFile2", b"/FontFilex"),
    (b"/ToUnicode", b"/ToUnicodx"),
    (b"/Contents(Help", b"/Contentx(Help"),
]


@pytest.mark.parametrize(("whole", "broken"), BROKEN)
def test_the_checkers_see_a_broken_tree(whole: bytes, broken: bytes) -> None:
    data = pdf(samples.cap())
    assert whole in data
    assert failures(data.replace(whole, broken)) != []


@pytest.mark.parametrize("style", ["saltmarsh", "lighthouse"])
def test_the_text_read_back_is_the_tree_s_text_in_order(style: str) -> None:
    document = samples.cap()
    without_figures = tuple(
        replace(block, figure=None) if isinstance(block, t.TitlePage) else block
        for block in document.blocks
        if not isinstance(block, t.Figure) and not (isinstance(block, t.FactList) and block.kind == "glossary")
    )
    expected = [word for text in said(without_figures) for word in words(text)]
    assert extracted(pdf(replace(document, blocks=without_figures), style)) == expected


def test_fractions_and_signs_come_back_as_themselves() -> None:
    signs = "½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ⅓ × – — ° ′ ″ → ☐ ✓ cast‑on"
    for style in STYLES:
        blocks = (t.TitlePage((t.Text("Signs"),)), t.Paragraph((t.Text(signs),)))
        if style != "saltmarsh":
            blocks = (blocks[0], t.Paragraph((t.Text(signs.replace(" ☐", "")),)))
        data = pdf(t.Document(samples.meta("Signs"), blocks), style)
        assert t.plain_text(blocks[1].inline) in " ".join(extracted(data))
        assert failures(data) == []


def test_a_character_nobody_can_draw_is_named() -> None:
    blocks = (t.TitlePage((t.Text("Yarn 毛糸"),)),)
    with pytest.raises(MissingCharacter, match=r"neither Spectral-Regular nor Andika-Regular has .* \(U\+6BDB\)"):
        pdf(t.Document(samples.meta("Yarn"), blocks))


def test_a_link_to_nowhere_is_named() -> None:
    blocks = (t.TitlePage((t.Text("Cap"),)), t.Paragraph((t.Link((t.Text("crown"),), "#crown"),)))
    with pytest.raises(DanglingLink, match="`#crown`"):
        pdf(t.Document(samples.meta("Cap"), blocks))


def test_links_lead_to_pages_and_addresses() -> None:
    reader = read(pdf(samples.twelve()))
    goals = [note.get_object()["/Dest"][0].get_object() for note in reader.pages[0]["/Annots"]]
    pages = [sheet.get_object() for sheet in reader.pages]
    printed = re.findall(r"(?:Sizes|Back) (\d+)", reader.pages[0].extract_text())
    assert [pages.index(goal) + 1 for goal in goals] == [int(number) for number in printed]
    assert len(printed) == 2
    cap = read(pdf(samples.cap()))
    notes = [note.get_object() for sheet in cap.pages for note in sheet.get("/Annots", [])]
    assert [(note["/A"]["/URI"], note["/Contents"]) for note in notes] == [
        ("https://example.org/cap", "Help with the Saltgrass Cap")
    ]


def test_every_font_is_embedded_as_a_subset() -> None:
    reader = read(pdf(samples.cap()))
    fonts = {}
    for sheet in reader.pages:
        for name, font in sheet["/Resources"]["/Font"].items():
            fonts[name] = font.get_object()
    assert fonts
    for font in fonts.values():
        assert re.match(r"/[A-K]{6}\+", font["/BaseFont"])
        assert "/FontFile2" in font["/FontDescriptor"]


def test_bookmarks_follow_the_headings() -> None:
    reader = read(pdf(samples.cap()))

    def titles(entries: list[Any]) -> list[Any]:
        return [titles(entry) if isinstance(entry, list) else entry["/Title"] for entry in entries]

    assert titles(reader.outline) == [
        "Saltgrass Cap",
        ["Before you start", ["Abbreviations", "Schematic"], "Brim", "Body", "Crown", "Finishing"],
    ]


def test_metadata_say_the_document_s_own_date() -> None:
    reader = read(pdf(samples.cap()))
    assert reader.metadata is not None
    assert reader.metadata.title == "Saltgrass Cap"
    assert reader.metadata.author == "Ines Farrow, Saltgrass & Tern"
    assert str(reader.metadata["/CreationDate"]).startswith("D:20261101000000")
    assert reader.trailer["/Root"]["/Lang"] == "en-US"


PROGRAM = """
import sys, hashlib
sys.path[:0] = [{root!r}]
from tests.render import samples
from castoff.document.edition import Edition
from castoff.render.pdf.press import render_pdf
from castoff.render.style import load_style
for name in ("saltmarsh", "large-print"):
    for document in (samples.cap(), samples.twelve()):
        data = render_pdf(document, Edition(), load_style(name, samples.assets), samples.assets)
        print(hashlib.sha256(data).hexdigest())
"""


def test_the_same_bytes_in_every_process() -> None:
    root = str(Path(__file__).parents[2])
    outputs = []
    for seed, epoch in (("0", "0"), ("4711", "1700000000")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": epoch}
        made = subprocess.run(
            [sys.executable, "-c", PROGRAM.format(root=root)], env=environment, capture_output=True, check=True
        )
        outputs.append(made.stdout)
    assert outputs[0] == outputs[1]
    assert len(set(outputs[0].split())) == 4


def test_other_contents_give_another_identifier() -> None:
    first, second = samples.cap(), replace(samples.cap(), meta=samples.meta("Other Cap"))
    identifiers = [read(pdf(document)).trailer["/ID"][0] for document in (first, second)]
    assert identifiers[0] != identifiers[1]


@pytest.mark.parametrize("style", STYLES)
def test_nothing_is_wider_than_the_page_s_text(style: str) -> None:
    data = pdf(samples.twelve(), style)
    spaces = load_style(style, samples.assets).page
    for sheet in pypdfium2.PdfDocument(data):
        width, _ = sheet.get_size()
        text = sheet.get_textpage()
        for index in range(text.count_chars()):
            left, _, right, _ = text.get_charbox(index)
            if not text.get_text_range(index, 1).strip():
                continue
            assert left >= spaces.left_mm * 72 / 25.4 - 1.5
            assert right <= width - spaces.right_mm * 72 / 25.4 + 1.5


def test_either_paper_keeps_the_text_where_both_print_it() -> None:
    data = pdf(samples.cap(), edition=Edition(paper="either"))
    free = 33 * 72 / 25.4
    for sheet in pypdfium2.PdfDocument(data):
        assert [round(side, 1) for side in sheet.get_size()] == [595.3, 841.9]
        text = sheet.get_textpage()
        boxes = [text.get_charbox(index) for index in range(text.count_chars())]
        assert min(bottom for _, bottom, _, top in boxes if top > bottom) >= free - 3
        assert max(top for _, bottom, _, top in boxes if top > bottom) <= 841.9 - free + 3


def test_large_print_keeps_its_rules() -> None:
    data = pdf(samples.cap(), "large-print")
    assert "•" not in " ".join(extracted(data))
    sizes = set()
    for sheet in read(data).pages:
        for size in re.findall(rb"/F\S+ ([\d.]+) Tf", sheet.get_contents().get_data()):
            sizes.add(float(size))
    assert min(sizes) >= 22
    fonts = re.findall(rb"/BaseFont /[A-K]{6}\+(\S+)", data)
    assert set(fonts) == {b"Andika", b"Andika-Bold"}


def test_no_page_but_the_last_ends_in_a_heading_and_rows_stay_whole() -> None:
    data = pdf(samples.twelve())
    pages = [sheet.get_textpage().get_text_range() for sheet in pypdfium2.PdfDocument(data)]
    rows = [text for text in pages if "Row " in text]
    assert len(rows) > 2
    for text in rows:
        assert len(re.findall(r"Row \d+ \(RS\):", text)) == text.count("sts remain.")
    for before, _ in pairwise(pages):
        last = [line for line in before.splitlines() if line and "Page " not in line][-1]
        assert last not in ("Sizes", "Back")
