# ruff: noqa: E501 - lines are quoted whole
"""Wordings that mean more than one plain act: ends of a last repeat, casting on over every gap, rows told before."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, knitted, said


def test_a_last_repeat_that_ends_otherwise() -> None:
    work = "Cast on {} sts.\nRow 1 (RS): *K2, p1, yo, k2tog; rep from * to end, ending last rep k1.\nBind off all sts."
    assert said(work.format(5 * 4 + 4)) == []
    assert [line.split(":")[0] for line in said(work.format(5 * 4 + 5))] == ["repeat-does-not-divide"]
    worked = knitted(
        "Cast on 8 sts.\nRow 1 (RS): *K2, p1; rep from * to end, ending last rep with k3.\nBind off all sts."
    )
    assert worked.sizes[0].pieces["Piece"].records[0].faces == "kkpkkkkk"


@pytest.mark.parametrize(
    "row", ["Knit, casting on 2 sts over each buttonhole.", "K2, cast on 2 sts over each gap, k to end."]
)
def test_stitches_over_every_gap(row: str) -> None:
    work = f"Cast on 14 sts.\nRow 1 (RS): K2, *bind off 2 sts, k2; rep from * once more, k to end.\nRow 2: {row}\nBind off all sts."
    assert counts(work)[-2:] == [10, 14]


def test_in_this_manner_is_with_the_shaping() -> None:
    work = "Cast on 20 sts.\nRow 1 (RS): K1, ssk, k to end.\nRow 2: Purl.\nCont in this manner until 16 sts rem.\nBind off all sts."
    assert counts(work)[-1] == 16
    unsaid = "Cast on 20 sts.\nKnit 2 rows.\nCont in this manner until 16 sts rem.\nBind off all sts."
    assert [line.split(":")[0] for line in said(unsaid)] == ["row-not-there"]
    alone = work.replace(" until 16 sts rem", "")
    assert said(alone) == ["row-not-there: how far to go on in this manner is not told"]


def test_rows_on_some_of_the_stitches() -> None:
    work = """Cast on 80 sts.
