"""Acts that are no plain stitches: bind off, cast on, pick up, put on hold, markers, turns, crossings spelled out.

In: a cursor. Out: action nodes that hold no other actions, or None when their words do not stand here.
"""

from __future__ import annotations

from typing import Literal

from castoff.notation.asides import read_aside
from castoff.notation.cursor import Cursor
from castoff.notation.needle_names import read_needle_name
from castoff.notation.syntax import BindOffAct, CastOnAct, Count, HoldAct, MarkerAct
from castoff.notation.targets import read_marker_name, read_target

BIND_OFF = ("bo", "bind off", "cast off", "binding off", "casting off", "bound off")
CAST_ON = ("co", "cast on", "casting on")
_MANNERS = (
    "loosely", "firmly", "evenly", "tightly", "very loosely", "knitwise", "purlwise", "as k", "as est",
    "in patt", "in patt as set", "in rib", "in rib as set", "in est patt", "in k", "in p", "in garter st", "in st st",
    "in seed st", "in moss st", "knitwise", "purlwise",
)  # fmt: skip
_WHOLE = ("all st", "all the st", "all rem st", "rem st", "the rem st", "rem", "all", "these st", "st", "the last st")
_HOLDERS = (
    "st holder", "holder", "waste yarn", "scrap yarn", "spare yarn", "spare needle", "waste", "length of yarn",
    "piece of waste yarn", "length of waste yarn", "length of scrap yarn", "safety pin", "piece of yarn", "thread",
    "spare circular needle",
    "contrasting yarn", "contrast yarn", "removable m", "extra needle", "spare dpn", "spare thread", "piece of scrap yarn",
)  # fmt: skip
_PUT = frozenset({"place", "put", "sl", "leave", "transfer", "move", "slipping", "placing", "leaving"})


def take_needle(c: Cursor) -> None:
    """Passes "on needle" words that a caller has already made sure of."""
    c.take("needle")


def read_bind_off(c: Cursor) -> BindOffAct | None:
    """Reads "BO 6 sts", "bind off next 4 sts in rib", "cast off loosely", "BO rem sts"."""
    start = c.at
    if not c.take(*BIND_OFF):
        return None
    manner = list(read_manners(c))
    count: Count | None = None
    target = None
    c.take("the next", "next", "the first", "first", "the foll", "foll", "the rem", "rem", "the", "all", "all rem",
           "centre", "the centre", "last", "the last")  # fmt: skip
    if c.count_at():
        count = c.count()
        c.take("rem")
        c.take("centre")
        c.take("steek st", "st")
    elif c.here.key == "st":
        singular = c.here.text.lower() == "st"
        one = c.at
        c.step()
        if singular and c.lexemes[one - 1].key in ("next", "last", "first"):
            count = c.same(1, one)
    manner += read_manners(c)
    target = read_target(c) if c.here.key in ("to", "until", "across") else None
    manner += read_manners(c)
    if c.take("for"):
        words = c.words_until(frozenset({"and", "then"}), 5)
        if not words:
            return c.back(start)
        manner.append(f"for {words}")
    loop = _loop(c)
    return BindOffAct(count, target, tuple(manner), loop, span=c.span(start))


def _loop(c: Cursor) -> Count | None:
    """ "(1 st on right needle)" behind a bind-off tells that the loop is there and is not counted again."""
    before = c.at
    c.take(",")
    bracket = c.take("(", "[")
    if bracket and c.count_at():
        number = c.count()
        if c.take("st on right needle", "st on rh needle", "st rem on right needle", "st left on right needle"):
            c.take("after bo", "after bind off", "from bo")
            if c.take(")", "]"):
                return number
    return c.back(before)


def read_manners(c: Cursor) -> tuple[str, ...]:
    """How stitches are bound off, as often as told."""
    manners: list[str] = []
    while True:
        start = c.at
        if c.take(*_MANNERS_LONGEST):
            manners.append(" ".join(lexeme.key for lexeme in c.lexemes[start : c.at]))
        elif c.take("using", "with"):
            c.take("a", "an", "the")
            named = c.at
            if c.count_at() and c.peek().key in ("-", "st"):
                c.count()
                c.take("- st", "st")
            c.words_until(frozenset({"and", "then", "to", "st", "until"}), 5)
            words = c.raw(named, c.at)
            if not words or not _is_method(words):
                c.back(start)
                return tuple(manners)
            manners.append(words)
        elif (c.here.key == "and" or c.here.key == ",") and c.peek().key in ("loosely", "firmly", "evenly", "in"):
            c.step()
            if not c.looking(*_MANNERS_LONGEST):
                c.back(start)
                return tuple(manners)
        else:
            return tuple(manners)


