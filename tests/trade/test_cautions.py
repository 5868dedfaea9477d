"""Which cautions a piece gets, and the numbers of the rules behind them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from castoff.trade import Trade, load_trade
from castoff.trade.cautions import FACTS, Audience, Fact
from castoff.trade.table import TradeTableError


def names(trade: Trade, audience: Audience, facts: list[Fact], fibre: str = "100% cotton") -> list[str]:
    return [caution.name for caution in trade.cautions.applying(audience, facts, fibre)]


@pytest.mark.parametrize(
    ("audience", "facts", "expected"),
    [
        ("adult", [], ["knitters_hands"]),
        ("adult", ["has_buttons", "has_cords", "has_hood"], ["knitters_hands"]),
        ("baby", ["is_blanket"], ["infant_sleep", "knitters_hands"]),
        ("child", ["is_blanket"], ["knitters_hands"]),
        ("baby", ["is_hat", "has_ties"], ["infant_sleep", "neck_ties", "cords_hood_neck", "knitters_hands"]),
        ("child", ["has_hood", "has_cords"], ["neck_ties", "cords_hood_neck", "cords_waist_hem", "knitters_hands"]),
        ("child", ["has_buttons"], ["small_parts", "knitters_hands"]),
        ("child", ["is_neckwear"], ["neck_ties", "knitters_hands"]),
        ("baby", ["has_openwork"], ["openwork", "knitters_hands"]),
        ("child", ["has_openwork"], ["knitters_hands"]),
        ("adult", ["is_toy"], ["toys", "knitters_hands"]),
        ("baby", ["has_pompoms"], ["pompoms", "knitters_hands"]),
        ("child", ["is_sleepwear"], ["sleepwear", "knitters_hands"]),
        ("adult", ["may_be_sold"], ["fibre_labels", "knitters_hands"]),
    ],
)
def test_what_applies(trade: Trade, audience: Audience, facts: list[Fact], expected: list[str]) -> None:
    assert names(trade, audience, facts) == expected


@pytest.mark.parametrize(
    ("fibre", "told"),
    [("100% wool", True), ("80% Merino, 20% nylon", True), ("50% alpaca 50% silk", True), ("100% cotton", False),
     ("cottonwool-free acrylic", False), ("", False)],
)  # fmt: skip
def test_wool_is_told_by_its_fibre(trade: Trade, fibre: str, told: bool) -> None:
    assert ("wool_skin" in names(trade, "adult", [], fibre)) is told


def test_every_caution_defers(trade: Trade) -> None:
    for caution in trade.cautions.cautions:
        assert caution.closing
        assert caution.text.endswith(".")
        assert caution.sources


def test_more_facts_never_take_a_caution_away(trade: Trade) -> None:
    audiences: tuple[Audience, ...] = ("baby", "child", "adult")
    for audience in audiences:
        for fact in FACTS:
            assert set(names(trade, audience, [fact])) <= set(names(trade, audience, list(FACTS)))


def test_every_fact_matters_to_some_caution_or_is_an_edge_of_one(trade: Trade) -> None:
    used = {fact for caution in trade.cautions.cautions for fact in caution.facts}
    # an outer garment alone calls for nothing; it is known so that a house may add a caution of its own
    assert set(FACTS) - used == {"is_outerwear"}


@pytest.mark.parametrize(
    ("caution", "limit", "value"),
    [
        ("cords_waist_hem", "us_max_mm", "75"),  # ASTM F1816-18 by 16 CFR 1120: 3 in (75 mm)
        ("cords_waist_hem", "eu_2007_max_mm", "140"),  # EN 14682:2007
        ("cords_waist_hem", "eu_2007_drawn_in_max_mm", "280"),
        ("cords_hood_neck", "young_child_age_under", "7"),  # EN 14682: under 7 years, up to 134 cm
        ("cords_hood_neck", "young_child_height_cm", "134"),
        ("cords_hood_neck", "uk_flat_chest_cm", "44"),  # Hood Cords Regulations 1976
        ("small_parts", "cylinder_in", "1.25"),  # 16 CFR 1501.4
        ("small_parts", "months_under", "36"),  # 16 CFR 1501.2
        ("toys", "torque_nm", "0.34"),  # EN 71-1
        ("toys", "noose_max_mm", "220"),  # EN 71-1:2005+A6:2008
        ("sleepwear", "infant_one_piece_max_mm", "648"),  # 16 CFR 1615.1(c): 64.8 cm
        ("infant_sleep", "months_under", "12"),  # AAP 2022
        ("fibre_labels", "us_name_from_percent", "5"),  # 16 CFR 303.3
    ],
)
def test_numbers_of_the_rules(trade: Trade, caution: str, limit: str, value: str) -> None:
    found = {entry.name: entry for entry in trade.cautions.cautions}[caution]
    assert found.limits[limit] == Fraction(value)


def test_the_cord_text_gives_the_stricter_length(trade: Trade) -> None:
    found = {entry.name: entry for entry in trade.cautions.cautions}["cords_waist_hem"]
    assert "7.5 cm / 3 in" in found.text
    assert min(found.limits["us_max_mm"], found.limits["eu_2007_max_mm"]) == 75


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        (
            "when: [has_buttons, has_small_parts]",
            "when: [has_button]",
            "`has_button` is not known here; use one of has_buttons",
        ),
        ("    for: [baby]\n    when: [is_blanket, is_hat, is_toy]", "    for: [bab]", "`bab` is not known here"),
        ("title: Nightwear\n", "tittle: Nightwear\n", "`tittle` is not a column of this table; is `title` meant?"),
        ("torque_nm: 0.34", "torque_nm: some", "should be a number, and is `some`"),
        (
            "closing: health\n    limits: {months_under: 12}",
            "closing: helth",
            "`helth` is not known here; is `health` meant?",
        ),
        ('  local: "Rules differ', '  lokal: "Rules differ', "there is no closing line `local` in this file"),
    ],
)
def test_a_faulty_house_table(read_template: Callable[[str], str], old: str, new: str, fault: str) -> None:
    text = read_template("trade/cautions.yaml")
    assert text.count(old) == 1
    trade = load_trade(lambda name: text.replace(old, new))
    with pytest.raises(TradeTableError) as caught:
        _ = trade.cautions
    assert fault in str(caught.value)
