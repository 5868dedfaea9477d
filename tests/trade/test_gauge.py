"""Gauge arithmetic on published examples, and on published slips, with the page named beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.trade.gauge import FOUR_INCHES, INCH_MM, TEN_CM, Gauge, same_square


def per_inch(stitches: str) -> Gauge:
    return Gauge(Fraction(stitches), None, INCH_MM)


@pytest.mark.parametrize(
    ("stitches", "gauge", "inches"),
    [
        (204, Gauge(Fraction(18), None, FOUR_INCHES), "45.33"),  # woolpackyarn.com, circular lengths
        (184, per_inch("4"), "46.00"),  # double-ewe-yarn.com, Gauge Schmauge; the next three too
        (184, per_inch("4.25"), "43.29"),
        (184, per_inch("4.5"), "40.89"),
        (184, per_inch("3.5"), "52.57"),
        (144, per_inch("4"), "36.00"),  # aknitica.com, 2014-10-08
        (144, per_inch("4.5"), "32.00"),
        (160, per_inch("4"), "40.00"),  # mathsmagics.com, 2021
        (160, per_inch("3"), "53.33"),
        (126, per_inch("5.5"), "22.91"),  # knit-nottingham.blogspot.com, 2011-05: 128 sts less 2 for seams
        (46, per_inch("6"), "7.67"),
    ],
)
def test_width(stitches: int, gauge: Gauge, inches: str) -> None:
    assert f"{float(gauge.width(stitches) / INCH_MM):.2f}" == inches


@pytest.mark.parametrize(
    ("width_mm", "gauge", "stitches"),
    [
        ("480", Gauge(Fraction(22), None, TEN_CM), "105.6"),  # lovelyjubblyknits.blogspot.com, 2015-09
        ("260", Gauge(Fraction(28), None, TEN_CM), "72.8"),  # designyourownsweater.blogspot.com, 2007-01; next too
        ("560", Gauge(Fraction(28), None, TEN_CM), "156.8"),
        ("203.2", Gauge(Fraction(20), None, FOUR_INCHES), "40"),  # 8 in at 20 sts to 4 in
        ("228.6", per_inch("5.5"), "49.5"),  # knittingunplugged.com, 2016-05-23: 9 in; 13 in next
        ("330.2", per_inch("5.5"), "71.5"),
        ("184.15", per_inch("6"), "43.5"),  # Creative Knitting, 2016-09-13: 7.25 in cable panel
        ("215.9", per_inch("4.75"), "40.375"),  # zaftigknitting.com, 2011-11-16: 8.5 in foot
    ],
)
def test_stitches_in_a_width(width_mm: str, gauge: Gauge, stitches: str) -> None:
    assert gauge.stitches_in(Fraction(width_mm)) == Fraction(stitches)


def test_rows() -> None:
    # designyourownsweater.blogspot.com: 49 cm at 40 rows to 10 cm; menwhoknit.com: 20 in at 24 rows to 4 in
    assert Gauge(Fraction(28), Fraction(40), TEN_CM).rows_in(490) == 196
    assert Gauge(Fraction(16), Fraction(24), FOUR_INCHES).rows_in(20 * INCH_MM) == 120
    # kddandco.com, 2018-01-16: 8 in at 5 rows to the inch
    assert Gauge(Fraction(5), Fraction(5), INCH_MM).length(40) == 8 * INCH_MM


@pytest.mark.parametrize(
    ("stitches", "rows", "ratio"),
    [
        (20, 26, "10/13"),
        (18, 24, "3/4"),
        (16, 24, "2/3"),
    ],  # kelbournewoolens.com 2015-04; indigirl.com 2010-11; menwhoknit.com
)
def test_stitches_to_pick_up_for_a_row(stitches: int, rows: int, ratio: str) -> None:
    gauge = Gauge(Fraction(stitches), Fraction(rows), FOUR_INCHES)
    assert gauge.row_height_per_stitch_width() == Fraction(ratio)


def test_published_slips() -> None:
    # jenlikestoknit.blogspot.com, 2011-03: "18 stitches per 4 inches (4.25 stitches per inch)"
    assert Gauge(Fraction(18), None, FOUR_INCHES).stitches_in(INCH_MM) == Fraction("4.5") != Fraction("4.25")
    # Gauge Schmauge: a quarter of a stitch on 46 in is "almost 3.5 inches"
    lost = per_inch("4").width(184) - per_inch("4.25").width(184)
    assert f"{float(lost / INCH_MM):.2f}" == "2.71"


def test_four_inches_and_ten_centimetres_are_one_square_by_convention() -> None:
    # yarn company leaflets print "18 sts and 24 rows = 4 in [10 cm]"
    metric = Gauge(Fraction(18), Fraction(24), TEN_CM)
    imperial = Gauge(Fraction(18), Fraction(24), FOUR_INCHES)
    assert metric.agrees_with(imperial)
    assert metric.over(FOUR_INCHES) == imperial
    assert imperial.over(TEN_CM) == metric
    assert same_square(Fraction(50), 2 * INCH_MM)
    assert not same_square(TEN_CM, 3 * INCH_MM)
    # each is worked in its own unit all the same
    assert metric.width(18) == 100
    assert imperial.width(18) == Fraction("101.6")


def test_another_square_is_in_proportion() -> None:
    assert Gauge(Fraction(20), Fraction(28), TEN_CM).over(Fraction(50)) == Gauge(
        Fraction(10), Fraction(14), Fraction(50)
    )
    assert not Gauge(Fraction(20), None, TEN_CM).agrees_with(Gauge(Fraction(21), None, FOUR_INCHES))


@pytest.mark.parametrize(("stitches", "rows", "over"), [(0, 28, 100), (20, 0, 100), (20, 28, 0), (-20, 28, 100)])
def test_a_gauge_of_nothing_is_refused(stitches: int, rows: int, over: int) -> None:
    with pytest.raises(ValueError, match="above zero"):
        Gauge(Fraction(stitches), Fraction(rows), Fraction(over))


def test_a_gauge_without_rows_says_so() -> None:
    with pytest.raises(ValueError, match="stitches only"):
        Gauge(Fraction(20), None, TEN_CM).length(10)


@given(
    stitches=st.fractions(min_value=1, max_value=60, max_denominator=4),
    rows=st.fractions(min_value=1, max_value=80, max_denominator=4),
    count=st.integers(0, 5000),
)
def test_there_and_back_is_exact(stitches: Fraction, rows: Fraction, count: int) -> None:
    gauge = Gauge(stitches, rows, TEN_CM)
    assert gauge.stitches_in(gauge.width(count)) == count
    assert gauge.rows_in(gauge.length(count)) == count
