"""Every page edition of the catalogue, read by readers that are not its writer: checkers, structure, text, rows."""

from __future__ import annotations

import re
from functools import cache
from itertools import groupby, pairwise

import page
import pypdfium2
import pytest
from PIL import ImageOps
from tests.editions.made import ALL, EVERY, NAMES, ROOT, label, made
from tests.editions.said import bare, heard, read_out, said, words
from tests.editions.structure import Node, structure

from castoff.document import tree as t
from castoff.document.edition import Edition, parse_edition
from castoff.knitting.fabric import SectionKnitted
from castoff.read_back import knit_again, printed_rows
from castoff.render.pdf.press import EITHER_TOP_BOTTOM_MM
from castoff.render.pdf.setting import MM
from castoff.render.style import load_style
from castoff.render.text import render_text

PROFILES = (page.ValidationProfile.PDF_UA_1, page.ValidationProfile.PDF_A_2A)
ROWS_OF_ROUNDING = 2
"""A computed length is printed rounded to half a centimetre: less than a row, and twice that to the same side."""

of_the_catalogue = pytest.mark.parametrize(("name", "edition"), EVERY, ids=label)
every_edition = pytest.mark.parametrize(("name", "edition"), ALL, ids=label)


@cache
def tree_of(name: str, edition: Edition | str) -> Node:
    return structure(made(name, edition).data)


@of_the_catalogue
def test_passes_pdf_ua_1_and_pdf_a_2a(name: str, edition: Edition | str) -> None:
    data = made(name, edition).data
    for profile in PROFILES:
        assert [str(failure) for failure in page.validate_pdf_bytes(data, profile=profile).failures] == []


@of_the_catalogue
def test_nothing_is_off_the_page_and_the_last_page_is_no_stump(name: str, edition: Edition | str) -> None:
    book = made(name, edition)
    page_of = load_style("large-print" if book.edition.reading == "large" else "saltmarsh", asset).page
    free = EITHER_TOP_BOTTOM_MM if book.edition.paper == "either" else 0.0
    sheets = list(pypdfium2.PdfDocument(book.data))
    for sheet in sheets:
        width, height = sheet.get_size()
        seen = ImageOps.invert(sheet.render(scale=1, grayscale=True).to_pil().convert("L"))
        ink = seen.point(lambda shade: 255 if shade > 60 else 0).getbbox()
        assert ink is not None, "an empty page"
        left, top, right, bottom = ink
        assert left >= page_of.left_mm * MM - 3 and right <= width - page_of.right_mm * MM + 3
        assert top >= max(page_of.top_mm, free) * MM - 3
        assert bottom <= height - max(page_of.footer_mm, free) * MM + 8
    lines = [line for line in sheets[-1].get_textpage().get_text_range().splitlines() if line.strip()]
    assert len(lines) > 4


def asset(file: str) -> bytes:
    return (ROOT / "templates" / file).read_bytes()


# ── the rows on the page are the pattern ──────────────────────────────────────────────────────────


def rows_on_the_pages(root: Node, titles: list[str]) -> dict[int, tuple[str, ...]]:
    """The instruction rows in the file by section: items of the lists under each section's heading."""
    found: dict[int, list[str]] = {}
    inside, section, rest = False, -1, list(enumerate(titles))
    for node in root.elements:
        if node.tag == "H2":
            inside, section = node.text == "Instructions", -1
        elif node.tag == "H3" and inside:
            # sections stand in their order, and titles may come twice
            while rest and rest[0][1] != node.text:
                rest.pop(0)
            section = rest.pop(0)[0]
        elif node.tag == "L" and section >= 0 and node.attributes.get("/ListNumbering") != "/Disc":
            found.setdefault(section, []).extend(item.text_of_item() for item in node.children("LI"))
    return {index: tuple(rows) for index, rows in found.items()}


def counts(section: SectionKnitted) -> list[int]:
    """The counts that a knitter sees go by: after each row, equal ones in a run once."""
    rows = sorted(
        (record.part, number, record.after)
        for record in section.records
        for number in range(record.row, record.last_row + 1, record.step)
        if not record.short
    )
    return [after for after, _ in groupby(after for _, _, after in rows)]


