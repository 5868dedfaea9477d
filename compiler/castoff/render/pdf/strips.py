"""Strips and pages: a column of pieces that no page break may cut, dealt out to pages.

In: strips in reading order, with the room each wants above it and what a page break before it would cost. Out: the
pages, each a tuple of strips. All ways to break are weighed (dynamic programming), so that headings stay with what
they head, a row of instructions stays whole, no line is left alone, and the last page is no stump, wherever that is
possible at all.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import ceil

from castoff.render.pdf.sheet import Sheet

NEVER = 10_000.0
"""Before this strip only if there is no other way: behind a heading, inside a caution's title."""
ALONE = 60.0
"""Leaves one line of a paragraph alone on a page."""
IN_GROUP = 200.0
"""Cuts what should stay together."""
IN_ROW = 8.0
"""Cuts a row of instructions."""
IN_PARAGRAPH = 3.0
BETWEEN = 2.0
"""Between two blocks of one section, or two rows; before a heading a break is free."""
EMPTY = 20.0
"""A page left empty; half of one costs a quarter."""
PAGE = 4.0
"""A page more."""
STUMP = 40.0
"""A last page of a few lines."""

STACKS_APART = 7.0
"""Points between two stacks of columns: the eye goes back up to the head of the next column, and no further."""

Draw = Callable[[Sheet, float, float], None]
"""Draws on a sheet, given the x of the column's left edge and the y of the strip's upper edge."""


@dataclass(frozen=True, slots=True, eq=False)
class Panel:
    """A ground behind neighbouring strips: drawn once for each page's stretch of them, from the upper edge of the
    first to the lower edge of the last, which the drawing may pass by its padding."""

    draw: Callable[[Sheet, float, float, float], None]
    """sheet, x of the column's left edge, y of the upper and of the lower edge."""
    padding: float = 0.0
    """Room above the first strip that the ground takes at the head of a page, in points."""


@dataclass(slots=True, eq=False)
class Strip:
    """A piece of a column. height and before in points; before is dropped at the head of a page.

    cost: of a page break before it. forced: there is one. carry: strips that are drawn again above it when a page
    breaks here (a table's head). keys: what links lead to. panel: the ground it stands on.
    """

    height: float
    draw: Draw
    before: float = 0.0
    cost: float = 0.0
    forced: bool = False
    carry: tuple[Strip, ...] = ()
    keys: tuple[str, ...] = ()
    panel: Panel | None = None


@dataclass(slots=True)
class Column:
    """Strips being gathered, with the room that the last of them wants below."""

    strips: list[Strip] = field(default_factory=list)
    room: float = 0.0
    sticky: bool = False
    breaks: bool = False
    keys: list[str] = field(default_factory=list)

    def put(
        self,
        strips: list[Strip],
        before: float = 0.0,
        after: float = 0.0,
        sticky: bool = False,
        cost: float = BETWEEN,
    ) -> None:
        """Adds strips under what is there. The larger of two wishes for room counts. `sticky`: what follows must not
        part from these. cost: of a page break above them."""
        if not strips:
            return
        first = strips[0]
        first.before = max(self.room, before, first.before)
        first.cost += NEVER if self.sticky else cost
        if self.breaks:
            first.forced = bool(self.strips)
            self.breaks = False
        if self.keys:
            first.keys = (*self.keys, *first.keys)
            self.keys = []
        self.strips += strips
        self.room = after
        self.sticky = sticky

    def key(self, key: str) -> None:
        """What is added next can be led to."""
        if key:
            self.keys.append(key)


def stack_height(strips: list[Strip] | tuple[Strip, ...]) -> float:
    """Height of strips under each other, without the room above the first."""
    return sum(strip.height + (strip.before if index else 0.0) for index, strip in enumerate(strips))


def deal_out(strips: list[Strip], height: float, stump: float) -> list[tuple[Strip, ...]]:
    """The pages. height: of a page's column; stump: a last page filled less than that is to be avoided.

    A strip taller than a page gets a page of its own.
    """
    count = len(strips)
    best = [0.0] * (count + 1)
    ends = [count] * (count + 1)
    for start in range(count - 1, -1, -1):
        carried = stack_height(strips[start].carry) if start else 0.0
        used = carried + _head_room(strips[start])
        lowest = float("inf")
        for end in range(start, count):
            strip = strips[end]
            if end > start:
                if strip.forced:
                    break
                used += strip.before
            elif carried:
                used += strip.before
            used += strip.height
            if used > height + 0.01 and end > start:
                break
            cost = best[end + 1] + PAGE
            if end + 1 == count or strips[end + 1].forced:
                # a stump before an appendix looks as lost as one at the end
                cost += STUMP if start and not strips[start].forced and used < stump else 0.0
            else:
                free = max(0.0, height - used) / height
                cost += strips[end + 1].cost + EMPTY * free * free
            if cost < lowest:
                lowest, ends[start] = cost, end + 1
        best[start] = lowest
    pages: list[tuple[Strip, ...]] = []
    start = 0
    while start < count:
        carry = strips[start].carry if start else ()
        pages.append((*carry, *strips[start : ends[start]]))
        start = ends[start]
    return pages


