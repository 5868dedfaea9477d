"""A provisional cast-on undone, and grafting in other words than "graft".

In: a cursor at the start of a sentence. Out: `Release` or `Graft`; None when no such sentence stands here.
"""

from __future__ import annotations

from castoff.notation.cords import aside_words, from_cast_on, undo_words, waste_words
from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Count, Graft, Release
from castoff.notation.yarns_and_needles import read_needles

_PLACING = frozenset({"place", "placing", "put", "putting", "sl", "slipping", "transfer", "transferring", "return"})


def read_release(c: Cursor) -> Release | None:
    """Reads "Unzip provisional cast-on and place 20 sts on spare needle", "…, placing sts on needle"."""
    start = c.at
    named = undo_words(c)
    if not named and not waste_words(c):
        return c.back(start)
    c.take(",")
    c.take("and")
    if c.take_key(_PLACING) is None:
        return c.back(start)
    c.take("the", "all", "these", "all the")
    c.take("resulting", "live", "released")
    count: Count | None = c.count()
    c.take("resulting", "live", "released", "rem")
    if not c.take("st") or (not named and not from_cast_on(c)) or not c.take("on", "onto", "to", "back on", "on to"):
        return c.back(start)
    if aside_words(c):
        return Release(count, aside=True, span=c.span(start))
    needles = read_needles(c)
    if needles is None:
        return c.back(start)
    return Release(count, None if needles in ("needle", "needles") else needles, span=c.span(start))


def read_kitchener(c: Cursor) -> Graft | None:
    """Reads "Close toe using Kitchener stitch", "Kitchener toe closed", "Use Kitchener stitch to graft rem 20 sts"."""
    start = c.at
    c.take("use", "using", "with", "work")
    first = c.take("kitchener st", "kitchener")
    c.take(",")
    c.take("to")
    verb = c.take("graft", "close", "join", "weave", "sew", "finish")
    if not first and (not verb or c.lexemes[start].key == "graft" or c.lexemes[start].key != c.lexemes[c.at - 1].key):
        return c.back(start)
    c.take("the", "these", "all", "up")
    c.take("rem", "live")
    named = c.at
    count: Count | None = c.count()
    words = c.words_until(frozenset({"using", "with", "to", "and"}), 4)
    if words.startswith("sets of"):
        words, count = c.raw(named, c.at), None
    for ending in (" together", " closed", " tog"):
        words = words.removesuffix(ending)
    if words in ("tog", "together", "closed"):
        words = "sts"
    if not words or (not first and not (c.take("using", "with") and c.take("kitchener st", "kitchener"))):
        return c.back(start)
    c.settle()
    return Graft((words,), () if count is None else (count,), span=c.span(start))