Next row (RS): K28, bind off next 24 sts, k28. 56 sts.
Knit 13 rows on the last 28 sts for left shoulder.
Bind off 28 sts.
With WS facing, rejoin yarn to rem 28 sts at neck edge for right shoulder.
Knit 13 rows.
Bind off 28 sts."""
    assert said(work) == []
    assert "27 sts are to be bound off, 28 are on the needle; 1 would be left" in " ".join(
        said(work.replace("Bind off 28 sts.\nWith", "Bind off 27 sts.\nWith"))
    )


def test_stitches_into_a_double_yarn_over() -> None:
    work = "Cast on 12 sts.\nRow 1 (RS): K4, k2tog, yo, yo, ssk, k4.\nRow 2: P5, k1 and p1 into double yo, p5.\nBind off all sts."
    assert counts(work) == [12, 12, 12]


def test_changes_evenly_to_a_number() -> None:
    work = "Cast on 40 sts.\nRow 1 (RS): Knit, inc evenly to 48 sts.\nRow 2: K2, decreasing evenly to 44 sts.\nBind off all sts."
    assert counts(work) == [40, 48, 44]
    assert said(work.replace("inc evenly", "dec evenly")) == [
        "no-even-spacing: row 1: decreases are to make 48 sts of 40"
    ]
    assert said("Cast on 40 sts.\nRow 1: Knit, inc evenly to 90 sts.") != []


def test_what_a_repeat_ends_with_is_kept_for_it() -> None:
    work = "Cast on {} sts.\nRow 1 (RS): K1, *p2, k2; rep from *, end p2, k1.\nBind off all sts."
    assert said(work.format(4 * 5 + 4)) == []
    assert [line.split(":")[0] for line in said(work.format(4 * 5 + 5))] == ["repeat-does-not-divide"]
    lace = "Cast on 17 sts.\nRow 1 (RS): K1, *yo, k2tog, k3; rep from * across, ending with yo, k2tog, k4.\nBind off all sts."
    assert said(lace) == []


def test_lengths_and_ridges_before_the_fabric() -> None:
    assert counts("Cast on 20 sts.\nWork 5 cm in k2, p2 rib.\nBind off all sts.")[-1] == 20
    ridges = "Cast on 20 sts.\nKnit 3 garter ridges.\nRow {} (RS): Knit.\nBind off all sts."
    assert len(counts("Cast on 20 sts.\nKnit 3 garter ridges (6 rows).\nBind off all sts.")) == len(
        counts("Cast on 20 sts.\nKnit 6 rows (3 ridges).\nBind off all sts.")
    )
    assert said(ridges.format(7)) == []
    assert said("Cast on 20 sts.\nKnit 3 garter ridges (8 rows).\nBind off all sts.") == [
        "stated-rows-off: 8 rows are printed, 6 have been worked by the last line"
    ]


def test_colours_by_number_and_letter() -> None:
    work = "Cast on 16 sts.\nJoin to work in the round.\nRnd 1: *1A, {}B; rep from * around.\nBind off all sts."
    assert said(work.format(3), form="round") == []
    assert [line.split(":")[0] for line in said(work.format(4), form="round")] == ["repeat-does-not-divide"]


def test_the_rows_before_the_act_at_their_beginning() -> None:
    work = (
        "Cast on 40 sts.\nKnit 2 rows.\nAt the beginning of the next 2 rows, bind off 5 sts. 30 sts.\nBind off all sts."
    )
    assert said(work) == []
    assert said(work.replace("30 sts", "31 sts")) != []


def test_a_change_on_the_last_of_some_rows() -> None:
    rib = "Cast on 40 sts.\nWork in k1, p1 rib for 5 cm, ending with a WS row and increasing 8 sts evenly across last row. {} sts.\nBind off all sts."
    assert said(rib.format(48)) == []
    assert said(rib.format(49)) == ["stated-total-off: 49 sts are printed, 48 are on the needle"]
    worked = knitted("Cast on 40 sts.\nKnit 4 rows, dec 1 st at each end of last row.\nBind off all sts.")
    assert [(record.rows, record.after) for record in worked.sizes[0].pieces["Piece"].records][-1] == (1, 38)
    assert worked.sizes[0].pieces["Piece"].rows == 4
    never = "Cast on 40 sts.\nRow 1 (RS): Knit.\nRow 2: Knit to end.\nInc 2 sts evenly on last row.\nBind off all sts."
    assert [line.split(":")[0] for line in said(never)] == ["row-not-there"]


def test_a_last_round_that_ends_short() -> None:
    work = "Cast on 40 sts.\nJoin to work in the round.\nWork in St st for 8 rounds, ending last round 5 sts before marker.\nNext rnd: Bind off 10 sts, k to end. 30 sts.\nKnit 1 rnd.\nBind off all sts."
    assert said(work, form="round") == []
    assert "".join(said(work.replace("30 sts", "31 sts"), form="round")).startswith("stated-total-off")


def test_borders_at_either_end() -> None:
    worked = knitted(
        "Cast on 10 sts.\nWork in St st, keeping first and last 3 sts in garter st, for 4 rows.\nBind off all sts."
    )
    assert [record.faces for record in worked.sizes[0].pieces["Piece"].records][:2] == ["k" * 10, "pppkkkkppp"]
    wide = "Cast on 10 sts.\nKeeping first and last 6 sts in garter st, work in St st for 4 rows.\nBind off all sts."
    assert [line.split(":")[0] for line in said(wide)] == ["too-few-stitches"]
    told = knitted(
        "Cast on 10 sts.\nKeeping first and last 2 sts in seed st and rem sts in garter st, work until piece measures 2 cm.\nBind off all sts."
    )
    assert {record.faces[2:8] for record in told.sizes[0].pieces["Piece"].records} == {"k" * 6, "p" * 6}


def test_rounds_in_turns_are_garter() -> None:
    worked = knitted(
        "Cast on 10 sts.\nJoin to work in the round.\nP 1 rnd, k 1 rnd for 4 rnds.\nBind off all sts.", form="round"
    )
    assert [record.faces for record in worked.sizes[0].pieces["Piece"].records][:2] == ["p" * 10, "k" * 10]


def test_an_opening_of_waste_yarn() -> None:
    work = """Cast on 40 sts.
Join to work in the round.
Knit 5 rnds.
Next rnd: K2, with waste yarn k8, slip these 8 sts back to left needle and knit them again with A, k to end. 40 sts.
Knit 5 rnds.
Bind off all sts.
Remove waste yarn and place {} sts below and {} sts above the opening on dpns. {} sts.
Join to work in the round.
Knit 4 rnds.
Bind off all sts."""
    assert said(work.format(8, 8, 16), form="round") == []
    assert said(work.format(8, 7, 15), form="round") == []
    assert said(work.format(8, 9, 17), form="round") == []
    assert [line.split(":")[0] for line in said(work.format(8, 6, 14), form="round")] == ["stitches-not-held"]
    assert [line.split(":")[0] for line in said(work.format(10, 8, 18), form="round")] != []
    left = work.split("Remove")[0]
    assert [line.split(":")[0] for line in said(left, form="round")] == ["stitches-still-held"]


def test_a_yarn_told_in_the_label() -> None:
    worked = knitted("Cast on 20 sts.\nRow 1 (RS, B): Knit.\nRow 2 (A): Knit.\nBind off all sts.")
    assert [record.yarns for record in worked.sizes[0].pieces["Piece"].records] == [("B",), ("A",)]
