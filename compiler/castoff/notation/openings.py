"""The state that an excerpt or a section starts from: "You have 84 (92, 100) sts, RS facing; 28 sts on a holder".

In: a cursor at the start of a sentence. Out: `Opening`; None for a plain "You have 84 sts", which is a total.
"""

from __future__ import annotations

from castoff.notation.acts import read_holder
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.syntax import Count, Opening, Side, Stated

_BEGINS = ("you have", "you beg with", "beg with", "you now have", "there are")
_LIVE = ("on needle", "on the needle", "on your needle", "live", "live on needle")


def read_opening(c: Cursor) -> Opening | None:
    """Reads the stitches on the needle, the side that faces, groups that are held, and parts between markers."""
    start = c.at
    if not c.take(*_BEGINS):
        return None
    stitches: Count | None = None
    side: Side | None = None
    held: list[tuple[Count, str]] = []
    parts: list[Stated] = []
    while True:
        before = c.at
        if c.at > start and (stitches is not None or held or side is not None):
            while c.here.key in (",", ";", "and", "with"):
                c.step()
        found = read_side(c)
        if found is not None and c.take("facing", "facing you"):
            side = found
            continue
        count = c.count()
        if count is None:
            c.back(before)
            break
        name = "" if c.here.key == "st" else c.words_until(frozenset({"st", "and", "on"}), 3)
        if not c.take("st"):
            c.back(before)
            break
        c.take("rem")
        group = _held(c, name)
        if group is not None:
            held.append((count, group))
        elif (where := _between(c)) or (name and stitches is not None):
            parts.append(Stated(count, where or name, span=c.span(before)))
        elif stitches is None and not name:
            c.take(*_LIVE)
            stitches = count
        else:
            c.back(before)
            break
    if side is None and not held:
        return c.back(start)
    return Opening(stitches, side, tuple(held), tuple(parts), span=c.span(start))


def _held(c: Cursor, name: str) -> str | None:
    """ "on a holder", "on hold for the instep", "held": what the group is called."""
    start = c.at
    c.take("each")
    c.take("are", "is", "wait", "are still", "are waiting", "rem")
    if c.take("on", "hold on", "left on", "waiting on"):
        holder = read_holder(c)
        if holder is not None:
            return name if name and holder in ("holder", "waste yarn", "hold", "spare needle") else holder
    elif c.take("hold"):
        return name or "holder"
    c.back(start)
    return None


def _between(c: Cursor) -> str:
    """ "between markers", "on each needle"."""
    if c.here.key not in ("between", "before", "after", "for", "each"):
        return ""
    return c.words_until(frozenset({"and", "with"}), 5)
