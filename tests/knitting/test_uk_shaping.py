"""Shoulders and necks as they are shaped in rows: cast-offs at one edge, what is left on a holder, two edges at once."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, knitted, said

CAST_ON = "Cast on 40 sts.\nWork 2 rows in St st.\n"
HELD = "Next row (WS): P15.\nBind off 15 sts.\nWith RS facing, rejoin yarn to 25 held sts.\nBind off 25 sts."


@pytest.mark.parametrize(
    ("words", "after"),
    [
        ("Cast off 7 sts at beg of next row and 6 sts at beg of foll alt row", [33, 33, 27, 27]),
        ("Cast off 7 sts at beg of next and foll alt row", [33, 33, 26, 26]),
        ("Cast off 6 sts at beg of next and foll 2 alt rows", [34, 34, 28, 28, 22, 22]),
    ],
)
def test_a_shoulder_is_cast_off_in_steps(words: str, after: list[int]) -> None:
    work = f"{CAST_ON}{words}. Work 1 row. Cast off rem {after[-1]} sts."
    assert counts(work)[3:] == after
    wrong = said(f"{CAST_ON}{words}. Work 1 row. Cast off rem {after[-1] + 1} sts.")
    assert any(str(after[-1] + 1) in each for each in wrong)


@pytest.mark.parametrize(
    "words",
    [
        "K15, turn and leave rem sts on a holder.",
        "K15, turn and leave rem 25 sts on a holder.",
        "K15, turn. Leave rem sts on a holder.",
        "K until there are 15 sts on right needle, turn and leave rem 25 sts on a holder.",
        "K until there are 15 sts on right needle, turn. Leave rem 25 sts on a holder.",
        "Next row (RS): K until there are 15 sts on right needle, turn and leave rem sts on a holder.",
    ],
)
def test_what_the_turned_row_did_not_reach_is_held(words: str) -> None:
    piece = knitted(f"{CAST_ON}{words}\n{HELD}").sizes[0].pieces["Piece"]
    assert [event.count for event in piece.events if event.kind == "hold"] == [25]


def test_the_cast_off_stitch_counts_among_those_on_the_right_needle() -> None:
    words = "Cast off 5 sts, k until there are 15 sts on right needle, turn and leave rem 20 sts on a holder."
    assert said(f"{CAST_ON}Next row (RS): {words}\n{HELD.replace('25', '20')}") == []


@pytest.mark.parametrize("words", ["turn and leave rem 24 sts on a holder", "turn. Leave rem 24 sts on a holder"])
@pytest.mark.parametrize("row", ["K15", "K until there are 15 sts on right needle"])
def test_worked_and_left_stitches_add_up(row: str, words: str) -> None:
    assert said(f"{CAST_ON}{row}, {words}.\n{HELD}") == [
        "stitches-not-held: rem 24 sts are to be put on hold; 25 are there"
    ]


@pytest.mark.parametrize(
    ("words", "rows", "left"),
    [
        (
            "Dec 1 st at armhole edge of next row, then on foll 3 alt rows, AT THE SAME TIME dec 1 st at neck edge of next "
            "row, then on foll 4 alt rows, then on every foll 4th row until 26 sts rem.",
            [3, 5, 7, 9, 11, 15, 19, 23, 27, 31],
            26,
        ),
        (
            "Dec 1 st at armhole edge of next row and every foll alt row 3 times, AT THE SAME TIME dec 1 st at neck edge "
            "of next and every foll 4th row until 30 sts rem.",
            [3, 5, 7, 11, 15, 19, 23, 27],
            30,
        ),
    ],
)
def test_the_second_edge_goes_on_until_so_many_are_left(words: str, rows: list[int], left: int) -> None:
    piece = knitted(f"{CAST_ON}{words}\nBind off all {left} sts.").sizes[0].pieces["Piece"]
    assert [each.row for each in piece.records if each.before > each.after > 0] == rows


def test_a_number_that_two_edges_pass_by_is_told() -> None:
    words = (
        "Dec 1 st at armhole edge of every row 9 times, AT THE SAME TIME dec 1 st at neck edge of next and every foll 4th "
        "row until 35 sts rem."
    )
    assert said(f"{CAST_ON}{words}\nBind off all sts.") == [
        "end-never-comes: 35 sts are to rem when both shapings are done; 29 are on the needle"
    ]


def _changes(work: str) -> list[int]:
    """The rows, counted from the first behind the cast-on, on which the number of stitches changes."""
    after = counts(f"Cast on 60 sts.\n{work}\nBind off all sts.")[1:]
    return [row for row, (one, two) in enumerate(zip([60, *after], after, strict=False), 1) if one != two]


@pytest.mark.parametrize(
    ("words", "shaped"),
    [
        ("Inc 1 st at each end of 5th and foll 3 alt rows. {} sts.", [5, 7, 9, 11]),
        ("Inc 1 st at each end of 5th row and 3 foll alt rows. {} sts.", [5, 7, 9, 11]),
        ("Inc 1 st at each end of next and 3 foll 4th rows. {} sts.", [1, 5, 9, 13]),
        ("Inc 1 st at each end of next row and on foll 3 4th rows. {} sts.", [1, 5, 9, 13]),
        ("Inc 1 st at each end of next row and foll 2 4th rows, then on 1 foll 6th row. {} sts.", [1, 5, 9, 15]),
        ("Beg with a k row and working in st st, inc 1 st at each end of 3rd and 3 foll 4th rows. {} sts.", [3, 7, 11, 15]),
        ("Beg with a k row, cont in st st, inc 1 st at each end of 3rd and every foll 4th row until there are {} sts.",
         [3, 7, 11, 15]),
        ("Work in st st, shaping sides by inc 1 st at each end of 3rd and every foll 4th row to {} sts.",
         [3, 7, 11, 15]),
        ("Cont in st st shaping sides by inc 1 st at each end of next and 3 foll 6th rows. {} sts.", [1, 7, 13, 19]),
        ("Inc 1 st at each end of 3rd row and every foll 4th row until there are {} sts, working inc sts in garter st.",
         [3, 7, 11, 15]),
    ],
)  # fmt: skip
def test_so_many_rows_follow_the_first(words: str, shaped: list[int]) -> None:
    assert _changes(words.format(68)) == shaped
    assert said(f"Cast on 60 sts.\n{words.format(68)}\nBind off all sts.") == []
    assert any("67 sts" in each for each in said(f"Cast on 60 sts.\n{words.format(67)}\nBind off all sts."))
