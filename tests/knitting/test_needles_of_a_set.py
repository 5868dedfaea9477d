"""Needles of a set as places: toes from the tip, insteps and heels on needles of their own, stitches moved between them."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said

SIZES = ("S", "M", "L")
SOCK = """CO 24 (28, 32) sts: 12 (14, 16) sts each on N1 and N2.
Join to work in the round.
Rnd 1: Knit.
Rnd 2: *K1, m1r, k to last st on needle, m1l, k1; rep from * on N2. 4 sts inc'd.
Rep rnds 1-2 7 (8, 9) times more. 56 (64, 72) sts; 28 (32, 36) sts on each needle.
Knit 10 rnds.
K28 (32, 36) instep sts. Heel is worked back and forth over the 28 (32, 36) sts on N2 only.
Row 1 (RS): K27 (31, 35), turn.
Row 2 (WS): Sl 1, p25 (29, 33), turn.
Row 3: K to gap, k1, turn.
Row 4: P to end.
Resume working in the rnd.
Rnd 1: N1: Knit; N2: K1, ssk, k to last 3 sts, k2tog, k1. 54 (62, 70) sts. 28 (32, 36) sts on N1, 26 (30, 34) sts on N2.
Slip 1 st from N1 to N2. 27 (31, 35) sts on each needle.
Bind off."""


def test_a_sock_on_two_needles_comes_out() -> None:
    assert said(SOCK, SIZES, "round") == []


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ("12 (14, 16) sts each", "11 (14, 16) sts each", "stated-part-off: 11 + 11 = 22 sts are laid out, 24 are on"),
        ("CO 24", "CO 26", "stated-part-off: 12 + 12 = 24 sts are laid out, 26 are on the needle"),
        (
            "28 (32, 36) sts on each",
            "27 (32, 36) sts on each",
            "27 sts on each needle are printed; on the needles are 28",
        ),
        ("over the 28 (", "over the 27 (", "stated-part-off: 27 sts are to be worked over, 28 are on needle 2"),
        ("K28", "K27", "stated-part-off: the yarn is 27 sts into the round; needle 2 begins after 28"),
        ("28 (32, 36) sts on N1", "27 (32, 36) sts on N1", "27 + 26 = 53 sts are laid out, 54 are on the needle"),
        ("26 (30, 34) sts on N2", "27 (30, 34) sts on N2", "28 + 27 = 55 sts are laid out, 54 are on the needle"),
        ("Slip 1 st", "Slip 2 sts", "27 (31, 35) sts on each needle are printed; on the needles are 26, 28"),
        ("from N1 to N2", "from N2 to N1", "27 (31, 35) sts on each needle are printed; on the needles are 29, 25"),
        ("to last st on needle", "to last 2 sts on needle", "stitches-left-over: rnd 2 uses 23 (27, 31) sts"),
        ("4 sts inc'd", "3 sts inc'd", "stated-total-off: a change of +3 sts is printed, it is +4"),
        ("N2: K1, ssk", "N3: K1, ssk", "needle 3 is spoken of; the stitches lie on 2 needles"),
        ("sts on N2 only", "sts on N3 only", "needle 3 is spoken of; the stitches lie on 2 needles"),
        (": 12 (14, 16) sts each on N1 and N2", "", "too-few-stitches: rnd 2: 0 sts are left for k"),
    ],
)
def test_a_slip_among_the_needles_is_found(right: str, wrong: str, found: str) -> None:
    assert right in SOCK
    assert found in "\n".join(said(SOCK.replace(right, wrong), SIZES, "round"))


@pytest.mark.parametrize(
    "lying",
    [
        "CO 24 sts. 12 sts on each needle.",
        "CO 24 sts; 12 sts on each needle.",
        "CO 24 sts (12 sts on needle 1, 12 sts on needle 2).",
        "CO 24 sts. Arrange sts as follows: N1: 12 sts, N2: 12 sts.",
        "CO 24 sts. Divide sts evenly over 2 needles.",
    ],
)
def test_stitches_are_laid_on_needles_in_many_words(lying: str) -> None:
    work = f"{lying}\nJoin to work in the round.\n" + (
        "Rnd 1: Needle 1: K1, m1r, k to last st, m1l, k1. Needle 2: K1, m1r, k to last st, m1l, k1. 28 sts.\n"
        "Rnd 2: K to last 3 sts of N1, k2tog, k1, knit across N2. 13 sts on N1, 14 sts on N2.\nBind off 27 sts."
    )
    assert said(work, form="round") == []
    assert said(work.replace("13 sts on N1, 14", "14 sts on N1, 13"), form="round") == [
        "stated-part-off: 14, 13 sts are told on the needles, there are 13, 14"
    ]


def test_the_next_stitches_of_a_round_are_those_behind_the_yarn() -> None:
    work = (
        "CO 56 sts. Join to work in the round.\nRnd 1: K28, p28.\nK28. Work heel back and forth over next 28 sts only.\n"
        "Row 1 (RS): *P2, k2; rep from * to end.\nRow 2: *P2, k2; rep from * to end.\nResume working in the rnd.\n"
        "Next rnd: K28, *p2, k2; rep from * to end.\nBind off 56 sts."
    )
    assert said(work, form="round") == []
