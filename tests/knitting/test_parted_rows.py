"""Rows that part a piece: stitches named for what they become, put on hold, bound off; lines for some sizes."""

from __future__ import annotations

import pytest
from tests.knitting.plans import said
from tests.notation.vocabularies import corpus_vocabulary

from castoff.notation.lines import parse_work
from castoff.notation.syntax import InstructionLine
from castoff.span import Text


@pytest.mark.parametrize(
    ("row", "wrong"),
    [
        ("K20 for front, place next 10 sts on waste yarn for sleeve, k30 for the back.", "k31 for the back"),
        ("K20 for left front, slip 10 sleeve sts to scrap yarn, k30.", "slip 11 sleeve sts"),
        ("K20 (left front), slip 10 sleeve sts onto a spare needle, k30 for back.", "K21 (left front)"),
        ("K50 for front, place remaining 10 sts on a holder for back.", "K51 for front"),
    ],
)
def test_stitches_are_named_for_what_they_become(row: str, wrong: str) -> None:
    work = "CO 60 sts.\nKnit 2 rows.\nNext row (RS): {}\nBO all sts."
    right = [each for each in said(work.format(row)) if not each.startswith("stitches-still-held")]
    assert right == []
    number = next(word for word in wrong.replace("K", " ").replace("k", " ").split() if word.isdigit())
    damaged = row.replace(wrong.replace(number, str(int(number) - 1)), wrong)
    assert damaged != row
    assert [each for each in said(work.format(damaged)) if not each.startswith("stitches-still-held")]


@pytest.mark.parametrize("behind", ["bound-off sts", "the bound-off sts", "bind-off gap", "gap", "underarm bind-off"])
def test_stitches_are_counted_behind_a_bind_off(behind: str) -> None:
    work = "CO 160 sts. Pm and join in the round.\nKnit 2 rnds.\nNext rnd: K20, BO 8 sts, {}.\nBO all sts."
    row = "k until there are {} sts on right needle after " + behind + ", BO 8 sts, k to end. {} sts"
    assert said(work.format(row.format(72, 144)), form="round") == []
    last = "k until there are {} sts on right needle after " + behind + ", BO 8 sts, k52"
    assert said(work.format(last.format(72)), form="round") == []
    assert said(work.format(last.format(73)), form="round") != []


@pytest.mark.parametrize(
    ("head", "sizes"),
    [
        ("Sizes - (-, L, XL) only:", (False, False, True, True)),
        ("Sizes S (M, -, -) only:", (True, True, False, False)),
        ("Sizes - (M, L, XL):", (False, True, True, True)),
        ("Sizes M (L):", (False, True, True, False)),
        ("Sizes M (L, XL) only:", (False, True, True, True)),
    ],
)
def test_a_line_is_for_the_sizes_that_stand_in_their_places(head: str, sizes: tuple[bool, ...]) -> None:
    for work in (
        f"{head} Knit 2 rows.\nBO all sts.",
        f"{head}\nKnit 2 rows.\nAll sizes: Continue as follows:\nBO all sts.",
    ):
        read = parse_work(Text.plain(work), corpus_vocabulary())
        assert not read.findings
        knit, bound = (line for line in read.value if isinstance(line, InstructionLine))
        assert (knit.sizes, bound.sizes) == (sizes, (True,) * 4)


def test_a_head_may_do_without_its_colon_and_a_size_out_of_its_place_is_refused() -> None:
    read = parse_work(Text.plain("Size S only\nKnit 2 rows.\nAll sizes\nBO all sts."), corpus_vocabulary())
    assert not read.findings
    wrong = parse_work(Text.plain("Sizes - (L, M, XL) only: Knit 2 rows."), corpus_vocabulary())
    assert [each.rule.name for each in wrong.findings] == ["unread-words"]
