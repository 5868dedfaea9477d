"""Sentences about several rows: "Rep rows 1–4 5 more times", "Work in St st for 6 rows", "Dec 1 st at neck edge".

In: a cursor at the start of a sentence. Out: `RepeatRows`, `WorkRows`, `ShapeRows`, `AtBeginning`; or None.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from castoff.notation.acts import read_bind_off, read_cast_on
from castoff.notation.asides import read_way
from castoff.notation.borders import read_border
from castoff.notation.chart_lines import begun_at, read_chart_again, read_more_of_chart
from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_extent, read_side
from castoff.notation.fabrics import read_fabric, read_start
from castoff.notation.labels import read_unit
from castoff.notation.phrases import BY_FIRST
from castoff.notation.rest_of_row import rest_ahead, with_rest
from castoff.notation.rows import read_row_ref
from castoff.notation.shaping import read_end_shaping, read_ends
from castoff.notation.syntax import (
    AtBeginning,
    BindOffAct,
    CastOnAct,
    ChangeNeedles,
    ChangeYarn,
    Count,
    EndShaping,
    Extent,
    Fabric,
    ForLength,
    ForRows,
    Length,
    Note,
    Rate,
    RepeatRows,
    SetFabric,
    ShapeRows,
    Side,
    Times,
    ToldLength,
    UntilLength,
    WorkRows,
)
from castoff.notation.yarns import read_yarns
from castoff.notation.yarns_and_needles import read_needles

_STRAIGHT = ("even", "straight", "without shaping", "plain", "without more shaping", "without inc or dec")


def read_repeat_rows(c: Cursor) -> RepeatRows | tuple[RepeatRows | ToldLength | Note, ...] | None:
    """Reads "Rep rows 1–4 5 more times", "Rep last 2 rnds until 16 sts rem", "Work these 2 rnds 6 times in total".

    "…, or until piece measures 10 cm" behind a number of times tells the length that they come to.
    """
    rows = read_chart_again(c) or _repeat_rows(c)
    if rows is None or rows.times is None or rows.extent is not None:
        return rows
    more = read_more_of_chart(c, rows)
    if more is not None:
        return more
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
    rows = read_row_ref(c)
    if rows is None:
        return c.back(start)
    c.take("only")
    every, side, _ = read_every(c)
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
                again = c.same(2, before) if again is None else _doubled(again)
            more = None if again is None else read_times(c, "ambiguous")
            if again is None or more is None:
                c.back(before)
                break
            then.append((again, more))
        extent = read_extent(c)
        if times is None and extent is None and not rep:
            return c.back(start)
        return RepeatRows(rows, times, extent, every, side, tuple(then), first, span=c.span(start))
    times = read_times(c, "ambiguous")
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


def _doubled(step: Count) -> Count:
    """ "every other RS row" as rows: every 4th."""
    return replace(step, values=tuple(None if value is None else 2 * value for value in step.values))


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


def read_work_rows(c: Cursor) -> WorkRows | tuple[ChangeYarn | ChangeNeedles | WorkRows | Note, ...] | None:
    """Reads "Knit 5 rnds", "Work in St st until …", "Work even for 4 rows", "Beg with a knit row, work 6 rows in St st".

    A yarn or needles behind the rows ("Knit 2 rnds in A, then 2 rnds in B") are taken up before them.
    """
    rows = _work_rows(c)
    if rows is None or not isinstance(rows.extent.until, ForRows):
        return rows
    named = _named_behind(c)
    if named is not None:
        return rows, named
    place = c.at
    needles = read_needles(c) if c.take("with", "using", "on") else None
    if needles is not None:
        return ChangeNeedles(needles, span=c.span(place)), rows
    c.back(place)
    steps: list[ChangeYarn | WorkRows] = []
    while True:
        before = c.at
        yarns = read_yarns(c) if c.take("in", "with", "using") else ()
        if not yarns:
            c.back(before)
            return (*steps, rows) if steps else rows
        steps += [ChangeYarn("use", yarns, span=c.span(before)), rows]
        before = c.at
        while c.take(",", ";", "and", "then"):
            pass
        place = c.at
        count = c.count() if c.at > before else None
        if count is None or not c.take("row", "rnd") or not c.looking("in", "with", "using"):
            c.back(before)
            return tuple(steps)
        extent = Extent(ForRows(count, span=count.span), span=c.span(place))
        rows = WorkRows(replace(rows.fabric, start=None), extent, span=c.span(place))
        if not _yarn_ahead(c):
            c.back(before)
            return tuple(steps)


def _named_behind(c: Cursor) -> Note | None:
    """ "Knit 4 rows (garter st)": the rows by another name."""
    start = c.at
    if not c.take("(", "[") or read_fabric(c) is None:
        return c.back(start)
    return Note(c.raw(start, c.at), span=c.span(start)) if c.take(")", "]") else c.back(start)


def _yarn_ahead(c: Cursor) -> bool:
    before = c.at
    found = bool(c.take("in", "with", "using") and read_yarns(c))
    c.at = before
    return found


def _work_rows(c: Cursor) -> WorkRows | None:
    start = c.at
    bordered = _border_first(c)
    first = read_start(c)
    if first is not None:
        c.take(",")
    verb = c.here.key
    if bordered is not None and verb not in ("work", "cont"):
        return c.back(start)
    turns = _in_turns(c) if bordered is None else None
    if turns is not None:
        return _with_fabric(c, start, first, turns)
    if verb in ("k", "p") and c.here.stitch in ("k", "p"):
        c.step()
        fabric = Fabric("knit" if verb == "k" else "purl", span=c.span(start))
        c.take("every", "each", "all")
        if c.lexemes[c.at - 1].key in ("every", "each", "all") and read_unit(c) is None:
            return c.back(start)
        ridges = _ridges(c, start, first) if verb == "k" else None
        if ridges is not None:
            return ridges
        c.take("even", "straight", "in rnd", "without shaping")
        side = _side_of_one(c)
        extent = _rows_extent(c)
        if extent is None:
            return c.back(start)
        first = first or side
        c.take(*_STRAIGHT)
        return _on_these(c, WorkRows(replace(fabric, start=first), extent, span=c.span(start)), start)
    if not (
        c.take("work", "cont", "cont to work", "cont working", "working", "keeping", "cont to", "cont as set")
        or (c.looking("foll the chart", "foll chart") and c.take("foll"))
    ):
        return _fabric_first(c, start, first)
    if c.lexemes[c.at - 1].key == "set":
        return _with_fabric(c, start, first, Fabric("set", span=c.span(c.at - 2)))
    straight = c.take(*_STRAIGHT)
    ridges = _ridges(c, start, first)
    if ridges is not None:
        return ridges
    first = first or _side_of_one(c)
    rows: Count | Length | None = _count_of_rows(c) or _some_length(c)
    straight = c.take(*_STRAIGHT) or straight
    if not (c.looking("in rnd until", "in rnd for", "in row until", "in row for") and c.take("in rnd", "in row")):
        c.take("in rnd of", "in row of", "in", "on", "of", "from", "foll")
    if c.lexemes[c.at - 1].key in ("in", "on", "of"):
        c.take("the")
    fabric_found = read_fabric(c)
    if fabric_found is None:
        c.take("in") if False else None
        if not straight and rows is None and c.here.key not in ("for", "until", "to", "through", "thru", "up"):
            return c.back(start)
        fabric_found = Fabric("set", span=c.span(start))
    if bordered is not None and fabric_found.kind == "set" and bordered.kind != "set":
        fabric_found = bordered
    elif bordered is not None:
        fabric_found = replace(fabric_found, border=bordered.border)
    if fabric_found.kind == "named" or fabric_found.name == "chart":
        c.take("around", "across", "over all st", "across all st", "on all st")
    straight = c.take(*_STRAIGHT) or straight
    return _with_fabric(c, start, first, fabric_found, rows)


def _in_turns(c: Cursor) -> Fabric | None:
    """ "K 1 rnd, p 1 rnd for 3 cm": garter in rounds, stockinette in rows; the first of the two comes first."""
    start = c.at
    bracket = c.take("(", "[")
    verbs: list[str] = []
    units: set[str] = set()
    for again in (False, True):
        if again and not c.take(",", "and", ", and"):
            return c.back(start)
        verb = c.take_key(frozenset({"k", "p"}))
        count = c.count()
        if verb is None or count is None or set(count.values) != {1} or c.here.key not in ("row", "rnd"):
            return c.back(start)
        verbs.append(verb)
        units.add(c.step().key)
    if verbs[0] == verbs[1] or len(units) > 1 or (bracket and not c.take(")", "]")):
        return c.back(start)
    c.take("alternately", "in turn")
    name = "garter" if units == {"rnd"} else "stockinette"
    if not c.looking("for", "until", "to"):
        return c.back(start)
    return Fabric("named", name, start=None if verbs[0] == "k" else "p", span=c.span(start))


def _bordered(c: Cursor, fabric: Fabric) -> Fabric:
    """The fabric with "keeping first and last 5 sts in garter st" behind it."""
    found = read_border(c) if fabric.border is None else None
    if found is None:
        return fabric
    border, between = found
    if between is not None and fabric.kind == "set":
        fabric = between
    return replace(fabric, border=border, span=fabric.span.to(border.span))


def _border_first(c: Cursor) -> Fabric | None:
    """ "Keeping first and last 5 sts in garter st, …": what the rows of the sentence are worked in, as far as told."""
    start = c.at
    if not c.looking("keeping", "keep", "with", "working", "maintaining"):
        return None
    found = read_border(c)
    if found is None:
        return c.back(start)
    c.take(",", "and")
    border, between = found
    return replace(between or Fabric("set", span=border.span), border=border, span=border.span)


def read_set_fabric(c: Cursor) -> SetFabric | None:
    """Reads "Cont in St st", "work in patt", and the fabric behind "change to larger needles and"."""
    start = c.at
    c.take("work", "cont", "cont to work", "cont working", "working", "beg", "change to", "switch to", "changing to")
    c.take("even", "straight")
    c.take("in")
    fabric = read_fabric(c)
    if fabric is None:
        return c.back(start)
    read_way(c, fabric)
    fabric = _bordered(c, fabric)
    goes_on = c.here.key in ("and", "then") and c.peek().key in ("work", "cont")
    if (c.here.kind not in ("mark", "end") and not goes_on) or c.here.text in ("(", "[", "*"):
        return c.back(start)
    return SetFabric(fabric, span=c.span(start))


def _fabric_first(c: Cursor, start: int, first: str | None) -> WorkRows | None:
    """ "Rib 6 rows", "Patt 4 rows", "Seed st for 6 rows"."""
    if c.here.key not in ("rib", "patt", "seed", "moss", "garter", "st", "stockinette", "rev", "reverse", "as"):
        return c.back(start)
    fabric = read_fabric(c)
    if fabric is None:
        return c.back(start)
    return _with_fabric(c, start, first, fabric)


def _with_fabric(
    c: Cursor, start: int, first: str | None, fabric: Fabric, rows: Count | Length | None = None
) -> WorkRows | None:
    before = c.at
    c.take(",")
    first = first or read_start(c)
    if first is None:
        c.back(before)
    c.take("in the rnd")
    read_way(c, fabric)
    fabric = _bordered(c, fabric)
    before = c.at
    c.take(",")
    extent: Extent | None
    if rows is not None:
        until = ForRows(rows, span=rows.span) if isinstance(rows, Count) else ForLength(rows, span=rows.span)
        extent = Extent(until, span=rows.span)
        side = _side_ending(c)
        if side is not None:
            extent = replace(extent, ending=side)
        else:
            c.back(before)
    else:
        extent = read_extent(c)
    if extent is None:
        return c.back(start)
    before = c.at
    c.take(",")
    late = read_start(c) if first is None else None
    if late is None:
        c.back(before)
    first = first or late
    fabric = _bordered(c, fabric)
    begun = begun_at(first, fabric)
    if begun is None:
        return c.back(start)
    first, fabric = begun
    return _on_these(c, WorkRows(replace(fabric, start=first or fabric.start), extent, span=c.span(start)), start)


def _on_these(c: Cursor, rows: WorkRows, start: int) -> WorkRows:
    """ "on these 28 sts", "on the last 28 sts for left shoulder"."""
    before = c.at
    which: Literal["these", "first", "last"] = "these"
    if c.take("on these", "over these", "on the rem", "on rem", "on last", "on the last", "over the last", "on first",
              "on the first", "over the first"):  # fmt: skip
        key = c.lexemes[c.at - 1].key
        which = "first" if key == "first" else "last" if key == "last" else "these"
        count = c.count()
        if count is not None and c.take("st only", "st"):
            rows = replace(rows, over=count, which=which, span=c.span(start))
            before = c.at
            if c.take("for"):
                c.take("the")
                words = c.words_until(frozenset({"and", "then"}), 4)
                if words:
                    return replace(rows, part=f"for {words}", span=c.span(start))
    c.back(before)
    return rows


def _side_ending(c: Cursor) -> Side | None:
    start = c.at
    c.take("and")
    if c.take("ending with", "ending after", "ending on", "end with", "ending", "end after", "finishing with"):
        c.take("a", "an")
        side = read_side(c)
        if side is not None and c.take("row", "rnd", "facing for next row"):
            if c.lexemes[c.at - 1].key == "row" and c.lexemes[c.at - 2].key == "next":
                return "RS" if side == "WS" else "WS"
            return side
    return c.back(start)


def _some_length(c: Cursor) -> Length | None:
    """ "Work 5 cm in rib": the length told before the fabric."""
    start = c.at
    length = c.length()
    return length if length is not None and c.looking("in", "of", "even", "straight") else c.back(start)


def _ridges(c: Cursor, start: int, first: str | None) -> WorkRows | None:
    """ "5 ridges of garter st", "5 garter ridges": two rows each."""
    before = c.at
    ridges = c.count()
    if ridges is None or not c.take("garter ridge", "garter st ridge", "ridge"):
        return c.back(before)
    c.take("of garter st", "in garter st", "of garter", "in garter")
    rows = _doubled(ridges)
    fabric = Fabric("named", "garter", start=first, span=ridges.span)
    return WorkRows(fabric, Extent(ForRows(rows, span=ridges.span), span=ridges.span), span=c.span(start))


def _side_of_one(c: Cursor) -> Side | None:
    """ "Purl 1 WS row": the side that the row must be on."""
    start = c.at
    count = c.same(1, start) if c.take("a", "another", "one more") else c.count()
    side = None if count is None or set(count.values) != {1} else read_side(c)
    if c.here.key not in ("row", "rnd"):
        side = None
    c.back(start)
    return side


def _count_of_rows(c: Cursor) -> Count | None:
    start = c.at
    if c.take("a", "another", "one more") and read_side(c) is not None and c.take("row"):
        return c.same(1, start)  # the side is taken up by `_side_of_one`
    c.back(start)
    next_one = c.take("a more", "another", "the next", "next") and c.lexemes[c.at - 1].key == "next"
    count = c.count()
    if count is None and next_one and c.take("row", "rnd"):
        return c.same(1, start)
    c.take("more")
    if count is not None and set(count.values) == {1}:
        read_side(c)  # taken up by `_side_of_one`
    if count is not None and c.take("row", "rnd"):
        c.take("more")
        return count
    return c.back(start)


def _rows_extent(c: Cursor) -> Extent | None:
    rows_start = c.at
    rows = _count_of_rows(c)
    if rows is None:
        return read_extent(c)
    extent = Extent(ForRows(rows, span=c.span(rows_start)), span=c.span(rows_start))
    before = c.at
    c.take(",")
    side = _side_ending(c)
    if side is None:
        c.back(before)
        return extent
    return replace(extent, ending=side, span=c.span(rows_start))


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
        if not isinstance(first.act, EndShaping) or not _same_ends(c, first.act.ends):
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
    act = told or read_end_shaping(c) or _bind_off_sts(c) or read_cast_on(c)
    if act is None:
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
    return ShapeRows(act, rates, until, span=c.span(start))


def _beginnings_first(c: Cursor) -> AtBeginning | None:
    """ "At the beg of the next 2 rows, bind off 5 sts"; the same as with the act in front."""
    start = c.at
    if not c.take("at"):
        return None
    c.take("the")
    at_end = c.take("end of")
    if not at_end and not c.take("beg of"):
        return c.back(start)
    c.take("the", "each of the", "each of")
    c.take("next", "foll", "this")
    count = c.count()
    place = c.at
    side = read_side(c) if count is None else None
    if read_unit(c) is None:
        return c.back(start)
    side = side or _side_behind(c, count)
    c.take(",")
    act = _bind_off_sts(c) or read_cast_on(c)
    if act is None:
        return c.back(start)
    if at_end and isinstance(act, CastOnAct):
        act = replace(act, where="end")
    return AtBeginning(act, count or c.same(1, place), at_end, side=side, span=c.span(start))


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


def _bind_off_sts(c: Cursor) -> BindOffAct | None:
    return read_bind_off(c)


def _at_beginning(c: Cursor, start: int, act: BindOffAct | CastOnAct) -> AtBeginning | None:
    before = c.at
    at_end = False
    if c.take("at beg of", "at the beg of", "at beg", "beg of"):
        pass
    elif c.take("at end of", "at the end of") or (isinstance(act, CastOnAct) and act.where == "end" and c.take("of")):
        at_end = True
    else:
        return c.back(before)
    c.take("the", "each of the", "each of")
    c.take("next", "foll", "this")
    count = c.count()
    place = c.at
    side = read_side(c) if count is None else None
    if read_unit(c) is None:
        return c.back(before)
    side = side or _side_behind(c, count)
    return AtBeginning(act, count or c.same(1, place), at_end, side=side, span=c.span(start))


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
        same = bool(rates) and isinstance(act, EndShaping) and (_told_again(c, act) or _same_ends(c, act.ends))
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


def _same_ends(c: Cursor, ends: str) -> bool:
    """ "…, then at each end of every foll alt row", "and at same edge on foll 5 alt rows": the ends told before."""
    if not c.take("at"):
        return False
    if c.take("same edge", "the same edge", "same end", "the same end"):
        return True
    return read_ends(c) == ends


def _next_and_alternate(c: Cursor, start: int, unit: Literal["row", "rnd"] | None) -> tuple[Rate, ...]:
    """ "next and foll 5 alt rows", "next row and 5 foll alt rows", "next and foll alt row", behind the word "next"."""
    before = c.at
    once = Times("all", c.same(1, start), span=c.span(start))
    next_row = Rate(c.same(1, start), once, "next", unit or "row", span=c.span(start))
    if not c.take("and"):
        return ()
    c.take("on")
    place = c.at
    count = c.count()
    if not c.take("foll"):
        c.back(before)
        return ()
    count = count or c.count() or c.same(1, place)
    if not c.take("alt row", "alt rnd"):
        c.back(before)
        return ()
    of: Literal["row", "rnd"] = "rnd" if c.lexemes[c.at - 1].key == "rnd" else "row"
    times = Times("all", count, span=count.span)
    return replace(next_row, unit=of), Rate(c.same(2, place), times, "following", of, span=c.span(place))


def _rate(c: Cursor) -> tuple[Rate, ...]:
    start = c.at
    c.take("of", "on", "in")
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
            at = ordinal.values[0]
            first = at if at is not None else first
        if first == "next" and count is None and ordinal is None and side is None:
            both = _next_and_alternate(c, start, unit)
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
        at = None if ordinal is None else ordinal.values[0]
        first = at if at is not None else first
        unit = read_unit(c)
        if not c.take("and"):
            if unit is None or not isinstance(first, int):
                c.back(start)
                return ()
            once = Times("all", c.same(1, start), span=c.span(start))
            return (Rate(c.same(1, start), once, first, unit, span=c.span(start)),)
    step, side, _ = read_every(c)
    if step is None and side is None:
        c.back(start)
        return ()
    unit = "rnd" if c.lexemes[c.at - 1].key == "rnd" else "row"
    if step is None:
        step = c.same(1, start)
    return (Rate(step, read_times(c, "ambiguous"), first, unit, side, span=c.span(start)),)
