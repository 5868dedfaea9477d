# ruff: noqa: E501 - lines stand as they do in print
"""Gloves and mittens: thumbs slipped onto yarn, fingers taken from both ends of those that wait, tips grafted to themselves."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

GLOVE = """CO 44 (48) sts. Join to work in the round.
Next round: K21 (23), place marker, M1, K2, M1, place marker, K to end. 46 (50) sts.
Knit 2 rounds.
Next round: K to marker, slip marker, M1, K to next marker, M1, slip marker, K to end. 48 (52) sts.
Cont in this way, inc 2 sts as before on every foll 3rd round until there are 56 (62) sts.
Knit 2 rounds.
Next round: K21 (23), slip next 14 (16) sts onto a length of yarn and leave for thumb, turn, cast on 2 sts, turn, K to end. 44 (48) sts.
Cont in st st until work measures 4 (4.5) cm from cast-on sts at thumb.
Next round: K7 (8), slip next 30 (32) sts onto a length of yarn, cast on 2 sts, K last 7 (8) sts. 16 (18) sts.
K in rounds until finger measures 5 cm.
Break yarn, run end through rem sts and fasten off.
Slip first 6 (6) and last 6 (7) sts from length of yarn onto needles. Join yarn, K first 6 (6) sts, cast on 2 sts, K last 6 (7) sts, pick up and K2 sts from base of first finger. 16 (17) sts.
K in rounds until finger measures 5 cm.
Break yarn, run end through rem sts and fasten off.
Slip rem 18 (19) sts onto needles. Join yarn, K to end, pick up and K2 sts from base of finger. 20 (21) sts.
K in rounds until finger measures 5 cm.
Break yarn, run end through rem sts and fasten off.
Slip the 14 (16) thumb sts onto needles. Join yarn, K to end, pick up and K2 sts from base of hand. 16 (18) sts.
K in rounds until thumb measures 5 cm.
Break yarn, run end through rem sts and fasten off."""


def test_a_glove_of_an_old_leaflet_comes_out() -> None:
    assert said(GLOVE, ("S", "M"), "round") == []
    records = knitted(GLOVE, ("S", "M"), "round").sizes[1].pieces["Piece"].records
    assert all(record.form == "round" for record in records)
    assert [record.before for record in records if record.label == "this row"] == [13, 19, 16]


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ("until there are 56", "until there are 57", "57 sts never come up"),
        ("inc 2 sts as", "inc 4 sts as", "4 sts are told; each shaping row gives 2 sts"),
        ("slip next 14", "slip next 13", "stated-total-off: 45 sts are on the needle; 44 are printed"),
        (
            "leave for thumb, turn, cast on 2",
            "leave for thumb, turn, cast on 3",
            "45 (49) sts are on the needle; 44 (48) are printed",
        ),
        ("first 6 (6) and", "first 5 (6) and", "k6 + k6 = 12; 11 sts are on the needle"),
        ("last 6 (7) sts from", "last 6 (8) sts from", "k6 + k7 = 13; 14 sts are on the needle, 1 left unworked"),
        ("K first 6", "K first 7", "k7 + k6 = 13; 12 sts are on the needle"),
        ("K last 6", "K last 5", "stitches-left-over: this row"),
        ("Slip rem 18", "Slip rem 17", "17 held sts are taken back, 18 are held"),
        ("the 14 (16) thumb", "the 13 (16) thumb", "13 held sts are taken back, 14 are held"),
        ("pick up and K2 sts from base of hand", "pick up and K3 sts from base of hand", "are printed, 17 (19) are on"),
    ],
)
def test_a_number_of_a_glove_off_by_one_is_found(right: str, wrong: str, found: str) -> None:
    assert right in GLOVE
    assert found in "\n".join(said(GLOVE.replace(right, wrong, 1), ("S", "M"), "round"))


def test_a_mitten_grafted_to_itself_leaves_its_thumb_waiting() -> None:
    work = (
        "CO 40 sts. Join to work in the round.\nNext rnd: K10, place next 8 sts on waste yarn, cast on 8 sts, k to end.\n"
        "Arrange sts with 20 on each of 2 needles and graft tog with Kitchener st.\n"
        "Place 8 held thumb sts on larger needles.\nPick up and knit 8 sts, k8. 16 sts.\nBind off."
    )
    assert said(work, form="round") == []
    assert said(work.replace("with 20 on", "with 19 on"), form="round") != []