def _head_room(strip: Strip) -> float:
    """Room that the ground of a strip needs above it at the head of a page."""
    return strip.panel.padding if strip.panel is not None else 0.0


def draw_column(sheet: Sheet, strips: tuple[Strip, ...], x: float, top: float) -> float:
    """Draws strips from `top` downward, grounds first, and marks the places of their keys. Gives the lower edge."""
    tops: list[float] = []
    y = top - _head_room(strips[0]) if strips else top
    for index, strip in enumerate(strips):
        if index:
            y -= strip.before
        tops.append(y)
        y -= strip.height
    index = 0
    while index < len(strips):
        panel = strips[index].panel
        last = index
        if panel is not None:
            while last + 1 < len(strips) and strips[last + 1].panel is panel:
                last += 1
            panel.draw(sheet, x, tops[index], tops[last] - strips[last].height)
        for at in range(index, last + 1):
            for key in strips[at].keys:
                sheet.bookmark(key, tops[at] + 4)
            strips[at].draw(sheet, x, tops[at])
        index = last + 1
    return y


def shifted(strips: list[Strip], right: float) -> list[Strip]:
    """The strips, with what they carry and stand on, further to the right."""
    panels: dict[int, Panel] = {}
    return [_shift(strip, right, panels) for strip in strips]


def _shift(strip: Strip, right: float, panels: dict[int, Panel]) -> Strip:
    panel = strip.panel
    if panel is not None:
        ground = panel.draw

        def moved(sheet: Sheet, x: float, top: float, lower: float) -> None:
            ground(sheet, x + right, top, lower)

        panel = panels.setdefault(id(panel), Panel(moved, panel.padding))
    carry = tuple(_shift(one, right, panels) for one in strip.carry)
    return replace(strip, draw=lambda sheet, x, top: strip.draw(sheet, x + right, top), carry=carry, panel=panel)


def in_columns(strips: list[Strip], count: int, step: float, tallest: float) -> list[Strip]:
    """Strips side by side in `count` columns, `step` points from one to the next, balanced; stacks no taller than
    `tallest`, so that they fit on pages, and about equally tall. Reading goes down one column and on at the head of the
    next."""
    made: list[Strip] = []
    rest = list(strips)
    stacks = max(1, ceil(stack_height(strips) / count / tallest)) if strips else 1
    even = min(tallest, stack_height(strips) / count / stacks * 1.08)
    while rest:
        columns, rest = _fill(rest, count, even if stacks > 1 else tallest)
        made.append(_side_by_side(columns, step))
        made[-1].before = STACKS_APART if len(made) > 1 else 0.0
    return made


def _fill(strips: list[Strip], count: int, tallest: float) -> tuple[list[tuple[Strip, ...]], list[Strip]]:
    """The lowest balanced columns that take all strips, or columns as tall as allowed and what is left over."""
    height = max(max(strip.height for strip in strips), stack_height(strips) / count)
    while height < tallest:
        columns, rest = _cut(strips, count, height)
        if not rest:
            return columns, rest
        height += 2.0
    return _cut(strips, count, tallest)


def _cut(strips: list[Strip], count: int, height: float) -> tuple[list[tuple[Strip, ...]], list[Strip]]:
    """Fills `count` columns of a height. Strips that should not part (an entry's lines) go into one column together,
    if it can hold them at all."""
    columns: list[tuple[Strip, ...]] = []
    at = 0
    for _ in range(count):
        start, used = at, 0.0
        while at < len(strips):
            upto = at + 1
            needed = strips[at].height + (strips[at].before if at > start else 0.0)
            whole = needed
            while upto < len(strips) and strips[upto].cost >= ALONE:
                whole += strips[upto].before + strips[upto].height
                upto += 1
            if whole > height + 0.01:
                upto = at + 1
            else:
                needed = whole
            if used + needed > height + 0.01 and at > start:
                break
            used += needed
            at = upto
        columns.append(tuple(strips[start:at]))
    return columns, strips[at:]


def _side_by_side(columns: list[tuple[Strip, ...]], step: float) -> Strip:
    def draw(sheet: Sheet, x: float, top: float) -> None:
        for index, column in enumerate(columns):
            draw_column(sheet, column, x + index * step, top)

    return Strip(max(stack_height(column) for column in columns), draw)
