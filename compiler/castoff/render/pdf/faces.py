"""Faces: font files, the widths of words in them, and which face has which character.

In: a style and the templates' font files. Out: `Faces`, families ready to measure and to draw with. A character that a
face lacks is taken from the style's fallback; one that nobody has is an error (ReportLab would draw an empty box).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from io import BytesIO
from typing import Any

from castoff.render.pdf.streams import EmbeddedFont
from castoff.render.style import Assets, FaceFiles, Style, StyleError

HYPHENS = (0x2011, 0x00AD)
"""Drawn as a hyphen where a face has no glyph of their own: the no-break hyphen and the soft hyphen."""


class MissingCharacter(ValueError):
    """A character that no face of the style can draw."""


@dataclass(slots=True, eq=False)
class Face:
    """One font file.

    name: its file name without suffix. characters: what it can draw. widths: of words already measured, at 1 pt.
    """

    name: str
    font: EmbeddedFont
    characters: frozenset[str]
    widths: dict[str, float] = field(default_factory=dict)

    def width(self, text: str) -> float:
        """Width at 1 pt."""
        known = self.widths.get(text)
        if known is None:
            widths = self.font.face.charWidths
            known = sum(widths[32 if character == "\u00a0" else ord(character)] for character in text) / 1000
            self.widths[text] = known
        return known

    def codes(self, text: str, document: Any) -> list[tuple[str, bytes]]:
        """The text in this document's codes: (resource name of a subset, codes)."""
        return [
            (self.font.getSubsetInternalName(subset, document), codes)
            for subset, codes in self.font.splitString(text, document)
        ]


@dataclass(frozen=True, slots=True)
class Family:
    """Four faces that go together."""

    regular: Face
    bold: Face
    italic: Face
    bold_italic: Face

    def face(self, bold: bool, italic: bool) -> Face:
        """The face for a stress."""
        if bold:
            return self.bold_italic if italic else self.bold
        return self.italic if italic else self.regular


@dataclass(frozen=True)
class Faces:
    """The families of a style. spare: makes the fallback, a large font that few documents need."""

    text: Family
    label: Family
    display: Family
    spare: Callable[[], Face]

    @cached_property
    def fallback(self) -> Face:
        """The face for what the others cannot draw."""
        return self.spare()

    def pieces(self, text: str, face: Face) -> list[tuple[Face, str]]:
        """The text parted by the face that can draw it. Raises MissingCharacter."""
        if face.characters.issuperset(text):
            return [(face, text)]
        parts: list[tuple[Face, str]] = []
        for character in text:
            fitting = face if character in face.characters else self.fallback
            if character not in fitting.characters:
                raise MissingCharacter(
                    f"neither {face.name} nor {fitting.name} has the character `{character}` (U+{ord(character):04X})"
                )
            if parts and parts[-1][0] is fitting:
                parts[-1] = (fitting, parts[-1][1] + character)
            else:
                parts.append((fitting, character))
        return parts


def load_faces(style: Style, assets: Assets) -> Faces:
    """The faces of a style; a file used twice is loaded once. Raises StyleError for a file that cannot be used.

    One `Faces` may serve many documents, one after the other.
    """
    loaded: dict[str, Face] = {}

    def face(file_name: str) -> Face:
        if file_name not in loaded:
            loaded[file_name] = _load(file_name, _read(file_name, assets, style), style)
        return loaded[file_name]

    def family(files: FaceFiles) -> Family:
        return Family(face(files.regular), face(files.bold), face(files.italic), face(files.bold_italic))

    text, label, display = family(style.text), family(style.label), family(style.display)
    data = _read(style.fallback, assets, style)

    def spare() -> Face:
        return loaded.get(style.fallback) or _load(style.fallback, data, style)

    return Faces(text, label, display, spare)


def _read(file_name: str, assets: Assets, style: Style) -> bytes:
    try:
        return assets(f"fonts/{file_name}")
    except OSError as error:
        raise StyleError(f"style {style.name}: there is no fonts/{file_name} in the templates") from error


def _load(file_name: str, data: bytes, style: Style) -> Face:
    name = file_name.removesuffix(".ttf")
    try:
        font = EmbeddedFont(name, BytesIO(data), asciiReadable=False)
    except Exception as error:  # ReportLab raises its own and struct's errors for a broken file
        raise StyleError(f"style {style.name}: fonts/{file_name} cannot be embedded: {error}") from error
    glyphs, widths = font.face.charToGlyph, font.face.charWidths
    for code in HYPHENS:
        if code not in glyphs and 0x2D in glyphs:
            glyphs[code], widths[code] = glyphs[0x2D], widths[0x2D]
    characters = frozenset(chr(code) for code in glyphs if code >= 32 and code in widths) | {"\u00a0"}
    return Face(name, font, characters)
