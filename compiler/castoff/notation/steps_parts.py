"""Sentences about parts: holding and taking up stitches, picking up, binding off, seams, grafts, finishing.

In: a cursor at the start of a sentence. Out: step nodes, or None.
"""

from __future__ import annotations

from castoff.notation.actions import read_action, read_actions
from castoff.notation.acts import BIND_OFF, read_bind_off, read_hold, read_holder, read_manners
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.shaping import read_ends
from castoff.notation.stitch_work import holds_work
from castoff.notation.syntax import (
    Action,
    BindOff,
    Count,
    DrawThrough,
    FastenOff,
    Finish,
    Graft,
    Hold,
    HoldAct,
    PickUp,
    PickUpRow,
    Resume,
    Seam,
    Side,
    TurnWork,
    WorkHeld,
)
from castoff.notation.yarns_and_needles import read_needles, read_withs

_REST = (
    "rem st",
    "the rem st",
    "rem",
    "all st",
    "all rem st",
    "all the st",
    "all",
    "st",
    "all rem",
    "these st",
    "the last st",
)
_SEWERS = {
    "sew": "sew", "join": "sew", "seam": "sew", "whipstitch": "whip", "mattress": "mattress", "whip": "whip",
    "backstitch": "backstitch",
}  # fmt: skip
_FINISHERS = frozenset(
    {"weave", "block", "steam", "press", "sew", "darn", "attach", "fold", "embroider", "make", "wash", "tack",
    "pin", "stitch",
     "stuff", "add", "close", "fill", "tie", "wind", "trim", "secure", "soak", "lay", "dampen", "neaten", "fasten",
     "insert",
     "brush", "felt", "wet", "dry", "set", "thread", "hem", "machine", "crochet", "reinforce", "catch", "place", "match",
     "align", "turn", "cut"}
)  # fmt: skip
_ONLY_BEFORE = {
    "place": frozenset({"centre", "middle", "top"}), "match": frozenset({"centre", "middle", "top"}),
    "align": frozenset({"centre", "middle", "top"}), "turn": frozenset({"in", "under", "back"}),
    "cut": frozenset({"open", "steek", "steeks", "between", "up", "along", "through"}),
}  # fmt: skip
"""Verbs that say something else too: what must stand behind them to tell of making up."""


_MARKER_OUT = ("removing", "remove", "rm", "dropping", "drop")

EACH_SIDE = "each side"
"""In the manner of a bind-off that is told for each of two sides."""


def read_bind_off_step(c: Cursor) -> BindOff | tuple[TurnWork, BindOff] | None:
    """Reads "BO all sts loosely in rib", "Cast off", "Bind off rem 11 (13, 14) sts", "Loosely bind off in patt"."""
    start = c.at
    c.take("loosely", "firmly")
    early = () if c.at == start else (c.raw(start, c.at),)
    if not c.looking(*BIND_OFF):
        return c.back(start)
    but = _all_but(c, start, early)
    if but is not None:
        return but
    act = read_bind_off(c)
    if act is None or act.target is not None:
        return c.back(start)
    beside = _beside_marked(c)
    if beside is not None:
        return BindOff(act.count, early + act.manner, *beside, span=c.span(start))
    if c.take("each side", "on each side", "at each side", "for each side", "on both sides"):
        return BindOff(act.count, (*early, *act.manner, EACH_SIDE), span=c.span(start))
    before = c.at
    side = read_side(c) if c.take("on the", "on") else None
    if side is not None:
        c.take("row")
        facing = TurnWork(side, span=c.span(before))
        return facing, BindOff(act.count, early + act.manner, span=c.span(start))
    c.back(before)
    how = act.count is None and c.here.key in ("with", "using")
    if c.here.kind in ("word", "number", "ordinal") and c.here.key not in ("and", "then") and not how:
        return c.back(start)
    # behind the bracket of "cast off 10 sts (removing m), k to end" a row goes on
    behind = c.closers[c.at] + 1 if c.at in c.closers else c.at
    after = c.lexemes[behind + 1] if c.lexemes[behind].key == "," else None
    if after is not None and (after.stitch is not None or after.key in ("rib", "patt", "work", "*", *_MARKER_OUT)):
        return c.back(start)
    return BindOff(act.count, early + act.manner, span=c.span(start))


