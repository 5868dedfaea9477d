"""The document tree."""

from __future__ import annotations

from dataclasses import replace

import pytest

from castoff.document import tree as t


@pytest.mark.parametrize(
    ("values", "groups", "unit", "says"),
    [
        (("84",), (), "", "84"),
        (("84", "92", "100"), (), "", "84 (92, 100)"),
        (("84", "92", "100"), (), "cm", "84 (92, 100)\u00a0cm"),
        (("4", "8", "12", "16", "20"), (2, 2), "", "4 (8, 12) (16, 20)"),
        (("4", "–", "12"), (), "", "4 (–, 12)"),
        (("7", "7", "7"), (), "in", "7\u00a0in"),
    ],
)
def test_a_size_list_says_its_numbers(values: tuple[str, ...], groups: tuple[int, ...], unit: str, says: str) -> None:
    assert t.plain_text((t.SizeList(values, groups=groups, unit=unit),)) == says


def test_one_size_says_its_number_alone() -> None:
    sizes = t.SizeList(("84", "92", "100"), unit="cm")
    assert t.plain_text((replace(sizes, shown=2),)) == "100\u00a0cm"


def test_groups_must_hold_every_size() -> None:
    with pytest.raises(ValueError, match="do not add up to 2"):
        t.SizeList(("1", "2", "3"), groups=(1,))


def test_a_table_s_rows_fill_the_same_columns() -> None:
    cell = t.Cell((t.Text("1"),))
    with pytest.raises(ValueError, match=r"fill \[2, 3\] columns"):
        t.Table((), ((cell, cell),), ((cell, cell, cell),))
    tall, wide = replace(cell, rows=2), replace(cell, columns=2)
    table = t.Table((), ((tall, wide), (cell, cell)), ((cell, cell, cell),))
    assert table.column_count == 3


def test_a_figure_has_words_for_who_cannot_see_it() -> None:
    with pytest.raises(ValueError, match="alternative text"):
        t.Figure(t.Drawing(1, 1, ()), " ")


def test_headings_are_found_wherever_they_stand() -> None:
    inner = t.Heading(3, (t.Text("Rib"),))
    blocks: t.Blocks = (
        t.TitlePage((t.Text("Cap"),)),
        t.Columns((t.KeepTogether((inner,)),)),
        t.BulletList(((t.Heading(2, (t.Text("Brim"),)),),)),
    )
    assert [t.plain_text(heading.inline) for heading in t.headings(blocks)] == ["Cap", "Rib", "Brim"]
    with pytest.raises(ValueError, match="1 to 6"):
        t.Heading(7, (t.Text("Deep"),))
    with pytest.raises(ValueError, match="needs words"):
        t.Heading(2, (t.Text(" "),))
