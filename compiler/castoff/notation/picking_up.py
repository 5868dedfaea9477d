"""Picking up along an edge: "pick up and knit 22 sts down left front neck", "3 sts for every 4 rows".

In: a cursor. Out: `PickUp`, or None.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import PickUp

_EDGE_STOPS = frozenset({"then", "turn", "until", "rep", "pick", "placing", "pm", "sm"})
_EDGE_VERBS = frozenset(
    {
        "k",
        "p",
        "pick",
        "place",
        "pm",
        "join",
        "turn",
        "work",
        "sl",
        "co",
        "bo",
        "cast",
        "bind",
        "mark",
        "placing",
        "marking",
    }
)
EDGE_WORDS = frozenset(
    {
        "along",
        "down",
        "up",
        "around",
        "from",
        "across",
        "over",
        "in",
        "at",
        "evenly",
        "on",
        "between",
        "into",
        "through",
    }
)


def read_pick_up(c: Cursor) -> PickUp | None:
    """Reads "pick up and knit 22 sts down left front neck", "pick up 1 st", "3 sts for every 4 rows"."""
    start = c.at
    if not c.take("pick up", "picking up", "pu", "pickup"):
        return None
    knit = purl = False
    if c.take("and", "&"):
        if not c.take("k", "p", "knitting", "purling"):
            return c.back(start)
        knit = True
        purl = c.lexemes[c.at - 1].key in ("p", "purling")
    elif c.take("k"):
        knit = True
    c.take("approx", "approx", "about")
    count = c.count()
    if count is None:
        one = c.at
        if c.take("a st"):
            count = c.same(1, one)
        elif not c.take("st"):
            return c.back(start)
    else:
        c.take("more")
        c.take("st")
    ratio = None
    before = c.at
    if c.take("for every", "in every", "for each", "in each", "per") and count is not None:
        rows = c.count()
        if c.take("row", "rnd", "st") and rows is not None:
            stitches, over = count.values[0], rows.values[0]
            if stitches is not None and over is not None:
                ratio = (stitches, over)
                count = None
    if ratio is None:
        c.back(before)
    return PickUp(count, _edge(c), ratio, knit, purl, span=c.span(start))


def read_more_picked_up(c: Cursor, before: PickUp) -> PickUp | None:
    """ "…, 22 sts up right front neck" behind "pick up and knit 22 sts down left front neck"."""
    start = c.at
    count = c.count()
    if count is None or not c.take("st") or c.here.key not in EDGE_WORDS:
        return c.back(start)
    return PickUp(count, _edge(c), None, before.knit, before.purl, span=c.span(start))


def _edge(c: Cursor) -> str:
    """The author's words for an edge, up to the next act."""
    start = c.at
    if c.here.key not in EDGE_WORDS:
        return ""
    while c.here.kind in ("word", "ordinal", "number") and c.at - start < 16:
        key = c.here.key
        if c.at > start and key in _EDGE_STOPS:
            break
        if key == "and" and (c.peek().key in _EDGE_VERBS or c.peek().stitch is not None or c.count_at(1)):
            break
        if c.here.kind == "number" and c.peek().key == "st":
            break
        c.skip()
    c.reach()
    return c.raw(start, c.at)
