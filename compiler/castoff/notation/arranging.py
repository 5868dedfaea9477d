"""Sentences about how the stitches lie: joined in the round, worked flat, spread over needles, where rounds begin.

In: a cursor at the start of a sentence. Out: `JoinRound`, `Arrange`, `RoundStart`, `RowsForm`, or None.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.fabrics import read_fabric
from castoff.notation.needle_names import read_needle_name
from castoff.notation.rows import read_row_ref
from castoff.notation.syntax import (
    Arrange,
    Count,
    JoinRound,
    RoundStart,
    RowsForm,
    ShiftStitches,
)
from castoff.notation.told_needles import EACH, read_needle_groups, read_on_each_of, read_told_needles

_ROUND = (
    "to work in the rnd", "to work in rnd", "for working in the rnd", "for working in rnd", "in the rnd", "in a rnd",
    "into a rnd", "to work in rnd", "for work in the rnd", "in rnd", "to form a rnd", "for rnd", "working in the rnd",
    "to k in the rnd", "for k in the rnd",
)  # fmt: skip
_FLAT = (
    "back and forth in row", "back and forth", "flat", "in row", "flat in row", "backwards and forwards in row",
    "backwards and forwards", "back and forth on these st", "in row from this point", "back and forth in row on these st",
)  # fmt: skip


def read_join(c: Cursor) -> JoinRound | None:
    """Reads "Join to work in the round", "join into a rnd", "work back and forth in rows from here"."""
    start = c.at
    if c.take("join", "joining"):
        c.take("st", "work", "for working", "the work", "end of rnd")
        if c.take(*_ROUND):
            return JoinRound(span=c.span(start))
        alone = c.peek(-1).key == "join"
        if alone and (c.done or c.looking(",", ".", "and", "being", "taking", "making", "without")):
            return JoinRound(span=c.span(start))
        return c.back(start)
    worked = _worked_flat(c)
    if worked is not None:
        return worked
    verb = c.take("cont on", "work on", "cont working on", "work back and forth on", "cont over", "work over",
                  "cont to work on", "cont back and forth on", "work back and forth over")  # fmt: skip
    behind = c.at
    on_part = _part_alone(c) if verb else None
    if on_part is not None:
        return replace(on_part, span=c.span(start))
    c.back(behind)
    needle = _only_needle(c, start) if verb or c.take("work") else None
    if needle is not None:
        return needle
    c.back(start)
    if c.take("work") and c.here.kind == "word":
        c.take("the")
        part = c.words_until(frozenset({"back", "flat", "in", "on", "over", "st"}), 2)
        if part and c.take("back and forth over", "back and forth on", "back and forth in row over",
                           "back and forth in row on"):  # fmt: skip
            c.take("the")
            place = _which(c)
            part_over = c.count()
            if part_over is not None and c.take("st"):
                place = _on_needle(c) or place
                c.take("only")
                return JoinRound("flat", part_over, part, place, span=c.span(start))
    c.back(start)
    resumed = c.take("resume working", "resume knitting", "resume k", "resume", "return to working", "return to knitting",
                     "go back to working", "go back to knitting")  # fmt: skip
    if resumed:
        return JoinRound(span=c.span(start)) if c.take(*_ROUND) and c.here.kind in ("end", "mark") else c.back(start)
    if c.take("work", "working", "cont", "cont working", "now work", "cont to work", "you'll be working",
              "you will be working", "you'll work", "you will work", "you are working", "you'll now be working",
              "you will now be working", "you'll now work", "you will now work", "you are now working", "you now work",
              "now you'll be working", "now you will be working"):  # fmt: skip
        if c.take("in the rnd", "in rnd", "in rnd") and c.here.kind in ("end", "mark"):
            return JoinRound(span=c.span(start))
        if c.take(*_FLAT):
            over = None
            which, part = "these", ""
            before = c.at
            if c.take("on", "over"):
                c.take("the", "these")
                which = _which(c)
                over = c.count()
                part = "" if over is not None else c.words_until(frozenset({"st", "from", "only"}), 3)
                if not c.take("st") or not (part or over is not None):
                    c.back(before)
                    over, which, part = None, "these", ""
                which = _on_needle(c) or which
            c.take("from here", "from now on", "from this point", "only")
            return JoinRound("flat", over, part, which, span=c.span(start))
    return c.back(start)


def _part_alone(c: Cursor) -> JoinRound | None:
    """ "Cont on next 28 sts only", behind the verb: the rows that follow see just those."""
    start = c.at
    c.take("the")
    which = _which(c)
    c.take("these")
    only = c.count()
    if only is None or not c.take("st"):
        return c.back(start)
    if not c.take("only") and not c.looking(", working back and forth", "."):
        return c.back(start)
    c.take(", working back and forth in row", ", working back and forth")
    return JoinRound("flat", only, which=which, span=c.span(start))


def _worked_flat(c: Cursor) -> JoinRound | None:
    """ "The heel is worked back and forth over the first 20 sts of the rnd." """
    start = c.at
    c.take("the")
    what = c.words_until(frozenset({"is", "are"}), 3)
    if not what or not c.take("is worked", "are worked", "is now worked"):
        return c.back(start)
    flat = c.take(*_FLAT) or c.looking(
        "over the next", "over next", "over the first", "over first", "on the next", "on next"
    )
    if not flat and not c.take(*_ROUND):
        return c.back(start)
    form: Literal["flat", "round"] = "flat" if flat else "round"
    over: Count | None = None
    which = _on_needle(c) or "these"
    if which == "these" and c.take("over", "on"):
        c.take("the", "these")
        which = _which(c)
        over = c.count()
        if not c.take("st"):
            return c.back(start)
        which = _on_needle(c) or which
        c.take("of the rnd", "of rnd", "of the row")
    c.take("only")
    return JoinRound(form, over, what, which, span=c.span(start))


def _which(c: Cursor) -> str:
    if c.take("first", "next", "last"):
        return c.lexemes[c.at - 1].key
    return "these"


def _on_needle(c: Cursor) -> str | None:
    """ "on N2", "of needle 2": the needle of a set on which stitches lie."""
    start = c.at
    if c.take("on", "of", "over"):
        c.take("the st on", "the st of", "st of", "st on")
        named = read_needle_name(c)
        if named is not None:
            return named
    return c.back(start)


def _only_needle(c: Cursor, start: int) -> JoinRound | None:
    """ "Work on N2 only", "work N2 sts only", "cont on the 28 sts of needle 2 only"."""
    c.take("on", "over")
    c.take("the")
    count = c.count()
    if count is not None and not c.take("st on", "st of"):
        return c.back(start)
    named = read_needle_name(c)
    if named is None:
        return c.back(start)
    c.take("st")
    if not c.take("only"):
        return c.back(start)
    return JoinRound("flat", count, which=named, span=c.span(start))


def _shifted(c: Cursor) -> ShiftStitches | None:
    """ "Slip last 2 sts of N1 onto N2", "sl 7 sts from N1 to N2"."""
    start = c.at
    c.take("the")
    which = c.take_key(frozenset({"first", "last"}))
    count = c.count()
    if count is None or not c.take("st from", "st of", "st on"):
        return c.back(start)
    source = read_needle_name(c)
    if source is None or not c.take("to", "onto", "on to"):
        return c.back(start)
    to = read_needle_name(c)
    numbers = [int(name.removeprefix("needle ")) for name in (source, to) if name and name.startswith("needle ")]
    if to is None or len(numbers) != 2 or abs(numbers[0] - numbers[1]) != 1:
        return c.back(start)
    if which not in (None, "last" if numbers[0] < numbers[1] else "first"):
        return c.back(start)
    return ShiftStitches(count, source, to, span=c.span(start))


def read_arrange(c: Cursor) -> Arrange | ShiftStitches | RoundStart | RowsForm | None:
    """Reads "Distribute evenly over 3 needles", "Slip the first 32 sts on to one needle and …", "Rnd now begins at …"."""
    start = c.at
    if c.take("distribute", "divide", "arrange", "spread", "redistribute", "rearrange"):
        return _laid_out(c, start)
    begins = _round_begins(c, start)
    if begins is not None:
        return begins
    if c.take("sl", "place", "put", "move", "transfer"):
        shifted = _shifted(c)
        if shifted is not None:
            return ShiftStitches(shifted.count, shifted.source, shifted.to, span=c.span(start))
        if c.lexemes[start].key in ("move", "transfer"):
            return c.back(start)
        each = c.count()
        on_each = read_on_each_of(c, each, start) if each is not None and c.take("st") else None
        if on_each is not None:
            return on_each
        c.back(start + 1)
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


def _laid_out(c: Cursor, start: int) -> Arrange | None:
    """How stitches are laid on needles, behind the verb: "evenly over 3 needles", "as foll: N1: 14 sts, …", "with 24 sts
    on each needle", for magic loop or on a set."""
    c.take("the", "these")
    c.take("rem")
    c.take("st")
    loop = c.at
    two = c.same(2, loop) if c.take(*_MAGIC_LOOP) else None
    c.take("evenly")
    if two is None and c.take("over", "on", "between", "onto", "among"):
        c.take("your", "the")
        needles = c.count()
        c.take("double-pointed")
        if needles is not None and c.take("needle", "dpn"):
            told = _as_told(c)
            return Arrange(read_needle_groups(c) if told is None else told.groups, needles, span=c.span(start))
        return c.back(start)
    told = _as_told(c)
    if told is not None:
        return Arrange(told.groups, two, span=c.span(start))
    c.take(",")
    if two is not None and c.take("with half the st on each needle", "with half on each needle", "half on each needle",
                                  "half the st on each needle", "with half of the st on each needle"):  # fmt: skip
        return Arrange((), two, span=c.span(start))
    if c.take("with", "so that you have", "so that there are", "so there are", "so you have"):
        count = c.count()
        c.take("st")
        on_each = None if count is None else read_on_each_of(c, count, start)
        if on_each is not None:
            return on_each
        if count is not None and c.take("on each needle", "on each of the needle", "onto each needle", "each needle"):
            groups = ((count, EACH),) if two is None else ((count, ""), (count, ""))
            return Arrange(groups, two, span=c.span(start))
    return c.back(start)


