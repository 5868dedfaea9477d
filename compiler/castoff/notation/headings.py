"""Words that head what follows: "Shape armholes:", "Heel flap:", "Turn heel as follows:", "Divide for neck:".

In: a cursor at the start of a sentence. Out: `Note` with the words, or None.
A heading holds no number, no row word and no yarn or needles, so that no instruction can hide in it.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Note

_VERBS = frozenset({"shape", "shaping", "divide", "turn", "separate", "beg"})
_PARTS = frozenset(
    {"heel", "flap", "gusset", "toe", "thumb", "foot", "leg", "cuff", "hand", "crown", "brim", "body", "sleeve", "sleeves",
     "neck", "neckband", "yoke", "armhole", "armholes", "shoulder", "shoulders", "left", "right", "back", "front", "instep",
     "sole", "finger", "fingers", "collar", "border", "borders", "edging", "edgings", "band", "bands", "top", "shaping",
     "raglan", "dec", "inc", "hem", "hood", "pocket", "pockets", "edge", "rib", "bottom", "lower", "upper", "main",
     "set-up", "waist", "bust", "hip", "underarm", "sides", "little", "ring", "middle", "index", "buttonhole",
     "button",
     "placket", "lace", "cable", "panel", "section", "cap", "steek", "wrist", "palm", "tip", "beg", "welt", "join",
     "division", "dividing", "saddle", "strap", "straps", "spine", "wing", "short", "short-row", "short-rows",
     "centre", "opening", "log", "square", "block", "strip", "motif", "triangle", "wedge", "tier"}
)  # fmt: skip
_COUNTED = frozenset(
    {"log", "square", "block", "strip", "motif", "triangle", "wedge", "tier", "section", "panel", "band"}
)
"""Parts that are told by their number: "Log 1:"."""
_NO_TITLE = frozenset({"join", "inc", "dec", "rib"})
_JOINING = frozenset(
    {"and", "the", "of", "half", "second", "first", "other", "for", "now", "each", "both", "work", "set"}
)
_STOPS = frozenset({"row", "rnd", "st", "rep", "until", "times"})
_CARRIERS = frozenset({"in", "with", "using", "from", "until"})
"""Words that bring a yarn, needles or a fabric: what stands behind them is work, and no heading."""


def read_heading(c: Cursor) -> Note | None:
    """Reads a heading with its colon; one that begins with "shape" may also end its sentence."""
    start = c.at
    c.take("now", "next")
    if c.take("rs row :", "ws row :"):  # heads the rows of one side
        if c.done or (c.here.key == "." and c.peek().kind == "end"):
            return Note(c.raw(start, c.at - 1), span=c.span(start))
        return c.back(start)
    first = c.here.key
    if first not in _VERBS and not _part(c) and first != "work":
        return None
    named = True
    c.take("work short row")
    while _word(c) and c.here.key not in _STOPS and c.at - start < 8:
        if c.looking("as foll"):
            break
        if c.here.key in _CARRIERS:
            return c.back(start)
        turns = c.here.key == "turn" and c.at > start  # "heel turn"
        named = named and (_part(c) or turns or (c.at == start and first == "work") or c.here.key in _JOINING)
        counted = c.here.key in _COUNTED
        c.skip()
        if counted and c.here.kind == "number" and c.peek().key == ":":
            c.step()
            break
    named = named and c.at > start + (first == "work")
    if first == "join" and not named:
        return c.back(start)  # "Join C and work as follows" is no heading: C must be a yarn of the pattern
    follows = c.take("as foll")
    if c.at == start:
        return c.back(start)
    words = c.raw(start, c.at)
    alone = first == "shape" and c.here.key in (".", "")
    if _title(c, start, first):
        return Note(words, span=c.span(start))
    if not (c.here.key == ":" and (named or first in _VERBS or (follows and first != "join"))) and not alone:
        return c.back(start)
    c.take(":")
    return Note(words, span=c.span(start))


def _title(c: Cursor, start: int, first: str) -> bool:
    """A whole line of names of parts in capitals, "Turn Heel", "HEEL TURN": no instruction is written so."""
    words = [lexeme for lexeme in c.lexemes[start : c.at] if lexeme.key not in _JOINING]
    if start or not c.done or len(words) < 2 or first in _NO_TITLE:
        return False
    known = all(word.key in _PARTS or word.text.lower() in _PARTS or word.key in _VERBS for word in words)
    return known and all(word.text[:1].isupper() for word in words) and any(word.key in _PARTS for word in words)


def _word(c: Cursor) -> bool:
    """A word that is no number: "second" says which half, "2nd" which row."""
    return (c.here.kind == "word" and c.here.numbers is None) or (c.here.kind == "ordinal" and c.here.text.isalpha())


def _part(c: Cursor) -> bool:
    return c.here.key in _PARTS or c.here.text.lower() in _PARTS
