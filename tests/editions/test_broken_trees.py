"""A file whose structure tree is broken, in ten ways, is refused: so that passing means something."""

from __future__ import annotations

import re
from collections.abc import Callable
from io import BytesIO
from typing import Any

import page
import pypdf
import pytest
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, TextStringObject
from tests.editions.made import made

PROFILES = (page.ValidationProfile.PDF_UA_1, page.ValidationProfile.PDF_A_2A)


def elements(writer: pypdf.PdfWriter) -> list[Any]:
    """All structure elements of a file, from the top."""
    found: list[Any] = []

    def walk(element: Any) -> None:
        if isinstance(element, DictionaryObject) and "/S" in element:
            found.append(element)
            kids = element.get("/K", ArrayObject())
            for kid in kids if isinstance(kids, ArrayObject) else [kids]:
                walk(kid.get_object())

    for kid in writer.root_object["/StructTreeRoot"]["/K"]:  # type: ignore[index]
        walk(kid.get_object())
    return found


def first(writer: pypdf.PdfWriter, tag: str) -> Any:
    return next(element for element in elements(writer) if element["/S"] == tag)


def no_words_for_a_figure(writer: pypdf.PdfWriter) -> None:
    del first(writer, "/Figure")["/Alt"]


def heads_without_direction(writer: pypdf.PdfWriter) -> None:
    for element in elements(writer):
        if element["/S"] == "/TH":
            del element["/A"]


def a_row_that_is_short_of_a_cell(writer: pypdf.PdfWriter) -> None:
    row = [element for element in elements(writer) if element["/S"] == "/TR"][1]
    row["/K"].pop()


def a_heading_two_levels_down(writer: pypdf.PdfWriter) -> None:
    first(writer, "/H2")[NameObject("/S")] = NameObject("/H3")


def an_item_outside_a_list(writer: pypdf.PdfWriter) -> None:
    first(writer, "/L")[NameObject("/S")] = NameObject("/Sect")


def a_body_that_is_an_item(writer: pypdf.PdfWriter) -> None:
    first(writer, "/LBody")[NameObject("/S")] = NameObject("/LI")


def an_unknown_type(writer: pypdf.PdfWriter) -> None:
    first(writer, "/Caption")[NameObject("/S")] = NameObject("/Captoin")


def not_said_to_be_tagged(writer: pypdf.PdfWriter) -> None:
    writer.root_object["/MarkInfo"][NameObject("/Marked")] = TextStringObject("no")  # type: ignore[index]


def no_tree(writer: pypdf.PdfWriter) -> None:
    del writer.root_object["/StructTreeRoot"]


def no_language(writer: pypdf.PdfWriter) -> None:
    del writer.root_object["/Lang"]


def links_that_say_nothing(writer: pypdf.PdfWriter) -> None:
    for sheet in writer.pages:
        for note in sheet.get("/Annots", ()):
            note.get_object().pop("/Contents", None)


def links_outside_the_tree(writer: pypdf.PdfWriter) -> None:
    for element in elements(writer):
        if element["/S"] == "/Link":
            element[NameObject("/S")] = NameObject("/Span")


def tabs_in_another_order(writer: pypdf.PdfWriter) -> None:
    for sheet in writer.pages:
        sheet[NameObject("/Tabs")] = NameObject("/R")


def text_that_is_in_no_sequence(writer: pypdf.PdfWriter) -> None:
    sheet = writer.pages[0]
    content = sheet.get_contents()
    assert content is not None
    loose = re.sub(rb"/H1 <</MCID \d+>> BDC\s(.*?)\sEMC", rb"\1", content.get_data(), count=1, flags=re.DOTALL)
    assert loose != content.get_data()
    stream = pypdf.generic.DecodedStreamObject()
    stream.set_data(loose)
    sheet[NameObject("/Contents")] = writer._add_object(stream)


BREAKS: tuple[Callable[[pypdf.PdfWriter], None], ...] = (
    no_words_for_a_figure,
    heads_without_direction,
    a_row_that_is_short_of_a_cell,
    a_heading_two_levels_down,
    an_item_outside_a_list,
    a_body_that_is_an_item,
    an_unknown_type,
    not_said_to_be_tagged,
    no_tree,
    no_language,
    links_that_say_nothing,
    links_outside_the_tree,
    tabs_in_another_order,
    text_that_is_in_no_sequence,
)


def rewritten(change: Callable[[pypdf.PdfWriter], None]) -> bytes:
    writer = pypdf.PdfWriter(clone_from=BytesIO(made("saltgrass-cap", "both").data))
    change(writer)
    made_bytes = BytesIO()
    writer.write(made_bytes)
    return made_bytes.getvalue()


def failed(data: bytes) -> set[str]:
    return {str(failure) for profile in PROFILES for failure in page.validate_pdf_bytes(data, profile=profile).failures}


def test_the_file_written_anew_is_still_whole() -> None:
    """Rewriting alone breaks nothing, so that what is seen below is what was broken."""
    assert failed(rewritten(lambda writer: None)) == set()


@pytest.mark.parametrize("change", BREAKS, ids=lambda change: change.__name__)
def test_a_broken_tree_is_seen(change: Callable[[pypdf.PdfWriter], None]) -> None:
    assert failed(rewritten(change)) != set()
