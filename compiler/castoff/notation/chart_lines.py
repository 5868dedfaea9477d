"""Sentences about charts: "Work chart A twice", "…, then rows 1–12 again", "Chart A rows rep every 4 rows".

In: a cursor. Out: `RepeatRows`, `ToldRepeat`; None when no such sentence stands here.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_chart_name
from castoff.notation.rows import read_row_ref
from castoff.notation.syntax import Count, Fabric, RepeatRows, RowRef, Times, ToldRepeat


def read_chart_again(c: Cursor) -> RepeatRows | None:
    """Reads "Work chart A.", "Work chart A twice", "Rep chart A 3 more times": all its rows."""
    start = c.at
    rep = c.take("rep", "then rep", "cont to rep")
    if not rep and not c.take("work", "work all of", "work the whole of", "k"):
        return None
    place = c.at
    c.take("all of", "the whole of")
    c.take("the")
    name = c.name_of(c.vocabulary.stitch_patterns)
    if name is None or "chart" not in name.lower().split():
        return c.back(start)
    rows = RowRef("named", name=name.lower(), span=c.span(place))
    times = read_times(c, "ambiguous")
    if times is None and (c.done or c.here.key == "."):
        times = Times("more" if rep else "all", c.same(1, place), span=c.span(start))
    if times is None:
        return c.back(start)
    if not rep and times.kind == "ambiguous":
        times = replace(times, kind="all")
    return RepeatRows(rows, times, span=c.span(start))


def read_until_worked(c: Cursor) -> RepeatRows | None:
    """Reads "Cont in charted patt, beg with rnd 1, until rnds 1–8 have been worked 2 more times": those rows, so often."""
    start = c.at
    if not c.take("cont in", "cont to work", "cont working", "cont", "work in", "work", "working", "rep"):
        return c.back(start)
    c.take("in", "the")
    chart = _charted(c)
    if chart is None:
        return c.back(start)
    c.take(",")
    first: Count | None = None
    if c.take("beg with", "beg on", "beg at", "beg again with"):
        first = c.count() if c.take("row", "rnd") else None
        if first is None:
            return c.back(start)
        c.take(",")
    if not c.take("until"):
        return c.back(start)
    rows = read_row_ref(c)
    if rows is None or rows.kind != "numbers" or rows.section:
        return c.back(start)
    if chart == "chart":
        chart = rows.name or chart
    elif rows.name.lower() not in ("", "chart", chart.lower()):
        return c.back(start)
    if first is not None and first.values != rows.ranges[0][0].values:
        return c.back(start)
    if not c.take(
        "have been worked", "have been completed", "have been k", "are worked", "are complete", "are completed"
    ):
        return c.back(start)
    times = read_times(c, "ambiguous")
    if times is None:
        return c.back(start)
    if times.kind == "ambiguous":
        times = replace(times, kind="all")
    return RepeatRows(replace(rows, name=chart), times, span=c.span(start))


def _charted(c: Cursor) -> str | None:
    """ "charted patt", "chart A", "patt as charted": the chart by its name, or "chart" for the one in work."""
    if c.take("charted patt", "charted row", "charted rnd", "patt as charted", "chart patt", "charted colour patt"):
        return "chart"
    name = c.name_of(c.vocabulary.stitch_patterns)
    if name is not None:
        c.take("patt")
        return name
    return "chart" if c.take("chart") else None


def read_more_of_chart(c: Cursor, first: RepeatRows) -> tuple[RepeatRows, ...] | None:
    """ "…, then rows 1–12 again", "…, then rep rows 5–8 of chart A twice" behind rows of a chart."""
    if not first.rows.name or first.rows.kind != "numbers":
        return None
    steps = [first]
    while True:
        before = c.at
        while c.take(",", ";", "then", "and"):
            pass
        place = c.at
        c.take("rep", "work", "rep only", "work only")
        rows = read_row_ref(c) if c.at > before else None
        if rows is None or rows.kind != "numbers" or rows.name not in ("", first.rows.name):
            c.back(before)
            break
        rows = replace(rows, name=first.rows.name)
        times = read_times(c, "ambiguous")
        if times is None:
            c.take("only")
            times = Times("more", c.same(1, place), span=c.span(place))
        steps.append(RepeatRows(rows, times, span=c.span(place)))
    return tuple(steps) if len(steps) > 1 else None


def begun_at(first: str | None, fabric: Fabric) -> tuple[str | None, Fabric] | None:
    """ "Beg with row 3 of chart A": the chart that is named must be the one that is worked."""
    if first is None or " of " not in first:
        return first, fabric
    number, _, name = first.partition(" of ")
    if fabric.kind == "set" and fabric.name in ("", "chart") and name != "chart":
        return number, replace(fabric, kind="named", name=name)
    if name in ("chart", fabric.name.lower()):
        return number, fabric
    return None


def read_told_repeat(c: Cursor) -> tuple[ToldRepeat, ...] | None:
    """Reads "Chart A rows rep every 4 rows, chart B every 6", "Chart A is a 4-row rep", "working the 8-st rep twice"."""
    start = c.at
    if c.take("working the", "work the", "working"):
        stitches = _sized(c, "st")
        if stitches is None or not c.take("rep"):
            return c.back(start)
        chart = read_chart_name(c) if c.take("of") else ""
        times = read_times(c, "all")
        if chart is None or times is None or times.kind != "all":
            return c.back(start)
        c.take("in each row", "in every row", "in each rnd", "across", "around", "in row", "per row", "per rnd")
        return (ToldRepeat(chart, stitches=stitches, times=times.count, span=c.span(start)),)
    found: list[ToldRepeat] = []
    while True:
        before = c.at
        if found:
            while c.take(",", ";", "and", "while"):
                pass
        place = c.at
        chart = read_chart_name(c)
        one = None if chart is None or (found and c.at == before) else _repeats(c, chart, place, bool(found))
        if one is None:
            c.back(before)
            break
        found.append(one)
    return tuple(found) if found else c.back(start)


def _repeats(c: Cursor, chart: str, place: int, shortened: bool) -> ToldRepeat | None:
    """What is told of one chart, behind its name; "rows rep" may be left out for the second one."""
    start = c.at
    if c.take("is a", "is an", "has a", "has an"):
        stitches = _sized(c, "st")
        c.take(",", "and", "by")
        rows = _sized(c, "row") or _sized(c, "rnd")
        if (stitches is None and rows is None) or not c.take("rep"):
            return c.back(start)
        return ToldRepeat(chart, rows, stitches, span=c.span(place))
    c.take("row", "rnd")
    if not (c.take("rep") or shortened):
        return c.back(start)
    if not c.take("every", "over every", "over"):
        return c.back(start)
    rows = c.count()
    if rows is None or not (c.take("row", "rnd") or shortened):
        return c.back(start)
    return ToldRepeat(chart, rows, span=c.span(place))


def _sized(c: Cursor, unit: str) -> Count | None:
    """ "8-st", "4-row": a number joined to its unit."""
    start = c.at
    count = c.count()
    if count is not None:
        c.take("-")
        if c.take(unit):
            return count
    return c.back(start)
