"""Stitches that stay on the needle when all others are bound off: logs, mitres, picots."""

from __future__ import annotations

import re

import pytest
from tests.knitting.plans import knitted, said

LOGS = (
    "With A, CO 20 (28, 30) sts.\nKnit 40 (56, 60) rows.\n"
    "With RS facing, BO all sts but the last; do not cut yarn. 1 st.\n"
    "Turn work 90° clockwise. Join B. With RS facing, pick up and knit 19 (27, 29) more sts down the side, 1 st in each"
    " ridge. 20 (28, 30) sts.\nKnit 11 rows. BO until 1 st rem.\n"
    "Rotate work 90 degrees clockwise and pick up and knit 6 sts along end, then 20 (28, 30) sts along CO edge."
    " 27 (35, 37) sts.\nKnit 2 rows.\nBO all sts."
)


def test_the_last_stitch_of_an_edge_goes_on_along_another() -> None:
    for size, cast_on in zip(knitted(LOGS, ("S", "M", "L")).sizes, (20, 28, 30), strict=True):
        bound = sum(number for key, number in size.loops.items() if key[2] == "bind off")
        assert bound == 2 * (cast_on - 1) + cast_on + 7
        assert size.pieces["Piece"].live == 0


@pytest.mark.parametrize(
    ("right", "wrong", "told"),
    [
        ("19 (27, 29) more", "19 (26, 29) more", "stated-total-off: 28 sts are printed, 27 are on the needle"),
        (
            "until 1 st rem",
            "until 2 sts rem",
            "stated-total-off: 27 (35, 37) sts are printed, 28 (36, 38) are on the needle",
        ),
        (
            "the last; do not cut yarn. 1 st.",
            "the last; do not cut yarn. 2 sts.",
            "stated-total-off: 2 sts are printed, 1",
        ),
        ("until 1 st rem", "until 40 sts rem", "all but 40 sts are to be bound off, 20 (28, 30) are on the needle"),
        ("knit 6 sts along", "knit 5 sts along", "stated-total-off: 27 (35, 37) sts are printed, 26 (34, 36)"),
    ],
)
def test_a_wrong_number_beside_the_last_stitch_is_found(right: str, wrong: str, told: str) -> None:
    assert right in LOGS
    assert told in "\n".join(said(LOGS.replace(right, wrong, 1), ("S", "M", "L")))


PICOTS = "CO 31 (41, 51) sts.\nKnit 4 rows.\n{} until 1 st rem. Fasten off."


@pytest.mark.parametrize(
    "picots",
    [
        "BO as follows: *CO 2 sts using the knitted cast-on, BO 4 sts, slip st from right needle back to left needle;"
        " rep from *",
        "Picot BO: *CO 2 sts, BO 4 sts, return st to LH needle; rep from *",
        "Picot bind-off: *cast on 2 sts, bind off 4 sts, sl st back to LH; rep from *",
        "*CO 2 sts, BO 4 sts, sl rem st back to left needle; rep from *",
    ],
)
def test_picots_leave_the_last_stitch(picots: str) -> None:
    sizes = ("S", "M", "L")
    work = PICOTS.format(picots)
    for size, cast_on in zip(knitted(work, sizes).sizes, (31, 41, 51), strict=True):
        assert size.loops["A", "stockinette", "bind off"] == 2 * (cast_on - 1)
    assert said(work.replace("31 (41, 51)", "31 (42, 51)"), sizes) == [
        "repeat-does-not-divide: 41 sts without the 1 that stay do not divide by 2, which every point uses: 1 left over"
    ]
    assert "do not divide by 3" in said(re.sub("(BO|bind off) 4", r"\1 5", work), sizes)[0]
