"""Labels of rows and rounds: "Rnd 3 (dec):", "2nd and 4th rows:", "Row 1 and every foll RS row:", "Next row:".

In: a cursor at the start of a sentence. Out: `Label`, ranges of row numbers, "row" or "rnd"; None when none stands here.
"""

from __future__ import annotations

import difflib
from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.syntax import (
    Count,
    Label,
    Side,
)

Unit = Literal["row", "rnd"]
Ranges = tuple[tuple[Count, Count], ...]
_EVERY = ("every", "all", "each")
_STEPS: tuple[tuple[str, int], ...] = (("other", 2), ("alt", 2), ("second", 2), ("third", 3))
NAME_STOPS = frozenset(
    {
        "row",
        "rnd",
        "rep",
        "work",
        "k",
        "p",
        "with",
        "until",
        "and",
        "to",
        "in",
        "from",
        "cont",
        "all",
        "every",
        "each",
        "next",
        "last",
    }
)
_COMMON_NAMES = ("next", "first", "last", "dec", "inc", "set-up", "every")


def read_unit(c: Cursor) -> Unit | None:
    """Reads "row" or "rnd" in any spelling."""
    key = c.here.key
    if key == "row" or key == "rnd":
        c.step()
        return "rnd" if key == "rnd" else "row"
    return None


def read_ranges(c: Cursor, ordinals: bool = False) -> Ranges:
    """Reads "1", "1–4", "1, 3 and 5", "2 and 4 to 6"; empty when no number stands here."""
    ranges: list[tuple[Count, Count]] = []
    while True:
        before = c.at
        if ranges:
            while c.here.key in (",", "and", "&"):
                c.step()
            if c.here.kind == "number" and c.peek().key in ("times", "more"):
                c.back(before)  # "rows 1 and 2, 5 times more"
                break
            c.take("row", "rnd")
            if c.at == before:
                break
        first = c.ordinal() if ordinals else (c.count() if c.here.kind == "number" else None)
        if first is None:
            c.back(before)
            break
        last = first
        dash = c.at
        if c.take("-", "to", "through"):
            found = c.ordinal() if ordinals else (c.count() if c.here.kind == "number" else None)
            if found is None:
                c.back(dash)
            else:
                last = found
        ranges.append((first, last))
    return tuple(ranges)


def read_label(c: Cursor) -> Label | None:
    """Reads a label with the colon behind it (or what stands for the colon)."""
    start = c.at
    c.take("on", "for")
    c.take("the")
    label = _numbered(c, start) or _ordinal(c, start) or _every(c, start) or _named(c, start)
    if label is None:
        return c.back(start)
    return label


def _finish(
    c: Cursor,
    start: int,
    unit: Unit,
    which: Literal["numbers", "next", "named", "set-up", "first", "last", "all"],
    ranges: Ranges = (),
    name: str = "",
    every_side: Side | None = None,
    every_step: Count | None = None,
    side: Side | None = None,
) -> Label | None:
    """Side, name in brackets, "and every …", and the colon."""
    found_side, found_name, yarn = _brackets(c)
    side = side or found_side
    name = name or found_name
    before = c.at
    if every_side is None and every_step is None:
        c.take(",")
        bracket = c.closers.get(c.at)
        if bracket is not None:  # "Row 2 (and all WS rows):"
            c.step()
        if c.take("and", "&"):
            every = _every_words(c)
            if every is None or (bracket is not None and c.at != bracket):
                c.back(before)
            else:
                every_side, every_step, _ = every
                if bracket is not None:
                    c.step()
                if not _parity_fits(c, before, ranges):
                    c.want('a label whose numbers and "even" or "odd" agree')
                    return None
                more_side, more_name, more_yarn = _brackets(c)
                side = side or more_side
                name = name or more_name
                yarn = yarn or more_yarn
        else:
            c.back(before)
    told_on = which == "next" and c.lexemes[start].key == "on" and c.take(",")  # "On next row, bind off …"
    if not told_on and not _colon(c, which):
        return None
    return Label(unit, which, ranges, side, name, every_side, every_step, yarn, span=c.span(start))


