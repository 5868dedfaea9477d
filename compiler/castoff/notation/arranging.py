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

_ROUND = (
    "to work in the rnd", "to work in rnd", "for working in the rnd", "for working in rnd", "in the rnd", "in a rnd",
    "into a rnd", "to work in rnd", "for work in the rnd", "in rnd", "to form a rnd", "for rnd", "working in the rnd",
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
              "you will be working", "you'll work", "you will work", "you are working"):  # fmt: skip
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


def read_told_needles(c: Cursor) -> Arrange | None:
    """ ": 12 sts each on N1 and N2", "(28 sts on needle 1, 14 sts on needle 2)", "; N1: 28 sts, …"."""
    start = c.at
    while c.take(":", ",", ";", "-", ".", "with"):
        pass
    bracket = c.closers.get(c.at)
    if bracket is not None:
        c.step()
    groups = _each_on(c) or _by_name(c)
    if len(groups) < 2 or (bracket is not None and not c.take(")", "]")):
        return c.back(start)
    return Arrange(groups, None, True, span=c.span(start))


def _each_on(c: Cursor) -> tuple[tuple[Count | None, str], ...]:
    """ "12 sts each on N1 and N2", "12 sts on N1 and 14 sts on N2"."""
    start = c.at
    groups: list[tuple[Count | None, str]] = []
    while True:
        before = c.at
        if groups:
            c.take(",", ";")
            c.take("and")
        count = c.count()
        each = count is not None and c.take("st each on", "st each onto")
        if count is None or not (each or c.take("st on", "on", "st onto")):
            c.back(before)
            break
        named = read_needle_name(c)
        while each and named is not None:
            groups.append((count, named))
            before = c.at
            named = read_needle_name(c) if c.take(",", "and", ", and") else None
            if named is None:
                c.back(before)
        if each:
            break
        if named is None:
            c.back(before)
            break
        groups.append((count, named))
    if len(groups) < 2:
        c.back(start)
        return ()
    return tuple(groups)


def _by_name(c: Cursor) -> tuple[tuple[Count | None, str], ...]:
    """ "N1: 28 sts, N2: 14 sts"."""
    start = c.at
    groups: list[tuple[Count | None, str]] = []
    while True:
        before = c.at
        if groups:
            c.take(",", ";")
            c.take("and")
        named = read_needle_name(c)
        count = c.count() if named is not None and c.take(":", "-", "=") else None
        if named is None or count is None or not c.take("st"):
            c.back(before)
            break
        groups.append((count, named))
    if len(groups) < 2:
        c.back(start)
        return ()
    return tuple(groups)


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
        c.take("the", "these")
        c.take("st")
        c.take("evenly")
        if c.take("over", "on", "between", "onto", "among"):
            needles = c.count()
            c.take("double-pointed")
            if needles is not None and c.take("needle", "dpn"):
                return Arrange(_needle_groups(c), needles, span=c.span(start))
        c.back(start + 1)
        c.take("the", "these", "rem")
        c.take("st")
        c.take("as foll", "so that there are", "with")
        named = read_told_needles(c)
        if named is not None:
            return Arrange(named.groups, span=c.span(start))
        c.back(start + 1)
        c.take("the", "these")
        c.take("st")
        c.take("evenly")
        if c.take("with"):
            count = c.count()
            c.take("st")
            on_each = None if count is None else _on_each_of(c, count, start)
            if on_each is not None:
                return on_each
        return c.back(start)
    if c.take("rnd", "row", "the rnd"):
        c.take("now", "will now", "will")
        if c.take("beg"):
            c.take("at", "in")
            where = c.words_until(frozenset({"and", "then"}), 7)
            if where:
                return RoundStart(where, span=c.span(start))
        return c.back(start)
    if c.take("sl", "place", "put", "move", "transfer"):
        shifted = _shifted(c)
        if shifted is not None:
            return ShiftStitches(shifted.count, shifted.source, shifted.to, span=c.span(start))
        if c.lexemes[start].key in ("move", "transfer"):
            return c.back(start)
        each = c.count()
        on_each = _on_each_of(c, each, start) if each is not None and c.take("st") else None
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


def _on_each_of(c: Cursor, count: Count, start: int) -> Arrange | None:
    """ "8 on each of 2 needles", "20 sts on each of two needles", behind the count."""
    if not c.take("on each of", "onto each of"):
        return None
    needles = c.count()
    number = None if needles is None else needles.values[0]
    if needles is None or number is None or not 1 < number <= 8 or set(needles.values) != {number}:
        return None
    c.take("double-pointed")
    if not c.take("needle", "dpn"):
        return None
    return Arrange(((count, ""),) * number, needles, span=c.span(start))


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
