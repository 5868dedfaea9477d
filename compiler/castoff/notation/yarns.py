"""Yarns by their keys: "A", "A and B held together", "the yarn B".

In: a cursor. Out: the keys, in order; empty when none stands here.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor


def read_yarns(c: Cursor) -> tuple[str, ...]:
    """Yarn keys joined by "and": "A", "A and B held together", "yarn B"."""
    start = c.at
    c.take("the")
    first = c.yarn()  # a key may be "Yarn A" itself
    if first is None and c.take("yarn"):
        first = c.yarn()
    if first is None:
        c.back(start)
        return ()
    yarns = [first]
    while True:
        before = c.at
        if not c.take("and", ",", "&", "+"):
            break
        more = c.yarn()
        if more is None:
            c.back(before)
            break
        yarns.append(more)
    c.take("hold tog", "tog")
    c.take("yarn")
    return tuple(yarns)
