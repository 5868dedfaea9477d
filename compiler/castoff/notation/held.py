"""Held stitches taken up in a row: "k20 held front neck sts", "k28 from back neck holder".

In: a cursor. Out: `WorkHeld`, `Join`, or None.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.needle_names import read_needle_name
from castoff.notation.picking_up import EDGE_WORDS
from castoff.notation.syntax import (
    Action,
    Count,
    Fabric,
    Join,
    SlipHeld,
    StitchTo,
    ToEnd,
    WorkFabric,
    WorkHeld,
)

_RIGHT = ("right needle", "rh needle", "the right needle", "the rh needle", "right hand needle")


def read_slip_held(c: Cursor) -> SlipHeld | None:
    """Reads "slip first 7 sts from underarm thread on to right needle": the row ends with them."""
    start = c.at
    if not c.take("sl", "place", "slipping"):
        return None
    c.take("the")
    count = c.count() if c.take("first") else None
    if count is None or not c.take("st from", "st on", "st off"):
        return c.back(start)
    c.take("the")
    words = c.words_until(frozenset({"on", "onto", "to", "and"}), 4)
    if not words.endswith(_WAITING_ON) or not c.take("on to", "onto", "to", "on") or not c.take(*_RIGHT):
        return c.back(start)
    return SlipHeld(count, words, span=c.span(start))


_WAITING_ON = ("holder", "waste yarn", "scrap yarn", "spare needle", "thread", "safety pin", "underarm")


def read_held(c: Cursor) -> WorkHeld | Join | None:
    """Held stitches: "k20 held front neck sts", "k28 from back neck holder", "knit across 14 sts from holder"."""
    start = c.at
    verb = c.here.stitch if c.here.stitch in ("k", "p") else None
    if verb is None and c.here.key not in ("work", "rib", "patt"):
        return None
    how = c.step()
    across = c.take("across")
    every = across and c.looking("all")
    c.take("the", "all", "these", "those", "all the", "next")
    part = c.at
    which: Literal["", "first", "last", "rem"] = ""
    if c.take("first", "last", "rem") and c.count_at():
        word = c.lexemes[part].key
        which = "first" if word == "first" else "last" if word == "last" else "rem"
    else:
        c.back(part)
    count = c.count()
    body = _as_they_lie(c, start, verb, how.key)
    if c.take("hold"):
        name = c.words_until(frozenset({"st", "and", "then", "from"}), 4)
        if not c.take("st"):
            return c.back(start)
        if not name and c.take("of", "from", "for"):
            name = _piece(c)
            if not name:
                return c.back(start)
        return WorkHeld(name or None, count, body, which, span=c.span(start))
    words_start = c.at
    if count is None and c.lexemes[c.at - 1].key not in ("across", "all"):
        count = _one_from(c)
    if (
        c.here.key != "st"
        and c.here.kind in ("word", "ordinal")
        and c.here.key not in EDGE_WORDS
        and (count is not None or c.lexemes[c.at - 1].key in ("across", "the", "all"))
    ):
        c.words_until(frozenset({"st", "from", "to", "and", "then", "in", "on"}), 4)
    name = c.raw(words_start, c.at)
    named = c.take("st")
    if name and not named:
        return c.back(start)
    if named and name.endswith("lining") and count is not None:
        return WorkHeld(name, count, body, span=c.span(start))
    if c.take("that were on", "left on", "that are on", "waiting on", "hold on", "on hold for") or c.take(
        "from", "off", "on hold from", "on"
    ):
        c.take("the", "first", "second", "a", "your", "each")
        before = c.at
        words = c.words_until(frozenset({"and", "then", "to", "with", "turn"}), 5)
        plain = words.removesuffix("s")
        if plain.endswith(("safety pin", "thread", "underarm")):
            return WorkHeld(f"{name} {plain}".strip(), count, body, which, span=c.span(start))
        if plain.endswith(("holder", "waste yarn", "hold", "scrap yarn", "spare needle")):
            for suffix in (" stitch holder", " st holder", " holder"):
                if plain.endswith(suffix) and plain != suffix.strip():
                    plain = plain.removesuffix(suffix)
            if plain in ("st", "stitch", "holder"):
                plain = name or "holder"
            return WorkHeld(plain, count, body, which, span=c.span(start))
        c.back(before)
    if c.take("of"):
        if read_needle_name(c) is not None:
            return c.back(start)  # they are in work
        c.take("the")
        words = c.words_until(frozenset({"and", "then", "to", "with", "in"}), 4)
        if words and count is None:
            stitch: Literal["k", "p", ""] = "k" if verb == "k" else "p" if verb == "p" else ""
            return Join(words, stitch, span=c.span(start))
        if words.endswith(("lining", "linings", "sleeve", "front", "back", "leg", "pocket", "holder")):
            return WorkHeld(f"{name} {words}".strip(), count, body, which, span=c.span(start))
    elif which == "rem" and named and not name and (c.here.kind in ("mark", "end") or c.here.key == "and"):
        return WorkHeld(None, count, body, which, span=c.span(start))  # "k rem 6 sts", behind those that were slipped
    elif {"heel", "flap"} & set(name.split()):
        return c.back(start)  # those that are in work while the instep waits
    elif across and named and name and (c.here.kind in ("mark", "end") or c.here.key == "and"):
        if count is not None:
            return WorkHeld(name, count, body, which, span=c.span(start))  # "knit across 100 front sts, pm, …"
        if every and verb is not None:
            return Join(name, "k" if verb == "k" else "p", span=c.span(start))  # "knit across all right front sts"
    return c.back(start)


def _piece(c: Cursor) -> str:
    """ "first sleeve", "the left front": whose stitches they are."""
    c.take("the", "your")
    words = c.words_until(frozenset({"and", "then", "to", "with", "in", "from", "on"}), 4)
    return words if words.endswith(_PIECES) else ""


_PIECES = (
    "sleeve",
    "front",
    "back",
    "leg",
    "body",
    "yoke",
    "hood",
    "pocket",
    "lining",
    "thumb",
    "instep",
    "neck",
    "panel",
)


def _one_from(c: Cursor) -> Count | None:
    """ "k st from safety pin", "k centre front st from safety pin": one, its name left to be read."""
    start = c.at
    c.words_until(frozenset({"st", "from", "and", "then"}), 3)
    single = c.here.text.lower() in ("st", "stitch") and c.peek().key == "from"
    c.back(start)
    return c.same(1, start) if single else None


def _as_they_lie(c: Cursor, start: int, verb: str | None, key: str) -> tuple[Action, ...]:
    end = ToEnd(span=c.span(start))
    if verb is not None:
        return (StitchTo(verb, end, span=c.span(start)),)
    fabric = Fabric("set", "rib" if key == "rib" else "", span=c.span(start))
    return (WorkFabric(fabric, end, span=c.span(start)),)
