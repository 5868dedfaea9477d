"""Shaping at a rate: which row is the first, and how many rows lie between, on one side or on both."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted

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
