"""Documents to render: a cap with everything a pattern has, and awkward ones. Invented, as everything in the tests."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

from castoff.document import tree as t
from castoff.document.tree import Inlines, SizeList, Text, size_groups

TEMPLATES = Path(__file__).parents[2] / "templates"


def assets(path: str) -> bytes:
    """Reads a file of the templates."""
    return (TEMPLATES / path).read_bytes()


def png(width: int, height: int) -> bytes:
    """A picture without a file: bands of two colours."""
    rows = b"".join(
        b"\0" + b"".join(bytes((90 + 60 * (y // 9 % 2), 120, 110 + x % 40)) for x in range(width))
        for y in range(height)
    )

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


NAMES = ("S", "M", "L", "XL", "2XL")


def per_size(*values: str | float, unit: str = "") -> SizeList:
    """A size list with the house's brackets."""
    ready = tuple(str(value) for value in values)
    return SizeList(ready, groups=size_groups(len(ready)), unit=unit)


def k2tog() -> t.StitchTerm:
    return t.StitchTerm("k2tog", "knit two stitches together")


def table(caption: str, head: tuple[str, ...], *rows: tuple[str, ...]) -> t.Table:
    """A table of a row heading and one value a size."""
    top = tuple(
        t.Cell((Text(cell),) if cell else (), scope="column", align="decimal" if index else "left")
        for index, cell in enumerate(head)
    )
    body = tuple(
        tuple(
            t.Cell((Text(cell),), scope=None if index else "row", align="decimal" if index else "left")
            for index, cell in enumerate(row)
        )
        for row in rows
    )
    return t.Table((Text(caption),), (top,), body)


def row(label: str, *text: t.Inline | str, stated: Inlines | None = None, indent: int = 0) -> t.InstructionRow:
    inline = tuple(Text(part) if isinstance(part, str) else part for part in text)
    return t.InstructionRow((Text(label),) if label else None, inline, stated, indent=indent)


def meta(title: str = "Saltgrass Cap") -> t.Meta:
    return t.Meta(
        title=title,
        version="1.0.0",
        date="2026-11-01",
        designer="Ines Farrow",
        studio="Saltgrass & Tern",
        summary="A ribbed cap with a wedge crown, worked from the brim up.",
        keywords=("knitting", "cap"),
        edition="metric and inches, A4",
        invented=True,
    )


def schematic() -> t.Drawing:
    return t.Drawing(
        120,
        70,
        (
            t.Polyline(((20, 60), (20, 25), (45, 8), (75, 8), (100, 25), (100, 60)), closed=True, fill="pale"),
            t.Polyline(((20, 50), (100, 50)), dashes=(1.5, 1.0), width_mm=0.2),
            t.Polyline(((20, 65), (100, 65)), arrows="both", ink="accent", width_mm=0.25),
            t.Label(60, 69.2, "48 (52, 56, 60, 64) cm"),
            t.Polyline(((108, 8), (108, 60)), arrows="both", ink="accent", width_mm=0.25),
            t.Label(112, 34, "20 (21, 22, 23, 24) cm", angle=90),
            t.Label(60, 36, "body"),
            t.Label(60, 57, "rib"),
        ),
        words=(
            t.Paragraph((Text("The cap is 48 cm around in size S and 20 cm high; the rib takes the first 4 cm."),)),
        ),
    )


def chart() -> t.ChartGrid:
    cross = (t.Polyline(((0.2, 0.8), (0.8, 0.2)), width_mm=0.08),)
    dot = (t.Circle(0.5, 0.5, 0.16, width_mm=0, fill="ink"),)
    pattern = ("x.x.x.x.", "........", ".x.x.x.x", "........")
    rows = tuple(
        tuple(
            t.ChartCell("dec" if sign == "x" else ("purl" if index % 2 else ""), "#dfe7d8" if sign == "x" else None)
            for sign in line
        )
        for index, line in enumerate(pattern)
    )
    return t.ChartGrid(
        rows,
        tuple((str(4 - index), "right" if (3 - index) % 2 == 0 else "left") for index in range(4)),
        (
            t.ChartSymbol("dec", cross, (Text("k2tog"),), "/"),
            t.ChartSymbol("purl", dot, (Text("purl"),), "•"),
        ),
        colours=(t.ChartColour("#dfe7d8", (Text("reed"),), "dec"),),
        outlines=((0, 0, 4, 4),),
        words=(t.Paragraph((Text("Row 1 (RS): Knit. Row 2 (WS): Purl."),)),),
    )


