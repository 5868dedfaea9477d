# ruff: noqa: E501 - lines of patterns are quoted whole
""" "Slip next st onto a safety pin": one stitch, in a V neck and in a steek."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.knitting.plans import knitted, plan_of

from castoff.knitting.knit import knit

SIZES = ("S", "M")


@pytest.mark.parametrize(
    "words",
    ["slip next st onto a safety pin", "place next stitch on a safety pin", "put the centre st on to a safety pin",
     "leave next st on a holder", "slip next 1 st onto a safety pin"],
)  # fmt: skip
def test_one_stitch_waits(words: str) -> None:
    work = f"CO 60 (64) sts. Place marker and join to work in the round.\nNext rnd: K20, {words}, cast on 7 sts, k to end. 66 (70) sts."
    found = knit(plan_of(f"{work}\nNext rnd: Knit. 66 (70) sts.\nBO all sts.", SIZES, "round"))
    assert [each.rule.name for each in found.findings] == ["stitches-still-held"]
    assert [[group.stitches for group in size.held] for size in found.value.sizes] == [[1], [1]]


def test_the_stitches_that_are_left_wait_all() -> None:
    found = knit(plan_of("CO 60 (64) sts.\nNext row: K20, place rem sts on a holder. 20 sts.\nBO all sts.", SIZES))
    assert [[group.stitches for group in size.held] for size in found.value.sizes] == [[40], [44]]


def test_a_wrong_total_behind_it_is_found() -> None:
    work = "CO 60 sts. Place marker and join to work in the round.\nNext rnd: K20, slip next st onto a safety pin, k to end. {} sts."
    found = [knit(plan_of(work.format(number), form="round")).findings for number in (58, 59, 60)]
    assert [[each.rule.name for each in each_ if each.rule.name == "stated-total-off"] for each_ in found] == [
        ["stated-total-off"], [], ["stated-total-off"],
    ]  # fmt: skip


def test_the_alternative_of_a_length_takes_nothing_away() -> None:
    plain = "CO 60 sts. Place marker and join to work in the round.\nKnit until piece measures 30 cm from cast-on edge{}.\nBO all sts."
    rows = {
        words: knitted(plain.format(words), form="round").sizes[0].pieces["Piece"].rows
        for words in ("", ", or until 5 cm short of desired length", " or 5 cm less than desired length",
                      " (or 2 in less than your desired length)", ", or desired length")
    }  # fmt: skip
    assert set(rows.values()) == {84}


def test_the_length_of_the_foot_tells_how_long_less_than_it_is() -> None:
    work = "CO 60 sts. Place marker and join to work in the round.\nKnit until {} measures {} cm less than {}.\nBO all sts."
    for what, less, than, rows in (("sock", 5, "total foot length", 56), ("foot", 6, "the desired length", 53)):
        plan = plan_of(work.format(what, less, than), form="round")
        told = knit(replace(plan, foot_mm=(Fraction(250),)))
        assert not told.findings
        assert told.value.sizes[0].pieces["Piece"].rows == rows
        (untold,) = knit(plan).findings
        assert untold.rule.name == "end-never-comes"
        assert "foot_length" in (untold.hint or "")
    longer = plan_of(work.format("foot", 26, "foot length"), form="round")
    assert [each.rule.name for each in knit(replace(longer, foot_mm=(Fraction(250),))).findings] == [
        "length-already-passed"
    ]


def test_a_length_that_nobody_tells_is_refused() -> None:
    found = knit(plan_of("CO 60 sts.\nWork in St st until piece measures 5 cm less than desired length.\nBO all sts."))
    assert [each.rule.name for each in found.findings] == ["end-never-comes"]
