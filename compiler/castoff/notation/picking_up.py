"""Picking up along an edge: "pick up and knit 22 sts down left front neck", "3 sts for every 4 rows".

In: a cursor. Out: `PickUp`, or None.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import PickUp

_EACH: tuple[tuple[str, Literal["ridge", "row", "st"]], ...] = (
    ("ridge", "ridge"), ("ridges", "ridge"), ("bump", "ridge"), ("row", "row"), ("st", "st"), ("edge st", "row"),
)  # fmt: skip
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
    edge = _edge(c)
    return PickUp(count, edge, ratio, knit, purl, _each(c), span=c.span(start))


def _each(c: Cursor) -> Literal["", "ridge", "row", "st"]:
    """ "(one in each garter ridge)": what each stitch is picked up in."""
    start = c.at
    bracket = c.take("(")
    if not bracket:
        c.take(",")
    one = c.count()
    c.take("st")
    if (
        one is not None
        and set(one.values) <= {1, None}
        and c.take("in each", "for each", "in every", "per", "for every")
    ):
        c.take("garter", "p", "slipped", "cast-on", "co")
        for key, each in _EACH:
            if c.take(key) and (not bracket or c.take(")")):
                return each
    c.back(start)
    return ""


def read_more_picked_up(c: Cursor, before: PickUp) -> PickUp | None:
    """ "…, 22 sts up right front neck" behind "pick up and knit 22 sts down left front neck"."""
    start = c.at
    count = c.count()
    if count is None or not c.take("st") or c.here.key not in EDGE_WORDS:
        return c.back(start)
    edge = _edge(c)
    return PickUp(count, edge, None, before.knit, before.purl, _each(c), span=c.span(start))


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
