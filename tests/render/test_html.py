"""The web page: whole, by itself, and saying what the tree says."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

from tests.render import samples

from castoff.document import tree as t
from castoff.render.html import render_html
from castoff.render.style import load_style

VOID = {"meta", "img", "br", "hr", "input"}
STYLE = load_style("saltmarsh", samples.assets)


class Outline(HTMLParser):
    """Reads a page: open and closed elements, headings, text."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.headings: list[int] = []
        self.ids: list[str] = []
        self.targets: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = dict(attrs)
        if tag not in VOID:
            self.open.append(tag)
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if known.get("id"):
            self.ids.append(str(known["id"]))
        if (known.get("href") or "").startswith("#"):
            self.targets.append(str(known["href"])[1:])
        if tag == "img":
            assert known.get("alt")
            assert str(known.get("src")).startswith("data:")
        if tag == "svg":
            assert known.get("aria-label") or known.get("aria-hidden") == "true"

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open and "script" not in self.open:
            self.text.append(data)


def read(document: t.Document) -> tuple[Outline, str]:
    page = render_html(document, STYLE).decode("utf-8")
    outline = Outline()
    outline.feed(page)
    assert outline.open == []
    return outline, page


def test_a_page_is_well_formed_and_needs_no_network() -> None:
    outline, page = read(samples.cap())
    assert outline.headings == [1, 2, 3, 3, 2, 2, 2, 2]
    assert len(set(outline.ids)) == len(outline.ids)
    loads = re.findall(r'(?:src|url)\s*[=(]\s*["\']?([^"\')\s]+)', page)
    assert loads
    assert all(address.startswith("data:") for address in loads)
    assert "<link" not in page


def test_contents_lead_to_headings() -> None:
    outline, _ = read(samples.twelve())
    assert len(outline.targets) == 2
    assert set(outline.targets) <= set(outline.ids)


def test_the_page_says_what_the_tree_says() -> None:
    outline, _ = read(samples.cap())
    said = " ".join("".join(outline.text).replace("\u00a0", " ").split())
    assert "Rnd 3 (dec): *K to 2 sts before marker, k2tog, sm; rep from * to end. 8 sts decreased" in said
    assert "cast on 80 (88, 96, 104, 112) sts" in said


def test_table_heads_have_their_direction() -> None:
    _, page = read(samples.cap())
    assert '<th scope="col" class="decimal">2XL</th>' in page
    assert '<th scope="row">Height, cm</th>' in page


def test_sizes_can_be_chosen_only_when_they_have_names() -> None:
    plain = samples.per_size(80, 88, 96, unit="sts")
    named = replace(plain, names=("S", "M", "L"))
    _, page = read(t.Document(samples.meta(), (t.Paragraph((plain,)),)))
    assert "<select" not in page
    assert "<script" not in page
    _, page = read(t.Document(samples.meta(), (t.Paragraph((named,)),)))
    assert '<option value="1">M</option>' in page
    assert "[&quot;80\u00a0sts&quot;,&quot;88\u00a0sts&quot;,&quot;96\u00a0sts&quot;]" in page
    _, page = read(t.Document(samples.meta(), (t.Paragraph((replace(named, shown=1),)),)))
    assert "<select" not in page


def test_signs_of_the_markup_are_harmless_in_text() -> None:
    sly = '<b> & "quotes" </b> <script>'
    outline, page = read(
        t.Document(samples.meta(sly), (t.TitlePage((t.Text(sly),)), t.Paragraph((t.StitchTerm(sly, sly),))))
    )
    assert "<script>" not in page.split("</head>")[1]
    assert sly in "".join(outline.text)


def test_the_same_bytes_twice() -> None:
    assert render_html(samples.cap(), STYLE) == render_html(samples.cap(), STYLE)


def test_units_can_be_chosen_where_a_measure_is_in_both() -> None:
    both = t.Pair((t.Quantity("4", "cm"),), (t.Quantity("1½", "in"),), "imperial")
    centimetres = replace(samples.table("Centimetres", ("", "S"), ("Chest", "1")), system="metric")
    tables = (centimetres, replace(centimetres, system="imperial"))
    document = t.Document(samples.meta(), (t.TitlePage((t.Text("Cap"),)), t.Paragraph((both,)), *tables))
    outline, page = read(document)
    assert "1½\u00a0in\u00a0/ 4\u00a0cm" in "".join(outline.text)
    assert re.findall(r'<(\w+)[^>]* data-system="(\w+)"', page) == [
        ("span", "imperial"), ("span", "both"), ("span", "metric"), ("div", "metric"), ("div", "imperial"),
    ]  # fmt: skip
    assert '<select id="units">' in page and '<select id="size">' not in page
    alone = t.Document(samples.meta(), (t.TitlePage((t.Text("Cap"),)), t.Paragraph(both.metric)))
    assert "<select" not in read(alone)[1] and "<script" not in read(alone)[1]
