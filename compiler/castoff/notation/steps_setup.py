"""Sentences that set the work up: cast on, join in the round, change yarn or needles, place markers, turn, stripes.

In: a cursor at the start of a sentence. Out: step nodes, or None.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.actions import read_yarns
from castoff.notation.acts import CAST_ON, read_marker, read_method
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.fabrics import read_fabric
from castoff.notation.rows import read_needle_name, read_row_ref
from castoff.notation.syntax import (
    Arrange,
    CastOn,
    ChangeNeedles,
    ChangeYarn,
    Count,
    JoinRound,
    Length,
    MarkerAct,
    Place,
    RoundStart,
    RowsForm,
    Side,
    Step,
    Stripes,
    TurnWork,
)

_ROUND = (
    "to work in the rnd", "to work in rnd", "for working in the rnd", "for working in rnd", "in the rnd", "in a rnd",
    "into a rnd", "to work in rnd", "for work in the rnd", "in rnd", "to form a rnd", "for rnd", "working in the rnd",
)  # fmt: skip
_FLAT = (
    "back and forth in row", "back and forth", "flat", "in row", "flat in row", "backwards and forwards in row",
    "backwards and forwards", "back and forth on these st", "in row from this point", "back and forth in row on these st",
)  # fmt: skip
_NEEDLE_WORDS = frozenset(
    [
        "needle",
        "dpn",
        "circular",
        "double-pointed",
        "dpn",
        "set",
        "of",
        "size",
        "us",
        "straight",
        "long",
        "mm",
        "pair",
        "a",
        "the",
        "two",
        "larger",
        "smaller",
    ]
)


def read_needles(c: Cursor) -> str | None:
    """Needles by their key ("larger"), or as worded ("4 mm needles", "dpns", "US 8 circular needle")."""
    start = c.at
    c.take("the", "a", "an", "a pair of", "a set of", "set of", "pair of", "your", "both")
    key = c.name_of(c.vocabulary.needles)
    if key is not None:
        c.take("size", "sized")
        c.take("circular needle", "straight needle", "double-pointed needle", "circular", "dpn", "needle", "straight")
        return key
    words_start = c.at
    seen = False
    while c.here.kind in ("word", "number", "length") and c.at - words_start < 6:
        key_here = c.here.key
        if key_here in ("needle", "dpn") or (key_here == "circular" and c.peek().key != "needle"):
            seen = True
            c.skip()
            break
        if c.here.kind == "length" and c.here.length is not None and c.here.length.unit not in ("mm", "cm", "in"):
            break
        if c.here.kind == "word" and key_here not in _NEEDLE_WORDS:
            break
        c.skip()
    if not seen:
        return c.back(start)
    c.reach()
    return c.raw(words_start, c.at)


def read_withs(c: Cursor) -> tuple[tuple[str, ...], str | None, Side | None] | None:
    """ "With smaller needles and A," before what is done: yarns, needles, facing side."""
    start = c.at
    yarns: tuple[str, ...] = ()
    needles: str | None = None
    facing: Side | None = None
    while True:
        before = c.at
        if c.at == start:
            if not c.take("with", "using", "on", "onto"):
                break
        elif not c.take(
            ", and with", ", and", ", with", ", using", ",", "and with", "and using", "and", "with", "using"
        ):
            break
        side = read_side(c)
        if side is not None and c.take("facing", "of work facing", "facing you", "of the work facing"):
            facing = side
            continue
        found = read_yarns(c)
        if found and not yarns:
            yarns = found
            continue
        words = read_needles(c)
        if words is not None and needles is None:
            needles = words
            continue
        c.back(before)
        break
    if c.at == start:
        return None
    if not yarns and needles is None and facing is None:
        c.back(start)
        return None
    return yarns, needles, facing


def read_cast_on_step(c: Cursor) -> CastOn | None:
    """Reads "With smaller needles and A, cast on 84 (92, 100) sts using the long-tail method"."""
    start = c.at
    withs = read_withs(c)
    yarns, needles, facing = withs if withs is not None else ((), None, None)
    if facing is not None:
        return c.back(start)
    c.take(",")
    c.take("loosely")
    before = c.at
    if withs is not None:
        c.take("and")
    method_before = _method_words(c)
    if method_before is None:
        c.back(before)
    provisional = c.take("provisionally", "provisional")
    method_before = method_before or read_method(c)
    c.take(",")
    if not c.take(*CAST_ON):
        return c.back(start)
    count: Count | None = c.count()
    if count is None:
        return c.back(start)
    c.take("st")
    if c.here.key in ("at", "over", "for") or c.looking("in place"):
        return c.back(start)
    method = method_before
    while True:
        before = c.at
        c.take(",")
        found = read_method(c)
        if found is not None:
            method = found
            continue
        later = read_withs(c)
        if later is not None and later[2] is None and not (later[0] and yarns) and not (later[1] and needles):
            yarns = yarns or later[0]
            needles = needles or later[1]
            continue
        c.back(before)
        break
    provisional = provisional or "provisional" in (method or "")
    return CastOn(count, method, yarns, needles, provisional, span=c.span(start))


def _method_words(c: Cursor) -> str | None:
    """ "the long-tail method" behind "using larger needles and"."""
    start = c.at
    c.take("the", "a", "an")
    words = c.words_until(frozenset({"and", "then", "cast", "co"}), 5)
    return words if words.endswith("method") else c.back(start)


def read_join(c: Cursor) -> JoinRound | None:
    """Reads "Join to work in the round", "join into a rnd", "work back and forth in rows from here"."""
    start = c.at
    if c.take("join", "joining"):
        c.take("st", "work", "for working", "the work", "end of rnd")
        if c.take(*_ROUND):
            return JoinRound(span=c.span(start))
        if c.looking(",", ".", "and", "") or c.here.kind == "end" or c.looking("being", "taking", "making", "without"):
            if c.peek(-1).key == "join":
                return JoinRound(span=c.span(start))
        return c.back(start)
    worked = _worked_flat(c)
    if worked is not None:
        return worked
    if c.take("work", "working", "cont", "cont working", "now work", "cont to work"):
        if c.take("in the rnd", "in rnd", "in rnd") and c.here.kind in ("end", "mark"):
            return JoinRound(span=c.span(start))
        if c.take(*_FLAT):
            c.take("from here", "from now on", "from this point")
            return JoinRound("flat", span=c.span(start))
    return c.back(start)


def _worked_flat(c: Cursor) -> JoinRound | None:
    """ "The heel is worked back and forth over the first 20 sts of the rnd." """
    start = c.at
    c.take("the")
    what = c.words_until(frozenset({"is", "are"}), 3)
    if not what or not c.take("is worked", "are worked", "is now worked"):
        return c.back(start)
    flat = c.take(*_FLAT)
    if not flat and not c.take(*_ROUND):
        return c.back(start)
    form: Literal["flat", "round"] = "flat" if flat else "round"
    over: Count | None = None
    if c.take("over", "on"):
        c.take("the", "these")
        c.take("first", "next", "last")
        over = c.count()
        if not c.take("st"):
            return c.back(start)
        c.take("of the rnd", "of rnd", "of the row", "only")
    return JoinRound(form, over, what, span=c.span(start))


def read_arrange(c: Cursor) -> Arrange | RoundStart | RowsForm | None:
    """Reads "Distribute evenly over 3 needles", "Slip the first 32 sts on to one needle and …", "Rnd now begins at …"."""
    start = c.at
    if c.take("distribute", "divide", "arrange", "spread"):
        c.take("the", "these")
        c.take("st")
        c.take("evenly")
        if c.take("over", "on", "between", "onto", "among"):
            needles = c.count()
            c.take("double-pointed")
            if needles is not None and c.take("needle", "dpn"):
                return Arrange(_needle_groups(c), needles, span=c.span(start))
        return c.back(start)
    if c.take("rnd", "row", "the rnd"):
        c.take("now", "will now", "will")
        if c.take("beg"):
            c.take("at", "in")
            where = c.words_until(frozenset({"and", "then"}), 7)
            if where:
                return RoundStart(where, span=c.span(start))
        return c.back(start)
    if c.take("sl", "place", "put"):
        groups: list[tuple[Count | None, str]] = []
        while True:
            before = c.at
            if groups and not c.take("and", ", and", ","):
                break
            c.take("the")
            c.take("first", "rem", "next", "last")
            count = c.count()
            whose = c.words_until(frozenset({"st", "on", "onto"}), 3)
            if not (c.take("st") or groups) or not c.take("on to", "onto", "on"):
                c.back(before)
                break
            c.take("the")
            if not c.take("one needle", "another needle", "another", "first needle", "second needle", "third needle",
                          "one dpn", "a second needle", "other needle", "needle"):  # fmt: skip
                c.back(before)
                break
            groups.append((count, whose))
        return Arrange(tuple(groups), span=c.span(start)) if len(groups) > 1 else c.back(start)
    rows = read_row_ref(c)
    if rows is not None and c.take("form", "forms", "set", "sets", "est"):
        c.take("the")
        fabric = read_fabric(c)
        if fabric is not None:
            return RowsForm(rows, fabric, span=c.span(start))
    return c.back(start)


def _needle_groups(c: Cursor) -> tuple[tuple[Count | None, str], ...]:
    """ ": 24 sts on needle 1, 24 sts on needle 2, 20 sts on needle 3", ": 24, 24, 20 sts"."""
    start = c.at
    groups: list[tuple[Count | None, str]] = []
    if not c.take(":", "-", "("):
        return ()
    bracket = c.lexemes[start].key == "("
    while True:
        before = c.at
        if groups:
            c.take(",")
            c.take("and")
        count = c.count()
        if count is None:
            c.back(before)
            break
        c.take("st")
        where = ""
        if c.take("on", "on the"):
            where = read_needle_name(c) or ""
        groups.append((count, where))
    if not groups or (bracket and not c.take(")")):
        c.back(start)
        return ()
    return tuple(groups)


def read_change(c: Cursor) -> tuple[Step, ...]:
    """Reads changes of yarn and needles: "Change to larger needles and St st", "Break A, join B", "Join MC at neck edge"."""
    start = c.at
    if c.take("change to", "switch to", "changing to", "return to", "change back to", "change"):
        return _change_to(c, start)
    act: Literal["join", "break", "carry", "drop", "use"] | None = None
    if c.take("break off", "break", "cut", "fasten off"):
        act = "break"
        if c.lexemes[c.at - 1].key == "off" and c.lexemes[start].key == "fasten" and not c.looking("yarn"):
            if not read_yarns(c):
                c.back(start)
                return ()
            c.back(start + 2)
    elif c.take("join in", "join", "rejoin", "re-join", "attach"):
        act = "join"
    elif c.take("carry"):
        act = "carry"
    elif c.take("drop"):
        act = "drop"
    elif c.take("using", "use", "with", "work with", "in") or c.take(
        "cont in", "cont with", "cont using", "work in", "now use"
    ):
        act = "use"
    if act is None:
        return ()
    yarns = _yarn_or_word(c)
    if yarns is None:
        c.back(start)
        return ()
    c.take("only", "alone", "throughout")
    tail: Length | None = None
    note = ""
    note_start = c.at
    if act == "join" and c.take("at", "to"):
        c.take("the")
        if not c.words_until(frozenset({"and", "then", "with"}), 5):
            c.back(start)
            return ()
        note = c.raw(note_start, c.at)
    if act == "break" and c.take(", leaving", "leaving"):
        note_start = c.at
        c.take("a", "an")
        c.take("about", "approx", "long", "at least")
        tail = c.length()
        c.take("long")
        if not c.take("tail", "end", "yarn tail"):
            c.back(start)
            return ()
        if c.take("about", "approx", "of", "of about", "of approx", "at least") or c.here.kind == "length":
            tail = c.length()
            if tail is None:
                c.back(start)
                return ()
            c.take("long", "in length")
        c.take("for sewing up", "for sewing", "for grafting", "for seaming")
        note = c.raw(note_start, c.at)
    return (ChangeYarn(act, yarns, tail, note, span=c.span(start)),)


def _yarn_or_word(c: Cursor) -> tuple[str, ...] | None:
    c.take("in")
    yarns = read_yarns(c)
    if yarns:
        return yarns
    if c.take("yarn", "the yarn", "both yarn", "all yarn", "new yarn", "working yarn"):
        return ()
    return None


def _change_to(c: Cursor, start: int) -> tuple[Step, ...]:
    steps: list[Step] = []
    while True:
        piece = c.at
        needles = read_needles(c)
        if needles is not None:
            steps.append(ChangeNeedles(needles, span=c.span(start)))
        else:
            yarns = read_yarns(c)
            if not yarns:
                c.back(piece - 1 if steps else start)
                break
            steps.append(ChangeYarn("change", yarns, span=c.span(start)))
        if not c.take("and"):
            break
        c.take("to")
    return tuple(steps)


def read_place(c: Cursor) -> Place | None:
    """Reads "Place marker for beg of rnd", "Place a removable marker at each end of last row", "Remove markers"."""
    start = c.at
    where_words: str
    if c.take("place", "pm", "put"):
        placed = c.lexemes[c.at - 1].key == "pm"
        c.take("a", "one")
        c.take("removable", "locking", "st", "coloured", "contrasting", "split-ring")
        count: Count | None = c.count() if not placed else None
        if count is not None:
            c.take("removable", "locking", "st")
        if placed or c.take("ms", "m", "thread", "a thread"):
            c.take("on", "in") if c.looking("on each", "in each") else None
            if c.take("at", "on") or c.looking("each"):
                c.take("the")
                where_words = _where(c)
                if where_words:
                    return Place(_placed(c, start), where_words, count, span=c.span(start))
        c.back(start)
    if c.take("mark"):
        where_words = _where(c)
        if where_words:
            return Place(_placed(c, start), where_words, span=c.span(start))
        c.back(start)
    act = read_marker(c)
    if act is None:
        return None
    return Place(act, span=c.span(start))


def _where(c: Cursor) -> str:
    words_start = c.at
    while c.here.kind in ("word", "ordinal", "number") and c.at - words_start < 14:
        c.skip()
    c.reach()
    return c.raw(words_start, c.at)


def _placed(c: Cursor, start: int) -> MarkerAct:
    return MarkerAct("place", span=c.span(start))


def read_turn_work(c: Cursor) -> TurnWork | None:
    """Reads "Turn.", "Turn work", "With WS facing"."""
    start = c.at
    if c.take("turn"):
        c.take("work", "the work")
        return TurnWork(span=c.span(start))
    if c.take("with"):
        side = read_side(c)
        if side is not None and c.take("facing"):
            return TurnWork(side, span=c.span(start))
    return c.back(start)


def read_stripes(c: Cursor) -> Stripes | None:
    """Reads "Work in stripes of 4 rows A, 4 rows B", "stripe sequence: 2 rnds MC, 2 rnds CC"."""
    start = c.at
    c.take("work", "cont", "working", "cont working")
    c.take("in")
    if not c.take("stripes of", "stripe sequence :", "stripe patt :", "the foll stripe sequence :", "stripe sequence of", "stripes :",
                  "stripe patt of", "the foll stripes :"):  # fmt: skip
        return c.back(start)
    bands: list[tuple[Count, str]] = []
    while True:
        before = c.at
        if bands:
            c.take(",")
            c.take("and", "then")
        count = c.count()
        if count is None or not c.take("row", "rnd"):
            c.back(before)
            break
        c.take("in", "of", "with", "each in")
        yarn = c.yarn()
        if yarn is None:
            c.back(before)
            break
        bands.append((count, yarn))
    if not bands:
        return c.back(start)
    c.take("throughout")
    return Stripes(tuple(bands), span=c.span(start))
