"""Stitches that wait while a heel is worked back and forth, and the round that takes them in again."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")
OVER = "The heel is worked back and forth over the first 28 (30, 32) sts only."
HELD = "Next row (RS): K28 (30, 32), place rem 28 (30, 32) sts on a holder for instep. 28 (30, 32) sts."


def sock(waits: str, pick_up: str) -> str:
    rows = "Row 1 (RS): *Sl 1, k1; rep from * to end.\nRow 2 (WS): Sl 1, p to end.\nRep rows 1 and 2 9 more times."
    if waits == HELD:
        rows = "Row 1 (WS): Sl 1, p to end.\nRow 2 (RS): *Sl 1, k1; rep from * to end.\nRow 3 (WS): Sl 1, p to end."
    begin = "CO 56 (60, 64) sts. Join to work in the round.\nKnit 4 rnds."
    return f"{begin}\n{waits}\n{rows}\n{pick_up}\nKnit 4 rnds.\nBO all sts."


PICK = "pick up and knit 14 (15, 16) sts along side of heel flap"
OTHER = "pick up and knit 14 (15, 16) sts along other side of heel flap"


@pytest.mark.parametrize("waits", [OVER, HELD])
@pytest.mark.parametrize(
    "row",
    [
        f"Next rnd: K28 (30, 32) heel sts, {PICK}, k28 (30, 32) instep sts, {OTHER}.",
        f"Next round: Knit 28 (30, 32) heel sts, {PICK}, knit across instep sts, {OTHER}.",
        f"Next rnd: K to end of heel sts, {PICK}, k across instep sts, {OTHER}. 84 (90, 96) sts.",
        f"Next row (RS): K28 (30, 32) heel sts, {PICK}, pm, k28 (30, 32) instep sts, pm, {OTHER}. Join in the round.",
    ],
)
def test_the_instep_is_worked_where_the_row_says_so(waits: str, row: str) -> None:
    made = knitted(sock(waits, row), SIZES, "round")
    for size, count in zip(made.sizes, (84, 90, 96), strict=True):
        records = size.pieces["Piece"].records
        assert records[-1].before == records[-1].after == count
        assert size.held == ()
        assert sum(each.count for each in records[-2].changes if each.kind == "resume") == count // 3


def test_a_round_that_names_no_part_goes_over_all_of_them() -> None:
    made = knitted(sock(OVER, "Next rnd: Knit. 56 (60, 64) sts."), SIZES, "round")
    assert [each.pieces["Piece"].records[-1].after for each in made.sizes] == [56, 60, 64]
    made = knitted(sock(OVER, f"Next rnd: K28 (30, 32), {PICK}, k28 (30, 32), {OTHER}."), SIZES, "round")
    assert [each.pieces["Piece"].records[-1].after for each in made.sizes] == [84, 90, 96]


@pytest.mark.parametrize("waits", [OVER, HELD])
@pytest.mark.parametrize(
    ("right", "wrong"), [("28 (30, 32) instep", "27 (30, 32) instep"), ("K28 (30, 32)", "K28 (30, 33)")]
)
def test_each_number_must_be_that_of_its_part(waits: str, right: str, wrong: str) -> None:
    row = f"Next rnd: K28 (30, 32) heel sts, {PICK}, k28 (30, 32) instep sts, {OTHER}."
    found = said(sock(waits, row.replace(right, wrong)), SIZES, "round")
    found = [each for each in found if not each.startswith("stitches-still-held")]
    assert len(found) == 1
    assert "next rnd" in found[0]


@pytest.mark.parametrize("second", ["k27 (29, 31)", "k28 (30, 33)"])
def test_a_round_must_come_out_though_it_names_no_part(second: str) -> None:
    found = said(sock(OVER, f"Next rnd: K28 (30, 32), {PICK}, {second}, {OTHER}."), SIZES, "round")
    assert len(found) == 1
    assert "next rnd" in found[0]


def test_what_nobody_takes_in_is_still_held() -> None:
    work = sock(OVER, "Next row (RS): Knit.").replace("Knit 4 rnds.\nBO", "Knit 4 rows.\nBO")
    assert said(work, SIZES, "round") == [
        "stitches-still-held: 28 (30, 32) sts were left unworked and nobody takes them back"
    ]


@pytest.mark.parametrize(
    "told",
    [
        "Return 12 held sts to needle. With WS facing, rejoin yarn.",
        "Return 12 held sts to needle. With WS facing.",
        "With WS facing, return 12 held sts to needle.",
    ],
)
def test_the_side_that_is_told_when_sts_are_taken_back_is_the_side_of_the_next_row(told: str) -> None:
    work = (
        "Cast on 20 sts.\nRow 1 (RS): K8, place next 12 sts on a holder.\nRow 2: Purl.\nBind off all sts.\n"
        f"{told}\nRow 1 ({{}}): Knit.\nBind off all sts."
    )
    assert said(work.format("WS")) == []
    assert [line.split(":")[0] for line in said(work.format("RS"))] == ["wrong-side-due"]