def _as_told(c: Cursor) -> Arrange | None:
    before = c.at
    c.take(",")
    c.take("as foll", "thus", "so that there are", "with")
    told = read_told_needles(c)
    return c.back(before) if told is None else told


_MAGIC_LOOP = ("for magic loop", "for the magic loop", "for magic loop method", "for the magic loop method",
               "for magic-loop", "magic loop style", "over 2 needle tips")  # fmt: skip


def _round_begins(c: Cursor, start: int) -> RoundStart | None:
    """ "Rnd now begins at center of heel", "the beginning of the round is at centre back, between N3 and N1"."""
    if c.take("rnd", "row", "the rnd"):
        c.take("now", "will now", "will")
        if not c.take("beg"):
            return c.back(start)
    else:
        c.take("the", "note : the", "note that the")
        if not c.take("beg of rnd", "beg of the rnd", "beg of rnd m", "bor") or not c.take(
            "is", "is now", "will be", "lies"
        ):
            return c.back(start)
        c.take("now")
    c.take("at", "in")
    where = c.words_until(frozenset({"and", "then", "between"}), 7)
    before = c.at
    c.take(",")
    first = read_needle_name(c) if c.take("between") else None
    second = read_needle_name(c) if first is not None and c.take("and") else None
    if first is None or second is None:
        c.back(before)
        return RoundStart(where, span=c.span(start)) if where else c.back(start)
    return RoundStart(where, (first, second), span=c.span(start))
