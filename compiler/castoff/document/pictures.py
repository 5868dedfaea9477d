"""Pictures of the pattern: files beside the source, with alternative text and credit.

In: the job, and the place a picture is wanted for. Out: figures. A file is taken as it is, PNG or JPEG; its size in
pixels is read from its own head. A picture that cannot be used is a finding at the line that names it.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator

from castoff.diagnostic import Diagnostic, Rule
from castoff.document.job import Job
from castoff.document.tree import Figure, Picture, Text
from castoff.model.pattern import Picture as SourcePicture

PICTURE_UNUSABLE = Rule(
    "picture-unusable",
    "error",
    """A picture cannot be printed.

    Pictures are PNG or JPEG files that lie beside the pattern source. One that is missing, of another kind, or cut
    short would leave a hole in the page.

    Fires:   pictures: [{file: cap.tiff, alt: The cap, credit: Ines Farrow}]
    Silent:  pictures: [{file: cap.jpg, alt: The cap, credit: Ines Farrow}]
    """,
)
RULES = (PICTURE_UNUSABLE,)

FRONT, END = "front", "end"
_PNG = b"\x89PNG\r\n\x1a\n"
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
"""JPEG markers that open a frame and tell its size (ITU-T T.81, table B.1)."""


class PictureFault(ValueError):
    """Bytes that are no picture we can print."""


def read_picture(data: bytes) -> Picture:
    """A picture from the bytes of its file. Raises PictureFault in words."""
    if data.startswith(_PNG):
        if len(data) < 24 or data[12:16] != b"IHDR":
            raise PictureFault("the PNG file is cut short")
        width, height = struct.unpack(">II", data[16:24])
        return _sized(data, "image/png", width, height)
    if data.startswith(b"\xff\xd8"):
        return _jpeg(data)
    raise PictureFault("is neither a PNG nor a JPEG file")


def _jpeg(data: bytes) -> Picture:
    at = 2
    while at + 9 < len(data):
        if data[at] != 0xFF:
            raise PictureFault("the JPEG file is damaged")
        marker = data[at + 1]
        if marker == 0xFF:
            at += 1
            continue
        if marker in _FRAMES:
            height, width = struct.unpack(">HH", data[at + 5 : at + 9])
            return _sized(data, "image/jpeg", width, height)
        at += 2 if 0xD0 <= marker <= 0xD9 or marker == 1 else 2 + struct.unpack(">H", data[at + 2 : at + 4])[0]
    raise PictureFault("the JPEG file is cut short")


def _sized(data: bytes, kind: str, width: int, height: int) -> Picture:
    if not width or not height:
        raise PictureFault("the picture is 0 pixels wide or high")
    return Picture(data, "image/png" if kind == "image/png" else "image/jpeg", width, height)


def figures_for(job: Job, place: str) -> Iterator[Figure]:
    """The figures of a place: "front", "end", or a section's title; none in an edition without pictures."""
    if not job.edition.pictures or job.edition.reading == "text":
        return
    for number, picture in enumerate(job.pattern.pictures, 1):
        where = picture.place.value.strip() if picture.place is not None else END
        if where.casefold() != place.casefold():
            continue
        content = _load(job, picture)
        if content is not None:
            credit = job.say("front", "picture_credit", credit=picture.credit.value)
            yield Figure(content, picture.alt.value, job.inline(picture.caption), (Text(credit),), f"picture-{number}")


def _load(job: Job, picture: SourcePicture) -> Picture | None:
    name = picture.file.value
    try:
        return read_picture(job.photograph(name))
    except PictureFault as fault:
        message, hint = f"picture `{name}`: {fault}", "save it as PNG or JPEG"
    except Exception as fault:  # the reader of files is the caller's; whatever it raises means that there is no picture
        message, hint = f"picture `{name}`: {fault}", "the file lies beside the pattern source"
    job.found.append(Diagnostic.of(PICTURE_UNUSABLE, message, picture.file.span(), hint=hint))
    return None
