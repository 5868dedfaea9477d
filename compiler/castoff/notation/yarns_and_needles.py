"""Yarns, needles and the facing side before what is done: "With RS facing, A and smaller needles, …".

In: a cursor. Out: needles by key or in words; yarns, needles and side together; None when none stand here.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.syntax import (
    Side,
)
from castoff.notation.yarns import read_yarns

_NEEDLE_WORDS = frozenset(
    [
        "needle",
        "dpn",
        "circular",
        "double-pointed",
        "dpn",
        "set",
        "of",
        "size",
        "us",
        "uk",
        "straight",
        "long",
        "mm",
        "pair",
        "a",
        "the",
        "two",
        "larger",
        "smaller",
    ]
)

_SIZE_MARKS = frozenset({"(", ")", "/", "#"})
"""Marks within a size that is told twice: "3.5 mm (US 4) needles"."""


def read_needles(c: Cursor) -> str | None:
    """Needles by their key ("larger"), or as worded ("4 mm needles", "dpns", "US 8 circular needle")."""
    start = c.at
    c.take("the", "a", "an", "a pair of", "a set of", "set of", "pair of", "your", "both")
    key = c.name_of(c.vocabulary.needles)
    if key is not None:
        c.take("size", "sized")
        c.take("circular needle", "straight needle", "double-pointed needle", "circular", "dpn", "needle", "straight")
        return key
    words_start = c.at
    seen = False
    while (c.here.kind in ("word", "number", "length") or c.here.text in _SIZE_MARKS) and c.at - words_start < 10:
        key_here = c.here.key
        if c.here.text in _SIZE_MARKS:
            if c.at == words_start:
                break
            c.skip()
            continue
        if key_here == "circular" and c.peek().key in ("cast-on", "co", "cast", "method"):
            break
        if key_here in ("needle", "dpn") or (key_here == "circular" and c.peek().key != "needle"):
            seen = True
            c.skip()
            break
        if c.here.kind == "length" and c.here.length is not None and c.here.length.unit not in ("mm", "cm", "in"):
            break
        if c.here.kind == "word" and key_here not in _NEEDLE_WORDS:
            break
        c.skip()
    if not seen:
        return c.back(start)
    c.reach()
    return c.raw(words_start, c.at)


def read_withs(c: Cursor) -> tuple[tuple[str, ...], str | None, Side | None] | None:
    """ "With smaller needles and A," before what is done: yarns, needles, facing side."""
    start = c.at
    yarns: tuple[str, ...] = ()
    needles: str | None = None
    facing: Side | None = None
    while True:
        before = c.at
        if c.at == start:
            if not c.take("with", "using", "on", "onto"):
                break
        elif not c.take(
            ", and with", ", and", ", with", ", using", ",", "and with", "and using", "and", "with", "using"
        ):
            break
        side = read_side(c)
        if side is not None and c.take("facing", "of work facing", "facing you", "of the work facing"):
            facing = side
            continue
        found = read_yarns(c)
        if found and not yarns:
            yarns = found
            continue
        words = read_needles(c)
        if words is not None and needles is None:
            needles = words
            continue
        c.back(before)
        break
    if c.at == start:
        return None
    if not yarns and needles is None and facing is None:
        c.back(start)
        return None
    return yarns, needles, facing