def _all_but(c: Cursor, start: int, early: tuple[str, ...]) -> BindOff | None:
    """ "Bind off all sts but the last", "BO all but last 2 sts", "BO until 1 st rem"."""
    before = c.at
    c.take(*BIND_OFF)
    manner = read_manners(c)
    left: Count | None = None
    if c.take("all", "the"):
        c.take("st", "the st", "of the st")
        if not c.take("but", "except", "except for"):
            return c.back(before)
        c.take("the")
        last = c.take("last", "final")
        place = c.at
        left = c.count()
        if left is None and last:
            left = c.same(1, place - 1)
        c.take("st")
        left = left if last or c.lexemes[c.at - 1].key == "st" else None
    elif c.take("until"):
        c.take("there is", "only", "you have")
        left = c.count()
        named = left is not None and c.take("st", "loop")
        if not named or not c.take("rem on the needle", "rem on right needle", "rem on needle", "rem", "is left",
                                   "are left", "left"):  # fmt: skip
            left = None
    if left is None:
        return c.back(before)
    manner += read_manners(c)
    return BindOff(None, early + manner, leaves=left, span=c.span(start))


def _beside_marked(c: Cursor) -> tuple[Count, bool] | None:
    """ ", dec 1 st at each side of marked st (as before)" behind "cast off in rib"; and whether "as before" is said."""
    start = c.at
    c.take(",")
    c.take("and", "while", "and at the same times", "at the same times")
    if not c.take("dec"):
        return c.back(start)
    place = c.at
    count = c.count()
    if count is not None and not c.take("st"):
        return c.back(start)
    count = count or c.same(1, place)
    c.take("at", "on")
    if read_ends(c) != "each side of marked st":
        return c.back(start)
    return count, c.take("as before", "as set", "as est", "( as before )", "as on last row", "as in last row")


def read_draw_through(c: Cursor) -> DrawThrough | None:
    """Reads "Thread tail through rem 8 sts", "draw through rem sts", "run yarn through all sts"."""
    start = c.at
    if not c.take("thread", "draw", "run", "pass", "pull"):
        return None
    c.take("the", "it", "end", "cut")
    c.take("yarn", "tail", "end", "yarn tail", "yarn end", "yarn needle")
    c.take("of yarn")
    if c.take("on tapestry needle", "on a tapestry needle", "onto tapestry needle", "onto a tapestry needle",
              "on yarn needle",
              "on a yarn needle", "on needle"):  # fmt: skip
        c.take(",", "and", ", and")
        if not c.take("draw", "pass", "run", "pull", "thread", "draw it", "pass it"):
            return c.back(start)
        c.take("the", "it")
        c.take("yarn", "tail", "end")
    if not c.take("through", "thru"):
        return c.back(start)
    c.take("the", "all")
    c.take("rem", "the rem", "live")
    one = c.at
    count = c.same(1, one) if c.take("last") else c.count()
    c.take("rem", "live")
    if not c.take("st", "loops", "loop"):
        return c.back(start)
    c.take("rem", "on needle", "on the needle")
    c.take("twice")
    return DrawThrough(count, span=c.span(start))


def read_fasten_off(c: Cursor) -> FastenOff | None:
    """Reads "fasten off"."""
    start = c.at
    if c.take("fasten off", "fasten", "and fasten off"):
        c.take("on ws", "on the ws", "on wrong side", "on inside", "on the inside")
        return FastenOff(span=c.span(start))
    return None


def read_hold_step(c: Cursor) -> Hold | None:
    """Reads "Place rem 40 sts on a holder for back neck", "Leave these 28 sts on a holder"."""
    start = c.at
    these = _only_these(c)
    if these is not None:
        return these
    leave = c.here.key == "leave"
    act = read_hold(c)
    return None if act is None else Hold(act, leave, span=c.span(start))


