"""Pictures from files."""

from __future__ import annotations

import struct
import zlib

import pytest
from tests.document.sources import edition_of, source

from castoff.document.pictures import PictureFault, read_picture
from castoff.document.tree import Figure, TitlePage, plain_text, walk
from castoff.pipeline import prove_text

WORK = "With larger needles and A, cast on 80 sts.\nKnit 4 rows.\nBind off all sts."
PICTURES = """\
pictures:
  - {file: cap.png, alt: The cap on a stone, credit: Ines Farrow, place: front}
  - {file: brim.png, alt: The brim from near by, credit: Ines Farrow, place: Body, caption: The brim.}
  - {file: back.png, alt: The back of the cap, credit: Ines Farrow, place: end}
"""


def png(width: int, height: int) -> bytes:
    """A PNG of one grey."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = zlib.compress((b"\0" + b"\x80" * width) * height)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def jpeg(width: int, height: int) -> bytes:
    """The head of a JPEG: start, an application segment, a baseline frame (ITU-T T.81)."""
    app = b"\xff\xe0" + struct.pack(">H", 16) + b"JFIF\0" + b"\0" * 9
    frame = b"\xff\xc0" + struct.pack(">HBHHB", 11, 8, height, width, 1) + b"\x01\x11\x00"
    return b"\xff\xd8" + app + frame + b"\xff\xd9"


def test_sizes_are_read_from_the_files_themselves() -> None:
    assert (read_picture(png(40, 30)).width_px, read_picture(png(40, 30)).height_px) == (40, 30)
    photo = read_picture(jpeg(640, 480))
    assert (photo.media_type, photo.width_px, photo.height_px) == ("image/jpeg", 640, 480)


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (b"II*\0 a TIFF", "is neither a PNG nor a JPEG file"),
        (png(4, 4)[:20], "the PNG file is cut short"),
        (png(0, 4), "the picture is 0 pixels wide or high"),
        (jpeg(4, 4)[:12], "the JPEG file is cut short"),
        (b"\xff\xd8 no marker here", "the JPEG file is damaged"),
        (b"", "is neither a PNG nor a JPEG file"),
    ],
)
def test_what_is_no_picture_is_said_to_be_none(data: bytes, fault: str) -> None:
    with pytest.raises(PictureFault) as raised:
        read_picture(data)
    assert str(raised.value) == fault


def test_pictures_stand_in_their_places_with_credit() -> None:
    proof = prove_text("trial.yaml", source(WORK, PICTURES))
    checked = edition_of(proof, photograph=lambda name: png(40, 30))
    assert checked.findings == ()
    blocks = list(walk(checked.value.blocks))
    page = blocks[0]
    assert isinstance(page, TitlePage) and page.figure is not None
    assert (page.figure.alt, plain_text(page.figure.credit)) == ("The cap on a stone", "Picture: Ines Farrow")
    keys = [getattr(block, "key", "") for block in blocks]
    assert keys.index("section-1") < keys.index("picture-2") < keys.index("section-1-rows-1")
    assert keys.index("pictures") < keys.index("picture-3")


def test_an_edition_without_pictures_has_none() -> None:
    checked = edition_of(prove_text("trial.yaml", source(WORK, PICTURES)), "no-pictures", photograph=lambda name: b"")
    assert checked.findings == ()
    figures = [block for block in walk(checked.value.blocks) if isinstance(block, Figure)]
    assert [figure.key for figure in figures] == ["schematic-drawing"]


def test_a_picture_that_cannot_be_used_is_found_once_where_it_is_named() -> None:
    def photograph(name: str) -> bytes:
        if name == "brim.png":
            raise FileNotFoundError("brim.png: no such file")
        return b"GIF89a" if name == "back.png" else png(4, 3)

    checked = edition_of(prove_text("trial.yaml", source(WORK, PICTURES)), photograph=photograph)
    assert not checked.sound
    assert [(found.rule.name, found.message, found.span and found.span.line) for found in checked.findings] == [
        ("picture-unusable", "picture `brim.png`: brim.png: no such file", 21),
        ("picture-unusable", "picture `back.png`: is neither a PNG nor a JPEG file", 22),
    ]
