"""Shaping that goes on as it was: "cont to dec 8 sts in this way on every alt rnd until 48 sts rem, then on every rnd …".

In: a cursor at the start of a sentence. Out: `GoOnShaping`, or None. What goes on is said by "in this way", "as set", by
a number of stitches, or by rows that are repeated "working 1 st fewer between decs"; the order of the rest is free.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_extent
from castoff.notation.rates import read_every
from castoff.notation.rows import read_row_ref
from castoff.notation.syntax import Count, GoOnShaping, Leg, RowRef

_WAYS = (
    "in this way", "in this manner", "in the same way", "in the same manner", "in same way", "in same manner", "thus",
    "like this", "as set", "as est", "as before", "in patt as set", "in patt as est", "as now set", "as you have been",
)  # fmt: skip
_PLACES = (
    "between dec", "between each dec", "between the dec", "before each dec", "before dec", "before the dec",
    "between inc", "between each inc", "between the inc", "before each inc", "before inc", "before the inc",
    "on each side of dec", "on each side of the dec", "on each side of the centred double dec", "at each side of dec",
    "on each side of centred double dec", "on each side of the centred dec", "on each side of the double dec",
    "on each side of the central dec", "on each side of the centre st", "on each side of centre st", "at each side",
    "on either side of the dec", "on each side of the marked st", "on each side of marked st", "on each side",
)  # fmt: skip
_SHAPED = frozenset({"raglan", "crown", "yoke", "armhole", "neck", "sleeve", "gusset", "toe", "thumb"})
_PLACES_LONGEST = tuple(sorted(_PLACES, key=lambda words: (-len(words.split()), words)))


@dataclass(slots=True)
class _Read:
    rows: RowRef | None = None
    change: Count | None = None
    decrease: bool | None = None
    way: bool = False
    fewer: Count | None = None
    more: bool = False
    where: str = ""
    instead: tuple[Count, Count] | None = None
    legs: list[Leg] = field(default_factory=list)


def read_going_on(c: Cursor) -> GoOnShaping | None:
    """Reads shaping that goes on in the way of the rows before."""
    start = c.at
    found = _Read()
    if c.take("rep", "cont to rep", "cont rep"):
        c.take("from")
        found.rows = read_row_ref(c)
        if found.rows is None:
            return c.back(start)
    elif not c.take("cont to work", "cont to", "cont with", "cont", "keep"):
        return c.back(start)
    elif _change(c, found) or c.take(*_WAYS):
        found.way = found.way or found.decrease is None
    else:
        return c.back(start)
    while True:
        before = c.at
        c.take(",", ";")
        c.take("and", "but")
        if not _part(c, found):
            c.back(before)
            break
    told = found.fewer is not None or found.instead is not None
    plain = found.decrease is None and not told and not any(leg.every or leg.every_side for leg in found.legs)
    if not found.legs or plain or (found.rows is not None and not told):
        return c.back(start)
    if found.rows is None and not found.way and found.change is None:
        return c.back(start)
    where, more = found.where, found.more
    return GoOnShaping(
        found.rows,
        found.change,
        found.decrease,
        found.fewer,
        more,
        where,
        found.instead,
        tuple(found.legs),
        span=c.span(start),
    )


def _change(c: Cursor, found: _Read) -> bool:
    """ "dec 8 sts", "dec", "raglan decs"; an increase likewise."""
    start = c.at
    key = c.take_key(frozenset({"dec", "inc"}))
    if key is None and c.take_key(_SHAPED) is not None:  # "raglan decs as set"
        key = c.take_key(frozenset({"dec", "inc"}))
    if key is None or found.decrease is not None:
        c.back(start)
        return False
    place = c.at
    count = c.count()
    if count is not None and not c.take("st"):
        c.back(place)
        return False
    found.change, found.decrease = count, key == "dec"
    return True


def _part(c: Cursor, found: _Read) -> bool:
    """One thing more that the sentence tells."""
    start = c.at
    if c.take(*_WAYS):  # "cont in this way, inc 2 sts as before …" says it twice
        found.way = True
        return True
    if _sets(c, found) or _instead(c, found):
        return True
    c.back(start)
    if found.decrease is None and found.rows is None and _change(c, found):
        return True
    return _leg(c, found)


def _sets(c: Cursor, found: _Read) -> bool:
    """ "working 1 st fewer between decs each time", "one stitch less before each dec"."""
    start = c.at
    bracket = c.take("(", "[")
    c.take("ie", "i . e .", "that is")
    c.take(",")
    c.take("working", "with", "having", "k", "leaving", "there will be")
    count = c.count()
    word = None if count is None else c.take_key(frozenset({"less", "fewer", "more"}))  # "one less st"
    if count is None or not c.take("st") or found.fewer is not None:
        c.back(start)
        return False
    word = word or c.take_key(frozenset({"less", "fewer", "more"}))
    places = c.at
    if word is None or not c.take(*_PLACES_LONGEST):
        c.back(start)
        return False
    found.fewer, found.more, found.where = count, word == "more", c.raw(places, c.at)
    c.take("on each dec rnd", "on each dec row", "on every dec rnd", "on every dec row", "each times", "every times")
    if bracket and not c.take(")", "]"):
        c.back(start)
        return False
    return True


def _instead(c: Cursor, found: _Read) -> bool:
    """ "working k7 instead of k8", "k7 in place of k8"."""
    start = c.at
    c.take("working", "with")
    if found.instead is not None or c.here.stitch not in ("k", "p"):
        c.back(start)
        return False
    name = c.step().stitch
    new = c.count()
    if new is None or not c.take("instead of", "in place of") or c.here.stitch != name:
        c.back(start)
        return False
    c.step()
    old = c.count()
    if old is None:
        c.back(start)
        return False
    c.take(", and so on", "and so on", ", etc", "etc")
    found.instead = new, old
    return True


def _leg(c: Cursor, found: _Read) -> bool:
    """ "on every alt rnd until 48 sts rem", "then on every rnd until 8 sts rem", "5 more times"."""
    start = c.at
    if found.legs and not c.take("then"):
        c.back(start)
        return False
    every, side, rate = read_every(c)
    unit: Literal["row", "rnd"] | None = None
    if rate:
        unit = "rnd" if c.lexemes[c.at - 1].key == "rnd" else "row"
        every = every or c.same(1, start)
    c.take(",")
    # the sets may be told between the rate and the end
    while _sets(c, found) or _instead(c, found) or (not found.way and c.take(*_WAYS)):
        found.way = found.way or c.lexemes[c.at - 1].key in ("set", "est", "before", "way", "manner", "thus", "this")
        c.take(",")
    times = read_times(c, "all")
    until = None if times is not None else read_extent(c)
    if times is None and until is None:
        c.back(start)
        return False
    found.legs.append(Leg(every, side, unit, times, until, span=c.span(start)))
    return True
