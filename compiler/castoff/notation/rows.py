"""Rows and rounds: their labels ("Rnd 3 (dec):", "2nd and 4th rows:", "Row 1 and every foll RS row:") and their work.

In: a cursor at the start of a sentence. Out: `RowStep`, `RowsAs`, `RowRef`, `Label`; None when no row begins here.
"""

from __future__ import annotations

import difflib
from dataclasses import replace
from typing import Literal

from castoff.notation.actions import read_actions
from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.syntax import (
    Action,
    Count,
    Label,
    Repeat,
    RowRef,
    RowsAs,
    RowStep,
    Side,
    Stitch,
    StitchTo,
    Target,
    ToDivision,
    ToEnd,
    ToLast,
    Turn,
    WorkFabric,
)

Unit = Literal["row", "rnd"]
Ranges = tuple[tuple[Count, Count], ...]
_EVERY = ("every", "all", "each")
_STEPS: tuple[tuple[str, int], ...] = (("other", 2), ("alt", 2), ("second", 2), ("third", 3))
_NAME_STOPS = frozenset(
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
    found_side, found_name = _brackets(c)
    side = side or found_side
    name = name or found_name
    before = c.at
    if every_side is None and every_step is None:
        c.take(",")
        if c.take("and", "&"):
            every = _every_words(c)
            if every is None:
                c.back(before)
            else:
                every_side, every_step, _ = every
                if not _parity_fits(c, before, ranges):
                    c.want('a label whose numbers and "even" or "odd" agree')
                    return None
                more_side, more_name = _brackets(c)
                side = side or more_side
                name = name or more_name
        else:
            c.back(before)
    if not _colon(c, which):
        return None
    return Label(unit, which, ranges, side, name, every_side, every_step, span=c.span(start))


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


def _brackets(c: Cursor) -> tuple[Side | None, str]:
    """ "(RS)", "(WS, dec row)", "[inc]", and a side without brackets; the side and the name."""
    side: Side | None = None
    names: list[str] = []
    while True:
        before = c.at
        if c.here.text in ("(", "[") and c.at in c.closers:
            end = c.closers[c.at]
            c.step()
            while c.at < end:
                found = read_side(c)
                if found is not None:
                    side = found
                    c.take("row", "rnd", "facing")
                elif c.here.key in (",", ";", "-", "/", "and"):
                    c.step()
                elif c.here.kind in ("word", "ordinal") and _is_name(c):
                    word = c.step()
                    if word.key not in ("row", "rnd"):
                        names.append(_row_name(word.key, word.text))
                else:
                    c.back(before)
                    return side, " ".join(names)
            c.step()
        else:
            found = read_side(c)
            if found is None or side is not None:
                c.back(before)
                return side, " ".join(names)
            side = found


def _is_name(c: Cursor) -> bool:
    """Whether a word in the brackets of a label names the row; stitches and numbers do not."""
    return c.here.numbers is None and (c.here.stitch is None or c.here.key in ("dec", "inc", "drop"))


def _row_name(key: str, text: str) -> str:
    return key if key in ("dec", "inc", "rib", "buttonhole", "set-up", "rep") else text.lower()


def _every_words(c: Cursor) -> tuple[Side | None, Count | None, Unit] | None:
    """ "every following RS row", "all WS rows", "every other row", "all even-numbered rnds", "alt rows"."""
    start = c.at
    if not c.take(*_EVERY):
        if c.here.key not in ("alt", "even", "even-numbered", "odd", "rs", "ws"):
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
    found = None if unit is None else _finish(c, start, unit, "numbers", ranges, side=side)
    return found if found is not None else c.back(before)


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
        name = "" if side is not None else _row_name(c.here.key, c.here.text) if c.peek().key in ("row", "rnd") else ""
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
    while c.here.kind == "word" and len(words) < 4 and c.here.key not in _NAME_STOPS:
        found_side = read_side(c)
        if found_side is not None:
            side = found_side
            continue
        word = c.here
        c.skip()
        words.append(_row_name(word.key, word.text))
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
    setup = name in ("set-up", "setup", "set up", "foundation", "preparation")
    label = _finish(c, start, unit, "set-up" if setup else "named", ranges, "" if setup else name, side=side)
    return label if label is not None else c.back(before)


def read_row_ref(c: Cursor) -> RowRef | None:
    """Reads "rows 1–4", "last 2 rnds", "these 4 rows", "row 1", "dec row", "1st and 2nd rows", "last row"."""
    start = c.at
    c.take("the")
    if c.take("last", "these", "those", "foregoing", "the last", "this"):
        kind: Literal["last", "these"] = "last" if c.lexemes[c.at - 1].key in ("last", "foregoing") else "these"
        count = c.count()
        if count is None:
            count = c.same(1, start) if c.here.text.lower() in ("row", "rnd", "round") else None
        unit = read_unit(c)
        if unit is None:
            return c.back(start)
        return RowRef(kind, (), count, span=c.span(start))
    unit = read_unit(c)
    if unit is not None:
        ranges = read_ranges(c)
        if ranges:
            return RowRef("numbers", ranges, name=_of_pattern(c), span=c.span(start))
        return c.back(start)
    ranges = read_ranges(c, ordinals=True)
    if ranges:
        unit = read_unit(c)
        if unit is not None:
            return RowRef("numbers", ranges, name=_of_pattern(c), span=c.span(start))
        return c.back(start)
    words: list[str] = []
    while c.here.kind == "word" and len(words) < 4 and c.here.key not in ("row", "rnd"):
        word = c.here
        if word.key in (_NAME_STOPS - {"rep"}) and word.key not in ("k", "p"):
            break
        c.skip()
        words.append(_row_name(word.key, word.text))
    if words and read_unit(c) is not None:
        ranges = read_ranges(c)
        return RowRef("named", ranges, name=" ".join(words), span=c.span(start))
    return c.back(start)


def _of_pattern(c: Cursor) -> str:
    """ "of ripple lace": the stitch pattern whose rows are meant."""
    before = c.at
    if c.take("of", "from"):
        c.take("the")
        name = c.name_of(c.vocabulary.stitch_patterns)
        if name is not None:
            c.take("patt")
            return name
        if c.take("patt"):
            return "patt"
    c.back(before)
    return ""


def read_row(c: Cursor) -> RowStep | RowsAs | None:
    """Reads a labelled row with its work."""
    start = c.at
    label = read_label(c)
    if label is None:
        return c.back(start)
    same = _as_rows(c, label, start)
    if same is not None:
        return same
    work = read_row_work(c)
    if not work:
        c.want("what is worked in this " + ("round" if label.unit == "rnd" else "row"))
        return c.back(start)
    return RowStep(label, work, span=c.span(start))


def _as_rows(c: Cursor, label: Label, start: int) -> RowsAs | None:
    """ "As row 1", "Rep rows 1–4", "Work as row 2", "Same as row 3", "Like row 1"."""
    before = c.at
    if c.take("work as for", "work as", "as for", "as", "rep", "same as", "the same as", "like", "work the same as", "k as",
              "p as", "as given for", "work same as", "work"):  # fmt: skip
        rows = read_row_ref(c)
        times = None if rows is None else read_times(c, "all")
        if rows is not None and c.here.key in (".", "", "-", "(", ";"):
            return RowsAs(label, rows, times, span=c.span(start))
    return c.back(before)


def read_row_work(c: Cursor) -> tuple[Action, ...]:
    """Reads the work of one row, by needles where it is told so."""
    if c.looking("needle #", "first needle", "1st needle") or (c.here.kind == "ordinal" and c.peek().key == "needle"):
        return read_by_needles(c)
    work = read_actions(c)
    if not work:
        return ()
    return _whole_row(work)


def read_by_needles(c: Cursor) -> tuple[Action, ...]:
    """ "Needle 1: K to last 3 sts, k2tog, k1; needle 2: knit; …": ends and last stitches are those of the needle."""
    start = c.at
    work: list[Action] = []
    while True:
        before = c.at
        while work and c.here.key in (";", ",", ".", "and"):
            c.step()
        name = read_needle_name(c)
        if name is None or not c.take(":", "-"):
            c.back(before)
            break
        part = read_actions(c)
        if not part:
            c.back(start)
            return ()
        work.extend(on_division(action, name) for action in _whole_row(part))
    return tuple(work)


def read_needle_name(c: Cursor) -> str | None:
    """ "needle 1", "2nd needle", "needles 1 and 2" is none."""
    start = c.at
    if c.take("needle") and c.here.kind == "number":
        return f"needle {c.step().text}"
    c.back(start)
    if c.here.kind == "ordinal" and c.peek().key == "needle":
        c.at += 2
        c.reach()
        return c.raw(start, c.at)
    return c.back(start)


def on_division(action: Action, name: str) -> Action:
    """The action with "to end" and "to last N sts" meant for one needle."""
    if isinstance(action, StitchTo):
        return replace(action, target=_target_on(action.target, name))
    if isinstance(action, WorkFabric) and not isinstance(action.over, Count):
        return replace(action, over=_target_on(action.over, name))
    if isinstance(action, Repeat):
        times = action.times
        if times.target is not None:
            times = replace(times, target=_target_on(times.target, name))
        return replace(action, times=times)
    return action


def _target_on(target: Target, name: str) -> Target:
    if isinstance(target, ToEnd):
        return ToDivision(name, span=target.span)
    if isinstance(target, ToLast):
        return ToDivision(name, before=target.stitches, span=target.span)
    return target


def _whole_row(work: tuple[Action, ...]) -> tuple[Action, ...]:
    """A lone "knit" or "purl" goes to the end."""
    acts = [action for action in work if not isinstance(action, Turn)]
    first = work[0]
    if isinstance(first, Stitch) and first.count is None and first.name in ("k", "p") and first.yarn_held is None:
        others = [type(action).__name__ for action in acts[1:]]
        if all(name in ("Remark", "MarkerAct", "UseYarn", "PickUpWrap", "Drop") for name in others):
            whole = StitchTo(first.name, ToEnd(span=first.span), span=first.span)
            return (whole, *work[1:])
    return work
