"""Increasing and decreasing told in words: "inc 8 sts evenly across", "dec 1 st at each end".

In: a cursor. Out: `Evenly`, `EndShaping`, or None.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Count, EndShaping, Evenly
from castoff.notation.targets import read_marked, read_target

_INC = frozenset({"inc"})
_DEC = frozenset({"dec"})


def _change(c: Cursor) -> bool | None:
    """Whether it is a decrease; None when neither word stands here."""
    key = c.take_key(_INC | _DEC)
    return None if key is None else key in _DEC


def read_evenly(c: Cursor) -> Evenly | None:
    """Reads "inc 8 sts evenly across row", "decreasing 4 (6, 8) sts evenly to last 3 sts", "inc evenly to 80 sts"."""
    start = c.at
    decrease = _change(c)
    if decrease is None:
        return None
    made = _evenly_to(c)
    if made is not None:
        return Evenly(None, decrease, _by_stitch(c), None, None, made, span=c.span(start))
    count = c.count()
    if count is None:
        if not c.take("evenly"):
            return c.back(start)
        c.take("spaced")
        count = c.count()
        if count is None:
            return c.back(start)
        c.take("st")
    else:
        c.take("st")
        if not c.take("evenly", "evenly spaced", "spaced evenly"):
            return c.back(start)
        c.take("spaced")
    before = c.at
    if c.take("along", "over", "throughout", "on"):
        c.take("the", "this", "next", "across")
        if not c.take("row", "rnd", "st", "all st"):
            if not c.looking("last", "final"):
                return c.back(start)
            c.back(before)
    before = c.at
    c.take("in")
    target = read_target(c)
    if target is None or c.here.key in ("last", "final"):
        c.back(before)
        target = None
    return Evenly(count, decrease, _by_stitch(c), None, target, span=c.span(start))


def read_changed_stitches(c: Cursor) -> Evenly | None:
    """Reads "inc 1 st": how many, the place still to come."""
    start = c.at
    decrease = _change(c)
    count = None if decrease is None else c.count()
    if decrease is None or count is None or not c.take("st"):
        return c.back(start)
    return Evenly(count, decrease, span=c.span(start))


def _evenly_to(c: Cursor) -> Count | None:
    """ "evenly across to 80 sts", "to 80 sts evenly": how many there are to be."""
    start = c.at
    evenly = c.take("st evenly spaced", "st evenly", "evenly spaced", "evenly")
    if evenly:
        _across(c)
    if not c.take("to a total of", "to", "until there are", "until you have"):
        return c.back(start)
    made = c.count()
    if made is None or not c.take("st"):
        return c.back(start)
    if not evenly and not c.take("evenly spaced", "evenly"):
        return c.back(start)
    if not evenly:
        _across(c)
    return made


def _across(c: Cursor) -> None:
    if c.take("across", "around", "along", "over", "throughout"):
        c.take("the", "this")
        c.take("row", "rnd", "whole row", "whole rnd")


def _by_stitch(c: Cursor) -> str | None:
    """ "using m1l": the stitch that makes the change."""
    before = c.at
    if c.take("using", "by", "with"):
        c.take("working")
        if c.here.stitch is not None:
            return c.step().stitch
    return c.back(before)


def read_end_shaping(c: Cursor) -> EndShaping | None:
    """Reads "dec 1 st at each end", "inc 1 st at neck edge", "dec 1 st at beg"; a row word may follow."""
    start = c.at
    decrease = _change(c)
    if decrease is None:
        return None
    count = c.count()
    if count is None and c.take("a"):
        count = c.same(1, start)
    if count is None or not c.take("st"):
        return c.back(start)
    c.take("at", "on")
    ends = read_ends(c)
    if ends is None:
        return c.back(start)
    if not c.looking("of row until"):
        c.take("of row", "of rnd", "of this row", "of the row", "of this rnd")
    return EndShaping(count, decrease, ends, span=c.span(start))


def read_ends(c: Cursor) -> str | None:
    """Which ends: "each", "beginning", "end", or an edge's name."""
    start = c.at
    c.take("the")
    if c.take("each side of", "either side of", "both sides of") and read_marked(c) == "marked":
        return "each side of marked st"
    c.back(start)
    if c.take("each neck edge", "both neck edge"):
        return "each neck edge"
    c.take("the")
    if c.take("each end", "both end", "each side", "both sides", "each edge", "both edge"):
        return "each"
    if c.take("beg"):
        return "beginning"
    if c.take("end"):
        return "end"
    name = c.words_until(frozenset({"edge", "of", "on", "every", "in", "each"}), 3)
    if name and c.take("edge"):
        return f"{name} edge"
    c.back(start)
    return None