_MANNERS_LONGEST = tuple(sorted(_MANNERS, key=lambda words: (-len(words.split()), words)))
_METHODS = (
    "method", "bind-off", "bind off", "cast-off", "cast off", "cast-on", "cast on", "co", "bo", "i-cord", "three-needle",
    "3-needle", "technique", "long-tail", "needle bind",
)  # fmt: skip


def _is_method(words: str) -> bool:
    return any(words.endswith(method) or words == method for method in _METHODS)


def read_cast_on(c: Cursor) -> CastOnAct | None:
    """Reads a cast-on within a row: "CO 4 sts", "cast on 6 sts over gap using backward-loop method"."""
    start = c.at
    method = _method_first(c)
    if not c.take(*CAST_ON):
        return c.back(start)
    count = c.count()
    if count is None:
        return c.back(start)
    c.take("new st", "more st", "steek st", "st", "more")
    method = method or read_method(c)
    where: Literal["here", "end", "gap", "each gap"] = "here"
    if c.take("over each buttonhole", "over each gap", "over every gap", "over every buttonhole", "over each bound-off gap",
              "over each set of bound-off st", "at each gap", "over each bound-off section", "over each cast-off section",
              "over each set of cast-off st", "over each group of bound-off st", "over each group of cast-off st",
              "over each pair of bound-off st", "over each pair of cast-off st", "at each buttonhole"):  # fmt: skip
        where = "each gap"
    elif c.take("at end of row", "at the end of row", "at end of this row", "at end of the row", "at end"):
        where = "end"
    elif c.take(
        "over gap", "over the gap", "in place of bound-off st", "in place of st bound off", "over bound-off st",
        "over the bound-off st", "in place of those bound off", "in place of those cast off", "over those bound off",
        "over st bound off", "over those cast off", "in place of hold st", "to replace those bound off", "over hold st",
        "above hold st", "above hold st", "over the hold st", "in place of the hold st", "in place of hold st",
        "over bo st", "over the bo st", "to bridge the gap", "across gap", "across the gap", "at gap",
    ):  # fmt: skip
        where = "gap"
    elif c.take("for"):
        words = c.words_until(frozenset({"and", "then", "using", "with"}), 4)
        if not words:
            return c.back(start)
        method = f"{method}; for {words}" if method else f"for {words}"
    method = method or read_method(c)
    return CastOnAct(count, where, method, span=c.span(start))


def _method_first(c: Cursor) -> str | None:
    """ "using the backward-loop method, cast on 8 sts": how, told before it."""
    start = c.at
    if not c.take("using", "with"):
        return None
    c.take("a", "an", "the")
    words = c.words_until(frozenset({"and", "then", "cast", "co", "st", "to", "cast-on"}), 5)
    if c.looking("cast on ,", "cast-on ,", "co ,"):
        c.take("cast on", "cast-on", "co")
        words += " cast-on"
    elif not words.endswith((" method", " technique")):
        return c.back(start)
    c.take(",")
    return words if c.looking(*CAST_ON) else c.back(start)


def read_method(c: Cursor) -> str | None:
    """ "using the backward loop method", "with long-tail cast-on", "provisionally"."""
    start = c.at
    if not c.take("using", "with", "by", "( using"):
        if c.take("provisionally", "loosely", "firmly"):
            return c.raw(start, c.at)
        return None
    bracket = c.lexemes[c.at - 2].key == "(" if c.at - start == 2 else False
    c.take("a", "an", "the", "your")
    named = c.at
    c.words_until(frozenset({"and", "then", "for", "over", "to", "st", "at", "or"}), 8)
    if not _is_method(c.raw(named, c.at)) and c.here.key != "or":
        return c.back(start)
    _or_another(c)
    words = c.raw(named, c.at)
    if not _is_method(words.rstrip(")")) or (bracket and not c.take(")")):
        return c.back(start)
    return words


def _or_another(c: Cursor) -> None:
    """ "or other stretchy method", "(or your favourite closed toe cast-on)" behind a method: the knitter may choose."""
    start = c.at
    bracket = c.take("(")
    if not c.take("or"):
        c.back(start)
        return
    chosen = c.at
    c.take("your", "any", "another", "other", "similar", "preferred")
    c.words_until(frozenset({"and", "then", "for", "over", "to", "st", "at", "cast", "co"}), 6)
    if not _is_method(c.raw(chosen, c.at)) or (bracket and not c.take(")")):
        c.back(start)


