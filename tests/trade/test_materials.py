"""Needles, yarn weights and put-ups against the published tables; the keys of the sources as in the data files."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.trade import Trade, load_trade
from castoff.trade.gauge import INCH_MM
from castoff.trade.materials import PutUp, System, read_put_up
from castoff.trade.table import TradeTableError

# mm, US, UK: N1 (knitting-and.com) and N8 (unitplanet.com, 2026-05-30), with the thin end from N2 (sizechartly.com)
NEEDLES = """
1.0 00000 19   | 1.25 0000 18 | 1.5 000 17  | 1.75 00 -    | 2.0 0 14     | 2.25 1 13  | 2.5 1.5 -   | 2.75 2 12
3.0 2.5 11     | 3.25 3 10    | 3.5 4 -     | 3.75 5 9     | 4.0 6 8      | 4.5 7 7    | 5.0 8 6     | 5.5 9 5
6.0 10 4       | 6.5 10.5 3   | 7.0 - 2     | 7.5 - 1      | 8.0 11 0     | 9.0 13 00  | 10.0 15 000 | 12.0 17 -
12.75 17 -     | 15.0 19 -    | 16.0 19 -   | 19.0 35 -    | 20.0 36 -    | 25.0 50 -
"""


def needle_rows() -> list[tuple[str, str, str]]:
    rows = []
    for cell in NEEDLES.replace("\n", "|").split("|"):
        if cell.strip():
            mm, us, uk = cell.split()
            rows.append((mm, us.replace("-", ""), uk.replace("-", "")))
    return rows


@pytest.mark.parametrize(("mm", "us", "uk"), needle_rows())
def test_needle_sizes(trade: Trade, mm: str, us: str, uk: str) -> None:
    needle = trade.needles.by_mm(Fraction(mm))
    assert needle is not None
    assert (needle.us, needle.uk) == (us, uk)


def test_no_western_needle_is_left_unheld(trade: Trade) -> None:
    western = {needle.mm for needle in trade.needles.needles if needle.us or needle.uk}
    assert western == {Fraction(mm) for mm, _, _ in needle_rows()}


@pytest.mark.parametrize("number", range(16))
def test_japanese_sizes_rise_by_three_tenths(trade: Trade, number: int) -> None:
    # N1: Japanese 0 is 2.1 mm, 15 is 6.6 mm, in steps of 0.3 mm
    found = trade.needles.by_local("JP", str(number))
    assert [needle.mm for needle in found] == [Fraction(21 + 3 * number, 10)]


def test_us_and_uk_numbers_run_opposite_ways_and_meet_at_seven(trade: Trade) -> None:
    same = [needle.mm for needle in trade.needles.needles if needle.us and needle.us == needle.uk]
    assert same == [Fraction("4.5")]


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("5 mm", "5"), ("5mm", "5"), ("5.0 mm", "5"), ("US 8", "5"), ("US #8", "5"), ("US size 8", "5"),
        ("8 US", "5"),
        ("UK 6", "5"), ("UK no. 6", "5"), ("5 mm (US 8)", "5"), ("US 8 (5 mm)", "5"), ("5 mm / US 8 / UK 6", "5"),
        ("US 10½", "6.5"), ("US 10 1/2", "6.5"), ("US 10.5", "6.5"), ("US 1½", "2.5"), ("US 0", "2"),
        ("US 00", "1.75"),
        ("US 000", "1.5"), ("UK 000", "10"), ("UK 0", "8"), ("Canadian 9", "3.75"), ("JP 8", "4.5"),
        ("Japanese 10", "5.1"),
        ("12 mm (US 17)", "12"), ("12.75 mm (US 17)", "12.75"), ("3.75 mm", "3.75"),
    ],
)  # fmt: skip
def test_a_needle_is_read_in_every_system(trade: Trade, text: str, mm: str) -> None:
    reading = trade.needles.read(text)
    assert reading.fault == ""
    assert reading.needle is not None
    assert reading.needle.mm == Fraction(mm)


@pytest.mark.parametrize(
    ("text", "fault", "hint"),
    [
        ("4.5 mm (US 8)", "4.5 mm and US 8 are not the same needle", "4.5 mm (US 7, UK 7); 5 mm (US 8, UK 6)"),
        ("US 17", "US 17 is sold as 12 mm and 12.75 mm", "give the millimetres"),
        ("US 19", "US 19 is sold as 15 mm and 16 mm", "give the millimetres"),
        ("US 12", "there is no needle US 12", ""),
        (
            "4.25 mm",
            "no needle of 4.25 mm is on the chart",
            "the nearest are 4 mm (US 6, UK 8) and 4.5 mm (US 7, UK 7)",
        ),
        ("medium", "`medium` names no needle size", "write it like `5 mm` or `US 8`"),
        # published slips: N7 calls 20 mm US 35; N3 prints US 0 against 2.25 mm; N2 prints UK 0 for 10 mm
        ("20 mm (US 35)", "20 mm and US 35 are not the same needle", "20 mm (US 36); 19 mm (US 35)"),
        ("2.25 mm / US 0", "2.25 mm and US 0 are not the same needle", "2.25 mm (US 1, UK 13); 2 mm (US 0, UK 14)"),
        ("10 mm (UK 0)", "10 mm and UK 0 are not the same needle", "10 mm (US 15, UK 000); 8 mm (US 11, UK 0)"),
    ],
)
def test_a_needle_text_that_is_wrong(trade: Trade, text: str, fault: str, hint: str) -> None:
    reading = trade.needles.read(text)
    assert reading.needle is None
    assert (reading.fault, reading.hint) == (fault, hint)


def test_local_names(trade: Trade) -> None:
    assert trade.needles.names(Fraction("4.5")) == ("4.5 mm", "US 7", "UK 7", "JP 8")
    assert trade.needles.names(Fraction("3.5")) == ("3.5 mm", "US 4")
    assert trade.needles.names(Fraction("4.25")) == ("4.25 mm",)
    systems: tuple[System, ...] = ("US", "UK")
    assert trade.needles.nearest(Fraction("5.05")).words(*systems) == "5 mm (US 8, UK 6)"


@pytest.mark.parametrize(
    ("inches", "cm"),  # pairs of the trade: L1-L4; 29 in [75 cm] as leaflets print it
    [
        (9, 23),
        (12, 30),
        (16, 40),
        (20, 50),
        (24, 60),
        (29, 75),
        (32, 80),
        (36, 90),
        (40, 100),
        (47, 120),
        (55, 140),
        (60, 150),
    ],
)
def test_circular_lengths(trade: Trade, inches: int, cm: int) -> None:
    for length_mm in (inches * INCH_MM, Fraction(cm * 10)):
        found = trade.needles.circular(length_mm)
        assert found is not None
        assert (found.inches, found.cm) == (Fraction(inches), Fraction(cm))
    assert trade.needles.circular(Fraction(460)) is None


def suitable(trade: Trade, circumference_in: str) -> list[int]:
    lengths = trade.needles.suitable_circulars(Fraction(circumference_in) * INCH_MM)
    return [int(length.inches) for length in lengths]


def test_which_circular_suits(trade: Trade) -> None:
    # nancy-queen.squarespace.com: a hat of 20 in takes a 16 to 20 in needle
    assert suitable(trade, "20") == [16, 20]
    # L1: the needle must be shorter than the piece; a 29 in needle with 19 in of cord holds up to 57 in
    assert 29 not in suitable(trade, "28")
    assert 29 in suitable(trade, "57")
    assert 29 not in suitable(trade, "57.5")
    # L1: 204 sts at 18 to 4 in are 45.33 in round
    assert suitable(trade, "45.33") == [24, 29, 32, 36, 40]
    assert suitable(trade, "8") == []


# Standard Yarn Weight System, Craft Yarn Council, as copied by S1 (sconch.com): number, name, stockinette gauge over
# 4 in, needles in mm, hooks in mm
WEIGHTS = [
    (0, "Lace", (33, 40), ("1.5", "2.25"), ("2.25", "2.25")),
    (1, "Super Fine", (27, 32), ("2.25", "3.25"), ("2.25", "3.5")),
    (2, "Fine", (23, 26), ("3.25", "3.75"), ("3.5", "4.5")),
    (3, "Light", (21, 24), ("3.75", "4.5"), ("4.5", "5.5")),
    (4, "Medium", (16, 20), ("4.5", "5.5"), ("5.5", "6.5")),
    (5, "Bulky", (12, 15), ("5.5", "8"), ("6.5", "9")),
    (6, "Super Bulky", (7, 11), ("8", "12.75"), ("9", "15")),
    (7, "Jumbo", (None, 6), ("12.75", None), ("15", None)),
]


@pytest.mark.parametrize(("number", "name", "gauge", "needles", "hooks"), WEIGHTS)
def test_the_standard_yarn_weights(
    trade: Trade,
    number: int,
    name: str,
    gauge: tuple[int | None, int],
    needles: tuple[str, str | None],
    hooks: tuple[str, str | None],
) -> None:
    weight = trade.yarn_weights.weights[number]
    assert (weight.number, weight.name) == (number, name)
    assert weight.gauge == tuple(None if count is None else Fraction(count) for count in gauge)
    assert weight.needle_mm == tuple(None if mm is None else Fraction(mm) for mm in needles)
    assert weight.hook_mm == tuple(None if mm is None else Fraction(mm) for mm in hooks)


def test_the_standard_pairs_its_millimetres_with_us_sizes(trade: Trade) -> None:
    # S1: 2.25-3.25 mm is US 1-3, 5.5-8 mm US 9-11, 8-12.75 mm US 11-17: held against the needle chart
    for weight in trade.yarn_weights.weights:
        for mm, us in zip(weight.needle_mm, weight.needle_us, strict=True):
            if mm is not None:
                assert f"US {us}" in trade.needles.names(mm)


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("worsted", [4]), ("Worsted weight", [4]), ("aran", [4]), ("DK", [3]), ("double knitting", [3]),
        ("light worsted", [3]),
        ("sport", [2]), ("fingering", [1]), ("4 ply", [1]), ("4-ply", [1]), ("4ply", [1]), ("chunky", [5]),
        ("bulky", [5]),
        ("super bulky", [6]), ("8 ply", [3]), ("10 ply", [4]), ("5 ply", [2]), ("2 ply", [0]), ("lace", [0]),
        ("jumbo", [7]),
        # S6, S7, S8, S10 and S12 disagree: 12 ply is aran or chunky, 14 ply chunky or super bulky
        ("12 ply", [4, 5]), ("14 ply", [5, 6]), ("16 ply", [6, 7]), ("super chunky", [6, 7]),
        ("4", [4]), ("#4", [4]), ("CYC 3", [3]), ("Medium", [4]), ("Super Fine", [1]), ("9", []), ("thick", []),
    ],
)  # fmt: skip
def test_yarn_names(trade: Trade, text: str, numbers: list[int]) -> None:
    assert [weight.number for weight in trade.yarn_weights.find(text)] == numbers


def test_yarn_names_of_one_region(trade: Trade) -> None:
    assert trade.yarn_weights.find("worsted", "UK") == ()
    assert [weight.number for weight in trade.yarn_weights.find("4 ply", "UK")] == [1]
    assert trade.yarn_weights.find("4 ply", "US") == ()
    assert trade.yarn_weights.weights[4].names("AU/NZ")[0] == "10 ply"


@pytest.mark.parametrize(
    ("stitches", "numbers"),
    # the ranges overlap at 23 and 24 and leave gaps at 20.5: a gauge alone never settles the weight
    [("23", [2, 3]), ("24", [2, 3]), ("20.5", []), ("18", [4]), ("28", [1]), ("6", [7]), ("5", [7]), ("45", [])],
)
def test_weight_by_gauge(trade: Trade, stitches: str, numbers: list[int]) -> None:
    assert [weight.number for weight in trade.yarn_weights.by_gauge(Fraction(stitches))] == numbers


def test_weight_by_metres(trade: Trade) -> None:
    # S6 (a UK dyer, 2024): aran 120-200 m, DK 200-250 m, 4 ply 350-450 m in 100 g
    assert 4 in [weight.number for weight in trade.yarn_weights.by_metres(Fraction(160))]
    assert 3 in [weight.number for weight in trade.yarn_weights.by_metres(Fraction(230))]
    assert 1 in [weight.number for weight in trade.yarn_weights.by_metres(Fraction(400))]


@pytest.mark.parametrize(
    ("text", "m", "g"),
    [
        ("200 m / 100 g", "200", "100"), ("100 g = 200 m", "200", "100"), ("200m/100g", "200", "100"),
        ("137 yd (125 m) per 50 g", "125.2728", "50"), ("219 yds / 3.5 oz", "200.2536", "99.2233309375"),
        ("50 g / 115 m", "115", "50"),
    ],
)  # fmt: skip
def test_put_ups(text: str, m: str, g: str) -> None:
    put_up = read_put_up(text)
    assert put_up is not None
    assert put_up.length_mm == Fraction(m) * 1000
    assert abs(put_up.mass_g - Fraction(g)) < Fraction(1, 1000)


@pytest.mark.parametrize("text", ["", "200 m", "100 g", "a ball", "0 m / 100 g", "200 / 100"])
def test_what_is_no_put_up(text: str) -> None:
    assert read_put_up(text) is None


def test_put_up_arithmetic() -> None:
    ball = PutUp(Fraction(200_000), Fraction(100))
    assert ball.m_per_100g == 200
    assert ball.mass_of(Fraction(50_000)) == 25
    assert ball.length_of(Fraction(25)) == 50_000
    # nordicmart.blogspot.com, 2014-03: 1100 yd at 109 yd a ball is 10.09 balls; a pattern rounds up (the page
    # does not)
    assert PutUp(Fraction(109), Fraction(50)).balls(Fraction(1100)) == 11
    assert ball.balls(Fraction(400_000)) == 2
    assert ball.balls(Fraction(0)) == 0
    with pytest.raises(ValueError, match="above zero"):
        PutUp(Fraction(0), Fraction(100))


@given(length=st.integers(1, 10**7), ball=st.integers(1, 10**6))
def test_balls_are_enough_and_not_one_too_many(length: int, ball: int) -> None:
    count = PutUp(Fraction(ball), Fraction(50)).balls(Fraction(length))
    assert (count - 1) * ball < length <= count * ball


@pytest.mark.parametrize(
    ("pounds", "metres"), [(2401, 484), (1900, 383), (1200, 242), (900, 181), (600, 121), (400, 81)]
)
def test_yards_per_pound_to_metres_in_100_g(pounds: int, metres: int) -> None:
    # S4, the spinners' sheet, converted by 0.9144 m and 453.59237 g; rounded to a metre
    put_up = read_put_up(f"{pounds} yd / 1 lb")
    assert put_up is not None
    assert round(put_up.m_per_100g) == metres


def test_hooks(trade: Trade) -> None:
    # N8, N9, N10: 4 mm is G-6 and UK 8, 5 mm H-8 and UK 6
    hooks = {hook.mm: (hook.us, hook.uk) for hook in trade.needles.hooks}
    assert hooks[Fraction(4)] == ("G-6", "8")
    assert hooks[Fraction(5)] == ("H-8", "6")
    assert hooks[Fraction("6.5")] == ("K-10.5", "3")


@pytest.mark.parametrize(
    ("file", "old", "new", "fault"),
    [
        ("needles", '{mm: 5.0, us: "8"', '{mm: 5,0, us: "8"', "`0` is not a column of this table"),
        ("needles", '{mm: 5.0, us: "8"', '{mm: thick, us: "8"', "mm: should be a number, and is `thick`"),
        ("needles", '{mm: 5.0, us: "8"', '{mm: 4.0, us: "8"', "4 mm stands in the chart twice"),
        ("needles", '{mm: 5.0, us: "8"', '{us: "8"', "has no `mm`"),
        ("needles", "suits_in: [16, 24]", "suits_in: [24, 16]", "the low end 24 is above the high end 16"),
        ("yarn_weights", "gauge: [16, 20], needle_mm", "needle_mm", "weights › 4: has no `gauge`"),
        ("yarn_weights", "  4: {name", "  four: {name", "the key of a yarn weight is its number"),
        ("yarn_weights", "[4.5, 5.5], needle_us", "[4.5, 5.5, 6], needle_us", "needle_mm: should be `[low, high]`"),
    ],
)
def test_a_faulty_house_table(read_template: Callable[[str], str], file: str, old: str, new: str, fault: str) -> None:
    text = read_template(f"trade/{file}.yaml")
    assert text.count(old) == 1
    trade = load_trade(lambda name: text.replace(old, new))
    with pytest.raises(TradeTableError) as caught:
        _ = trade.needles if file == "needles" else trade.yarn_weights
    assert fault in str(caught.value)
    assert str(caught.value).startswith(f"trade/{file}.yaml, line {text[: text.index(old)].count(chr(10)) + 1}: ")
