"""A chart's place in the knitting outlives the line: which row is due, where the chart stands, and what is told of it."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, lines, said

from castoff.knitting.plan import StitchPattern

WAVES = """\
Row 1 (RS): *K1, yo, k2, sk2p, k2, yo; rep from * to last st, k1.
Row 2: Purl.
Row 3: *K2, yo, k1, sk2p, k1, yo, k1; rep from * to last st, k1.
Row 4: Purl."""
ROPE = """\
Row 1 (RS): *C4F, k2; rep from * to end.
Row 2: Purl.
Row 3: Knit.
Row 4: Purl.
Row 5: *K2, C4B; rep from * to end.
Row 6: Purl."""
CHARTS = {
    "chart a": StitchPattern(8, 1, "flat", lines(WAVES), "chart A"),
    "chart b": StitchPattern(6, 0, "flat", lines(ROPE), "chart B"),
}
PANEL = """\
Cast on 25 sts.
Row 1 (RS): K4, work row 1 of chart A over next 17 sts, k4.
Row 2: P4, work row 2 of chart A over next 17 sts, p4.
"""


def told(work: str, form: str = "flat") -> list[str]:
    return said(work, form=form, patterns=CHARTS)  # type: ignore[arg-type]


GOOD = {
    "the row behind the stitches": PANEL.replace(
        "row 1 of chart A over next 17 sts", "chart A over next 17 sts, row 1"
    ),
    "the next row": PANEL + "Row 3: K4, work chart A (next row) over next 17 sts, k4.",
    "the chart in work": PANEL + "Row 3: K4, continue chart, k4.\nRow 4: P4, cont chart A as set to last 4 sts, p4.",
    "to a row": PANEL
    + "Cont chart as set through row 4.\nNext row (RS): K4, work row 1 of chart A over next 17 sts, k4.",
    "until it is complete": PANEL + "Cont as established until chart A is complete.\nNext row (RS): Knit.",
    "ending with a row": PANEL + "Cont in patt as set until piece measures 10 cm, ending with row 4 of chart A.\n"
    "Next row (RS): K4, work row 1 of chart A over next 17 sts, k4.",
    "rows again, beside other stitches": PANEL
    + "Cont as set through row 4 of chart A.\nRep rows 1–4 of chart A 3 more times.\n"
    "Next row (RS): K4, work row 1 of chart A over next 17 sts, k4.",
    "decreases beside it": PANEL + "Row 3: K1, ssk, work as set to last 3 sts, k2tog, k1. 23 sts.\n"
    "Row 4: Work as set.\nRow 5: K3, work row 1 of chart A over next 17 sts, k3.",
    "taken up again": PANEL
    + "Next row (RS): K4, place next 17 sts on a holder for panel, cast on 3 sts over gap, k4.\n"
    "Knit 3 rows.\nBO all sts.\nReturn 17 held panel sts to needle. With RS facing, rejoin yarn.\n"
    "Row 1 (RS): Work row 3 of chart A over next 17 sts.",
    "two charts of their own length": "Cast on 31 sts.\n"
    "Row 1 (RS): K4, work chart A over next 17 sts, k4, work chart B over next 6 sts.\n"
    "Row 2: Work chart B over next 6 sts, p4, work chart A over next 17 sts, p4.\n"
    "Chart A rows rep every 4 rows, chart B every 6.\nCont as set for 4 rows.\n"
    "Row 7 (RS): K4, work row 3 of chart A over next 17 sts, k4, work row 1 of chart B over next 6 sts.",
    "one chart at two places": "Cast on 42 sts.\n"
    "Row 1 (RS): K4, work row 1 of chart A over next 17 sts, k to end.\n"
    "Row 2: P21, work row 2 of chart A over next 17 sts, p4.\n"
    "Row 3: K4, work row 3 of chart A over next 17 sts, k2, work row 1 of chart A over next 17 sts, k2.\n"
    "Row 4: P2, work row 2 of chart A over next 17 sts, p2, work row 4 of chart A over next 17 sts, p4.\n"
    "Row 5: K4, work row 1 of chart A over next 17 sts, k2, work row 3 of chart A over next 17 sts, k2.",
    "rows by their numbers": "Cast on 17 sts.\nWork rows 1–4 of chart A once, then rows 1 and 2 again.\n"
    "Beg with row 3 of chart A, work in chart A for 2 rows.\nWork chart A twice.\nNext row (RS): Work row 1 of chart A.",
    "its repeat": "Cast on 17 sts.\nWork rows 1–4 of chart A, working the 8-st rep twice.",
}


@pytest.mark.parametrize("work", GOOD.values(), ids=GOOD)
def test_a_chart_goes_on(work: str) -> None:
    assert told(work + "\nBind off all sts.") == []


def test_a_chart_goes_on_round_by_round() -> None:
    work = "Cast on 48 sts.\nRnd 1: Work 6-st rep of chart B around.\nCont as set through rnd 4 of chart.\n"
    assert told(work + "Next rnd: Work row 5 of chart B around.\nBind off all sts.", "round") == []
    assert told(work + "Next rnd: Work row 6 of chart B around.\nBind off all sts.", "round") != []


def test_the_rows_of_a_chart_count_once_each() -> None:
    work = PANEL + "Cont chart as set through row 4.\nBind off all sts."
    assert counts(work, patterns=CHARTS) == [25, 25, 25, 25, 25]


WRONG = {
    "another row than the due one": (
        PANEL.replace("row 2 of", "row 4 of"),
        "row-number-out-of-order: row 4 of chart A is told, row 2 is due",
    ),
    "too many stitches": (
        PANEL.replace("row 1 of chart A over next 17 sts, k4", "row 1 of chart A over next 18 sts, k3"),
        "repeat-does-not-divide: row 1: row 1 of chart A is worked over 18 sts; it needs a multiple of 8 sts plus 1",
    ),
    "too few stitches": (
        PANEL.replace("row 1 of chart A over next 17 sts, k4", "row 1 of chart A over next 16 sts, k5"),
        "repeat-does-not-divide: row 1: row 1 of chart A is worked over 16 sts; it needs a multiple of 8 sts plus 1",
    ),
    "a row that it has not": (
        PANEL + "Cont chart as set through row 5.",
        "row-not-there: row 5 of chart A is told; it has 4 rows",
    ),
    "a row that has been worked": (
        PANEL + "Cont chart as set through row 2.",
        "wrong-last-row: row 2 of chart A has been worked already",
    ),
    "not all its rows": (
        PANEL + "Cont as set until all 3 rows of chart A have been worked.",
        "row-not-there: row 3 of chart A is told; it has 4 rows",
    ),
    "another last row": (
        PANEL + "Cont in patt as set until piece measures 10 cm, ending with row 5 of chart A.",
        "wrong-last-row: 26 rows end with row 4, not with row 5",
    ),
    "the middle of it": (
        PANEL.replace(
            "Row 2: P4, work row 2 of chart A over next 17 sts, p4.", "Row 2: P5, work as set to last 4 sts, p4."
        ),
        "stitches-left-over: row 2: what is worked as set begins in the middle of chart A: 16 of its sts are left",
    ),
    "part of it": (
        PANEL.replace(
            "Row 2: P4, work row 2 of chart A over next 17 sts, p4.", "Row 2: P4, work as set to last 5 sts, p5."
        ),
        "stitches-left-over: row 2: chart A stands over 17 sts, the last 1 of them lie beyond what is worked as set",
    ),
    "a repeat of other stitches": (
        "Cast on 48 sts.\nRow 1 (RS): Work 8-st rep of chart B across.",
        "row-not-there: the repeat of chart B is told as 8 sts; it has 6",
    ),
    "a repeat of other rows": (
        "Cast on 48 sts.\nWork in chart B for 6 rows.\nChart B rows rep every 8 rows.",
        "stated-rows-off: chart B is told to repeat every 8 rows; it has 6 rows",
    ),
    "a repeat more often than it fits": (
        "Cast on 17 sts.\nWork rows 1–4 of chart A, working the 8-st rep 3 times.",
        "row-not-there: the repeat of chart A is told 3 times; 17 sts hold it 2 times",
    ),
    "rows left out": (
        "Cast on 17 sts.\nWork rows 1 and 2 of chart A.\nWork row 4 of chart A.",
        "row-number-out-of-order: row 4 of chart A is told, row 3 is due",
    ),
    "a first row that it has not": (
        "Cast on 17 sts.\nBeg with row 7 of chart A, work in chart A for 6 rows.",
        "row-not-there: chart A is to begin with row 7; it has 4 rows",
    ),
    "a row of the other side": (
        "Cast on 48 sts.\nKnit 1 row.\nNext row: Work row 1 of chart B across.",
        "wrong-side-due: row 1 of chart B is a RS row, a WS row is in work",
    ),
    "no chart begun": (
        "Cast on 25 sts.\nRow 1 (RS): K4, cont chart to last 4 sts, k4.",
        "row-not-there: row 1: which chart is meant is not told: none has been begun",
    ),
}


@pytest.mark.parametrize(("work", "fault"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_with_a_chart_is_told_with_its_numbers(work: str, fault: str) -> None:
    assert fault in told(work + "\nBind off all sts.")


def test_each_place_of_a_chart_has_a_row_of_its_own() -> None:
    work = GOOD["one chart at two places"].replace(
        "row 4 of chart A over next 17 sts, p4", "row 2 of chart A over next 17 sts, p4"
    )
    assert told(work)[0] == "row-number-out-of-order: row 2 of chart A is told, row 4 is due"
