"""Short rows of a round that run back over its beginning, and forward to it again."""

from __future__ import annotations

from tests.knitting.plans import knitted, said

START = """Cast on 60 sts. Place marker for beg of rnd and join to work in the round.
Rnd 1: K20, pm, k20, pm, k to end.
"""
END = "Knit 2 rnds.\nBind off all sts."


def rows(work: str) -> list[tuple[str, str, int]]:
    """Label, side and stitches of every row; and short rows add no height."""
    piece = knitted(START + work + END, form="round").sizes[0].pieces["Piece"]
    assert piece.rows == 3
    return [(each.label, each.side, sum(number for _, number in each.tally)) for each in piece.records[1:-2]]


def test_back_over_the_marker_of_the_round_by_counted_stitches() -> None:
    work = (
        "Short row 1 (RS): K10, turn.\nShort row 2 (WS): P10, sm, p5, turn.\nNext row (RS): K to beg of rnd marker.\n"
    )
    assert rows(work) == [("short row 1", "RS", 10), ("short row 2", "WS", 15), ("next row (RS)", "RS", 5)]


def test_back_to_the_marker_of_the_round_and_on_to_the_next() -> None:
    work = """Short row 1 (RS): K10, w&t.
Short row 2 (WS): P to beg of rnd marker, sm, p to 5 sts before next marker, w&t.
Short row 3 (RS): K to beg of rnd marker.
"""
    # 10 back to the beginning, 20 less 5 beyond it
    assert rows(work) == [("short row 1", "RS", 10), ("short row 2", "WS", 25), ("short row 3", "RS", 15)]


def test_over_two_markers() -> None:
    work = """Short row 1 (RS): K to 5 sts past marker, turn.
Short row 2 (WS): P5, sm, p to beg of rnd marker, sm, p to marker, turn.
Next row (RS): K to beg of rnd marker.
"""
    assert rows(work) == [("short row 1", "RS", 25), ("short row 2", "WS", 45), ("next row (RS)", "RS", 20)]


def test_a_marker_that_is_slipped_where_none_is() -> None:
    work = "Short row 1 (RS): K to 5 sts before marker, w&t.\nShort row 2 (WS): P5, sm, p to marker, turn.\n"
    assert said(START + work + END, form="round")[0] == (
        "marker-not-there: short row 2: no marker is here, nor further on; 10 sts are left in the row"
    )
