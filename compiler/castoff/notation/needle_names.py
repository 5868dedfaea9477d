"""Needles of a set by their names: "needle 1", "N1", "2nd needle".

In: a cursor. Out: "needle 1", or the ordinal with "needle" as typed; None when no needle is named.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor


def read_needle_name(c: Cursor) -> str | None:
    """ "needle 1", "N1", "2nd needle", "second needle"; "needles 1 and 2" is none."""
    start = c.at
    c.take("the")
    if c.take("needle", "n") and c.here.kind == "number" and c.here.numbers is not None and c.here.text.isdigit():
        return f"needle {c.step().text}"
    c.back(start)
    c.take("the")
    name_start = c.at
    if c.here.kind == "ordinal" and c.peek().key == "needle":
        c.at += 2
        c.reach()
        return c.raw(name_start, c.at)
    return c.back(start)
