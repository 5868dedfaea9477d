"""Cast-ons that are undone, garter tabs, cords, and edges knitted on: their counts, and what is wrong with them."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment
from tests.knitting.plans import said

from castoff.pipeline import prove_text

TAB = (
    "CO 3 sts. Knit 6 rows. Do not turn; rotate 90°, pick up and knit 3 sts along the side (one in each garter ridge), "
    "then 3 sts from cast-on edge. 9 sts.\nNext row (WS): K3, p3, k3."
)
PROVISIONAL = "Using a provisional cast-on, CO 20 sts.\nKnit 10 rows.\n"
EDGING = (
    "CO 20 sts.\nKnit 4 rows. 20 sts.\nUsing the knitted cast-on, CO 5 sts onto left needle. 25 sts.\n"
    "Edging row 1 (RS): K4, ssk, turn. 24 sts.\nEdging row 2: Sl 1, k4. 24 sts.\nRep last 2 rows 19 more times. 5 sts."
)
END = "\nBO all sts."

GOOD = {
    "garter tab": TAB,
    "garter tab, in sentences": "CO 3 sts.\nKnit 6 rows, do not turn after last row.\n"
    "Rotate work 90 degrees and pick up and knit 3 sts along left edge, then 3 sts from cast-on edge. 9 sts.\n"
    "Next row (WS): K3, p3, k3.",
    "both ends grafted": PROVISIONAL
    + "Unzip provisional cast-on and place 20 sts on spare needle.\nGraft live sts to provisional cast-on sts.\nCO 2 sts.",
    "worked on from the cast-on": PROVISIONAL
    + "BO all sts.\nUndo the provisional cast-on and place the resulting 20 sts on smaller needles. 20 sts.\nKnit 10 rows.",
    "one fewer, where it is said": PROVISIONAL
    + "BO all sts.\nCarefully remove waste yarn from provisional cast-on and place 19 live sts on needle. 19 sts.",
    "edging": EDGING,
    "cord": "CO 4 sts.\nWork i-cord for 10 cm.\nRow 1 (RS): K1, m1, k2, m1, k1. 6 sts.\nRow 2 (WS): Purl.",
    "cord, step by step": "CO 4 sts.\n"
    "*K4, do not turn, slide sts to other end of needle; rep from * until cord measures 10 cm.",
    "cast on at the beginning of a row": "CO 20 sts.\nKnit 4 rows.\n"
    "Cast on 6 sts using the knitted cast-on at beg of next row. 26 sts.",
}


@pytest.mark.parametrize("work", GOOD.values(), ids=GOOD)
def test_it_comes_out(work: str) -> None:
    assert said(work + END) == []


WRONG = {
    "more than the ridges": (
        TAB.replace("knit 3 sts along", "knit 4 sts along"),
        "edge-too-short: 4 sts are picked up along the side, one in each ridge; 6 rows make 3 ridges",
    ),
    "fewer than the ridges": (
        TAB.replace("knit 3 sts along", "knit 2 sts along"),
        "edge-too-short: 2 sts are picked up along the side, one in each ridge; 6 rows make 3 ridges",
    ),
    "too few rows": (
        TAB.replace("Knit 6", "Knit 4"),
        "edge-too-short: 3 sts are picked up along the side, one in each ridge; 4 rows make 2 ridges",
    ),
    "more than were cast on": (
        TAB.replace("then 3 sts", "then 4 sts"),
        "edge-too-short: 4 sts are picked up from cast-on edge; 3 sts were cast on",
    ),
    "a tab's total": (TAB.replace("9 sts", "8 sts"), "stated-total-off: 8 sts are printed, 9 are on the needle"),
    "other stitches of the cast-on": (
        PROVISIONAL + "BO all sts.\nUndo provisional cast-on and place 18 sts on needle.",
        "stitches-not-held: 18 sts are taken from the provisional cast-on, 20 were cast on",
    ),
    "no provisional cast-on": (
        PROVISIONAL.replace("provisional", "long-tail")
        + "BO all sts.\nUndo provisional cast-on and place 20 sts on needle.",
        "stitches-not-held: no provisional cast-on is there to be undone",
    ),
    "ends that differ": (
        PROVISIONAL
        + "Row 1 (RS): K2tog, k to end.\nUnzip provisional cast-on and place 20 sts on spare needle.\n"
        + "Graft live sts to provisional cast-on sts.\nCO 2 sts.",
        "grafted-counts-differ: 19 sts are grafted to 20",
    ),
    "an edging too short": (
        EDGING.replace("19 more", "18 more"),
        "stated-total-off: 5 sts are printed, 6 are on the needle",
    ),
    "an edging too long": (
        EDGING.replace("19 more", "20 more"),
        "too-few-stitches: edging row 1: k4 + ssk (2) = 6; 5 sts are on the needle",
    ),
    "a cord of other stitches": (
        "CO 4 sts.\nWork a 3-st i-cord for 20 rows.",
        "stated-part-off: 3 sts are to be worked over, 4 are on the needle",
    ),
    "an odd number on two needles": (
        "CO 21 sts.\nKnit 4 rows.\nWork three-needle bind-off.\nCO 2 sts.",
        "grafted-counts-differ: 21 sts do not divide into two equal sides",
    ),
    "a cord along other stitches": (
        "CO 20 sts.\nKnit 4 rows.\nWork applied i-cord along 21 sts.\nCO 2 sts.",
        "bound-off-too-many: 21 sts are to be bound off, 20 are on the needle",
    ),
    "picots that do not come out": (
        "CO 21 sts.\nPicot bind-off: *CO 2 sts, BO 4 sts, sl st back to left needle; rep from * to end.\nCO 2 sts.",
        "repeat-does-not-divide: 21 sts do not divide by 2, which every point uses: 1 left over",
    ),
}


@pytest.mark.parametrize(("work", "fault"), WRONG.values(), ids=WRONG)
def test_what_does_not_come_out_is_told_with_its_numbers(work: str, fault: str) -> None:
    assert fault in said(work + END)


TRIANGLE = (
    "CO 13 sts.\nRow 1 (WS): K3, p to last 3 sts, k3.\n"
    "Row 2: K3, yo, k3, yo, pm, k1, pm, yo, k3, yo, k3. 17 sts.\nRow 3: K3, p to last 3 sts, k3."
)


@pytest.mark.parametrize("centre", ["center st", "centre stitch"])
@pytest.mark.parametrize(
    "edges", ["not counting the edge sts", "excluding the 3 edge sts", "not including the 3 border sts at each end"]
)
def test_edges_that_are_not_counted(centre: str, edges: str) -> None:
    assert said(f"{TRIANGLE} 17 sts: 5 sts each side of {centre}, {edges}.{END}") == []
    wrong = said(f"{TRIANGLE} 17 sts: 6 sts each side of {centre}, {edges}.{END}")
    assert wrong == [
        "stated-part-off: 6 sts each side of " + centre + " are printed; without 3 edge sts there are 5 and 5"
    ]
    assert said(f"{TRIANGLE} 11 sts, {edges}.{END}") == []
    assert said(f"{TRIANGLE} 12 sts, {edges}.{END}") == [
        "stated-part-off: 12 sts are printed; without 3 edge sts there are 11"
    ]


def test_edges_of_another_width_or_that_do_not_show() -> None:
    assert said(f"{TRIANGLE} 13 sts, not counting the 2 edge sts.{END}") == [
        "stated-part-off: 2 edge sts are printed, 3 are at each end"
    ]
    assert said(f"CO 13 sts.\nKnit 2 rows. 7 sts, not counting the edge sts.{END}") == [
        "stated-part-off: 7 sts are printed without the edge sts; where those end does not show on the needle"
    ]


STRETCHY = "K2, *slip the 2 sts back to left needle, k2tog tbl, k1; rep from * until all sts are bound off."
CORD = "CO 3 sts, *k2, k2tog tbl, slip 3 sts back to left needle; rep from * until 3 sts rem."


def bound_off(acts: str, stitches: int = 20) -> list[str]:
    rest = "\nRow 1: K3tog.\nFasten off.\nCO 2 sts.\nBO all sts." if "rem" in acts else "\nCO 2 sts.\nBO all sts."
    return said(f"CO {stitches} sts.\nKnit 4 rows.\nBind off as follows: {acts}{rest}")


@pytest.mark.parametrize(
    "acts",
    [
        STRETCHY,
        CORD,
        "K1, *k1, pass first st over second; rep from * to end.",
        "K2tog tbl, *slip st back to left needle, k2tog tbl; rep from * to end.",
        "P2tog, *return st to left needle, p2tog; rep from * until all sts have been bound off.",
        "K1, *yo, k1, pass 2nd st over first, pass first st over second; rep from * to end.",
    ],
)
@pytest.mark.parametrize("stitches", [20, 21])
def test_a_bind_off_told_act_by_act_comes_out(acts: str, stitches: int) -> None:
    assert bound_off(acts, stitches) == []


@pytest.mark.parametrize(
    ("acts", "fault"),
    [
        (STRETCHY.replace("K2,", "K3,"), "repeat-does-not-divide: 20 sts are bound off 1 at a time: 2 are left, not 1"),
        (STRETCHY.replace("the 2", "the 3"), "too-few-stitches: 3 sts are to be slipped back, 2 are there"),
        (
            STRETCHY.replace("the 2 sts", "st"),
            "end-never-comes: 2 sts are on the right needle before the repeat, 3 behind it",
        ),
        (
            STRETCHY.replace("k1;", "k2;"),
            "end-never-comes: 2 sts are on the right needle before the repeat, 3 behind it",
        ),
        (
            STRETCHY.replace("k2tog tbl", "k3tog"),
            "repeat-does-not-divide: 20 sts are bound off 2 at a time: 2 are left, not 1",
        ),
        (
            CORD.replace("CO 3", "CO 4"),
            "end-never-comes: 4 sts are cast on for the cord; each repeat works 4 sts and not those and 1 of the piece",
        ),
        (CORD.replace("k2,", "k1,"), "too-few-stitches: 3 sts are to be slipped back, 2 are there"),
        (
            CORD.replace("slip 3", "slip 2"),
            "end-never-comes: 0 sts are on the right needle before the repeat, 1 behind it",
        ),
        (
            CORD.replace("until 3", "until 2"),
            "repeat-does-not-divide: 23 sts are bound off 1 at a time: 3 are left, not 2",
        ),
        (
            "K2, *slip 2 sts back to left needle, k2tog, yo, k1, slip st back to left needle; rep from * to end.",
            "end-never-comes: every repeat leaves as many sts as it found: they never come to an end",
        ),
    ],
)
def test_a_bind_off_that_does_not_come_out(acts: str, fault: str) -> None:
    assert fault in bound_off(acts)


SHAWL = """
sections:
  - title: Section 1
    piece: Swatch
    worked: flat
    gauge: stockinette
    work: |
      CO 20 sts.
      Row 1 (RS): K3, *k2tog, yo; rep from * to last 3 sts, k3.
      Row 2 and all WS rows: K3, purl to last 3 sts, k3.
      Row 3: K3, m1, k to last 3 sts, m1, k3. 22 sts.
      Row 4: K3, purl to last 3 sts, k3.
  - title: Section 2
    piece: Swatch
    work: |
      Row 1 (RS): Knit.
      Row 2: Purl.
      Work rows 1 and 2 of Section 2 a total of 4 times. 22 sts.
      Work rows 1–4 of Section 1 a total of 3 times. 28 sts.
      Rep rows 1 and 2 of this section once more. 28 sts.
      BO all sts.
