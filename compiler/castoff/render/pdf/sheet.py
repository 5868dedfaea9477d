"""The sheet: drawing on tagged pages.

In: drawing calls, each under an element of the structure tree or as an artifact. Out: the bytes of the file. `mark` and
`artifact` say what is drawn next; the sheet opens and closes the marked sequences, so that nothing can be drawn
untagged. ReportLab's canvas numbers the objects and writes the file; of its internals this module uses `_code`,
`_make_preamble`, `__NoDefault__` of pages and catalog, `_timeStamp` and `_ID`, each held by a test.
"""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from io import BytesIO
from math import cos, radians, sin
from typing import Any

from reportlab.pdfbase import pdfdoc
from reportlab.pdfgen.canvas import Canvas

from castoff.document.tree import Meta
from castoff.render.pdf.faces import Face
from castoff.render.pdf.metadata import CREATOR, PRODUCER, author_of, file_date, srgb_profile, subject_of, xmp_packet
from castoff.render.pdf.streams import SealedStream, read_picture
from castoff.render.pdf.tagger import Element, RawObject, Tagger, pdf_text

FOOTER = "/Artifact <</Type/Pagination/Subtype/Footer/Attached[/Bottom]>> BDC"
REPEATED = "/Artifact <</Type/Pagination>> BDC"
DECORATION = "/Artifact BMC"


@dataclass(frozen=True, slots=True)
class Run:
    """Characters in one face, size and colour. expansion: what a short form stands for, or ""."""

    text: str
    face: Face
    size: float
    colour: str
    expansion: str = ""
    spacing: float = 0.0

    @property
    def width(self) -> float:
        """In points."""
        return self.face.width(self.text) * self.size + self.spacing * len(self.text)


@dataclass(frozen=True, slots=True)
class _Stamp:
    """The file's date in the form ReportLab keeps it, from ISO text; never the clock."""

    t: float
    YMDhms: tuple[int, int, int, int, int, int]
    dhh: int = 0
    dmm: int = 0


@dataclass(frozen=True, slots=True)
class _PendingLink:
    """A link annotation whose goal is written when all places are known."""

    annotation: RawObject
    body: str
    target: str


class DanglingLink(ValueError):
    """A link to a key that no block of the document has."""


class _Canvas(Canvas):  # type: ignore[misc]
    """ReportLab's canvas without the font it would select on every page, which is not embedded."""

    def _make_preamble(self) -> None:
        self._preamble = "1 0 0 1 0 0 cm"


