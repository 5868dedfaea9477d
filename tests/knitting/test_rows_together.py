"""Rows of several names worked again together, and rows behind them: each number off by one is found by the total."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said

BEFORE = (
    "CO 41 sts.\nInc Row (RS): K1, m1, k to last st, m1, k1. 43 sts.\nNext Row: Purl.\n"
    "Row 1 (RS): K1, m1, k to last st, m1, k1. 45 sts.\nRow 2: Purl.\n"
)
END = "\nBO all sts."

GOOD = [
    "Rep Inc Row and Next Row 5 times more. 55 sts.",
    "Rep Inc Row and Row 2, 5 more times. 55 sts.",
    "Work Inc Row and Row 2 once more. 47 sts.",
    "Rep rows 1 and 2, 5 times more, then Row 1 once more. 57 sts.",
    "Rep Rows 1–2 until you have worked 17 increase rows in all. 77 sts.",
]


@pytest.mark.parametrize("line", GOOD)
def test_it_comes_out(line: str) -> None:
    assert said(BEFORE + line + END) == []


@pytest.mark.parametrize(
    ("line", "right", "wrong"),
    [
        (GOOD[0], "5 times", "4 times"),
        (GOOD[0], "55", "56"),
        (GOOD[1], "5 more", "6 more"),
        (GOOD[1], "Row 2", "Row 3"),
        (GOOD[2], "once more", "twice more"),
        (GOOD[2], "Inc Row", "Dec Row"),
        (GOOD[3], "5 times", "6 times"),
        (GOOD[3], "once", "twice"),
        (GOOD[3], "then Row 1", "then Row 3"),
        (GOOD[4], "17", "18"),
        (GOOD[4], "17", "16"),
    ],
)
def test_a_number_off_by_one_is_found(line: str, right: str, wrong: str) -> None:
    assert right in line
    assert said(BEFORE + line.replace(right, wrong) + END)


def test_the_row_behind_one_that_was_worked_last_is_not_there() -> None:
    work = (
        "CO 20 sts.\nRow 1: Knit.\nRow 2: Purl.\nEyelet Row: Knit.\nRep Eyelet Row and Next Row once more.\nBO all sts."
    )
    assert any("row-not-there" in finding and "no row has been worked behind" in finding for finding in said(work))
