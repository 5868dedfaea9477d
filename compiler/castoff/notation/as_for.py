"""Work told by what has been told before: "Work as for Back to **", "Complete as for Sleeve", "Make a second mitt".

In: a cursor at the start of a sentence. Out: `WorkAs`, or None.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_extent
from castoff.notation.fabrics import read_fabric
from castoff.notation.syntax import WorkAs, WorkRows
from castoff.notation.yarns_and_needles import read_needles

_SIDES = frozenset({"side", "half", "shoulder", "front", "neck", "sleeve", "edge", "back", "piece", "strap"})
_LIKE = ("as given for", "as described for", "as worked for", "as for", "as on", "as with", "same as for", "same as",
         "the same as for", "the same as", "in the same way as for", "in the same way as", "in same way as",
         "in the same manner as for", "in the same manner as", "in same manner as", "exactly as given for",
         "exactly as for", "just as for", "to match")  # fmt: skip
_WORK = ("work as for", "work as given for", "as for", "as given for", "work same as", "work the same as", "work as",
         "work exactly as for", "k as for", "make as for", "work exactly as given for", "k the same as", "k same as",
         "work in the same way as", "work in the same way as for", "work same as for", "work the same as for")  # fmt: skip
_REST = ("complete", "finish", "finish off", "end off", "cont", "work the rem", "work rem", "work the rest",
         "work rest", "k the rest", "complete the rem", "complete rem", "complete the rest", "completing",
         "finishing")  # fmt: skip
_SAME_WAY = (
    "in the same way as the first", "the same as the first", "the same as first", "same as first", "exactly the same",
    "in the same manner", "in the same way", "in same way", "the same way", "the same", "as for first", "as the first",
    "as first", "to match the first", "to match first", "to match", "same",
)  # fmt: skip
_LIKE_LONGEST = tuple(sorted(_LIKE, key=lambda words: (-len(words.split()), words)))
_WORK_LONGEST = tuple(sorted(_WORK, key=lambda words: (-len(words.split()), words)))
_NO_PIECE = frozenset({"set", "est", "before"})
_GOES_ON = frozenset({"but", "reversing", "and", "then"})
_ENDS = frozenset({"to", "until", "from", "but", "reversing", "and", "rev", "row", "rnd", "then", "for"})


def read_work_as(c: Cursor) -> WorkAs | tuple[WorkRows, WorkAs] | None:
    """Reads "Work as for Back to **", "Make second mitt the same", "Work rib as for Back until piece measures 5 cm"."""
    return _rows_as(c) or _work_as_other(c)


def _rows_as(c: Cursor) -> tuple[WorkRows, WorkAs] | None:
    """ "Work ribbing as for Back until piece measures 5 cm": rows of a fabric that is told there."""
    start = c.at
    if not c.take("work", "cont", "k"):
        return None
    c.take("in")
    fabric = read_fabric(c) if c.looking("rib") else None
    place = c.at
    of = _other(c) if fabric is not None and c.take(*_LIKE_LONGEST) else ""
    if fabric is None or not of or _NO_PIECE & set(of.split()):
        return c.back(start)
    told = WorkAs(of, span=c.span(place))
    c.take(",")
    extent = read_extent(c)
    return c.back(start) if extent is None else (WorkRows(fabric, extent, span=c.span(start)), told)


def _work_as_other(c: Cursor) -> WorkAs | None:
    start = c.at
    if c.take(*_WORK_LONGEST):
        of = _other(c)
        if not of or c.here.key in ("row", "rnd") or _NO_PIECE & set(of.split()):
            return c.back(start)
        return _work_as(c, start, of)
    if c.take("make a second", "make second", "make the second", "work second", "work the second", "make another",
        "k the second",
              "make one more", "k second", "k the second", "work other", "work the other"):  # fmt: skip
        of = c.words_until(frozenset({"the", "in", "as", "to", "same", "exactly", "but"}), 4)
        if of and c.take(*_SAME_WAY):
            return _work_as(c, start, of)
        return c.back(start)
    if c.take("rep for second", "rep for the second", "rep for other", "rep for the other", "rep for left",
              "rep for right"):  # fmt: skip
        of = c.words_until(frozenset({"the", "in", "as", "to", "same", "but", "reversing", "rev"}), 3)
        return _work_as(c, start, of) if of else c.back(start)
    return _rest(c, start)


def _rest(c: Cursor, start: int) -> WorkAs | None:
    """ "Complete as for Back", "Finish toe as for first sock", "Complete second side to match first"."""
    rest = c.take(*_REST)
    if not rest and c.take_key(frozenset({"work", "k"})) is None:
        return c.back(start)
    place = c.at
    part = ""
    if not c.looking(*_LIKE):
        c.take("the")
        second = c.take("second", "other", "left", "right", "rem")
        if not rest and second and c.take_key(_SIDES) is None:
            return c.back(start)
        if rest:
            c.back(place)
            c.take("the")
            words = c.at
            c.words_until(frozenset({"as", "the", "same", "exactly", "just", "to", "in"}), 4)
            part = c.raw(words, c.at)
    if not c.take(*_LIKE_LONGEST):
        return c.back(start)
    of = _other(c)
    if not of or _NO_PIECE & set(of.split()):
        return c.back(start)
    return replace(_work_as(c, start, of), rest=rest, part=part)


def _other(c: Cursor) -> str:
    """What is followed: a piece or section by its name, whatever is in it, or words up to one that goes on."""
    c.take("the")
    known = c.at
    name = c.name_of((*c.vocabulary.pieces, *c.vocabulary.sections))
    if name is not None and (c.here.kind in ("mark", "end") or c.here.key in _ENDS):
        return c.raw(known, c.at)
    c.back(known)
    return c.words_until(_ENDS, 5)


def _work_as(c: Cursor, start: int, of: str) -> WorkAs:
    begin = ""
    to = ""
    if c.take("from"):
        c.take("the")
        begin = (
            c.step().text if c.here.kind == "mark" else c.words_until(frozenset({"to", "until", "onwards", "on"}), 6)
        )
        if c.take("onwards", "on", "to the end", "to end"):
            return WorkAs(of, "", begin, _reversing(c), None, True, span=c.span(start))
    if c.take("to", "until"):
        c.back(c.at - 1)
        extent = read_extent(c)
        if extent is not None:
            return WorkAs(of, to, begin, _reversing(c), extent, span=c.span(start))
        c.step()
        c.take("the")
        to = c.step().text if c.here.kind == "mark" else _changed(c) or c.words_until(_GOES_ON, 6)
    return WorkAs(of, to, begin, _reversing(c), None, span=c.span(start))


def _changed(c: Cursor) -> str:
    """ "you have changed to 4 mm needles": the place behind the step that says so."""
    start = c.at
    if c.take("you have changed to", "you have changed onto", "you changed to") and read_needles(c) is not None:
        return c.raw(start, c.at)
    c.back(start)
    return ""


def _reversing(c: Cursor) -> bool:
    start = c.at
    c.take(",")
    c.take("but")
    if c.take(
        "reversing all shaping",
        "reversing shaping",
        "reversing the shaping",
        "rev shaping",
        "rev all shaping",
        "reversing shapings",
        "reversing all shapings",
        "reversing all the shaping",
        "reversing all the shapings",
        "reversing the shapings",
    ):
        return True
    c.back(start)
    return False