"""


def told(source: str) -> list[str]:
    return [
        f"{each.rule.name}: {each.message}"
        for each in prove_text("shawl.yaml", with_fragment(source)).findings
        if each.severity == "error" and each.rule.name != "measurement-off"  # the square's width is none of this
    ]


def test_rows_of_a_section_by_its_title() -> None:
    assert told(SHAWL) == []
    assert told(SHAWL.replace("a total of 3 times", "a total of 4 times")) == [
        "stated-total-off: 30 sts are on the needle; 28 are printed, and what follows needs 28"
    ]
    assert told(SHAWL.replace("rows 1–4 of Section 1", "rows 1–5 of Section 1")) == [
        "row-not-there: row 5 is to be repeated; rows up to 4 have been described"
    ]
    assert told(SHAWL.replace("rows 1 and 2 of Section 2 a", "rows 1 and 2 of Section 3 a")) != []


GROWING = (
    "CO 21 sts.\nRow 1 (RS): K1, yo, *k2, p2; rep from * to 1 st before centre st, k1, yo, k centre st, yo, k1, "
    "*k2, p2; rep from * to last st, yo, k1.\nRow 2: Purl.\nRow 3: Knit, inc 4 sts evenly across. 29 sts.\nRow 4: Purl.\n"
    "Rep rows 1–4 twice more, working 1 more rep of the block in each half each time. 45 sts."
)


def test_repeats_that_come_more_often_each_time() -> None:
    assert said(GROWING + END) == []
    assert said(GROWING.replace("working 1 more rep", "working 2 more reps") + END) == [
        "stated-part-off: 2 more repeats of 4 sts in each half would be 16 more sts each time; 8 are made"
    ]
    assert said(GROWING.replace(" in each half", "") + END) == [
        "stated-part-off: which repeat of the rows comes more often cannot be told"
    ]
    assert said(GROWING.replace("45 sts", "44 sts") + END) == [
        "stated-total-off: 44 sts are printed, 45 are on the needle"
    ]