def _only_these(c: Cursor) -> Hold | None:
    """ "Work on these 20 sts only for first side of neck", "Continuing on this set of sts only": the others wait."""
    start = c.at
    if not c.take("work on", "cont on", "working on", "cont working on", "cont to work on", "cont over", "k on"):
        return c.back(start)
    named = ""
    if c.take("this set of", "this group of"):
        count = None
    elif c.take("these", "those", "the rem", "rem", "the"):
        these = c.lexemes[c.at - 1].key in ("these", "those")
        count = c.count()
        if not these and count is None:
            return c.back(start)
        if count is not None and c.here.key != "st":
            named = c.words_until(frozenset({"st", "and", "then", "for"}), 3)  # "the 43 left front sts only"
        if not these and not c.looking("st only", "st alone"):
            return c.back(start)
    else:
        return c.back(start)
    if not c.take("st only", "st alone") and (count is None or not c.take("st")):
        return c.back(start)
    act = HoldAct(count, "hold", told="these" if count is not None else "", on="hold", span=c.span(start))
    before = c.at
    part = f"for {named}" if named else ""
    if not named and c.take("for"):
        c.take("the")
        words = c.words_until(frozenset({"and", "then"}), 5)
        part = f"for {words}" if words else ""
    if not part:
        c.back(before)
    return Hold(act, True, True, part, span=c.span(start))


def read_resume(c: Cursor) -> Resume | None:
    """Reads "Slip the 13 held thumb sts back onto smaller needles", "Return held sts to needle"."""
    start = c.at
    withs = read_withs(c)
    side: Side | None = None if withs is None else withs[2]
    c.take(",")
    verb = c.take("return", "sl", "place", "transfer", "put", "move", "replace", "slipping", "slide")
    rejoin = False
    if verb and c.lexemes[c.at - 1].key == "return" and c.take("to"):
        part = _held_group(c)
        return c.back(start) if part is None else Resume((part,), None, side, span=c.span(start))
    if not verb:
        if not c.take(
            "rejoin yarn to", "join yarn to", "rejoin yarn at neck edge to", "re-join yarn to", "rejoin yarn"
        ):
            return c.back(start)
        rejoin = True
    both = () if rejoin else _both_ends(c)
    parts: list[tuple[Count | None, str]] = list(both)
    the = c.at
    c.take("the")
    some = not both and c.take("first") and c.count_at()
    if not some:
        c.back(the)
    while not both:
        before = c.at
        if parts:
            c.take(",")
            c.take("and")
        part = _held_group(c)
        if part is None:
            c.back(before)
            break
        parts.append(part)
    if not parts:
        return c.back(start)
    needles = None
    if not rejoin:
        c.take("back")
        if not c.take("onto", "to", "on", "on to"):
            return c.back(start)
        right = c.take("lh", "rh", "left", "right", "spare") and c.lexemes[c.at - 1].key in ("rh", "right")
        needles = read_needles(c)
        if needles is None or (right and some and c.looking(", rejoin", ", join", ", k rem")):
            return c.back(start)  # (slipped to be worked at the end of the row that follows)
        if needles in ("needle", "needles"):
            needles = None
    before = c.at
    c.take(",")
    c.take("and", "then")
    later = c.take("with")
    if later:
        side = read_side(c) or side
        if not c.take("facing"):
            c.back(before)
        else:
            c.take(",")
    else:
        c.back(before)
    note = ""
    if rejoin and c.take("at"):
        c.take("the")
        note = c.words_until(frozenset({"and", "then", "for"}), 4)
    before = c.at
    if rejoin and c.take("for"):
        c.take("the")
        if c.words_until(frozenset({"and", "then"}), 4):
            note = f"{note} {c.raw(before, c.at)}".strip()
        else:
            c.back(before)
    return Resume(tuple(parts), needles, side, rejoin, note, some, bool(both), span=c.span(start))


def _both_ends(c: Cursor) -> tuple[tuple[Count | None, str], ...]:
    """ "first 6 and last 6 sts from length of yarn": from both ends of those that wait; the others go on waiting."""
    start = c.at
    c.take("the")
    first = c.count() if c.take("first") else None
    if first is not None:
        c.take("st")
        c.take(",")
    if first is None or not c.take("and the last", "and last") or not c.count_at():
        c.back(start)
        return ()
    group = _held_group(c)
    if group is None:
        c.back(start)
        return ()
    return (first, group[1]), group


