"""Ways of working by name: "St st", "k2, p2 rib", "seed stitch", "patt as set", "row 3 of chart A".

In: a cursor. Out: `Fabric`, or None when no fabric is named here. Names of the trade are given back in one form
("stockinette", "reverse stockinette", "garter", "seed stitch", "moss stitch", "double moss stitch"); names of the
pattern's own stitch patterns as the source writes them.
"""

from __future__ import annotations

import re
from dataclasses import replace

from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.syntax import Count, Fabric

_TRADE: tuple[tuple[str, str], ...] = (
    ("rev st st", "reverse stockinette"),
    ("reverse stockinette st", "reverse stockinette"),
    ("reverse st st", "reverse stockinette"),
    ("reverse stockinette", "reverse stockinette"),
    ("rev stockinette st", "reverse stockinette"),
    ("rev stockinette", "reverse stockinette"),
    ("st st", "stockinette"),
    ("stockinette st", "stockinette"),
    ("stockinette", "stockinette"),
    ("st-st", "stockinette"),
    ("rev st-st", "reverse stockinette"),
    ("reverse st-st", "reverse stockinette"),
    ("g st", "garter"),
    ("i-cord", "i-cord"),
    ("garter st", "garter"),
    ("garter ridge", "garter"),
    ("garter", "garter"),
    ("gst", "garter"),
    ("seed st", "seed stitch"),
    ("double seed st", "double moss stitch"),
    ("double moss st", "double moss stitch"),
    ("moss st", "moss stitch"),
)
_SET = (
    "as set", "as est", "as before", "as set before", "as now set", "as est before", "as you have been",
)  # fmt: skip
_OVER = re.compile(r"(\d+)\s*[/x×]\s*(\d+)", re.IGNORECASE)


def read_fabric(c: Cursor) -> Fabric | None:
    """Reads the name of a fabric; words like "in" before it are the caller's."""
    start = c.at
    chart = read_chart(c)
    if chart is not None:
        return chart
    rib = _rib(c)
    if rib is not None:
        return _as_set(c, rib)
    for words, name in _TRADE:
        if c.take(words):
            c.take("patt")
            return _as_set(c, Fabric("named", name, span=c.span(start)))
    if c.take("rib"):
        c.take("patt")
        c.take(*_SET)
        return Fabric("set", "rib", span=c.span(start))
    if c.take("est rib", "rib patt"):
        return Fabric("set", "rib", span=c.span(start))
    if c.take("est patt", "patt", "the patt", "this patt", "the est patt", "set patt", "the same patt", "lace patt"):
        c.take(*_SET)
        return Fabric("set", span=c.span(start))
    if c.take("this manner", "this way", "the same manner", "the same way", "same manner"):
        return Fabric("set", "this manner", span=c.span(start))
    if c.take(*_SET):
        c.take("in patt", "in rib")
        return Fabric("set", span=c.span(start))
    return c.back(start)


def read_chart(c: Cursor) -> Fabric | None:
    """A chart or stitch pattern of the source, with the row that is told: "chart A, row 1", "next row of chart", "8-st rep
    of chart A"; without a name it is the chart in work there."""
    start = c.at
    place = c.at
    c.take("the")
    if c.take("row", "rnd"):
        row = c.count()
        named = _called(c) if row is not None and c.take("of", "from") else None
        return c.back(start) if named is None else replace(named, row=row, span=c.span(start))
    if c.take("next row of", "next rnd of", "foll row of", "next row from", "next rnd from"):
        named = _called(c)
        return c.back(start) if named is None else _as_set(c, replace(named, span=c.span(start)))
    if c.count_at() and c.peek().key in ("-", "st"):
        repeat = c.count()
        c.take("-")
        named = _called(c) if c.take("st rep of", "st patt rep of", "st rep from") else None
        if named is None:
            return c.back(start)
        return read_chart_row(c, replace(named, repeat=repeat, span=c.span(start)))
    c.back(place)
    named = _called(c)
    if named is None:
        return c.back(start)
    return _as_set(c, read_chart_row(c, named))


def _called(c: Cursor) -> Fabric | None:
    """The name of a stitch pattern of the source; or "chart" for the one in work."""
    start = c.at
    c.take("the")
    own = c.name_of(c.vocabulary.stitch_patterns)
    if own is not None:
        c.take("patt")
        return Fabric("named", own, span=c.span(start))
    if c.take("chart patt", "chart") and not _another_name(c):
        return Fabric("set", "chart", span=c.span(start))
    return c.back(start)


def _another_name(c: Cursor) -> bool:
    """Whether "chart" goes on as a name that the source does not have: "chart C", "chart 2"."""
    return c.here.spaced and (c.here.kind == "number" or (len(c.here.text) == 1 and c.here.text.isupper()))


