"""Rows that are uneven where nothing asks for it."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said

UNEVEN = (
    ("Row 1 (RS): K1, ssk, k to last 4 sts, k2tog, k2.", "row 1 has k1 on one side and k2 on the other"),
    ("Row 1 (RS): K2, m1l, k to last st, m1r, k1.", "row 1 has k2 on one side and k1 on the other"),
    (
        "Row 1 (RS): K10, pm, k10.\nRow 2: Purl.\nRow 3: K to 3 sts before marker, k2tog, k1, sm, k2, ssk, k to end.",
        "row 3 has k1 on one side and k2 on the other",
    ),
    (
        "Row 1 (RS): Knit.\nRow 2: K3, p to last 4 sts, k4.\nRow 3: Knit.\nRow 4: K4, p to last 4 sts, k4.",
        "row 2 has k3 on one side and k4 on the other",
    ),
    (
        "Row 1 (RS): Knit.\nRow 2: P to last 4 sts, k4.\nRow 3: Knit.\nRow 4: K4, p to last 4 sts, k4.",
        "row 2 has k0 on one side and k4 on the other",
    ),
)
EVEN = (
    "Row 1 (RS): K2, ssk, k to last 4 sts, k2tog, k2.",
    "Row 1 (RS): K1, ssk, k to end.",  # one side only
    "Row 1 (RS): K1, k2tog, k to last 4 sts, k2tog, k2.",  # both lean one way: no mirror
    "Row 1 (RS): Knit.\nRow 2: K3, p to last 5 sts, k5.\nRow 3: Knit.\nRow 4: K3, p to last 5 sts, k5.",  # meant so
    "Row 1 (RS): Knit.\nRow 2: K3, p to last 5 sts, k5.",  # nothing to hold it against
)


@pytest.mark.parametrize(("rows", "wording"), UNEVEN)
def test_an_uneven_row_is_warned_of(rows: str, wording: str) -> None:
    assert said(f"Cast on 20 sts.\n{rows}\nBind off all sts.") == [f"sides-unlike: {wording}"]


@pytest.mark.parametrize("rows", EVEN)
def test_an_even_row_or_one_that_is_meant_so_is_not(rows: str) -> None:
    assert said(f"Cast on 20 sts.\n{rows}\nBind off all sts.") == []
