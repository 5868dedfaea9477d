"""Rows shifted by one stitch with their totals kept, and textures that are meant to be shifted."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said

RIB = "Cast on {n} sts.\n{rows}\nRep rows 1–2 5 more times.\nBind off all sts."
SHIFTED = (
    (26, "Row 1 (RS): *K2, p2; rep from * to last 2 sts, k2.", "Row 2 (WS): P1, *k2, p2; rep from * to last st, k1."),
    (26, "Row 1 (RS): *K2, p2; rep from * to last 2 sts, k2.", "Row 2 (WS): K1, *p2, k2; rep from * to last st, p1."),
    (24, "Row 1 (RS): *K3, p3; rep from * to end.", "Row 2 (WS): K2, *p3, k3; rep from * to last 4 sts, p3, k1."),
    (24, "Row 1 (RS): *K3, p3; rep from * to end.", "Row 2 (WS): P1, *k3, p3; rep from * to last 5 sts, k3, p2."),
    (27, "Row 1 (RS): *K4, p1; rep from * to last 2 sts, k2.", "Row 2 (WS): P1, *k1, p4; rep from * to last st, k1."),
    (
        27,
        "Row 1 (RS): *K4, p1; rep from * to last 2 sts, k2.",
        "Row 2 (WS): P3, *k1, p4; rep from * to last 4 sts, k1, p3.",
    ),
    (
        28,
        "Row 1 (RS): K1, *p2, k3; rep from * to last 2 sts, p2.",
        "Row 2 (WS): K1, *p3, k2; rep from * to last 2 sts, p2.",
    ),
    (32, "Row 1 (RS): *K6, p2; rep from * to end.", "Row 2 (WS): K1, *p6, k2; rep from * to last 7 sts, p6, k1."),
    (33, "Row 1 (RS): *P1, k2; rep from * to end.", "Row 2 (WS): *P1, k1, p1; rep from * to end."),
    (
        34,
        "Row 1 (RS): *K2, p2; rep from * to last 2 sts, k2.",
        "Row 2 (WS): K1, p2, *k2, p2; rep from * to last 3 sts, k2, p1.",
    ),
)


@pytest.mark.parametrize(("stitches", "first", "second"), SHIFTED)
def test_a_rib_row_shifted_by_one_stitch_is_found(stitches: int, first: str, second: str) -> None:
    found = said(RIB.format(n=stitches, rows=f"{first}\n{second}"))
    assert len(found) == 1
    assert found[0].startswith("columns-shifted: row 2 sets its knits and purls 1 st beside those of row 1")


DELIBERATE = (
    ("garter", 20, "Row 1 (RS): Knit.\nRow 2 (WS): Knit."),
    ("stockinette", 20, "Row 1 (RS): Knit.\nRow 2 (WS): Purl."),
    (
        "rib",
        26,
        "Row 1 (RS): *K2, p2; rep from * to last 2 sts, k2.\nRow 2 (WS): *P2, k2; rep from * to last 2 sts, p2.",
    ),
    ("seed stitch", 21, "Row 1 (RS): K1, *p1, k1; rep from * to end.\nRow 2 (WS): K1, *p1, k1; rep from * to end."),
    ("double seed", 24, "Row 1 (RS): *K2, p2; rep from * to end.\nRow 2 (WS): *P2, k2; rep from * to end."),
    ("broken rib", 21, "Row 1 (RS): Knit.\nRow 2 (WS): P1, *k1, p1; rep from * to end."),
)


@pytest.mark.parametrize(("name", "stitches", "rows"), DELIBERATE)
def test_textures_that_are_meant_stay_silent(name: str, stitches: int, rows: str) -> None:
    assert said(RIB.format(n=stitches, rows=rows)) == []


def test_double_moss_is_moved_by_half_its_repeat_every_other_row() -> None:
    work = """Cast on 24 sts.
