"""Buttonholes, pockets and divided necks: what is on the right needle behind a bind-off, gaps, linings."""

from __future__ import annotations

import pytest
from tests.knitting.plans import TRADE, counts, said

from castoff.diagnostic import Diagnostic
from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection
from castoff.notation.lines import parse_work
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Text

BAND = (
    "CO 62 sts.\nKnit 2 rows.\n"
    "Buttonhole row (RS): K3, [bind off 2 sts, k until there are 12 sts on right needle after bind-off] 4 times, k3. "
    "54 sts.\n"
    "Next row: Knit, casting on 2 sts over each bound-off section. 62 sts.\nBind off all sts."
)


def test_buttonholes_are_counted_from_the_bind_off() -> None:
    assert said(BAND) == []
    assert said(BAND.replace("are 12 sts", "are 13 sts"))
    assert said(BAND.replace("are 12 sts", "are 11 sts"))
    assert said(BAND.replace("4 times", "3 times"))
    assert said(BAND.replace("on 2 sts over", "on 3 sts over"))
    no_bind = "CO 20 sts.\nRow 1: K until there are 12 sts on right needle after bind-off, k8.\nBind off 20 sts."
    assert said(no_bind) == ["marker-not-there: row 1: no sts have been bound off in this row"]


NECK = (
    "CO 40 sts.\nWork 2 rows in St st.\nNext row (RS): Cast off 5 sts, {}, turn and leave rem 20 sts on a holder. 15 sts.\n"
    "Next row: P15.\nCast off 15 sts.\nWith RS facing, rejoin yarn to 20 held sts.\nCast off 20 sts."
)


@pytest.mark.parametrize(
    "words",
    [
        "k until there are 15 sts on right needle after cast-off",
        "k until there are 15 sts on right needle",
        "k15 (including st used in casting off)",
        "k14",
    ],
)
def test_the_loop_of_the_cast_off_is_one_of_those_on_the_right_needle(words: str) -> None:
    assert said(NECK.format(words)) == []
    number = "14" if words == "k14" else "15"
    assert said(NECK.format(words.replace(number, str(int(number) + 1))))
    assert said(NECK.format(words.replace(number, str(int(number) - 1))))


def test_a_gap_is_a_place() -> None:
    work = (
        "CO 20 sts.\nKnit 2 rows.\nRow 1 (RS): K9, bind off 2 sts, k to end. 18 sts.\n"
        "Row 2: K to bound-off sts, cast on 2 sts over bound-off sts, k to end. 20 sts.\nBind off 20 sts."
    )
    assert counts(work)[-1] == 20
    assert said(work.replace("K to bound-off sts", "K to 1 st before bound-off sts"))


HELD = (
    "CO 40 sts.\nKnit 2 rows.\nPlace these 40 sts on a holder.\nReturn first 10 held sts to needle. 10 sts.\nKnit 2 rows.\n"
    "Bind off 10 sts.\nReturn rem 30 held sts to needle.\nBind off 30 sts."
)


def test_some_of_the_held_stitches_come_back() -> None:
    assert said(HELD) == []
    assert said(HELD.replace("first 10", "first 11"))
    assert said(HELD.replace("first 10", "10"))[0].startswith(
        "stitches-not-held: 10 held sts are taken back, 40 are held"
    )
    assert said(HELD.replace("first 10", "first 40"))[0].startswith(
        "stitches-not-held: the first 40 held sts are all that wait"
    )
    assert (
        said(
            HELD.replace("Return first 10 held", "Return held 40")
            .split("\nKnit 2 rows.\nBind off 10")[0]
            .replace("10 sts.", "40 sts.")
            + "\nBind off 40 sts."
        )
        == []
    )


def pocketed(lining: str, front: str, make: int = 1) -> list[Diagnostic]:
    words = Vocabulary(("One size",), TRADE.stitches, yarns=("A",), pieces=("Pocket lining", "Front"))
    pieces = (("Pocket lining", lining, make), ("Front", front, 1))
    sections = []
    for piece, text, number in pieces:
        read = parse_work(Text.plain(text), words)
        assert not read.findings, [finding.message for finding in read.findings]
        sections.append(PlanSection(piece, piece, read.value, "flat", make=number))
    return list(knit(Plan(("One size",), tuple(sections), TRADE.stitches)).findings)


LINING = "CO 20 sts.\nKnit 10 rows.\nLeave these 20 sts on a holder."
FRONT = (
    "CO 40 sts.\nKnit 10 rows.\nNext row (RS): K10, sl next 20 sts onto a second holder, k across 20 sts of pocket lining "
    "in place of these sts, k10. 40 sts.\nKnit 3 rows.\nBind off 40 sts.\n"
    "Return 20 held sts from second holder to needle.\nBind off 20 sts."
)


def test_a_pocket_lining_is_worked_in_place_of_held_stitches() -> None:
    assert pocketed(LINING, FRONT) == []
    for right, wrong in (("across 20 sts", "across 19 sts"), ("sl next 20", "sl next 19"), ("K10, sl", "K11, sl")):
        assert pocketed(LINING, FRONT.replace(right, wrong))
    assert pocketed(LINING.replace("20", "22"), FRONT)


TWO = (
    "CO 60 sts.\nKnit 10 rows.\nNext row (RS): K5, sl next 20 sts onto a holder for left pocket, k across 20 sts of first "
    "pocket lining, k10, sl next 20 sts onto a holder for right pocket, k across 20 sts of second pocket lining, "
    "k5. 60 sts.\nKnit 3 rows.\nBind off 60 sts.\nReturn 20 left pocket sts to needle.\nBind off 20 sts.\n"
    "Return 20 right pocket sts to needle.\nBind off 20 sts."
)


def test_a_lining_that_is_made_twice_serves_two_pockets() -> None:
    assert pocketed(LINING, TWO, make=2) == []
    assert [each.rule.name for each in pocketed(LINING, TWO, make=1)]
    assert [each.rule.name for each in pocketed(LINING, FRONT, make=2)] == ["stitches-still-held"]
