"""Heels in short rows: each turn lies where the words put it, and rows told without a number come to an end."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

HALF = """Cast on 28 sts.
Row 1 (RS): K27, w&t.
Row 2 (WS): P26, w&t.
Row 3: K to 1 st before last wrapped st, w&t.
Row 4: P to 1 st before last wrapped st, w&t.
Rep Rows 3-4 7 times more.
"""
SECOND = """Next row (RS): K to wrapped st, knit wrap tog with st, w&t.
Next row: P to wrapped st, purl wrap tog with st, w&t.
"""


def turns(work: str) -> list[int]:
    """Stitches left unworked at each turn."""
    piece = knitted(f"{work}Bind off all sts.").sizes[0].pieces["Piece"]
    events = (event for record in piece.records for event in record.changes if event.kind == "turn")
    return [event.count for event in events]


def test_each_row_turns_before_the_stitch_wrapped_last() -> None:
    assert turns(HALF + "K to end.\nPurl 1 row.\n") == [left for each in range(1, 10) for left in (each, each)]


LAST = """Next row (RS): K to wrapped st, knit wrap tog with st, turn.
Next row: P to wrapped st, purl wrap tog with st, turn.
"""


@pytest.mark.parametrize("again", [f"7 more times.\n{LAST}", "until all sts have been worked.\n"])
def test_the_second_half_takes_one_wrapped_stitch_a_row(again: str) -> None:
    assert turns(f"{HALF}{SECOND}Rep last 2 rows {again}")[18:] == [
        each for left in range(8, -1, -1) for each in (left, left)
    ]


def test_the_last_row_has_nothing_to_wrap() -> None:
    assert said(f"{HALF}{SECOND}Rep last 2 rows 8 more times.\nBind off all sts.") == [
        "nothing-to-wrap: next row (RS): no stitch is left to wrap: the row has worked all 27 sts up to its end",
    ]


def test_rows_that_never_reach_the_end_are_told() -> None:
    assert said(f"{HALF}{SECOND}Rep Rows 3-4 until all sts have been worked.\nBind off all sts.") == [
        "turns-meet: row 4: the row turns where it began: no stitch is left between its two turns"
    ]
    still = "Cast on 28 sts.\nRow 1 (RS): K20, turn.\nRow 2: P12, turn.\nRow 3: K12, turn.\nRow 4: P12, turn.\n"
    assert said(f"{still}Rep rows 3 and 4 until all sts have been worked.\nBind off all sts.") == [
        "end-never-comes: all sts are never worked: the rows come no further, and 2 places where they turned are "
        "still open"
    ]


def test_a_length_matched_to_another_piece_ends_with_the_row_that_is_asked_for() -> None:
    start = "Cast on 20 sts.\n**\nWork 11 rows in St st.\n***\n"
    piece = (
        knitted(start + "Work until piece measures same as Piece, ending with a WS row.\nBind off all sts.")
        .sizes[0]
        .pieces["Piece"]
    )
    assert piece.rows == 12
