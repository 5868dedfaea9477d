"""Shaping: changes spread over rows, across a row, and down a slope, as evenly as whole stitches and rows allow.

In: whole counts of one size. Out: frozen plans (`Spread`, `Evenly`, `Slope`, `Curve`), each of which can say itself in a
knitter's words and name its numbers for formulas; `one_wording` bends the spreads of several sizes into one sentence. The
rule is the trade's "magic formula": with `q, r = divmod(rows, times)`, work every q-th row `times - r` times and every
(q + 1)-th row `r` times (Ann Budd, "Magic Formula for Placement of Increases or Decreases", 2010, after Cheryl Brunette
and Shirley Paden).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import floor, isqrt
from typing import Literal

First = Literal["shorter", "longer"]


class Impossible(ValueError):
    """No plan exists; the message says why with the sum, the hint what would fit."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def ordinal(number: int) -> str:
    """1st, 2nd, 3rd, 4th … 11th … 21st."""
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def _times(number: int) -> str:
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


@dataclass(frozen=True, slots=True)
class Spread:
    """Shaping rows over rows: every `every`-th row `times` times, then every `then_every`-th row `then_times` times.

    then_times is 0 when one rate does it all. rest: rows left to work plain at the end.
    """

    every: int
    times: int
    then_every: int
    then_times: int
    rest: int = 0

    @property
    def rows(self) -> int:
        """All rows, plain and shaping."""
        return self.every * self.times + self.then_every * self.then_times + self.rest

    @property
    def apart(self) -> int:
        """By how many rows the two intervals differ; 0 when one rate does it all."""
        return abs(self.every - self.then_every) if self.times and self.then_times else 0

    @property
    def shaping_rows(self) -> tuple[int, ...]:
        """Numbers of the rows that are shaped, from 1; the shaping is on the last row of each interval."""
        first = tuple(self.every * number for number in range(1, self.times + 1))
        turn = self.every * self.times
        return first + tuple(turn + self.then_every * number for number in range(1, self.then_times + 1))

    @property
    def words(self) -> str:
        """ "every 4th row 34 times, then every 5th row 8 times"; "" when nothing is to be shaped."""
        parts = [
            f"every {'row' if every == 1 else f'{ordinal(every)} row'} {_times(times)}"
            for every, times in ((self.every, self.times), (self.then_every, self.then_times))
            if times
        ]
        return ", then ".join(parts)

    @property
    def numbers(self) -> tuple[tuple[str, int], ...]:
        """What formulas can ask the plan for."""
        return (
            ("every", self.every), ("times", self.times), ("then_every", self.then_every),
            ("then_times", self.then_times), ("rest", self.rest),
        )  # fmt: skip


def spread(times: int, rows: int, *, unit: int = 1, first: First = "shorter", single: bool = False) -> Spread:
    """The smoothest split of `times` shaping rows over `rows` rows: at most two rates, one apart (`unit` apart).

    unit: 2 keeps every shaping on the same side of flat knitting, so that all intervals are even; an odd row that
        is over is left plain at the end (`rest`).
    first: which interval is worked first.
    single: one rate only; the rows that are over stay plain at the end.
    Raises Impossible when there are fewer rows than the shaping needs.
    """
    if times < 0 or rows < 0:
        raise Impossible(f"{times} shaping rows over {rows} rows", "neither number can be below zero")
    if times == 0:
        return Spread(unit, 0, unit, 0, rows)
    steps, rest = divmod(rows, unit)
    short, more = divmod(steps, times)
    if short == 0:
        where = "rows" if unit == 1 else "rows with the shaping on one side only"
        raise Impossible(
            f"{times} shaping rows do not fit into {rows} {where}: {times} × {unit} = {times * unit}",
            f"give at least {times * unit} rows, or shape at most {steps} times",
        )
    if single:
        return Spread(short * unit, times, (short + 1) * unit, 0, rows - short * unit * times)
    shorter, longer = (short * unit, times - more), ((short + 1) * unit, more)
    if not more:
        return Spread(*shorter, (short + 1) * unit, 0, rest)
    one, two = (shorter, longer) if first == "shorter" else (longer, shorter)
    return Spread(*one, *two, rest)


