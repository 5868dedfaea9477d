"""An opening that comes later: stitches knitted in waste yarn and then again, and the waste yarn taken out.

"K8 with waste yarn, slip these 8 sts back to left needle and knit them again with A" makes the place of a thumb or a heel;
"remove waste yarn and place 8 sts below and 8 sts above the opening on needles" takes up the loops that it held.

In: a cursor. Out: `OpeningAct` within a row, `Resume` for a sentence; or None.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Count, OpeningAct, Resume, UseYarn
from castoff.notation.yarns import read_yarns
from castoff.notation.yarns_and_needles import read_needles

_WASTE = tuple(
    f"{before}{what} yarn"
    for before in ("", "a ", "the ", "a piece of ", "a length of ", "a bit of ", "some ")
    for what in ("waste", "scrap", "spare", "contrasting", "contrast", "smooth waste")
)
_BACK = ("sl", "slide", "return", "transfer", "place", "put", "move")
WAITS = "waste yarn"
"""What the loops at both sides of the opening wait on."""


def read_opening_act(c: Cursor) -> OpeningAct | UseYarn | None:
    """Reads the stitches in waste yarn, that they go back to the left needle, and that they are knitted again."""
    start = c.at
    early = c.take("with", "using") and c.take(*_WASTE)
    if not early:
        c.back(start)
    c.take(",")
    if not c.take("k"):
        return c.back(start)
    early = early or bool(c.take("with", "using") and c.take(*_WASTE))
    c.take("across the", "across", "the")
    c.take("next", "foll")
    count = c.count()
    if count is None:
        return c.back(start)
    c.take("st")
    if not early and not (c.take("with", "using", "in", "onto") and c.take(*_WASTE)):
        return c.back(start)
    yarns = _again(c, count) if _goes_back(c, count) else None
    if yarns is None:
        return c.back(start)
    act = OpeningAct(count, span=c.span(start))
    return UseYarn(yarns, (act,), span=act.span) if yarns else act


def _goes_back(c: Cursor, count: Count) -> bool:
    _joining(c)
    if c.take_key(frozenset(_BACK)) is None:
        return False
    if not _those(c, count):
        return False
    c.take("back")
    if not c.take("onto", "to", "on", "on to"):
        return False
    c.take("the", "your")
    return c.take("lh needle", "left needle", "left hand needle")


def _again(c: Cursor, count: Count) -> tuple[str, ...] | None:
    """The yarns they are knitted in again, empty when it is the one in work; None when they are not."""
    _joining(c)
    if not c.take("k", "work"):
        return None
    c.take("across")
    if not _those(c, count):
        return None
    again = c.take("again")
    before = c.at
    if c.take("with", "using", "in"):
        c.take("the")
        yarns = read_yarns(c)
        if yarns or c.take("working yarn", "main yarn", "main colour", "project yarn", "patt yarn"):
            c.take("again")
            return yarns
        c.back(before)
    return () if again else None


def _those(c: Cursor, count: Count) -> bool:
    """ "these 8 sts", "them", "the same 8 sts", "the waste yarn sts"; a number must be the one told before."""
    if c.take("them"):
        return True
    c.take("these", "the", "those")
    c.take("same")
    told = c.count()
    if told is not None and told.values != count.values:
        c.want("the same number of stitches as in waste yarn")
        return False
    c.take("waste yarn", "scrap yarn", "waste", "contrast")
    return c.take("st")


def _joining(c: Cursor) -> None:
    while c.take(",", ";", ".", "and", "then", "now"):
        pass


def read_waste_out(c: Cursor) -> Resume | None:
    """Reads "Remove waste yarn and place the 8 sts below and 8 sts above the opening on needles"."""
    start = c.at
    c.take("carefully")
    if not c.take("remove", "unpick", "pull out", "unravel", "undo", "take out", "removing"):
        return c.back(start)
    c.take("the")
    if not c.take(*_WASTE):
        return c.back(start)
    c.take("from thumb", "from the thumb", "from heel", "from the heel", "carefully")
    _joining(c)
    if not c.take(
        "place", "placing", "sl", "slipping", "put", "putting", "pick up", "picking up", "transfer", "return"
    ):
        return c.back(start)
    parts: list[tuple[Count | None, str]] = []
    while True:
        before = c.at
        if parts:
            c.take("and", ", and", ",")
        c.take("the", "resulting", "the resulting", "live", "the live", "these")
        c.take("resulting", "live", "freed", "exposed")
        count = c.count()
        c.take("live", "resulting", "thumb", "heel", "freed")
        if count is None or not c.take("st", "loops"):
            c.back(before)
            break
        c.take("from", "at")
        c.take("the")
        c.take(
            "below", "above", "bottom", "top", "lower edge", "upper edge", "lower", "upper", "bottom edge", "top edge"
        )
        c.take("of")
        c.take("the")
        c.take("opening", "thumb opening", "heel opening", "waste yarn", "gap", "thumb")
        parts.append((count, WAITS))
    if not parts or not c.take("onto", "on", "to", "on to"):
        return c.back(start)
    needles = read_needles(c)
    if needles is None:
        return c.back(start)
    return Resume(tuple(parts), None if needles in ("needle", "needles") else needles, span=c.span(start))
