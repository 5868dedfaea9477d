# ruff: noqa: E501 - lines stand as they do in print
"""Heels on the needles of a set: the last needle and the first taken together, the instep waiting on its own."""

from __future__ import annotations

import re

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")
SET_UP = """CO 56 (64, 72) sts. Divide sts over 3 needles as follows: N1: 14 (16, 18) sts; N2: 28 (32, 36) sts; N3: 14 (16, 18) sts.
Join to work in the round. The beginning of the round is at the center back, between N3 and N1.
Knit 4 rnds.
"""
TAKEN = """Knit across N1, turn work. Sl 1, purl across rem sts of N1, then purl across sts on N3 with the same needle. 28 (32, 36) heel sts on one needle. Leave the 28 (32, 36) instep sts on hold on N2.
Work back and forth on heel sts as follows:
"""
FLAP = """Row 1 (RS): *Sl 1, k1; rep from * to end.
Row 2 (WS): Sl 1, p to end.
Rep rows 1 and 2 13 (15, 17) more times.
"""
ROUND_AGAIN = """Next rnd: K28 (32, 36) heel sts, pick up and knit 14 (16, 18) sts along side of heel flap, k28 (32, 36) instep sts, pick up and knit 14 (16, 18) sts along other side of heel flap. 84 (96, 108) sts.
Knit 1 rnd.
Bind off."""


def one_size(work: str) -> str:
    """The smallest size alone."""
    return re.sub(r" \(\d+, \d+\)", "", work)


HEEL = SET_UP + TAKEN + FLAP + ROUND_AGAIN


def test_a_heel_over_the_last_needle_and_the_first_comes_out() -> None:
    assert said(HEEL, SIZES, "round") == []
    rows = [(row.side, row.after) for row in knitted(HEEL, SIZES, "round").sizes[2].pieces["Piece"].records]
    assert ("RS", 36) in rows and ("WS", 36) in rows and ("RS", 108) in rows


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ("N1: 14", "N1: 15", "15 + 28 + 14 = 57 sts are laid out, 56 are on the needle"),
        (
            "between N3 and N1",
            "between N2 and N1",
            "told to begin between needles 2 and 1; it begins between needles 3 and 1",
        ),
        ("sts on N3 with", "sts on N2 with", "needle 2 is spoken of, needle 3 is in work"),
        ("28 (32, 36) heel sts on", "28 (31, 36) heel sts on", "stated-part-off: 31 heel sts are printed"),
        (
            "the 28 (32, 36) instep",
            "the 28 (32, 35) instep",
            "35 sts are told on needle 2; on the needles are 18, 36, 18",
        ),
        ("on hold on N2", "on hold on N1", "28 (32, 36) sts are told on needle 1"),
        (
            "K28 (32, 36) heel",
            "K27 (32, 36) heel",
            "stitches-left-over: next rnd: 1 sts are left unworked before the held ones",
        ),
        ("k28 (32, 36) instep", "k29 (32, 36) instep", "29 held sts are to be worked; 28 are held"),
    ],
)
def test_a_number_off_by_one_is_found(right: str, wrong: str, found: str) -> None:
    assert right in HEEL
    assert found in "\n".join(said(HEEL.replace(right, wrong, 1), SIZES, "round"))


@pytest.mark.parametrize(
    "taken",
    [
        "K14, turn.\nNext row (WS): Sl 1, p27, turn. Work back and forth on these 28 sts only.\n",
        "K14, turn.\nNext row (WS): Sl 1, p27, turn. Leave the rem 28 sts on hold. Work back and forth on heel sts.\n",
        "K14, turn.\nNext row (WS): Sl 1, p27, turn. Work back and forth on heel sts.\n",
    ],
)
def test_the_stitches_between_two_turns_are_the_heel(taken: str) -> None:
    assert said(one_size(SET_UP + taken + FLAP + ROUND_AGAIN), form="round") == []
    wrong = taken.replace("28", "27")
    if wrong != taken:
        assert "27" in said(one_size(SET_UP + wrong + FLAP + ROUND_AGAIN), form="round")[0]


def test_a_heel_that_nothing_tells_of_is_refused() -> None:
    assert said(SET_UP + "Work back and forth on heel sts as follows:\n" + FLAP, SIZES, "round")[0] == (
        "stated-part-off: the heel is worked back and forth, and nothing says over which of the 56 (64, 72) sts"
    )