@dataclass(frozen=True, slots=True)
class OneWording:
    """Spreads that are said in one sentence in every size.

    cost: what it cost, a phrase for each size that would be smoother alone; empty when it cost nothing.
    """

    plans: tuple[Spread | None, ...]
    cost: tuple[tuple[int, str], ...] = ()


def one_wording(asked: Sequence[tuple[int, int] | None], *, unit: int = 1, first: First = "shorter") -> OneWording:
    """Spreads for several sizes, all with one rate or all with two, so that every size follows the same sentence.

    asked: (times, rows) of each size; None where the size skips. Where the smoothest plans differ in that, either the
    sizes with two rates take one and leave plain rows at the end, as long as these are fewer than one more interval; or
    the sizes with one rate take two, a step to either side of it. Where neither can be had, the smoothest plans stay.
    Raises Impossible as `spread` does.
    """
    smooth = tuple(None if each is None else spread(*each, unit=unit, first=first) for each in asked)
    shaped = [plan for plan in smooth if plan is not None and plan.times + plan.then_times]
    if len({plan.then_times > 0 for plan in shaped}) < 2:
        return OneWording(smooth)
    single = tuple(None if each is None else spread(*each, unit=unit, single=True) for each in asked)
    if all(plan is None or not plan.times or plan.rest < plan.every for plan in single):
        cost = [
            (index, f"{plan.rest} plain {'row' if plan.rest == 1 else 'rows'} at the end instead of {was.words}")
            for index, (plan, was) in enumerate(zip(single, smooth, strict=True))
            if plan is not None and was is not None and was.then_times
        ]
        return OneWording(single, tuple(cost))
    double = tuple(None if plan is None else _two_rates(plan, unit, first) for plan in smooth)
    if any(plan is not None and plan.times and not plan.then_times for plan in double):
        return OneWording(smooth)
    cost = [
        (index, f"intervals {plan.apart} rows apart instead of {was.words}")
        for index, (plan, was) in enumerate(zip(double, smooth, strict=True))
        if plan is not None and was is not None and plan != was
    ]
    return OneWording(double, tuple(cost))


def _two_rates(plan: Spread, unit: int, first: First) -> Spread:
    """A plan of one rate as two, a step shorter and a step longer; as it is when it has two or cannot have them.

    An odd number of changes leaves one step over, which stays plain at the end.
    """
    longer = plan.times // 2
    if plan.then_times or not longer or plan.every <= unit:
        return plan
    shorter = plan.times - longer
    one, two = (plan.every - unit, shorter), (plan.every + unit, longer)
    if first == "longer":
        one, two = two, one
    return Spread(*one, *two, plan.rest + unit * (shorter - longer))


