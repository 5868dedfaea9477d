"""`castoff knit`, word for word: the rows of a square, two of which fail, and the needle where they stopped.

`square-S.txt` and `square-M.txt` are what is printed; a changed printout is looked at and the file written anew.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from castoff.pipeline import prove_text
from castoff.terminal.knitting import show_knitting

HERE = Path(__file__).parent / "knitting"
SOURCE = (HERE / "square.yaml").read_text("utf-8")


@pytest.mark.parametrize(("size", "name"), [(0, "S"), (1, "M")])
def test_the_whole_printout(size: int, name: str) -> None:
    proof = prove_text("square.yaml", SOURCE)
    assert show_knitting(proof, size) == (HERE / f"square-{name}.txt").read_text("utf-8")


def test_a_row_that_failed_stands_in_its_place_with_the_needle_where_it_stopped() -> None:
    proof = prove_text("square.yaml", SOURCE)
    assert proof.knitted is not None
    first, second = proof.knitted.sizes[0].sections[0].stopped
    assert (first.label, first.row, first.side, first.before) == ("row 4", 8, "WS", 40)
    # 12 and the first p2tog, 16 up to the marker, 9 behind it; one stitch left for the second p2tog
    assert len(first.halt.made) == 12 + 1 + 16 + 9
    assert (first.halt.left, first.halt.made_marks) == ("k", ((10, ""), (29, "side")))
    # row 5 goes on from the printed total
    assert (second.label, second.before, len(second.halt.made), len(second.halt.left)) == ("row 5", 38, 18, 20)


def test_a_section_by_itself_and_rows_without_a_fault() -> None:
    proof = prove_text("square.yaml", SOURCE)
    shown = show_knitting(proof, 0, "Edge")
    assert "Square (Square)" not in shown
    assert "stops" not in shown
