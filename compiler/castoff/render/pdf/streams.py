"""Streams, pictures and fonts as PDF/A wants them, where ReportLab's own do not pass.

In: contents of a stream; a TrueType font. Out: ReportLab objects that write themselves without the two faults of the
library: no line end before `endstream` (ISO 19005-2, 6.1.7.1) and a ToUnicode table that maps code 0 to U+0000 in one
block of more than 100 entries (ISO 14289-1, 7.21.7). Uses ReportLab's internals `PDFStream.format`,
`TTFont.addObjects`, `TTFontFile.makeSubset`; a test holds each of them.
"""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from io import BytesIO
from typing import Any

from PIL import Image, ImageOps
from reportlab.pdfbase import pdfdoc
from reportlab.pdfbase.ttfonts import FF_NONSYMBOLIC, FF_SYMBOLIC, SUBSETN, TTFont

EXIF_ORIENTATION = 0x0112
"""The tag in which a camera says how the picture is to be turned."""


class SealedStream(pdfdoc.PDFObject):  # type: ignore[misc]
    """A stream whose length is exact and whose data end in a line end of their own."""

    __RefOnly__ = 1

    def __init__(self, content: bytes, entries: str = "", compress: bool = True) -> None:
        self.content = content
        self.entries = entries
        self.compress = compress

    def format(self, document: Any) -> bytes:
        """The stream object, as ReportLab asks for it."""
        data, entries = self.content, self.entries
        if self.compress:
            data = zlib.compress(data, 9)
            entries += "/Filter/FlateDecode"
        return f"<<{entries}/Length {len(data)}>>".encode() + b"\nstream\n" + data + b"\r\nendstream"


def read_picture(data: bytes) -> tuple[SealedStream, SealedStream | None]:
    """A PNG or JPEG as an image object, and its transparency as another or None.

    A JPEG in grey or RGB that stands upright goes in as it is; everything else is decoded to RGB. Raises
    ValueError for bytes that are no picture.
    """
    try:
        picture: Image.Image = Image.open(BytesIO(data))
        upright = picture.getexif().get(EXIF_ORIENTATION, 1) == 1
        if picture.format == "JPEG" and upright and picture.mode in ("L", "RGB"):
            space = "/DeviceGray" if picture.mode == "L" else "/DeviceRGB"
            return SealedStream(data, _image_entries(picture, space) + "/Filter/DCTDecode", compress=False), None
        picture = ImageOps.exif_transpose(picture)
        clear = picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info
        pixels = picture.convert("RGB")
        mask = None
        if clear:
            alpha = picture.convert("RGBA").getchannel("A")
            mask = SealedStream(alpha.tobytes(), _image_entries(alpha, "/DeviceGray"))
        return SealedStream(pixels.tobytes(), _image_entries(pixels, "/DeviceRGB")), mask
    except OSError as error:
        raise ValueError(f"a picture cannot be read: {error}") from error


def _image_entries(picture: Image.Image, space: str) -> str:
    size = f"/Width {picture.width}/Height {picture.height}"
    return f"/Type/XObject/Subtype/Image{size}/BitsPerComponent 8/ColorSpace{space}"


class EmbeddedFont(TTFont):  # type: ignore[misc]
    """A TrueType font that embeds only the characters that were drawn, each with its Unicode value."""

    def addObjects(self, doc: Any) -> None:
        """Adds font, descriptor, widths, ToUnicode and the subset of outlines, for every 255 characters drawn."""
        state = self.state[doc]
        state.frozen = 1
        for index, subset in enumerate(state.subsets):
            name = self.getSubsetInternalName(index, doc)[1:]
            base = (SUBSETN(index) + b"+" + self.face.name + self.face.subfontNameX).decode("ascii")
            outlines = self.face.makeSubset(subset)
            file = doc.Reference(SealedStream(outlines, f"/Length1 {len(outlines)}"), f"fontFile:{name}")
            descriptor = pdfdoc.PDFDictionary(
                {
                    "Type": "/FontDescriptor",
                    "Ascent": self.face.ascent,
                    "CapHeight": self.face.capHeight,
                    "Descent": self.face.descent,
                    "Flags": (self.face.flags & ~FF_NONSYMBOLIC) | FF_SYMBOLIC,
                    "FontBBox": pdfdoc.PDFArray(self.face.bbox),
                    "FontName": pdfdoc.PDFName(base),
                    "ItalicAngle": self.face.italicAngle,
                    "StemV": self.face.stemV,
                    "FontFile2": file,
                    "MissingWidth": self.face.defaultWidth,
                }
            )
            font = pdfdoc.PDFTrueTypeFont()
            font.Name = name
            font.BaseFont = base
            font.FirstChar = 0
            font.LastChar = len(subset) - 1
            font.Widths = pdfdoc.PDFArray([self.face.getCharWidth(code) for code in subset])
            unicode_table = SealedStream(to_unicode(base, subset))
            font.ToUnicode = doc.Reference(unicode_table, f"toUnicode:{name}")
            font.FontDescriptor = doc.Reference(descriptor, f"fontDescriptor:{name}")
            doc.Reference(font, name)
            doc.idToObject["BasicFonts"].dict[name] = font
        del self.state[doc]


def to_unicode(font_name: str, subset: Sequence[int]) -> bytes:
    """The CMap from the codes of a subset to Unicode: `subset[code]` is the character, 0 for none."""
    pairs = [
        f"<{code:02X}> <{chr(value).encode('utf-16-be').hex().upper()}>" for code, value in enumerate(subset) if value
    ]
    blocks = [pairs[start : start + 100] for start in range(0, len(pairs), 100)]
    lines = [
        "/CIDInit /ProcSet findresource begin",
        "12 dict begin",
        "begincmap",
        f"/CIDSystemInfo << /Registry ({font_name}) /Ordering ({font_name}) /Supplement 0 >> def",
        f"/CMapName /{font_name} def",
        "/CMapType 2 def",
        "1 begincodespacerange",
        "<00> <FF>",
        "endcodespacerange",
    ]
    for block in blocks:
        lines += [f"{len(block)} beginbfchar", *block, "endbfchar"]
    lines += ["endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end"]
    return "\n".join(lines).encode("ascii")
