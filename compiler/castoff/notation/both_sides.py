"""Two sides of a neck worked at once: "work both sides at the same time", "at each neck edge, bind off 3 sts once".

In: a cursor at the start of a sentence. Out: `BothSides`, `BindOffAtEdges` with the decreases told behind it, or None.
"""

from __future__ import annotations

from castoff.notation.acts import BIND_OFF
from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.rates import read_rates
from castoff.notation.shaping import read_end_shaping
from castoff.notation.syntax import BindOffAtEdges, BothSides, Count, EndShaping, ShapeRows

_AT_ONCE = ("at the same times", "at same times", "at once", "simultaneously")
_BALLS = (
    "with separate balls of yarn", "with separate balls", "using separate balls of yarn", "using separate balls",
    "with separate ball of yarn", "with a separate ball of yarn for each side", "with separate balls of yarn for each side",
    "with two balls of yarn",
)  # fmt: skip
NECK = "each neck edge"
"""`ends` of shaping at the neck edge of both sides."""


def read_both_sides(c: Cursor) -> BothSides | None:
    """Reads "Work both sides at once", "Both sides are worked at the same time with separate balls of yarn"."""
    start = c.at
    balls = c.take(*_BALLS)
    c.take(",")
    if c.take("work", "working", "now work", "cont working", "cont to work"):
        if not c.take("both sides", "both side", "both sides of neck", "both sides of the neck"):
            return c.back(start)
    elif not c.take("both sides are worked", "both sides are now worked", "both sides of the neck are worked"):
        return c.back(start)
    c.take("of neck", "of the neck")
    if not c.take(*_AT_ONCE):
        return c.back(start)
    if not balls:
        before = c.at
        c.take(",")
        if not c.take(*_BALLS):
            c.back(before)
    return BothSides(span=c.span(start))


def read_at_edges(c: Cursor) -> tuple[BindOffAtEdges | ShapeRows, ...] | None:
    """Reads "at each neck edge, bind off 3 sts once, then 2 sts twice, then dec 1 st every RS row 4 times"."""
    start = c.at
    early = c.take("at each neck edge", "at both neck edge", "at each side of neck", "at neck edge on each side")
    c.take(",")
    if not c.take(*BIND_OFF):
        first = _decrease(c, early) if early else None
        return (first,) if first is not None else c.back(start)
    late = not early and c.take("at each neck edge")
    groups: list[tuple[Count, Count]] = []
    while True:
        before = c.at
        if groups:
            c.take(",", ";")
            c.take("and then", "and", "then")
            c.take(*BIND_OFF)
        count = c.count()
        if count is None or not c.take("st"):
            c.back(before)
            break
        if not groups and not early and not late:
            late = c.take("at each neck edge")
        rate = c.take("every other row", "every alt row", "every 2nd row", "on every other row")
        times = read_times(c, "all")
        if times is None or times.count is None or times.kind != "all":
            c.back(before)
            break
        if not rate:
            c.take("every other row", "every alt row")
        groups.append((count, times.count))
    if not groups or not (early or late):
        return c.back(start)
    steps: list[BindOffAtEdges | ShapeRows] = [BindOffAtEdges(tuple(groups), span=c.span(start))]
    before = c.at
    c.take(",", ";")
    c.take("and then", "and", "then")
    shaped = _decrease(c, True) if c.at > before else None
    if shaped is None:
        c.back(before)
    else:
        steps.append(shaped)
    return tuple(steps)


def _decrease(c: Cursor, early: bool) -> ShapeRows | None:
    """ "dec 1 st every RS row 4 times" where the edge has been told before it."""
    start = c.at
    act = read_end_shaping(c)
    if act is None and early and c.take("dec"):
        count = c.count()
        if count is not None and c.take("st"):
            act = EndShaping(count, True, NECK, span=c.span(start))
    if act is None or act.ends != NECK:
        return c.back(start)
    rates = read_rates(c, act)
    return ShapeRows(act, rates, span=c.span(start)) if rates else c.back(start)
