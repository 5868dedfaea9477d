"""Plain knitting from the cast-on lies as the first line wants it that names a side."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")
BEGIN = "CO 40 (44, 48) sts.\n"


@pytest.mark.parametrize(
    ("rows", "first"),
    [
        ("Knit 5 rows.\nNext row (RS): Knit.", "WS"),
        ("Knit 6 rows.\nNext row (RS): Knit.", "RS"),
        ("Knit 6 rows.\nNext row (WS): Knit.", "WS"),
        ("Knit 5 rows, ending with a WS row.\nNext row (RS): Knit.", "WS"),
        ("Work in garter st for 5 rows.\nRow 1 (RS): Knit.", "WS"),
        (
            "Knit 3 rows. (2 ridges)\nChange to larger needles.\nKnit 2 rows.\nDec row (RS): K1, ssk, k to end.",
            "WS",
        ),
        ("Knit 5 rows. (3 ridges)\nWith RS facing, BO 3 sts, k to end.", "WS"),
        ("Knit 5 rows.\nRow 1: *K2, p2; rep from * to end.", "RS"),
        ("Knit 5 (6, 6) rows.\nNext row (RS): Knit.", "WS"),
    ],
)
def test_the_first_side_told_says_where_rows_began(rows: str, first: str) -> None:
    size = knitted(f"{BEGIN}{rows}\nKnit 1 row.\nBO all sts.", SIZES).sizes[0]
    assert size.pieces["Piece"].records[0].side == first


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("Knit 5 rows, ending with a WS row.\nNext row (WS): Knit.", "wrong-side-due"),
        ("Row 1 (RS): Knit.\nKnit 5 rows.\nNext row (WS): Knit.", "wrong-side-due"),
        ("Knit 5 rows.\nNext row (RS): Knit.\nKnit 2 rows.\nNext row (RS): Knit.", "wrong-side-due"),
        ("Knit 5 rows. (2 ridges)\nNext row (RS): Knit.", "stated-rows-off: 2 ridges are printed, 5 have been worked"),
        ("Knit 5 rows. (4 ridges)\nNext row (RS): Knit.", "stated-rows-off: 4 ridges are printed, 5 have been worked"),
        ("Work in St st for 5 rows.\nNext row (RS): Knit.", "wrong-side-due"),
    ],
)
def test_sides_that_contradict_each_other_are_found(rows: str, told: str) -> None:
    assert told in "\n".join(said(f"{BEGIN}{rows}\nBO all sts.", SIZES))
