"""The press: one document, one edition, one PDF.

In: the document tree, the edition's paper, a style and the templates' files. Out: the bytes of a tagged, archival PDF.
The same input gives the same bytes in any process; the only date in the file is the document's own.
"""

from __future__ import annotations

from castoff.document.edition import Edition
from castoff.document.tree import Document
from castoff.render.pdf.blocks import Compositor, Entry, keyed
from castoff.render.pdf.faces import Faces, load_faces
from castoff.render.pdf.setting import MM, Setting
from castoff.render.pdf.sheet import FOOTER, Run, Sheet
from castoff.render.pdf.strips import Column, deal_out, draw_column
from castoff.render.style import Assets, Style

A4 = (210 * MM, 297 * MM)
LETTER = (215.9 * MM, 279.4 * MM)
EITHER_TOP_BOTTOM_MM = 33.0
"""Free at head and foot of an A4 page that is to print whole on Letter as well (RFC 2346)."""
STUMP_LINES = 9
"""A last page of fewer lines of text than this is avoided."""


def render_pdf(document: Document, edition: Edition, style: Style, assets: Assets, faces: Faces | None = None) -> bytes:
    """The edition as a PDF.

    faces: the style's faces when they are loaded already (`load_faces`), to save a fifth of the time for the next
    editions. Raises StyleError for fonts that cannot be used, MissingCharacter, DanglingLink.
    """
    if faces is None:
        faces = load_faces(style, assets)
    width, height = LETTER if edition.paper == "Letter" else A4
    spaces = style.page
    top, bottom, foot = spaces.top_mm * MM, spaces.bottom_mm * MM, spaces.footer_mm * MM
    if edition.paper == "either":
        least = EITHER_TOP_BOTTOM_MM * MM
        foot = max(foot, least)
        top, bottom = max(top, least), max(bottom, foot + (spaces.bottom_mm - spaces.footer_mm) * MM)
    left = spaces.left_mm * MM
    room = width - left - spaces.right_mm * MM
    column_height = height - top - bottom
    setting = Setting(style, faces, room, spaces.side_mm * MM, column_height, edition.pictures)
    sheet = Sheet(document.meta, width, height)
    entries = keyed(document.blocks)
    column = Column()
    Compositor(entries).set_all(setting, document.blocks, sheet.root, column)
    pages = deal_out(column.strips, column_height, STUMP_LINES * setting.leading)
    for index, page in enumerate(pages):
        for strip in page:
            for key in strip.keys:
                setting.pages.setdefault(key, index + 1)
    if not pages:
        pages = [()]
    for index, page in enumerate(pages):
        draw_column(sheet, page, left, height - top)
        _footer(sheet, setting, document, index + 1, len(pages), left, foot)
        sheet.end_page()
    _outline(sheet, entries)
    return sheet.save()


def _footer(sheet: Sheet, setting: Setting, document: Document, number: int, total: int, left: float, y: float) -> None:
    """The running foot: title, version, edition; page x of y. It repeats what the pages say, so it is no content."""
    style = setting.style
    voice = setting.voice(style.type.footer, "label", style.colours.muted)
    face = voice.family.regular
    count = f"Page {number} of {total}"
    sheet.artifact(FOOTER)
    if style.linear:
        runs = [Run(text, fit, voice.size, voice.ink) for fit, text in setting.faces.pieces(count, face)]
        sheet.runs(y, _side_by_side(runs, left))
        return
    number_run = Run(count, face, voice.size, voice.ink)
    meta = document.meta
    edition = f" · {meta.edition}" if meta.edition else ""
    ending = f" · version {meta.version}{edition}"
    room = setting.width - number_run.width - 20
    says = f"{meta.title}{ending}"
    while (
        sum(f.width(t) for f, t in setting.faces.pieces(says, face)) * voice.size > room and len(says) > len(ending) + 8
    ):
        says = f"{says[: len(says) - len(ending) - 4].rstrip()}…{ending}"
    runs = [Run(text, fit, voice.size, voice.ink) for fit, text in setting.faces.pieces(says, face)]
    sheet.line(left, y + voice.size * 1.5, left + setting.width, y + voice.size * 1.5, 0.35, style.colours.line)
    sheet.runs(y, [*_side_by_side(runs, left), (left + setting.width - number_run.width, number_run)])


def _side_by_side(runs: list[Run], x: float) -> list[tuple[float, Run]]:
    placed = []
    for run in runs:
        placed.append((x, run))
        x += run.width
    return placed


def _outline(sheet: Sheet, entries: list[Entry]) -> None:
    """Bookmarks: every heading; a level rises by one at most, the first is the outermost."""
    if not entries:
        return
    lowest = min(entry.level for entry in entries)
    before = -1
    for entry in entries:
        before = min(entry.level - lowest, before + 1)
        sheet.outline(entry.title, entry.key, before)
