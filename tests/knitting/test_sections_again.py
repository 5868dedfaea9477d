"""Whole sections worked again, and short rows told in sentences or in two halves."""

from __future__ import annotations

import pytest
from tests.knitting.plans import GAUGES, NEEDLES, TRADE, said

from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection
from castoff.notation.lines import parse_work
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Text

TITLES = ("Scarf", "Wedge A", "Wedge B", "Remainder")
SIZES = ("S", "L")


def scarf(remainder: str) -> tuple[list[int], list[str]]:
    """Rows of a scarf in each size, and what is found."""
    works = (
        "Cast on 20 (24) sts.\nKnit 2 rows.",
        "Row 1 (RS): K to last 2 sts, w&t.\nRow 2: Knit.\nKnit 2 rows.",
        "Knit 4 rows.",
        remainder,
    )
    vocabulary = Vocabulary(SIZES, TRADE.stitches, sections=TITLES, pieces=("Scarf",))
    sections, unread = [], []
    for title, work in zip(TITLES, works, strict=True):
        checked = parse_work(Text.plain(work), vocabulary)
        unread += [finding.message for finding in checked.findings]
        sections.append(PlanSection(title, "Scarf", checked.value, "flat", "stockinette"))
    done = knit(Plan(SIZES, tuple(sections), TRADE.stitches, GAUGES, ("A", "B"), NEEDLES))
    rows = [size.pieces["Scarf"].records[-1].last_row for size in done.value.sizes]
    return rows, [*unread, *(finding.message for finding in done.findings)]


@pytest.mark.parametrize(
    ("told", "times"),
    [
        ("Repeat Wedges A and B 3 (4) times more.", (3, 4)),
        ("Rep Wedge A and Wedge B 3 (4) more times or until scarf is desired length.", (3, 4)),
        ("Repeat Wedges A and B 3 (4) times in total.", (2, 3)),
        ("Repeat Wedges A and B 2 (4) times more.", (2, 4)),
    ],
)
def test_sections_are_worked_again(told: str, times: tuple[int, int]) -> None:
    rows, found = scarf(f"{told}\nKnit 1 row.\nBind off.")
    assert found == []
    assert rows == [2 + 6 * (1 + many) + 1 for many in times]


def test_a_section_that_is_not_there_is_refused() -> None:
    assert "cannot be read here" in scarf("Repeat Wedges A and C 3 times more.\nBind off.")[1][0]


HEEL = """CO 48 sts. Join to work in the round. Knit 4 rnds.
The heel is worked back and forth over the first 24 sts only, using German short rows.
Row 1 (RS): K24, turn.
Row 2 (WS): MDS, p to end of heel sts, turn.
Row 3: MDS, k to ds, turn.
Row 4: MDS, p to ds, turn.
Repeat Rows 3 and 4 another 6 times.
Next row (RS): MDS, k to end of heel sts, working each ds as one stitch, then k across instep sts.
Next round: K, working rem ds as one stitch. 48 sts.
Row 1 (RS): K16, turn.
Row 2 (WS): MDS, p7, turn.
Row 3: MDS, k to ds, k ds as one stitch, k1, turn.
Row 4: MDS, p to ds, p ds as one stitch, p1, turn.
Repeat Rows 3 and 4 another 7 times.
Next row (RS): MDS, k to end of heel sts, working ds as one st, k across instep sts.
Next round: K, working rem ds as one st. 48 sts. Bind off."""


@pytest.mark.parametrize(
    ("times", "found"),
    [
        ("7", []),
        ("6", ["short-rows-stop-early: the turns go out to 1 st before those where the short rows began"]),
        ("4", ["short-rows-stop-early: the turns go out to 3 sts before those where the short rows began"]),
        ("8", ["wrap-not-there: next row (RS) meets no double stitch that could be worked with its stitch"]),
    ],
)
def test_the_second_half_of_a_german_heel_goes_out_as_far_as_the_first_began(times: str, found: list[str]) -> None:
    assert said(HEEL.replace("another 7 times", f"another {times} times"), form="round") == found


SENTENCES = """Cast on 20 sts. Knit 2 rows.
Row 1 (RS): K14. Turn. MDS.
Row 2 (WS): P7. Turn. MDS.
Row 3: K to ds, k ds, k1. Turn. Make DS.
Row 4: P to ds, p ds, p1. Turn work. MDS.
Row 5: K to end, working each ds as one st.
Row 6: P to end, working ds as one st.
Bind off."""


def test_a_turn_in_a_sentence_of_its_own_ends_the_row() -> None:
    assert said(SENTENCES) == []
    assert said(SENTENCES.replace("P7.", "P14."))[0].startswith(
        "too-few-stitches: row 2: 13 sts are left for p 14 times"
    )
    assert said(SENTENCES.replace("K14.", "K21."))[0].startswith("too-few-stitches: row 1: k21 = 21; 20 sts")
    two = SENTENCES.replace("p ds, p1.", "p 2 ds, p1.")
    assert said(two)[0].startswith("wrap-not-there: row 4")


PINS = """Cast on 20 sts. Knit 2 rows.
Row 1 (RS): K16, turn, place pin on working yarn.
Row 2 (WS): Sl 1, p11, turn, place pin on working yarn.
Row 3: Sl 1, k11, close gap, k to end.
Row 4: P16, pull up loop and p it tog with next st, p to end.
Bind off."""


def test_japanese_short_rows_close_their_gaps_where_they_are() -> None:
    assert said(PINS) == []
    assert said(PINS.replace("k11, close", "k10, close"))[0] == (
        "wrap-not-there: row 3: no turn is here, whose gap could be closed; the next one is 1 st further on"
    )
    assert said(PINS.replace("P16, pull", "P17, pull"))[0].endswith(
        "no turn is here, whose gap could be closed, nor further on"
    )
    assert said(PINS.replace("p11, turn", "p10, turn")) != []