@pytest.mark.parametrize(
    ("laid", "found"),
    [
        ("Arrange the sts for magic loop with 28 sts on each needle.", []),
        (
            "Arrange the sts for magic loop with 27 sts on each needle.",
            ["27 + 27 = 54 sts are laid out, 56 are on the needle"],
        ),
        ("Arrange sts for magic loop, half on each needle.", []),
        ("Divide sts with 28 sts on each needle.", []),
        ("Divide sts with 27 sts on each needle.", ["27 sts on each needle do not come to the 56 sts there are"]),
        ("You now have 56 sts, 28 on each needle.", []),
        ("You now have 56 sts, 29 on each needle.", ["29 sts on each needle are printed; 56 are on the needle"]),
        ("28 sts on each of 2 needles.", []),
        ("27 sts on each of 2 needles.", ["27 + 27 = 54 sts are laid out, 56 are on the needle"]),
    ],
)
def test_magic_loop(laid: str, found: list[str]) -> None:
    work = f"CO 56 sts. {laid}\nJoin to work in the round.\nRnd 1: N1: K28. N2: K28.\nBind off."
    heard = [each.removeprefix("stated-part-off: ") for each in said(work, form="round")]
    assert heard[: len(found)] == found and bool(heard) == bool(found)


SOCK = """CO 56 (64, 72) sts. Divide sts over 3 needles as follows: N1: 14 (16, 18) sts; N2: 28 (32, 36) sts; N3: 14 (16, 18) sts.
Join to work in the round.
Knit 4 rnds.
Knit across N1, turn work. Sl 1, purl across rem sts of N1, then purl across sts on N3 with the same needle. Leave the 28 (32, 36) instep sts on hold on N2.
Row 1 (RS): *Sl 1 purlwise wyib, k1; rep from * to end.
Row 2 (WS): Sl 1 purlwise wyif, purl to end.
Work rows 1 and 2 a total of 14 (16, 18) times. There will be 14 (16, 18) slipped sts along each edge of the flap.
Row 1 (RS): Sl 1, k14 (16, 18), ssk, k1, turn.
Row 2 (WS): Sl 1, p3, p2tog, p1, turn.
Row 3: Sl 1, knit to 1 st before gap, ssk (1 st from each side of gap), k1, turn.
Row 4: Sl 1, purl to 1 st before gap, p2tog (1 st from each side of gap), p1, turn.
Rep Rows 3 and 4 until all heel sts have been worked, ending with a WS row—16 (18, 20) heel sts rem.
Pick-up rnd: With RS facing, knit across 16 (18, 20) heel sts; with same needle (N1), pick up and knit 14 (16, 18) sts along side of heel flap and 1 st in the corner; with N2, knit across 28 (32, 36) instep sts; with N3, pick up and knit 1 st in the corner and 14 (16, 18) sts along other side of heel flap, then knit the first 8 (9, 10) sts from N1 onto N3. 74 (84, 94) sts: 23 (26, 29) sts each on N1 and N3, 28 (32, 36) sts on N2.
The rnd now begins at the center of the heel.
Rnd 1: N1: Knit to last 3 sts, k2tog, k1. N2: Knit. N3: K1, ssk, knit to end. 2 sts dec'd.
Rnd 2: Knit.
Rep Rnds 1 and 2 until 56 (64, 72) sts rem.
Rnd 1 (dec rnd): N1: Knit to last 3 sts, k2tog, k1; N2: k1, ssk, knit to last 3 sts, k2tog, k1; N3: k1, ssk, knit to end. 4 sts dec'd.
Rnd 2: Knit.
Rep these 2 rnds 5 (6, 7) times more. 32 (36, 40) sts rem.
Rep Rnd 1 only until 16 (16, 20) sts rem: 4 (4, 5) sts on N1, 8 (8, 10) sts on N2, 4 (4, 5) sts on N3.
Knit across N1 with N3. 8 (8, 10) sts on each of 2 needles. Cut yarn, leaving a 12 in tail. Graft toe sts together using Kitchener st."""


