"""`castoff knit`, word for word: the rows of a square, two of which fail, and the needle where they stopped.

`square-S.txt` and `square-M.txt` are what is printed; a changed printout is looked at and the file written anew.
`front-S.txt` has rows that come round again, shaping beside other shaping, stitches put aside and short rows.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from castoff.pipeline import prove_file, prove_text
from castoff.terminal.knitting import show_knitting

HERE = Path(__file__).parent / "knitting"
PATTERNS = tuple(sorted((Path(__file__).parents[2] / "patterns").glob("*-*.yaml")))
SOURCE = (HERE / "square.yaml").read_text("utf-8")


@pytest.mark.parametrize(("size", "name"), [(0, "S"), (1, "M")])
def test_the_whole_printout(size: int, name: str) -> None:
    proof = prove_text("square.yaml", SOURCE)
    assert show_knitting(proof, size) == (HERE / f"square-{name}.txt").read_text("utf-8")


def test_rows_that_come_round_again_are_shown_once() -> None:
    proof = prove_text("front.yaml", (HERE / "front.yaml").read_text("utf-8"))
    assert [finding.message for finding in proof.findings if finding.severity == "error"] == []
    assert show_knitting(proof, 0) == (HERE / "front-S.txt").read_text("utf-8")


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_a_terminal_of_eighty_columns_is_wide_enough(path: Path) -> None:
    proof = prove_file(path)
    assert proof.knitted is not None
    for size in (0, len(proof.knitted.sizes) - 1):
        for every_row in (False, True):
            lines = show_knitting(proof, size, every_row=every_row).splitlines()
            assert [line for line in lines if len(line) > 80] == []
            assert not any("\x1b" in line for line in lines)


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_folded_or_not_it_tells_of_every_row(path: Path) -> None:
    proof = prove_file(path)
    assert proof.knitted is not None
    for section in proof.knitted.sizes[0].sections:
        worked = sum(record.rows for record in section.records)
        shown = show_knitting(proof, 0, section.title, every_row=True).splitlines()
        folded = show_knitting(proof, 0, section.title).splitlines()
        assert sum(map(rows_told, cells(shown))) == worked
        assert folded_rows(cells(folded)) == worked
        assert len(folded) <= len(shown)


def cells(lines: list[str]) -> list[str]:
    """The lines of the table: rows by their numbers, and those that tell of rows that come again."""
    return [line for line in lines if re.match(r" +(?:\d+(?:–\d+)? +(?:RS|WS|rnd)|these \d+ )", line)]


def rows_told(line: str) -> int:
    first, _, last = line.split()[0].partition("–")
    return int(last or first) - int(first) + 1


def folded_rows(lines: list[str]) -> int:
    total = 0
    for line in lines:
        again = re.match(r" +these (\d+) \w+ (\d+) more times", line)
        total += int(again[1]) * int(again[2]) if again else rows_told(line)
    return total


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
