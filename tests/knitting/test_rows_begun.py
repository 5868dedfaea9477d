# ruff: noqa: E501 - lines of patterns are quoted whole
"""A row whose beginning is told first, "bind off 5 sts at beg of next row, k to end": one row, and the next one comes back."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, lines, plan_of

from castoff.knitting.fabric import Knitted, RowRecord
from castoff.knitting.knit import knit
from castoff.notation.syntax import Side

SIZES = ("S", "M", "L")
TEN = "CO 60 (64, 70) sts.\nWork 10 rows in St st.\n"

Row = tuple[int, Side, int, int]


def rows(found: Knitted, size: int, first: int) -> list[Row]:
    """Number, side, stitches before and after of every row from `first` on, folded rows laid out."""
    laid: list[RowRecord] = []
    for record in found.sizes[size].pieces["Piece"].records:
        laid.extend([record] * record.rows)
    numbered = [
        (record.row + n * record.step, record.side, record.before, record.after)
        for record in found.sizes[size].pieces["Piece"].records
        for n in range(record.rows)
    ]
    return [row for row in sorted(numbered) if row[0] >= first]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("CO 10 sts at the beginning of the next row and knit to end.",
         "CO 10 sts at the beginning of the following row and purl to end."),
        ("Cast on 10 sts at beg of next row, k to end.", "Cast on 10 sts at beg of foll row, p to end."),
        ("Cast on 10 sts at beg of next RS row, work to end.", "Cast on 10 sts at beg of next WS row, work to end."),
        ("Cast on 10 sts at the start of the next row; knit to end.", "Cast on 10 sts at the start of the next row. Purl to end."),
        ("At beg of next row, cast on 10 sts, k to end.", "At beg of next row (WS), cast on 10 sts, then p to end."),
        ("Cast on 10 sts at beg of next row.", "Cast on 10 sts at beg of foll row."),
    ],
)  # fmt: skip
def test_one_sleeve_at_each_side(first: str, second: str) -> None:
    found = knitted(f"{TEN}{first} {second} 80 (84, 90) sts.\nWork 2 rows in St st.\nBO all sts.", SIZES)
    for size, have in enumerate((60, 64, 70)):
        assert rows(found, size, 11) == [
            (11, "RS", have, have + 10), (12, "WS", have + 10, have + 20),
            (13, "RS", have + 20, have + 20), (14, "WS", have + 20, have + 20),
        ]  # fmt: skip


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("BO 6 (7, 8) sts at the beg of the next row, k to end.", "BO 6 (7, 8) sts at beg of foll row, p to end."),
        ("Cast off 6 (7, 8) sts at beg of next row, and work to end.", "Cast off 6 (7, 8) sts at beg of following row, and purl to end."),
        ("Bind off 6 (7, 8) sts at the beginning of the next row (RS), knit to end.",
         "Bind off 6 (7, 8) sts at the beginning of the next row (WS), purl to end."),
    ],
)  # fmt: skip
def test_one_shoulder_at_each_side(first: str, second: str) -> None:
    found = knitted(f"{TEN}{first} {second} 48 (50, 54) sts.\nBO all sts.", SIZES)
    for size, (have, off) in enumerate(((60, 6), (64, 7), (70, 8))):
        assert rows(found, size, 11) == [(11, "RS", have, have - off), (12, "WS", have - off, have - 2 * off)]


def test_the_rest_may_be_shaped() -> None:
    found = knitted(
        TEN + "BO 5 sts at beg of next row, k to last 3 sts, k2tog, k1. 54 (58, 64) sts.\nBO all sts.", SIZES
    )
    assert rows(found, 0, 11) == [(11, "RS", 60, 54)]


def test_a_knit_row_behind_a_full_stop_is_a_row() -> None:
    found = knitted(TEN + "BO 5 sts at beg of next row. Purl 1 row. BO 5 sts at beg of next row.\nBO all sts.", SIZES)
    assert [row[:2] for row in rows(found, 0, 11)] == [(11, "RS"), (12, "WS"), (13, "RS")]


@pytest.mark.parametrize("slip", [59, 61])
def test_each_number_off_by_one_is_found(slip: int) -> None:
    work = f"{TEN.replace('60', str(slip))}BO 6 sts at beg of next row, k to end. BO 6 sts at beg of foll row, p to end. 48 (52, 58) sts."
    found = knit(plan_of(work, SIZES))
    assert next((each.rule.name, each.sizes) for each in found.findings if each.severity == "error") == (
        "stated-total-off",
        ("S",),
    )


def test_the_other_side_is_not_the_one_that_is_due() -> None:
    found = knit(plan_of(TEN + "BO 5 sts at beg of next WS row, p to end.\nBO all sts.", SIZES))
    assert [each.rule.name for each in found.findings] == ["wrong-side-due"]


@pytest.mark.parametrize(
    "line",
    ["Cast off 5 sts at beg of next and foll alt row, k to end.",
     "Cast off 5 sts at beg of next row and 6 sts at beg of foll alt row, k to end.", "Cast on 5 sts at end of next row, k to end.",
     "Dec 1 st at neck edge on next 4 rows, k to end."],
)  # fmt: skip
def test_rates_and_ends_have_no_rest(line: str) -> None:
    with pytest.raises(AssertionError, match="cannot be read"):
        lines(line)
