"""For which sizes a line is: "Sizes S and M only:", "Size L:", "All sizes:", "Sizes M to XL:".

In: a cursor at the start of a line. Out: one flag per size, or None when the line does not say.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor


def read_sizes(c: Cursor) -> tuple[bool, ...] | None:
    """Reads the sizes and the colon behind them."""
    start = c.at
    names = c.vocabulary.sizes
    if c.take("all sizes", "for all sizes", "all other sizes"):
        if c.take(":"):
            return (True,) * len(names)
        return c.back(start)
    c.take("for")
    other = c.take("all other sizes", "all except")
    if not c.take("size", "sizes"):
        return c.back(start)
    chosen = [False] * len(names)
    last: int | None = None
    while True:
        found = c.spelled(names)
        if found is None:
            return c.back(start)
        index = names.index(found)
        chosen[index] = True
        if c.take("to", "-", "through"):
            until = c.spelled(names)
            if until is None:
                return c.back(start)
            for between in range(index, names.index(until) + 1):
                chosen[between] = True
        last = index
        while c.here.key in (",", "and", "&"):
            c.step()
        if c.looking("only", ":"):
            break
    c.take("only")
    if last is None or not c.take(":"):
        return c.back(start)
    return tuple(not flag for flag in chosen) if other else tuple(chosen)
