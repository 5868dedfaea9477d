"""Rows that are uneven where nothing asks for it."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said

UNEVEN = (
    ("Row 1 (RS): K1, ssk, k to last 4 sts, k2tog, k2.", "row 1 has k1 on one side and k2 on the other"),
    ("Row 1 (RS): K2, m1l, k to last st, m1r, k1.", "row 1 has k2 on one side and k1 on the other"),
    (
        "Row 1 (RS): K10, pm, k10.\nRow 2: Purl.\nRow 3: K to 3 sts before marker, k2tog, k1, sm, k2, ssk, k to end.",
        "row 3 has k1 on one side and k2 on the other",
    ),
    (
        "Row 1 (RS): Knit.\nRow 2: K3, p to last 4 sts, k4.\nRow 3: Knit.\nRow 4: K4, p to last 4 sts, k4.",
        "row 2 has k3 on one side and k4 on the other",
    ),
    (
        "Row 1 (RS): Knit.\nRow 2: P to last 4 sts, k4.\nRow 3: Knit.\nRow 4: K4, p to last 4 sts, k4.",
        "row 2 has nothing on one side and k4 on the other",
    ),
    ("Row 1 (RS): Ssk, k to last 3 sts, k2tog, k1.", "row 1 has nothing on one side and k1 on the other"),
    ("Row 1 (RS): Sl 1, k1, ssk, k to last 3 sts, k2tog, k1.", "row 1 has sl1, k1 on one side and k1 on the other"),
    ("Row 1 (RS): K6, yo, k to last 3 sts, yo, k3.", "row 1 has k6 on one side and k3 on the other"),
    # a motif about its double decrease
    (
        "Row 1 (RS): *K1, yo, k3, sl 1, k2tog, psso, k2, yo; rep from * to last 2 sts, k2.",
        "row 1 has k3 on one side and k2 on the other",
    ),
    (
        "Row 1 (RS): K2, *k1, yo, s2kp, k4, yo; rep from * to last 2 sts, k2.",
        "row 1 has nothing on one side and k4 on the other",
    ),
    # the only row of its kind, but the edges of the other go on
    (
        "Row 1 (RS): K3, yo, k to last 3 sts, yo, k3.\nRow 2: P to last 3 sts, k3.",
        "row 2 has nothing on one side and k3 on the other",
    ),
)
EVEN = (
    "Row 1 (RS): K2, ssk, k to last 4 sts, k2tog, k2.",
    "Row 1 (RS): K1, ssk, k to end.",  # one side only
    "Row 1 (RS): K1, k2tog, k to last 4 sts, k2tog, k2.",  # both lean one way: no mirror
    "Row 1 (RS): Knit.\nRow 2: K3, p to last 5 sts, k5.\nRow 3: Knit.\nRow 4: K3, p to last 5 sts, k5.",  # meant so
    "Row 1 (RS): Knit.\nRow 2: K3, p to last 5 sts, k5.",  # nothing to hold it against
    "Row 1 (RS): Sl 1, k1, ssk, k to last 4 sts, k2tog, k2.",  # a slipped edge stitch is one of two
    "Row 1 (RS): K2, *yo, k2tog; rep from * to last 4 sts, k4.\nRow 2: K2, p to last 2 sts, k2.",  # as the repeat needs
    "Row 1 (RS): *K1, yo, k3, sk2p, k3, yo; rep from * to end.",
    "Row 1 (RS): *K1, yo, k3, ssk, k4; rep from * to end.",
    "Row 1 (RS): K2, yo, k2tog, k10, yo, k6.\nRow 2: K2, p to last 2 sts, k2.",  # lace that leans
)


@pytest.mark.parametrize(("rows", "wording"), UNEVEN)
def test_an_uneven_row_is_warned_of(rows: str, wording: str) -> None:
    assert said(f"Cast on 20 sts.\n{rows}\nBind off all sts.") == [f"sides-unlike: {wording}"]


@pytest.mark.parametrize("rows", EVEN)
def test_an_even_row_or_one_that_is_meant_so_is_not(rows: str) -> None:
    assert said(f"Cast on 20 sts.\n{rows}\nBind off all sts.") == []


ROUND = "Cast on 40 sts. Join to work in the round.\nRnd 1: K20, pm, k to end.\n"
UNEVEN_ROUNDS = (
    # one of two halves of a sock or a mitten, which lie over each other
    ("*K1, ssk, k to 2 sts before marker, k2tog, sm; rep from * once more.", ("k1", "nothing")),
    ("*Ssk, k to 3 sts before marker, k2tog, k1, sm; rep from * once more.", ("nothing", "k1")),
    ("*K to 3 sts before marker, k2tog, k1, sm, ssk; rep from * once more, k to end.", ("k1", "nothing")),
    # a marker at each side
    ("K to 3 sts before marker, k2tog, k1, sm, k10, pm, ssk, k to end.", ("k1", "nothing")),
)
EVEN_ROUNDS = (
    "K1, k2tog, k to last 2 sts, ssk.",  # about the first stitch of the round
    "K to 2 sts before marker, k2tog, sm, k1, ssk, k to end.",  # about the stitch behind the marker
    "K1, m1l, k to end, m1r.",
    "K2, ssk, k to last 2 sts, k2tog.",  # two stitches go up between the decreases
    "K to 2 sts before marker, k2tog, sm, k2, ssk, k to end.",
    "*K2, ssk, k to 2 sts before marker, k2tog, sm; rep from * once more.",
)


@pytest.mark.parametrize(("row", "sides"), UNEVEN_ROUNDS)
def test_the_two_sides_of_a_round_are_held_against_each_other(row: str, sides: tuple[str, str]) -> None:
    wanted = [f"sides-unlike: rnd 2 has {sides[0]} on one side and {sides[1]} on the other"]
    found = said(f"{ROUND}Rnd 2: {row}\nBind off all sts.", form="round")
    assert [each for each in found if each.startswith("sides-unlike")] == wanted


@pytest.mark.parametrize("row", EVEN_ROUNDS)
def test_shaping_may_stand_about_a_stitch_of_the_round(row: str) -> None:
    assert said(f"{ROUND}Rnd 2: {row}\nBind off all sts.", form="round") == []


def test_markers_of_one_piece_have_as_many_stitches_about_them() -> None:
    one = "Rnd 2: *M1l, k to 1 st before marker, m1r, k1, sm; rep from * 3 more times."
    two = "Rnd 3: *K1, m1l, k to 1 st before marker, m1r, k1, sm; rep from * 3 more times."
    start = "Cast on 40 sts. Place marker and join to work in the round.\nRnd 1: K10, pm, k10, pm, k10, pm, k to end.\n"
    # a stitch before each marker that all is shaped about, in a piece without another row
    assert said(f"{start}{one}\nBind off all sts.", form="round") == []
    assert said(f"{start}{one}\n{two}\nBind off all sts.", form="round") == [
        "sides-unlike: rnd 2 has k1 on one side and nothing on the other"
    ]


def neck(second: str) -> list[str]:
    return said(
        "Cast on 40 sts.\nRow 1 (RS): K20, turn. Leave rem 20 sts on a holder.\nRow 2 (WS): Purl.\n"
        "Dec row (RS): K to last 3 sts, k2tog, k1. 19 sts.\nNext row: Purl.\nBind off all sts.\n"
        "Return 20 held sts to needle. With RS facing, rejoin yarn.\nNext row (RS): Knit.\nNext row: Purl.\n"
        f"Dec row (RS): {second} 19 sts.\nNext row: Purl.\nBind off all sts."
    )


def test_two_sides_of_a_neck_are_shaped_as_far_from_the_edge() -> None:
    assert neck("K1, ssk, k to end.") == []
    assert neck("K2, ssk, k to end.") == [
        "sides-unlike: dec row has k2 at the edge, dec row on the other side has k1",
    ]
    assert neck("Ssk, k to end.") == ["sides-unlike: dec row has nothing at the edge, dec row on the other side has k1"]
    assert neck("K to last 4 sts, k2tog, k2.") == []  # the same end of the row: another edge


HEEL = "Cast on 20 sts.\nRow 1 (RS): K11, ssk, k1, turn.\nRow 2 (WS): Sl 1, p3, p2tog, p1, turn.\n"


def heel(row_3: str, row_4: str = "Sl 1, p to 1 st before gap, p2tog, p1, turn.") -> list[str]:
    return said(f"{HEEL}Row 3 (RS): {row_3}\nRow 4 (WS): {row_4}\nRep rows 3 and 4 twice more. 12 sts.\nBO all sts.")


def test_every_row_of_a_heel_begins_with_a_slipped_stitch() -> None:
    plain = "k to 1 st before gap, ssk, k1, turn."
    assert heel(f"Sl 1, {plain}") == []
    assert heel(plain.capitalize()) == ["sides-unlike: row 3 begins with no slipped st, the other rows with sl1"]
    assert heel(f"Sl 1, sl 1, {plain}") == ["sides-unlike: row 3 begins with sl2, the other rows with sl1"]


def test_rows_of_another_kind_need_not_begin_so() -> None:
    slipped = "*Sl 1, k1; rep from * to end."
    flap = f"Cast on 20 sts.\nRow 1 (RS): {slipped}\nRow 2: {{}}\nRow 3 (RS): {slipped}\n"
    assert said(flap.format("Purl.") + "Bind off all sts.") == []
    assert said(flap.format("Sl 2, p to end.") + "Bind off all sts.") == [
        "sides-unlike: row 2 begins with sl2, the other rows with sl1"
    ]
    plain = "Sl 1, k to end."
    lace = f"Cast on 8 sts.\nRow 1 (RS): {plain}\nRow 2: {plain}\nRow 3: Yo, k2tog, k to end.\nRow 4: {plain}\n"
    assert said(f"{lace}Bind off all sts.") == []


def test_a_row_of_slipped_stitches_is_no_row() -> None:
    found = said("Cast on 20 sts.\nRow 1 (RS): *Sl 1; rep from * to end.\nBind off all sts.")
    assert found == ["repeat-of-one-stitch: the repeat holds nothing but sl: part of it may be missing"]