@dataclass(frozen=True, slots=True)
class Evenly:
    """Changes across a row: so many stitches before the first change, between changes, and after the last.

    before, after: stitches at the ends; 0 before the first in the round.
    each, count: the first intervals; then_each, then_count: the others, one stitch apart (then_count 0 when all alike).
    uses: stitches that a change takes up itself: 2 for k2tog, 1 for an increase, which stands behind its interval.
    Every interval stands between a change and the next; in the round the last ends at the round's end.
    """

    before: int
    each: int
    count: int
    then_each: int
    then_count: int
    after: int
    uses: int = 1

    @property
    def stitches(self) -> int:
        """All stitches of the row before the change."""
        return self.before + self.each * self.count + self.then_each * self.then_count + self.after

    @property
    def positions(self) -> tuple[int, ...]:
        """After which stitch each change falls, from 1."""
        gaps = [self.each] * self.count + [self.then_each] * self.then_count
        at, found = self.before, [self.before] if self.before else []
        for gap in gaps:
            at += gap
            found.append(at)
        return tuple(found)

    @property
    def words(self) -> str:
        """The row: "k6, m1, [k13, m1] 3 times, k6", or with k2tog when a change uses two stitches."""
        return self.worded("inc" if self.uses == 1 else "dec")

    def worded(self, change: Literal["inc", "dec"]) -> str:
        """The row with m1 for each change, or with k2tog, which uses two stitches of its interval."""
        parts: list[str] = []
        if self.before:
            parts += _knit(self.before, change)
        for each, count in ((self.each, self.count), (self.then_each, self.then_count)):
            if count:
                inner = ", ".join(_knit(each, change))
                parts.append(inner if count == 1 else f"[{inner}] {_times(count)}")
        if self.after:
            parts.append(f"k{self.after}")
        return ", ".join(parts)

    @property
    def numbers(self) -> tuple[tuple[str, int], ...]:
        """What formulas can ask the plan for."""
        return (
            ("before", self.before), ("each", self.each), ("count", self.count), ("then_each", self.then_each),
            ("then_count", self.then_count), ("after", self.after),
        )  # fmt: skip


def _knit(stitches: int, change: Literal["inc", "dec"]) -> list[str]:
    if change == "inc":
        return [f"k{stitches}", "m1"]
    return [*([f"k{stitches - 2}"] if stitches > 2 else []), "k2tog"]