def photograph() -> t.Figure:
    picture = t.Picture(png(300, 200), "image/png", 300, 200)
    return t.Figure(picture, "The cap in slate, seen from the side", credit=(Text("Photograph: Saltgrass & Tern"),))


def cap() -> t.Document:
    sizes = per_size(80, 88, 96, 104, 112)
    facts = t.FactList(
        (
            t.Fact(
                (Text("Sizes"),),
                ((Text("S (M, L, XL, 2XL), to fit a head of "), per_size(48, 52, 56, 60, 64, unit="cm")),),
            ),
            t.Fact(
                (Text("Yarn"),),
                (
                    (Text("Low Tide Worsted (100% wool; 200\u00a0m / 100\u00a0g) in slate"),),
                    (Text("Worsted: category 4 medium, aran in the UK, 10 ply in Australia"),),
                    (per_size(180, 200, 220, 240, 260, unit="m"), Text(", 1 (1, 2, 2, 2) balls")),
                ),
            ),
            t.Fact(
                (Text("Needles"),),
                (
                    (
                        t.Quantity("5", "mm"),
                        Text(" (US 8) circular, 40 cm long, or the size that gives the gauge"),
                    ),
                    (
                        t.Quantity("4", "mm"),
                        Text(" (US 6) circular, 40 cm long"),
                    ),
                ),
            ),
            t.Fact(
                (Text("Gauge"),), ((Text("20 stitches and 28 rounds to 10 cm (4 in) in stockinette in the round"),),)
            ),
            t.Fact((Text("Notions"),), ((Text("8 stitch markers, tapestry needle"),),)),
            t.Fact((Text("Skill"),), ((Text("Easy: knit, purl, one decrease"),),)),
        )
    )
    front = t.TitlePage(
        (Text("Saltgrass Cap"),),
        kicker=(Text("Saltgrass & Tern"),),
        byline=(Text("Designed by Ines Farrow"),),
        summary=(
            Text("A ribbed cap with a wedge crown, worked from the brim up in one piece. Eight lines meet at the top."),
        ),
        figure=photograph(),
        facts=facts,
        notice=(Text("An invented pattern for demonstration: studio, designer and yarn do not exist."),),
    )
    measures = table(
        "Finished measurements",
        ("", *NAMES),
        ("To fit head, cm", "48", "52", "56", "60", "64"),
        ("Circumference, cm", "44", "48½", "53", "57", "61½"),
        ("Circumference, in", "17¼", "19", "20¾", "22½", "24¼"),
        ("Height, cm", "20", "21", "22", "23", "24"),
    )
    glossary = t.FactList(
        tuple(
            t.Fact((Text(short),), ((Text(long),),))
            for short, long in (
                ("k", "knit"),
                ("k2tog", "knit two stitches together (one stitch decreased, leans right)"),
                ("p", "purl"),
                ("pm", "place marker"),
                ("rem", "remain"),
                ("rep", "repeat"),
                ("rnd", "round"),
                ("sm", "slip marker"),
                ("st, sts", "stitch, stitches"),
            )
        ),
        kind="glossary",
    )
    brim = t.InstructionList(
        (
            row(
                "",
                "With smaller needles and yarn A, cast on ",
                sizes,
                " sts. Place marker and join to work in the round, being careful not to twist.",
            ),
            row("Rnd 1", "*K2, p2; rep from * to end."),
            row(
                "",
                "Rep rnd 1 until cap measures ",
                t.Quantity("4", "cm"),
                " (",
                t.Quantity("1½", "in"),
                ") from cast-on edge.",
            ),
        )
    )
    crown = t.InstructionList(
        (
            row(
                "Rnd 1",
                "*K",
                per_size(8, 9, 10, 11, 12),
                ", ",
                k2tog(),
                ", pm; rep from * 6 more times, k",
                per_size(8, 9, 10, 11, 12),
                ", ",
                k2tog(),
                ".",
                stated=(per_size(72, 80, 88, 96, 104, unit="sts"),),
            ),
            row("Rnd 2", "Knit."),
            row(
                "Rnd 3 (dec)",
                "*K to 2 sts before marker, ",
                k2tog(),
                ", sm; rep from * to end.",
                stated=(Text("8 sts decreased"),),
            ),
            row("", "Rep last 2 rnds until 16 sts rem.", indent=1),
            t.InstructionRow(
                (Text("Next rnd"),),
                (Text("*"), k2tog(), Text("; rep from * to end, removing markers.")),
                (Text("8 sts"),),
                notes=(
                    t.Paragraph(
                        (Text("Change to double-pointed needles when the stitches no longer stretch round."),), "note"
                    ),
                ),
            ),
            row("", "Break yarn, draw through rem sts and fasten off."),
        )
    )
    blocks: list[t.Block] = [
        front,
        t.PageBreak(),
        t.Heading(2, (Text("Before you start"),)),
        measures,
        t.Paragraph(
            (
                Text("Choose the size nearest to your head; the cap is worked with "),
                t.Strong((Text("4 cm of negative ease"),)),
                Text(" and stretches. See "),
                t.Link((Text("the studio’s page"),), "https://example.org/cap", "Help with the Saltgrass Cap"),
                Text(" for help."),
            )
        ),
        t.Heading(3, (Text("Abbreviations"),)),
        glossary,
        t.Heading(3, (Text("Schematic"),)),
        t.Figure(
            schematic(), "Schematic of the cap with circumference and height", caption=(Text("The cap laid flat."),)
        ),
        t.Heading(2, (Text("Brim"),), "brim"),
        brim,
        t.Heading(2, (Text("Body"),)),
        t.InstructionList(
            (
                row("", "Change to larger needles."),
                row(
                    "",
                    "Knit every rnd until cap measures ",
                    per_size(13, 14, 15, 15.5, 16, unit="cm"),
                    " from cast-on edge.",
                ),
            )
        ),
        t.Heading(2, (Text("Crown"),)),
        crown,
        t.Figure(chart(), "Chart of four rounds, eight stitches wide"),
        t.Heading(2, (Text("Finishing"),)),
        t.NumberedList(
            (
                (
                    t.Paragraph(
                        (Text("Draw the tail through the last stitches twice and weave it in on the wrong side."),)
                    ),
                ),
                (t.Paragraph((Text("Wash in cool water, press in a towel, and dry over a bowl."),)),),
            )
        ),
        t.BulletList(((t.Paragraph((Text("Weave in ends along the rib."),)),), (t.Paragraph((Text("Store flat."),)),))),
        t.Caution(
            (Text("Cords and small parts"),),
            (
                t.Paragraph(
                    (Text("Do not sew cords, buttons or beads to a cap for a small child. Local rules come first."),)
                ),
            ),
        ),
        t.TickTable(
            (Text("Crown, round by round"),),
            tuple(t.TickRow((Text(f"Rnd {n}"),), (Text("dec"),), 1 + n) for n in range(1, 5)),
        ),
        t.Rule(),
        t.Paragraph(
            (
                Text(
                    "Saltgrass Cap, version 1.0.0, 1 November 2026. Designed by Ines Farrow for Saltgrass & Tern. "
                    "This pattern has been worked by machine in every size."
                ),
            ),
            "colophon",
        ),
    ]
    return t.Document(meta(), tuple(blocks))


def twelve() -> t.Document:
    """Twelve sizes, four-digit counts, a very long title."""
    names = tuple(f"{n}XL" for n in range(1, 13))
    long = per_size(*(1100 + 44 * n for n in range(12)), unit="sts")
    rows = tuple(
        row(
            f"Row {n} (RS)",
            "K2, ",
            k2tog(),
            ", k to last 4 sts, ssk, k2, and note that ",
            long,
            " remain.",
            stated=(long,),
        )
        for n in range(1, 31)
    )
    measures = table(
        "Finished measurements in centimetres",
        ("", *names),
        *((f"Circumference at chest number {n}", *(f"{1000 + 10 * m}½" for m in range(12))) for n in range(24)),
    )
    title = (
        "The Long Shore Pullover with Saddle Shoulders, Pockets and a Very Wide Collar for Windy Days at Merrow Sound"
    )
    front = t.TitlePage((Text(title),), summary=(Text("A pullover."),))
    blocks = (
        front,
        t.Contents((Text("Contents"),)),
        t.Heading(2, (Text("Sizes"),)),
        measures,
        t.Heading(2, (Text("Back"),)),
        t.InstructionList(rows),
    )
    return t.Document(meta(title), blocks)
