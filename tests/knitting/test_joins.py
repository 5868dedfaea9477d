"""A yarn is joined and stitches are worked with it: no seam."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")
HAND = """With A, cast on 44 (48, 52) sts. Join to work in the round.
Knit 4 rnds.
Next rnd: K2, place next 8 (9, 10) sts on waste yarn, CO 8 (9, 10) sts, knit to end.
Knit 4 rnds.
Bind off all sts.
Place the 8 (9, 10) held sts on larger needles. """


@pytest.mark.parametrize(
    "joining",
    [
        "Join B, k8 (9, 10), pick up and knit 8 (9, 10) sts along cast-on edge.",
        "Join B and k8 (9, 10), then pick up and knit 8 (9, 10) sts along cast-on edge.",
        "Join B, and k8 (9, 10); pick up and knit 8 (9, 10) sts along the cast-on edge.",
        "Rejoin B, knit 8 (9, 10), pick up and k 8 (9, 10) sts along cast-on edge.",
        "Join yarn, k8 (9, 10), pick up and knit 8 (9, 10) sts along cast-on edge.",
        "Join B, pick up and knit 8 (9, 10) sts along cast-on edge, k8 (9, 10).",
    ],
)
def test_stitches_behind_a_join_are_knitted(joining: str) -> None:
    piece = f"{HAND}{joining}\nJoin to work in the round.\nKnit 5 rnds. 16 (18, 20) sts.\nBind off all sts."
    made = knitted(piece, SIZES, "round")
    for size, count in zip(made.sizes, (16, 18, 20), strict=True):
        assert [each.after for each in size.pieces["Piece"].records][-2:] == [count, count]
        assert not any(each.kind == "seam" for each in size.pieces["Piece"].events)
    head, middle, tail = joining.split("8 (9, 10)")
    for one, two in (("8 (9, 11)", "8 (9, 10)"), ("8 (9, 10)", "8 (8, 10)")):
        work = f"{HAND}{head}{one}{middle}{two}{tail}"
        off = f"{work}\nJoin to work in the round.\nKnit 5 rnds. 16 (18, 20) sts.\nBind off all sts."
        assert said(off, SIZES, "round") != []


def test_seams_are_seams() -> None:
    for sentence in ("Join side seams.", "Join shoulder and side seams.", "Sew the sides to the top edge."):
        made = knitted(f"Cast on 20 sts.\nKnit 2 rows.\nBind off all sts.\n{sentence}")
        assert [each.kind for each in made.sizes[0].pieces["Piece"].events][-1] == "seam"
