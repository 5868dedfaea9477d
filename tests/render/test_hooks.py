"""What the PDF renderer uses of ReportLab beyond its documented interface, one test each: a new release shows here."""

from __future__ import annotations

from io import BytesIO

from PIL import Image
from reportlab.pdfbase import pdfdoc
from reportlab.pdfbase.ttfonts import TTFont, TTFontFile
from reportlab.pdfgen.canvas import Canvas
from tests.render import samples

from castoff.render.pdf.sheet import _Canvas, _Stamp
from castoff.render.pdf.streams import EmbeddedFont, SealedStream, read_picture, to_unicode
from castoff.render.pdf.tagger import RawObject


def font() -> EmbeddedFont:
    return EmbeddedFont("Spectral", BytesIO(samples.assets("fonts/Spectral-Regular.ttf")), asciiReadable=False)


def test_the_canvas_collects_operators_in_code() -> None:
    canvas = Canvas(BytesIO())
    canvas._code.append("% here")
    before = canvas._code
    canvas.showPage()
    assert "% here" in before
    assert canvas._code is not before
    assert canvas._code == []


def test_the_preamble_can_be_set_and_then_selects_no_font() -> None:
    canvas = _Canvas(BytesIO(), pageCompression=0)
    canvas._code.append("0 0 m 9 9 l S")
    canvas.showPage()
    assert canvas._doc.Pages.pages[-1].stream.startswith("1 0 0 1 0 0 cm\n0 0 m")
    assert not canvas._doc.fontMapping


def test_a_page_takes_contents_and_entries_of_ours() -> None:
    canvas = _Canvas(BytesIO())
    canvas.showPage()
    page = canvas._doc.Pages.pages[-1]
    page.Contents = SealedStream(b"0 0 m 9 9 l S", compress=False)
    page.__NoDefault__ = [*page.__NoDefault__, "Tabs", "StructParents"]
    page.Tabs, page.StructParents = pdfdoc.PDFName("S"), 5
    data = canvas.getpdfdata()
    assert b"/Tabs /S" in data
    assert b"/StructParents 5" in data
    assert b"stream\n0 0 m 9 9 l S\r\nendstream" in data


def test_the_catalog_takes_entries_of_ours() -> None:
    canvas = _Canvas(BytesIO())
    canvas.showPage()
    catalog = canvas._doc.Catalog
    catalog.__NoDefault__ = [*catalog.__NoDefault__, "OutputIntents"]
    catalog.OutputIntents = RawObject(b"[(ours)]")
    catalog.MarkInfo = RawObject(b"<</Marked true>>")
    data = canvas.getpdfdata()
    assert b"[(ours)]" in data
    assert b"<</Marked true>>" in data


def test_the_date_and_the_identifier_can_be_set() -> None:
    canvas = _Canvas(BytesIO())
    canvas.showPage()
    canvas._doc._timeStamp = _Stamp(0.0, (2026, 11, 1, 0, 0, 0))
    canvas._doc._ID = b"[<00><00>]"
    data = canvas.getpdfdata()
    assert b"D:20261101000000+00'00'" in data
    assert b"/ID [<00><00>]" in data


def test_objects_get_their_number_when_they_are_named() -> None:
    document = Canvas(BytesIO())._doc
    document.Reference(RawObject(b"(one)"), "One")
    first = document.idToObjectNumberAndVersion["One"][0]
    document.Reference(RawObject(b"(two)"), "Two")
    assert document.idToObjectNumberAndVersion["Two"][0] == first + 1


def test_a_font_splits_text_by_subset_and_skips_nothing() -> None:
    document = Canvas(BytesIO())._doc
    used = font()
    characters = "".join(chr(code) for code in sorted(used.face.charToGlyph) if 33 <= code < 600)
    assert len(characters) > 255
    parts = used.splitString(characters, document)
    assert len(parts) > 1
    assert sum(len(codes) for _, codes in parts) == len(characters)
    subset, codes = used.splitString("½", document)[0]
    assert used.state[document].subsets[subset][codes[0]] == ord("½")


def test_widths_are_kept_by_character_in_thousandths() -> None:
    face = font().face
    assert face.charWidths[ord("0")] == 500
    assert face.getCharWidth(ord("0")) == 500


def test_a_font_makes_subsets_with_outlines() -> None:
    face = TTFontFile(BytesIO(samples.assets("fonts/Spectral-Regular.ttf")))
    small = face.makeSubset([0, *([32] * 32), ord("k"), ord("½")])
    assert 1000 < len(small) < 60_000


def test_a_delayed_font_is_asked_for_its_objects_once() -> None:
    canvas = _Canvas(BytesIO())
    used = font()
    subset, _ = used.splitString("knit", canvas._doc)[0]
    name = used.getSubsetInternalName(subset, canvas._doc)
    assert name == "/F1+0"
    assert canvas._doc.delayedFonts == [used]
    canvas._code.append("BT ET")
    data = canvas.getpdfdata()
    assert b"/FontFile2" in data
    assert canvas._doc not in used.state


def test_our_font_stands_in_for_the_library_s() -> None:
    assert issubclass(EmbeddedFont, TTFont)
    assert EmbeddedFont.addObjects is not TTFont.addObjects


def test_to_unicode_names_every_character_and_never_code_0() -> None:
    table = to_unicode("F", [0, *range(33, 300), 0x1F9F6]).decode()
    assert "<00>" not in table.split("endcodespacerange")[1]
    assert "<01> <0021>" in table
    assert "<D83E" in table
    counts = [int(line.split()[0]) for line in table.splitlines() if line.endswith("beginbfchar")]
    assert counts == [100, 100, 68]


def test_pictures_keep_their_size_and_transparency() -> None:
    clear = BytesIO()
    Image.new("RGBA", (4, 3), (200, 10, 10, 90)).save(clear, "PNG")
    image, mask = read_picture(clear.getvalue())
    assert "/Width 4/Height 3" in image.entries
    assert len(image.content) == 36
    assert mask is not None
    assert mask.content == bytes([90] * 12)
    jpeg = BytesIO()
    Image.new("RGB", (4, 3)).save(jpeg, "JPEG")
    image, mask = read_picture(jpeg.getvalue())
    assert image.content == jpeg.getvalue()
    assert mask is None
