"""Sentences about rows in a fabric: "Knit 5 rnds", "Work in St st until …", "Cont in patt".

In: a cursor at the start of a sentence. Out: `WorkRows`, `SetFabric`, with what goes beside them; or None.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from castoff.notation.asides import read_way
from castoff.notation.borders import read_border
from castoff.notation.chart_lines import begun_at
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_ending_side, read_extent, read_side
from castoff.notation.fabrics import read_fabric, read_start
from castoff.notation.labels import read_unit
from castoff.notation.phrases import read_phrase
from castoff.notation.rates import doubled
from castoff.notation.syntax import (
    ChangeNeedles,
    ChangeYarn,
    Count,
    Extent,
    Fabric,
    ForLength,
    ForRows,
    Note,
    SetFabric,
    Side,
    WorkRows,
)
from castoff.notation.yarns import read_yarns
from castoff.notation.yarns_and_needles import read_needles

_STRAIGHT = ("even", "straight", "without shaping", "plain", "without more shaping", "without inc or dec")


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
        c.take(", and", ",", "and")
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
    rows: Count | ForLength | None = _count_of_rows(c) or _some_length(c)
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
    first = read_start(c)
    if first is not None:
        c.take(", and", ",", "and")
    c.take("work", "cont", "cont to work", "cont working", "working", "beg", "change to", "switch to", "changing to")
    c.take("even", "straight")
    c.take("in")
    fabric = read_fabric(c)
    if fabric is None or (first is not None and not _begins_so(fabric, first)):
        return c.back(start)
    fabric = fabric if first is None else replace(fabric, start=first)
    read_way(c, fabric)
    fabric = _bordered(c, fabric)
    goes_on = c.here.key in ("and", "then") and c.peek().key in ("work", "cont", "shaping")
    goes_on = goes_on or c.here.key == "shaping"
    if (c.here.kind not in ("mark", "end") and not goes_on) or c.here.text in ("(", "[", "*"):
        return c.back(start)
    return SetFabric(fabric, span=c.span(start))


def _begins_so(fabric: Fabric, first: str) -> bool:
    """Whether a fabric can begin with a knit or purl row, or with one of a side."""
    return fabric.kind == "named" and fabric.start is None and not first[:1].isdigit()


def _fabric_first(c: Cursor, start: int, first: str | None) -> WorkRows | None:
    """ "Rib 6 rows", "Patt 4 rows", "Seed st for 6 rows"."""
    if c.here.key not in ("rib", "patt", "seed", "moss", "garter", "st", "stockinette", "rev", "reverse", "as"):
        return c.back(start)
    fabric = read_fabric(c)
    if fabric is None:
        return c.back(start)
    return _with_fabric(c, start, first, fabric)


def _with_fabric(
    c: Cursor, start: int, first: str | None, fabric: Fabric, rows: Count | ForLength | None = None
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
    if rows is None and read_phrase(c) and not c.take(","):  # "…, stranding yarn not in use across the back, until …"
        c.back(before)
        c.take(",")
    if rows is not None:
        until = ForRows(rows, span=rows.span) if isinstance(rows, Count) else rows
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


def _some_length(c: Cursor) -> ForLength | None:
    """ "Work 5 cm in rib", "another 2 cm in St st": the length told before the fabric."""
    start = c.at
    more = c.take("another", "a more")
    length = c.length()
    more = c.take("more") or more
    if length is None or not c.looking("in", "of", "even", "straight"):
        return c.back(start)
    return ForLength(length, more, span=c.span(start))


def _ridges(c: Cursor, start: int, first: str | None) -> WorkRows | None:
    """ "5 ridges of garter st", "5 garter ridges": two rows each."""
    before = c.at
    ridges = c.count()
    if ridges is None or not c.take("garter ridge", "garter st ridge", "ridge"):
        return c.back(before)
    c.take("of garter st", "in garter st", "of garter", "in garter")
    rows = doubled(ridges)
    fabric = Fabric("named", "garter", start=first, span=ridges.span)
    before = c.at
    c.take(",")
    ending = read_ending_side(c)
    if ending is None:
        c.back(before)
    return WorkRows(fabric, Extent(ForRows(rows, span=ridges.span), ending, span=ridges.span), span=c.span(start))


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