def read_hold(c: Cursor) -> HoldAct | None:
    """Reads "place next 20 sts on a holder for front neck", "slip these 14 sts onto waste yarn"."""
    start = c.at
    leave = c.here.key in ("leave", "leaving")
    if c.take_key(_PUT) is None:
        return None
    worked = False
    c.take("the", "these", "those", "them", "all")
    worked = c.lexemes[c.at - 1].key in ("these", "those")
    told: Literal["", "these", "rem"] = "these" if worked else ""
    if c.take("rem"):
        told = "rem"
    if c.take("next", "first", "foll", "other", "centre", "unworked"):
        c.take("set of", "group of")
    worked = c.take("last") or worked
    c.take("centre")
    count = c.count()
    if c.take("rem"):
        told = "rem"
    name = ""
    if c.here.key not in ("st", "on", "onto", "to"):
        name = c.words_until(frozenset({"st", "on", "onto", "to", "and", "then"}), 3)
    one = c.at
    if count is None and not name and c.here.text.lower() in ("st", "stitch") and c.take("st"):
        # "next st", "centre st", "last st": one; "rem st" is short for all that are left
        if c.lexemes[one - 1].key in ("next", "first", "foll", "centre", "last", "this"):
            count = c.same(1, one)
            told = ""
    elif not c.take("st", "rem st", "st just worked", "live st"):
        if name:
            return c.back(start)
        if count is None and c.lexemes[start + 1].key not in ("rem", "them", "all", "these", "those"):
            return c.back(start)
    elif c.take("just worked", "just k", "just knitted"):
        worked = True
    behind = _behind(c) if worked and count is not None else None
    target = read_target(c) if count is None and c.here.key == "to" and c.peek().key in ("m", "next", "last") else None
    if not c.take("on to", "onto", "on", "to", "over to"):
        return c.back(start)
    needle = read_needle_name(c) if leave else None
    waiting = _read_waiting(c) if needle is None else (needle, needle)
    if waiting is None:
        return c.back(start)
    holder, on = waiting
    if on == "hold" and c.take("on"):
        needle = read_needle_name(c)
        if needle is None:
            return c.back(start)
        holder = on = needle
    if needle is not None:
        c.take("on hold", "unworked")
        holder = name or needle
    elif name and holder == on:
        holder = name
    elif name and name != holder:
        return c.back(start)
    if c.take("and leave for"):
        c.take("the")
        name = c.words_until(frozenset({"and", "then", "turn"}), 3)
        if not name:
            return c.back(start)
        holder = name.removesuffix(" sts").removesuffix(" stitches")
    if c.take(
        "without working them", "without k them", "without k", "unworked", "without working", "to be worked later"
    ):
        worked = False
    together = _together(c, holder == on) if behind is not None else None
    if together is not None:
        holder = together[0] or holder
    elif holder == on:
        aside = read_aside(c) if c.here.kind == "mark" else None  # "on to a thread (right underarm)"
        holder = holder if aside is None else aside.words.strip("([ )]")
    return HoldAct(
        count,
        holder,
        target,
        worked,
        told if count is not None else "",
        on,
        behind,
        None if together is None else together[1],
        span=c.span(start),
    )


def _behind(c: Cursor) -> Count | None:
    """ "… and last 6 sts of previous rnd", behind the stitches just worked."""
    start = c.at
    if not c.take("and the last", "and last", "and"):
        return None
    count = c.count()
    if count is None or not c.take("st of last rnd", "st of the last rnd", "st from last rnd", "st from the last rnd"):
        return c.back(start)
    return count


def _together(c: Cursor, unnamed: bool) -> tuple[str, Count] | None:
    """ "(left underarm, 13 sts)": a name for stitches that have none, and how many they are together."""
    start = c.at
    closer = c.closers.get(start)
    if closer is None:
        return None
    c.step()
    words = c.words_until(frozenset(), 4) if unnamed else ""
    c.take(",", ":", "-", "=")
    count = c.count()
    if count is None or not c.take("st") or c.at != closer:
        return c.back(start)
    c.step()
    return words, count


def read_holder(c: Cursor) -> str | None:
    """What stitches wait on: "a holder" is "holder", "a holder for back neck" is "back neck", "hold" is "hold"."""
    waiting = _read_waiting(c)
    return None if waiting is None else waiting[0]


