"""Rows told needle by needle as they are laid on them: "with N2, k28 instep sts", "k first 8 sts from N1 onto N3".

In: a cursor within a row. Out: `OnNeedle`, `FromNeedle`, or None.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.needle_names import read_needle_name
from castoff.notation.syntax import FromNeedle, OnNeedle


def read_on_needle(c: Cursor) -> OnNeedle | None:
    """Reads "with N2,", "with same needle (N1),", "using needle 3,"."""
    start = c.at
    if not c.take("with", "using"):
        return None
    same = c.take("the same needle", "same needle")
    bracket = same and c.take("(", "[")
    if same and not bracket:
        return c.back(start)
    named = read_needle_name(c)
    if named is None or (bracket and not c.take(")", "]")) or not c.looking(",", "k", "p", "pick"):
        return c.back(start)
    return OnNeedle(named, same, span=c.span(start))


def read_from_needle(c: Cursor) -> FromNeedle | None:
    """Reads "k first 8 sts from N1 onto N3", "knit across N1 with N3"."""
    start = c.at
    if c.here.stitch not in ("k", "p"):
        return None
    stitch = c.step().stitch or ""
    across = c.take("across", "the st of", "the st on", "st of", "st on", "all st of", "all st on")
    count = None
    if not across:
        c.take("the")
        c.take("first", "next")
        count = c.count()
        if count is None or not c.take("st from", "st of", "st on"):
            return c.back(start)
    source = read_needle_name(c)
    if source is None or not c.take("onto", "on to", "with", "to", "using"):
        return c.back(start)
    onto = read_needle_name(c)
    if onto is None:
        return c.back(start)
    return FromNeedle("p" if stitch == "p" else "k", count, source, onto, span=c.span(start))
