"""Small things as they look on the page, held against pictures of them. `--update-pictures` sets the pictures anew.

A picture is the ink of a page in grey at 72 dots an inch. Another release of the renderer moves edges by a shade, which the
tolerance allows; a line that moves by half a point does not pass.
"""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageOps, ImageStat
from tests.render import samples

from castoff.document import tree as t
from castoff.document.edition import Edition
from castoff.render.pdf.press import render_pdf
from castoff.render.style import load_style

PICTURES = Path(__file__).with_name("pictures")
MEAN = 1.0
"""Mean difference of a pixel, of 255, that a picture may have."""


def words(text: str) -> t.Inlines:
    return (t.Text(text),)


COUNTS = samples.per_size(*(1100 + 44 * n for n in range(12)), unit="sts")
THINGS: dict[str, t.Blocks] = {
    "rows": (
        t.InstructionList(
            (
                samples.row("Row 1 (RS)", "K2, ", samples.k2tog(), ", k to last 4 sts, ssk, k2.", stated=(COUNTS,)),
                samples.row("Row 2", "Purl.", stated=words("84 sts")),
                samples.row("Buttonhole row (RS) of the left front band", "Rib 3, yo, k2tog, rib to end.", indent=1),
            )
        ),
    ),
    "sizes": (
        samples.table(
            "Finished measurements in inches",
            ("", "S", "M", "L"),
            ("To fit chest", "32", "36¼", "40½"),
            ("Ease", "+2", "+1¾", "−½"),
        ),
    ),
    "heads": (
        t.Heading(2, words("Instructions")),
        t.Heading(3, words("Lower body")),
        t.Paragraph(words("Worked from the neck down, ⅜ in (1 cm) at a time – “loosely”.")),
        t.Heading(4, words("Shape the neck")),
        t.Paragraph(words("Both sides are worked at the same time."), "note"),
    ),
    "glossary": (
        t.FactList(
            tuple(
                t.Fact(words(short), (words(long),))
                for short, long in (
                    ("k", "knit"),
                    ("k2tog", "knit two together"),
                    ("ssk", "slip, slip, knit"),
                    ("p", "purl"),
                )
            ),
            "glossary",
        ),
    ),
    "caution": (t.Caution(words("Cords"), (t.Paragraph(words("No cord at the neck of a child’s garment.")),)),),
    "schematic": (t.Figure(samples.schematic(), "A drawing of a cap for this test", words("In size S.")),),
    "chart": (t.Figure(samples.chart(), "A chart of a cable for this test"),),
    "ticks": (
        t.TickTable(
            words("Left side of neck"),
            (
                t.TickRow(words("Dec row and next row"), words("26 (30, 34) sts"), 12),
                t.TickRow(words("Even row"), boxes=3),
                t.TickRow(words("Next row")),
            ),
        ),
    ),
    "list": (t.BulletList(tuple((t.Paragraph(words(text)),) for text in ("One thing.", "And another."))),),
    "title": (
        t.TitlePage(
            words("The Long Shore Pullover"),
            words("Saltgrass & Tern"),
            words("Designed by Ines Farrow"),
            words("A pullover with a collar."),
            facts=t.FactList((t.Fact(words("Gauge"), (words("22 sts to 10 cm"),)),)),
            notice=words("Demonstration: an invented pattern"),
        ),
    ),
}
CASES = [(thing, style) for thing in THINGS for style in ("saltmarsh", "lighthouse", "large-print")]


def drawn(thing: str, style: str) -> Image.Image:
    """The ink of the first page, foot left out."""
    blocks = THINGS[thing]
    if thing != "title":
        # the heading that every document needs stands on a page of its own
        blocks = (t.TitlePage(words("T")), t.PageBreak(), *blocks)
    edition = Edition(reading="large" if style == "large-print" else "standard")
    data = render_pdf(t.Document(samples.meta(), blocks), edition, load_style(style, samples.assets), samples.assets)
    sheet = pypdfium2.PdfDocument(data)[0 if thing == "title" else 1]
    page: Image.Image = sheet.render(scale=1, grayscale=True).to_pil().convert("L")
    page = page.crop((0, 0, page.width, page.height - 90))
    ink = ImageOps.invert(page).getbbox()
    assert ink is not None
    return page.crop(ink)


@pytest.mark.parametrize(("thing", "style"), CASES)
def test_it_looks_as_it_did(thing: str, style: str, request: pytest.FixtureRequest, tmp_path: Path) -> None:
    now = drawn(thing, style)
    path = PICTURES / f"{thing}-{style}.png"
    if request.config.getoption("--update-pictures"):
        PICTURES.mkdir(exist_ok=True)
        now.save(path, optimize=True)
    before = Image.open(path).convert("L")
    seen = tmp_path / path.name
    now.save(seen)
    assert now.size == before.size, f"{path.name} was {before.size} and is {now.size}: see {seen}"
    mean = ImageStat.Stat(ImageChops.difference(now, before)).mean[0]
    assert mean < MEAN, f"{path.name} differs by {mean:.2f} of 255 a pixel: see {seen}"


def test_the_tolerance_is_less_than_half_a_point() -> None:
    """A page moved by half a pixel would not pass for the same."""
    for thing in ("rows", "sizes", "heads"):
        now = drawn(thing, "saltmarsh")
        moved = now.transform(now.size, Image.Transform.AFFINE, (1, 0, 0.5, 0, 1, 0), Image.Resampling.BILINEAR)
        assert ImageStat.Stat(ImageChops.difference(now, moved)).mean[0] > MEAN


def test_every_picture_is_of_something() -> None:
    assert sorted(path.stem for path in PICTURES.glob("*.png")) == sorted(f"{thing}-{style}" for thing, style in CASES)
