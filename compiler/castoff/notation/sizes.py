"""For which sizes a line is: "Sizes S and M only:", "Size L:", "All sizes:", "Cups B and C only:", "V neck only:".

In: a cursor at the start of a line. Out: one flag per size, or None when the line does not say.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.per_size import Axes, axes_of


def read_sizes(c: Cursor) -> tuple[bool, ...] | None:
    """Reads the sizes and the colon behind them."""
    start = c.at
    axes = axes_of(c.vocabulary.sizes)
    if c.take("all sizes", "for all sizes", "all other sizes", "all versions", "both versions", "both sizes",
              "for both sizes",               "every size", "all sizes again"):  # fmt: skip
        if c.take(":"):
            return (True,) * axes.count
        return c.back(start)
    for direction, _ in axes.directions:
        found = _read_direction(c, axes, direction)
        if found is not None:
            return tuple(found[axes.place(size)[direction]] for size in range(axes.count))
        c.back(start)
    return None


def _read_direction(c: Cursor, axes: Axes, direction: int) -> tuple[bool, ...] | None:
    """The sizes of one direction, or the choices of one option: a flag for each of its places."""
    start = c.at
    if direction == 0:
        return _read_names(c, axes.first, ("size", "sizes"))
    if direction == 1:
        return _read_names(c, axes.second, (axes.name.lower(), f"{axes.name.lower()}s"))
    choices = tuple(choice.words for choice in axes.options[direction - 2].choices)
    c.take("for")
    found = c.spelled(choices) or c.spelled(tuple(choice[:1].upper() + choice[1:] for choice in choices))
    if found is None:
        return c.back(start)
    c.take("only")
    if not c.take(":"):
        return c.back(start)
    return tuple(choice.lower() == found.lower() for choice in choices)


def _read_names(c: Cursor, names: tuple[str, ...], leads: tuple[str, ...]) -> tuple[bool, ...] | None:
    start = c.at
    c.take("for")
    other = c.take("all other sizes", "all except")
    led = c.take(*leads)
    if not led and c.spelled(names) is None:
        return c.back(start)
    if not led:
        c.back(start)
        c.take("for")
        c.take("the")
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
        if c.looking("only", ":", *leads):
            break
    if not led and not c.take(*leads):
        return c.back(start)
    c.take("only")
    if last is None or not c.take(":"):
        return c.back(start)
    return tuple(not flag for flag in chosen) if other else tuple(chosen)