def test_a_whole_sock_told_needle_by_needle_comes_out() -> None:
    assert said(SOCK, SIZES, "round") == []


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        (
            "total of 14",
            "total of 15",
            "14 sts are told along each edge; 15 RS rows and 15 WS rows have slipped their first st",
        ),
        (
            "will be 14",
            "will be 15",
            "15 sts are told along each edge; 14 RS rows and 14 WS rows have slipped their first st",
        ),
        ("(WS): Sl 1 purlwise wyif, purl", "(WS): Purl", "14 (16, 18) sts are told along each edge; 0 RS rows"),
        ("across 16 (18", "across 15 (18", "pick-up rnd: 1 sts are left unworked before the held ones"),
        ("across 28 (32", "across 27 (32", "27 held sts are to be worked; 28 are held"),
        ("flap and 1 st in", "flap and 2 sts in", "75 (85, 95) sts are on the needle; 74 (84, 94) are printed"),
        ("first 8 (9", "first 7 (9", "23, 28, 23 sts are told on the needles, there are 24, 28, 22"),
        ("first 8 (9", "first 80 (9", "80 sts are to go from needle 1, which has 31"),
        ("from N1 onto N3", "from N1 onto N2", "sts go from needle 1 onto needle 2; before needle 1 lies needle 3"),
        ("from N1 onto N3", "from N2 onto N3", "the row is not at the beginning of needle 2"),
        ("needle (N1)", "needle (N2)", "needle 2 is told; needle 1 is in work"),
        ("with N2, knit", "with N3, knit", "needle 3 is told, needle 2 is next"),
        (": 23 (26", ": 22 (26", "22 + 28 + 22 = 72 sts are laid out, 74 are on the needle"),
        ("across N1 with N3", "across N1 with N2", "before needle 1 lies needle 3"),
        (
            "8 (8, 10) sts on each of 2",
            "7 (8, 10) sts on each of 2",
            "7 + 7 = 14 sts are laid out, 16 are on the needle",
        ),
    ],
)
def test_a_slip_in_a_sock_is_found(right: str, wrong: str, found: str) -> None:
    assert right in SOCK
    assert found in "\n".join(said(SOCK.replace(right, wrong, 1), SIZES, "round"))


def test_stitches_move_on_to_the_needle_before() -> None:
    work = (
        "CO 24 sts. Arrange sts over 2 needles: 10 sts on needle 1, 14 sts on needle 2.\nJoin to work in the round.\n"
        "Next rnd: K10, k first 3 sts from N2 onto N1, k to end.\n13 sts on N1, 11 sts on N2.\nBind off."
    )
    assert said(work, form="round") == []
    assert said(work.replace("k first 3", "k first 2"), form="round") == [
        "stated-part-off: 13, 11 sts are told on the needles, there are 12, 12"
    ]
    assert (
        "the row is not at the beginning of needle 2"
        in said(work.replace("K10, k first", "K9, k first"), form="round")[0]
    )


def test_a_thumb_is_knitted_round_its_opening() -> None:
    work = (
        "CO 48 sts. Join to work in the round.\nNext rnd: K2, knit the next 8 sts with scrap yarn, slip these 8 sts back to the LH "
        "needle, knit them again with A, knit to end of rnd.\nBind off.\nRemove scrap yarn and place the 8 sts below and 8 sts "
        "above the opening on larger needles. Join A. Knit across 8 sts, pick up and knit 1 st in gap, knit across 8 sts, pick up "
        "and knit 1 st in gap. Pm and join to work in the rnd—18 sts.\nBind off."
    )
    assert said(work, form="round") == []
    assert (
        "18 sts are printed, 19 are on"
        in said(work.replace("1 st in gap, knit", "2 sts in gap, knit"), form="round")[0]
    )
    assert said(work.replace("Knit across 8", "Knit across 9"), form="round") != []


def test_a_square_is_picked_up_and_cast_on_round_its_corner() -> None:
    work = (
        "CO 9 sts.\nRow 1 (WS): Knit.\nBind off.\nWith RS facing, pick up and knit 4 sts along edge, then turn and cast on 5 sts "
        "using the cable method. [9 sts]\nRow 1 (WS): Knit.\nBind off."
    )
    assert said(work) == []
    assert (
        said(work.replace("cast on 5", "cast on 6"))[0] == "stated-total-off: 9 sts are printed, 10 are on the needle"
    )
