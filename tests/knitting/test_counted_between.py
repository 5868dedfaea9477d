"""Until there are so many stitches between the markers, on a needle, at each side: those are counted, and no others."""

from __future__ import annotations

from itertools import pairwise

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")
GUSSET = """CO 44 (48, 52) sts. Join to work in the round.
Set-up rnd: K21 (23, 25), pm, k2, pm, k to end.
Rnd 1: K to marker, sm, M1L, k to marker, M1R, sm, k to end.
Rnds 2 and 3: Knit.
"""


def after(work: str, size: int) -> list[int]:
    records = knitted(work, SIZES, "round").sizes[size].pieces["Piece"].records
    return [each.after for each in records for _ in range(each.rows)]


@pytest.mark.parametrize(
    "until",
    [
        "until there are 14 (16, 16) sts between markers",
        "until there are 14 (16, 16) sts between the markers",
        "until there are 14 (16, 16) stitches between thumb markers",
        "until you have 14 (16, 16) sts between markers",
        "until there are 14 (16, 16) sts in gusset",
        "until there are 14 (16, 16) sts for the thumb",
    ],
)
@pytest.mark.parametrize("repeat", ["Rep last 3 rnds", "Rep rnds 1 to 3", "Repeat rounds 1–3"])
def test_a_gusset_grows_between_its_markers(until: str, repeat: str) -> None:
    work = f"{GUSSET}{repeat} {until}. 56 (62, 66) sts.\nKnit 2 rnds.\nBO all sts."
    for size, gained in enumerate((12, 14, 14)):
        counts = after(work, size)
        assert counts[-1] == (44, 48, 52)[size] + gained
        assert sum(one != two for one, two in pairwise(counts)) == gained // 2
    off = work.replace("14 (16, 16)", "14 (18, 16)")
    assert said(off, SIZES, "round") == ["stated-total-off: 62 sts are printed, 64 are on the needle"]
    odd = work.replace("14 (16, 16)", "15 (16, 16)")
    assert said(odd, SIZES, "round")[0] == "end-never-comes: 15 sts never come up: the count goes 12, 14, 16"


@pytest.mark.parametrize(
    "wording",
    [
        "Cont to inc in this way on every 3rd rnd until there are 14 (16, 16) sts between markers.",
        "Cont in this way, inc 2 sts every foll 3rd rnd until there are 14 (16, 16) sts between markers.",
    ],
)
def test_shaping_that_goes_on_counts_them_too(wording: str) -> None:
    work = f"{GUSSET}{wording} 56 (62, 66) sts.\nBO all sts."
    assert said(work, SIZES, "round") == []
    off = work.replace("14 (16, 16)", "14 (16, 18)")
    assert said(off, SIZES, "round") == ["stated-total-off: 66 sts are printed, 68 are on the needle"]


def test_of_several_parts_those_are_meant_that_change() -> None:
    work = GUSSET.replace("k2, pm, k to end", "k2, pm, k10, pm, k to end")
    work = work.replace("sm, k to end", "sm, k to m, sm, k to end")
    work += "Rep last 3 rnds until there are 14 (16, 16) sts between markers. 56 (62, 66) sts.\nBO all sts."
    assert said(work, SIZES, "round") == []


def test_one_marker_and_the_beginning_of_the_round() -> None:
    work = (
        "CO 44 (48, 52) sts. Join to work in the round.\nSet-up rnd: K2, pm, k to end.\n"
        "Rnd 1: M1, k to marker, M1, sm, k to end.\nRnd 2: Knit.\n"
        "Rep last 2 rnds until there are 12 (14, 14) sts between markers. 54 (60, 64) sts.\nBO all sts."
    )
    assert said(work, SIZES, "round") == []


def test_without_markers_nobody_can_tell() -> None:
    rows = "Row 1 (RS): K1, M1, k to last st, M1, k1.\nRow 2: Purl.\nRep rows 1 and 2 until there are {}."
    work = f"CO 44 sts.\n{rows}\nBO all sts."
    assert said(work.format("60 sts between markers")) == [
        "marker-not-there: no markers are on the needle that part the sts between markers from the others"
    ]
    assert said(work.format("60 sts in round")) == []


def test_each_side_of_a_marker() -> None:
    work = (
        "CO 20 (22, 24) sts.\nRow 1 (RS): K10 (11, 12), pm, k to end.\nRow 2: Purl.\nRow 3: K1, M1, k to last st, M1, k1.\n"
        "Row 4: Purl.\nRep rows 3 and 4 until there are 15 (17, 17) sts each side of marker. 30 (34, 34) sts.\nBO all sts."
    )
    assert said(work, SIZES) == []
    off = said(work.replace("15 (17", "16 (17"), SIZES)
    assert off == ["stated-total-off: 30 sts are printed, 32 are on the needle"]


def test_on_one_needle_of_a_set() -> None:
    work = (
        "CO 36 (40, 44) sts. Arrange sts over 2 needles: 18 (20, 22) sts on needle 1, 18 (20, 22) sts on needle 2. "
        "Join to work in the round.\n"
        "Rnd 1: Needle 1: K1, ssk, k to last 3 sts, k2tog, k1. Needle 2: Knit.\nRnd 2: Knit.\n"
        "Rep rnds 1 and 2 until 12 (14, 14) sts rem on needle 1. 30 (34, 36) sts.\nBO all sts."
    )
    assert said(work, SIZES, "round") == []


def test_a_round_that_goes_wrong_leaves_no_needle_to_count_on() -> None:
    found = said(
        "CO 60 sts. Join to work in the round. Arrange sts on 3 needles: 15 sts on needle 1, 30 sts on needle 2, "
        "15 sts on needle 3.\nRnd 1: Needle 1: K to last 3 sts, k2tog, k1; needle 2: k1, k1, skp, k to last 3 sts, k2tog, "
        "k1; needle 3: k1, skp, k to end. 56 sts.\nRnds 2 and 3: Knit.\nRep rnds 1–3 three more times. 44 sts.\n"
        "Work rnds 1 and 2 three times. 32 sts.\nRep rnd 1 until 4 sts rem on needle 2. 8 sts.\nBO all sts.",
        form="round",
    )
    assert [each.split(":")[0] for each in found] == ["end-never-comes", "sides-unlike"]
