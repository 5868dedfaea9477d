"""The side edges of a flat piece, by hand."""

from __future__ import annotations

from math import hypot, isclose

from tests.checks.tiny_pattern import with_fragment

from castoff.knitting.edges import Sides, sides_of
from castoff.pipeline import prove_text

STITCH, ROW = 5.0, 100 / 28  # 20 sts and 28 rows to 10 cm


def sides(*work: str, form: str = "flat") -> Sides | None:
    lines = "\n".join(f"          {line}" for line in work)
    section = f"sections:\n      - title: Back\n        worked: {form}\n        work: |\n{lines}\n"
    measured = "excerpt: true\nmeasurements: {width: {label: Width, is: 30 cm}}\n"
    proof = prove_text("edges.yaml", with_fragment(measured + section))
    assert [finding.message for finding in proof.findings if finding.severity == "error"] == []
    assert proof.knitted is not None and proof.trade is not None
    return sides_of(proof.knitted.sizes[0].pieces["Back"], proof.trade.stitches)


def moved(found: Sides) -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    right = [(step.row, int(step.lost)) for step in found.right.steps]
    return right, [(step.row, int(step.lost)) for step in found.left.steps]


def test_bind_offs_belong_to_the_edge_where_the_row_begins() -> None:
    found = sides("With larger needles, CO 60 sts.", "Work in st st for 40 rows.", "BO 5 sts at beg of next 2 rows.",
                  "BO 3 sts at beg of next 4 rows.", "BO all sts.")  # fmt: skip
    assert found is not None
    assert moved(found) == ([(41, 5), (43, 3), (45, 3)], [(42, 5), (44, 3), (46, 3)])
    assert (found.top, found.divided) == (38, False)
    # 40 rows up, 5 stitches across, a row up, and so on: steps have corners
    assert isclose(found.right.length_mm(0, 41), 41 * ROW + 5 * STITCH, rel_tol=1e-9)
    assert isclose(found.right.length_mm(0, found.right.rows), 46 * ROW + 11 * STITCH, rel_tol=1e-9)


def test_decreases_belong_to_the_nearer_edge_and_slope() -> None:
    found = sides("With larger needles, CO 60 sts.", "Work in st st for 10 rows.",
                  "Dec row (RS): K1, ssk, k to end.", "Rep dec row every 4th row 4 more times.", "BO all sts.")  # fmt: skip
    assert found is not None
    assert moved(found) == ([(11, 1), (15, 1), (19, 1), (23, 1), (27, 1)], [])
    slope = hypot(STITCH, 11 * ROW) + 4 * hypot(STITCH, 4 * ROW)
    assert isclose(found.right.length_mm(0, 27), slope, rel_tol=1e-9)
    assert isclose(found.left.length_mm(0, 27), 27 * ROW, rel_tol=1e-9)


def test_increases_count_below_zero_and_what_is_spread_is_shared() -> None:
    found = sides("With larger needles, CO 60 sts.", "Row 1 (RS): K1, m1, k to last st, m1, k1.", "Row 2: Purl.",
                  "Row 3: K30, k2tog, k to end.", "BO all sts.")  # fmt: skip
    assert found is not None
    assert [(step.row, float(step.lost)) for step in found.right.steps] == [(1, -1), (3, 0.5)]
    assert [(step.row, float(step.lost)) for step in found.left.steps] == [(1, -1), (3, 0.5)]


def test_a_round_has_no_sides() -> None:
    round_ = (
        "With larger needles, CO 60 sts. Place marker and join to work in the round.",
        "Knit 10 rnds.",
        "BO all sts.",
    )
    assert sides(*round_, form="in the round") is None


def test_a_divided_front_keeps_its_outer_edges() -> None:
    found = sides(
        "With larger needles, CO 60 sts.", "Work in st st for 40 rows.",
        "Next row (RS): K20, bind off next 20 sts, place rem 20 sts on a holder for right side, turn. 20 sts.",
        "Next row (WS): Purl.", "Next row (RS): BO 8 sts, k to end.", "Next row: Purl.", "Bind off rem 12 sts.",
        "Return 20 held right side sts to needle. With RS facing, rejoin yarn at neck edge.",
        "Next row (RS): Knit.", "Next row (WS): BO 6 sts, p to end.", "Next row: Knit.", "Bind off rem 14 sts.",
    )  # fmt: skip
    assert found is not None
    # the second part is rejoined where the first began: its rows are 41 (RS), 42 (WS) …
    assert (found.divided, moved(found), found.top) == (True, ([(43, 8)], [(42, 6)]), 26)