def _held_group(c: Cursor) -> tuple[Count | None, str] | None:
    """ "the 13 held thumb sts", "28 sts from back neck holder", "held sts", "rem 41 sts"."""
    start = c.at
    c.take("the", "these", "all", "those")
    rem = c.take("rem")
    early = c.take("hold") and c.count_at()
    if not early and c.lexemes[c.at - 1].key == "hold" and c.at > start:
        c.back(c.at - 1)
    count = c.count()
    c.take("rem")
    held = c.take("hold") or early
    name = ""
    if c.here.key != "st":
        name = c.words_until(frozenset({"st", "from", "back", "onto", "to", "and", "on"}) if not held else
                             frozenset({"st", "from", "onto", "to", "and", "on"}), 4)  # fmt: skip
    if not c.take("st"):
        return c.back(start)
    held = c.take("hold") or c.looking("back onto", "back on", "back to") or held
    from_holder = False
    if held and c.looking("on") and not _holder_ahead(c):
        pass
    elif c.take("from", "off", "on", "left on", "hold on"):
        c.take("the", "first", "second", "a")
        found = read_holder(c)
        if found is None:
            words = c.words_until(frozenset({"onto", "to", "and"}), 4)
            found = words.removesuffix(" holder") if words else None
            if found is None or name or not words.endswith(("holder", "yarn", "needle")):
                return c.back(start)
        from_holder = True
        name = name or found
    if not (held or from_holder or rem or name):
        return c.back(start)
    return count, name or "hold"


def _holder_ahead(c: Cursor) -> bool:
    """Whether "on" leads to what stitches wait on, and not to a needle that they go to."""
    before = c.at
    c.take("on")
    c.take("the", "first", "second", "a")
    found = read_holder(c) is not None
    if not found:
        found = c.words_until(frozenset({"onto", "to", "and"}), 4).endswith(("holder", "yarn"))
    c.back(before)
    return found


def read_pick_up_row(c: Cursor) -> PickUpRow | None:
    """Reads "With RS facing and circular needle, beg at left shoulder, pick up and knit 22 sts down left front neck, …"."""
    start = c.at
    withs = read_withs(c)
    yarns, needles, side = withs if withs is not None else ((), None, None)
    begin = ""
    while True:
        before = c.at
        c.take(",")
        c.take("and")
        if c.take("beg at", "beg from", "beg on", "beg in"):
            c.take("the")
            begin = c.words_until(frozenset({"and", "pick", "with"}), 9)
            if begin:
                continue
        elif c.take("join yarn at", "rejoin yarn at", "join yarn to", "rejoin yarn to"):
            c.take("the")
            words = c.words_until(frozenset({"and", "pick", "with"}), 6)
            begin = begin or words
            if words:
                continue
        elif c.take("join yarn", "rejoin yarn", "join", "rejoin"):
            c.take("and")
            more = c.yarn()
            if more is not None:
                yarns = (*yarns, more)
            if c.looking(",", "pick", "and", "pu"):
                continue
        else:
            more_withs = read_withs(c) if withs is not None or c.at > start else None
            if more_withs is not None:
                yarns = yarns or more_withs[0]
                needles = needles or more_withs[1]
                side = side or more_withs[2]
                continue
        c.back(before)
        break
    c.take(",")
    c.take("then", "and")
    worked = c.here.stitch in ("k", "p") or c.looking("sl first", "sl the first")
    if not c.looking("pick up", "pu", "picking up") and not (withs is not None and worked):
        return c.back(start)
    parts: tuple[Action, ...] = read_actions(c)
    picked_up = any(isinstance(part, PickUp) for part in parts)
    if not picked_up and (side is None or not any(isinstance(part, WorkHeld) for part in parts)):
        return c.back(start)
    return PickUpRow(parts, side, yarns, needles, begin, span=c.span(start))


