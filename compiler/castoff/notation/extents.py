"""How far to go on: "for 6 rows", "until piece measures 30 cm from cast-on edge, ending with a WS row".

In: a cursor. Out: `Extent`, or None.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import (
    Count,
    Extent,
    ForLength,
    ForRows,
    Landmark,
    Length,
    Side,
    Until,
    UntilLength,
    UntilMatch,
    UntilRow,
    UntilStitches,
    UntilTimes,
    UntilWorked,
)
from castoff.notation.targets import read_behind

_LANDMARKS: tuple[tuple[str, str], ...] = (
    ("cast-on edge", "cast-on"), ("cast on edge", "cast-on"), ("co edge", "cast-on"), ("cast-on", "cast-on"),
    ("cast on", "cast-on"), ("co", "cast-on"), ("beg of row", "beginning"), ("beg", "beginning"), ("lower edge", "cast-on"),
    ("bottom edge", "cast-on"), ("bottom", "cast-on"), ("hem", "cast-on"), ("start", "beginning"),
    ("bound-off edge", "bind-off"), ("bind-off edge", "bind-off"), ("cast-off edge", "bind-off"), ("bo edge", "bind-off"),
    ("underarm", "underarm"), ("top of rib", "rib"), ("end of rib", "rib"), ("rib", "rib"), ("m", "marker"),
        ("ms", "marker"),
    ("division", "division"), ("divide", "division"), ("dividing row", "division"), ("dividing rnd", "division"),
    ("join", "join"), ("picked-up edge", "picked-up"), ("picked up edge", "picked-up"), ("pick-up row", "picked-up"),
    ("pick-up edge", "picked-up"), ("pick-up rnd", "picked-up"),
    ("back of heel", "heel"), ("heel", "heel"), ("brim", "brim"), ("cuff", "cuff"), ("top of cuff", "cuff"),
    ("last inc", "last inc"), ("last dec", "last dec"), ("last inc row", "last inc"), ("last dec row", "last dec"),
    ("armhole shaping", "armhole shaping"), ("beg of armhole", "armhole"), ("beg of armhole shaping", "armhole shaping"),
    ("start of armhole", "armhole"), ("armhole", "armhole"), ("beg of shaping", "shaping"), ("neck edge", "neck"),
    ("beg of heel", "heel"), ("gusset", "gusset"), ("thumb", "thumb"), ("shoulder", "shoulder"), ("crown", "crown"),
    ("beg of thumb", "thumb"), ("top of gusset", "gusset"), ("end of gusset", "gusset"), ("provisional cast-on", "cast-on"),
)  # fmt: skip
_LANDMARKS_LONGEST = tuple(sorted(_LANDMARKS, key=lambda pair: (-len(pair[0].split()), pair[0])))
_LANDMARK_STOPS = frozenset({"ending", "and", "then", "or", "end", "finishing", "with", "when"})
_THINGS = frozenset(
    [
        "piece",
        "work",
        "cap",
        "hat",
        "beanie",
        "rib",
        "cuff",
        "sleeve",
        "sleeves",
        "armhole",
        "foot",
        "leg",
        "body",
        "yoke",
        "front",
        "back",
        "scarf",
        "brim",
        "hand",
        "thumb",
        "mitt",
        "mitten",
        "mitts",
        "sock",
        "heel",
        "flap",
        "crown",
        "band",
        "neckband",
        "shawl",
        "cowl",
        "blanket",
        "cushion",
        "tube",
        "stopper",
        "panel",
        "strip",
        "total",
        "length",
        "hem",
        "edging",
        "finger",
        "headband",
        "legs",
        "toe",
        "collar",
        "strap",
        "pocket",
        "cover",
        "top",
        "square",
        "throw",
        "wrap",
        "section",
        "gusset",
        "bootee",
        "sole",
        "instep",
        "hood",
        "neck",
        "border",
        "snake",
        "bolster",
        "button-band",
        "buttonband",
        "end",
    ]
)
_WHAT_STOPS = frozenset(
    {"meas", "matches", "match", "equals", "now", "is", "should", "will", "and", "then", "until", "st"}
)
_ROW_ENDS = (
    "ending with", "ending after", "ending on", "end with", "end after", "end on", "ending last row with",
    "and ending with",
    "ending last row on", "ending having worked", "finishing after", "finishing with", "finishing on",
    "ending last rnd with",
    "and end with", "ending by working", "end last row with", "ending", "and ending after", "with last row",
)  # fmt: skip


def read_extent(c: Cursor) -> Extent | None:
    """Reads how far, with the row it must end on."""
    start = c.at
    until = _until(c)
    if until is None:
        return c.back(start)
    before = c.at
    c.take(",", ";")
    if not _read_ending(c):
        c.back(before)
        return Extent(until, span=c.span(start))
    c.back(before)
    c.take(",", ";")
    side, row = _ending(c)
    chart = ""
    if row is not None:
        behind = c.at
        chart = (read_chart_name(c) or "") if c.take("of") else ""
        if not chart:
            c.back(behind)
    return Extent(until, side, row, chart, span=c.span(start))


def _read_ending(c: Cursor) -> bool:
    side, row = _ending(c)
    return side is not None or row is not None


def read_ending_side(c: Cursor) -> Side | None:
    """ "ending with a WS row": the side, where a side is all that is told."""
    start = c.at
    side, row = _ending(c)
    return side if row is None else c.back(start)


def _ending(c: Cursor) -> tuple[Side | None, Count | None]:
    start = c.at
    if not c.take(*_ROW_ENDS_LONGEST):
        return None, None
    c.take("a", "an", "the")
    side = read_side(c)
    if side is not None:
        if c.lexemes[c.at - 2].key in ("on", "with") and c.take("facing for next row", "facing"):
            return ("RS" if side == "WS" else "WS"), None
        c.take("row", "rnd")
        return side, None
    if c.take("k row", "p row"):
        return ("RS" if c.lexemes[c.at - 2].key == "k" else "WS"), None
    if c.take("row", "rnd"):
        row = c.count()
        if row is not None:
            c.take("of patt", "of the patt")
            return None, row
    ordinal = c.ordinal()
    if ordinal is not None and c.take("row", "rnd", "patt row"):
        c.take("of patt", "of the patt")
        return None, ordinal
    c.back(start)
    return None, None


_ROW_ENDS_LONGEST = tuple(sorted(_ROW_ENDS, key=lambda words: (-len(words.split()), words)))


def read_side(c: Cursor) -> Side | None:
    """RS or WS, short or in words."""
    if c.take("rs", "right side", "right-side"):
        return "RS"
    if c.take("ws", "wrong side", "wrong-side"):
        return "WS"
    return None


def _until(c: Cursor) -> Until | None:
    start = c.at
    if c.take("for"):
        return _for(c, start)
    if c.count_at():
        rows = c.count()
        c.take("more")
        if rows is not None and c.take("row", "rnd"):
            c.take("more")
            return ForRows(rows, span=c.span(start))
        return c.back(start)
    if c.here.length is not None:
        return _plain_length(c, start, True)
    through = _through(c, start)
    if through is not None:
        return through
    if c.take("to"):
        return _to(c, start)
    if c.take("until"):
        return _after_until(c, start)
    if c.take("same length as", "the same length as"):
        return _match(c, start)
    return None


def _for(c: Cursor, start: int) -> Until | None:
    more = c.take("another", "a more", "a")
    if c.count_at():
        rows = c.count()
        more = c.take("more") or more
        if rows is not None and c.take("row", "rnd"):
            c.take("more")
            return ForRows(rows, span=c.span(start))
        return c.back(start)
    if c.take("approx", "about", "approx"):
        pass
    return _plain_length(c, start, more)


def _plain_length(c: Cursor, start: int, more: bool) -> Until | None:
    length = c.length()
    if length is None:
        return c.back(start)
    bare = c.lexemes[start].key == "#len"
    more = c.take("more") or (more and not bare)
    origin = read_landmark(c)
    if origin is not None:
        return UntilLength(length, "piece", origin, span=c.span(start))
    return ForLength(length, more, span=c.span(start))


def _to(c: Cursor, start: int) -> Until | None:
    if c.take("same length as", "the same length as", "match"):
        return _match(c, start)
    if c.count_at():
        count = c.count()
        if count is not None and c.take("st"):
            c.take("rem")
            return UntilStitches(count, span=c.span(start))
    return c.back(start)


def _match(c: Cursor, start: int, what: str = "piece") -> Until | None:
    c.take("for", "the")
    piece = c.words_until(frozenset({"to", "ending", "end", "and", "then", "at"}), 4)
    if not piece:
        return c.back(start)
    to = ""
    if c.take("to", "at"):
        c.take("the")
        to = c.words_until(frozenset({"ending", "and", "then"}), 5)
        if not to:
            return c.back(start)
    return UntilMatch(piece, to, what, span=c.span(start))


def _through(c: Cursor, start: int) -> UntilRow | None:
    """ "through row 24 of chart A", "through the last row of chart", "to end of chart"."""
    through = c.take("through", "thru", "up to and including", "to and including")
    if not through and not c.take("to", "to the"):
        return None
    c.take("the")
    if c.take("last row of", "last rnd of", "end of"):
        chart = read_chart_name(c)
        return c.back(start) if chart is None else UntilRow(chart, span=c.span(start))
    if through and c.take("row", "rnd"):
        row = c.count()
        chart = read_chart_name(c) if c.take("of") else ""
        if row is not None and chart is not None:
            return UntilRow(chart, row, span=c.span(start))
    return c.back(start)


def read_chart_name(c: Cursor) -> str | None:
    """A stitch pattern of the source, in lower case; "chart" for the one in work; None when none is named."""
    start = c.at
    c.take("the")
    own = c.name_of(c.vocabulary.stitch_patterns)
    if own is not None:
        return own.lower()
    if c.take("chart") and not (c.here.spaced and (c.here.kind == "number" or c.here.text[:1].isupper())):
        return "chart"
    return c.back(start)


def _chart_done(c: Cursor, start: int) -> UntilRow | None:
    """ "until row 24 of chart A is complete", "until chart is complete", "until all 24 rows of chart have been worked"."""
    row: Count | None = None
    every = False
    c.take("the")
    if c.take("row", "rnd"):
        row = c.count()
        if row is None or not c.take("of"):
            return c.back(start)
    elif c.take("last row of", "last rnd of", "end of"):
        pass
    elif c.take("all"):
        every = True
        c.take("the")
        row = c.count()
        if not c.take("row of", "rnd of"):
            return c.back(start)
    chart = read_chart_name(c)
    if chart is None or not c.take(
        "is complete", "are complete", "is completed", "are completed", "has been worked", "have been worked", "is worked",
        "are worked", "has been completed", "have been completed", "is finished", "is reached",
    ):  # fmt: skip
        return c.back(start)
    return UntilRow(chart, row, every and row is not None, span=c.span(start))


def _after_until(c: Cursor, start: int) -> Until | None:
    before = c.at
    through = _chart_done(c, before)
    if through is not None:
        return UntilRow(through.chart, through.row, through.all, span=c.span(start))
    if c.take("you have worked", "you have completed", "you have made", "you have done"):
        number = c.count()
        done = c.words_until(frozenset({"in", "and", "then", "ending"}), 4)
        if number is None or not done or done in ("row", "rows", "rnd", "rnds", "rounds"):
            return c.back(start)
        c.take("in all", "in total", "total")
        return UntilTimes(done, number, span=c.span(start))
    there = c.take("there are", "you have", "there rem", "there are only", "only")
    if c.count_at():
        count = c.count()
        if count is None:
            return c.back(start)
        if c.take("unwrapped st"):
            if not c.take("rem", "are left", "left", "rem in centre", "rem in the centre") and not there:
                return c.back(start)
            c.take("in centre", "in the centre", "in the middle")
            return UntilStitches(count, "unwrapped", span=c.span(start))
        if c.take("st rem unwrapped", "st are left unwrapped", "st are unwrapped"):
            return UntilStitches(count, "unwrapped", span=c.span(start))
        if c.take("st"):
            numbered = c.looking("on needle") and c.peek(2).kind == "number"
            rem = not numbered and c.take("rem", "are left", "left", "are on needle", "on needle", "on the needle",
                "in total", "total",
                         "are on the needle", "on needle in total", "now rem")  # fmt: skip
            where = ""
            if c.take("on right needle", "on rh needle", "on the right needle", "on right hand needle"):
                where = "on right needle after bind-off" if read_behind(c) else "on right needle"
            if not where and c.here.key in ("on", "each", "between", "in", "for", "at", "either", "before"):
                where = c.words_until(frozenset({"and", "then", "ending"}), 5)
                for behind in (" after cast-off", " after bind-off", " after casting off", " after binding off"):
                    where = where.removesuffix(behind)
                if c.here.kind == "number" and where.endswith("needle"):
                    where += f" {c.step().text}"
            if rem or there or where:
                c.take("in total", "total")
                return UntilStitches(count, where, span=c.span(start))
            return c.back(start)
        done = c.words_until(frozenset({"have", "has", "are", "been", "worked"}), 4)
        if done and c.take(
            "have been worked",
            "are worked",
            "worked",
            "have been done",
            "have been completed",
            "completed",
            "have been made",
        ):
            return UntilTimes(done, count, span=c.span(start))
        return c.back(start)
    if c.here.length is not None:
        length = c.length()
        origin = read_landmark(c)
        if length is not None and origin is not None:
            return UntilLength(length, "piece", origin, span=c.span(start))
        return c.back(start)
    if c.take("all", "all the"):
        if c.take("wraps", "ds", "wrapped st", "double st", "unworked st"):
            part = c.raw(c.at - 1, c.at) if c.peek(-1).key != "st" else c.raw(c.at - 2, c.at - 1)
            closed = c.take("have been worked", "are worked", "have been picked up", "are picked up", "have been closed",
                          "are closed", "have been used")  # fmt: skip
            return UntilWorked(part, span=c.span(start)) if closed else c.back(start)
        part = c.words_until(frozenset({"st", "have", "are"}), 3)
        if c.take("st") and c.looking("on needle") and c.peek(2).kind == "number":
            part = f"needle {c.peek(2).text}"
            c.at += 3
            c.reach()
            return UntilWorked(part, span=c.span(start)) if c.take(*_USED) else c.back(start)
        if c.lexemes[c.at - 1].key == "st" and c.take(
            "have been worked", "are worked", "have been used", "are used", "have been used up"
        ):
            return UntilWorked(part, span=c.span(start))
        return c.back(start)
    what = read_what(c)
    if what is None:
        return c.back(start)
    if c.take(
        "is the same length as", "is same length as", "matches", "meas the same as", "meas same as", "match", "equals"
    ):
        return _match(c, start, what)
    if not c.take("meas", "is", "reaches"):
        return c.back(start)
    c.take("approx", "about", "approx")
    if c.take("the same as", "same as"):
        return _match(c, start, what)
    if c.count_at() and c.peek().key == "row":
        rows = c.count()
        c.take("row")
        if c.take("shorter than", "less than", "fewer than"):
            match = _match(c, start, what)
            if isinstance(match, UntilMatch):
                return replace(match, short_of=rows)
        return c.back(start)
    if c.here.key == "#len":
        return _measured(c, start, what)
    return c.back(start)


_USED = ("have been worked", "are worked", "have been used up", "have been used", "are used")


def read_trigger(c: Cursor) -> Extent | None:
    """ "when armhole measures 4 cm", "after 3 armhole decs have been worked", "when 40 sts rem"."""
    start = c.at
    until: Until | None = None
    if c.take("when", "once") or c.take("after"):
        until = _after_until(c, start)
    if until is None:
        return c.back(start)
    return Extent(until, span=c.span(start))


def _measured(c: Cursor, start: int, what: str) -> Until | None:
    length = c.length()
    if length is None:
        return None
    short = _short_of(c)
    if short is None and c.take("less than", "short of", "shorter than"):
        c.take("the", "your")
        if not c.take("desired length", "desired total length", "total length", "total foot length", "foot length",
            "finished foot length", "desired finished length",
            "desired foot length",
                      "total desired length", "the desired length", "the desired total length", "desired total foot length",
                      "finished length"):  # fmt: skip
            return c.back(start)
        return UntilLength(length, what, None, length, span=c.span(start))
    c.take("in total", "total", "in length", "long", "wide")
    origin = read_landmark(c)
    if short is None:
        short = _short_of(c)
    return UntilLength(length, what, origin, short, span=c.span(start))


def _short_of(c: Cursor) -> Length | None:
    """ "or 4 cm less than desired length", ", or until 2 in short of desired length", also in brackets."""
    start = c.at
    c.take(",")
    bracket = c.take("(", "[")
    if c.take("or"):
        c.take("until it is", "until piece is", "until work is", "until", "work until", "to")
        c.take("about", "approx")
        length = c.length()
        if length is not None and c.take("less than", "short of", "shorter than"):
            c.take("the", "your")
            c.take("desired", "total", "required", "finished", "own")
            c.take("total", "finished", "desired")
            c.take("foot", "sleeve", "body", "leg", "yoke", "hand")
            c.take("desired", "total")
            if c.take("length") and (not bracket or c.take(")", "]")):
                return length
    c.back(start)
    return None


def read_landmark(c: Cursor) -> Landmark | None:
    """ "from cast-on edge", "from underarm", "above rib"."""
    start = c.at
    c.take(",")
    c.take("when meas", "meas")
    if not c.take("from", "above", "after", "below", "past", "beyond", "along"):
        return c.back(start)
    c.take("the", "your", "beg of the", "beg of the")
    words_start = c.at
    for words, kind in _LANDMARKS_LONGEST:
        if c.take(words):
            if c.here.kind == "word" and c.here.key not in _LANDMARK_STOPS:
                c.back(words_start)  # "cast-on sts of opening" is another place than the cast-on
                break
            return Landmark(kind, c.raw(words_start, c.at), span=c.span(start))
    words = c.words_until(_LANDMARK_STOPS, 5)
    if not words:
        return c.back(start)
    return Landmark(words, words, span=c.span(start))


def read_what(c: Cursor) -> str | None:
    """What is measured: "piece", "the sleeve", "Back", "foot", "left front"."""
    start = c.at
    c.take("the", "your", "this")
    name = c.name_of(c.vocabulary.pieces) or c.name_of(c.vocabulary.sections)
    if name is not None:
        return name.lower()
    words_start = c.at
    while c.here.kind == "word" and c.here.key not in _WHAT_STOPS and c.at - words_start < 4:
        known = c.here.key in _THINGS
        c.skip()
        if known and c.here.key in _WHAT_STOPS:
            c.settle()
            return c.raw(words_start, c.at)
    if 0 < c.at - words_start < 3 and c.here.key == "meas":  # a thing of the author's ("loop") that is said to measure
        c.settle()
        return c.raw(words_start, c.at)
    return c.back(start)