class Sheet:
    """One document being drawn."""

    def __init__(self, meta: Meta, width: float, height: float) -> None:
        self.meta = meta
        self.width = width
        self.height = height
        self.tagger = Tagger()
        self._buffer = BytesIO()
        self._canvas: Any = _Canvas(
            self._buffer,
            pagesize=(width, height),
            pageCompression=1,
            invariant=1,
            pdfVersion=(1, 7),
            lang=meta.language,
        )
        self._document: Any = self._canvas._doc
        self._code: list[str] = self._canvas._code
        self._open: object = None
        self._fill = self._stroke = ""
        self._page_names: list[str] = []
        self._annotations: list[str] = []
        self._annotations_here: list[str] = []
        self._links: list[_PendingLink] = []
        self._places: dict[str, tuple[int, float]] = {}

    @property
    def root(self) -> Element:
        """The element that holds the document."""
        return self.tagger.root

    @property
    def page_index(self) -> int:
        """The page being drawn, from 0."""
        return len(self._page_names)

    # ── What is drawn next ──────────────────────────────────────────────────────────────────────────────────────

    def mark(self, element: Element) -> None:
        """What is drawn from now on belongs to the element."""
        if self._open is not element:
            self.close()
            number = self.tagger.mark(element)
            self._code.append(f"/{element.tag} <</MCID {number}>> BDC")
            self._open = element

    def artifact(self, kind: str = DECORATION) -> None:
        """What is drawn from now on says nothing: rules, grounds, feet."""
        if self._open is not kind:
            self.close()
            self._code.append(kind)
            self._open = kind

    def close(self) -> None:
        """End the open sequence, if any."""
        if self._open is not None:
            self._code.append("EMC")
            self._open = None

    # ── Drawing ─────────────────────────────────────────────────────────────────────────────────────────────────

    def runs(self, y: float, placed: list[tuple[float, Run]], line_end: bool = False) -> None:
        """Text on one base line: (x, run) from left to right. `line_end`: the text goes on in the next line, so a
        space is added, or a reader of the file would glue the words."""
        code = ["BT"]
        for index, (x, run) in enumerate(placed):
            text = run.text + " " if line_end and index == len(placed) - 1 else run.text
            if run.expansion:
                code.append(f"/Span <</E{pdf_text(run.expansion)}>> BDC")
            if run.colour != self._fill:
                code.append(f"{_rgb(run.colour)} rg")
                self._fill = run.colour
            code.append(f"1 0 0 1 {_n(x)} {_n(y)} Tm")
            if run.spacing:
                code.append(f"{_n(run.spacing)} Tc")
            for font, codes in run.face.codes(text, self._document):
                code.append(f"{font} {_n(run.size)} Tf ({_literal(codes)}) Tj")
            if run.spacing:
                code.append("0 Tc")
            if run.expansion:
                code.append("EMC")
        code.append("ET")
        self._code.append(" ".join(code))

    def turned_run(self, x: float, y: float, angle: float, run: Run) -> None:
        """Text that starts at (x, y) and runs at an angle in degrees, counter-clockwise."""
        c, s = cos(radians(angle)), sin(radians(angle))
        shown = " ".join(
            f"{font} {_n(run.size)} Tf ({_literal(codes)}) Tj"
            for font, codes in run.face.codes(run.text, self._document)
        )
        matrix = f"{c:.4f} {s:.4f} {-s:.4f} {c:.4f} {_n(x)} {_n(y)}"
        self._code.append(f"BT {_rgb(run.colour)} rg {matrix} Tm {shown} ET")
        self._fill = run.colour

    def rectangle(self, x: float, y: float, width: float, height: float, colour: str) -> None:
        """A filled rectangle; (x, y) is its lower left corner."""
        self._set_fill(colour)
        self._code.append(f"{_n(x)} {_n(y)} {_n(width)} {_n(height)} re f")

    def line(self, x0: float, y0: float, x1: float, y1: float, width: float, colour: str) -> None:
        """A straight line."""
        self._set_stroke(colour)
        self._code.append(f"{_n(width)} w {_n(x0)} {_n(y0)} m {_n(x1)} {_n(y1)} l S")

    def frame(self, x: float, y: float, width: float, height: float, line_width: float, colour: str) -> None:
        """The outline of a rectangle."""
        self._set_stroke(colour)
        self._code.append(f"{_n(line_width)} w {_n(x)} {_n(y)} {_n(width)} {_n(height)} re S")

    def operators(self, code: str) -> None:
        """Ready operators, which leave the graphics state as they find it."""
        self._code.append(code)

    def picture(self, data: bytes, x: float, y: float, width: float, height: float) -> None:
        """A PNG or JPEG, filling the rectangle with the lower left corner (x, y)."""
        name = f"Picture{sha256(data).hexdigest()[:16]}"
        resource = self._document.getXObjectName(name)
        if resource not in self._document.idToObject:
            self._document.Reference(self._image(data), resource)
        self._canvas._formsinuse.append(name)
        self._code.append(f"q {_n(width)} 0 0 {_n(height)} {_n(x)} {_n(y)} cm /{resource} Do Q")

    def _image(self, data: bytes) -> SealedStream:
        """The picture as an object of the file: a JPEG as it is, anything else decoded."""
        image, mask = read_picture(data)
        entries = image.entries
        if mask is not None:
            reference = self._document.Reference(mask, f"Mask{sha256(data).hexdigest()[:16]}")
            entries += f"/SMask {self._document.idToObjectNumberAndVersion[reference.name][0]} 0 R"
        return SealedStream(image.content, entries, image.compress)

    def _set_fill(self, colour: str) -> None:
        if colour != self._fill:
            self._code.append(f"{_rgb(colour)} rg")
            self._fill = colour

    def _set_stroke(self, colour: str) -> None:
        if colour != self._stroke:
            self._code.append(f"{_rgb(colour)} RG")
            self._stroke = colour

    # ── Links and marks in the file ─────────────────────────────────────────────────────────────────────────────

    def link(self, element: Element, target: str, says: str, x: float, y: float, width: float, height: float) -> None:
        """Makes a rectangle lead to an address or "#key"; it belongs to the Link element, `says` tells what it is."""
        number = self.tagger.annotate(element)
        rectangle = f"{_n(x)} {_n(y)} {_n(x + width)} {_n(y + height)}"
        body = (
            f"<</Type/Annot/Subtype/Link/Rect[{rectangle}]/Border[0 0 0]/F 4/Contents{pdf_text(says)}"
            f"/StructParent {number}"
        )
        name = f"Link{number}"
        annotation = RawObject()
        self._document.Reference(annotation, name)
        self._links.append(_PendingLink(annotation, body, target))
        self._annotations.append(name)
        self._annotations_here.append(name)

    def bookmark(self, key: str, top: float) -> None:
        """A place that links and the outline can lead to."""
        self._canvas.bookmarkPage(key, fit="XYZ", left=0, top=top, zoom=0)
        self._places[key] = (self.page_index, top)

    def outline(self, title: str, key: str, level: int) -> None:
        """An entry of the outline, level 0 the outermost; a level may rise by one at most."""
        self._canvas.addOutlineEntry(title, key, level)

    # ── Pages and the file ──────────────────────────────────────────────────────────────────────────────────────

    def end_page(self) -> None:
        """The page is done; what is drawn next stands on the next one."""
        self.close()
        name = self._document.thisPageName()
        self._canvas.showPage()
        page = self._document.Pages.pages[-1]
        page.Contents = SealedStream("\n".join([self._canvas._preamble, *self._code]).encode("latin-1"))
        page.__NoDefault__ = [*page.__NoDefault__, "Tabs", "StructParents"]
        page.Tabs = pdfdoc.PDFName("S")
        references = [pdfdoc.PDFObjectReference(link) for link in self._annotations_here]
        page.Annots = pdfdoc.PDFArray(references) if references else None
        self._page_names.append(name)
        self._annotations_here = []
        self._code = self._canvas._code
        self._fill = self._stroke = ""
        self.tagger.next_page()

    def save(self) -> bytes:
        """The file."""
        self.tagger.pages.pop()
        document = self._document
        for index, page in enumerate(document.Pages.pages):
            page.StructParents = self.tagger.page_key(index)
        self._settle_links()
        catalog = document.Catalog
        catalog.__NoDefault__ = [*catalog.__NoDefault__, "OutputIntents"]
        catalog.StructTreeRoot = self.tagger.write(document, self._page_names, self._annotations)
        catalog.MarkInfo = RawObject(b"<</Marked true>>")
        catalog.ViewerPreferences = RawObject(b"<</DisplayDocTitle true>>")
        xmp = xmp_packet(self.meta)
        catalog.Metadata = SealedStream(xmp, "/Type/Metadata/Subtype/XML", compress=False)
        profile = document.Reference(SealedStream(srgb_profile(), "/N 3"), "sRGBProfile")
        number = document.idToObjectNumberAndVersion[profile.name][0]
        intent = "/Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(sRGB)/Info(sRGB)"
        catalog.OutputIntents = RawObject(f"[<<{intent}/DestOutputProfile {number} 0 R>>]".encode())
        if document.outline.levelstack:
            self._canvas.showOutline()
        self._describe(document)
        document._ID = self._identifier(xmp)
        data: bytes = self._canvas.getpdfdata()
        return data

    def _settle_links(self) -> None:
        for link in self._links:
            if not link.target.startswith("#"):
                link.annotation.body = f"{link.body}/A<</S/URI/URI{pdf_text(link.target)}>>>>".encode()
                continue
            place = self._places.get(link.target[1:])
            if place is None:
                raise DanglingLink(f"a link leads to `{link.target}`, and no block has that key")
            page = self._document.idToObjectNumberAndVersion[self._page_names[place[0]]][0]
            goal = f"/Dest[{page} 0 R/XYZ 0 {_n(place[1])} null]"
            link.annotation.body = f"{link.body}{goal}>>".encode()

    def _describe(self, document: Any) -> None:
        year, month, day = (int(part) for part in file_date(self.meta).split("-"))
        document._timeStamp = _Stamp(0.0, (year, month, day, 0, 0, 0))
        information = document.info
        information.title = self.meta.title
        information.author = author_of(self.meta)
        information.subject = subject_of(self.meta)
        information.keywords = ", ".join(self.meta.keywords)
        information.creator = CREATOR
        information.producer = PRODUCER

    def _identifier(self, xmp: bytes) -> bytes:
        """The trailer's ID, from what the file holds: other contents, other identifier."""
        digest = sha256(xmp)
        for page in self._document.Pages.pages:
            digest.update(page.Contents.content)
        identifier = digest.hexdigest()[:32].upper().encode()
        return b"[<" + identifier + b"><" + identifier + b">]"


def _n(value: float) -> str:
    """A number as PDF writes it, to a hundredth of a point."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _rgb(colour: str) -> str:
    """ "#rrggbb" as three numbers from 0 to 1."""
    return " ".join(_n3(int(colour[start : start + 2], 16) / 255) for start in (1, 3, 5))


def _n3(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _literal(codes: bytes) -> str:
    """Character codes inside the brackets of a string."""
    text = codes.decode("latin-1")
    for character, written in (("\\", "\\\\"), ("(", "\\("), (")", "\\)"), ("\r", "\\r"), ("\n", "\\n")):
        text = text.replace(character, written)
    return text
