"""Which side a row is on, held against the lines that say the same elsewhere."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text

RULES = ("twin-on-other-side", "pair-begins-on-ws", "bound-off-on-ws", "lace-on-the-wrong-side")


def found(*sections: tuple[str, str], off: str = "Next row: BO all sts.") -> list[str]:
    blocks = "".join(
        f"  - title: {title}\n    worked: flat\n    work: |\n"
        + "".join(f"      {line}\n" for line in ("With larger needles, CO 60 sts.", *work.split("\n"), off))
        for title, work in sections
    )
    source = with_fragment(f"sections:\n{blocks}measurements: {{width: {{label: Width, is: 20 cm}}}}")
    return [each.rule.name for each in prove_text("x.yaml", source).findings if each.rule.name in RULES]


UP = "Work in st st until piece measures {} cm, ending with a {} row."


@pytest.mark.parametrize(
    ("back", "front", "rules"),
    [
        ((20, "WS"), (20, "RS"), ["twin-on-other-side"]),
        ((20, "WS"), (22, "RS"), ["twin-on-other-side"]),
        ((20, "RS"), (20, "RS"), []),
        ((20, "WS"), (20, "WS"), []),
    ],
)
def test_two_pieces_end_on_one_side(back: tuple[int, str], front: tuple[int, str], rules: list[str]) -> None:
    assert found(("Back", UP.format(*back)), ("Front", UP.format(*front))) == rules


def test_left_and_right_may_end_on_two_sides() -> None:
    assert found(("Left Front", UP.format(20, "WS")), ("Right Front", UP.format(20, "RS"))) == []


def test_but_are_shaped_on_the_same_rows() -> None:
    dec = "Row 1 (RS): Knit.\nRow 2: Purl.\nDec 1 st at armhole edge every {} row 4 times."
    assert found(("Left Front", dec.format("RS")), ("Right Front", dec.format("RS"))) == []
    assert found(("Left Front", dec.format("RS")), ("Right Front", dec.format("WS"))) == ["twin-on-other-side"]


def test_a_row_that_is_printed_for_its_side_has_shown_which_is_right() -> None:
    shown = UP.format(20, "RS") + "\nNext row (WS): Purl."
    assert found(("Back", UP.format(20, "WS")), ("Front", shown)) == ["twin-on-other-side"]  # the back's, then
    assert found(("Back", UP.format(20, "WS") + "\nNext row (RS): Knit."), ("Front", shown)) == []


PAIR = "BO 5 sts at beg of next 2 rows. 50 sts."


@pytest.mark.parametrize(("ending", "rules"), [("RS", ["pair-begins-on-ws"]), ("WS", [])])
def test_a_pair_of_rows_begins_with_a_right_side_row(ending: str, rules: list[str]) -> None:
    assert found(("Back", f"{UP.format(20, ending)}\n{PAIR}")) == rules


def test_pairs_that_all_begin_on_the_wrong_side_are_meant_so() -> None:
    twice = f"{UP.format(20, 'RS')}\n{PAIR}\nWork in st st until piece measures 30 cm, ending with a RS row.\n"
    assert found(("Back", f"{twice}BO 5 sts at beg of next 2 rows. 40 sts.")) == []


@pytest.mark.parametrize(
    ("ending", "off", "asked"),
    [
        ("RS", "BO all sts.", True),
        ("RS", "BO all sts loosely.", True),
        ("WS", "BO all sts.", False),
        ("RS", "BO all sts knitwise.", False),
        ("RS", "BO all sts on the wrong side.", False),
        ("RS", "Next row (WS): BO all sts.", False),
    ],
)
def test_a_bind_off_on_the_wrong_side_is_told(ending: str, off: str, asked: bool) -> None:
    assert found(("Panel", UP.format(20, ending)), off=off) == (["bound-off-on-ws"] if asked else [])


def test_where_it_is_usual_or_a_mirror_image_it_is_not_asked_about() -> None:
    end = UP.format(20, "RS")
    assert found(("Panel", end), ("Strap", end.replace("20", "9")), off="BO all sts.") == []
    assert found(("Left Front", end), off="BO all sts.") == []


@pytest.mark.parametrize(
    ("rows", "asked"),
    [
        ("Row 1 (WS): *Yo, k2tog; rep from * to end.\nRow 2: Purl.", True),
        ("Row 1 (RS): *Yo, k2tog; rep from * to end.\nRow 2: Purl.", False),
        ("Row 1 (WS): *Yo, p2tog; rep from * to end.\nRow 2: Knit.", False),
        ("Row 1 (WS): *Yo, k2tog; rep from * to end.\nRow 2: Knit.", False),  # garter lace looks alike from both sides
        ("> On reverse stockinette.\nRow 1 (WS): K1, *yo, k2tog; rep from * to last st, k1.\nRow 2: Purl.", False),
    ],
)
def test_lace_belongs_on_the_right_side(rows: str, asked: bool) -> None:
    assert found(("Panel", rows)) == (["lace-on-the-wrong-side"] if asked else [])
