"""How far along the row: "to end", "to last 2 sts", "to 3 sts before m", "across", "until 6 sts rem".

In: a cursor. Out: a `Target`, or None when no place is named here.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.needle_names import read_needle_name
from castoff.notation.syntax import (
    Count,
    Target,
    ToCentre,
    ToDivision,
    ToEnd,
    ToLast,
    ToMarker,
    ToStitch,
    ToTurn,
    ToWorked,
)

_LINE = ("of row", "of rnd", "of the row", "of the rnd", "of this row", "of this rnd")
_TURNS = ("bound-off st", "cast-off st", "bo st", "gap", "turn point", "turn place", "turn")
_NO_NAME = frozenset(
    {"st", "row", "rnd", "end", "last", "next", "needle", "and", "then", "until", "to", "before", "after", "place"}
)


def read_target(c: Cursor) -> Target | None:
    """Reads a place in the row."""
    start = c.at
    if c.take("to", "up to"):
        found = _after_to(c, start)
    elif c.take("across", "around"):
        found = _across(c, start)
    elif c.take("until"):
        found = _until(c, start)
    else:
        return None
    return found if found is not None else c.back(start)


def _across(c: Cursor, start: int) -> Target | None:
    around = c.lexemes[start].key == "around"
    behind = c.at
    c.take("the", "all", "all the")
    c.take("rem")
    if c.take("st of", "st on", "st from"):
        named = read_needle_name(c)
        if named is not None:
            return ToDivision(named, span=c.span(start))
    c.back(behind)
    division = _division(c)
    if division is not None:
        return ToDivision(division, span=c.span(start))
    c.take(
        "row", "rnd", "the row", "the rnd", "this row", "this rnd", "all st", "all the st", "all rem st", "all",
        "to end of row", "to end of rnd", "to end", "next row", "next rnd",
    )  # fmt: skip
    return ToEnd(around=around, span=c.span(start))


def _after_to(c: Cursor, start: int) -> Target | None:
    turned = _turned_place(c, start, None, None)
    if turned is not None:
        return turned
    c.take("the")
    if c.take("end"):
        if c.take(*_LINE):
            return ToEnd(span=c.span(start))
        if c.take("of"):
            division = _division(c)
            if division is None:
                return None
            return ToDivision(division, span=c.span(start))
        return ToEnd(span=c.span(start))
    if c.take("last"):
        return _after_last(c, start)
    centre = _centre(c, start)
    if centre is not None:
        return centre
    if c.take("within"):
        count = c.count()
        if count is None or not c.take("st of", "of"):
            return None
        c.take("the")
        if c.take("end"):
            c.take(*_LINE)
            return ToLast(count, span=c.span(start))
        return _near(c, start, count, None)
    count_start = c.at
    count = c.count()
    if count is None and c.take("a st"):
        count = c.same(1, count_start)
        return _beyond(c, start, count)
    if count is not None:
        if not c.take("st"):
            return None
        return _beyond(c, start, count)
    return _near(c, start, None, None)


def _turned_place(c: Cursor, start: int, before: Count | None, after: Count | None) -> ToTurn | None:
    """Where an earlier row turned, or the stitch it left: "wrapped st", "last DS", "first double-wrapped st", "gap"."""
    here = c.at
    c.take("the")
    c.take("first", "next", "last", "most recent", "nearest")
    c.take("turn's", "unworked")
    to: Literal["turn", "wrapped", "double-wrapped", "ds", "yo"]
    if c.take("double-wrapped st", "double wrapped st", "twice-wrapped st", "st with two wraps", "st with 2 wraps"):
        to = "double-wrapped"
    elif c.take("wrapped st", "wrap"):
        to = "wrapped"
    elif c.take("ds", "double st"):
        to = "ds"
    elif c.take("yo", "yarn-over", "yarn over"):
        to = "yo"
    elif c.take(*_TURNS):
        to = "turn"
    else:
        return c.back(here)
    c.take("from last row", "of last row", "made in last row", "from the last row", "of the last row", "in last row")
    return ToTurn(to, before, after, span=c.span(start))


def _after_last(c: Cursor, start: int) -> Target | None:
    one = c.at
    if c.here.text.lower() in ("st", "stitch") and c.take("st"):
        count: Count | None = c.same(1, one)
    elif c.looking("m"):
        c.step()
        return ToMarker("last", span=c.span(start))
    else:
        count = c.count()
        c.take("st")
    if count is None:
        return None
    if c.take("before"):
        return _near(c, start, count, None)
    if c.take("on", "of"):
        if c.take("row", "rnd", "the row", "the rnd"):
            return ToLast(count, span=c.span(start))
        division = _division(c)
        return None if division is None else ToDivision(division, before=count, span=c.span(start))
    return ToLast(count, span=c.span(start))


def _centre(c: Cursor, start: int) -> ToCentre | None:
    """ "center 20 sts", "the middle 12 sts"."""
    here = c.at
    if c.take("centre", "middle"):
        count = c.count()
        if count is not None and c.take("st"):
            return ToCentre(count, span=c.span(start))
    return c.back(here)


def _beyond(c: Cursor, start: int, count: Count) -> Target | None:
    if c.take("before"):
        if c.take(
            "end of needle", "the end of needle", "the end of the needle", "end of the needle", "end of each needle"
        ):
            return ToDivision("needle", before=count, span=c.span(start))
        if c.take("end", "the end"):
            c.take(*_LINE)
            return ToLast(count, span=c.span(start))
        return _near(c, start, count, None)
    if c.take("from end", "from the end"):
        c.take(*_LINE)
        return ToLast(count, span=c.span(start))
    if c.take("past", "after", "beyond"):
        return _near(c, start, None, count)
    return None


def _near(c: Cursor, start: int, before: Count | None, after: Count | None) -> Target | None:
    """A marker, a marked stitch, or the place of an earlier turn."""
    turned = _turned_place(c, start, before, after)
    if turned is not None:
        return turned
    c.take("the")
    marked = read_marked(c)
    if marked is not None:
        return ToStitch(marked, before, after, span=c.span(start))
    found, name = read_marker_name(c)
    if not found:
        return None
    return ToMarker(name, before, after, span=c.span(start))


def read_marked(c: Cursor) -> Literal["marked", "centre"] | None:
    """ "marked st", "the next marked st", "centre st", "the st with the marker": which stitch."""
    start = c.at
    c.take("the")
    if c.take("marked centre st", "centre marked st"):
        return "marked"
    c.take("first", "next")
    if c.take("marked st", "st with m", "st with the m"):
        return "marked"
    if c.at == start or c.lexemes[c.at - 1].key == "the":
        single = c.peek().text.lower() in ("st", "stitch")
        if single and c.take("centre st"):
            return "centre"
    return c.back(start)


def read_marker_name(c: Cursor) -> tuple[bool, str | None]:
    """A marker: whether one stands here, and its name (None for "m", "next m", "the marker")."""
    start = c.at
    c.take("the", "a", "an")
    if c.take("bor m", "bor", "beg of rnd m", "beg-of-rnd m", "beg-of-round m", "beg of row m", "beg of rnd"):
        return True, "beg of rnd"
    c.take("next")
    name_start = c.at
    while c.here.kind in ("word", "ordinal") and c.here.key not in _NO_NAME and c.at - name_start < 4:
        if c.looking("m"):
            name = c.raw(name_start, c.at)
            c.step()
            after = c.here
            if not name and after.kind == "word" and len(after.text) == 1 and after.text.isupper():
                name = c.step().text
            return True, name or None
        c.skip()
    c.back(start)
    return False, None


def _until(c: Cursor, start: int) -> Target | None:
    c.take("there are", "you have")
    count = c.count()
    if count is None or not c.take("st"):
        return None
    if c.take("are on", "on", "have been worked on"):
        c.take("the", "your")
        if c.take("rh needle", "right needle", "right hand needle"):
            return ToWorked(count, read_behind(c), span=c.span(start))
        return None
    if c.take("before"):
        return _near(c, start, count, None)
    if c.take("rem", "are left", "left", "unworked"):
        if c.take("before"):
            if c.take("end", "the end"):
                c.take(*_LINE)
                return ToLast(count, span=c.span(start))
            return _near(c, start, count, None)
        c.take("on needle", "on the needle", "on lh needle", "on left needle", "on left hand needle", "in row")
        return ToLast(count, span=c.span(start))
    return None


_BEHIND = tuple(sorted((
    "after bo", "after bind off", "after bind-off", "after cast-off", "after cast off",
    "after the bo", "after the bind-off", "after the cast-off", "after binding off", "after casting off",
    "from bo", "from bind-off", "from cast-off", "after bound-off st", "after the bound-off st",
    "after cast-off st", "after the cast-off st", "after these bound-off st", "after bound off st", "after cast off st",
    "after bo st", "after the bo st", "after bind-off gap", "after the bind-off gap", "after cast-off gap",
    "after the cast-off gap", "after gap", "after the gap", "after bo gap", "after underarm bind-off",
    "after the underarm bind-off", "after underarm gap", "beyond the bound-off st", "since bind-off", "since the bind-off",
    "past bound-off st",
), key=lambda words: (-len(words.split()), words)))  # fmt: skip


def read_behind(c: Cursor) -> bool:
    """ "after bind-off", "(including st used in casting off)" behind stitches on the right needle."""
    start = c.at
    bracket = c.closers.get(c.at)
    if bracket is not None:
        c.step()
    found = c.take(*_BEHIND) or read_with_loop(c)
    if not found or (bracket is not None and not c.take(")", "]")):
        c.back(start)
        return False
    return True


def read_with_loop(c: Cursor) -> bool:
    """ "including st used in casting off", "counting the st left from binding off"."""
    start = c.at
    if c.take("including", "counting", "incl"):
        c.take("the")
        if c.take("st used in casting off", "st used in binding off", "st used for casting off", "st used for binding off",
                  "st left from casting off", "st left from binding off", "st on needle after casting off",
                  "st on needle after binding off", "st used to cast off", "st used to bind off",
                  "st already on needle"):  # fmt: skip
            return True
    c.back(start)
    return False


def _division(c: Cursor) -> str | None:
    """A needle of a set, or a part of the sts: "needle 1", "first needle", "instep sts", "sole"."""
    start = c.at
    named = read_needle_name(c)
    if named is not None:
        c.take("only")
        return named
    each = c.take("each", "every")
    c.take("the", "this")
    if c.take("needle"):
        return "each needle" if each else "needle"
    c.back(start)
    c.take("the")
    if c.here.kind == "word" and c.peek().key == "st" and c.here.key not in _NO_NAME | {"all", "rem", "next", "these"}:
        name = c.here.text.lower()
        c.at += 2
        c.reach()
        return name
    if c.here.key in ("heel", "instep", "sole", "front", "back", "thumb", "foot", "palm"):
        return c.step().text.lower()
    c.back(start)
    return None
