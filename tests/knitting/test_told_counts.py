# ruff: noqa: E501 - lines are quoted whole, as they stand in print
"""Counts that a line tells beside what it asks for: the rest, these stitches, stitches of a needle."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, knitted, said

ROUND = "Cast on 24 sts. Join to work in the round.\n"
LAID = ROUND + "Arrange sts over 3 needles: 8 sts on needle 1, 8 sts on needle 2, 8 sts on needle 3.\n"


@pytest.mark.parametrize(
    ("work", "wording"),
    [
        (
            "Cast on 40 sts.\nRow 1 (RS): K14, place next 12 sts on holder for neck, place rem 13 sts on holder for right "
            "side, turn. 14 sts.",
            "row 1: rem 13 sts are to be put on hold; 14 are left in the row",
        ),
        (
            "Cast on 57 sts.\nKnit 2 rows.\nPlace these 56 sts on a holder.",
            "these 56 sts are to be put on hold; 57 are there",
        ),
        (
            "Cast on 57 sts.\nKnit 2 rows.\nPlace rem 56 sts on a holder.",
            "rem 56 sts are to be put on hold; 57 are there",
        ),
        (
            "Cast on 31 sts.\nKnit 2 rows.\nWork back and forth in rows on these 32 sts.\nKnit 2 rows.",
            "32 sts are to be worked over, 31 are on the needle",
        ),
        ("Cast on 27 sts.\nKnit 13 rows on these 28 sts.", "28 sts are to be worked over, 27 are on the needle"),
        (
            "Cast on 10 sts.\nKnit 2 rows.\nDraw yarn through rem 8 sts.",
            "8 sts are to be worked over, 10 are on the needle",
        ),
        (
            "Cast on 29 sts.\nKnit 2 rows.\nPlace these 29 sts on a holder.\nRejoin yarn to rem 28 sts.\nKnit 2 rows.\nBind off all sts.",
            "28 held sts are taken back, 29 are held",
        ),
    ],
)
def test_a_told_count_is_held(work: str, wording: str) -> None:
    assert wording in [line.split(": ", 1)[1] for line in said(work)]


@pytest.mark.parametrize(
    ("lines", "wording"),
    [
        (
            "Rnd 1: Needle 1: knit; needle 2: knit; needle 4: knit.",
            "rnd 1: needle 4 is spoken of; the stitches lie on 3 needles",
        ),
        ("Rnd 1: Needle 1: knit; needle 3: knit; needle 2: knit.", "rnd 1: needle 3 is spoken of, needle 2 is in work"),
        ("Rnd 1: Needle 1: k7; needle 2: knit; needle 3: knit.", "rnd 1: needle 2 is spoken of, needle 1 is in work"),
    ],
)
def test_needles_of_a_set_are_worked_in_their_order(lines: str, wording: str) -> None:
    assert said(LAID + lines + "\nBind off all sts.", form="round") == [f"marker-not-there: {wording}"]


@pytest.mark.parametrize(
    ("line", "wording"),
    [
        (
            "Arrange sts over 3 needles: 12 sts on needle 1, 12 sts on needle 2.",
            "3 needles are spoken of, stitches are told for 2",
        ),
        (
            "Arrange sts over 3 needles: 8 sts on needle 1, 8 sts on needle 2, 9 sts on needle 3.",
            "8 + 8 + 9 = 25 sts are laid out, 24 are on the needle",
        ),
        (
            "Arrange sts over 3 needles: 8 sts on needle 1, 8 sts on needle 3, 8 sts on needle 2.",
            "the needles are told in the order 1, 3, 2",
        ),
    ],
)
def test_what_is_laid_out_adds_up(line: str, wording: str) -> None:
    assert said(ROUND + line + "\nKnit 1 rnd.\nBind off all sts.", form="round") == [f"stated-part-off: {wording}"]


@pytest.mark.parametrize(
    "rnd",
    [
        "Rnd 1: K to last 2 sts on each needle, k2tog.",
        "Rnd 1: *K to last 2 sts, k2tog; rep from * on each needle.",
        "Rnd 1: Needle 1: k to last 2 sts, k2tog; needle 2: k to last 2 sts, k2tog; needle 3: k6, k2tog.",
    ],
)
def test_what_is_worked_on_each_needle_is_worked_on_all(rnd: str) -> None:
    work = f"{LAID}{rnd} 21 sts.\nRnd 2: K7, *k5, k2tog; rep from * on each needle.\nBind off all sts."
    assert counts(work, form="round")[-2:] == [21, 19]


def test_each_needle_needs_needles() -> None:
    found = said(f"{ROUND}Rnd 1: K to last 2 sts on each needle, k2tog.\nBind off all sts.", form="round")
    assert found == ["marker-not-there: rnd 1: each needle is spoken of; nothing says how the stitches lie on needles"]


def test_a_removed_marker_is_gone() -> None:
    work = "Cast on 20 sts.\nRow 1 (RS): K10, pm, k10.\nRow 2: Purl.\nRemove all markers.\nRow 3: K9, k2tog, k9.\nBind off all sts."
    assert said(work) == []
    assert [line.split(":")[0] for line in said(work.replace("Remove all markers.\n", ""))] == ["marker-in-the-way"]


def test_a_marker_that_is_not_there_cannot_be_removed() -> None:
    work = "Cast on 20 sts.\nKnit 2 rows.\nRemove marker.\nBind off all sts."
    assert said(work) == ["marker-not-there: no marker is here to be removed"]
    named = "Cast on 20 sts.\nRow 1 (RS): K5, pm for side, k5, pm for back, k10.\nRow 2: P10, slip side marker, p to end.\nBind off all sts."
    assert said(named) == ["marker-not-there: row 2: marker back is here, not side"]


@pytest.mark.parametrize(
    ("work", "wording"),
    [
        (
            "Dec row (RS): K2tog, k to end. 19 sts.\nRep dec row every 3rd row twice.",
            "wrong-side-due: dec row is printed for the RS; 3 rows apart it falls on both sides",
        ),
        (
            "Dec row (RS): K2tog, k to end. 19 sts.\nPurl 1 row.\nRep dec row every 4th row twice.",
            "wrong-side-due: dec row is printed for the RS; every 4 rows it falls on the WS",
        ),
        (
            "Row 1 (RS): Knit.\nRow 2 (WS): Purl.\nRow 3 (RS): Knit.\nRep rows 1–3 twice.",
            "wrong-side-due: row 1 is printed for the RS, a WS row is due",
        ),
    ],
)
def test_rows_that_come_again_keep_their_side(work: str, wording: str) -> None:
    assert wording in said(f"Cast on 20 sts.\n{work}\nBind off all sts.")


def test_a_rib_does_not_end_inside_a_column() -> None:
    work = "Cast on {} sts.\nWork 14 rows in k2, p3 rib.\nBind off all sts."
    assert said(work.format(22)) == []  # four repeats and two knit stitches
    assert said(work.format(20)) == []
    assert said(work.format(23)) == ["repeat-does-not-divide: k2, p3 rib: 23 sts end 1 st into a column of 3"]
    assert said(work.format(21)) == ["repeat-does-not-divide: k2, p3 rib: 21 sts end 1 st into a column of 2"]


def test_where_a_size_has_none_its_rows_are_not_worked() -> None:
    work = "Cast on 40 (44) sts.\nWork 2 rows in St st.\nBind off 0 (2) sts at beg of next 2 rows. 40 (40) sts.\nBind off all sts."
    sizes = knitted(work, ("S", "M")).sizes
    assert [size.pieces["Piece"].rows for size in sizes] == [2, 4]


def test_a_ratio_needs_the_total_that_it_comes_to() -> None:
    work = "Cast on 20 sts.\nKnit 30 rows.\nBind off all sts.\nWith RS facing, pick up and knit 3 sts for every 4 rows along edge.{}\nKnit 2 rows.\nBind off all sts."
    assert [line.split(":")[0] for line in said(work.format(""))] == ["picked-up-uncounted"]
    assert said(work.format(" 22 sts.")) == []


def test_the_row_that_a_length_ends_with() -> None:
    rows = "Cast on 20 sts.\nRow 1 (RS): Knit.\nRow 2: Purl.\nRow 3: Knit.\nRow 4: Knit.\n"
    work = rows + "Rep rows 1–4 until piece measures 10 cm, ending with row {}.\nRow 1 (RS): Knit.\nBind off all sts."
    assert said(work.format(4)) == []
    assert "wrong-side-due: row 1 is printed for the RS, a WS row is due" in said(work.format(3))
    told = rows + "Rep rows 1–4 for 8 rows, ending with row 2.\nBind off all sts."
    assert said(told) == ["wrong-last-row: 8 rows end with row 4, not with row 2"]


def test_where_a_fabric_begins() -> None:
    work = "Cast on 20 sts.\nBeg with a knit row, work 5 rows in St st.\nBeg with a {} row, work 4 rows in St st.\nBind off all sts."
    assert said(work.format("purl")) == []
    assert said(work.format("knit")) == ["wrong-side-due: the first row is printed for the RS, a WS row is due"]
