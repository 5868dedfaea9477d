"""Picking up along edges: how many stitches, and how the work goes on."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted


@pytest.mark.parametrize(
    "words",
    [
        "Pick up and knit 3 sts along left edge, then 3 sts from cast-on edge. 9 sts.",
        "K3, pick up and knit 3 sts along left edge, pick up and knit 3 sts from cast-on edge. 9 sts.",
    ],
)
def test_picking_up_round_the_corners_of_a_strip_goes_on_in_rows(words: str) -> None:
    tab = f"Cast on 3 sts.\nKnit 6 rows.\n{words}\n"
    piece = knitted(f"{tab}Next row (WS): K3, p3, k3.\nBind off all sts.").sizes[0].pieces["Piece"]
    assert [(record.side, record.after) for record in piece.records][-2:] == [("RS", 9), ("WS", 9)]


@pytest.mark.parametrize("told", [". 28 sts.", ": 28 sts."])
def test_a_ratio_that_is_about_right_comes_to_the_printed_number(told: str) -> None:
    back = "Cast on 20 sts.\nKnit 38 rows.\nBind off all sts.\n"
    words = f"With RS facing, pick up and knit approx 3 sts for every 4 rows along left front edge{told}"
    piece = knitted(f"{back}{words}\nPurl 1 row.\nBind off 28 sts.").sizes[0].pieces["Piece"]
    assert [record.after for record in piece.records][-2:] == [28, 28]
