# ruff: noqa: E501 - rows stand as they are printed
"""What is wrong with short rows: each fault with its wording, and beside it the words that are right."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.knitting.plans import knitted, plan_of, said

from castoff.knitting.knit import knit

HALF = """Cast on 28 sts.
Row 1 (RS): K27, w&t.
Row 2 (WS): P26, w&t.
Row 3: K to 1 st before last wrapped st, w&t.
Row 4: P to 1 st before last wrapped st, w&t.
Rep Rows 3 and 4 7 more times.{}
"""
SECOND = """Row 5 (RS): K to wrapped st, work wrap with st, w&t.
Row 6: P to wrapped st, work wrap with st, w&t.
Rep Rows 5 and 6 {} more times.
"""


@pytest.mark.parametrize(
    ("rows", "wording"),
    [
        ("Row 1 (RS): K20, w&t.", "nothing-to-wrap: row 1: no stitch is left to wrap: the row has worked all 20 sts up to its end"),
        ("Row 1 (RS): K12, w&t.\nRow 2: P12.\nRow 3: K11, work wrap with st, k8.", "wrap-not-there: row 3: no wrapped st is here; the next one is 1 st further on"),
        ("Row 1 (RS): K12, w&t.\nRow 2: P12.\nRow 3: K12, k DS, k7.", "wrap-not-there: row 3: no double stitch is here, nor further on"),
        ("Row 1 (RS): K12, turn.\nRow 2: P12.\nRow 3: K to wrapped st, k to end.", "wrap-not-there: row 3: no wrapped st is ahead; 20 sts are left in the row"),
        ("Row 1 (RS): K12, w&t.\nRow 2: P12.\nRow 3: K to DS, k to end.", "wrap-not-there: row 3: no double stitch is ahead; 20 sts are left in the row"),
        ("Row 1 (RS): K12, w&t.\nRow 2: P12.\nRow 3: K to double-wrapped st, k to end.", "wrap-not-there: row 3: no double-wrapped st is ahead; 20 sts are left in the row"),
        ("Row 1 (RS): K12, w&t.\nRow 2: P12.\nRow 3: K12, k wrapped st tog with both wraps, k7.", "wrap-not-there: row 3: both wraps are to be worked with the st; it has been wrapped once"),
        ("Row 1 (RS): Knit.\nRow 2: Purl.\nRow 3: K to 1 st before gap, k to end.", "wrap-not-there: row 3: no turn or gap is ahead; 20 sts are left in the row"),
        ("Row 1 (RS): Knit, picking up wraps.", "wrap-not-there: row 1 meets no wrapped st that could be worked with its stitch"),
        ("Row 1 (RS): K12, w&t.\nRow 2: P to end, picking up wraps.", "wrap-not-there: row 2 meets no wrapped st that could be worked with its stitch"),
        ("Row 1 (RS): Knit.\nRow 2: Purl, working DS as you come to them.", "wrap-not-there: row 2 meets no double stitch that could be worked with its stitch"),
        ("Row 1 (RS): K2, w&t.\nRow 2: P1, w&t.\nRow 3: K to 1 st before last wrapped st, w&t.", "turns-meet: row 3: the row turns where it began: no stitch is left between its two turns"),
    ],
)  # fmt: skip
def test_what_is_not_there(rows: str, wording: str) -> None:
    assert said(f"Cast on 20 sts.\n{rows}\nBind off all sts.")[0] == wording


def test_wraps_that_the_pattern_picks_up_elsewhere_are_not_left() -> None:
    work = f"{HALF.format('')}{SECOND.format(6)}Row 7: K to end, picking up wraps.\nRow 8: {{}}\nBind off all sts."
    assert said(work.format("P to end, picking up wraps.")) == []
    assert said(work.format("Purl.")) == ["wraps-not-picked-up: row 8 works over wraps and picks none of them up: 2"]


def test_a_sentence_of_its_own_is_meant_for_every_row() -> None:
    work = f"{HALF.format('')}{SECOND.format(6)}Work wraps tog with sts as you come to them.\nRow 7: Knit.\nRow 8: Purl.\nBind off all sts."
    assert said(work) == []


def test_nobody_asks_for_wraps_that_are_never_picked_up() -> None:
    assert said(f"{HALF.format('')}Row 5 (RS): Knit.\nRow 6: Purl.\nBind off all sts.") == []


@pytest.mark.parametrize(
    ("told", "wording"),
    [
        (" 10 unwrapped sts rem in centre, 9 wrapped sts each side.", None),
        (" 10 unwrapped sts rem.", None),
        (" 10 sts rem between wraps.", None),
        (" 9 wrapped sts on each side of 10 unwrapped sts.", None),
        (" 18 wrapped sts.", None),
        (" 10 sts rem between turns.", None),
        (" 9 wraps each side.", None),
        (" 11 unwrapped sts rem in centre, 9 wrapped sts each side.", "11 unwrapped sts in centre are printed; 10 lie between the wrapped ones"),
        (" 10 unwrapped sts rem in centre, 8 wrapped sts each side.", "8 wrapped sts each side are printed; 9 are on each side"),
        (" 9 unwrapped sts rem.", "9 unwrapped sts are printed; 10 lie between the wrapped ones"),
        (" 12 sts rem between wraps.", "12 sts between wraps are printed; 10 lie between the wrapped ones"),
        (" 9 wrapped sts on each side of 11 unwrapped sts.", "11 unwrapped sts are printed; 10 lie between the wrapped ones"),
        (" 17 wrapped sts.", "17 wrapped sts are printed; 18 are on the needle"),
        (" 2 double-wrapped sts.", "2 double-wrapped sts are printed; 0 are on the needle"),
        (" 9 DS each side.", "9 ds each side are printed; no st is doubled"),
    ],
)  # fmt: skip
def test_counts_of_wrapped_stitches_are_held(told: str, wording: str | None) -> None:
    work = f"{HALF.format(told)}Row 5 (RS): Knit.\nRow 6: Purl.\nBind off all sts."
    assert said(work) == ([] if wording is None else [f"stated-part-off: {wording}"])


def test_as_many_on_both_sides_stand_as_far_from_both_ends() -> None:
    work = f"{HALF.format(' 9 wrapped sts each side.')}Row 5 (RS): Knit.\nRow 6: Purl.\nBind off all sts."
    found = said(work.replace("Cast on 28", "Cast on 29"))
    assert found[0] == (
        "stated-part-off: 9 wrapped sts each side are printed; 0 st lie beyond them at one end and 1 at the other"
    )
    assert found[1] == (
        "short-rows-off-centre: the turns lie off centre: the outermost leave 2 st at the end of RS rows and 1 at that of WS rows"
    )


@pytest.mark.parametrize("again", ["6", "5", "0"])
def test_too_few_rows_of_the_second_half_leave_wraps(again: str) -> None:
    left = 8 - int(again)
    work = f"{HALF.format('')}{SECOND.format(again)}Row 7: K to end.\nRow 8: P to end.\nBind off all sts."
    found = [int(line.split(": ")[-1]) for line in said(work) if line.startswith("wraps-not-picked-up")]
    assert found == [left]  # told at one end; as many are left at the other, by the same slip


def test_one_row_too_many_wraps_beyond() -> None:
    work = HALF.format("").replace(
        "Cast on 28 sts.", "Cast on 32 sts.\nRow 1 (RS): K2, k28, k2.\nRow 2: Purl.\nRow 3: K29, w&t.\nRow 4: P26, w&t."
    )
    work = (
        work.replace("Row 1 (RS): K27, w&t.\nRow 2 (WS): P26, w&t.\nRow 3: K to", "Row 5: K to")
        .replace("Row 4: P to", "Row 6: P to")
        .replace("Rep Rows 3 and 4", "Rep Rows 5 and 6")
    )
    second = (
        SECOND.replace("Row 5 (RS)", "Row 7 (RS)").replace("Row 6:", "Row 8:").replace("Rows 5 and 6", "Rows 7 and 8")
    )
    end = "Row 9: K to end, picking up wraps.\nRow 10: P to end, picking up wraps.\nBind off all sts."
    assert said(work + second.format(7) + end) == []
    assert said(work + second.format(8) + end) == [
        f"wrapped-beyond-the-others: row {number} has come to the end of the wrapped sts, and wraps one beyond them"
        for number in (7, 8)
    ]


def test_nothing_is_bound_off_from_the_middle() -> None:
    work = "Cast on 20 sts.\nRow 1 (RS): K12, w&t.\nRow 2: P6, w&t.\n{}Bind off all sts."
    assert said(work.format("")) == [
        "turn-left-open: binding off: the last row has turned; sts behind the yarn that nobody has worked since: 6; "
        "wrapped sts still to be worked: 2"
    ]
    assert said(work.format("Row 3: K to end.\nRow 4: Purl.\n")) == []


def test_an_excerpt_does_not_end_in_the_middle() -> None:
    plan = plan_of("Cast on 20 sts.\nRow 1 (RS): K12, w&t.\nRow 2: P6, w&t.")
    alone = replace(plan, excerpt=True)
    assert [each.rule.name for each in knit(alone).findings] == ["turn-left-open"]


ROUND = "Cast on 56 sts. Join to work in the round.\nKnit 2 rnds.\n"
HEEL = HALF.format("").removeprefix("Cast on 28 sts.\n") + SECOND.format(7)


@pytest.mark.parametrize(
    "part",
    [
        "Work heel back and forth over next 28 sts.",
        "Cont on next 28 sts only.",
        "The heel is worked back and forth over the first 28 sts.",
        "Heel is worked back and forth over the next 28 sts only.",
        "Place last 28 sts on a holder for instep.",
    ],
)
def test_a_heel_sees_just_its_own_stitches(part: str) -> None:
    back = "Return 28 held sts to needle.\n" if "holder" in part else ""
    end = "Cont in the round.\nNext rnd: K to end, picking up wraps.\nNext rnd: Knit, picking up wraps.\nBind off all sts."
    work = f"{ROUND}{part}\n{HEEL}{back}{end}"
    assert said(work, form="round") == []
    for changed in (work.replace("K27", "K28"), work.replace("over next 28", "over next 27")):
        if changed != work:
            assert said(changed, form="round")[0].startswith(("nothing-to-wrap", "stated-part-off"))


def test_stitches_named_in_brackets_come_before_the_heel() -> None:
    end = "Cont in the round.\nNext rnd: Knit, picking up wraps.\nNext rnd: Knit, picking up wraps.\nBind off all sts."
    work = f"{ROUND}K28 (instep).\nWork heel back and forth over next 28 sts.\n{HEEL}{end}"
    rows = knitted(work, form="round").sizes[0].pieces["Piece"].records
    assert sum(sum(number for _, number in row.tally) for row in rows if row.label == "row 1") == 27


def test_whole_rounds_do_not_begin_where_a_row_has_turned() -> None:
    work = (
        f"{ROUND}Work heel back and forth over next 28 sts.\n{HEEL}Cont in the round.\nKnit 4 rnds.\nBind off all sts."
    )
    assert [line.split(":")[0] for line in said(work, form="round")] == ["turn-left-open"]
