"""The plain-text edition."""

from __future__ import annotations

from dataclasses import replace

from tests.render import samples

from castoff.document import tree as t
from castoff.render.text import render_text


def text(*blocks: t.Block) -> str:
    return render_text(t.Document(samples.meta(), blocks)).decode("utf-8")


def test_a_row_is_one_line_with_its_stated_count() -> None:
    row = samples.row(
        "Row 1 (RS)", "K", samples.per_size(8, 9, 10), ", ", samples.k2tog(), ".", stated=(t.Text("9 sts"),)
    )
    assert text(t.InstructionList((row,))) == "Row 1 (RS): K8 (9, 10), k2tog. 9 sts\n"


def test_headings_are_marked_by_level() -> None:
    assert text(t.Heading(2, (t.Text("Brim"),)), t.Heading(3, (t.Text("Rib"),))) == "## Brim\n\n### Rib\n"


def test_a_table_is_said_row_by_row() -> None:
    table = samples.table("Sizes", ("", "S", "M"), ("Height, cm", "20", "21½"), ("Width, cm", "44", "–"))
    assert text(table) == "Sizes\n\nHeight, cm\nS: 20\nM: 21½\n\nWidth, cm\nS: 44\nM: –\n"


def test_spanning_heads_are_said_with_every_column_under_them() -> None:
    def cell(says: str, columns: int = 1, rows: int = 1, scope: str | None = None) -> t.Cell:
        return t.Cell((t.Text(says),), scope=scope, columns=columns, rows=rows)  # type: ignore[arg-type]

    head = (
        (cell("Size", rows=2, scope="column"), cell("Bust", columns=2, scope="column")),
        (cell("cm", scope="column"), cell("in", scope="column")),
    )
    table = t.Table((), head, ((cell("S", scope="row"), cell("90"), cell("35½")),))
    assert text(table) == "S\nBust, cm: 90\nBust, in: 35½\n"


def test_drawings_are_said_in_their_words() -> None:
    said = text(t.Figure(samples.schematic(), "Schematic"))
    assert said == "The cap is 48 cm around in size S and 20 cm high; the rib takes the first 4 cm.\n"


def test_links_tell_their_address() -> None:
    paragraph = t.Paragraph((t.Text("See "), t.Link((t.Text("our page"),), "https://example.org/cap"), t.Text(".")))
    assert text(paragraph) == "See our page. (https://example.org/cap)\n"


def test_pictures_are_described_or_left_out() -> None:
    document = samples.cap()
    assert b"Picture: The cap in slate" in render_text(document)
    assert b"The cap in slate" not in render_text(document, pictures=False)


def test_it_says_what_the_tree_says_and_no_hard_spaces() -> None:
    said = render_text(samples.cap()).decode("utf-8")
    assert "\u00a0" not in said
    for part in ("# Saltgrass Cap", "cast on 80 (88, 96, 104, 112) sts", "k2tog: knit two stitches together"):
        assert part in said
    one = replace(samples.per_size(80, 88, 96, unit="sts"), shown=1)
    assert text(t.Paragraph((t.Text("Cast on "), one, t.Text(".")))) == "Cast on 88 sts.\n"
