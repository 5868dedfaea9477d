# ruff: noqa: E501 - lines are quoted whole
"""Where rows begin and end that a line only speaks of: a rib in mid-section, rows that belong together, a rib as in another piece."""

from __future__ import annotations

import pytest
from tests.knitting.plans import GAUGES, NEEDLES, TRADE, findings, knitted, lines, said

from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection

TWO_ROWS = "Cast on 30 sts.\nRow 1 (RS): K3, ssk, k to last 5 sts, k2tog, k3.\nRow 2: K3, p to last 3 sts, k3.\n{}\n{}\nBind off all sts."


def rows_to(work: str) -> list[int]:
    """Rows worked up to the end of every record, and the stitches then, as one list."""
    return [record.last_row for record in knitted(work).sizes[0].pieces["Piece"].records]


def test_a_pair_of_rows_ends_on_the_side_that_is_told() -> None:
    told = TWO_ROWS.format("Repeat these 2 rows until 16 sts remain, ending with a WS row.", "Row 1 (RS): Knit.")
    assert said(told) == []
    assert rows_to(told)[-1] == 15


@pytest.mark.parametrize(("line", "rows"), [("Row 1 (RS): Knit.", 15), ("Next row (WS): Purl.", 14)])
def test_untold_the_next_line_says_whether_the_plain_row_comes(line: str, rows: int) -> None:
    work = TWO_ROWS.format("Rep last 2 rows until 16 sts rem.", line)
    assert said(work) == []
    assert rows_to(work)[-1] == rows


def test_the_row_that_comes_is_that_of_the_pair() -> None:
    work = TWO_ROWS.format("Rep last 2 rows until 16 sts rem.", "Row 1 (RS): Knit.")
    assert knitted(work).sizes[0].pieces["Piece"].records[-2].faces == "ppp" + "k" * 10 + "ppp"


def test_an_ending_that_never_comes_is_told() -> None:
    work = "Cast on 30 sts.\nRow 1 (RS): K1, k2tog, k to end.\nRep last row until 16 sts rem, ending with a RS row.\nBind off all sts."
    assert said(work) == ["wrong-last-row: the sts are reached on a WS row, not on a RS row"]


def test_a_rib_is_measured_from_where_it_begins() -> None:
    work = "Cast on 60 sts. Place marker and join to work in the round.\nKnit 5 rnds.\nNext rnd: *K1, p1; rep from * around.\nRep this rnd until ribbing measures {} cm.\nKnit 30 rnds.\nWork in k1, p1 rib until rib measures 5 cm.\nBind off all sts."
    # 28 rounds to 10 cm: 14 to 5 cm
    assert rows_to_round(work.format(5)) == [5, 19, 49, 63]
    assert rows_to_round(work.format(10)) == [5, 33, 63, 77]


def rows_to_round(work: str) -> list[int]:
    ends: list[int] = []
    records = knitted(work, form="round").sizes[0].pieces["Piece"].records
    for at, record in enumerate(records):
        if at + 1 == len(records) or (len(set(records[at + 1].faces)) > 1) != (len(set(record.faces)) > 1):
            ends.append(record.last_row)
    return ends


def front_of(back: str, front: str) -> list[str]:
    sections = tuple(
        PlanSection(name, name, lines(work), "flat", "stockinette") for name, work in (("Back", back), ("Front", front))
    )
    return [
        each.message for each in knit(Plan(("One size",), sections, TRADE.stitches, GAUGES, ("A",), NEEDLES)).findings
    ]


def test_a_rib_as_for_another_piece_is_its_rib_or_refused() -> None:
    front = (
        "Cast on 40 sts.\nWork 6 rows in rib as given for {}.\nRow 1 (RS): *{}; rep from * to end.\nBind off all sts."
    )
    named = "Cast on 40 sts.\nWork 6 rows in k2, p2 rib.\nBind off all sts."
    rowed = "Cast on 40 sts.\nRow 1 (RS): *K2, p2; rep from * to end.\nRep last row 5 more times.\nBind off all sts."
    assert front_of(named, front.format("Back", "K2, p2")) == []
    assert front_of(rowed, front.format("Back", "K2, p2")) == []
    twice = rowed.replace("Bind off", "Row 1: *K1, p1; rep from * to end.\nRep last row 3 more times.\nBind off")
    assert front_of(twice, front.format("Back", "K2, p2")) == ["back has several ribs"]
    plain = rowed.replace("*K2, p2; rep from * to end", "Knit")
    assert front_of(plain, front.format("Back", "K2, p2")) == ["back has no rib that is called by its name"]
    assert front_of(named, front.format("Nothing", "K2, p2")) == ["nothing called `nothing` comes before this line"]
    assert [
        each.rule.name for each in findings("Cast on 40 sts.\nWork 6 rows in rib as for Sleeve.\nBind off all sts.")
    ] == ["piece-not-there"]


def test_a_border_is_measured_from_its_first_row() -> None:
    work = "Cast on 60 sts.\nKnit 40 rows.\nRow 1 (RS): *K1, p1; rep from * to end.\nRow 2: Knit.\nRep rows 1 and 2 until border measures 3 cm, ending with a WS row.\nBind off all sts."
    assert said(work) == []
    assert rows_to(work)[-1] == 40 + 8  # 28 rows to 10 cm: 8.4 to 3 cm
