"""A piece that parts from its fellow in one size, where it goes with it in all the others."""

from __future__ import annotations

from tests.knitting.plans import GAUGES, NEEDLES, TRADE, lines

from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection


def told(back: str, *fronts: str, sizes: tuple[str, ...] = ("S", "M", "L", "XL")) -> list[tuple[str, tuple[str, ...]]]:
    work = "Cast on 40 sts.\nWork {} rows in St st.\nBind off all sts."
    named = {"Back": back} | {f"Front {at}": front for at, front in enumerate(fronts, 1)}
    sections = [
        PlanSection(name, name, lines(work.format(rows), sizes), "flat", "stockinette") for name, rows in named.items()
    ]
    plan = Plan(sizes, tuple(sections), TRADE.stitches, GAUGES, ("A",), NEEDLES)
    return [(each.message, each.sizes) for each in knit(plan).findings]


def test_pieces_that_go_together_in_all_sizes() -> None:
    assert told("60 (64, 68, 72)", "58 (62, 66, 70)") == []
    assert told("60 (64, 68, 72)", "60 (62, 68, 74)") == []  # no rule holds for all but one
    assert told("60 (60, 60, 60)", "60 (60, 60, 62)") == []  # rows that never change say nothing
    assert told("60 (64, 68, 72)", "30 (34, 38, 40)") == []  # a sleeve is no front


def test_one_size_apart() -> None:
    found = told("60 (64, 68, 72)", "58 (62, 68, 70)")
    assert found == [("Front 1 has 68 rows to the 68 of Back: 2 rows too many against all other sizes", ("L",))]


def test_two_sizes_that_changed_places() -> None:
    found = told("60 (64, 68, 72, 76)", "58 (66, 62, 70, 74)", sizes=("S", "M", "L", "XL", "2X"))
    wording = "Front 1 has 66 (62) rows to the 64 (68) of Back: 4 rows too many (few) against all other sizes"
    assert found == [(wording, ("M", "L"))]
    assert told("60 (64, 68, 72)", "58 (66, 62, 70)") == []  # four sizes leave too few to go by


def test_the_piece_that_is_off_against_both_others_is_the_wrong_one() -> None:
    found = told("60 (66, 68, 72)", "58 (62, 66, 70)", "59 (63, 67, 71)")
    assert found == [("Back has 66 rows to the 62 of Front 1: 2 rows too many against all other sizes", ("M",))]


def rows_of(front: str) -> int:
    back = lines("Cast on 40 sts.\nWork 60 rows in St st.\nBind off all sts.")
    work = lines(f"Cast on 40 sts.\nWork in St st until front is {front}.\nBind off all sts.")
    sections = tuple(
        PlanSection(name, name, text, "flat", "stockinette") for name, text in (("Back", back), ("Front", work))
    )
    checked = knit(Plan(("One size",), sections, TRADE.stitches, GAUGES, ("A",), NEEDLES))
    assert not [each for each in checked.findings if each.severity == "error"]
    return checked.value.sizes[0].pieces["Front"].rows


def test_so_many_rows_shorter_than_another_piece() -> None:
    assert rows_of("22 rows shorter than Back") == rows_of("the same length as Back") - 22
