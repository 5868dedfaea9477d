"""Sentences about rows worked again: "Rep rows 1–4 5 more times", "Rep last 2 rnds until 16 sts rem".

In: a cursor at the start of a sentence. Out: `RepeatRows`, with what is told behind it; or None.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.chart_lines import read_chart_again, read_more_of_chart, read_until_worked
from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_extent, read_side
from castoff.notation.fabrics import read_start
from castoff.notation.phrases import BY_FIRST
from castoff.notation.rates import doubled, read_every
from castoff.notation.rows import read_row_refs
from castoff.notation.syntax import (
    Count,
    Extent,
    ForRows,
    Growing,
    Note,
    RepeatRows,
    Times,
    ToldLength,
    UntilLength,
)


def read_repeat_rows(c: Cursor) -> RepeatRows | tuple[RepeatRows | ToldLength | Note, ...] | None:
    """Reads "Rep rows 1–4 5 more times", "Rep last 2 rnds until 16 sts rem", "Work these 2 rnds 6 times in total".

    "…, or until piece measures 10 cm" behind a number of times tells the length that they come to.
    """
    rows = read_chart_again(c) or read_until_worked(c) or _repeat_rows(c)
    if rows is None or rows.times is None or rows.extent is not None:
        return rows
    more = read_more_of_chart(c, rows)
    if more is not None:
        return more
    then = _then_rows(c)
    if then:
        return rows, *then
    growing = _growing(c)
    if growing is not None:
        return replace(rows, growing=growing)
    before = c.at
    c.take(",", ";")
    start = c.at
    for keys in BY_FIRST.get("or", ()):
        if c.take(" ".join(keys)):
            note = Note(c.raw(start, c.at), span=c.span(start))
            _last_row_again(c, rows)
            return rows, note
    extent = read_extent(c) if c.take("or") and c.looking("until") else None
    until = None if extent is None or extent.ending is not None or extent.ending_row is not None else extent.until
    if isinstance(until, UntilLength) and until.short_of is None:
        return rows, ToldLength(until.length, until.what, until.origin, span=c.span(start))
    c.back(before)
    return rows


def _then_rows(c: Cursor) -> tuple[RepeatRows, ...]:
    """ "…, then row 1 once more": rows that are worked again behind the others."""
    found: list[RepeatRows] = []
    while True:
        before = c.at
        c.take(",", ";")
        place = c.at
        behind = c.take("and then", "then", "and") and not c.looking("rep", "work")  # those are sentences of their own
        rows = read_row_refs(c) if behind else None
        times = None if rows is None else read_times(c, "ambiguous")
        if rows is None or times is None or c.looking("to", "until"):
            c.back(before)
            return tuple(found)
        found.append(RepeatRows(rows, times, span=c.span(place)))


def _growing(c: Cursor) -> Growing | None:
    """ ", working one more rep of the diamond in each half each time"."""
    start = c.at
    c.take(",", ";")
    if not c.take("working", "work", "adding", "with"):
        return c.back(start)
    reps = c.count()
    c.take("more", "extra")
    if reps is None or (c.peek(-1).key not in ("more", "extra") and c.lexemes[start].key == "with"):
        return c.back(start)
    c.take("patt")
    if not c.take("rep"):
        return c.back(start)
    told = c.at
    what = ""
    if c.take("of"):
        c.take("the")
        what = c.words_until(frozenset({"in", "on", "at", "each", "between", "every"}), 3)
        if not what:
            return c.back(start)
    often = c.take("each times", "every times")
    each = c.take("in each half", "on each half", "on each side of m", "on each side of the m", "each side of m",
                  "on each side of centre st", "on each side of the centre st", "each side of centre st",
                  "on each side", "at each side", "each side", "on either side", "in each section")  # fmt: skip
    if not c.take("each times", "every times") and not often:
        c.back(told)
        c.want("`each time` behind the repeats that come more often")
        return c.back(start)
    c.settle()
    return Growing(reps, each, what, span=c.span(start))


def _last_row_again(c: Cursor, rows: RepeatRows) -> None:
    """ "…, ending with row 8" behind rows 1–8: the last of them, which they end with as it is."""
    before = c.at
    c.take(",")
    last = rows.rows.ranges[-1][1].values if rows.rows.ranges else ()
    if c.take("ending with row", "ending after row", "ending with rnd", "ending after rnd"):
        count = c.count()
        if count is not None and count.values == last:
            return
    c.back(before)


def _repeat_rows(c: Cursor) -> RepeatRows | None:
    start = c.at
    first = read_start(c)
    if first is not None:
        c.take(",")
    rep = c.take("rep", "cont to rep", "cont rep", "cont rep", "cont working", "cont to work", "then rep")
    if not rep and not c.take("work", "working"):
        return c.back(start)
    c.take("from")
    one = not rep and c.take("a", "an", "another")  # "work a dec round every 4th round"
    rows = read_row_refs(c)
    if rows is None or (one and rows.kind != "named"):
        return c.back(start)
    c.take("only")
    every, side, _ = read_every(c)
    if one and every is None and side is None:
        return c.back(start)
    if every is not None or side is not None:
        times = read_times(c, "ambiguous")
        then: list[tuple[Count, Times]] = []
        while times is not None:
            before = c.at
            c.take(",", ";")
            c.take("and")
            c.take("then")
            again, again_side, _ = read_every(c)
            if again_side is not None:
                again = c.same(2, before) if again is None else doubled(again)
            more = None if again is None else read_times(c, "ambiguous")
            if again is None or more is None:
                c.back(before)
                break
            then.append((again, more))
        extent = read_extent(c)
        if times is None and extent is None and not rep:
            return c.back(start)
        return RepeatRows(rows, times, extent, every, side, tuple(then), first, span=c.span(start))
    comma = c.at
    c.take(",")
    times = read_times(c, "ambiguous")
    if times is None:
        c.back(comma)
    if times is None and c.take("for"):
        times = read_times(c, "ambiguous")
        if times is None:
            c.back(c.at - 1)
    before = c.at
    if times is not None:
        c.take(",")
    # "…5 more times, for 12 rows in all" states a total and is no extent
    extent = read_extent(c) if times is None or c.looking("until", "to") else None
    if extent is None:
        c.back(before)
        if times is not None:
            before = c.at
            c.take(",", ";")
            ending = _only_ending(c, times)
            if ending is not None:
                return RepeatRows(rows, times, ending, start=first, span=c.span(start))
            c.back(before)
    if times is None and extent is None and not rep:
        if not rows.name or not (c.done or c.here.key in (".", ",", ";", "then", "and")):
            return c.back(start)
        times = Times("all", c.same(1, start), span=c.span(start))  # "work rows 1–24 of chart A": once
    return RepeatRows(rows, times, extent, start=first, span=c.span(start))


def _only_ending(c: Cursor, times: Times) -> Extent | None:
    """ "…5 more times, ending with a WS row": the extent is counted by the times."""
    start = c.at
    if not c.take("ending with", "ending after", "ending on"):
        return None
    c.take("a", "an")
    side = read_side(c)
    if side is None or not c.take("row", "rnd") or times.count is None:
        return c.back(start)
    return Extent(ForRows(times.count, span=times.span), side, span=c.span(start))
