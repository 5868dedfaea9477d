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
        if c.done:
            return (True,) * axes.count
        if c.take(":", ", cont as foll :", "cont as foll :"):
            before = c.at
            if not (c.take("cont as foll", "work as foll", "cont") and (c.done or (c.take(":", ".") and c.done))):
                c.back(before)
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
    listed = _by_place(c, names)
    if listed is not None:
        c.take("only")
        return listed if led and not other and (c.take(":") or c.done) else c.back(start)
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
        if last < len(names) - 1 and c.here.text in ("(", "[") and c.at in c.closers:
            c.step()  # "Sizes M (L, XL) only", as a list of them is written
        elif c.here.text in (")", "]"):
            c.step()
        if c.looking("only", ":", *leads):
            break
    if not led and not c.take(*leads):
        return c.back(start)
    only = c.take("only")
    if last is None or not (c.take(":") or (led and only and c.done)):
        return c.back(start)
    return tuple(not flag for flag in chosen) if other else tuple(chosen)


def _by_place(c: Cursor, names: tuple[str, ...]) -> tuple[bool, ...] | None:
    """ "- (-, M, L)", "S (M, -)": every size in its place, a dash for those that are left out."""
    start = c.at
    found: list[bool] = []
    while len(found) < len(names):
        while c.here.text in (",", "(", ")", "[", "]"):
            c.step()
        if c.take("-"):
            found.append(False)
        elif c.spelled((names[len(found)],)) is not None:
            found.append(True)
        else:
            return c.back(start)
    c.take(")", "]")
    return tuple(found) if not all(found) and any(found) else c.back(start)
