"""The structure tree: order, places on pages, and what the tags of a pattern mean."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pypdf
from reportlab.pdfgen.canvas import Canvas
from tests.render import samples

from castoff.document.edition import Edition
from castoff.render.pdf.press import render_pdf
from castoff.render.pdf.tagger import Element, RawObject, Tagger, pdf_text
from castoff.render.style import load_style


def outline(element: Element) -> Any:
    """Tags with what is inside, in reading order."""
    return (element.tag, *[outline(kid) if isinstance(kid, Element) else kid for kid in element.kids])


def test_elements_join_in_the_order_they_are_drawn() -> None:
    tagger = Tagger()
    table = tagger.root.child("Table")
    first, second = table.child("TR").child("TD"), tagger.root.child("P")
    assert tagger.root.kids == []
    assert tagger.mark(second) == 0
    assert tagger.mark(first) == 1
    assert tagger.mark(second) == 2
    assert outline(tagger.root) == ("Document", ("P", (0, 0), (0, 2)), ("Table", ("TR", ("TD", (0, 1)))))


def test_an_element_goes_on_over_pages() -> None:
    tagger = Tagger()
    paragraph = tagger.root.child("P")
    tagger.mark(paragraph)
    tagger.next_page()
    tagger.mark(paragraph)
    document = Canvas(BytesIO())._doc
    for name in ("Page1", "Page2"):
        document.Reference(RawObject(), name)
    tagger.write(document, ["Page1", "Page2"], [])
    numbers = document.idToObjectNumberAndVersion
    page, next_page = numbers["Page1"][0], numbers["Page2"][0]
    body = document.idToObject["StructElem1"].body.decode()
    assert f"/Pg {page} 0 R" in body
    assert f"/K[0 <</Type/MCR/Pg {next_page} 0 R/MCID 0>>]" in body
    parents = document.idToObject["ParentTree"].body.decode()
    element = numbers["StructElem1"][0]
    assert parents == f"<</Nums[0 [{element} 0 R] 1 [{element} 0 R]]>>"


def test_annotations_come_before_pages_in_the_parent_tree() -> None:
    tagger = Tagger()
    link = tagger.root.child("Link")
    tagger.mark(link)
    assert tagger.annotate(link) == 0
    assert tagger.page_key(0) == 1
    document = Canvas(BytesIO())._doc
    for name in ("Page1", "Note"):
        document.Reference(RawObject(), name)
    tagger.write(document, ["Page1"], ["Note"])
    numbers = document.idToObjectNumberAndVersion
    assert f"<</Type/OBJR/Obj {numbers['Note'][0]} 0 R>>" in document.idToObject["StructElem1"].body.decode()
    element = numbers["StructElem1"][0]
    assert document.idToObject["ParentTree"].body.decode() == f"<</Nums[0 {element} 0 R 1 [{element} 0 R]]>>"


def test_text_strings_are_written_safely() -> None:
    assert pdf_text(r"k (2) \ tog") == r"(k \(2\) \\ tog)"
    assert pdf_text("½") == "<FEFF00BD>"


class Tree:
    """The structure tree of a file, read by somebody else's reader."""

    def __init__(self, data: bytes) -> None:
        self.reader = pypdf.PdfReader(BytesIO(data))
        catalog: Any = self.reader.trailer["/Root"]
        self.root = catalog["/StructTreeRoot"]["/K"][0].get_object()

    def all(self, element: Any = None) -> list[Any]:
        found = []
        for kid in self.kids(self.root if element is None else element):
            found += [kid, *self.all(kid)]
        return found

    @staticmethod
    def kids(element: Any) -> list[Any]:
        kids = element.get("/K", [])
        kids = kids if isinstance(kids, list) else [kids]
        objects = [kid.get_object() for kid in kids if not isinstance(kid, int)]
        return [kid for kid in objects if isinstance(kid, dict) and "/S" in kid]

    def tagged(self, tag: str) -> list[Any]:
        return [element for element in self.all() if element["/S"] == tag]


def tree() -> Tree:
    data = render_pdf(samples.cap(), Edition(), load_style("saltmarsh", samples.assets), samples.assets)
    return Tree(data)


def test_tags_mean_what_the_pattern_means() -> None:
    read = tree()
    levels = [element["/S"] for element in read.all() if element["/S"] in ("/H1", "/H2", "/H3")]
    assert levels == ["/H1", "/H2", "/H3", "/H3", "/H2", "/H2", "/H2", "/H2"]
    scopes = [element["/A"]["/Scope"] for element in read.tagged("/TH")]
    assert scopes == ["/Column"] * 6 + ["/Row"] * 4
    assert len(read.tagged("/TD")) == 20
    tables = read.tagged("/Table")
    assert [[kid["/S"] for kid in Tree.kids(table)] for table in tables] == [["/Caption", "/THead", "/TBody"]]


def test_rows_are_lists_of_label_and_body() -> None:
    rows = [element for element in tree().tagged("/L") if len(Tree.kids(element)) == 6]
    inside = [[kid["/S"] for kid in Tree.kids(item)] for item in Tree.kids(rows[-1])]
    assert ["/Lbl", "/LBody"] in inside
    assert ["/LBody"] in inside


def test_every_figure_has_words_of_its_own() -> None:
    words = [figure["/Alt"] for figure in tree().tagged("/Figure")]
    assert len(words) == 3
    assert len(set(words)) == 3
    assert all(figure["/A"]["/BBox"][3] > figure["/A"]["/BBox"][1] for figure in tree().tagged("/Figure"))


def test_short_forms_carry_what_they_stand_for() -> None:
    pages: list[Any] = list(tree().reader.pages)
    contents = b"".join(page.get_contents().get_data() for page in pages)
    assert contents.count(b"/Span <</E(knit two stitches together)>> BDC") == 4
    assert contents.count(b"BDC") + contents.count(b"BMC") == contents.count(b"EMC")
