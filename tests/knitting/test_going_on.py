"""Shaping that goes on in the way of the rows before: crowns, mitres, yokes, raglans."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, knitted, said

CROWN = (
    "CO 112 (120, 128) sts. Join to work in the round.\n"
    "Round 1: *K12 (13, 14), k2tog; rep from * to end. 104 (112, 120) sts.\n"
    "Round 2 and every alternate round: Knit.\n"
    "Round 3: *K11 (12, 13), k2tog; rep from * to end. 96 (104, 112) sts.\n"
    "{}\nDraw yarn through rem 8 sts."
)
SIZES = ("S", "M", "L")
ON = (
    "Continue to decrease 8 sts in this way on every alternate round until 48 sts remain, "
    "then on every round until 8 sts remain."
)


def crown(words: str, wrong: bool = False) -> list[str]:
    return said(CROWN.format(words), SIZES, "round")


def test_a_crown_is_decreased_on_every_other_round_and_then_on_every_round() -> None:
    fabric = knitted(CROWN.format(ON), SIZES, "round")
    for size, rounds in zip(fabric.sizes, (3 + 12 + 5, 3 + 14 + 5, 3 + 16 + 5), strict=True):
        piece = size.pieces["Piece"]
        assert piece.rows == rounds
        after = [record.after for record in piece.records]
        assert after[-6:] == [48, 40, 32, 24, 16, 8]


@pytest.mark.parametrize(
    "words",
    [
        "Continue in this way until 8 sts rem.",
        "Continue in this way, working 1 st fewer between decs each time, until 8 sts rem.",
        "Cont in this manner, working 1 st less between decreases, until 8 sts rem.",
        "Rep rnds 2 and 3, working 1 st fewer before each dec, until 8 sts rem.",
        "Rep last 2 rnds, working one less stitch between decreases each time, until 8 sts rem.",
        "Cont to dec 8 sts every other rnd until 8 sts rem.",
        "Continue decreasing as set until 8 sts rem.",
        "Continue decreasing as established on every rnd until 8 sts rem.",
        "Cont dec in this way on every 2nd rnd until 40 sts rem, then every rnd 4 times.",
        "Continue in this way until 8 sts rem, working 1 st fewer between decs each time.",
    ],
)
def test_every_wording_comes_to_the_same_stitches(words: str) -> None:
    assert crown(words) == []


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ("decrease 8 sts", "decrease 7 sts", "stated-total-off: 7 sts are told; each shaping row takes 8 sts"),
        ("decrease 8", "increase 8", "stated-total-off: 8 sts are told; each shaping row takes 8 sts"),
        ("until 48", "until 47", "end-never-comes: 47 sts never come up: the count goes 56, 48, 40"),
        ("until 8 sts", "until 9 sts", "end-never-comes: 9 sts never come up: the count goes 24, 16, 8"),
        ("Round 3: *K11 (12, 13)", "Round 3: *K10 (12, 13)", "sts do not divide by 12"),
    ],
)
def test_a_wrong_number_in_a_crown_is_found(right: str, wrong: str, found: str) -> None:
    work = CROWN.format(ON)
    assert right in work
    assert found in "\n".join(said(work.replace(right, wrong), SIZES, "round"))


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (
            "Cont in this way, working 2 sts fewer between decs, until 8 sts rem.",
            "stated-total-off: 2 fewer between decs are told; the rows before go on with 1 fewer",
        ),
        (
            "Cont in this way, working 1 st more between decs, until 8 sts rem.",
            "stated-total-off: 1 more between decs are told; the rows before go on with 1 fewer",
        ),
        (
            "Rep rnds 2 and 3, working 1 st fewer between decs, 13 more times.",
            "end-never-comes: 13 times are told; after 11 (12) the sets have no stitches left",
        ),
    ],
)
def test_what_is_said_of_the_sets_is_held_against_them(words: str, found: str) -> None:
    assert crown(words)[0].startswith(found[:60])


def test_one_shaping_row_tells_its_set() -> None:
    work = "CO 90 sts. Join to work in the round.\nRnd 1: *K7, k2tog; rep from * to end. 80 sts.\n"
    work += "Rnd 2: Knit.\n{}\nDraw yarn through rem 10 sts."
    assert said(work.format("Cont to dec in this way until 10 sts rem."), form="round") == []
    k6 = "Rep rnds 1 and 2, working k6 instead of k7, i.e. 1 st less between decs each time, until 10 sts rem."
    assert said(work.format(k6), form="round") == []
    assert "6 instead of 8 plain sts are told; the last shaping row has 7, the next one 6" in "\n".join(
        said(work.format(k6.replace("of k7", "of k8")), form="round")
    )
    assert said(work.format(k6.replace("working k6", "working k5")), form="round")
    assert (
        said(
            work.format(
                "Next rnd: Knit.\nCont to dec on every rnd until 10 sts rem.".replace("dec on", "dec 10 sts on")
            ),
            form="round",
        )
        == []
    )


def test_a_mitre_is_worked_on_from_two_rows() -> None:
    work = (
        "CO 61 sts.\nRow 1 (WS) and all odd-numbered rows: Knit.\nRow 2 (RS): K29, s2kp, k29. 59 sts.\n"
        "Row 4: K28, s2kp, k28. 57 sts.\n"
        "Continue in this way, working 1 st fewer on each side of the centred double decrease on every RS row, "
        "until 3 sts remain.\n"
        "Next row (WS): Knit.\nNext row: S2kp. Fasten off."
    )
    assert counts(work)[-3:] == [3, 3, 1]
    assert said(work.replace("working 1 st fewer", "working 2 sts fewer"))
    assert said(work.replace("until 3 sts", "until 4 sts"))
    one = work.replace("Row 4: K28, s2kp, k28. 57 sts.\n", "")
    assert counts(one)[-3:] == [3, 3, 1]
    assert (
        "which of its plain stitches"
        in said(one.replace(", working 1 st fewer on each side of the centred double decrease", ""))[0]
    )


def test_shaping_that_goes_to_places_is_repeated_as_it_is() -> None:
    work = (
        "CO 40 sts.\nRow 1 (RS): K1, ssk, k to last 3 sts, k2tog, k1. 38 sts.\nRow 2: Purl.\n"
        "Cont to dec 2 sts in this way on every RS row until 20 sts rem, then on every row until 12 sts rem.\n"
        "Bind off 12 sts."
    )
    assert counts(work)[-1] == 12
    assert said(work.replace("to dec 2 sts", "to dec 1 st"))
    assert said(work.replace("until 20", "until 21"))
    assert said(work.replace("Cont to dec 2 sts in this way", "Cont decreasing as set")) == []


def test_a_yoke_grows() -> None:
    work = (
        "CO 80 sts. Join to work in the round.\nRnd 1: *K10, m1; rep from * to end. 88 sts.\nRnd 2: Knit.\n"
        "Rnd 3: *K11, m1; rep from * to end. 96 sts.\nCont to inc 8 sts every other rnd as set until there are 160 sts.\n"
        "Bind off 160 sts."
    )
    assert counts(work, form="round")[-1] == 160
    assert said(work.replace("until there are 160", "until there are 161"), form="round")
    assert said(work.replace("to inc 8", "to inc 9"), form="round")


def test_without_a_shaping_row_nothing_goes_on() -> None:
    work = "CO 40 sts.\nKnit 4 rows.\nCont to dec 4 sts in this way every other row until 8 sts rem.\nBind off 8 sts."
    assert said(work) == ["row-not-there: no row before this line changes the number of stitches"]
    work = "CO 40 sts.\nRow 1 (RS): *K3, k2tog; rep from * to end. 32 sts.\n"
    work += "Cont dec as set until 8 sts rem.\nBind off 8 sts."
    assert said(work) == ["row-not-there: how often is not told"]
