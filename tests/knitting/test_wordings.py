# ruff: noqa: E501 - lines are quoted whole
"""Wordings that mean more than one plain act: ends of a last repeat, casting on over every gap, rows told before."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, knitted, said


def test_a_last_repeat_that_ends_otherwise() -> None:
    work = "Cast on {} sts.\nRow 1 (RS): *K2, p1, yo, k2tog; rep from * to end, ending last rep k1.\nBind off all sts."
    assert said(work.format(5 * 4 + 4)) == []
    assert [line.split(":")[0] for line in said(work.format(5 * 4 + 5))] == ["repeat-does-not-divide"]
    worked = knitted(
        "Cast on 8 sts.\nRow 1 (RS): *K2, p1; rep from * to end, ending last rep with k3.\nBind off all sts."
    )
    assert worked.sizes[0].pieces["Piece"].records[0].faces == "kkpkkkkk"


@pytest.mark.parametrize(
    "row", ["Knit, casting on 2 sts over each buttonhole.", "K2, cast on 2 sts over each gap, k to end."]
)
def test_stitches_over_every_gap(row: str) -> None:
    work = f"Cast on 14 sts.\nRow 1 (RS): K2, *bind off 2 sts, k2; rep from * once more, k to end.\nRow 2: {row}\nBind off all sts."
    assert counts(work)[-2:] == [10, 14]


def test_in_this_manner_is_with_the_shaping() -> None:
    work = "Cast on 20 sts.\nRow 1 (RS): K1, ssk, k to end.\nRow 2: Purl.\nCont in this manner until 16 sts rem.\nBind off all sts."
    assert counts(work)[-1] == 16
    unsaid = "Cast on 20 sts.\nKnit 2 rows.\nCont in this manner until 16 sts rem.\nBind off all sts."
    assert [line.split(":")[0] for line in said(unsaid)] == ["row-not-there"]
    alone = work.replace(" until 16 sts rem", "")
    assert said(alone) == ["row-not-there: how far to go on in this manner is not told"]


def test_rows_on_some_of_the_stitches() -> None:
    work = """Cast on 80 sts.
Next row (RS): K28, bind off next 24 sts, k28. 56 sts.
Knit 13 rows on the last 28 sts for left shoulder.
Bind off 28 sts.
With WS facing, rejoin yarn to rem 28 sts at neck edge for right shoulder.
Knit 13 rows.
Bind off 28 sts."""
    assert said(work) == []
    assert "27 sts are to be bound off, 28 are on the needle; 1 would be left" in " ".join(
        said(work.replace("Bind off 28 sts.\nWith", "Bind off 27 sts.\nWith"))
    )


def test_stitches_into_a_double_yarn_over() -> None:
    work = "Cast on 12 sts.\nRow 1 (RS): K4, k2tog, yo, yo, ssk, k4.\nRow 2: P5, k1 and p1 into double yo, p5.\nBind off all sts."
    assert counts(work) == [12, 12, 12]
