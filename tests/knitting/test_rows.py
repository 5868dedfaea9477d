"""What rows leave behind: sides, fabrics, folding, shaping by rate, parts."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, findings, knitted, said

from castoff.knitting.fabric import PieceKnitted
from castoff.notation.syntax import Form


def piece(work: str, form: Form = "flat", sizes: tuple[str, ...] = ("One size",), size: int = 0) -> PieceKnitted:
    return knitted(work, sizes, form).sizes[size].pieces["Piece"]


def test_equal_rows_are_knitted_once_and_counted_many_times() -> None:
    few, many = (
        piece(f"Cast on 40 sts. Join to work in the round.\nKnit {rows} rnds.\nBind off all sts.", "round")
        for rows in (50, 50_000)
    )
    assert len(few.records) == len(many.records)
    assert (few.rows, many.rows) == (50, 50_000)
    assert sum(record.rows for record in many.records) == 50_000


def test_a_wide_needle_costs_no_more_records_than_a_narrow_one() -> None:
    narrow, wide = (
        knitted(f"Cast on {stitches} sts.\nRow 1 (RS): *K2, p2; rep from * to end.\nRep row 1 999 more times.\n"
                "Bind off all sts.")
        for stitches in (40, 40_000)
    )  # fmt: skip
    assert wide.stitches == 1000 * narrow.stitches == 40_000 * 1002
    assert len(wide.sizes[0].pieces["Piece"].records) == len(narrow.sizes[0].pieces["Piece"].records)


def test_rows_alternate_their_sides_and_rounds_do_not() -> None:
    flat = piece("Cast on 10 sts.\nKnit 3 rows.\nBind off all sts.")
    assert [record.side for record in flat.records] == ["RS", "WS", "RS"]
    tube = piece("Cast on 10 sts. Join to work in the round.\nKnit 3 rnds.\nBind off all sts.", "round")
    assert {record.side for record in tube.records} == {"RS"}


@pytest.mark.parametrize(
    ("rows", "faces"),
    (
        ("Work 4 rows in St st.", "kkkkk"),
        ("Work 4 rows in garter st.", "ppppp"),
        ("Knit 3 rows.", "kkkkk"),
        ("Work 2 rows in seed st.", "pkpkp"),
        ("Row 1 (RS): K1, p1, k1, p1, k1.\nWork 5 rows in rib as set.", "kpkpk"),
    ),
)
def test_a_fabric_shows_what_it_is_seen_from_the_right_side(rows: str, faces: str) -> None:
    assert piece(f"Cast on 5 sts.\n{rows}\nBind off all sts.").records[-1].faces == faces


def test_rows_between_stand_for_every_other_row() -> None:
    work = """Cast on 12 sts.
Row 1 (RS): K1, ssk, k to end.
Row 2 and all WS rows: Purl.
Row 3: K1, ssk, k to end.
Row 5: K1, ssk, k to end.
Rep rows 1–6 once more. 6 sts.
Bind off all sts."""
    assert counts(work) == [12, 11, 11, 10, 10, 9, 9, 8, 8, 7, 7, 6, 6]


def test_shaping_by_rate_counts_the_rows_between() -> None:
    work = """Cast on 40 sts.
Work 2 rows in St st.
Inc row (RS): K1, m1l, k to last st, m1r, k1. 42 sts.
Rep inc row every 6th row 3 (2) times, then every 4th row 0 (2) times. 48 (50) sts.
Bind off all sts."""
    for size, (rows, stitches) in enumerate(((3 + 18, 48), (3 + 12 + 8, 50))):
        sleeve = piece(work, sizes=("S", "M"), size=size)
        assert (sleeve.rows, sleeve.records[-1].after) == (rows, stitches)


def test_each_end_of_next_and_every_following_row() -> None:
    work = """Cast on 40 sts.
Work 4 rows in St st.
Dec 1 st at each end of next and every foll 4th row 3 more times. 32 sts.
Bind off all sts."""
    shaped = [record.row for record in piece(work).records if record.after < record.before]
    assert shaped == [5, 9, 13, 17]


def test_binding_off_at_the_beginning_of_rows() -> None:
    work = "Cast on 60 sts.\nKnit 2 rows.\nBO 5 sts at beg of next 4 rows. 40 sts.\nBind off all sts."
    assert counts(work) == [60, 60, 60, 55, 50, 45, 40]


def test_the_loop_left_by_binding_off_is_counted_in_the_reading_that_fits() -> None:
    """`k20, bind off 10, k19` has 1 + 19 stitches behind the gap; `k20` counts the loop in."""
    for last in (19, 20):
        work = f"Cast on 50 sts.\nRow 1 (RS): K20, bind off 10 sts, k{last}. 40 sts.\nBind off all sts."
        assert said(work) == []


def test_six_times_is_read_as_it_fits() -> None:
    for times in (4, 5):
        work = f"Cast on 10 sts.\nRow 1 (RS): *K1, p1; rep from * {times} times.\nBind off all sts."
        assert said(work) == [], times


def test_shaping_at_the_same_time_is_merged_row_by_row() -> None:
    work = """Cast on 60 sts.
Work 10 rows in St st.
Dec 1 st at armhole edge of every RS row 6 times. AT THE SAME TIME, dec 1 st at neck edge every 4th row 5 times. 49 sts.
Bind off all sts."""
    front = piece(work)
    assert front.records[-1].after == 60 - 6 - 5
    merged = [record for record in front.records if any(event.name == "at the same time" for event in record.changes)]
    assert [record.row for record in merged] == [14, 18, 22, 26, 30]


def test_two_sides_of_a_neck_end_at_one_length() -> None:
    work = """Cast on 40 sts.
Work 10 rows in St st.
Next row (RS): K15, place next 25 sts on holder, turn.
Work {left} rows in St st.
Bind off all sts.
Return 25 held sts to needle. With RS facing, rejoin yarn.
Next row (RS): Bind off 10 sts, k to end. 15 sts.
Work {right} rows in St st.
Bind off all sts."""
    assert said(work.format(left=9, right=10)) == []
    found = findings(work.format(left=9, right=14))
    assert [each.message for each in found] == [
        "this side ends with row 25, the other with row 20; they part after row 10"
    ]
    assert found[0].severity == "warning"


def test_needles_know_the_fewest_and_most_stitches_they_hold() -> None:
    work = "With larger needles, cast on 40 sts.\nRow 1 (RS): *K2tog; rep from * to end. 20 sts.\nBind off all sts."
    use = knitted(work).sizes[0].needles["larger"]
    assert (use.fewest, use.most) == (20, 40)


def test_a_size_that_skips_works_nothing() -> None:
    work = "Cast on 20 (24) sts.\nRow 1 (RS): K0 (2), *k2, p2; rep from * to last 0 (2) sts, k0 (2).\nBind off all sts."
    assert said(work, ("S", "M")) == []


@pytest.mark.parametrize(
    ("row", "faces"),
    (
        ("*Sl 1, k1; rep from * to end.", "pkpkpkpk"),
        ("*Sl 1, k2tog, k1; rep from * to end.", "pkkpkk"),
        ("*Sl 1, k0, p1; rep from * to end.", "pppppppp"),
        ("*[Sl 1, k1] twice; rep from * to end.", "pkpkpkpk"),
    ),
)
def test_a_slipped_stitch_shows_as_it_did_below(row: str, faces: str) -> None:
    work = f"Cast on 8 sts. Join to work in the round.\nRnd 1: Purl.\nRnd 2: {row}\nBind off all sts."
    assert piece(work, "round").records[-1].faces == faces
