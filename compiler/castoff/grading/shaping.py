"""Shaping: changes spread over rows, across a row, and down a slope, as evenly as whole stitches and rows allow.

In: whole counts of one size. Out: frozen plans (`Spread`, `Evenly`, `Slope`), each of which can say itself in a
knitter's words and name its numbers for formulas. The rule is the trade's "magic formula": with `q, r = divmod(rows,
times)`, work every q-th row `times - r` times and every (q + 1)-th row `r` times (Ann Budd, "Magic Formula for
Placement
of Increases or Decreases", 2010, after Cheryl Brunette and Shirley Paden).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor
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


def spread(times: int, rows: int, *, unit: int = 1, first: First = "shorter") -> Spread:
    """The smoothest split of `times` shaping rows over `rows` rows: at most two rates, one apart (`unit` apart).

    unit: 2 keeps every shaping on the same side of flat knitting, so that all intervals are even; an odd row that
        is over is left plain at the end (`rest`).
    first: which interval is worked first.
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
    shorter, longer = (short * unit, times - more), ((short + 1) * unit, more)
    if not more:
        return Spread(*shorter, (short + 1) * unit, 0, rest)
    one, two = (shorter, longer) if first == "shorter" else (longer, shorter)
    return Spread(*one, *two, rest)


@dataclass(frozen=True, slots=True)
class Evenly:
    """Changes across a row: so many stitches before the first change, between changes, and after the last.

    before, after: stitches at the ends; 0 before the first in the round.
    each, count: the first intervals; then_each, then_count: the others, one stitch apart (then_count 0 when all alike).
    Every interval stands between a change and the next; in the round the last ends at the round's end.
    """

    before: int
    each: int
    count: int
    then_each: int
    then_count: int
    after: int

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
        """The increases: "k6, m1, [k13, m1] 3 times, k6"."""
        return self.worded("inc")

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
        return Evenly(0, 0, 0, 0, 0, across)
    if changes * uses > across:
        raise Impossible(
            f"{changes} changes do not fit across {across} stitches: {changes} × {uses} = {changes * uses}",
            f"change at most {across // uses} times in one row",
        )
    short, more = divmod(across, changes)
    if worked == "round":
        if not more:
            return Evenly(0, short, changes, short + 1, 0, 0)
        return Evenly(0, short + 1, more, short, changes - more, 0)
    if changes == 1:
        before = max(uses, (across + 1) // 2)
        return Evenly(before, 0, 0, 0, 0, across - before)
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
        return Evenly(before, short, gaps, short + 1, 0, after)
    return Evenly(before, short + 1, more, short, gaps - more, after)


@dataclass(frozen=True, slots=True)
class Slope:
    """Stitches bound off, or left for short rows, in steps: `each` `times` times, then `then_each` `then_times` times.

    The larger steps come first, so that a shoulder or cap starts steep at its outer edge.
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


def slope(stitches: int, steps: int) -> Slope:
    """The most even split of stitches into steps. Raises Impossible for fewer stitches than steps."""
    if steps <= 0 or stitches < 0:
        raise Impossible(f"{stitches} stitches in {steps} steps", "there has to be at least one step")
    short, more = divmod(stitches, steps)
    if short == 0:
        raise Impossible(f"{stitches} stitches do not give {steps} steps", f"take at most {stitches} steps")
    if not more:
        return Slope(short, steps, short - 1, 0)
    return Slope(short + 1, more, short, steps - more)
