"""The multiple that a section tells, and openings that are closed beside themselves."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.diagnostic import Diagnostic
from castoff.pipeline import prove_text


def found(rule: str, work: str, form: str = "flat", sizes: str = "One size") -> list[Diagnostic]:
    lines = "".join(f"      {line}\n" for line in work.split("\n"))
    source = with_fragment(
        f"sizes: {{names: {sizes}}}\nsections:\n  - title: Scarf\n    worked: {form}\n    work: |\n{lines}"
        "measurements: {width: {label: Width, is: 20 cm}}"
    )
    return [each for each in prove_text("x.yaml", source).findings if each.rule.name == rule]


LACE = "*K1, yo, k{}, sl 1, k2tog, psso, k{}, yo; rep from * to last st, k1."


@pytest.mark.parametrize(
    ("told", "row", "off"),
    [
        ("a multiple of twelve stitches plus one", LACE.format(4, 4), False),
        ("a multiple of 12 sts + 1", LACE.format(4, 4), False),
        ("a multiple of 12 sts + 1", LACE.format(2, 2), True),
        ("a multiple of 12 sts + 1", LACE.format(1, 1), False),  # twice in the twelve
        ("a multiple of twelve", "*K1, yo, k2tog, k4; rep from * to end.", True),
        ("a multiple of twelve", "*K3, p2; rep from * to end.", False),  # a rib beside it
        ("any multiple of eight rows", LACE.format(4, 4), False),
        ("a multiple of many stitches", LACE.format(2, 2), False),
    ],
)
def test_the_repeat_is_held_against_the_multiple(told: str, row: str, off: bool) -> None:
    assert bool(found("multiple-off", f"With larger needles, CO 49 sts.\n> It is {told}.\nRow 1 (RS): {row}")) is off


OPENING = """With larger needles, CO 40 (44, 48) sts. Join to work in the round.
Next rnd: {}bind off 8 sts, k to end. 32 (36, 40) sts.
Next rnd: {}cast on 8 sts, k to end. 40 (44, 48) sts.
Knit 5 rnds."""


def test_an_opening_is_closed_where_it_is() -> None:
    rule = "cast-on-beside-gap"
    assert found(rule, OPENING.format("", ""), "in the round", "S (M, L)") == []
    assert found(rule, OPENING.format("k3, ", "k3, "), "in the round", "S (M, L)") == []
    (one,) = found(rule, OPENING.format("", "k3, "), "in the round", "S (M, L)")
    assert (one.message, one.sizes) == ("cast on 3 sts beside the gap: it is at the beginning of the round", ())
    (some,) = found(rule, OPENING.format("", "k0 (3, 4), "), "in the round", "S (M, L)")
    assert (some.message, some.sizes) == (
        "cast on 3 or 4 sts beside the gap: it is at the beginning of the round",
        ("M", "L"),
    )
