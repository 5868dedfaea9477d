"""The structure tree of a PDF as an assistive reader has it, read with two libraries that share no code with the writer.

In: the bytes of a file. Out: `Node`s in reading order, with the text that the pages draw for them. pypdf resolves the
tree, pdfium says which characters carry which marked content number.
"""

from __future__ import annotations

import ctypes
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

import pypdf
import pypdfium2
import pypdfium2.raw as pdfium
from pypdf.generic import ArrayObject, DictionaryObject


@dataclass(slots=True)
class Node:
    """A structure element. kids: elements, and the text of each of its own stretches of marked content, in order."""

    tag: str
    alt: str = ""
    attributes: dict[str, Any] = field(default_factory=dict)
    kids: list[Node | str] = field(default_factory=list)
    actual: str = ""

    @property
    def text(self) -> str:
        """All that it says, with what is inside it."""
        return tidy(self._says())

    def _says(self) -> str:
        return self.actual or "".join(kid if isinstance(kid, str) else kid._says() for kid in self.kids)

    @property
    def elements(self) -> list[Node]:
        """The elements directly below."""
        return [kid for kid in self.kids if isinstance(kid, Node)]

    @property
    def speaks(self) -> bool:
        """Whether text stands directly in it, so that all inside is one run of text."""
        return bool(self.actual) or len(self.elements) < len(self.kids)

    def text_of_item(self) -> str:
        """A list's item as a line: its label, a space, its body."""
        return " ".join(kid if isinstance(kid, str) else kid.text for kid in self.kids)

    def children(self, tag: str) -> list[Node]:
        """The direct children of a type."""
        return [kid for kid in self.elements if kid.tag == tag]

    def walk(self) -> Iterator[Node]:
        """This element and all below it, in reading order."""
        yield self
        for kid in self.elements:
            yield from kid.walk()

    def find(self, *tags: str) -> list[Node]:
        """All elements of these types, in reading order."""
        return [node for node in self.walk() if node.tag in tags]


def tidy(text: str) -> str:
    """Text with single plain spaces."""
    return re.sub(r"\s+", " ", text.replace("\u00a0", " ")).strip()


def structure(data: bytes) -> Node:
    """The tree of a tagged PDF, from its `Document` element."""
    reader = pypdf.PdfReader(BytesIO(data))
    pages = {sheet.indirect_reference.idnum: index for index, sheet in enumerate(reader.pages)}  # type: ignore[union-attr]
    root: Any = reader.root_object["/StructTreeRoot"]
    kids = root["/K"]
    (top,) = kids if isinstance(kids, ArrayObject) else [kids]
    return _node(top.get_object(), drawn_text(data), pages, -1)


def _node(element: DictionaryObject, drawn: dict[tuple[int, int], str], pages: dict[int, int], page: int) -> Node:
    if "/Pg" in element:
        page = pages[element.raw_get("/Pg").idnum]
    attributes = element.get("/A", {})
    node = Node(
        str(element["/S"])[1:],
        str(element.get("/Alt", "")),
        {key: value for key, value in attributes.items() if key != "/O"},
        actual=str(element.get("/ActualText", "")),
    )
    kids = element.get("/K", ArrayObject())
    for kid in kids if isinstance(kids, ArrayObject) else [kids]:
        kid = kid.get_object()
        if isinstance(kid, int):
            node.kids.append(drawn.get((page, kid), ""))
        elif kid.get("/Type") == "/MCR":
            node.kids.append(drawn.get((pages[kid.raw_get("/Pg").idnum], kid["/MCID"]), ""))
        elif kid.get("/Type") != "/OBJR":
            node.kids.append(_node(kid, drawn, pages, page))
    return node


def drawn_text(data: bytes) -> dict[tuple[int, int], str]:
    """What is drawn under each marked content number, by (page index, number), in drawing order."""
    found: dict[tuple[int, int], list[str]] = {}
    for index, sheet in enumerate(pypdfium2.PdfDocument(data)):
        texts = sheet.get_textpage()
        for place in range(pdfium.FPDFPage_CountObjects(sheet.raw)):
            drawn = pdfium.FPDFPage_GetObject(sheet.raw, place)
            number = pdfium.FPDFPageObj_GetMarkedContentID(drawn)
            if number < 0 or pdfium.FPDFPageObj_GetType(drawn) != pdfium.FPDF_PAGEOBJ_TEXT:
                continue
            found.setdefault((index, number), []).append(_characters(drawn, texts.raw))
    return {key: "".join(parts) for key, parts in found.items()}


def _characters(drawn: Any, texts: Any) -> str:
    length = pdfium.FPDFTextObj_GetText(drawn, texts, None, 0)
    buffer = ctypes.create_string_buffer(length)
    pdfium.FPDFTextObj_GetText(drawn, texts, ctypes.cast(buffer, ctypes.POINTER(ctypes.c_ushort)), length)
    return buffer.raw.decode("utf-16-le").rstrip("\0")