def read_seam(c: Cursor) -> Seam | Graft | None:
    """Reads "Sew shoulder seams", "Join side and sleeve seams", "Graft toe sts", "Graft the 12 sts of sole to instep"."""
    start = c.at
    c.take("using mattress st ,", "using mattress st", "with mattress st ,")
    if c.take("graft"):
        counts: list[Count] = []
        parts: list[str] = []
        while True:
            at = c.at
            if parts and not c.take("to", "and", "with"):
                break
            c.take("the", "these", "all")
            c.take("rem", "live", "first", "last")
            words_start = c.at
            count = c.count()
            words = c.words_until(frozenset({"to", "and", "with", "using"}), 7)
            if words.startswith("sets of"):
                words = c.raw(words_start, c.at)
            elif count is not None:
                counts.append(count)
            while words.endswith((" together", " closed")):
                words = words.rpartition(" ")[0]
            if words == "tog" or (not parts and not words and (c.done or c.looking(".", ",", "using", "with"))):
                words = "sts"
            if not words:
                c.back(at)
                break
            parts.append(words)
        if not parts:
            return c.back(start)
        manner = "kitchener"
        if c.take("using", "with"):
            manner = c.words_until(frozenset({"and", "then", "to"}), 4) or manner
        return Graft(tuple(parts), tuple(counts), manner, span=c.span(start))
    key = c.here.key
    if key not in _SEWERS:
        return c.back(start)
    c.step()
    c.take("the", "up")
    clause = c.at
    rest = _clause(c)
    if _knits(c, clause):
        return c.back(start)
    named = set(rest.replace(",", " ").split())
    if not named & {"seam", "seams", "edge", "edges", "shoulders", "sides", "sleeves", "sleeve"}:
        return c.back(start)
    if named & (_SEWERS.keys() - {"seam"}):
        # no edge is called by what is done to it: the verb stands twice
        return c.back(start)
    if key == "join" and named & {"yarn", "round", "rnd"}:
        return c.back(start)
    edges = tuple(part for part in _split_edges(rest) if part)
    return Seam(_SEWERS[key], edges, span=c.span(start))


def _split_edges(rest: str) -> tuple[str, ...]:
    if " to " in rest:
        first, _, second = rest.partition(" to ")
        return first.strip(" ,"), second.strip(" ,")
    shared = rest.removesuffix(" seams").removesuffix(" seam")
    if shared != rest and " and " in shared:
        return tuple(part.strip(" ,") for part in shared.replace(",", " and ").split(" and "))
    return (rest,)


def _clause(c: Cursor, *stops: str) -> str:
    """The rest of a sentence as typed, lower case; as far as one of some phrases."""
    start = c.at
    depth = 0
    while not c.done and not (stops and c.looking(*stops)):
        if c.here.key == "(" and c.at in c.closers:
            depth += 1
        elif c.here.key == ")" and depth:
            depth -= 1
        elif c.here.key == "." and depth <= 0:
            break
        c.skip()
    c.reach()
    return c.raw(start, c.at)


_THREADED = frozenset({"cord", "cords", "i-cord", "ribbon", "ribbons", "elastic", "drawstring", "lace", "laces"})


def read_finish(c: Cursor) -> Finish | None:
    """Reads making-up sentences by their verb; the rest is kept as words."""
    start = c.at
    if c.take("using") or c.take("with"):
        while not c.done and c.here.key not in (",", "."):
            c.skip()
        c.take(",")
    c.take("then", "lightly", "carefully", "neatly", "gently", "securely", "finally")
    if c.here.kind != "word" or c.here.text.lower() not in _FINISHERS:
        return c.back(start)
    act = c.here.text.lower()
    if act == "thread" and c.peek().key not in _THREADED:
        return c.back(start)  # a tail that is threaded draws stitches together
    after = c.peek(2) if c.peek().key == "the" else c.peek()
    if act in _ONLY_BEFORE and after.key not in _ONLY_BEFORE[act]:
        return c.back(start)
    clause = c.at
    words = _clause(c, ", then") if act in _ONLY_BEFORE else _clause(c)
    if _knits(c, clause):
        return c.back(start)
    return Finish(act, words, span=c.span(start))


def _knits(c: Cursor, start: int) -> bool:
    """Whether words about finishing hold an instruction with a number (or half a bracket): no words to be kept as such."""
    for index in range(start, c.at):
        lexeme = c.lexemes[index]
        if lexeme.kind == "mark" and (
            lexeme.text[0] in "*†‡" or (lexeme.text in ("(", "[") and index not in c.closers)
        ):
            return True
    return holds_work(c.lexemes, start, c.at)


__all__ = [
    "read_action", "read_bind_off_step", "read_draw_through", "read_fasten_off", "read_finish", "read_hold_step",
    "read_pick_up_row", "read_resume", "read_seam",
]  # fmt: skip
