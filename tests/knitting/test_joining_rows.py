"""Rows that join: held stitches told by the piece they are of, and the stitches in work told by theirs."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said

PARTED = (
    "CO 40 sts.\nKnit 4 rows.\n"
    "Next row (RS): K10, slip 12 sts to waste yarn for first sleeve, k18. 28 sts.\nNext row: Knit.\n"
)
JOINED = "Joining Row (RS): K10 left back sts, k across 12 held sts of first sleeve, k18. 40 sts."
END = "\nBO all sts."


@pytest.mark.parametrize(
    "joined",
    [
        JOINED,
        JOINED.replace("Joining Row (RS): K10", "Joining Row: With RS facing and the yarn attached to the body, k10"),
        JOINED.replace("held sts of first", "held sts of the first"),
    ],
)
def test_it_comes_out(joined: str) -> None:
    assert said(PARTED + joined + END) == []


@pytest.mark.parametrize(
    ("right", "wrong"),
    [("K10", "K9"), ("K10", "K11"), ("12 held", "13 held"), ("12 held", "11 held"), ("40 sts", "41 sts")],
)
def test_a_number_off_by_one_is_found(right: str, wrong: str) -> None:
    assert said(PARTED + JOINED.replace(right, wrong) + END)