def _parity_fits(c: Cursor, start: int, ranges: Ranges) -> bool:
    """ "Row 2 and all odd rows" contradicts itself."""
    said = [lexeme.key.removesuffix("-numbered") for lexeme in c.lexemes[start : c.at]]
    parity = 0 if "even" in said else 1 if "odd" in said else None
    first = ranges[0][0].values[0] if ranges else None
    return parity is None or first is None or first % 2 == parity


def _colon(c: Cursor, which: str) -> bool:
    """The mark behind a label; UK patterns also use a full stop or a dash, or nothing behind a number."""
    before = c.at
    c.take(",")
    if c.take(":"):
        c.take("-")
        return True
    c.back(before)
    if c.here.key in ("-", ".") and c.peek().kind != "end":
        c.step()
        c.take("-")
        return True
    if which in ("next", "numbers") and c.here.kind in ("word", "mark") and c.here.text != ",":
        after = c.here
        return after.stitch is not None or after.text in ("*", "[") or after.key in ("bo", "cast", "bind", "co")
    return False


def _brackets(c: Cursor) -> tuple[Side | None, str, str]:
    """ "(RS)", "(WS, dec row)", "[inc]", "(RS, B)", and a side without brackets; the side, the name and the yarn."""
    side: Side | None = None
    yarn = ""
    names: list[str] = []
    while True:
        before = c.at
        if c.here.text in ("(", "[") and c.at in c.closers and c.peek().key not in ("and", "&"):
            end = c.closers[c.at]
            c.step()
            while c.at < end:
                found = read_side(c)
                if found is not None:
                    side = found
                    c.take("row", "rnd", "facing")
                elif not yarn and _yarn_inside(c, end):
                    c.take("with", "in", "using")
                    yarn = c.yarn() or ""
                elif c.here.key in (",", ";", "-", "/", "and"):
                    c.step()
                elif c.here.kind in ("word", "ordinal") and _is_name(c):
                    word = c.step()
                    if word.key not in ("row", "rnd"):
                        names.append(row_name(word.key, word.text))
                else:
                    c.back(before)
                    return side, " ".join(names), yarn
            c.step()
        else:
            found = read_side(c)
            if found is None or side is not None:
                c.back(before)
                return side, " ".join(names), yarn
            side = found


def _yarn_inside(c: Cursor, end: int) -> bool:
    """Whether a yarn's key stands here, alone in the bracket or between commas."""
    before = c.at
    c.take("with", "in", "using")
    found = c.yarn() is not None and (c.at == end or c.here.key in (",", ";", "/", "and"))
    c.back(before)
    return found


def _is_name(c: Cursor) -> bool:
    """Whether a word in the brackets of a label names the row; stitches and numbers do not."""
    return c.here.numbers is None and (c.here.stitch is None or c.here.key in ("dec", "inc", "drop"))


def row_name(key: str, text: str) -> str:
    """The name of a row as it is spoken of later: "dec" for "Decrease row"."""
    return key if key in ("dec", "inc", "rib", "buttonhole", "set-up", "rep") else text.lower()


def _every_words(c: Cursor) -> tuple[Side | None, Count | None, Unit] | None:
    """ "every following RS row", "all WS rows", "every other row", "all even-numbered rnds", "alt rows"."""
    start = c.at
    if not c.take(*_EVERY) and c.here.key not in ("alt", "even", "even-numbered", "odd", "rs", "ws"):
        return None
    c.take("the")
    c.take("foll", "rem", "other foll")
    step: Count | None = None
    place = c.at
    for word, number in _STEPS:
        if c.take(word):
            step = c.same(number, place)
            break
    if step is None:
        step = c.ordinal()
    side: Side | None = None
    if step is None:
        if c.take("even-numbered", "even", "odd-numbered", "odd"):
            step = c.same(2, place)
        else:
            side = read_side(c)
    c.take("foll", "alt") if step is None else c.take("foll")
    unit = read_unit(c)
    if unit is None:
        c.back(start)
        return None
    if step is None and side is None:
        step = c.same(1, start)
    return side, step, unit


