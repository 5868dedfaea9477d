"""Brackets that say in other words what stands before them: "(left side seam)", "(half of back)", "(turning rnd)".

In: a cursor at an opening bracket. Out: `Remark`, or an act told in brackets ("(removing marker)"); None otherwise.
A bracket with a number, a stitch or a verb is none of these, so that no instruction can hide in one.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Fabric, Remark

_PLACES = frozenset(
    {"back", "front", "sleeve", "sleeves", "body", "left", "right", "side", "sides", "seam", "underarm", "centre", "neck",
     "shoulder", "heel", "instep", "sole", "thumb", "palm", "hand", "foot", "toe", "gusset", "edge", "selvedge", "selvage",
     "raglan", "armhole", "yoke", "cuff", "collar", "hood", "border", "steek", "band", "panel", "finger", "flap", "leg",
     "spine", "log", "square", "block", "strip", "motif",
     "top", "bottom", "wrong", "m", "ms", "middle", "armband", "neckband", "hem", "main", "corner"}
)  # fmt: skip
_JOINING = frozenset(
    {"half", "rest", "of", "the", "first", "second", "other", "new", "one", "each", "st", "and", "for", "at", "to", "mark",
     "beg", "end", "in", "this", "next", "is", "rnd", "row"}
)  # fmt: skip
_HALVES = frozenset({"half", "of", "the", "first", "second"})
_ROWS = frozenset({"row", "rnd", "ridge", "line", "fold"})
_WAYS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("stockinette", (
        "k every rnd", "k all rnd", "k each rnd", "k every st of every rnd", "k rs row , p ws row", "k on rs , p on ws",
        "k rs row and p ws row", "k on rs and p on ws", "k on rs row , p on ws row", "k the rs , p the ws",
        "k on the rs , p on the ws", "k 1 row , p 1 row", "k every row on rs , p every row on ws",
    )),
    ("reverse stockinette", (
        "p every rnd", "p on rs , k on ws", "p rs row , k ws row", "p all rnd", "p on the rs , k on the ws",
    )),
    ("garter", (
        "k every row", "k all row", "k each row", "every row k", "every row : k", "k 1 rnd , p 1 rnd", "p 1 rnd , k 1 rnd",
        "k one rnd , p one rnd", "p one rnd , k one rnd", "k all st every row", "k every st of every row",
    )),
)  # fmt: skip


def read_aside(c: Cursor) -> Remark | None:
    """Reads a bracket that names a place or a row."""
    start = c.at
    closer = c.closers.get(start)
    if closer is None or closer == start + 1:
        return None
    inside = c.lexemes[start + 1 : closer]
    if any(lexeme.kind not in ("word", "ordinal") or lexeme.text.lower() == "rnds" for lexeme in inside):
        return None
    if any(lexeme.numbers is not None and lexeme.kind == "word" and lexeme.key != "one" for lexeme in inside):
        return None
    last = inside[-1].key
    named = any(lexeme.key in _PLACES for lexeme in inside) and all(
        lexeme.key in _PLACES or lexeme.key in _JOINING for lexeme in inside
    )
    row = last in _ROWS and 1 < len(inside) < 5 and all(lexeme.stitch is None for lexeme in inside)
    if not named and not row:
        return None
    c.at = closer + 1
    c.settle()
    return Remark(c.raw(start, c.at), span=c.span(start))


def read_for_part(c: Cursor) -> Remark | None:
    """ "for front", "for the left sleeve" behind stitches that are worked: what they become."""
    start = c.at
    if not c.take("for"):
        return None
    c.take("the")
    words = c.at
    while c.here.kind == "word" and c.here.numbers is None and (c.here.key in _PLACES or c.here.key in _HALVES):
        c.skip()
    if not any(lexeme.key in _PLACES for lexeme in c.lexemes[words : c.at]) or c.here.kind not in ("mark", "end"):
        return c.back(start)
    c.settle()
    return Remark(c.raw(start, c.at), span=c.span(start))


def read_way(c: Cursor, fabric: Fabric) -> bool:
    """Reads how a fabric of the trade is worked, told in brackets behind its name: "garter st (k every row)"."""
    start = c.at
    if not c.take("(", "["):
        return False
    known = fabric.name if fabric.kind == "named" else {"knit": "garter"}.get(fabric.kind, "")
    for name, ways in _WAYS:
        for way in ways:
            before = c.at
            found = name == known and c.take(way.replace(" 1 ", " # ")) and c.take(")", "]")
            if found and all(lexeme.text == "1" for lexeme in c.lexemes[before : c.at] if lexeme.key == "#"):
                return True
            c.at = before
    c.back(start)
    return False
