"""How often: "5 times", "4 more times", "twice", "x 3", "once more", "6 times in total".

In: a cursor. Out: `Times`, or None when nothing of the kind stands here.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Count, Times

_IN_ALL = ("in total", "in all", "total", "all told", "all tog")


def read_times(c: Cursor, unsaid: Literal["all", "ambiguous"]) -> Times | None:
    """Reads how often; `unsaid` is what a plain "5 times" means here ("ambiguous" behind "rep from *")."""
    start = c.at
    often = c.often()
    if often is not None:
        return Times(_kind(c, unsaid), often, span=c.span(start))
    if c.take("again"):
        return Times("more", c.same(1, start), span=c.span(start))
    if c.take("for a total of", "a total of"):
        count = c.count()
        if count is not None and c.take("times"):
            return Times("all", count, span=c.span(start))
        return c.back(start)
    if c.here.key == "times" and c.count_at(1):
        c.step()
        count = c.count()
        return None if count is None else Times("all", count, span=c.span(start))
    if c.take("a more", "for a more", "for another", "another"):
        if c.take("times"):
            return Times("more", c.same(1, start), span=c.span(start))
        count = c.count()
        if count is not None and c.take("times"):
            return Times("more", count, span=c.span(start))
        return c.back(start)
    count = c.count()
    if count is None:
        return None
    if c.take("more times", "times more"):
        return Times("more", count, span=c.span(start))
    if c.take("times"):
        return Times(_kind(c, unsaid), count, span=c.span(start))
    return c.back(start)


def _kind(c: Cursor, unsaid: Literal["all", "ambiguous"]) -> Literal["all", "more", "ambiguous"]:
    if c.take("more"):
        return "more"
    if c.take(*_IN_ALL):
        return "all"
    return unsaid


def of_one(c: Cursor, start: int) -> Count:
    """The count 1 that "the last st" implies."""
    return c.same(1, start)