@of_the_catalogue
def test_the_rows_read_from_the_file_are_knitted_to_the_same_counts(name: str, edition: Edition | str) -> None:
    book = made(name, edition)
    pattern, knitted = book.proof.pattern, book.proof.knitted
    assert pattern is not None and knitted is not None
    rows = rows_on_the_pages(tree_of(name, edition), [section.title.value for section in pattern.sections])
    again = knit_again(book.proof, book.edition, rows)
    assert [finding.message for finding in again.findings if finding.severity == "error"] == []
    shown = knitted.sizes if book.edition.size is None else (knitted.sizes[book.edition.size],)
    printed = printed_rows(book.document)
    assert rows == {index: tuple(words_as(list(lines))) for index, lines in printed.items()}
    for size, own in zip(again.value.sizes, shown, strict=True):
        for one, other in zip(size.sections, own.sections, strict=True):
            assert (one.title, one.stitches, counts(one)) == (other.title, other.stitches, counts(other))
            assert abs(one.rows - other.rows) <= 2 * ROWS_OF_ROUNDING
        assert {piece: done.live for piece, done in size.pieces.items()} == {
            piece: done.live for piece, done in own.pieces.items()
        }


# ── the text is the tree's ────────────────────────────────────────────────────────────────────────

in_standard = pytest.mark.parametrize(
    ("name", "edition"),
    [(name, edition) for name, edition in ALL if "large" not in label(edition)],
    ids=label,
)


@in_standard
def test_the_text_of_the_file_is_the_tree_s_text_in_order(name: str, edition: Edition | str) -> None:
    book = made(name, edition)
    assert words(heard(tree_of(name, edition))) == words(said(book.document.blocks, book.edition.pictures))


def photographs(document: t.Document) -> frozenset[str]:
    blocks = t.walk(document.blocks)
    return frozenset(one.alt for one in blocks if isinstance(one, t.Figure) and isinstance(one.content, t.Picture))


def drawings_last(root: Node, shown: frozenset[str]) -> Node:
    """The tree with each drawing behind its caption, where plain text has its words."""
    kids = list(root.kids)
    for place, (first, second) in enumerate(pairwise(kids)):
        if isinstance(first, Node) and first.tag == "Figure" and first.alt not in shown:
            assert isinstance(second, Node)
            if second.tag == "P":
                kids[place], kids[place + 1] = second, first
    return Node(root.tag, kids=kids)


@every_edition
def test_the_plain_text_says_what_the_file_s_structure_says(name: str, edition: Edition | str) -> None:
    book = made(name, edition)
    shown = photographs(book.document)
    plain = render_text(book.document, book.edition.pictures).decode().split("\n")
    assert bare(read_out(drawings_last(tree_of(name, edition), shown), shown)) == bare(plain)


@pytest.mark.parametrize("name", NAMES)
def test_the_plain_text_edition_and_the_printed_one_are_one_text(name: str) -> None:
    """Not only two renderings of one tree: the two files that a buyer gets, the paper's name aside."""
    page_book, plain_book = made(name, "plain words"), made(name, "text plain words")
    shown = photographs(page_book.document)
    printed = bare(read_out(drawings_last(structure(page_book.data), shown), shown))
    plain = bare(plain_book.data.decode().split("\n"))
    assert printed.count("A4") == 1
    assert [word for word in printed if word != "A4"] == plain


# ── tags mean something ───────────────────────────────────────────────────────────────────────────


@of_the_catalogue
def test_headings_go_down_one_level_at_a_time_and_are_the_tree_s(name: str, edition: Edition | str) -> None:
    found = [(int(node.tag[1]), node.text) for node in tree_of(name, edition).find("H1", "H2", "H3", "H4", "H5", "H6")]
    assert [(one.level, t.plain_text(one.inline)) for one in t.headings(made(name, edition).document.blocks)] == found
    levels = [level for level, _ in found]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@every_edition