def _read_waiting(c: Cursor) -> tuple[str, str] | None:
    """The holder's name and what it is: "waste yarn for left thumb" is "left thumb" on "waste yarn"."""
    start = c.at
    c.take("a", "an", "the", "one", "same", "separate")
    which = c.take_key(frozenset({"second", "first", "third"})) or ""
    c.take("separate", "another", "small", "new", "different", "extra")
    base_start = c.at
    if c.take("hold"):
        base = on = "hold"
    elif c.take(*_HOLDERS_LONGEST):
        base = on = c.raw(base_start, c.at).removesuffix("s")
        if base.endswith("holder"):
            base, on = f"{which} holder".strip(), "holder"
    else:
        c.back(start)
        return None
    if c.take("or waste yarn", "or scrap yarn", "or spare needle", "or holder", "or a holder", "or st holder"):
        pass
    if c.take("for"):
        c.take("the")
        name = c.words_until(frozenset({"and", "then", "turn", "with"}), 5)
        if not name:
            c.back(start)
            return None
        return name.removesuffix(" sts").removesuffix(" stitches"), on
    return base, on


_HOLDERS_LONGEST = tuple(sorted(_HOLDERS, key=lambda words: (-len(words.split()), words)))


_BUT_BOR = tuple(
    f"{but} {the}{m}"
    for but in ("except", "except for", "but")
    for the in ("the ", "")
    for m in ("bor m", "bor", "beg of rnd m", "beg of rnd", "m for beg of rnd", "beg-of-rnd m")
)
"""The marker where rounds begin, which is no marker between stitches."""


def read_marker(c: Cursor) -> MarkerAct | None:
    """Reads "pm", "place marker for beg of rnd", "sm", "slip marker", "removing markers", "rm"."""
    start = c.at
    act = None
    if c.here.text == "(":
        return _replaced(c, start)
    if c.take("pm"):
        c.take("a", "here")
        return MarkerAct("place", _for(c), span=c.span(start))
    if c.take("sm"):
        return MarkerAct("slip", span=c.span(start))
    if c.take("rm"):
        return MarkerAct("remove", span=c.span(start))
    replaced = _replaced(c, start)
    if replaced is not None:
        return replaced
    if c.take("place", "placing"):
        c.take("a", "one", "the")
        c.take("removable", "locking", "second", "st", "contrasting", "coloured", "different")
        act = "place"
    elif c.take("removing", "remove", "dropping", "drop"):
        act = "remove"
    elif c.take("sl", "slipping"):
        act = "slip"
    if act is None:
        return None
    if act != "place" and c.take("all ms", "ms", "the ms", "all the ms", "m as you come to them"):
        c.take(*_BUT_BOR)
        return MarkerAct("remove" if act == "remove" else "slip", every=True, span=c.span(start))
    if c.take("ms", "m s") and act == "place":
        return c.back(start)
    found, name = read_marker_name(c)
    if not found:
        return c.back(start)
    if act == "place":
        c.take("( pm )")  # the short form, explained where it is first met
        name = name or _for(c)
        return MarkerAct("place", name, span=c.span(start))
    if act == "slip":
        return MarkerAct("slip", name, span=c.span(start))
    return MarkerAct("remove", name, along=c.lexemes[start].key in ("removing", "dropping"), span=c.span(start))


def _replaced(c: Cursor, start: int) -> MarkerAct | None:
    """ "s2kp (removing and replacing m)", "cdd, removing marker and replacing it"."""
    bracket = c.closers.get(c.at) is not None
    if bracket:
        c.step()
    if not c.take("removing and replacing", "remove and replace", "rm and replace", "removing"):
        return c.back(start)
    again = c.lexemes[c.at - 1].key in ("replacing", "replace")
    c.take("the")
    if not c.take("m"):
        return c.back(start)
    if not again and not c.take("and replacing it", "and replacing", ", then replacing it"):
        return c.back(start)
    if bracket and not c.take(")"):
        return c.back(start)
    return MarkerAct("replace", span=c.span(start))


def _for(c: Cursor) -> str | None:
    """What a marker is for: "for beg of rnd", "to mark end of round"."""
    start = c.at
    if c.take("for", "to mark", "to indicate", "to denote", "at"):
        c.take("the", "new")
        if c.take("beg of rnd", "beg of the rnd", "bor", "beg of rnd", "beg-of-rnd", "new beg of rnd"):
            return "beg of rnd"
        words = c.words_until(frozenset({"and", "then", "join", "with", "using"}), 5)
        if words:
            return words
    c.back(start)
    return None
