"""Gaps in a row: bound-off stitches stop it, held ones may be drawn together, and the loop behind them is counted once."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, findings, knitted, said

ACROSS = "is worked on across stitches that were bound off, and casts none on over them"


@pytest.mark.parametrize(
    ("work", "wording"),
    [
        ("Cast on 20 sts.\nRow 1 (RS): K8, bind off 4 sts, k to end. 16 sts.\nRow 2: Purl. 16 sts.", f"row 2 {ACROSS}"),
        ("Cast on 20 sts.\nRow 1 (RS): K8, bind off 4 sts, k to end.\nRow 2: P16.", f"row 2 {ACROSS}"),
    ],
)
def test_a_row_does_not_pass_over_bound_off_stitches(work: str, wording: str) -> None:
    found = findings(work + "\nBind off all sts.")
    assert [each.message for each in found if each.rule.name == "worked-across-a-gap"] == [wording]


def test_a_round_does_not_either() -> None:
    work = """Cast on 40 sts. Join to work in the round.
Rnd 1: K10, bind off 6 sts, k to end. 34 sts.
Rnd 2: Knit. 34 sts.
Bind off all sts."""
    assert said(work, form="round") == [f"worked-across-a-gap: rnd 2 {ACROSS}"]


@pytest.mark.parametrize("second", ["P8, cast on 4 sts over gap, p to end. 20 sts.", "P8, cast on 4 sts, p8. 20 sts."])
def test_stitches_cast_on_close_the_gap(second: str) -> None:
    work = f"Cast on 20 sts.\nRow 1 (RS): K8, bind off 4 sts, k to end. 16 sts.\nRow 2: {second}\nRow 3: Knit. 20 sts."
    assert said(work + "\nBind off all sts.") == []


def test_held_stitches_may_be_drawn_together() -> None:
    work = """Cast on 40 sts. Join to work in the round.
Rnd 1: K10, place next 6 sts on waste yarn, k to end. 34 sts.
Rnd 2: Knit. 34 sts.
Bind off all sts.
Return 6 held sts to needles.
Bind off all sts."""
    assert said(work, form="round") == []


def test_what_is_told_of_the_right_needle_settles_the_loop() -> None:
    # the loop is the first of k5 where nothing is told, and a stitch of its own where it is
    assert counts("Cast on 12 sts.\nRow 1 (RS): Bind off 2 sts, k10.\nBind off all sts.")[1] == 10
    assert counts("Cast on 12 sts.\nRow 1 (RS): Bind off 2 sts (1 st on right needle), k9.\nBind off all sts.")[1] == 10
    wrong = "Cast on 12 sts.\nRow 1 (RS): Bind off 2 sts (1 st on right needle), k10.\nBind off all sts."
    assert [line.split(":")[0] for line in said(wrong)] == ["too-few-stitches"]


def test_the_number_on_the_right_needle_is_held() -> None:
    work = "Cast on 20 sts.\nRow 1 (RS): K6, bind off 4 sts ({} sts on right needle), k9.\nBind off all sts."
    told = [line for line in said(work.format(8)) if line.startswith("stated-part-off")]
    assert told == ["stated-part-off: row 1: 8 sts on the right needle behind the bind-off, 7 are there"]
    assert not [line for line in said(work.format(7)) if line.startswith("stated-part-off")]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("K10, BO 2 sts, k to end.", "P to last 10 sts, CO 2 sts, p to end."),
        ("K10, BO 2 sts, k to end.", "P to last 10 sts, CO 2 sts, p10."),
        ("K10, BO 2 sts, k to end.", "K5, p to last 10 sts, CO 2 sts, p5, k5."),
        ("K10, BO 2 sts, k to last 6 sts, BO 2 sts, k to end.", "P4, CO 2 sts, p to last 10 sts, CO 2 sts, p10."),
        ("K3, BO 3 sts, k to end.", "P to bound-off sts, turn, CO 3 sts using cable cast-on, turn, p to end."),
    ],
)
def test_a_buttonhole_of_two_rows_leaves_every_stitch_on_the_needle(first: str, second: str) -> None:
    fabric = knitted(f"Cast on 60 sts.\nRow 1 (RS): {first}\nRow 2: {second}\nRow 3: Knit.\nBind off all sts.")
    piece = fabric.sizes[0].pieces["Piece"]
    assert (piece.records[-1].before, piece.rows) == (60, 3)
