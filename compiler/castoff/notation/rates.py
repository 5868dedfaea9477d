"""How often rows come: "every 4th row", "of next and every foll 6th row 5 times, then every 4th row twice".

In: a cursor. Out: `Rate`s, or the step and the side of one; empty or None when none stands here.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.labels import read_unit
from castoff.notation.shaping import read_end_shaping, read_ends
from castoff.notation.syntax import (
    BindOffAct,
    CastOnAct,
    Count,
    EndShaping,
    Rate,
    Side,
    Times,
)


def doubled(step: Count) -> Count:
    """ "every other RS row" as rows: every 4th."""
    return replace(step, values=tuple(None if value is None else 2 * value for value in step.values))


def read_every(c: Cursor) -> tuple[Count | None, Side | None, bool]:
    """ "every 4th row", "on every foll 6th rnd", "every other row", "every RS row", "every 4 rows", "every row"."""
    start = c.at
    c.take("on", "in")
    c.take("the")
    if not c.take("every", "each", "foll") and not c.looking("alt"):
        c.back(start)
        return None, None, False
    c.take("foll")
    place = c.at
    if c.take("other", "alt"):
        step: Count | None = c.same(2, place)
    else:
        step = c.ordinal()
    side = None
    if step is None:
        side = read_side(c)
    if step is None and side is None and c.count_at():
        step = c.count()
    if step is not None and side is None:
        side = read_side(c)
    c.take("foll")
    if read_unit(c) is None:
        c.back(start)
        return None, None, False
    if step is None and side is None:
        step = c.same(1, place)
    return step, side, True


def read_rates(c: Cursor, act: EndShaping | BindOffAct | CastOnAct) -> tuple[Rate, ...]:
    """ "of next and every foll 6th row 5 times, then every 4th row twice", "on next 4 rows", "every row 3 times"."""
    rates: list[Rate] = []
    while True:
        before = c.at
        said = True
        if rates:
            c.take(",", ";")
            said = c.take("and then", "and", "then")
        again = c.at
        same = bool(rates) and isinstance(act, EndShaping) and (_told_again(c, act) or same_ends(c, act.ends))
        if not same:
            c.back(again)
        found = _rate(c)
        # the end that begins a row lies at the same edge on every second row alone
        changing = isinstance(act, EndShaping) and act.ends in ("beginning", "end")
        if same and changing and any((value or 2) % 2 for rate in found for value in rate.every.values):
            found = ()
        if not found:
            c.back(before)
            break
        if not said and not same and found[0].first == "unsaid":
            found = (replace(found[0], then=False), *found[1:])
        rates.extend(found)
    return tuple(rates)


def _told_again(c: Cursor, act: EndShaping) -> bool:
    """ "…, then dec 1 st at each end of every foll alt row": the same shaping, told a second time."""
    start = c.at
    if read_end_shaping(c) == act:
        return True
    c.back(start)
    return False


def same_ends(c: Cursor, ends: str) -> bool:
    """ "…, then at each end of every foll alt row", "and at same edge on foll 5 alt rows": the ends told before."""
    if not c.take("at"):
        return False
    if c.take("same edge", "the same edge", "same end", "the same end"):
        return True
    return read_ends(c) == ends


def _then_so_many(
    c: Cursor, start: int, unit: Literal["row", "rnd"] | None, first: Literal["next"] | int
) -> tuple[Rate, ...]:
    """ "next and foll 5 alt rows", "5th row and 3 foll 4th rows", "next and foll alt row", behind the first of them."""
    before = c.at
    once = Times("all", c.same(1, start), span=c.span(start))
    first_row = Rate(c.same(1, start), once, first, unit or "row", span=c.span(start))
    if not c.take("and"):
        return ()
    found = _so_many(c)
    if found is None:
        c.back(before)
        return ()
    return replace(first_row, unit=found.unit), found


def _so_many(c: Cursor) -> Rate | None:
    """ "foll 5 alt rows", "3 foll 4th rows", "foll alt row": the row so far behind the last, so many times."""
    start = c.at
    c.take("on")
    c.take("the")
    place = c.at
    count = c.count()
    if not c.take("foll"):
        return c.back(start)
    count = count or c.count()
    far = c.at
    step = c.same(2, far) if c.take("alt") else c.ordinal() if count is not None else None
    unit = None if step is None else read_unit(c)
    if step is None or unit is None or (count is None and c.looking("until", "to")):
        # "next and foll alt row until 50 sts rem" goes on as every alternate row does
        return c.back(start)
    count = count or c.same(1, place)
    return Rate(step, Times("all", count, span=count.span), "following", unit, span=c.span(place))


def _rate(c: Cursor) -> tuple[Rate, ...]:
    start = c.at
    c.take("of", "on", "in")
    follows = _so_many(c)
    if follows is not None:
        return (follows,)
    c.take("the")
    first: Literal["next", "this", "following", "unsaid"] | int = "unsaid"
    if c.take("next", "this", "foll"):
        word = c.lexemes[c.at - 1].key
        first = "next" if word == "next" else "this" if word == "this" else "following"
        count = c.count()
        ordinal = None if count is not None else c.ordinal()
        if word == "foll" and count is None and ordinal is None and c.looking("alt row", "alt rnd"):
            count = c.same(1, c.at)  # "foll alt row" is one row
        if count is not None and c.take("alt row", "alt rnd"):
            unit_word: Literal["row", "rnd"] = "rnd" if c.lexemes[c.at - 1].key == "rnd" else "row"
            times = Times("all", count, span=count.span)
            return (Rate(c.same(2, start), times, first, unit_word, span=c.span(start)),)
        side = read_side(c)
        unit = read_unit(c)
        if unit is not None and count is not None:
            times = Times("all", count, span=count.span)
            return (Rate(c.same(1, start), times, "next", unit, side, span=c.span(start)),)
        if ordinal is not None:
            first = ordinal.of_all or first
        if first == "next" and count is None and ordinal is None and side is None:
            both = _then_so_many(c, start, unit, "next")
            if both:
                return both
        if c.looking("and at") or not c.take("and"):
            if unit is None:
                c.back(start)
                return ()
            if first == "following" and ordinal is not None:
                times = read_times(c, "ambiguous") or Times("all", c.same(1, start), span=c.span(start))
                return (Rate(ordinal, times, "following", unit, side, span=c.span(start)),)
            return (
                Rate(
                    c.same(1, start),
                    Times("all", c.same(1, start), span=c.span(start)),
                    first,
                    unit,
                    side,
                    span=c.span(start),
                ),
            )
    elif c.here.kind == "ordinal" and c.looking("#th row", "#th rnd", "#th and"):
        ordinal = c.ordinal()
        same = None if ordinal is None else ordinal.of_all
        first = same or first
        unit = read_unit(c)
        if same is None and ordinal is not None:
            # another row in every size: alone it is the row after so many; nothing can be counted on from it
            once = Times("all", c.same(1, start), span=c.span(start))
            return (
                ()
                if unit is None or c.looking("and every", "and each", "and on every", "and foll")
                else (Rate(ordinal, once, "following", unit, span=c.span(start)),)
            )
        several = _then_so_many(c, start, unit, first) if isinstance(first, int) else ()
        if several:
            return several
        if not c.take("and"):
            if unit is None or not isinstance(first, int):
                c.back(start)
                return ()
            once = Times("all", c.same(1, start), span=c.span(start))
            return (Rate(c.same(1, start), once, first, unit, span=c.span(start)),)
    every = c.at
    step, side, _ = read_every(c)
    if step is None and side is None:
        c.back(start)
        return ()
    unit = "rnd" if c.lexemes[c.at - 1].key == "rnd" else "row"
    if step is None:
        step = c.same(1, start)
    if first != "unsaid" and _one_more(c, every):
        # "5th and foll 10th row": on the fifth, and once more on the tenth after it
        once = Times("all", c.same(1, every), span=c.span(every))
        return (
            Rate(c.same(1, start), once, first, unit, span=c.span(start)),
            Rate(c.same(1, every), once, step.of_all or 1, unit, side, span=c.span(every))
            if step.of_all
            else Rate(step, once, "following", unit, side, span=c.span(every)),
        )
    return (Rate(step, read_times(c, "ambiguous"), first, unit, side, span=c.span(start)),)


def _one_more(c: Cursor, start: int) -> bool:
    """Whether one row is meant ("foll 10th row"), not each of them ("every foll 10th row", "foll 10th rows")."""
    words = [lexeme.key for lexeme in c.lexemes[start : c.at]]
    unit = c.lexemes[c.at - 1].text.lower()
    if "every" in words or "each" in words or unit.endswith("s"):
        return False
    return not c.looking("until", "to", "twice", "once") and not c.count_at()