Row 1 (RS): *K2, p2; rep from * to end.
Row 2 (WS): *K2, p2; rep from * to end.
Row 3 (RS): *P2, k2; rep from * to end.
Row 4 (WS): *P2, k2; rep from * to end.
Rep rows 1–4 3 more times.
Bind off all sts."""
    assert said(work) == []


def test_mistake_rib_moves_every_row_alike() -> None:
    work = (
        "Cast on 23 sts.\nRow 1: *K2, p2; rep from * to last 3 sts, k2, p1.\nRep row 1 9 more times.\nBind off all sts."
    )
    assert said(work) == []


def test_a_diagonal_rib_goes_on_moving() -> None:
    rows = [
        "*K3, p3; rep from * to end",
        "*P1, k3, p2; rep from * to end",
        "*P2, k3, p1; rep from * to end",
        "*P3, k3; rep from * to end",
        "*K1, p3, k2; rep from * to end",
        "*K2, p3, k1; rep from * to end",
    ]
    work = "Cast on 36 sts. Join to work in the round.\n"
    work += "\n".join(f"Rnd {at}: {row}." for at, row in enumerate(rows, 1))
    assert said(work + "\nRep rnds 1–6 2 more times.\nBind off all sts.", form="round") == []


def test_one_round_of_a_rib_out_of_line_is_found_where_it_stands() -> None:
    work = """Cast on 36 sts. Join to work in the round.
Rnd 1: *K2, p2; rep from * to end.
Rnd 2: *K2, p2; rep from * to end.
Rnd 3: K1, *p2, k2; rep from * to last 3 sts, p2, k1.
Rnd 4: *K2, p2; rep from * to end.
Rnd 5: *K2, p2; rep from * to end.
Bind off all sts."""
    found = said(work, form="round")
    assert len(found) == 1 and "rnd 3 sets its knits and purls 1 st beside those of rnd 2" in found[0]


LACE = (
    "*K1, yo, k2, sk2p, k2, yo; rep from * to last st, k1",
    "*K2, yo, k1, sk2p, k1, yo, k1; rep from * to last st, k1",
    "*K3, yo, sk2p, yo, k2; rep from * to last st, k1",
    "*K1, yo, ssk, k3, k2tog, yo; rep from * to last st, k1",
)
MOVED = (
    "K1, *k1, yo, k2, sk2p, k2, yo; rep from * to end",
    "K1, *k2, yo, k1, sk2p, k1, yo, k1; rep from * to end",
    "K1, *k3, yo, sk2p, yo, k2; rep from * to end",
    "K1, *k1, yo, ssk, k3, k2tog, yo; rep from * to end",
)


@pytest.mark.parametrize("at", range(4))
def test_a_lace_row_shifted_by_one_stitch_is_found(at: int) -> None:
    rows = [*LACE]
    rows[at] = MOVED[at]
    work = "Cast on 33 sts.\n"
    for number, row in enumerate(rows):
        work += f"Row {2 * number + 1} (RS): {row}. 33 sts.\nRow {2 * number + 2} (WS): Purl.\n"
    found = said(work + "Rep rows 1–8 twice more.\nBind off all sts.")
    assert len(found) == 1
    assert found[0].startswith(f"columns-shifted: row {2 * at + 1} stands 1 st to one side")


VEE = (
    "K1, yo, ssk, k7, k2tog, yo",
    "K2, yo, ssk, k5, k2tog, yo, k1",
    "K3, yo, ssk, k3, k2tog, yo, k2",
    "K4, yo, ssk, k1, k2tog, yo, k3",
    "K5, yo, sk2p, yo, k4",
    "K1, yo, k4, sk2p, k4, yo",
)


def vee(moved: int | None) -> str:
    """Six rows of a lace of 12 stitches and 1, one of them moved by a stitch."""
    work = "Cast on 37 sts.\n"
    for number, row in enumerate(VEE):
        told = f"*{row}; rep from * to last st, k1" if number != moved else f"K1, *{row.lower()}; rep from * to end"
        work += f"Row {2 * number + 1} (RS): {told}. 37 sts.\nRow {2 * number + 2} (WS): Purl.\n"
    return work + "Rep rows 1–12 twice more.\nBind off all sts."


@pytest.mark.parametrize("at", range(len(VEE)))
def test_a_row_of_another_lace_shifted_by_one_stitch_is_found(at: int) -> None:
    found = said(vee(at))
    assert [line[: line.index(" st")] for line in found] == [f"columns-shifted: row {2 * at + 1}"]
    assert said(vee(None)) == []


def test_the_lace_as_it_is_meant_stays_silent() -> None:
    work = "Cast on 33 sts.\n"
    for number, row in enumerate(LACE):
        work += f"Row {2 * number + 1} (RS): {row}. 33 sts.\nRow {2 * number + 2} (WS): Purl.\n"
    assert said(work + "Rep rows 1–8 twice more.\nBind off all sts.") == []
