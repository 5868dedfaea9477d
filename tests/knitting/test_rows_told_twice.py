"""A line for many rows ("row 2 and all WS rows"), and rows that it speaks of told again."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said

ROWS = "Cast on 12 sts.\nRow 1 (RS): *K2, p2; rep from * to end.\nRow 2 and all WS rows: Purl.\n"


@pytest.mark.parametrize("row", ["Row 4: As Row 1.", "Row 4: Knit.", "Row 4 (WS): K12."])
def test_a_row_told_in_two_ways(row: str) -> None:
    assert said(f"{ROWS}Row 3: Knit.\n{row}\nBind off all sts.") == [
        "row-number-out-of-order: row 4 is told twice, in two ways: a line for all such rows tells it too"
    ]


@pytest.mark.parametrize("row", ["Row 4: Purl.", "Row 4: As Row 2.", "Row 5: As Row 1."])
def test_the_same_again_and_rows_of_the_other_side_are_well(row: str) -> None:
    assert said(f"{ROWS}Row 3: Knit.\n{row}\nBind off all sts.") == []


def test_the_line_for_many_rows_stands_on_their_side() -> None:
    found = said(ROWS.replace("all WS", "all RS") + "Row 3: Knit.\nBind off all sts.")
    assert [each.split(":")[0] for each in found] == ["wrong-side-due"]
