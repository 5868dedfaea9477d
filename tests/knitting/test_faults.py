"""Every way a row can fail, with its whole wording."""

from __future__ import annotations

import pytest
from tests.knitting.plans import findings, said

CASES = (
    # a row that needs more than there is, and one that leaves some over
    (
        "Cast on 70 sts.\nRow 1 (RS): K12, p6, k54.",
        "too-few-stitches: row 1: k12 + p6 + k54 = 72; 70 sts are on the needle",
        "k52 would come out",
    ),
    (
        "Cast on 70 sts.\nRow 1 (RS): K12, p6, k50.",
        "stitches-left-over: row 1: k12 + p6 + k50 = 68; 70 sts are on the needle, 2 left unworked",
        "k52 would come out",
    ),
    (
        "Cast on 70 sts.\nRow 1 (RS): [K2, p2] 17 times.",
        "stitches-left-over: row 1: [k2, p2] x 17 (68); 70 sts are on the needle, 2 left unworked",
        None,
    ),
    # a repeat that does not divide
    (
        "Cast on 72 sts.\nRow 1 (RS): *K2, k2tog, k6; rep from * to end.",
        "repeat-does-not-divide: row 1: 72 sts do not divide by 10: 2 left over",
        "70 or 80 sts would fit",
    ),
    (
        "Cast on 72 sts.\nRow 1 (RS): K1, *k2, p2; rep from * to last 2 sts, k2.",
        "repeat-does-not-divide: row 1: 69 sts do not divide by 4: 1 left over",
        "68 or 72 sts would fit",
    ),
    # a stated total
    (
        "Cast on 80 sts.\nRow 1 (RS): *K8, k2tog; rep from * to end. 70 sts.",
        "stated-total-off: 70 sts are printed, 72 are on the needle",
        "72 sts",
    ),
    (
        "Cast on 80 sts.\nRow 1 (RS): K1, k2tog, k to end. 2 sts dec'd.",
        "stated-total-off: a change of -2 sts is printed, it is -1",
        "from 80 to 79 sts",
    ),
    # sides and numbers of rows
    (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nRow 2 (RS): Purl.",
        "wrong-side-due: row 2 is printed for the RS, a WS row is due",
        "a row is missing or one too many before it, or it is meant as the WS row",
    ),
    (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nRow 2: Purl.\nRow 4: Purl.",
        "row-number-out-of-order: row 4 follows row 2",
        "row 3 is due",
    ),
    (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1–4 5 more times.",
        "row-not-there: row 3 is to be repeated; rows up to 2 have been described",
        "rows 1–2",
    ),
    (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nWork 4 rows even, ending with a WS row.",
        "wrong-last-row: 4 rows end with a RS row, not with a WS row",
        "3 or 5 rows would",
    ),
    # markers
    (
        "Cast on 20 sts.\nRow 1 (RS): K to marker, sm, k to end.",
        "marker-not-there: row 1: no marker is ahead; 20 sts are left in the row",
        None,
    ),
    (
        "Cast on 20 sts.\nRow 1 (RS): K10, pm, k10.\nRow 2: P8, sm, p to end.",
        "marker-not-there: row 2: no marker is here; the next one is 2 sts further on",
        None,
    ),
    (
        "Cast on 20 sts.\nRow 1 (RS): K10, pm, k10.\nRow 2: Purl.\nRow 3: K9, k2tog, k9.",
        "marker-in-the-way: row 3: a marker stands 1 of 2 stitches into those to be worked together",
        "end the stitches before at the marker, or remove it first",
    ),
    # repeats that never end
    (
        "Cast on 20 sts.\nRow 1 (RS): *Yo; rep from * to end.",
        "repeat-without-progress: row 1: the repeat uses up no stitches, so that it never comes to its end",
        None,
    ),
    (
        "Cast on 20 sts.\nRow 1 (RS): K1, ssk, k to last 3 sts, k2tog, k1.\nRow 2: Purl.\n"
        "Rep last 2 rows until 15 sts rem.",
        "end-never-comes: 15 sts never come up: the count goes 18, 16, 14",
        "16 sts come up",
    ),
    # binding off
    (
        "Cast on 38 sts.\nKnit 2 rows.\nBind off 40 sts.",
        "bound-off-too-many: 40 sts are to be bound off, 38 are on the needle",
        "38 sts",
    ),
    (
        "Cast on 38 sts.\nRow 1 (RS): Bind off 40 sts, k to end.",
        "bound-off-too-many: row 1: 40 sts are to be bound off; 38 are there",
        None,
    ),
    # the end
    (
        "Cast on 38 sts.\nKnit 2 rows.",
        "stitches-still-live: Piece ends with 38 sts on the needle",
        "bind them off, put them on hold or draw the yarn through",
    ),
    (
        "Cast on 38 sts.\nRow 1 (RS): K10, place next 18 sts on holder, k10.\nBind off all sts.",
        "stitches-still-held: 18 sts were put on hold and nobody takes them back",
        None,
    ),
    # nothing there
    ("Row 1 (RS): Knit.", "no-stitches-on-needle: row 1: no stitches are on the needle", None),
    # lengths
    (
        "Cast on 20 sts.\nKnit 28 rows.\nWork in St st until piece measures 4 cm.",
        "length-already-passed: it measures 100 mm already, 40 mm are asked for",
        None,
    ),
    # absurd numbers
    (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nRep row 1 900000 times.",
        "absurd-number: 900000 rows are more than any piece has",
        None,
    ),
    ("Cast on 900000 sts.", "absurd-number: 900000 sts are more than any needle holds", None),
    (
        "Cast on 20 sts.\nRow 1 (RS): [K1, yo] 900000 times.",
        "absurd-number: row 1: 900000 times is more often than any needle allows",
        None,
    ),
    # yarn
    (
        "Cast on 20 sts.\nWith B, knit 2 rows. Break off B.\nWith A, knit 2 rows.\nWith B, knit 2 rows.\nBind off all sts.",
        "yarn-used-again: yarn B was broken off and has not been joined since",
        "join B",
    ),
)