def _numbered(c: Cursor, start: int) -> Label | None:
    """ "Row 1 (RS):", "Rnds 1–4:", "Rows 1, 3 and 5:"."""
    before = c.at
    unit = read_unit(c)
    if unit is None:
        return None
    ranges = read_ranges(c)
    if not ranges:
        return c.back(before)
    found = _finish(c, start, unit, "numbers", ranges)
    return found if found is not None else c.back(before)


def _ordinal(c: Cursor, start: int) -> Label | None:
    """ "1st row:", "2nd and 4th rows:", "3rd to 6th rnds:", "First row:", "Last row:"."""
    before = c.at
    if c.take("last"):
        unit = read_unit(c)
        found = None if unit is None else _finish(c, start, unit, "last")
        return found if found is not None else c.back(before)
    ranges = read_ranges(c, ordinals=True)
    if not ranges:
        return None
    side = read_side(c)
    unit = read_unit(c)
    if unit is None and side is None:
        unit = _unit_of_every(c)  # "2nd and every alt row"
    found = None if unit is None else _finish(c, start, unit, "numbers", ranges, side=side)
    return found if found is not None else c.back(before)


def _unit_of_every(c: Cursor) -> Unit | None:
    before = c.at
    every = _every_words(c) if c.take("and", "&") else None
    c.back(before)
    return None if every is None else every[2]


def _every(c: Cursor, start: int) -> Label | None:
    """ "All WS rows:", "Every other rnd:", "Even rnds:"."""
    before = c.at
    parity = c.here.key if c.here.key in ("even", "odd", "even-numbered", "odd-numbered") else c.peek().key
    every = _every_words(c)
    if every is None:
        return c.back(before)
    side, step, unit = every
    name = parity.removesuffix("-numbered") if parity.removesuffix("-numbered") in ("even", "odd") else ""
    found = _finish(c, start, unit, "all", (), name, side, step)
    return found if found is not None else c.back(before)


def _named(c: Cursor, start: int) -> Label | None:
    """ "Next row (RS):", "Next 3 rows:", "Dec rnd:", "Set-up row:", "Gusset round 2:"."""
    before = c.at
    if c.take("next", "foll"):
        count = c.count() if c.here.numbers is not None else None
        side = read_side(c)
        name = "" if side is not None else row_name(c.here.key, c.here.text) if c.peek().key in ("row", "rnd") else ""
        if name and (c.here.kind != "word" or c.here.key in ("row", "rnd")):
            return c.back(before)
        if name:
            c.step()
        unit = read_unit(c)
        if unit is not None:
            ranges: Ranges = () if count is None else ((c.same(1, before), count),)
            found = _finish(c, start, unit, "next", ranges, name, side=side)
            if found is not None:
                return found
        return c.back(before)
    words: list[str] = []
    side = None
    while c.here.kind == "word" and len(words) < 4 and c.here.key not in NAME_STOPS:
        found_side = read_side(c)
        if found_side is not None:
            side = found_side
            continue
        word = c.here
        c.skip()
        words.append(row_name(word.key, word.text))
    unit = read_unit(c) if words or side is not None else None
    if unit is None or not words:
        return c.back(before)
    name = " ".join(words)
    meant = difflib.get_close_matches(name, _COMMON_NAMES, 1, 0.8)
    if meant and name not in _COMMON_NAMES:
        c.back(before)
        c.want(f"`{meant[0]}` for `{name}`")
        return None
    ranges = read_ranges(c)
    setup = name in ("set-up", "set up", "foundation", "preparation")
    label = _finish(c, start, unit, "set-up" if setup else "named", ranges, "" if setup else name, side=side)
    return label if label is not None else c.back(before)
