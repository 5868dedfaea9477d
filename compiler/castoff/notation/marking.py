"""Stitches marked in the loop: "1 st from centre of V (mark this st)", "pm in next st", "pm after the 31st st".

In: a cursor. Out: `MarkStitch`, or None.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Count, MarkStitch

_KINDS = ("removable", "locking", "st", "coloured", "contrasting", "split-ring", "different")
_WITHS = (
    "with a m", "with m", "with a removable m", "with a locking m", "with a st m", "with a coloured m", "with a thread",
    "with a coloured thread", "with a contrasting thread", "with a length of contrasting yarn", "with a safety pin",
)  # fmt: skip
_THIS = (
    "this st", "that st", "last st", "st just worked", "st just picked up", "st just k", "st just made", "st just p",
    "last st worked", "last st picked up", "this last st", "it",
)  # fmt: skip


def read_mark(c: Cursor) -> MarkStitch | None:
    """Reads "mark this st", "(mark the centre st)", "place a locking marker in the 31st st", "pm after the 31st st"."""
    start = c.at
    closer = c.closers.get(c.at) if c.here.text in ("(", "[") else None
    if closer is not None:
        c.step()
    found = _mark(c, start) or _marker_in(c, start)
    if found is None or (closer is not None and c.at != closer):
        return c.back(start)
    if closer is not None:
        c.step()
    return found


def _mark(c: Cursor, start: int) -> MarkStitch | None:
    if not c.take("mark", "marking"):
        return None
    which = _which(c)
    if which is None:
        return None
    c.take(*_WITHS)
    return MarkStitch(*which, span=c.span(start))


def _marker_in(c: Cursor, start: int) -> MarkStitch | None:
    if not c.take("pm"):
        if not c.take("place", "placing", "put", "putting", "hang", "hanging"):
            return None
        c.take("a", "one", "the")
        c.take(*_KINDS)
        if not c.take("m", "contrasting thread"):
            return None
        c.take("( pm )")
    behind = c.take("after", "behind")
    if not behind and not c.take("in", "on", "through", "into", "at"):
        return None
    which = _which(c)
    if which is None or (behind and which[0] not in ("counted", "centre")):
        return None
    return MarkStitch(*which, behind, span=c.span(start))


def _which(c: Cursor) -> tuple[Literal["this", "next", "centre", "counted"], Count | None] | None:
    """Which stitch; behind it nothing may stand that makes it another place ("the last st of the row")."""
    start = c.at
    c.take("the")
    which: Literal["this", "next", "centre", "counted"] | None = None
    at = c.ordinal()
    if at is not None:
        which = "counted" if c.take("st") else None
    elif c.take(*_THIS):
        which = "this"
    elif c.take("next st", "foll st"):
        which = "next"
    elif c.take("centre st"):
        which = "centre"
    if which is None or c.lexemes[c.at - 1].text.lower() in ("sts", "stitches") or c.looking("of", "on", "in", "at"):
        return c.back(start)
    return which, at
