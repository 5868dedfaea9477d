"""Totals the author prints: "— 84 (92, 100) sts", "(6 sts dec'd; 80 sts rem)", "29 instep sts and 27 sole sts".

In: a cursor behind a row or at the start of a sentence. Out: `Total`, `ToldRows`, `ToldLength`, or None.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_landmark, read_what
from castoff.notation.stitch_work import works_at
from castoff.notation.syntax import Count, Stated, ToldLength, ToldRows, Total
from castoff.notation.told_needles import read_told_needles

_OPENERS = (
    "there are now", "there are", "there will be", "there should be", "there should now be", "you should have",
    "you should now have", "you will have", "you will now have", "you now have", "you have", "leaving", "making",
    "there rem", "there are still", "and there are still", "and there are now", "for", "there will now be",
    "you should end with", "total of", "a total of", "total", "total =", "total :",
    "for a total of", "this leaves", "leaves", "giving",
)  # fmt: skip
_BRACKETS = {"(": ")", "[": "]"}
_PART_STARTS = frozenset(
    {
        "on",
        "for",
        "each",
        "between",
        "in",
        "at",
        "before",
        "after",
        "per",
        "either",
        "of",
        "across",
        "to",
        "from",
    }
)
_PART_STOPS = frozenset({"and", "then", "rem", "total"})
TURNED = frozenset({"wrapped", "unwrapped", "double-wrapped", "wraps", "ds", "double"})
"""Stitches that short rows have marked, told with the place where they lie ("10 unwrapped sts in centre")."""
_IN_CENTRE = ("in centre", "in the centre", "in middle", "in the middle", "at centre", "at the centre")
_ON_SIDES = (
    "each side", "on each side", "at each side", "either side", "on either side", "at either side", "on both sides",
    "at both sides", "each end", "at each end", "at either end", "at both end",
)  # fmt: skip
_NO_PART = frozenset({"last", "next", "st", "row", "rnd", "times", "more", "and", "to", "then", "inc", "dec", "of"})
_ON_EACH = ("on each needle", "on every needle", "on each of")
_EDGES_OF = ("each edge", "each side", "either edge", "either side", "both edge", "both sides", "each of the edge")
_WORKED = (
    "worked",
    "have been worked",
    "completed",
    "in all",
    "in total",
    "total",
    "are worked",
    "done",
    "are complete",
    "complete",
    "have been completed",
    "are completed",
)


def read_total(c: Cursor) -> Total | ToldRows | ToldLength | None:
    """Reads what stands printed as a total; separators before it are read with it."""
    start = c.at
    while c.here.key in ("-", "=", ";", ",", ":") or (c.here.key == "." and c.peek().kind != "end"):
        c.step()
    told = _told(c)
    if told is not None:
        return told
    closer = _BRACKETS.get(c.here.text) if c.here.kind == "mark" else None
    if closer is not None:
        end = c.closers.get(c.at)
        if end is None:
            return c.back(start)
        first = c.step()
        c.take("=", "-")
        stated = _parts(c)
        while stated and c.here.key in (".", ";", ","):
            c.step()
        if not stated or c.at != end or first.kind != "mark":
            return c.back(start)
        c.step()
        return Total(stated, span=c.span(start))
    stated = _parts(c)
    if not stated:
        return c.back(start)
    return Total(stated, span=c.span(start))


def _parts(c: Cursor) -> tuple[Stated, ...]:
    c.take(*_OPENERS_LONGEST)
    stated: list[Stated] = []
    while True:
        before = c.at
        if stated and read_told_needles(c) is not None:
            c.back(before)  # "74 sts: 23 sts each on N1 and N3, …": a sentence of its own
            break
        if stated:
            if stated[-1].part.split(" ")[0] in TURNED and c.take("of"):
                pass  # "9 wrapped sts on each side of 10 unwrapped sts"
            elif not (c.take(";", ",", ":", "and", ", and", "; and", ". total", "plus", "+") or c.here.text == "("):
                break
            c.take("with", "there are now", "you now have", "now", "total")
        bracket = c.take("(")
        found = _one(c)
        if found is None or (bracket and not c.take(")")):
            c.back(before)
            break
        stated.append(found)
    return tuple(stated)


_OPENERS_LONGEST = tuple(sorted(_OPENERS, key=lambda words: (-len(words.split()), words)))


def _one(c: Cursor) -> Stated | None:
    """ "84 sts", "4 sts dec'd", "13 sts between markers", "29 instep sts", "40 for the hand"."""
    start = c.at
    count = c.count()
    if count is None:
        return c.back(start)
    part = _part_before(c)
    loops = c.here.text.lower()
    if not part and c.take("ds", "wraps", "wrap"):
        return _tail(c, start, count, "ds" if loops == "ds" else "wraps", False)
    if not c.take("st"):
        if not part and (c.here.key in ("rem", "for", "incd", "decd") or c.looking(*_ON_EACH)):
            return _tail(c, start, count, "", True)
        return c.back(start)
    return _tail(c, start, count, part, False)


def _part_before(c: Cursor) -> str:
    start = c.at
    words: list[str] = []
    while c.here.kind in ("word", "ordinal") and c.here.key not in _NO_PART | _PART_STARTS and len(words) < 3:
        words.append(c.here.text.lower())
        c.skip()
    if words and c.here.key == "st":
        c.reach()
        joined = " ".join(words)
        return "" if joined in ("total", "live", "rem", "remaining") else joined
    c.back(start)
    return ""


def _tail(c: Cursor, start: int, count: Count, part: str, bare: bool) -> Stated | None:
    """What follows "N sts"."""
    if c.take("incd", "inc", "have been incd", "made", "added"):
        part = part or _part_after(c)
        return Stated(count, part, change=True, span=c.span(start))
    if c.take("decd", "dec", "have been decd", "bound off", "cast off", "bound-off"):
        lost = Count(tuple(None if value is None else -value for value in count.values), count.formula, span=count.span)
        part = part or _part_after(c)
        return Stated(lost, part, change=True, span=c.span(start))
    if part in ("slipped", "chain"):
        before = c.at
        along = c.take("along", "on", "at", "down") and c.take(*_EDGES_OF)
        if along:
            c.take("of heel flap", "of flap", "of the heel flap", "of the flap", "of heel")
            return Stated(count, f"{part} {c.raw(before, c.at)}", span=c.span(start))
        c.back(before)
    c.take("now rem", "rem", "are left", "left", "will rem", "should rem", "have been worked")
    if not (c.looking("on needle") and c.peek(2).kind == "number"):
        c.take("on needle", "on the needle", "on your needle", "on one needle")
    c.take( "in work", "on needle in total", "in total", "total", "in all",
           "total", "in rnd", "in row", "in the rnd")  # fmt: skip
    c.take("rem", "now")
    each = False
    if part in TURNED:
        before = c.at
        if c.take(*_IN_CENTRE, *_ON_SIDES):
            part = f"{part} {c.raw(before, c.at)}"
        return Stated(count, part, span=c.span(start))
    if not part:
        part = _part_after(c)
    elif c.here.key == "between" and (where := _part_after(c)):
        part = f"{where} for {part}"
    if part.startswith("for each "):
        each, part = True, part.removeprefix("for each ")
    elif part.startswith("each "):
        each = True
        part = part.removeprefix("each ").removeprefix("for ").removeprefix("of ")
    elif bare and not part and c.lexemes[c.at - 1].key not in ("rem",):
        return c.back(start)
    edges, edge = _without_edges(c)
    return Stated(count, part, each, edges=edges, edge=edge, span=c.span(start))


def _without_edges(c: Cursor) -> tuple[bool, Count | None]:
    """ ", not counting the edge sts", "(excluding the 3 border sts at each end)"."""
    start = c.at
    bracket = c.take("(")
    if not bracket:
        c.take(",")
    if c.take("not counting", "not including", "excluding", "without", "without counting", "exclusive of"):
        c.take("the", "any")
        count = c.count()
        c.take("garter")
        if c.take("edge st", "border st", "edging st", "edge", "border", "borders", "selvedge st"):
            c.take("at each end", "at each side", "on each side", "each side", "each end", "at either end")
            if not bracket or c.take(")"):
                return True, count
    c.back(start)
    return False, None


def _part_after(c: Cursor) -> str:
    """ "for each sleeve", "between markers", "each side of m", "each for Back and Front", "on each of 3 needles"."""
    start = c.at
    if c.here.key not in _PART_STARTS:
        return ""
    while c.here.kind in ("word", "ordinal") and c.at - start < 10:
        if c.here.key in _PART_STOPS and not (c.here.key == "and" and _name_follows(c)):
            break
        c.skip()
        if c.count_at() and c.lexemes[c.at - 1].key in ("needle", "of"):
            c.skip()
    if c.at - start == 1 and c.lexemes[start].key != "each":
        c.back(start)
        return ""
    c.reach()
    return c.raw(start, c.at)


def _name_follows(c: Cursor) -> bool:
    """Whether "and" joins two names ("each for Back and Front") and no second total."""
    after = c.peek()
    return after.kind == "word" and after.numbers is None and after.stitch is None and not works_at(c.lexemes, c.at + 1)


def _told(c: Cursor) -> ToldRows | ToldLength | None:
    """ "18 rows worked", "There are 120 rows above the rib", "rib measures 6 cm"; "(6 cm)" of the rows before it."""
    start = c.at
    bracket = c.take("(", "[")
    opened = c.take(*_OPENERS_LONGEST)
    opener_end = c.at
    count = c.count()
    if count is not None:
        total = c.take("total")
        kind = ""
        if c.here.kind == "word" and c.peek().key in ("row", "rnd", "ridge") and c.here.key not in ("more", "row"):
            kind = c.step().text.lower()
        unit = c.here.key
        if c.take("row", "rnd", "ridge"):
            where = ""
            worked = c.take(*_WORKED) or total
            if c.here.key == "in" and not worked:
                where = c.words_until(frozenset({"and", "then", "are", "have"}), 8)
            if c.here.key in ("above", "from", "below", "on", "of", "for", "since", "between") and not worked:
                where = c.words_until(frozenset({"and", "then", "are", "have"}), 8)
                worked = c.take(*_WORKED) or worked
            worked = worked or c.here.kind == "end" or c.here.key in (".", ";")
            if worked or (opened and where) or (bracket and c.here.text in (")", "]")) or where:
                if bracket and not c.take(")", "]"):
                    return c.back(start)
                return ToldRows(
                    count,
                    "rnd" if unit == "rnd" else "row" if unit == "row" else "ridge",
                    where,
                    kind,
                    span=c.span(start),
                )
        return c.back(start)
    if c.at != opener_end or opened:
        return c.back(start)
    if bracket:
        c.take("approx", "about", "roughly")
        length = c.length()
        if length is not None and c.take(")", "]"):
            return ToldLength(length, "", span=c.span(start))
        c.back(opener_end)
    what = read_what(c)
    if what is not None:
        c.take("now", "should", "should now", "will", "will now")
        if c.take("meas", "will meas"):
            c.take("approx", "about", "approx", "now")
            length = c.length()
            if length is not None:
                origin = read_landmark(c)
                if not bracket or c.take(")", "]"):
                    return ToldLength(length, what, origin, span=c.span(start))
    return c.back(start)
