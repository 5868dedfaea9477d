"""Shaping plans against published examples, and against trying every plan.

Sources: M2 "Knitting and the Magic Formula" (a hints page), M3 Ann Budd 2010, M4 a designer's sleeve worked through in
public (2007), M5 and M7 two pages on spacing increases, M8 "Evenly across part I", M9 a yarn company's lesson. Each
example was worked again by hand.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.grading.shaping import (
    Curve,
    Evenly,
    Impossible,
    OneWording,
    Slope,
    Spread,
    curve,
    evenly,
    one_wording,
    ordinal,
    slope,
    spread,
)


@pytest.mark.parametrize(
    ("times", "rows", "plan", "words"),
    [
        (36, 140, Spread(3, 4, 4, 32), "every 3rd row 4 times, then every 4th row 32 times"),  # M2
        (42, 176, Spread(4, 34, 5, 8), "every 4th row 34 times, then every 5th row 8 times"),  # M4
        (12, 30, Spread(2, 6, 3, 6), "every 2nd row 6 times, then every 3rd row 6 times"),  # our rule on M3's input
        (10, 40, Spread(4, 10, 5, 0), "every 4th row 10 times"),
        (7, 7, Spread(1, 7, 2, 0), "every row 7 times"),
        (1, 9, Spread(9, 1, 10, 0), "every 9th row once"),
        (2, 3, Spread(1, 1, 2, 1), "every row once, then every 2nd row once"),
        (0, 12, Spread(1, 0, 1, 0, 12), ""),
    ],
)
def test_spread(times: int, rows: int, plan: Spread, words: str) -> None:
    assert spread(times, rows) == plan
    assert plan.words == words


def test_spread_on_right_side_rows() -> None:
    """36 times over 140 rows, right side only: 70 pairs, every 2nd row twice and every 4th row 34 times."""
    plan = spread(36, 140, unit=2)
    assert plan == Spread(2, 2, 4, 34)
    assert plan.rows == 140
    assert all(row % 2 == 0 for row in plan.shaping_rows)
    assert spread(3, 25, unit=2) == Spread(8, 3, 10, 0, rest=1)


def test_the_longer_intervals_can_come_first() -> None:
    assert spread(36, 140, first="longer") == Spread(4, 32, 3, 4)


def test_more_shaping_than_rows() -> None:
    with pytest.raises(Impossible) as told:
        spread(12, 10)
    assert str(told.value) == "12 shaping rows do not fit into 10 rows: 12 × 1 = 12"
    assert told.value.hint == "give at least 12 rows, or shape at most 10 times"
    with pytest.raises(Impossible) as told:
        spread(12, 20, unit=2)
    assert str(told.value) == "12 shaping rows do not fit into 20 rows with the shaping on one side only: 12 × 2 = 24"
    assert told.value.hint == "give at least 24 rows, or shape at most 10 times"


@given(st.integers(1, 60), st.integers(0, 200), st.sampled_from([1, 2]))
def test_spread_is_the_smoothest_there_is(times: int, rows: int, unit: int) -> None:
    """All rows used, every change placed, intervals as equal as whole rows allow: no plan has a smaller spread."""
    try:
        plan = spread(times, rows, unit=unit)
    except Impossible:
        assert rows // unit < times
        return
    assert plan.rows == rows
    assert plan.times + plan.then_times == times
    assert plan.rest == rows % unit
    intervals = [after - before for before, after in pairwise((0, *plan.shaping_rows))]
    assert sum(intervals) + plan.rest == rows
    assert all(interval % unit == 0 and interval > 0 for interval in intervals)
    assert max(intervals) - min(intervals) <= unit


@given(st.integers(1, 7), st.integers(1, 14))
def test_spread_against_every_plan_of_two_rates(times: int, rows: int) -> None:
    """Brute force: of all ways to use every row in two rates, none has rates closer together."""
    ways = [
        (abs(one - other), first)
        for one in range(1, rows + 1)
        for other in range(1, rows + 1)
        for first in range(times + 1)
        if one * first + other * (times - first) == rows and 0 < first < times
    ] + [(0, times) for one in range(1, rows + 1) if one * times == rows]
    if not ways:
        with pytest.raises(Impossible):
            spread(times, rows)
        return
    plan = spread(times, rows)
    apart = abs(plan.every - plan.then_every) if plan.then_times else 0
    assert apart == min(ways)[0]


@pytest.mark.parametrize(
    ("changes", "across", "plan"),
    [
        (14, 124, Evenly(0, 9, 12, 8, 2, 0)),  # M3: 8 twice and 9 twelve times
        (6, 48, Evenly(0, 8, 6, 9, 0, 0)),  # M8
        (10, 100, Evenly(0, 10, 10, 11, 0, 0)),  # M5
        (11, 100, Evenly(0, 10, 1, 9, 10, 0)),  # M5: 9 ten times and 10 once
    ],
)
def test_evenly_in_the_round(changes: int, across: int, plan: Evenly) -> None:
    assert evenly(changes, across) == plan
    assert plan.stitches == across


def test_positions_in_the_round_and_flat() -> None:
    """51 sts, 4 increases (M7): after 13, 26, 39, 51 in the round; after 6, 19, 32, 45 flat."""
    assert evenly(4, 51).positions == (13, 26, 39, 51)
    assert evenly(4, 51, worked="flat").positions == (6, 19, 32, 45)
    assert evenly(12, 48, worked="flat") == Evenly(2, 4, 11, 5, 0, 2)  # M9: 2, then 11 gaps of 4, then 2


def test_evenly_in_words() -> None:
    assert evenly(4, 51, worked="flat").words == "k6, m1, [k13, m1] 3 times, k6"
    assert evenly(14, 124).worded("dec") == "[k7, k2tog] 12 times, [k6, k2tog] twice"
    assert evenly(3, 6).worded("dec") == "[k2tog] 3 times"
    assert evenly(1, 7, worked="flat").words == "k4, m1, k3"
    assert evenly(0, 7).words == "k7"


def test_more_changes_than_stitches() -> None:
    with pytest.raises(Impossible) as told:
        evenly(30, 50, uses=2)
    assert str(told.value) == "30 changes do not fit across 50 stitches: 30 × 2 = 60"
    assert told.value.hint == "change at most 25 times in one row"


@given(st.integers(1, 60), st.integers(0, 300), st.sampled_from(["flat", "round"]), st.sampled_from([1, 2]))
def test_evenly_uses_every_stitch_and_balances_the_ends(changes: int, across: int, worked: str, uses: int) -> None:
    form = "flat" if worked == "flat" else "round"
    try:
        plan = evenly(changes, across, worked=form, uses=uses)  # type: ignore[arg-type]
    except Impossible:
        assert changes * uses > across
        return
    assert plan.stitches == across
    assert len(plan.positions) == changes
    gaps = [after - before for before, after in pairwise((0, *plan.positions))]
    assert min(gaps) >= uses
    inner = gaps[1:] if form == "flat" else gaps
    if inner:
        assert max(inner) - min(inner) <= 1
    if form == "flat" and across >= 3 * changes * uses:
        assert abs(plan.before - plan.after) <= 1
        assert abs(2 * plan.before - across / changes) <= 2


@pytest.mark.parametrize(
    ("stitches", "steps", "plan", "words"),
    [
        (23, 3, Slope(8, 2, 7, 1), "8 sts twice, then 7 sts once"),
        (24, 3, Slope(8, 3, 7, 0), "8 sts 3 times"),
        (3, 3, Slope(1, 3, 0, 0), "1 st 3 times"),
    ],
)
def test_slope(stitches: int, steps: int, plan: Slope, words: str) -> None:
    assert slope(stitches, steps) == plan
    assert (plan.words, plan.stitches) == (words, stitches)


def test_more_steps_than_stitches() -> None:
    with pytest.raises(Impossible, match="2 stitches do not give 3 steps"):
        slope(2, 3)


@given(st.integers(1, 200), st.integers(1, 40))
def test_slopes_use_every_stitch(stitches: int, steps: int) -> None:
    if stitches < steps:
        return
    plan = slope(stitches, steps)
    assert plan.stitches == stitches
    assert plan.times + plan.then_times == steps


def test_ordinals() -> None:
    shown = [ordinal(number) for number in (1, 2, 3, 4, 11, 12, 13, 21, 22, 101, 111)]
    assert shown == ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "22nd", "101st", "111th"]


# ------------------------------------------------------------------------------- one rate, one wording, curves


def test_one_rate_leaves_plain_rows() -> None:
    """140 rows and 36 changes in one rate (M2 calls it the naive way): every 3rd row, and 32 rows are left plain."""
    plan = spread(36, 140, single=True)
    assert plan == Spread(3, 36, 4, 0, 32)
    assert plan.rows == 140


@given(st.integers(1, 60), st.integers(0, 200), st.sampled_from([1, 2]))
def test_one_rate_is_the_longest_that_fits(times: int, rows: int, unit: int) -> None:
    if rows // unit < times:
        return
    plan = spread(times, rows, unit=unit, single=True)
    assert (plan.times, plan.then_times, plan.rows) == (times, 0, rows)
    assert plan.every % unit == 0
    assert (plan.every + unit) * times > rows


def test_sizes_that_differ_take_one_rate_when_few_rows_are_left() -> None:
    """Size 1 alone: every 4th row 10 times. Size 2 alone: every 4th row 9 times, then every 5th row once."""
    same = one_wording([(10, 40), (10, 41)])
    assert same.plans == (Spread(4, 10, 5, 0), Spread(4, 10, 5, 0, 1))
    assert same.cost == ((1, "1 plain row at the end instead of every 4th row 9 times, then every 5th row once"),)


def test_sizes_that_differ_take_two_rates_when_too_many_rows_would_be_left() -> None:
    same = one_wording([(10, 40), (11, 40)])
    assert same.plans == (Spread(3, 5, 5, 5), Spread(3, 4, 4, 7))
    assert same.cost == ((0, "intervals 2 rows apart instead of every 4th row 10 times"),)


def test_sizes_that_agree_pay_nothing() -> None:
    smooth = tuple(spread(times, 40) for times in (11, 12, 13))
    assert one_wording([(11, 40), (12, 40), (13, 40)]).plans == smooth
    assert one_wording([(11, 40), None, (0, 40)]).cost == ()


def test_where_no_wording_serves_all_the_smoothest_stay() -> None:
    """One change has one rate; eleven over forty leave more than an interval plain."""
    asked = [(1, 7), (11, 40)]
    assert one_wording(asked) == OneWording((spread(1, 7), spread(11, 40)))


@given(st.lists(st.tuples(st.integers(1, 20), st.integers(20, 120)), min_size=1, max_size=9), st.sampled_from([1, 2]))
def test_one_wording_keeps_every_change_and_row(asked: list[tuple[int, int]], unit: int) -> None:
    fitting = [(times, rows) for times, rows in asked if rows // unit >= times]
    same = one_wording(fitting, unit=unit)
    for plan, (times, rows) in zip(same.plans, fitting, strict=True):
        assert plan is not None
        assert plan.times + plan.then_times == times
        assert plan.rows == rows
        assert plan.rest >= 0
        assert all(row % unit == 0 for row in plan.shaping_rows)
    if same.cost:
        assert len({plan.then_times > 0 for plan in same.plans if plan is not None}) == 1
        smooth = tuple(spread(times, rows, unit=unit) for times, rows in fitting)
        assert [index for index, _ in same.cost] == [
            index for index, (plan, was) in enumerate(zip(same.plans, smooth, strict=True)) if plan != was
        ]


def test_short_rows_can_take_the_smaller_steps_first() -> None:
    assert slope(23, 3, first="smaller") == Slope(7, 1, 8, 2)


@pytest.mark.parametrize(
    ("stitches", "steps", "plan", "words"),
    [
        # an oval 23 wide over 8 steps: 11.1, 15.2, 18.0, 19.9, 21.3, 22.3, 22.8, 23 are gone
        (23, 8, Curve(11, 1, 1, 1, 3, 1),
         "11 sts once, then 4 sts once, then 3 sts once, then 2 sts once, then 1 st 3 times"),
        (4, 4, Curve(3, 0, 0, 0, 1, 2), "3 sts once, then 1 st once"),
        (7, 1, Curve(7, 0, 0, 0, 0, 0), "7 sts once"),
        (0, 3, Curve(0, 0, 0, 0, 0, 2), ""),
    ],
)  # fmt: skip
def test_curve(stitches: int, steps: int, plan: Curve, words: str) -> None:
    assert curve(stitches, steps) == plan
    assert plan.words == words


@given(st.integers(0, 120), st.integers(1, 40))
def test_curves_follow_the_oval(stitches: int, steps: int) -> None:
    """All stitches, never a larger step after a smaller, and within a stitch of the oval unless a step was capped."""
    plan = curve(stitches, steps)
    assert plan.stitches == stitches == sum(plan.steps)
    assert len(plan.steps) == steps
    assert all(after <= before for before, after in pairwise(plan.steps[1:]))
    gone = 0
    # a step that was capped, or single stitches before all plain steps, run ahead of the oval
    ahead = 4 in plan.steps[1:] or stitches < 2 * steps
    for at, step in enumerate(plan.steps, 1):
        gone += step
        oval = stitches * (1 - (1 - at / steps) ** 2) ** 0.5
        assert gone > oval - 1.5
        assert ahead or gone < oval + 1.5
