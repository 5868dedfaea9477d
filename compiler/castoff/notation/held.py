"""Held stitches taken up in a row: "k20 held front neck sts", "k28 from back neck holder".

In: a cursor. Out: `WorkHeld`, `Join`, or None.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.needle_names import read_needle_name
from castoff.notation.picking_up import EDGE_WORDS
from castoff.notation.syntax import (
    Action,
    Fabric,
    Join,
    StitchTo,
    ToEnd,
    WorkFabric,
    WorkHeld,
)


def read_held(c: Cursor) -> WorkHeld | Join | None:
    """Held stitches: "k20 held front neck sts", "k28 from back neck holder", "knit across 14 sts from holder"."""
    start = c.at
    verb = c.here.stitch if c.here.stitch in ("k", "p") else None
    if verb is None and c.here.key not in ("work", "rib", "patt"):
        return None
    how = c.step()
    c.take("across")
    c.take("the", "all", "these", "those", "all the", "next")
    count = c.count()
    body = _as_they_lie(c, start, verb, how.key)
    if c.take("hold"):
        name = c.words_until(frozenset({"st", "and", "then", "from"}), 4)
        if c.take("st"):
            return WorkHeld(name or None, count, body, span=c.span(start))
        return c.back(start)
    words_start = c.at
    if (
        c.here.key != "st"
        and c.here.kind in ("word", "ordinal")
        and c.here.key not in EDGE_WORDS
        and (count is not None or c.lexemes[c.at - 1].key in ("across", "the", "all"))
    ):
        c.words_until(frozenset({"st", "from", "to", "and", "then", "in", "on"}), 4)
    name = c.raw(words_start, c.at)
    named = c.take("st")
    if named and name.endswith("lining") and count is not None:
        return WorkHeld(name, count, body, span=c.span(start))
    if c.take("that were on", "left on", "that are on", "waiting on", "hold on", "on hold for") or c.take(
        "from", "off", "on hold from", "on"
    ):
        c.take("the", "first", "second", "a", "your", "each")
        before = c.at
        words = c.words_until(frozenset({"and", "then", "to", "with", "turn"}), 5)
        plain = words.removesuffix("s")
        if plain.endswith(("holder", "waste yarn", "hold", "scrap yarn", "spare needle")):
            for suffix in (" stitch holder", " st holder", " holder"):
                if plain.endswith(suffix) and plain != suffix.strip():
                    plain = plain.removesuffix(suffix)
            if plain in ("st", "stitch", "holder"):
                plain = name or "holder"
            return WorkHeld(plain, count, body, span=c.span(start))
        c.back(before)
    if c.take("of"):
        if read_needle_name(c) is not None:
            return c.back(start)  # they are in work
        c.take("the")
        words = c.words_until(frozenset({"and", "then", "to", "with", "in"}), 4)
        if words and count is None:
            stitch: Literal["k", "p", ""] = "k" if verb == "k" else "p" if verb == "p" else ""
            return Join(words, stitch, span=c.span(start))
        if words.endswith(("lining", "linings", "sleeve", "front", "back", "leg", "pocket", "holder")):
            return WorkHeld(words, count, body, span=c.span(start))
    return c.back(start)


def _as_they_lie(c: Cursor, start: int, verb: str | None, key: str) -> tuple[Action, ...]:
    end = ToEnd(span=c.span(start))
    if verb is not None:
        return (StitchTo(verb, end, span=c.span(start)),)
    fabric = Fabric("set", "rib" if key == "rib" else "", span=c.span(start))
    return (WorkFabric(fabric, end, span=c.span(start)),)
