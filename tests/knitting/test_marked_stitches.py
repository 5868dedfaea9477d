"""Stitches marked in the loop: V-neck bands, mitred squares, shawl spines; and what goes wrong beside them."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, findings, knitted, said

V_NECK = (
    "With RS facing, pick up and k 46 (48, 50) sts down left side of neck, 1 st from centre of V (mark this st), "
    "46 (48, 50) sts up right side of neck, then cast on 34 (36, 38) sts. 127 (133, 139) sts.\n"
    "1st row (WS): *P1, k1; rep from * to within 2 sts of marked st, p2tog, p1, p2tog tbl, *k1, p1; rep from * to end. "
    "125 (131, 137) sts.\n"
    "2nd row: Rib to within 2 sts of marked st, k2tog tbl, k1, k2tog, rib to end.\n"
    "3rd row: Rib to within 2 sts of marked st, p2tog, p marked st, p2tog tbl, rib to end. 121 (127, 133) sts.\n"
    "Rep last 2 rows once more. 117 (123, 129) sts.\n"
    "{}"
)
SIZES = ("S", "M", "L")
OFF = "Cast off in rib, dec 1 st at each side of marked st as before."


def test_a_v_neck_band_is_decreased_at_its_marked_stitch_in_every_size() -> None:
    fabric = knitted(V_NECK.format(OFF), SIZES)
    ends = [size.pieces["Piece"].events[-1].count for size in fabric.sizes]
    assert ends == [115, 121, 127]


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ("(mark this st)", "", "marker-not-there: row 1: no st is marked"),
        ("2nd row: Rib to within 2", "2nd row: Rib to within 3", "marker-in-the-way: row 2: the marked st is 1 of 2"),
        ("2nd row: Rib to within 2", "2nd row: Rib to within 1", "marker-in-the-way: row 2: the marked st is 2 of 2"),
        ("p2tog, p marked st", "p2tog, p1, p marked st", "marker-not-there: row 3: no marked st is ahead"),
        (
            "3rd row: Rib to within 2",
            "3rd row: Rib to within 3",
            "marker-not-there: row 3: the marked st is 1 st further on",
        ),
        (
            "dec 1 st at each side of marked st as",
            "dec 2 sts at each side of marked st as",
            "4 sts are to be decreased as before",
        ),
        (
            "Rep last 2 rows once more",
            "Rep last 2 rows twice more",
            "stated-total-off: 117 (123, 129) sts are printed, 113",
        ),
    ],
)
def test_a_slip_beside_the_marked_stitch_is_found(right: str, wrong: str, found: str) -> None:
    work = V_NECK.format(OFF)
    assert right in work
    assert found in "\n".join(said(work.replace(right, wrong), SIZES))


SQUARE = (
    "CO 61 sts, placing a marker in the 31st st.\n"
    "Row 1 (WS): Knit.\n"
    "Row 2: K to 1 st before marked st, s2kp, k to end. 59 sts.\n"
    "Rep last 2 rows until 3 sts rem.\n"
    "Next row (WS): Knit.\n"
    "Next row: S2kp. 1 st.\n"
    "Fasten off."
)


@pytest.mark.parametrize(
    "cast_on",
    [
        "CO 61 sts, placing a marker in the 31st st.",
        "CO 61 sts and mark the 31st st.",
        "CO 61 sts. Mark the centre st.",
        "CO 61 sts. Place a locking marker in the centre st.",
        "CO 61 sts, pm on the centre stitch.",
    ],
)
def test_the_mark_moves_up_with_the_centred_decrease(cast_on: str) -> None:
    lines = SQUARE.split("\n")
    after = counts("\n".join([cast_on, *lines[1:]]))
    assert after[:5] == [61, 61, 59, 59, 57]
    assert after[-3:] == [3, 3, 1]


def test_a_square_without_a_mark_is_decreased_in_its_middle() -> None:
    work = SQUARE.replace(", placing a marker in the 31st st", "").replace("marked st", "centre st")
    assert counts(work)[-3:] == [3, 3, 1]
    even = said(work.replace("61", "60").replace("59", "58"))
    assert even[0] == "marker-not-there: row 2: 60 sts have no centre st, and none is marked"


@pytest.mark.parametrize(
    ("right", "wrong"), [("31st", "30th"), ("to 1 st before", "to 2 sts before"), ("61", "62"), ("59", "58")]
)
def test_a_mark_off_the_middle_or_a_wrong_number_is_found(right: str, wrong: str) -> None:
    assert said(SQUARE.replace(right, wrong))


def test_a_marker_after_the_31st_stitch_is_taken_out_and_put_back() -> None:
    work = (
        "CO 61 sts, placing a marker after the 31st st.\nRow 1 (WS): Knit.\n"
        "Row 2: K to 1 st before m, s2kp (removing and replacing m), k to end. 59 sts.\n"
        "Rep last 2 rows until 3 sts rem.\nBind off 3 sts."
    )
    assert counts(work)[-1] == 3
    found = said(work.replace("s2kp (removing and replacing m)", "s2kp"))
    assert found[0].startswith("marker-in-the-way: row 2: a marker stands 1 of 3 stitches into those")
    found = said(work.replace("K to 1 st before m", "K to m"))
    assert found == ["marker-not-there: row 2: no marker stands between the sts worked together before it"]


SHAWL = (
    "CO 7 sts.\nSet-up row (WS): Purl.\n"
    "Row 1 (RS): K2, yo, k to centre st, yo, k1 (centre st), yo, k to last 2 sts, yo, k2. 11 sts.\n"
    "Row 2: K2, p to last 2 sts, k2.\nRep rows 1 and 2 9 more times. 47 sts.\nBind off all sts."
)


def test_a_shawl_grows_at_its_centre_stitch() -> None:
    assert counts(SHAWL)[-1] == 47
    assert said(SHAWL.replace("k1 (centre st)", "k1, k1 (centre st)"))[0].startswith(
        "marker-not-there: row 1: the centre st was 1 before"
    )
    assert said(SHAWL.replace("CO 7", "CO 8"))[0].startswith("marker-not-there: row 1: 8 sts have no centre st")


def test_a_stitch_that_is_increased_in_keeps_its_mark_where_that_can_be_told() -> None:
    row = "CO 9 sts. Mark the centre st.\nRow 1 (RS): K to marked st, {} in next st, k to end.\n"
    row += "Row 2: P to marked st, p marked st, p to end."
    assert said(row.format("(k1, yo, k1)") + "\nBind off all sts.") == []
    assert "which of them is marked cannot be told" in said(row.format("(k1, yo)") + "\nBind off all sts.")[0]


def test_this_stitch_is_one_stitch() -> None:
    assert said("CO 9 sts.\nRow 1: K4, k1 and mark this st, k4.\nBind off 9 sts.") == []
    found = findings("CO 9 sts.\nRow 1: K5 and mark this st, k4.\nBind off 9 sts.")
    assert [each.message for each in found] == [
        "row 1: 5 sts are made just before: which of them is marked cannot be told"
    ]


def test_shaping_beside_a_marked_stitch_by_rate() -> None:
    work = "CO 21 sts. Mark the centre st.\nKnit 1 row.\n"
    work += "Dec 1 st at each side of marked st on next 4 rows. 13 sts.\nBind off 13 sts."
    assert counts(work)[-1] == 13
    assert said(work.replace(" Mark the centre st.", ""))
    assert said(work.replace("13 sts.\n", "14 sts.\n"))


NECK = "Cast on 60 (66, 72) sts.\nRow 1: Knit.\nNext row: K to center {} sts, bind off {} sts, k to end. {} sts.\n"


def test_a_neck_is_bound_off_in_the_centre_of_the_row_in_every_size() -> None:
    fabric = knitted(NECK.format("20 (22, 24)", "20 (22, 24)", "40 (44, 48)") + "Bind off all sts.", SIZES)
    ends = [size.pieces["Piece"].records[-1].after for size in fabric.sizes]
    assert ends == [40, 44, 48]


@pytest.mark.parametrize(
    ("centre", "found"),
    [
        (
            "20 (23, 24)",
            "centre-off: next row: 23 sts in the middle of 66 leave 43, which are not the same on both sides",
        ),
        ("20 (22, 80)", "centre-off: next row: 80 sts in the middle are more than the 72 on the needle"),
    ],
)
def test_what_has_no_centre_is_refused(centre: str, found: str) -> None:
    assert any(found in line for line in said(NECK.format(centre, "20 (22, 24)", "40 (44, 48)"), SIZES))


def test_the_centre_may_not_lie_behind() -> None:
    lines = said("Cast on 60 sts.\nRow 1: K30, p to center 20 sts, k to end.")
    assert any("the 20 sts in the middle begin behind st 20; the row is already at st 30" in line for line in lines)
