"""Shaping on the last of some rows: "…, inc 8 sts evenly across last row", "and on last row dec 1 st at each end".

In: a cursor behind rows. Out: `OnLastRow`, or None.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.shaping import read_changed_stitches, read_end_shaping, read_evenly
from castoff.notation.syntax import EndShaping, Evenly, Fabric, OnLastRow, ToLast, WorkFabric

_LAST = tuple(
    f"{before} {the}{which} {unit}"
    for before in ("across", "on", "in", "over", "along", "of")
    for the in ("", "the ")
    for which in ("last", "final")
    for unit in ("row", "rnd", "rib row", "rib rnd")
)
_MIDDLE = ("in centre", "in the centre", "in middle", "in the middle", "at centre", "at the centre")


def read_on_last_row(c: Cursor) -> OnLastRow | None:
    """Reads the change and the words "last row" on either side of it."""
    start = c.at
    short = _cut_short(c)
    if short is not None:
        return OnLastRow(short, span=c.span(start))
    if c.take(*_LAST):
        c.take(",")
        act = read_evenly(c) or read_end_shaping(c)
        return OnLastRow(act, span=c.span(start)) if act is not None else c.back(start)
    end = _end_shaping(c) or _evenly(c)
    return c.back(start) if end is None else OnLastRow(end, span=c.span(start))


def _cut_short(c: Cursor) -> WorkFabric | None:
    """ "ending last rnd 5 sts before marker": how far the last round is worked."""
    start = c.at
    if not c.take("ending last rnd", "end last rnd", "ending the last rnd", "ending final rnd",
                  "and ending last rnd", "ending", "stopping", "stop", "stopping last rnd"):  # fmt: skip
        return c.back(start)
    place = c.at
    count = c.count()
    if count is None or not c.take("st before"):
        return c.back(start)
    c.take("the")
    if not c.take("end of rnd m", "end of rnd", "end", "beg of rnd m", "bor m", "bor", "m", "rnd m", "beg of rnd"):
        return c.back(start)
    c.take("on last rnd", "on the last rnd", "on final rnd")
    target = ToLast(count, span=c.span(place))
    return WorkFabric(Fabric("set", span=target.span), target, span=target.span)


def _end_shaping(c: Cursor) -> EndShaping | None:
    start = c.at
    act = read_end_shaping(c)
    return act if act is not None and c.take(*_LAST) else c.back(start)


def _evenly(c: Cursor) -> Evenly | None:
    """ "inc 8 sts evenly across last row", "dec 1 st in centre of last row"."""
    start = c.at
    act = read_evenly(c)
    if act is None:
        act = read_changed_stitches(c)
        if act is None or not c.take(*_MIDDLE):
            return c.back(start)
    return act if c.take(*_LAST) else c.back(start)
