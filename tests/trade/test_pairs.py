"""Pairs of inches and centimetres as really printed, good and bad, and the steps of print."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from castoff.trade import Trade, load_trade
from castoff.trade.table import TradeTableError

# Real pairs that must not be called wrong. T1: a published garment specification; T2: yarn company leaflets; T3:
# schematics
# of a published collection; T5: yayforyarn.com, Dotty Pullover.
GOOD = [
    ("28", "71"), ("34", "86.5"), ("36", "91.5"), ("38", "96.5"), ("40", "101.5"), ("42", "106.5"), ("44", "112"),
    ("62", "157.5"), ("26.5", "67.5"),  # T2
    ("32.5", "82.5"), ("52.5", "133.5"),  # T1
    ("20.25", "51.5"), ("9.25", "23.5"),  # T3
    ("54", "137"), ("58", "147"),  # T5
]  # fmt: skip

# Real printing errors: what stood on the page, and how far it is off.
BAD = [
    ("58", "142.5", "wrong"),  # leaflet PAK0129-029631M (2020), finished bust 2/3XL: -4.82 cm
    ("65", "168", "wrong"),  # the same, 4/5XL: +2.9 cm
    ("50", "137", "wrong"),  # leaflet RHK0429-019595M, to fit chest; 54 was meant
    ("29.875", "79.9", "wrong"),  # pattern sheet 240, back length
    ("48", "112", "wrong"),  # pattern sheet 240, bust; sheet 235 prints 122
    ("42", "102", "wrong"),  # pattern sheet 240, waist; sheet 235 prints 107
    ("29.25", "74.9", "apart"),  # pattern sheet 240, back length: +0.6 cm
    ("10.25", "24", "wrong"),  # morrisandsons.com.au, vest, underarm to hem
    ("22", "55", "apart"),  # knitsewquilt.nz, 2020-05: 5 cm a step, exact 55.88
    ("32", "80", "wrong"),  # the same table, exact 81.28
]


@pytest.mark.parametrize(("inches", "cm"), GOOD)
def test_good_pairs(trade: Trade, inches: str, cm: str) -> None:
    assert trade.pairs.closeness(Fraction(inches), Fraction(cm)) in ("exact", "loose")


@pytest.mark.parametrize(("inches", "cm", "verdict"), BAD)
def test_bad_pairs(trade: Trade, inches: str, cm: str, verdict: str) -> None:
    assert trade.pairs.closeness(Fraction(inches), Fraction(cm)) == verdict


@pytest.mark.parametrize(
    ("inches", "cm", "verdict"),
    [("10", "25.5", "exact"), ("10", "25.65", "exact"), ("10", "25.66", "loose"), ("10", "25.9", "loose"),
     ("10", "25.91", "apart"), ("10", "26.4", "apart"), ("10", "26.41", "wrong")],
)  # fmt: skip
def test_the_limits_are_a_quarter_a_half_and_one_centimetre(trade: Trade, inches: str, cm: str, verdict: str) -> None:
    assert trade.pairs.closeness(Fraction(inches), Fraction(cm)) == verdict


@pytest.mark.parametrize(
    ("of", "imperial", "metric"),
    [("gauge", "4", "10"), ("length", "8", "20"), ("circular needle", "29", "75"), ("circular needle", "32", "80"),
     ("mass", "1.75", "50"), ("mass", "3.5", "100")],
)  # fmt: skip
def test_customary_pairs(trade: Trade, of: str, imperial: str, metric: str) -> None:
    assert trade.pairs.is_customary(of, Fraction(imperial), Fraction(metric))


def test_custom_holds_for_its_own_thing_only(trade: Trade) -> None:
    # 32 in and 80 cm are one circular needle; a chest of 32 in is 81 cm
    assert not trade.pairs.is_customary("length", Fraction(32), Fraction(80))


def test_circular_needles_and_customary_pairs_agree(trade: Trade) -> None:
    circulars = {(length.inches, length.cm) for length in trade.needles.circulars}
    assert {(p.imperial, p.metric) for p in trade.pairs.customary if p.of == "circular needle"} <= circulars


def test_steps_of_print(trade: Trade) -> None:
    # T1, T2, T3: quarter inches and half centimetres; yardage and balls always up
    steps = trade.pairs.steps
    assert (steps["length"].steps, steps["length"].up) == ({"in": Fraction(1, 4), "cm": Fraction(1, 2)}, False)
    assert steps["gauge"].steps == {"stitches": Fraction(1, 2)}
    assert steps["yardage"].up
    assert steps["balls"].up


def test_skill_levels_from_the_easiest(trade: Trade) -> None:
    # names of the Craft Yarn Council's project levels, from memory
    assert [level.label for level in trade.skills] == ["Basic", "Easy", "Intermediate", "Complex"]
    assert [level.name for level in trade.skills] == ["basic", "easy", "intermediate", "complex"]


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("length: {in: 0.25, cm: 0.5, src: [T1", "length: {in: 0, cm: 0.5, src: [T1", "in: a step must be above zero"),
        ("loose: {cm: 0.5,", "loose: {cm: 0.1,", "the limits must rise from exact over loose to wrong"),
        ("- {of: mass, oz: 3.5, g: 100", "- {of: mass, in: 3.5, g: 100", "has no `oz`"),
        ("balls: {balls: 1, to: up", "balls: {balls: 1, to: upp", "`upp` is not known here; is `up` meant?"),
    ],
)
def test_a_faulty_house_table(read_template: Callable[[str], str], old: str, new: str, fault: str) -> None:
    text = read_template("trade/units.yaml")
    assert text.count(old) == 1
    trade = load_trade(lambda name: text.replace(old, new))
    with pytest.raises(TradeTableError) as caught:
        _ = trade.pairs
    assert fault in str(caught.value)
