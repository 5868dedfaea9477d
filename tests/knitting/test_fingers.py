"""Fingers and thumbs are measured from where their own stitches were taken up, and not from the cuff of the glove."""

from __future__ import annotations

import pytest
from tests.knitting.plans import GAUGES, NEEDLES, TRADE, lines

from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection

SIZES = ("S", "M", "L")
HAND = "CO 44 (48, 52) sts. Join to work in the round.\nKnit {} rnds."
LITTLE = "Next rnd: K5 (6, 7), place next 34 (36, 38) sts on waste yarn, CO 2 sts, k5 (6, 7). 12 (14, 16) sts."
RING = "Return 34 (36, 38) held sts to larger needles. Join to work in the round."
END = "Next rnd: (K2tog) to end.\nBreak yarn, draw through rem sts and fasten off."


def rounds(*told: tuple[str, str]) -> tuple[list[list[int]], list[str]]:
    """Rounds worked in every section, size by size, and what is found."""
    sections = tuple(PlanSection(title, "Glove", lines(work, SIZES), "round", "stockinette") for title, work in told)
    checked = knit(Plan(SIZES, sections, TRADE.stitches, GAUGES, ("A",), NEEDLES))
    made = [[sum(each.rows for each in section.records) for section in size.sections] for size in checked.value.sizes]
    return made, [each.message for each in checked.findings]


@pytest.mark.parametrize("hand", [10, 40])
@pytest.mark.parametrize(
    "until",
    [
        "Knit until little finger measures 5 (5.5, 6) cm.",
        "Knit every round until finger measures 5 (5.5, 6) cm.",
        "Work in rnds of st st until finger measures 5 (5.5, 6) cm.",
        "Knit in rounds until the finger measures 5 (5.5, 6) cm.",
    ],
)
def test_a_finger_begins_where_the_others_are_put_aside(hand: int, until: str) -> None:
    work = f"{LITTLE}\n{until}\n{END}\n"
    made, found = rounds(("Hand", HAND.format(hand)), ("Little finger", work), ("Rest", f"{RING}\nBO all sts."))
    assert found == []
    # 14, 15.4 and 16.8 rounds of 28 to 10 cm, the one that puts aside and the one that decreases
    assert [each[1] for each in made] == [2 + 14, 2 + 15, 2 + 17]
    split, found = rounds(
        ("Hand", f"{HAND.format(hand)}\n{LITTLE}"),
        ("Little finger", f"{until}\n{END}"),
        ("Rest", f"{RING}\nBO all sts."),
    )
    assert found == []
    assert [each[1] for each in split] == [1 + 14, 1 + 15, 1 + 17]


@pytest.mark.parametrize("word", ["finger", "ring finger", "thumb", "the thumb"])
def test_stitches_taken_back_begin_anew(word: str) -> None:
    first = f"{LITTLE}\nKnit 30 rnds.\n{END}"
    ring = f"{RING}\nKnit until {word} measures 6.5 (7, 7.5) cm.\n{END}"
    made, found = rounds(("Hand", HAND.format(36)), ("Little finger", first), ("Ring finger", ring))
    assert found == []
    assert [each[2] for each in made] == [1 + 18, 1 + 20, 1 + 21]
    one, found = rounds(("Glove", f"{HAND.format(36)}\n{first}\n{ring}"))
    assert found == []
    assert [each[0] for each in one] == [36 + 32 + each for each in (19, 21, 22)]


def test_stitches_put_aside_from_a_finger_in_work_do_not_begin_it_anew() -> None:
    first = f"{LITTLE}\nKnit 30 rnds.\n{END}"
    ring = (
        f"{RING}\nKnit 4 rnds.\nNext rnd: K10, place next 14 (16, 18) sts on a holder, CO 2 sts, k10.\n"
        "Knit until ring finger measures 6.5 (7, 7.5) cm.\nBO all sts.\n"
        "Return 14 (16, 18) held sts to larger needles.\nBO all sts."
    )
    made, found = rounds(("Hand", HAND.format(36)), ("Little finger", first), ("Ring finger", ring))
    assert found == []
    assert [each[2] for each in made] == [18, 20, 21]


def test_a_thumb_of_its_own_section_is_measured_from_there() -> None:
    made, found = rounds(("Hand", HAND.format(30)), ("Thumb", "Knit until thumb measures 6 cm.\nBO all sts."))
    assert found == []
    assert [each[1] for each in made] == [17, 17, 17]


def test_what_is_measured_from_the_cast_on_says_so() -> None:
    made, found = rounds(
        ("Hand", HAND.format(10)), ("Thumb", "Knit until thumb measures 6 cm from cast-on edge.\nBO all sts.")
    )
    assert found == []
    assert [each[1] for each in made] == [7, 7, 7]
