"""Style files: what ships reads, and a faulty one is told where."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.render import samples

from castoff.document.edition import Edition
from castoff.render.pdf.faces import load_faces
from castoff.render.style import StyleError, load_style, style_for

NEEDED = "½¼¾⅛⅜⅝⅞⅓⅔×–—°′″•←→↑↓“”‘’…−·©é"
"""Characters that a pattern may need of every face (fractions, primes, arrows)."""


def shipped() -> list[str]:
    return sorted(path.stem for path in (samples.TEMPLATES / "styles").glob("*.yaml"))


def luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, contrast ratio."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("name", shipped())
def test_a_shipped_style_is_readable_print(name: str) -> None:
    style = load_style(name, samples.assets)
    assert style.name == name
    for ink in (style.colours.ink, style.colours.accent, style.colours.muted, style.colours.caution):
        assert contrast(ink, "#ffffff") >= 4.5
        assert contrast(ink, style.colours.panel) >= 4.5


@pytest.mark.parametrize("name", shipped())
def test_every_face_of_a_shipped_style_has_the_trade_s_characters(name: str) -> None:
    faces = load_faces(load_style(name, samples.assets), samples.assets)
    for family in (faces.text, faces.label, faces.display):
        for face in (family.regular, family.bold, family.italic, family.bold_italic):
            assert face.characters >= set(NEEDED), face.name
            digits = {face.width(digit) for digit in "0123456789"}
            assert len(digits) == 1, face.name


def test_every_font_has_its_licence_beside_it() -> None:
    fonts = samples.TEMPLATES / "fonts"
    for font in fonts.glob("*.ttf"):
        licence = (fonts / f"{font.stem.split('-')[0]}-OFL.txt").read_text(encoding="utf-8")
        assert "SIL OPEN FONT LICENSE Version 1.1" in licence


def test_contrast_is_counted_as_the_standard_does() -> None:
    # check values computed with the formula of WCAG 2.2 (w3.org/TR/WCAG22/#dfn-contrast-ratio)
    assert round(contrast("#767676", "#FFFFFF"), 2) == 4.54
    assert round(contrast("#000000", "#FFFFFF"), 2) == 21.0


def test_large_print_is_a_style_of_its_own() -> None:
    style = style_for(Edition(reading="large"), "saltmarsh", samples.assets)
    assert style.linear
    assert style.type.body.size >= 22
    assert style_for(Edition(), "saltmarsh", samples.assets).name == "saltmarsh"


GOOD = (samples.TEMPLATES / "styles" / "saltmarsh.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("body: [10.5, 15]", "body: [15, 10.5]", r"`type.body` should be a size above 0 and a leading no smaller"),
        ("body: [10.5, 15]", "bodi: [10.5, 15]", r"`type` lacks `body`"),
        ("headings: hairline", "headings: wavy", r"`headings` should be hairline or band or plain, not `wavy`"),
        ('accent: "#3d5a45"', "accent: green", r"`colours.accent` should be a colour such as"),
        ("fallback: Andika-Regular.ttf", "fallback: Andika.otf", r"`faces.fallback` should be the name of a .ttf file"),
        ("top_mm: 24", "top_mm: -1", r"`page.top_mm` should be a number, 0 or more, not `-1`"),
        ("name: saltmarsh", "name: saltmarsh\nglitter: much", r"`the file` does not know `glitter`"),
        ("name: saltmarsh", "name: [", r"styles/mine.yaml: "),
    ],
)
def test_a_faulty_style_is_told_where(old: str, new: str, message: str) -> None:
    assert old in GOOD
    with pytest.raises(StyleError, match=message):
        load_style("mine", lambda path: GOOD.replace(old, new).encode())


def test_a_missing_style_or_font_is_named(tmp_path: Path) -> None:
    def empty(path: str) -> bytes:
        return (tmp_path / path).read_bytes()

    with pytest.raises(StyleError, match="no style `saltmarsh`"):
        load_style("saltmarsh", empty)
    with pytest.raises(StyleError, match=r"no fonts/Spectral-Regular\.ttf"):
        load_faces(load_style("saltmarsh", samples.assets), empty)
    with pytest.raises(StyleError, match="cannot be embedded"):
        load_faces(load_style("saltmarsh", samples.assets), lambda path: b"not a font")