@pytest.mark.parametrize(("work", "wording", "hint"), CASES, ids=[wording.split(":")[0] for _, wording, _ in CASES])
def test_a_fault_says_its_numbers_and_what_would_be_right(work: str, wording: str, hint: str | None) -> None:
    found = findings(work)
    first = found[0]
    assert f"{first.rule.name}: {first.message}" == wording
    assert first.hint == hint


def test_a_fault_is_told_once_for_all_the_sizes_it_hits() -> None:
    sizes = ("S", "M", "L")
    found = findings("Cast on 70 (72, 80) sts.\nRow 1 (RS): *K5, p5; rep from * to end.\nBind off all sts.", sizes)
    assert [(each.message, each.sizes) for each in found] == [
        ("row 1: 72 sts do not divide by 10: 2 left over", ("M",))
    ]
    found = findings("Cast on 71 (72, 80) sts.\nRow 1 (RS): *K5, p5; rep from * to end.\nBind off all sts.", sizes)
    assert [each.message for each in found] == ["row 1: 71 (72) sts do not divide by 10: 1 (2) left over"]
    found = findings("Cast on 71 (72, 83) sts.\nRow 1 (RS): *K5, p5; rep from * to end.\nBind off all sts.", sizes)
    assert [(each.message, each.sizes) for each in found] == [
        ("row 1: 71 (72, 83) sts do not divide by 10: 1 (2, 3) left over", ())
    ]


def test_one_wrong_total_does_not_drown_the_report() -> None:
    work = """Cast on 80 sts. Join to work in the round.
Rnd 1: *K8, k2tog; rep from * to end. 73 sts.
Rnd 2: Knit.
Rnd 3: Knit. 72 sts.
Bind off all sts."""
    assert said(work, form="round") == ["stated-total-off: 73 sts are printed, 72 are on the needle"]


def test_a_failed_row_with_a_total_is_taken_at_its_word() -> None:
    work = """Cast on 80 sts. Join to work in the round.
Rnd 1: *K7, k2tog; rep from * to end. 72 sts.
Rnd 2: *K7, k2tog; rep from * to end. 64 sts.
Bind off all sts."""
    assert said(work, form="round") == ["repeat-does-not-divide: rnd 1: 80 sts do not divide by 9: 8 left over"]


def test_a_fault_that_surfaces_later_names_the_row_that_nobody_accounted_for() -> None:
    work = """Cast on 40 sts.
Row 1 (RS): Knit. 40 sts.
Row 2: P1, p2tog, p to end.
Row 3: Knit.
Row 4: *P2, k2; rep from * to end.
Bind off all sts."""
    found = findings(work)
    assert [each.message for each in found] == ["row 4: 39 sts do not divide by 4: 3 left over"]
    assert [(each.span.line, each.message) for each in found[0].related] == [
        (3, "since the last printed total, this is the first row that changed the count (-1)")
    ]


def test_stitches_are_taken_back_in_the_number_that_was_held() -> None:
    work = """Cast on 40 sts. Join to work in the round.
Rnd 1: K10, place next 13 sts on waste yarn, cast on 2 sts, k to end.
Bind off all sts.
Return 15 held thumb sts to needles.
Rnd 1: Knit.
Bind off all sts."""
    found = findings(work, form="round")
    assert [each.message for each in found] == ["15 held sts are taken back, 13 are held"]
    assert found[0].related[0].span.line == 2
