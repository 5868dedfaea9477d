"""Sentences of shaping: "Dec 1 st at neck edge on next 4 rows", "Bind off 5 sts at beg of next 2 rows".

In: a cursor at the start of a sentence. Out: `ShapeRows`, `AtBeginning`, in order; or None.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.acts import read_bind_off, read_cast_on
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_extent, read_side
from castoff.notation.fabrics import read_fabric
from castoff.notation.labels import read_unit
from castoff.notation.rates import read_rates, same_ends
from castoff.notation.rest_of_row import rest_ahead, with_rest
from castoff.notation.shaping import read_end_shaping
from castoff.notation.syntax import (
    AtBeginning,
    BindOffAct,
    CastOnAct,
    Count,
    EndShaping,
    Fabric,
    Rate,
    ShapeRows,
    Side,
    UntilStitches,
)

_SHAPED_BY = tuple(
    f"{verb} {what} by"
    for verb in ("shaping", "shape")
    for what in ("sides", "the sides", "side", "side edge", "sleeve", "the sleeve", "raglan", "raglan armhole",
                 "armhole", "neck", "the neck", "neck edge", "sleeve sides", "front edge", "edge", "it", "work")
)  # fmt: skip


def read_shape(c: Cursor) -> ShapeRows | AtBeginning | tuple[ShapeRows | AtBeginning, ...] | None:
    """Reads shaping by rate, and bind-offs or cast-ons at the beginning of several rows, step after step."""
    first = _shape(c)
    if first is None:
        return None
    if isinstance(first.act, EndShaping):
        return _more_shaping(c, first) if isinstance(first, ShapeRows) and first.until is not None else first
    steps = [first]
    while True:
        before = c.at
        while c.take(",", ";", "and", "then"):
            pass
        place = c.at
        count = c.count() if c.at > before else None
        if count is None or not c.take("st"):
            c.back(before)
            return tuple(steps)
        told_again = c.looking("at beg", "at the beg", "at end", "at the end")
        more = _shape(c, replace(first.act, count=count, span=c.span(place)))
        if more is None and told_again:
            return None
        if more is None:
            c.back(before)
            return tuple(steps)
        steps.append(more)


def _more_shaping(c: Cursor, first: ShapeRows) -> ShapeRows | tuple[ShapeRows, ...]:
    """ "… until there are 70 sts, then at each end of every foll 4th row until there are 94 sts"."""
    steps = [first]
    while True:
        before = c.at
        c.take(",", ";")
        if not c.take("and then", "then"):
            break
        place = c.at
        if not isinstance(first.act, EndShaping) or not same_ends(c, first.act.ends):
            c.back(place)
        rates = read_rates(c, first.act)
        c.take(",")
        until = read_extent(c)
        if not rates or until is None:
            break
        steps.append(ShapeRows(first.act, rates, until, span=c.span(place)))
    c.back(before)
    return first if len(steps) == 1 else tuple(steps)


def _shape(c: Cursor, told: BindOffAct | CastOnAct | None = None) -> ShapeRows | AtBeginning | None:
    """One step of shaping; `told` when the act is that of the step before ("…, then 6 sts at beg of next 2 rows")."""
    start = c.at
    rows_first = _beginnings_first(c) if told is None else None
    if rows_first is not None:
        return with_rest(c, rows_first, start)
    shaped = told is None and c.take(*_SHAPED_BY)
    act = told or read_end_shaping(c) or read_bind_off(c) or read_cast_on(c)
    if act is None or (shaped and not isinstance(act, EndShaping)):
        return c.back(start)
    if not isinstance(act, EndShaping):
        found = _at_beginning(c, start, act)
        if found is not None:
            return with_rest(c, found, start)
        if not c.take("at each end", "at beg", "at the beg", "at neck edge", "at armhole edge"):
            return c.back(start)
    rates = read_rates(c, act)
    if not rates:
        return c.back(start)
    if isinstance(act, EndShaping) and act.ends in ("beginning", "end") and _next_rows(rates):
        of = AtBeginning(act, rates[0].times.count, act.ends == "end", span=c.span(start))  # type: ignore[union-attr, arg-type]
        return with_rest(c, of, start)
    before = c.at
    c.take(",")
    until = read_extent(c)
    if until is None:
        c.back(before)
    if rest_ahead(c):
        return c.back(start)
    counted = until is None or isinstance(until.until, UntilStitches)
    grows = isinstance(act, EndShaping) and not act.decrease and act.ends == "each" and counted
    new = _new_stitches(c) if grows else None
    return ShapeRows(act, rates, until, new=new, span=c.span(start))


def _new_stitches(c: Cursor) -> Fabric | None:
    """ ", working new sts in St st": what grows at both ends; "into patt" and "into rib" are set phrases."""
    start = c.at
    c.take(",")
    if not c.take("working", "taking", "keeping", "work", "k", "knitting"):
        return c.back(start)
    c.take("all", "the", "all the")
    if not c.take("new st", "inc st", "incd st", "extra st", "added st") or not c.take("in", "into"):
        return c.back(start)
    fabric = read_fabric(c)
    return fabric if fabric is not None and fabric.kind == "named" else c.back(start)


def _beginnings_first(c: Cursor) -> AtBeginning | None:
    """ "At the beg of the next 2 rows, bind off 5 sts"; the same as with the act in front."""
    start = c.at
    if not c.take("at"):
        return None
    c.take("the")
    at_end = c.take("end of")
    if not at_end and not c.take("beg of"):
        return c.back(start)
    rows = _rows_begun(c)
    if rows is None:
        return c.back(start)
    c.take(",")
    act = read_bind_off(c) or read_cast_on(c)
    if act is None:
        return c.back(start)
    if at_end and isinstance(act, CastOnAct):
        act = replace(act, where="end")
    return AtBeginning(act, rows[0], at_end, side=rows[1], span=c.span(start))


def _rows_begun(c: Cursor) -> tuple[Count, Side | None] | None:
    """ "the next 2 rows", "next RS row", "this row (RS)": how many rows have their beginning told, and the side of one."""
    start = c.at
    c.take("the", "each of the", "each of")
    c.take("next", "foll", "this")
    count = c.count()
    place = c.at
    side = read_side(c) if count is None else None
    if read_unit(c) is None:
        return c.back(start)
    return count or c.same(1, place), side or _side_behind(c, count)


def _side_behind(c: Cursor, count: Count | None) -> Side | None:
    """ "at beg of next row (RS)"."""
    before = c.at
    if count is None and c.take("("):
        side = read_side(c)
        if side is not None and c.take(")"):
            return side
    return c.back(before)


def _next_rows(rates: tuple[Rate, ...]) -> bool:
    return len(rates) == 1 and rates[0].first == "next" and rates[0].times is not None and rates[0].every.values[0] == 1


def _at_beginning(c: Cursor, start: int, act: BindOffAct | CastOnAct) -> AtBeginning | None:
    before = c.at
    at_end = False
    if c.take("at beg of", "at the beg of", "at beg", "beg of"):
        pass
    elif c.take("at end of", "at the end of") or (isinstance(act, CastOnAct) and act.where == "end" and c.take("of")):
        at_end = True
    else:
        return c.back(before)
    rows = _rows_begun(c)
    if rows is None:
        return c.back(before)
    return AtBeginning(act, rows[0], at_end, side=rows[1], span=c.span(start))
