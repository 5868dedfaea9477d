"""The structure tree of a tagged PDF: what each piece of a page is, in reading order.

In: elements, marked as they are drawn. Out: the objects of the tree, added to a ReportLab document: StructTreeRoot,
elements, ParentTree. Follows PDF 1.7 (ISO 32000-1), 14.6 to 14.8, and PDF/UA-1 (ISO 14289-1).

An element joins its parent when it, or something inside it, is first drawn; the drawing order is the reading order.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from reportlab.pdfbase import pdfdoc


def pdf_text(text: str) -> str:
    """A text string as PDF writes it: `(plain)` for ASCII, UTF-16 in hexadecimal for the rest."""
    if text.isascii() and text.isprintable():
        escaped = text.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)")
        return f"({escaped})"
    return f"<FEFF{text.encode('utf-16-be').hex().upper()}>"


@dataclass(slots=True, eq=False)
class Element:
    """A structure element.

    tag: a standard structure type ("P", "TH"). attributes: the inside of an attribute dictionary, "" for none.
    alt: alternative text. title: of a section or figure. actual: what a reader says instead of what is drawn.
    kids: elements, (page index, marked content number) and annotation numbers, in reading order.
    """

    tag: str
    parent: Element | None
    attributes: str = ""
    alt: str = ""
    title: str = ""
    actual: str = ""
    kids: list[Element | tuple[int, int] | int] = field(default_factory=list)
    joined: bool = False

    def child(self, tag: str, attributes: str = "", alt: str = "", title: str = "", actual: str = "") -> Element:
        """A new element inside this one; it takes its place when it is first drawn."""
        return Element(tag, self, attributes, alt, title, actual)

    def join(self) -> None:
        """Take the place in the parent, now, if not taken yet."""
        if not self.joined:
            self.joined = True
            if self.parent is not None:
                self.parent.join()
                self.parent.kids.append(self)


class RawObject(pdfdoc.PDFObject):  # type: ignore[misc]
    """An object of the file whose bytes are known; ReportLab gives it its number."""

    def __init__(self, body: bytes = b"null") -> None:
        self.body = body

    def format(self, document: Any) -> bytes:
        """The bytes, as ReportLab asks for them."""
        return self.body


@dataclass(slots=True)
class Tagger:
    """Builds the tree of one document. `pages[p][m]` is the element of marked content m on page p."""

    root: Element = field(default_factory=lambda: Element("Document", None, joined=True))
    pages: list[list[Element]] = field(default_factory=lambda: [[]])
    annotations: list[Element] = field(default_factory=list)

    def mark(self, element: Element) -> int:
        """A marked content number for a piece of the element on the page being drawn."""
        element.join()
        number = len(self.pages[-1])
        self.pages[-1].append(element)
        element.kids.append((len(self.pages) - 1, number))
        return number

    def annotate(self, element: Element) -> int:
        """The StructParent number of a link annotation that belongs to the element."""
        element.join()
        number = len(self.annotations)
        self.annotations.append(element)
        element.kids.append(number)
        return number

    def next_page(self) -> None:
        """What is marked from now on stands on the next page."""
        self.pages.append([])

    def page_key(self, page_index: int) -> int:
        """The StructParents number of a page; pages come after the annotations."""
        return len(self.annotations) + page_index

    def write(self, document: Any, page_names: list[str], annotation_names: list[str]) -> Any:
        """Adds the tree to a ReportLab document and gives the reference to its root.

        page_names, annotation_names: the names under which ReportLab knows the pages and link annotations, in order.
        """
        page_numbers = [_number(document, name) for name in page_names]
        annotation_numbers = [_number(document, name) for name in annotation_names]
        elements = list(_in_order(self.root))
        objects: list[RawObject] = []
        numbers: dict[int, int] = {}
        for index, element in enumerate(elements):
            raw = RawObject()
            name = f"StructElem{index}"
            document.Reference(raw, name)
            objects.append(raw)
            numbers[id(element)] = _number(document, name)
        parents, root = RawObject(), RawObject()
        document.Reference(parents, "ParentTree")
        root_reference = document.Reference(root, "StructTreeRoot")
        root_number, parent_number = _number(document, "StructTreeRoot"), _number(document, "ParentTree")
        for element, raw in zip(elements, objects, strict=True):
            above = root_number if element.parent is None else numbers[id(element.parent)]
            raw.body = _dictionary(element, above, numbers, page_numbers, annotation_numbers)
        nums = [f"{key} {numbers[id(element)]} 0 R" for key, element in enumerate(self.annotations)]
        for index, marked in enumerate(self.pages):
            inside = " ".join(f"{numbers[id(element)]} 0 R" for element in marked)
            nums.append(f"{self.page_key(index)} [{inside}]")
        parents.body = f"<</Nums[{' '.join(nums)}]>>".encode()
        root.body = (
            f"<</Type/StructTreeRoot/K[{numbers[id(self.root)]} 0 R]/ParentTree {parent_number} 0 R"
            f"/ParentTreeNextKey {self.page_key(len(self.pages))}>>"
        ).encode()
        return root_reference


def _number(document: Any, name: str) -> int:
    number: int = document.idToObjectNumberAndVersion[name][0]
    return number


def _in_order(element: Element) -> list[Element]:
    found = [element]
    for kid in element.kids:
        if isinstance(kid, Element):
            found += _in_order(kid)
    return found


def _dictionary(
    element: Element,
    above: int,
    numbers: dict[int, int],
    page_numbers: list[int],
    annotation_numbers: list[int],
) -> bytes:
    first_page = next((kid[0] for kid in element.kids if isinstance(kid, tuple)), None)
    kids: list[str] = []
    for kid in element.kids:
        if isinstance(kid, Element):
            kids.append(f"{numbers[id(kid)]} 0 R")
        elif isinstance(kid, int):
            kids.append(f"<</Type/OBJR/Obj {annotation_numbers[kid]} 0 R>>")
        elif kid[0] == first_page:
            kids.append(str(kid[1]))
        else:
            kids.append(f"<</Type/MCR/Pg {page_numbers[kid[0]]} 0 R/MCID {kid[1]}>>")
    parts = [f"<</S/{element.tag}/P {above} 0 R"]
    if first_page is not None:
        parts.append(f"/Pg {page_numbers[first_page]} 0 R")
    if kids:
        parts.append(f"/K {kids[0]}" if len(kids) == 1 and not kids[0].startswith("<") else f"/K[{' '.join(kids)}]")
    if element.attributes:
        parts.append(f"/A<<{element.attributes}>>")
    if element.alt:
        parts.append(f"/Alt{pdf_text(element.alt)}")
    if element.actual:
        parts.append(f"/ActualText{pdf_text(element.actual)}")
    if element.title:
        parts.append(f"/T{pdf_text(element.title)}")
    parts.append(">>")
    return "".join(parts).encode()