def test_rows_are_items_of_lists_with_their_labels(name: str, edition: Edition | str) -> None:
    book = made(name, edition)
    lists = [block for block in t.walk(book.document.blocks) if isinstance(block, t.InstructionList)]
    items = [item for node in tree_of(name, edition).find("L") for item in node.children("LI")]
    labelled = [item.children("Lbl")[0].text for item in items if item.children("Lbl")]
    expected = [t.plain_text(row.label) + ":" for block in lists for row in block.rows if row.label]
    assert [text for text in labelled if text.endswith(":")] == words_as(expected)
    assert all([kid.tag for kid in item.elements] in (["LBody"], ["Lbl", "LBody"], ["Lbl"])
               for item in items)  # fmt: skip
    bodies = [item for item in items if item.children("LBody")]
    assert len(bodies) >= sum(len(block.rows) for block in lists)


def words_as(texts: list[str]) -> list[str]:
    return [" ".join(words([text])) for text in texts]


@in_standard
def test_size_tables_have_headers_with_their_directions(name: str, edition: Edition | str) -> None:
    book = made(name, edition)
    assert book.proof.pattern is not None
    sizes = [book.proof.pattern.sizes.labels[book.edition.size]] if book.edition.size is not None else list(
        book.proof.pattern.sizes.labels
    )  # fmt: skip
    tables = [node for node in tree_of(name, edition).find("Table") if "THead" in [kid.tag for kid in node.elements]]
    sized = [
        node
        for node in tables
        if [cell.text for cell in node.children("THead")[0].children("TR")[0].elements][1:] == sizes
    ]
    assert sized or book.edition.size is not None
    for table in sized:
        (head,) = table.children("THead")[0].children("TR")
        assert [(cell.tag, cell.attributes.get("/Scope")) for cell in head.elements] == [("TH", "/Column")] * (
            len(sizes) + 1
        )
        for row in table.children("TBody")[0].children("TR"):
            first, *others = row.elements
            assert (first.tag, first.attributes.get("/Scope")) == ("TH", "/Row")
            assert first.text and len(others) == len(sizes)
            assert {cell.tag for cell in others} == {"TD"}


@of_the_catalogue
def test_every_figure_has_words_of_its_own(name: str, edition: Edition | str) -> None:
    book = made(name, edition)
    alts = [node.alt for node in tree_of(name, edition).find("Figure")]
    drawn = [block for block in t.walk(book.document.blocks) if isinstance(block, t.Figure)]
    if book.edition.reading == "large":
        drawn = [block for block in drawn if isinstance(block.content, t.Picture)]
    if not book.edition.pictures:
        drawn = [block for block in drawn if not isinstance(block.content, t.Picture)]
    assert alts == [block.alt for block in drawn]
    assert len(set(alts)) == len(alts)
    assert all(len(alt.split()) >= 5 for alt in alts)


# ── what an edition promises ──────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", NAMES)
def test_one_size_only_holds_no_number_of_another(name: str) -> None:
    book = made(name, "metric size=1")
    text = structure(book.data).text
    assert not re.search(r"\d \(\d", text.replace("(US", "").replace("(UK", ""))
    assert book.proof.pattern is not None
    others = [label for label in book.proof.pattern.sizes.labels[1:] if len(label) > 1]
    told = structure(book.data).text.split()
    assert [other for other in others if other in told] == []


@pytest.mark.parametrize("name", NAMES)
def test_every_edition_is_stamped_in_its_file(name: str) -> None:
    stamps = set()
    for own, words_ in ALL:
        if own == name:
            book = made(name, words_)
            assert book.proof.pattern is not None
            names = book.proof.pattern.sizes.labels
            text = tree_of(name, words_).text
            assert book.edition.description(names) in text
            assert book.document.meta.date in text and f"version {book.document.meta.version}" in text
            stamps.add(book.edition.description(names))
    assert len(stamps) == len({parse(words_, name) for own, words_ in ALL if own == name})


def parse(words_: Edition | str, name: str) -> Edition:
    return made(name, words_).edition


def test_the_editions_asked_for_are_all_kinds() -> None:
    editions = [made(NAMES[0], words_).edition for words_ in (words_ for name, words_ in ALL if name == NAMES[0])]
    assert {one.units for one in editions} == {"metric", "imperial", "both"}
    assert {one.paper for one in editions} == {"A4", "Letter", "either"}
    assert {one.reading for one in editions} == {"standard", "large"}
    assert {one.terms for one in editions} == {None, "UK", "US"}
    assert parse_edition("uk") in editions
