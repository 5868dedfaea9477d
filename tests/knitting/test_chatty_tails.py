"""Words at the end of a line that tell how change nothing; a wrong number before them is found all the same."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")
ROUNDS = (
    "CO 40 (44, 48) sts. Join to work in the round, taking care not to twist your sts, and place a BOR marker.\n"
    "Rnd 1: K20 (22, 24), pm, k to end.\n"
    "Rnd 2: Knit, removing all markers except BOR as you come to them.\n"
    "Rnd 3: *K2, p2; rep from * to end.\n"
    "Rnd 4: Work sts as they appear. 40 (44, 48) sts.\n"
    "Cast off in rib, not too tightly!"
)


def test_what_is_left_out_does_nothing() -> None:
    for size, cast_on in zip(knitted(ROUNDS, SIZES, "round").sizes, (40, 44, 48), strict=True):
        assert size.loops["A", "stockinette", "p"] == cast_on  # half of rnds 3 and 4 each
        assert size.loops["A", "stockinette", "bind off"] == cast_on
    wrong = ROUNDS.replace("appear. 40 (44", "appear. 40 (45")
    assert said(wrong, SIZES, "round") == ["stated-total-off: 45 sts are printed, 44 are on the needle"]


def test_a_marker_that_was_removed_is_gone() -> None:
    wrong = ROUNDS.replace("Rnd 3: *K2", "Rnd 3: K to m, sm, k5, *k2")
    kept = wrong.replace(", removing all markers except BOR as you come to them", "")
    assert said(wrong, SIZES, "round") != said(kept, SIZES, "round")
    assert "rnd 3" in said(wrong, SIZES, "round")[0]


@pytest.mark.parametrize("words", ["BOR", "the BOR marker", "beg of rnd marker"])
def test_the_marker_that_stays_is_that_of_the_round(words: str) -> None:
    knitted(ROUNDS.replace("except BOR", f"except {words}"), SIZES, "round")


@pytest.mark.parametrize(
    "row", ["K, casting on 3 sts over bound-off sts", "Purl to end, casting on 3 sts over bound-off sts"]
)
def test_a_gap_is_met_on_the_way_of_a_whole_row(row: str) -> None:
    work = (
        f"CO 54 (58, 60) sts.\nNext row (RS): K3, BO 3 sts, k to end.\nNext row: {row}. 54 (58, 60) sts.\nBO all sts."
    )
    knitted(work, SIZES)
    assert said(work.replace("on 3 sts", "on 4 sts"), SIZES) == [
        "stated-total-off: 54 (58, 60) sts are printed, 55 (59, 61) are on the needle"
    ]


def test_named_rounds_go_on_behind_a_band_with_numbers_of_its_own() -> None:
    work = (
        "CO 40 (44, 48) sts. Join to work in the round.\nInc rnd 1: *K4, m1; rep from * to end. 50 (55, 60) sts.\n"
        "Rnd 1: Knit.\nRnd 2: Purl.\nInc rnd 2: *K5, m1; rep from * to end. 60 (66, 72) sts.\nBO all sts."
    )
    knitted(work, SIZES, "round")
    assert "row-number-out-of-order" in said(work.replace("Inc rnd 2", "Inc rnd 3"), SIZES, "round")[0]
