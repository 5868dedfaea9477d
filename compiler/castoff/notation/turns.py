"""Short rows: where a row turns, what the turn leaves behind, and how that is worked again later.

In: a cursor. Out: `Turn`, `PickUpWrap`, `Drop` or the double stitch of a turned row; None when their words do not stand
here. "W&t" wraps the next stitch; "turn, make DS" pulls up the stitch worked last; "turn, yo" lays a yarn-over.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Count, Drop, PickUpWrap, Stitch, Turn

_AND = (",", "and", ", and", "then", ", then", ";", "& ")
_DOUBLE = ("ds", "double st", "a ds", "a double st", "1 ds", "1 double st")
_OF_EACH = ("all the", "all", "each of the", "each", "every", "any", "the rem", "rem")
_AS_MET = (
    "as you come to them", "as they come up", "as they come", "as you meet them", "as you reach them", "as you go",
    "as you come across them", "as you encounter them", "when you come to them", "along the way", "as they appear",
    "as met", "throughout",
)  # fmt: skip
_AS_ONE = ("as one st", "as 1 st", "as single st", "as a single st", "as one", "as 1", "as if they were one st")

What = Literal["wrap", "ds", "yo", "loop"]
Worked = Literal["k", "p", "work"]


def read_turn(c: Cursor) -> Turn | PickUpWrap | Drop | Stitch | None:
    """Reads "turn", "w&t", "turn and make DS", "turn, yo", "MDS" at the start of a row, "picking up wraps", "k DS"."""
    return _turn(c) or _double_stitch(c) or _closing(c) or _drop(c)


# ------------------------------------------------------------------------------------------------ turning


def _turn(c: Cursor) -> Turn | None:
    start = c.at
    if c.take("w&t", "w & t", "w and t", "wt"):
        return Turn("wrap", span=c.span(start))
    if c.take("wrap"):
        c.take("the")
        c.take("next", "foll")
        c.take("st")
        if c.take(*_AND, "&") and c.take("turn"):
            c.take("work", "the work")
            return Turn("wrap", span=c.span(start))
        return c.back(start)
    if not _begins_row(c) and (c.take("mds") or (c.take("make") and c.take(*_DOUBLE))):
        # "K to last 3 sts, MDS": its definition turns the work first
        return Turn("german", span=c.span(start))
    c.back(start)
    if not c.take("turn") or c.looking("in", "under"):  # edges are turned in
        return c.back(start)
    c.take("work", "the work")
    after = c.at
    c.take(*_AND, ".")
    if _doubled(c):
        return Turn("german", span=c.span(start))
    if _yarn_over(c):
        return Turn("yarn-over", span=c.span(start))
    if _pin(c):
        return Turn("pin", span=c.span(start))
    c.back(after)
    return Turn(span=c.span(start))


def _begins_row(c: Cursor) -> bool:
    return c.at == 0 or c.peek(-1).key in (":", ".")


def _doubled(c: Cursor) -> bool:
    """ "MDS", "make DS", "sl 1 wyif, pull yarn over needle": the stitch worked last is pulled up to two legs."""
    start = c.at
    if c.take("mds", "ds") or (c.take("make", "work", "create", "form") and c.take(*_DOUBLE)):
        return True
    c.back(start)
    c.take("with yarn in front", "wyif", "bring yarn to front", "yarn to front", "yarn in front")
    c.take(*_AND)
    if c.here.stitch is None or not c.here.stitch.startswith("sl"):
        c.back(start)
        return False
    c.step()
    c.take("the")
    c.take("first", "next")
    if c.count_at():
        number = c.count()
        if number is None or set(number.values) != {1}:
            c.back(start)
            return False
    c.take("st")
    while c.take("purlwise", "wyif", "with yarn in front", "with yarn hold in front"):
        pass
    c.take(*_AND)
    c.take("then")
    if not c.take("pull", "pulling", "tug", "tugging"):
        c.back(start)
        return False
    c.take("the")
    if not c.take("working yarn", "yarn"):
        c.back(start)
        return False
    c.take("tightly", "tight", "firmly", "up")
    c.take("and", "up and")
    c.take(
        "over right needle", "over rh needle", "over the right needle", "over the needle", "over needle",
        "to back over needle", "over to back", "over the needle to back", "over needle to back", "up and over needle",
        "to back", "back",
    )  # fmt: skip
    c.take("to back", "of work")
    before = c.at
    bracket = c.take("(")
    c.take(",")
    c.take("to", "so as to")
    if (c.take("make", "making", "form", "forming", "=") or bracket) and c.take(*_DOUBLE, "mds", "make ds"):
        c.take("made")
        if bracket:
            c.take(")")
    else:
        c.back(before)
    return True


def _pin(c: Cursor) -> bool:
    """ "turn, place pin on working yarn": where a loop of it is pulled up later (Japanese short rows)."""
    start = c.at
    if c.take("place", "placing", "attach", "attaching", "clip", "hang", "put"):
        c.take("a", "the", "your")
        c.take("safety", "removable", "coilless")
        if c.take("pin"):
            if not c.take("on", "to", "onto", "around", "on to"):
                return True
            c.take("the")
            if c.take("working yarn", "yarn"):
                return True
    c.back(start)
    return False


def _yarn_over(c: Cursor) -> bool:
    """ "turn, yo." at the end of a row; in the middle of one it is a stitch like any other."""
    start = c.at
    c.take("make a", "make", "work a", "work")
    word = c.here.stitch
    if word in ("yo", "yfwd", "yrn", "yon", "yfrn"):
        c.step()
    elif not c.take("yarn over", "yarn-over"):
        c.back(start)
        return False
    if c.done or c.here.key in (".", ";", "(", "-", "["):
        return True
    c.back(start)
    return False


def _double_stitch(c: Cursor) -> Stitch | None:
    """ "Row 2: MDS, p to …": the first stitch of a row that follows a plain turn."""
    start = c.at
    if not _begins_row(c) or not _doubled(c):
        return c.back(start)
    return Stitch("ds", None, c.raw(start, c.at), span=c.span(start))


# ------------------------------------------------------------------------------------------------ working it again


def _closing(c: Cursor) -> PickUpWrap | None:
    start = c.at
    for reader in (_pulled_up, _gathered, _single, _wrap_with_stitch, _legs, _over_yarn):
        found = reader(c)
        if found is not None:
            return replace(found, span=c.span(start))
        c.back(start)
    return None


def _pulled_up(c: Cursor) -> PickUpWrap | None:
    """ "close gap", "pull up loop (at pin) and k it tog with next st": the loop of a turn that a pin has marked."""
    if c.take("close", "closing", "resolve"):
        c.take("the")
        return PickUpWrap("work", what="loop", span=c.span(c.at)) if c.take("gap") else None
    if not c.take("pull up", "pulling up", "pull pin to pull up", "lift", "pick up"):
        return None
    c.take("the", "pinned", "a", "marked")
    if not c.take("pinned loop", "loop", "marked loop"):
        return None
    c.take("at pin", "at the pin", "on pin", "( at pin )", "of yarn", "onto left needle", "onto lh needle")
    c.take("and", ", and", ",", "then")
    verb = c.take_key(frozenset({"k", "p"}))
    c.take("it")
    if verb is None or not c.take("tog with") or not _next_stitch(c):
        return None
    return PickUpWrap("k" if verb == "k" else "p", what="loop", span=c.span(c.at))


def _verb(c: Cursor) -> Worked | None:
    """ "k", "p", "work": one stitch now."""
    key = c.take_key(frozenset({"k", "p", "work", "pick", "close", "resolve"}))
    if key == "pick":
        return "work" if c.take("up") else None
    return "k" if key == "k" else "p" if key == "p" else None if key is None else "work"


def _gathered(c: Cursor) -> PickUpWrap | None:
    """ "picking up wraps (and knitting them tog with sts)", "working wraps as you come to them", "closing all DS"."""
    picked = c.take("picking up", "lifting")
    verb: Worked = "work"
    going = picked
    if picked:
        c.take("and")
    key = c.take_key(frozenset({"working", "knitting", "purling", "closing", "resolving"}))
    if key is not None:
        going = True
        verb = "k" if key == "knitting" else "p" if key == "purling" else "work"
    if not going:
        verb = "work"
        first = _verb(c)
        if first is None:
            return None
        verb = first
    every = c.take(*_OF_EACH)
    if not every:
        c.take("the last", "the", "last")
    what = _loops(c)
    if what is None:
        return None
    several = _plural(c)
    if what == "wrap":
        c.take("and st", "and their st", "and wrapped st")
        c.take("tog")
        with_st = c.at
        if c.take("with"):
            c.take("their", "the", "its", "corresponding")
            c.take("wrapped", "corresponding")
            if not c.take("st", "st they wrap"):
                c.back(with_st)
            c.take("they wrap")
        verb = _then_together(c) or verb
    elif what == "ds":
        c.take("tog")
        c.take(*_AS_ONE)
    elif not (c.take("tog") and c.take("with") and _next_stitch(c)):
        return None
    met = c.take(*_AS_MET)
    # "pick up wraps and k tog with st" is one stitch with several wraps
    plural = every or _plural(c) or (several and c.peek(-1).key != "st")
    if not going and not met and not (plural and what != "yo"):
        return None
    return PickUpWrap(verb, come=True, what=what, span=c.span(c.at))


def _plural(c: Cursor) -> bool:
    """Whether the word just read names several: "wraps", "sts", "them"; "DS" is one or many."""
    word = c.peek(-1)
    return word.key == "them" or (word.key != "ds" and word.text.lower().endswith("s"))


def _next_stitch(c: Cursor) -> bool:
    c.take("the")
    c.take("next", "foll", "st after it")
    return c.take("st")


def _loops(c: Cursor) -> What | None:
    """ "wraps", "DS", "double sts", "yos" as a whole."""
    if c.take("wraps", "wrap"):
        return "wrap"
    if c.take("wrapped st"):
        return (
            "wrap" if c.take("tog with their wraps", "with their wraps", "and their wraps", "tog with wraps") else None
        )
    if c.take("ds", "double st"):
        return "ds"
    if c.here.stitch == "yo" or c.here.key == "yos" or c.looking("yarn-over", "yarn-overs"):
        c.step()
        return "yo"
    return None


def _then_together(c: Cursor) -> Worked | None:
    """ "pick up wrap and k it tog with st", "picking up wraps and knitting them tog with sts": what it becomes."""
    start = c.at
    if not c.take("and", ", and", ","):
        return None
    verb = c.take_key(frozenset({"k", "p", "work", "knitting", "purling", "working"}))
    c.take("it", "them")
    if verb is None:
        return c.back(start)
    together = c.take("tog")
    if together and c.take("with"):
        c.take("the", "its", "their", "next")
        c.take("wrapped", "next")
        if not c.take("st", "it"):
            return c.back(start)
    if not together and not c.take(*_AS_MET):
        return c.back(start)
    c.take("as one st", "as one")
    return "p" if verb in ("p", "purling") else "k" if verb in ("k", "knitting") else "work"


_ITS_WRAP = (
    "its wraps", "its wrap", "their wraps", "the wraps", "the wrap", "wraps", "wrap", "its wrap ( s )", "wrap ( s )",
    "its 2 wraps", "each of its wraps",
)  # fmt: skip
_BOTH = ("both wraps", "both of its wraps", "both its wraps", "its two wraps", "both their wraps", "their two wraps",
         "its both wraps", "two wraps")  # fmt: skip


def _wraps_of(c: Cursor) -> bool | None:
    """ "its wrap", "both wraps": whether both are named; None when no wrap is."""
    if c.take(*_BOTH):
        return True
    if c.take(*_ITS_WRAP):
        c.take("( s )")
        return False
    return None


def _single(c: Cursor) -> PickUpWrap | None:
    """ "k wrapped st tog with its wrap", "k next 2 wrapped sts tog with their wraps", "k it tog with both wraps"."""
    verb = _verb(c)
    if verb is None:
        return None
    count: Count | None = None
    twice = False
    if not c.take("it", "them"):
        c.take("the", "this", "that")
        c.take("next", "foll", "rem", "last", "first")
        count = c.count()
        twice = c.take("double-wrapped", "twice-wrapped", "double wrapped")
        if not twice:
            c.take("wrapped")
        if not c.take("st"):
            return None
    if not c.take("tog with", "with", "and", "tog and"):
        return None
    both = _wraps_of(c)
    if both is None:
        return None
    c.take("tog as one", "tog", "as one st")
    return PickUpWrap(verb, count, both=both or twice, span=c.span(c.at))


def _wrap_with_stitch(c: Cursor) -> PickUpWrap | None:
    """ "work wrap with st", "knit wrap tog with st", "pick up wrap and k tog with st", "k both wraps tog with st"."""
    verb = _verb(c)
    if verb is None:
        return None
    if c.peek(-1).key == "up" and c.take("and"):
        verb = _verb(c)
        if verb is None:
            return None
    c.take("the")
    both = _wraps_of(c)
    if both is None:
        return None
    then = _then_together(c)
    if then is not None:
        return PickUpWrap(then, both=both, span=c.span(c.at))
    if c.take("and"):
        c.take("the", "next", "wrapped")
        if not (c.take("st") and c.take("tog", "as one")):
            return None
        return PickUpWrap(verb, both=both, span=c.span(c.at))
    c.take("tog")
    if c.take("with"):
        c.take("the", "its", "next", "their", "corresponding")
        c.take("wrapped", "next")
        if not c.take("st it wraps", "st they wrap", "st", "it"):
            return None
        return PickUpWrap(verb, both=both, span=c.span(c.at))
    return None


def _legs(c: Cursor) -> PickUpWrap | None:
    """ "k DS", "p next DS", "k both legs of DS tog", "k next 2 DS"."""
    verb = _verb(c)
    if verb is None:
        return None
    c.take("both legs of", "both strands of", "both loops of", "through both legs of", "2 legs of")
    c.take("the")
    c.take("next", "foll", "first", "last", "rem")
    count = c.count()
    if not c.take("ds", "double st"):
        return None
    c.take("tog")
    c.take(*_AS_ONE, "through both legs")
    return PickUpWrap(verb, count, what="ds", span=c.span(c.at))


def _over_yarn(c: Cursor) -> PickUpWrap | None:
    """ "k yo tog with next st", "p next yo and st tog"."""
    verb = _verb(c)
    if verb is None:
        return None
    c.take("the")
    c.take("next")
    if c.here.stitch != "yo" and not c.looking("yarn-over"):
        return None
    c.step()
    if c.take("tog with", "with"):
        return PickUpWrap(verb, what="yo", span=c.span(c.at)) if _next_stitch(c) else None
    if c.take("and") and _next_stitch(c) and c.take("tog"):
        return PickUpWrap(verb, what="yo", span=c.span(c.at))
    return None


def _drop(c: Cursor) -> Drop | None:
    """ "dropping extra wraps", "drop 2 yos", "dropping 2 of each 3 yos"."""
    start = c.at
    if not c.take("dropping", "drop"):
        return None
    c.take("the", "all", "all the")
    count = c.count()
    of: Count | None = None
    if count is not None and c.take("of each", "of every", "of"):
        of = c.count()
    if c.take("extra wraps", "extra wrap", "extra yo", "extra yos", "yos", "yo", "extra loops", "st",
              "extra loop", "st off needle"):  # fmt: skip
        return Drop(count, of, span=c.span(start))
    return c.back(start)
