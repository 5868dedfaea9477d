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
