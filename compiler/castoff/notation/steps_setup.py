"""Sentences that set the work up: cast on, join in the round, change yarn or needles, place markers, turn, stripes.

In: a cursor at the start of a sentence. Out: step nodes, or None.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from castoff.notation.acts import CAST_ON, read_marker, read_method
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.stitch_work import works_at
from castoff.notation.syntax import (
    Arrange,
    CastOn,
    ChangeNeedles,
    ChangeYarn,
    Count,
    Length,
    MarkerAct,
    Note,
    Place,
    Step,
    Stripes,
    TurnWork,
)
from castoff.notation.yarns import read_yarns
from castoff.notation.yarns_and_needles import read_needles, read_withs


def read_cast_on_step(c: Cursor) -> CastOn | tuple[CastOn, Arrange] | None:
    """Reads "With smaller needles and A, cast on 84 (92, 100) sts using the long-tail method"."""
    start = c.at
    waste = c.take("with waste yarn", "using waste yarn", "with scrap yarn", "using scrap yarn")
    if waste:
        c.take("and", ", and")
    by_name = _provisional(c) if waste else None
    withs = read_withs(c)
    yarns, needles, facing = withs if withs is not None else ((), None, None)
    if facing is not None:
        return c.back(start)
    c.take(",")
    c.take("loosely")
    before = c.at
    if withs is not None or waste:
        c.take("and")
    method_before = by_name or _method_words(c)
    if method_before is None:
        c.back(before)
    provisional = c.take("provisionally", "provisional")
    method_before = method_before or read_method(c)
    c.take(",")
    if not c.take(*CAST_ON):
        return c.back(start)
    count: Count | None = c.count()
    told = count
    if count is None:
        return c.back(start)
    c.take("st")
    shared = _on_each_needle(c, count)
    if shared is not None:
        count = shared
    onto = c.take("onto left needle", "onto the left needle", "on left needle", "on the left needle", "onto lh needle",
                  "onto left hand needle", "onto the lh needle")  # fmt: skip
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
    if c.here.key in ("at", "over"):
        return c.back(start)
    provisional = provisional or "provisional" in (method or "")
    if waste and not provisional:
        return c.back(start)  # stitches of waste yarn are none of the piece, unless the line says so
    cast = CastOn(count, method, yarns, needles, provisional, onto, span=c.span(start))
    return (
        cast
        if shared is None or told is None
        else (cast, Arrange(((told, ""),) * 2, c.same(2, start), span=c.span(start)))
    )


def _on_each_needle(c: Cursor, count: Count) -> Count | None:
    """ "12 sts on each of two needles", as a closed toe is cast on: so many in all."""
    start = c.at
    if not c.take("on each of", "onto each of"):
        return None
    needles = c.count()
    c.take("double-pointed")
    if needles is None or set(needles.values) - {2, None} or not c.take("needle", "dpn"):
        return c.back(start)
    return replace(count, values=tuple(None if value is None else 2 * value for value in count.values))


def _provisional(c: Cursor) -> str | None:
    """ "a provisional cast-on", "a crochet provisional cast-on" behind "with waste yarn and"."""
    start = c.at
    c.take("a", "the")
    named = c.at
    if c.take(
        "crochet provisional cast-on", "provisional crochet cast-on", "provisional cast-on", "provisional cast on"
    ):
        return c.raw(named, c.at)
    return c.back(start)


def _method_words(c: Cursor) -> str | None:
    """ "the long-tail method" behind "using larger needles and"."""
    start = c.at
    c.take("the", "a", "an")
    words = c.words_until(frozenset({"and", "then", "cast", "co"}), 5)
    return words if words.endswith("method") else c.back(start)


def read_change(c: Cursor) -> tuple[Step, ...]:
    """Reads changes of yarn and needles: "Change to larger needles and St st", "Break A", "Join MC at neck edge"."""
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
        return _kept(c, start)
    needles = read_needles(c) if act == "use" else None
    if needles is not None:
        return (ChangeNeedles(needles, span=c.span(start)),)
    yarns = _yarn_or_word(c)
    if yarns is None:
        c.back(start)
        return ()
    c.take("only", "alone", "throughout")
    tail: Length | None = None
    note = ""
    note_start = c.at
    if act == "carry":
        c.take("not in use loosely", "not in use", "loosely")
        if c.take("up the side", "up side", "up the edge", "up edge", "up the inside", "up inside"):
            c.take("of the work", "of work", "of piece", "of the piece")
        note = c.raw(note_start, c.at)
    if act == "drop" and c.take("to front", "to back", "to the front", "to the back", "in front", "at back"):
        c.take("of work", "of the work")
        note = c.raw(note_start, c.at)
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
        if tail is None and c.count() is not None and not c.take("- inch", "- in", "- cm", "inch"):  # "a 6-inch tail"
            c.back(start)
            return ()
        c.take("long", "- long")
        if not c.take("tail", "end", "yarn tail") and tail is None:
            c.back(start)
            return ()
        if c.take("about", "approx", "of", "of about", "of approx", "at least") or c.here.kind == "length":
            tail = c.length()
            if tail is None:
                c.back(start)
                return ()
            c.take("long", "in length")
        c.take(
            "for sewing up", "for sewing", "for grafting", "for seaming", "for the seam", "for seam", "for the graft"
        )
        note = c.raw(note_start, c.at)
    return (ChangeYarn(act, yarns, tail, note, span=c.span(start)),)


def _kept(c: Cursor, start: int) -> tuple[ChangeYarn, ...]:
    """ "Do not break A": the yarn stays joined."""
    if c.here.key == "do" and c.peek().key != "not":
        return ()
    kept = c.take("do not break off", "do not break", "don't break off", "don't break", "do not cut", "don't cut")
    yarns = read_yarns(c) if kept else ()
    if not yarns:
        c.back(start)
        return ()
    return (ChangeYarn("keep", yarns, span=c.span(start)),)


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
        c.take("the")
        where_words = _where(c)
        if where_words and not any(lexeme.key == "st" for lexeme in c.lexemes[start : c.at]):
            # (a stitch that is marked is no place between rows)
            return Place(_placed(c, start), where_words, span=c.span(start))
        c.back(start)
    act = read_marker(c)
    if act is None:
        return None
    return Place(act, span=c.span(start))


def _where(c: Cursor) -> str:
    words_start = c.at
    while c.here.kind in ("word", "ordinal", "number") and c.at - words_start < 14:
        if works_at(c.lexemes, c.at if c.here.key != "and" else c.at + 1):
            break
        c.skip()
    c.reach()
    return c.raw(words_start, c.at)


def _placed(c: Cursor, start: int) -> MarkerAct:
    return MarkerAct("place", span=c.span(start))


def read_turn_work(c: Cursor) -> TurnWork | Note | None:
    """Reads "Turn.", "Turn work", "With WS facing"; "rotate work 90 degrees" turns nothing over."""
    start = c.at
    if c.take("rotate", "turn"):
        c.take("the")
        c.take("work", "piece")
        count = c.count()
        if count is not None and set(count.values) == {90} and c.take("degrees", "degree", "°", "deg"):
            c.take("clockwise", "to the right", "to right", "anticlockwise", "counterclockwise", "counter-clockwise")
            c.settle()
            return Note(c.raw(start, c.at), span=c.span(start))
        c.back(start)
    if c.take("turn"):
        if c.looking("and make", "and mds", ", make", ", mds", "in", "under"):
            return c.back(start)  # a double stitch is an act of the row; edges are turned in
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
    if not c.take("alternating", "alt", "stripes of", "stripe sequence :", "stripe patt :", "the foll stripe sequence :",
        "stripe sequence of", "stripes :",
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
