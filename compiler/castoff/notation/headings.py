"""Words that head what follows: "Shape armholes:", "Heel flap:", "Turn heel as follows:", "Divide for neck:".

In: a cursor at the start of a sentence. Out: `Note` with the words, `Total` for "Work on these 20 sts only"; or None.
A heading holds no number and no row word, so that no instruction can hide in it.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Note, Stated, Total

_VERBS = frozenset({"shape", "shaping", "divide", "turn"})
_PARTS = frozenset(
    {"heel", "flap", "gusset", "toe", "thumb", "foot", "leg", "cuff", "hand", "crown", "brim", "body", "sleeve", "sleeves",
     "neck", "neckband", "yoke", "armhole", "armholes", "shoulder", "shoulders", "left", "right", "back", "front", "instep",
     "sole", "finger", "collar", "border", "edging", "band", "top"}
)  # fmt: skip
_STOPS = frozenset({"row", "rnd", "st", "rep", "until", "times"})


def read_heading(c: Cursor) -> Note | Total | None:
    """Reads a heading with its colon; one that begins with "shape" may also end its sentence."""
    start = c.at
    if c.take("work on these", "work on those"):
        count = c.count()
        if count is not None and c.take("st only", "st"):
            return Total((Stated(count, span=count.span),), span=c.span(start))
        return c.back(start)
    first = c.here.key
    if first not in _VERBS and c.here.text.lower() not in _PARTS and first != "work":
        return None
    named = True
    c.take("work short row")
    while c.here.kind == "word" and c.here.key not in _STOPS and c.here.numbers is None and c.at - start < 8:
        if c.looking("as foll"):
            break
        named = named and (c.here.text.lower() in _PARTS or c.here.key == "and")
        c.skip()
    follows = c.take("as foll")
    if c.at == start:
        return c.back(start)
    words = c.raw(start, c.at)
    alone = first == "shape" and c.here.key in (".", "")
    if not (c.here.key == ":" and (follows or named or first in _VERBS)) and not alone:
        return c.back(start)
    c.take(":")
    return Note(words, span=c.span(start))
