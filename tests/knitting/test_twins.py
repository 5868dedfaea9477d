"""Pieces made several times from stitches that wait: each takes a lot of its own."""

from __future__ import annotations

import pytest
from tests.knitting.plans import GAUGES, NEEDLES, TRADE, findings, lines

from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection

BODY = (
    "Cast on 166 sts.\nNext row (RS): K24, place next 34 sts on waste yarn{left}, k50, place next {other} sts on waste yarn"
    "{right}, k to end.\nBind off all sts."
)


def said(sleeve: str, left: str = "", right: str = "", other: int = 34, make: int = 2) -> list[str]:
    body = lines(BODY.format(left=left, right=right, other=other))
    sleeves = lines(f"{sleeve}\nKnit 20 rnds.\nBind off all sts.")
    sections = (
        PlanSection("Yoke", "Cardigan", body, "flat", "stockinette"),
        PlanSection("Sleeve", "Sleeve", sleeves, "round", "stockinette", make=make),
    )
    plan = Plan(("One size",), sections, TRADE.stitches, GAUGES, ("A", "B"), NEEDLES, {}, {})
    return [finding.message for finding in knit(plan).findings]


@pytest.mark.parametrize("names", [("", ""), (" for left sleeve", " for right sleeve"), (" for sleeve", " for sleeve")])
@pytest.mark.parametrize(
    "sleeve",
    [
        "Place the 34 sleeve sts from waste yarn on needle.",
        "Slip the 34 held sts onto needle.",
        "Pick up and knit 4 sts at underarm, k34 sleeve sts from waste yarn. 38 sts.",
    ],
)
def test_two_sleeves_take_both_lots(sleeve: str, names: tuple[str, str]) -> None:
    assert said(sleeve, *names) == []
    assert said(sleeve, *names, make=1) == ["34 sts were put on hold and nobody takes them back"]


def test_a_lot_of_another_number_still_waits() -> None:
    assert said("Slip the 34 held sts onto needle.", other=33) == ["33 sts were put on hold and nobody takes them back"]


def test_the_body_is_all_that_is_left_on_the_needle() -> None:
    yoke = (
        "Cast on 166 sts.\nNext row (RS): K24, place next 34 sts on waste yarn, cast on 10 sts, k50, place next 34 sts on "
        "waste yarn, cast on 10 sts, k24. {body} body sts.\nBind off all sts."
    )
    off = [each for each in findings(yoke.format(body=106)) if each.rule.name != "stitches-still-held"]
    assert [each.message for each in off] == ["106 body sts are printed, 118 are on the needle"]
    assert [each for each in findings(yoke.format(body=118)) if each.rule.name != "stitches-still-held"] == []


def test_the_tip_is_grafted_without_the_thumb_that_waits() -> None:
    hand = "Cast on 32 sts.\nNext row (RS): Place next 8 sts on waste yarn for thumb, k24.\nPurl 1 row.\n"
    assert [each.message for each in findings(f"{hand}Graft rem sts.")] == [
        "8 sts were put on hold and nobody takes them back"
    ]
    assert findings(f"{hand}Graft rem sts.\nPlace the 8 thumb sts from waste yarn on needle.\nBind off all sts.") == []
    instep = hand.replace("8 sts on waste yarn for thumb, k24", "16 sts on holder for instep, k16")
    assert findings(f"{instep}Graft sole sts to instep sts.") == []
