"""Both sides of a neck worked at once: told once, knitted on each, row for row alike."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")
FRONT = (
    "CO 80 (84, 88) sts.\nWork 20 rows in St st.\n"
    "Next row (RS): K30 (32, 34), join a second ball of yarn and bind off centre 20 sts, k to end. "
    "30 (32, 34) sts each side.\n"
    "Working both sides at the same time with separate balls of yarn, work 1 row even.\n"
    "At each neck edge, bind off 3 sts once, then 2 sts twice, then dec 1 st every RS row 3 times. "
    "20 (22, 24) sts rem each side.\n"
    "Work even until piece measures 18 cm, ending with a WS row.\n"
    "Bind off 5 sts at beg of next 4 rows. 10 (12, 14) sts each side.\nBind off rem 10 (12, 14) sts on each side."
)


def test_both_sides_are_knitted_row_for_row() -> None:
    fabric = knitted(FRONT, SIZES)
    for size in fabric.sizes:
        piece = size.pieces["Piece"]
        parts = {part: [r for r in piece.records if r.part == part] for part in (0, 1)}
        ends = [sum(r.rows for r in rows) for rows in parts.values()]
        assert ends[0] == ends[1] + 21, "the first side has the rows before the division, too"
        assert parts[0][-1].after == parts[1][-1].after
        bound = [[(e.row, e.count) for e in piece.events if e.kind == "bind off" and e.count in (2, 3, 5)]]
        assert len(bound[0]) == 2 * (3 + 2)
        # the sides bind off at the neck on different rows, each where its row begins there
        first, second = bound[0][:5], bound[0][5:]
        assert all(abs(one[0] - two[0]) == 1 and one[1] == two[1] for one, two in zip(first, second, strict=True))


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ("bind off 3 sts once", "bind off 4 sts once", "20 (22, 24) sts each side are printed"),
        ("2 sts twice", "2 sts 3 times", "20 (22, 24) sts each side are printed"),
        ("RS row 3 times", "RS row 4 times", "20 (22, 24) sts each side are printed"),
        ("20 (22, 24) sts rem each", "21 (22, 24) sts rem each", "21 sts each side are printed"),
        (
            "K30 (32, 34)",
            "K31 (32, 34)",
            "30 sts each side are printed; on one side of the gap are 31, on the other 29",
        ),
        (
            "bind off centre 20",
            "bind off centre 19",
            "each side are printed; on one side of the gap are 30, on the other 31",
        ),
        ("Bind off 5 sts at beg of next 4", "Bind off 6 sts at beg of next 4", "10 (12, 14) sts each side are printed"),
        ("at beg of next 4 rows", "at beg of next 2 rows", "10 (12, 14) sts each side are printed"),
        ("Bind off rem 10", "Bind off rem 11", "11 sts are to be bound off, 10 are on the needle"),
        ("Working both sides at the same time with separate balls of yarn, work", "Work", "not-at-the-same-time"),
    ],
)
def test_a_slip_on_both_sides_is_found(right: str, wrong: str, found: str) -> None:
    assert right in FRONT
    assert found in "\n".join(said(FRONT.replace(right, wrong), SIZES))


@pytest.mark.parametrize(
    "words",
    [
        "Work both sides at once. Work 1 row even.\nBO at each neck edge 3 sts once, then 2 sts twice. "
        "Dec 1 st at each neck edge every RS row 3 times.",
        "Both sides are worked at the same time with separate balls. Work 1 row even.\n"
        "At each neck edge bind off 3 sts once, "
        "2 sts twice, dec 1 st every RS row 3 times.",
    ],
)
def test_other_words_for_it(words: str) -> None:
    lines = FRONT.split("\n")
    assert said("\n".join([*lines[:3], f"{words} 20 (22, 24) sts rem each side.", *lines[5:]]), SIZES) == []


def test_a_row_with_ends_of_its_own_is_refused() -> None:
    wrong = FRONT.replace("work 1 row even.", "p2, p to end.")
    assert "a row that is not the same on both sides" in "\n".join(said(wrong, SIZES))


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("K to m, rm, {}12 sts, rm, k to end. 19", None),
        ("K to m, {}12 sts, k to end. 19", None),
        ("K to m, rm, {}14 sts, removing marker, k to end. 19", "gap are 19, on the other 17"),
        (
            "K to m, rm, {}14 sts, rm, k to end. 19",
            "marker-in-the-way: next row (RS): a marker stands 12 of 14 stitches",
        ),
        ("K to m, {}14 sts, k to end. 19", "marker-in-the-way: next row (RS): a marker stands 12 of 14 stitches"),
        ("K to m, rm, {}12 sts, rm, k to end. 18", "18 sts each side are printed"),
        ("K to m, rm, {}12 sts, rm, k to end. 38", "38 sts each side are printed"),
    ],
)
def test_each_side_is_held_against_both(row: str, found: str | None) -> None:
    work = "CO 50 sts.\nRow 1 (RS): K19, pm, k12, pm, k to end.\nRow 2: Purl.\nNext row (RS): {} sts each side.\n"
    line = row.format("join a second ball of yarn and bind off centre ")
    rest = "Working both sides at the same time, work 1 row even.\nBind off rem 19 sts on each side."
    lines = said(work.format(line) + rest, ("One size",))
    assert lines == [] if found is None else found in lines[0]
