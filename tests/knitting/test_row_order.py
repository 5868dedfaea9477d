"""Rows that are told together by what they do are worked in the order of their numbers."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, knitted, said

SIZES = ("S", "M", "L")
BEGIN = "CO 40 (44, 48) sts.\n"


def test_odd_and_even_rows_alternate() -> None:
    odd = "Rows 1, 3 and 5 (RS): K1, m1, k to end. 43 (47, 51) sts."
    together = f"{BEGIN}{odd}\nRows 2 and 4: Purl.\nRow 6: P.\nBO all sts."
    apart = (
        f"{BEGIN}Row 1 (RS): K1, m1, k to end.\nRow 2: Purl.\nRow 3: K1, m1, k to end.\nRow 4: Purl.\n"
        "Row 5: K1, m1, k to end. 43 (47, 51) sts.\nRow 6: P.\nBO all sts."
    )
    assert counts(together, SIZES) == counts(apart, SIZES) == [40, 41, 41, 42, 42, 43, 43]
    assert [size.loops for size in knitted(together, SIZES).sizes] == [
        size.loops for size in knitted(apart, SIZES).sizes
    ]
    assert said(together.replace("43 (47, 51)", "43 (48, 51)"), SIZES) == [
        "stated-total-off: 48 sts are printed, 47 are on the needle"
    ]


@pytest.mark.parametrize(
    "rows",
    [
        "Rows 1 and 3 (RS): Knit.\nRows 2 and 4 (WS): Purl.",
        "1st and 3rd rows (RS): Knit.\n2nd and 4th rows: Purl.",
        "Rows 2 and 4 (WS): Purl.\nRows 1 and 3 (RS): Knit.",
        "Row 1 (RS): Knit.\nRows 2 and 4: Purl.\nRow 3: As row 1.",
        "Rows 1 and 3 (RS): Knit.\nRow 2 (and all WS rows): Purl.\nRow 4: As row 2.",
    ],
)
def test_every_way_to_tell_them_is_stockinette(rows: str) -> None:
    for size, cast_on in zip(knitted(f"{BEGIN}{rows}\nBO all sts.", SIZES).sizes, (40, 44, 48), strict=True):
        assert size.loops["A", "stockinette", "k"] == size.loops["A", "stockinette", "p"] == 2 * cast_on
        assert size.pieces["Piece"].rows == 4


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("Rows 1, 3 and 5 (RS): Knit.\nRows 2 and 3: Purl.", "row 3 follows row 1"),
        ("Rows 1, 3 and 5 (RS): Knit.\nRows 2 and 6: Purl.", "row 3 follows row 1"),
        ("Rows 1, 3 and 6 (RS): Knit.\nRows 2 and 4: Purl.", "row 3 follows row 1"),
        ("Rows 1 and 3 (RS): Knit.\nRows 2 and 4 (RS): Purl.", "row 2 is printed for the RS, a WS row is due"),
    ],
)
def test_a_number_that_does_not_fit_is_found(rows: str, told: str) -> None:
    assert told in "\n".join(said(f"{BEGIN}{rows}\nKnit 1 row.\nBO all sts.", SIZES))
