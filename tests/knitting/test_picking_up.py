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
