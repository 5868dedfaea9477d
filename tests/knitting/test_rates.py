"""Shaping at a rate: which row is the first, and how many rows lie between, on one side or on both."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

CAST_ON = "Cast on 60 sts.\nWork 2 rows in St st.\n"
DEC_ROW = "Dec row (RS): K1, ssk, k to last 3 sts, k2tog, k1. 58 sts.\n"


def shaped(work: str) -> list[tuple[int, str]]:
    """Number and side of every row that changed the count."""
    records = knitted(work + "\nBind off all sts.").sizes[0].pieces["Piece"].records
    return [
        (record.row + at * record.step, record.side)
        for record in records
        if record.before != record.after
        for at in range(record.rows)
    ]


@pytest.mark.parametrize(
    ("rate", "rows"),
    [
        ("every RS row 3 times", [3, 5, 7]),
        ("every other RS row 3 times", [5, 9, 13]),
        ("next and every foll RS row 3 times", [3, 5, 7]),
        ("next and every foll 4th row 3 times", [3, 7, 11]),
        ("every row 3 times", [3, 4, 5]),
        ("every WS row 2 times", [4, 6]),
    ],
)
def test_dec_at_each_end(rate: str, rows: list[int]) -> None:
    assert [row for row, _ in shaped(f"{CAST_ON}Dec 1 st at each end of {rate}.")] == rows


@pytest.mark.parametrize(
    ("rate", "rows"),
    [
        ("every RS row 3 more times", [3, 5, 7, 9]),
        ("every other RS row 3 more times", [3, 7, 11, 15]),
        ("every 4th row 2 more times", [3, 7, 11]),
        ("every RS row 2 more times, then every 4th row 2 more times", [3, 5, 7, 11, 15]),
        ("every RS row 2 more times, then every other RS row 2 more times", [3, 5, 7, 11, 15]),
        ("every 6th row once more, then every RS row twice more", [3, 9, 11, 13]),
    ],
)
def test_a_row_told_once_is_repeated_by_rows_of_its_side(rate: str, rows: list[int]) -> None:
    assert shaped(f"{CAST_ON}{DEC_ROW}Rep dec row {rate}.") == [(row, "RS") for row in rows]


def test_it_ends_when_so_many_stitches_are_left() -> None:
    assert shaped(f"{CAST_ON}{DEC_ROW}Rep dec row every RS row until 52 sts rem.") == [
        (row, "RS") for row in (3, 5, 7, 9)
    ]


@pytest.mark.parametrize(
    ("rate", "rows"),
    [
        ("3rd and every foll 4th row until 54 sts rem", [3, 7, 11]),
        ("5th and every foll 4th row until 54 sts rem", [5, 9, 13]),
        ("5th and foll 10th row", [5, 15]),
        ("next and foll 4th row", [1, 5]),
        ("next and foll 4th row, then every foll alt row twice", [1, 5, 7, 9]),
        ("next and foll alt row until 54 sts rem", [1, 3, 5]),
    ],
)
def test_which_rows_are_shaped(rate: str, rows: list[int]) -> None:
    fabric = knitted(f"Cast on 60 sts.\nDec 1 st at each end of {rate}.\nBind off all sts.")
    records = fabric.sizes[0].pieces["Piece"].records
    assert [record.row for record in records if record.after != record.before] == rows


@pytest.mark.parametrize(
    "rate",
    ["3rd and foll 4th rows", "next and every foll alt row", "every 4th row", "every RS row, then every row twice"],
)
def test_a_rate_that_is_never_told_to_stop_is_refused(rate: str) -> None:
    found = said(f"Cast on 60 sts.\nDec 1 st at each end of {rate}.\nBind off all sts.")
    assert "shaping-without-end: how often, or up to how many stitches, is not said" in found


def test_times_and_an_end_that_are_told_together_must_agree() -> None:
    line = "Cast on 60 sts.\nDec 1 st at each end of next and every foll alt row {} until 50 sts rem.\nBind off."
    assert said(line.format("5 times")) == []
    assert said(line.format("4 times more")) == []
    assert said(line.format("3 times more")) == [
        "end-never-comes: the shaping is to end at 50 sts; as often as it is told, it comes to 52"
    ]


def test_a_length_behind_times_is_worked_up_to() -> None:
    fabric = knitted(
        "Cast on 60 sts.\nInc 1 st at each end of next and every foll alt row 3 times, until piece measures 10 cm.\n"
        "Bind off all sts."
    )
    piece = fabric.sizes[0].pieces["Piece"]
    assert piece.length_mm == 100
    assert piece.records[-1].after == 66


def test_a_row_of_another_number_in_every_size() -> None:
    fabric = knitted(
        "Cast on 60 sts.\nDec 1 st at each end of 9th (9th, 7th) row and then on foll 4th (6th, 6th) row.\nBind off.",
        ("S", "M", "L"),
    )
    rows = [
        [record.row for record in size.pieces["Piece"].records if record.after != record.before]
        for size in fabric.sizes
    ]
    assert rows == [[9, 13], [9, 15], [7, 13]]