def read_chart_row(c: Cursor, fabric: Fabric) -> Fabric:
    """The row behind a chart: "chart A, row 1", "chart A (row 1)", "chart A (next row)"."""
    start = c.at
    if fabric.row is not None or (fabric.kind == "set" and fabric.name != "chart"):
        return fabric
    if fabric.kind == "named" and fabric.name not in c.vocabulary.stitch_patterns:
        return fabric
    bracket = c.take("(")
    if not bracket:
        c.take(",")
    if c.take("next row", "next rnd", "the next row", "the next rnd") and (not bracket or c.take(")")):
        if c.here.key not in (":", "(") or bracket:
            return replace(fabric, span=fabric.span.to(c.span(start)))
    else:
        c.back(start)
        bracket = c.take("(")
        if not bracket:
            c.take(",")
        row = c.count() if c.take("row", "rnd") else None
        behind = c.here.key if not bracket else ""
        if row is not None and (not bracket or c.take(")")) and behind not in ("-", "and", ":", "&"):
            return replace(fabric, row=row, span=fabric.span.to(c.span(start)))
    c.back(start)
    return fabric


def _as_set(c: Cursor, fabric: Fabric) -> Fabric:
    """Swallows nothing silently: "seed stitch as set" is still that fabric, and goes on where it was."""
    start = c.at
    if c.take(*_SET):
        if fabric.kind == "set":
            return replace(fabric, span=fabric.span.to(c.span(start)))
        return replace(fabric, start="set", span=fabric.span.to(c.span(start)))
    return fabric


def _rib(c: Cursor) -> Fabric | None:
    start = c.at
    twisted = c.take("twisted")
    columns: list[tuple[str, int]] = []
    over = _OVER.fullmatch(c.here.text)
    if over is not None and c.here.kind == "number":
        c.step()
        columns = [("k", int(over[1])), ("p", int(over[2]))]
    elif c.here.kind == "number" and c.peek().key in ("times", "by", "/") and c.peek(2).kind == "number":
        first = c.count()
        c.step()
        second = c.count()
        columns = [("k", _only(first)), ("p", _only(second))]
    else:
        while c.here.stitch in ("k", "p", "k tbl", "p tbl"):
            name = c.step().stitch or ""
            count = c.count()
            if c.take("tbl"):
                name += " tbl"
            twisted = twisted or name.endswith("tbl")
            columns.append((name[0], 1 if count is None else _only(count)))
            if not (c.here.stitch in ("k", "p", "k tbl", "p tbl") or c.take(",", "/", "times", "and")):
                break
    if not c.take("twisted rib", "rib"):
        if twisted and not columns and c.take("rib"):
            return Fabric("rib", rib=(("k", 1), ("p", 1)), twisted=True, span=c.span(start))
        return c.back(start)
    if not columns and not twisted:
        return c.back(start)
    c.take("patt")
    twisted = twisted or c.lexemes[c.at - 2].key == "twisted"
    if not columns:
        columns = [("k", 1), ("p", 1)]
    if any(count < 1 for _, count in columns):
        return c.back(start)
    return Fabric("rib", rib=tuple(columns), twisted=twisted, span=c.span(start))


def _only(count: Count | None) -> int:
    """The number of a count that is the same in every size; 0 when it is not."""
    if count is None:
        return 0
    first = count.values[0]
    return first if first is not None and all(value == first for value in count.values) else 0


def read_start(c: Cursor) -> str | None:
    """ "beginning with a knit row", "starting with a WS row", "beg with row 3": "k", "p", "RS", "WS" or the number."""
    start = c.at
    if not c.take("beg with", "beg on", "commencing with") and not (
        c.looking("beg k row", "beg p row", "beg rs row", "beg ws row") and c.take("beg")
    ):
        return None
    c.take("a", "an", "the")
    side = read_side(c)
    if side is not None or (c.here.kind == "word" and c.here.key in ("k", "p")):
        key = side.lower() if side is not None else c.step().key
        bracket = ""
        if c.here.text == "(" and c.peek().key in ("k", "p", "rs", "ws") and c.peek(2).text == ")":
            c.step()
            bracket = c.step().key
            c.step()
        elif c.here.key in ("k", "p"):
            bracket = c.step().key
        if c.take("row", "rnd"):
            words = [key.upper() if key in ("rs", "ws") else key]
            if bracket:
                words.append(bracket.upper() if bracket in ("rs", "ws") else bracket)
            return " ".join(words)
    elif c.take("row", "rnd"):
        row = c.count()
        if row is not None and _only(row):
            before = c.at
            named = _called(c) if c.take("of") else None
            if named is None:
                c.back(before)
                return str(_only(row))
            return f"{_only(row)} of {named.name.lower()}"
    return c.back(start)
