# ruff: noqa: E501 - lines of patterns are quoted whole
"""Work that is divided: both sides of a neck, the front and back of a body in the round, sleeves put aside, row by row."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, plan_of, said
from tests.knitting.test_rows_begun import TEN, rows

from castoff.knitting.fabric import Knitted
from castoff.knitting.knit import knit
from castoff.notation.syntax import Form

SIZES = ("S", "M", "L")


def part(found: Knitted, size: int, piece: str = "Piece") -> list[list[tuple[int, str, int, int]]]:
    """The rows of each part of a piece: a part begins where the row numbers go back. Folded rows are told once."""
    parts: list[list[tuple[int, str, int, int]]] = [[]]
    for record in found.sizes[size].pieces[piece].records:
        if parts[-1] and record.row <= parts[-1][-1][0]:
            parts.append([])
        parts[-1].append((record.row, record.side, record.before, record.after))
    return parts


def told(work: str, form: Form = "flat") -> list[tuple[str, tuple[str, ...]]]:
    return [
        (each.rule.name, each.sizes) for each in knit(plan_of(work, SIZES, form)).findings if each.severity == "error"
    ]


FIRST = "Dec 1 st at neck edge on next 3 rows. 17 (18, 19) sts.\nBO all sts."
TURNS = [
    "turn and leave rem sts on a holder.", "turn, leaving rem 40 (44, 50) sts on a spare needle.", "turn. Leave rem sts on a holder.",
    "turn. 20 (21, 22) sts. Place rem sts on a spare needle.", "place rem 40 (44, 50) sts on a holder, turn. 20 (21, 22) sts.",
    "turn.\nWork on these sts only for first side of neck.", "turn.\nWorking on these 20 (21, 22) sts only, purl 1 row.",
    "turn and leave rem sts on a spare needle.\nWork on this set of sts only.",
]  # fmt: skip
ROW = "Next row (RS): K20 (21, 22), "


@pytest.mark.parametrize("turn", TURNS)
def test_the_row_that_divides_a_neck_is_a_row(turn: str) -> None:
    work = f"{TEN.replace('64, 70', '65, 72')}{ROW}{turn.replace('44, 50', '44, 50')}\n{FIRST}\nWith RS facing, rejoin yarn to rem sts, BO next 20 (23, 28) sts, k to end. 20 (21, 22) sts.\nBO all sts."
    first, second = part(knitted(work, SIZES), 0)
    lead = [(12, "WS", 20, 20)] if "purl 1" in turn else []
    assert first[-3 - len(lead) - 1 :][: 1 + len(lead)] == [(11, "RS", 60, 20), *lead]
    assert [row[1] for row in first[-3:]] == (["RS", "WS", "RS"] if lead else ["WS", "RS", "WS"])
    assert second == [(11, "RS", 40, 20)]


@pytest.mark.parametrize(
    "middle",
    ["With RS facing, slip next 20 (23, 28) sts onto a stitch holder, rejoin yarn to rem sts and K to end.",
     "With RS facing, place centre 20 (23, 28) sts on a holder, rejoin yarn to rem 20 (21, 22) sts and knit to end.",
     "Place next 20 (23, 28) sts on a holder. With RS facing, rejoin yarn to rem sts, k to end.",
     "Return to rem sts. With RS facing, slip next 20 (23, 28) sts onto a holder for neck, rejoin yarn, k to end.",
     "Return 40 (44, 50) held sts to needle. With RS facing, slip next 20 (23, 28) sts onto a holder, rejoin yarn, k to end."],
)  # fmt: skip
@pytest.mark.parametrize("due", ["", "Purl 1 row.\n"])
def test_the_middle_waits_and_the_other_side_is_taken_up(middle: str, due: str) -> None:
    """A new side starts with a facing of its own, whichever row the first one ended with."""
    work = f"{TEN.replace('64, 70', '65, 72')}{ROW}turn and leave rem sts on a spare needle.\n{FIRST.replace('BO', due + 'BO')}\n{middle} 20 (21, 22) sts.\nPurl 1 row.\nBO all sts."
    found = knit(plan_of(work, SIZES))
    assert [each.rule.name for each in found.findings] == ["stitches-still-held"]
    for size, (neck, side) in enumerate(((20, 20), (23, 21), (28, 22))):
        assert part(found.value, size)[1] == [(11, "RS", side, side), (12, "WS", side, side)]
        assert [group.stitches for group in found.value.sizes[size].held] == [neck]


@pytest.mark.parametrize(
    ("line", "rule"),
    [
        (f"{ROW}turn, leaving rem 41 (44, 50) sts on a spare needle.", "stitches-not-held"),
        (f"{ROW}turn. 19 (21, 22) sts.", "stated-total-off"),
        (f"{ROW}turn.\nWork on these 21 (21, 22) sts only.", "stated-part-off"),
    ],
)
def test_a_number_off_by_one_is_found_where_it_stands(line: str, rule: str) -> None:
    assert told(f"{TEN.replace('64, 70', '65, 72')}{line}")[0] == (rule, ("S",))


@pytest.mark.parametrize("slip", [19, 21])
def test_a_wrong_middle_is_found(slip: int) -> None:
    work = f"{TEN.replace('64, 70', '65, 72')}{ROW}turn and leave rem sts on a spare needle.\nBO all sts.\nWith RS facing, slip next {slip} (23, 28) sts onto a holder, rejoin yarn to rem sts and k to end. 20 (21, 22) sts.\nBO all sts."
    assert told(work)[0] == ("stated-total-off", ("S",))


# ------------------------------------------------------------------------------------------------ a round

ROUND = "CO 60 (64, 70) sts. Place marker and join to work in the round.\nKnit 40 rnds.\n"
HALF = "K30 (32, 35)"


@pytest.mark.parametrize(
    ("divide", "first"),
    [
        (f"Next rnd: {HALF}, place next 30 (32, 35) sts on a holder, turn. 30 (32, 35) sts.", "Next row (WS): Purl.\n"),
        (f"Next rnd: {HALF}, place rem sts on a holder. Turn. 30 (32, 35) sts.", "Next row (WS): Purl.\n"),
        (f"Next rnd: {HALF}, place next 30 (32, 35) sts on a holder. Work back and forth from here.", "Next row (WS): Purl.\n"),
        (f"Next rnd: {HALF}, place next 30 (32, 35) sts on a holder.", "Next row (WS): Purl.\n"),
        (f"Divide for front and back: {HALF}, turn, leaving rem 30 (32, 35) sts on a holder for the front.", "Next row (WS): Purl.\n"),
        (f"Next rnd: {HALF}, turn. 30 (32, 35) sts. Place rem 30 (32, 35) sts on a holder for front.", "Next row (WS): Purl.\n"),
        (f"Next rnd: {HALF}, turn. Leave rem sts on a spare needle.", "Next row (WS): Purl.\n"),
        (f"Next rnd: {HALF}, turn and leave rem sts on a spare needle.", ""),
    ],
)  # fmt: skip
def test_a_divided_round_goes_on_in_rows(divide: str, first: str) -> None:
    """Round 41 divides; then 28 rows are 10 cm of armhole, and one more ends with a wrong-side row."""
    work = f"{ROUND}{divide}\n{first}Starting with a {'knit' if first else 'purl'} row, work in st st until armhole measures 10 cm, ending with a WS row.\nBO all sts."
    found = knit(plan_of(work, SIZES, "round"))
    assert [each.rule.name for each in found.findings] == ["stitches-still-held"]
    for size, half in enumerate((30, 32, 35)):
        piece = found.value.sizes[size].pieces["Piece"]
        assert rows(found.value, size, 41)[:3] == [
            (41, "RS", 2 * half, half), (42, "WS", half, half), (43, "RS", half, half),
        ]  # fmt: skip
        assert (piece.rows, {record.form for record in piece.records if record.row > 41}) == (70, {"flat"})


@pytest.mark.parametrize("slip", [29, 31])
@pytest.mark.parametrize(
    "turn", ["turn, leaving rem {} (32, 35) sts on a holder.", "turn. Place rem {} (32, 35) sts on a holder."]
)
def test_a_wrong_half_is_found(turn: str, slip: int) -> None:
    assert told(f"{ROUND}Next rnd: {HALF}, {turn.format(slip)}", "round")[0] == ("stitches-not-held", ("S",))


def test_the_row_behind_the_division_has_the_side_that_is_printed() -> None:
    work = f"{ROUND}Next rnd: {HALF}, place rem sts on a holder, turn.\nNext row (RS): Knit.\nBO all sts."
    assert ("wrong-side-due", ()) in told(work, "round")


def test_armholes_bound_off_at_the_division_begin_there() -> None:
    work = f"{ROUND}Next rnd: BO 3 sts, k until there are 27 (29, 32) sts on right needle, place next 30 (32, 35) sts on a holder, turn.\nNext row (WS): BO 3 sts, p to end. 24 (26, 29) sts.\nWork in St st until armhole measures 10 cm, ending with a WS row.\nBO all sts."
    found = knit(plan_of(work, SIZES, "round"))
    assert [each.rule.name for each in found.findings] == ["stitches-still-held"]
    # the armhole begins with the stitches bound off in round 41
    assert {size.pieces["Piece"].rows for size in found.value.sizes} == {70}


# ------------------------------------------------------------------------------------------------ sleeves put aside

HOLES = "CO 100 (104, 110) sts.\nNext row (RS): K20, place next 20 sts on a holder, k20 (24, 30), place next 20 sts on a second holder, k to end."


@pytest.mark.parametrize("row", ["Next row (WS): Purl across all sts.", "Purl 1 row.", "Next row: P to end."])
def test_rows_go_on_across_what_was_put_aside(row: str) -> None:
    found = knit(
        plan_of(f"{HOLES} 60 (64, 70) sts.\n{row}\nWork 2 rows in St st. 60 (64, 70) sts.\nBO all sts.", SIZES)
    )
    assert [each.rule.name for each in found.findings] == ["stitches-still-held", "stitches-still-held"]
    for size, have in enumerate((60, 64, 70)):
        assert rows(found.value, size, 2) == [(2, "WS", have, have), (3, "RS", have, have), (4, "WS", have, have)]
        assert [group.name for group in found.value.sizes[size].held] == ["holder", "second holder"]


def test_rounds_go_on_across_what_was_put_aside() -> None:
    found = knit(
        plan_of(
            f"{ROUND}Next rnd: K10, place next 10 sts on waste yarn, k to end.\nNext rnd: Knit.\nKnit 2 rnds. 50 (54, 60) sts.\nBO all sts.",
            SIZES,
            "round",
        )
    )
    assert [each.rule.name for each in found.findings] == ["stitches-still-held"]
    assert rows(found.value, 0, 42) == [(42, "RS", 50, 50), (43, "RS", 50, 50), (44, "RS", 50, 50)]


@pytest.mark.parametrize(
    "hold",
    ["place next 20 (24, 30) sts on a holder for neck, k to end.", "BO 20 (24, 30) sts, k to end.",
     "place next 20 (24, 30) sts on a holder, join a second ball of yarn, k to end.",
     "place next 20 (24, 30) sts on a holder, k to end. 20 sts each side."],
)  # fmt: skip
def test_a_neck_parts_its_sides(hold: str) -> None:
    found = knit(plan_of(f"{TEN}Next row (RS): K20, {hold}\nNext row (WS): Purl.\nBO all sts.", SIZES)).value
    assert [rows(found, size, 12)[0][2:] for size in range(3)] == [(40, 20)] * 3


def test_sts_that_a_row_was_just_turned_over_go_on_by_themselves() -> None:
    work = (
        "Cast on 60 sts and join to work in the round.\nRnd 1: Knit.\nNext rnd: K30, turn.\n"
        "Working back and forth on these {} sts only:\nRow 1: Sl 1, p to end.\nRow 2: Sl 1, k to end. 30 sts.\n"
        "Bind off all sts."
    )
    assert [line for line in said(work.format(30), form="round") if not line.startswith("stitches-still-held")] == []
    assert "stated-part-off: 31 sts are to be worked over, 30 lie between the turns" in said(
        work.format(31), form="round"
    )


@pytest.mark.parametrize("told", ["Work on these {} sts only.", "Work back and forth on these {} sts only."])
def test_flat_sts_that_a_row_was_just_turned_over_go_on_while_the_rest_waits(told: str) -> None:
    work = (
        f"Cast on 60 sts.\nNext row (RS): K30, turn. {told}\nNext row: Purl. 30 sts.\nBind off all sts.\n"
        "With RS facing, return held 30 sts to needle.\nNext row: Knit.\nBind off all sts."
    )
    assert said(work.format(30)) == []
    assert said(work.format(31)) == ["stated-part-off: 31 sts are to be worked on; 30 are there"]
