"""Shoulders joined on the needles: "Join shoulders by three-needle cast-off, working 25 sts from front and back each side".

In: a cursor at the start of a sentence. Out: `JoinShoulders`, or None; without its numbers the sentence is refused.
"""

from __future__ import annotations

from castoff.notation.acts import read_hold
from castoff.notation.cords import THREE_NEEDLES
from castoff.notation.cursor import Cursor
from castoff.notation.syntax import HoldAct, JoinShoulders

_SHOULDERS = (
    "right and left shoulders", "left and right shoulders", "both shoulders", "shoulders", "shoulder seam",
    "right and left shoulder seam", "both shoulder seam", "shoulder",
)  # fmt: skip
_EACH = (
    "each side",
    "at each side",
    "on each side",
    "at each shoulder",
    "for each shoulder",
    "on each shoulder",
    "each times",
)


def read_shoulders(c: Cursor) -> JoinShoulders | None:
    """Reads the stitches of each shoulder, and those that are left for the neck."""
    start = c.at
    if not c.take("join"):
        return None
    c.take("the")
    if not c.take(*_SHOULDERS) or not c.take("by", "using", "with"):
        return c.back(start)
    c.take("a", "the")
    if not c.take(*THREE_NEEDLES):
        return c.back(start)
    c.take(",")
    if not c.take("working", "joining", "using"):
        c.want("how many stitches of front and back are joined: `working 25 sts from front and back each side`")
        return c.back(start)
    count = c.count()
    if count is None or not c.take("st"):
        return c.back(start)
    if not c.take("from front and back", "of front and back", "from back and front", "of back and front",
                  "from each of front and back"):  # fmt: skip
        return c.back(start)
    c.take("tog")
    if not c.take(*_EACH):
        return c.back(start)
    before = c.at
    c.take(",")
    c.take("and")
    rest = read_hold(c) if c.looking("leaving", "placing", "leave", "place") else None
    if not isinstance(rest, HoldAct) or rest.count is None:
        c.back(before)
        rest = None
    return JoinShoulders(count, rest, span=c.span(start))