def evenly(changes: int, across: int, *, worked: Literal["flat", "round"] = "round", uses: int = 1) -> Evenly:
    """Changes spaced evenly across a row.

    worked: in the round every interval ends in a change, and the longer ones come first; flat, half an interval stands
        before the first change and half behind the last, so that no change falls on an edge.
    uses: stitches that a change needs for itself: 1 for an increase, 2 for a decrease.
    Raises Impossible when the row is too short.
    """
    if changes < 0 or across < 0:
        raise Impossible(f"{changes} changes across {across} stitches", "neither number can be below zero")
    if changes == 0:
        return Evenly(0, 0, 0, 0, 0, across, uses)
    if changes * uses > across:
        raise Impossible(
            f"{changes} changes do not fit across {across} stitches: {changes} × {uses} = {changes * uses}",
            f"change at most {across // uses} times in one row",
        )
    short, more = divmod(across, changes)
    if worked == "round":
        if not more:
            return Evenly(0, short, changes, short + 1, 0, 0, uses)
        return Evenly(0, short + 1, more, short, changes - more, 0, uses)
    if changes == 1:
        before = max(uses, (across + 1) // 2)
        return Evenly(before, 0, 0, 0, 0, across - before, uses)
    # The last part is half an interval, rounded down; what is left over makes the first intervals longer.
    gaps = changes - 1
    average = Fraction(across, changes)
    ends = floor(average)
    before = max(uses, (ends + 1) // 2)
    after = ends - before
    short, more = divmod(across - before - after, gaps)
    if short < uses:
        before, after = uses, 0
        short, more = divmod(across - before, gaps)
    if not more:
        return Evenly(before, short, gaps, short + 1, 0, after, uses)
    return Evenly(before, short + 1, more, short, gaps - more, after, uses)


@dataclass(frozen=True, slots=True)
class Slope:
    """Stitches bound off, or left for short rows, in steps: `each` `times` times, then `then_each` `then_times` times.

    The larger steps come first unless asked otherwise, so that a shoulder or cap starts flat at its outer edge.
    """

    each: int
    times: int
    then_each: int
    then_times: int

    @property
    def stitches(self) -> int:
        """All stitches of the slope."""
        return self.each * self.times + self.then_each * self.then_times

    @property
    def words(self) -> str:
        """ "8 sts twice, then 7 sts once"."""
        return ", then ".join(
            f"{each} {'st' if each == 1 else 'sts'} {_times(times)}"
            for each, times in ((self.each, self.times), (self.then_each, self.then_times))
            if times
        )

    @property
    def numbers(self) -> tuple[tuple[str, int], ...]:
        """What formulas can ask the plan for."""
        return (
            ("each", self.each), ("times", self.times), ("then_each", self.then_each), ("then_times", self.then_times),
        )  # fmt: skip


def slope(stitches: int, steps: int, *, first: Literal["larger", "smaller"] = "larger") -> Slope:
    """The most even split of stitches into steps. Raises Impossible for fewer stitches than steps.

    first: which steps come first. Short rows that lengthen from the middle outwards take the smaller ones first.
    """
    if steps <= 0 or stitches < 0:
        raise Impossible(f"{stitches} stitches in {steps} steps", "there has to be at least one step")
    short, more = divmod(stitches, steps)
    if short == 0:
        raise Impossible(f"{stitches} stitches do not give {steps} steps", f"take at most {stitches} steps")
    if not more:
        return Slope(short, steps, short - 1, 0)
    if first == "smaller":
        return Slope(short, steps - more, short + 1, more)
    return Slope(short + 1, more, short, steps - more)


@dataclass(frozen=True, slots=True)
class Curve:
    """Stitches bound off along a quarter of an oval: a neck, an armhole or the foot of a sleeve cap, at one edge.

    first: the first and largest step; then so many steps of four, three, two and one stitches. rest: steps without a
    change, where the edge has become straight. Each step is two rows, since an edge can be bound off every other row.
    """

    first: int
    fours: int
    threes: int
    twos: int
    ones: int
    rest: int

    @property
    def stitches(self) -> int:
        """All stitches of the curve."""
        return self.first + 4 * self.fours + 3 * self.threes + 2 * self.twos + self.ones

    @property
    def steps(self) -> tuple[int, ...]:
        """Stitches of every step in order."""
        runs = ((4, self.fours), (3, self.threes), (2, self.twos), (1, self.ones), (0, self.rest))
        return (self.first, *(each for each, times in runs for _ in range(times)))

    @property
    def words(self) -> str:
        """ "10 sts once, then 3 sts twice, then 1 st 4 times"."""
        runs = ((self.first, 1), (4, self.fours), (3, self.threes), (2, self.twos), (1, self.ones))
        said = [f"{each} {'st' if each == 1 else 'sts'} {_times(times)}" for each, times in runs if each and times]
        return ", then ".join(said)

    @property
    def numbers(self) -> tuple[tuple[str, int], ...]:
        """What formulas can ask the plan for."""
        return (
            ("first", self.first), ("fours", self.fours), ("threes", self.threes), ("twos", self.twos),
            ("ones", self.ones), ("rest", self.rest),
        )  # fmt: skip


LARGEST_LATER_STEP = 4


def curve(stitches: int, steps: int) -> Curve:
    """Steps that follow a quarter of an oval as closely as whole stitches allow: `stitches` wide, `steps` high.

    After t of n steps, S × √(1 − (1 − t/n)²) of S stitches are gone, to the nearest whole; what would make a later
    step larger than four stitches goes into the first. Raises Impossible for no steps.
    """
    if steps <= 0 or stitches < 0:
        raise Impossible(f"{stitches} stitches in {steps} steps", "there has to be at least one step")
    # the root of a whole number, to the nearest: exact, where floats would leave a half to chance
    gone = [(isqrt(4 * stitches**2 * (steps**2 - (steps - at) ** 2) // steps**2) + 1) // 2 for at in range(steps + 1)]
    sizes = sorted((after - before for before, after in pairwise(gone)), reverse=True)
    later = [min(each, LARGEST_LATER_STEP) for each in sizes[1:]]
    counts = {each: later.count(each) for each in range(LARGEST_LATER_STEP + 1)}
    return Curve(stitches - sum(later), counts[4], counts[3], counts[2], counts[1], counts[0])
