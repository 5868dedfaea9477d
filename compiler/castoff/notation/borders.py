"""Edge stitches in another fabric: "keeping first and last 5 sts in garter st", "with 4 sts at each end in seed st".

In: a cursor. Out: `Border` and, where the words name it, the fabric between; or None.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.fabrics import read_fabric
from castoff.notation.syntax import Border, Count, Fabric

_KEEPING = ("keeping", "keep", "working", "maintaining", "with")
_ENDS = (
    "at each end", "at both end", "at each side", "at both sides", "at each edge", "at both edge", "on each side",
    "each end",
    "each side", "on each edge", "each edge", "at either end", "at either side", "on either side", "on both sides",
)  # fmt: skip
_BETWEEN = (
    "and rem st in", "and the rem st in", "and all other st in", "and centre st in", "and the centre st in",
    "and the st between in", "and st between in", "and the rest in", "and all rem st in", "and other st in",
)  # fmt: skip


def read_border(c: Cursor) -> tuple[Border, Fabric | None] | None:
    """Reads how many stitches at each end, their fabric, and the fabric between them when it is told here."""
    start = c.at
    c.take(",")
    place = c.at
    if not c.take(*_KEEPING):
        return c.back(start)
    c.take("the", "a")
    count: Count | None
    fabric: Fabric | None
    if c.take("first and last"):
        count = c.count()
        told = count is not None and c.take("st in", "st of each row in", "st of every row in")
        fabric = read_fabric(c) if told else None
    else:
        count = c.count()
        c.take("-")
        if count is None or not c.take("st"):
            return c.back(start)
        ends = c.take(*_ENDS)
        c.take("in")
        fabric = read_fabric(c)
        if fabric is not None and not ends and not _at_each_end(c):
            return c.back(start)
        c.take("as set", "as est", "as before")
    if count is None or fabric is None:
        return c.back(start)
    border = Border(count, fabric, span=c.span(place))
    before = c.at
    main = read_fabric(c) if c.take(*_BETWEEN) else None
    if main is None:
        c.back(before)
    return border, main


def _at_each_end(c: Cursor) -> bool:
    both = c.take("borders", "bands", "edgings")
    c.take("border", "edge", "edging", "band")
    return c.take(*_ENDS) or both
