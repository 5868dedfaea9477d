"""Bind-offs that are told act by act: "K2, *slip the 2 sts back to left needle, k2tog tbl, k1; rep from * until …".

In: a cursor at the start of a sentence. Out: `BindOff` with its acts; None when no such sentence stands here.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.acts import BIND_OFF, CAST_ON, read_manners
from castoff.notation.cursor import Cursor
from castoff.notation.stitches import read_stitch
from castoff.notation.syntax import BindOff, Count, OffAct, Stitch, WorkedOff

_LEFT = ("to left needle", "to lh needle", "to the left needle", "onto left needle", "onto the left needle",
         "onto lh needle", "to the lh needle", "onto the lh needle", "on to left needle")  # fmt: skip
_NAMED = frozenset({"bind-off", "cast-off"})
_BETWEEN = (", and then", ", then", ", and", "; then", "and then", ",", ";", "and", "then")


def read_worked_off(c: Cursor) -> BindOff | None:
    """Reads "Bind off loosely: K2, *…; rep from * until all sts are bound off", "I-cord bind-off: CO 3 sts, *…"."""
    start = c.at
    manner = _heading(c)
    if manner is None:
        return c.back(start)
    c.take("as foll")
    if not c.take(":", "-", "."):
        return c.back(start)
    told = c.at
    lead = _acts(c)
    c.take(*_BETWEEN)
    if c.here.text != "*":
        return c.back(start)
    c.step()
    body = _acts(c)
    while c.take(";", ",", "."):
        pass
    if not body or not c.take("rep from *"):
        return c.back(start)
    left: Count | None = None
    if c.take("until"):
        c.take("only")
        one = c.at
        left = c.count() or (c.same(1, one) if c.looking("last") and c.take("last") else None)
        if left is not None:
            if not c.take("st") or not c.take("rem", "is left", "are left", "left", "rem on needle"):
                return c.back(start)
        elif not c.take("all st are bound off", "all st have been bound off", "all st are cast off",
                        "all st have been cast off", "all st have been bo", "all st are bo"):  # fmt: skip
            return c.back(start)
    elif not c.take("to end", "around", "across", "to end of row", "to end of rnd"):
        return c.back(start)
    before = c.at
    c.take(",", ";", "and")
    plain = left is None and c.take("binding off in patt", "casting off in patt", "binding off as you go",
                                    "casting off as you go", "binding off each st as you go")  # fmt: skip
    if not plain:
        c.back(before)
    elif any(act.act != "work" for act in (*lead, *body)):
        return c.back(start)
    return BindOff(None, manner, so=WorkedOff(lead, body, left, plain, span=c.span(told)), span=c.span(start))


def _heading(c: Cursor) -> tuple[str, ...] | None:
    """ "Bind off all sts very loosely", "work an i-cord bind-off", "Stretchy bind-off": how it is called."""
    start = c.at
    c.take("loosely", "firmly", "very loosely")
    early = () if c.at == start else (c.raw(start, c.at),)
    if c.take(*BIND_OFF):
        manner = read_manners(c)
        c.take("all st", "all the st", "rem st", "all rem st", "the rem st", "st")
        return (*early, *manner, *read_manners(c))
    c.take("work in", "work", "using", "use")
    c.take("a", "an", "the")
    named = c.at
    if c.count() is not None:
        c.take("- st", "st")
    c.words_until(frozenset({"bind-off", "cast-off", "bind", "cast", "bo"}), 4)
    if c.here.key in _NAMED:
        c.step()
    elif not c.take("bind off", "cast off", "bo"):
        return c.back(start)
    return (*early, c.raw(named, c.at))


def _acts(c: Cursor) -> tuple[OffAct, ...]:
    acts: list[OffAct] = []
    while True:
        before = c.at
        if acts:
            c.take(*_BETWEEN)
        act = _act(c)
        if act is None:
            c.back(before)
            return tuple(acts)
        acts.append(act)


def _act(c: Cursor) -> OffAct | None:
    return _back(c) or _over(c) or _on(c) or _together(c) or _worked(c)


def _back(c: Cursor) -> OffAct | None:
    """ "slip the 2 sts back to left needle", "return st to left needle"."""
    start = c.at
    if not c.take("sl", "return", "place", "pass", "transfer", "slipping", "move"):
        return c.back(start)
    c.take("the", "these", "this", "those", "both", "rem", "all")
    both = c.peek(-1).key == "both"
    c.take("rem", "same", "last", "new", "resulting")
    count = c.count()
    one = c.at
    if count is None and c.here.text.lower() in ("st", "stitch", "loop"):
        count = c.same(1, one)
    elif count is None and both:
        count = c.same(2, one)
    if count is None or not c.take("st", "loop"):
        return c.back(start)
    c.take("from right needle", "from rh needle", "from the right needle")
    c.take("back")
    return OffAct("back", count, span=c.span(start)) if c.take(*_LEFT) else c.back(start)


def _over(c: Cursor) -> OffAct | None:
    """ "pass first st over second and off needle", "lift 2nd st over first"."""
    start = c.at
    if not c.take("pass", "lift", "sl", "draw", "pull"):
        return c.back(start)
    one = _which(c)
    place = c.at
    if one is None or not c.take("st", "loop") or not c.take("over"):
        return c.back(start)
    other = _which(c)
    if other is None or other == one:
        return c.back(start)
    c.take("st", "one")
    c.take("and off the needle", "and off needle", "and off right needle", "and off the right needle")
    return OffAct("over", c.same(1, place), span=c.span(start))


def _which(c: Cursor) -> Literal["first", "second"] | None:
    """Which of the two stitches on the right needle; "right" is the one worked first."""
    c.take("the")
    number = c.ordinal()
    if number is not None:
        return "first" if set(number.values) == {1} else "second" if set(number.values) == {2} else None
    if c.take("right", "rh", "rightmost"):
        return "first"
    return "second" if c.take("last", "left", "lh", "new", "it", "next") else None


def _on(c: Cursor) -> OffAct | None:
    """ "CO 3 sts", "cast on 3 sts onto left needle"."""
    start = c.at
    if not c.take(*CAST_ON):
        return c.back(start)
    count = c.count()
    if count is None or not c.take("st"):
        return c.back(start)
    c.take(*_LEFT, "on left needle", "using the knitted cast-on", "at beg of row")
    return OffAct("on", count, span=c.span(start))


def _together(c: Cursor) -> OffAct | None:
    """ "knit those 2 sts tog tbl"."""
    start = c.at
    if not c.take("k", "p"):
        return c.back(start)
    stitch = c.peek(-1).key
    if not c.take("the", "these", "those", "them", "both"):
        return c.back(start)
    count = c.count()
    c.take("st")
    if not c.take("tog"):
        return c.back(start)
    number = 2 if count is None else count.values[0]
    name = f"{stitch}{number}tog" + (
        " tbl" if c.take("tbl", "through back loops", "through the back loops", "through back loop") else ""
    )
    found = c.stitch(name)
    return OffAct("work", c.same(1, start), found, span=c.span(start)) if found else c.back(start)


def _worked(c: Cursor) -> OffAct | None:
    """A stitch of the book: "k2", "k2tog tbl", "yo", "brk1"."""
    start = c.at
    stitch = read_stitch(c)
    if not isinstance(stitch, Stitch) or stitch.of or stitch.manner or stitch.yarn_held:
        return c.back(start)
    return OffAct("work", stitch.count or c.same(1, start), stitch.name, span=c.span(start))
