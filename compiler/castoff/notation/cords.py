"""Cords and edges by name: "Work i-cord for 10 cm", "Work applied i-cord along 20 sts", "Work a tubular bind-off".

In: a cursor at the start of a sentence. Out: `WorkRows` in the fabric "i-cord", `BindOff`, `CastOn`, `Finish` or `OnTrust`.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_extent
from castoff.notation.syntax import BindOff, CastOn, Count, Extent, Fabric, Finish, ForLength, OnTrust, WorkRows

_EDGES = frozenset(
    {"edge", "side", "sides", "border", "perimeter", "neckline", "neck", "opening", "armhole", "hem", "blanket",
     "piece", "square", "shawl", "throw", "bag", "seam", "front", "fronts", "cuff"}
)  # fmt: skip
_SIDES_TOLD = frozenset({"two", "three", "four", "both"})


def read_cord(c: Cursor) -> WorkRows | BindOff | CastOn | Finish | OnTrust | None:
    """Reads sentences about cords, and edges that are called by their name."""
    start = c.at
    return _slid(c, start) or _picot(c, start) or _joined(c, start) or _named(c, start)


def _picot(c: Cursor, start: int) -> BindOff | None:
    """ "Picot bind-off: *CO 2 sts, BO 4 sts, sl st back to left needle; rep from * to end"."""
    c.take("work", "bind off in")
    if c.here.text != "*":
        named = c.take("picot bind-off", "picot bind off", "picot edge", "picots", "picot cast-off", "picot bo",
                       "picot cast off", "picot edging")  # fmt: skip
        if not named and not c.looking("bo as foll", "bind off as foll", "cast off as foll"):
            return c.back(start)
        c.take("bo", "bind off", "cast off")
        c.take("as foll")
        if not c.take(":", "-") or c.here.text != "*":
            return c.back(start)
    c.step()
    on = c.count() if c.take("co", "cast on") else None
    c.take("st")
    c.take("using the knitted cast-on", "using the cable cast-on")
    c.take(", then", "; then", ",", ";", "then", "and")
    off = c.count() if on is not None and c.take("bo", "bind off", "cast off") else None
    c.take("st")
    c.take(", then", "; then", ",", ";", "then", "and")
    slid = c.take("sl", "return", "pass", "place")
    c.take("the", "rem", "last")
    c.take("rem", "one")
    if slid and not (c.take("st", "loop") and _back_to_left(c)):
        return c.back(start)
    c.take(";", ",", ".")
    if on is None or off is None or not c.take("rep from *"):
        return c.back(start)
    before = c.at
    if c.take("until"):
        left = c.count()
        if left is not None and c.take("st rem", "st is left", "st are left", "loop rem"):
            return BindOff(None, ("picot bind-off",), picot=(on, off), leaves=left, span=c.span(start))
        c.back(before)
    if not c.take("to end", "around", "until all st have been bo", "until all st are bo", "until all st are bound off"):
        return c.back(start)
    return BindOff(None, ("picot bind-off",), picot=(on, off), span=c.span(start))


def _back_to_left(c: Cursor) -> bool:
    c.take("back")
    if c.take("from right needle", "from rh needle", "from the right needle"):
        c.take("back")
    return c.take("to left needle", "to lh needle", "to the left needle", "onto left needle", "onto the left needle",
                  "onto lh needle", "to lh", "to the lh needle", "onto the lh needle", "onto lh")  # fmt: skip


FOLDED = "folded in half"
"""In the manner of a bind-off that joins the two halves of one needle, from the place where the yarn is."""


def _joined(c: Cursor, start: int) -> BindOff | None:
    """ "Join sts using a three-needle bind-off", "fold the hood in half and join the top with a three-needle cast-off"."""
    folded = _folds(c)
    if not c.take("join"):
        return c.back(start)
    c.take("them", "st", "the st", "both sets of st", "live st", "these st", "tog", "the two sets of st")
    if folded:
        c.take("the top", "top", "both halves", "the halves", "the two halves")
    if not c.take("using", "with", "by"):
        return c.back(start)
    c.take("a", "the")
    named = c.at
    if not c.take(*THREE_NEEDLES):
        return c.back(start)
    manner = "three-needle bind-off" if folded else _words(c, named, c.at)
    return BindOff(None, (manner, f"{folded} {FOLDED}") if folded else (manner,), span=c.span(start))


THREE_NEEDLES = (
    "three-needle bind-off", "3-needle bind-off", "three-needle cast-off", "3-needle cast-off", "three needle bind-off",
    "three needle bind off", "3 needle bind-off", "three-needle cast off", "three-needle bind off", "3-needle cast off",
    "3-needle bind off", "three needle cast off",
)  # fmt: skip


def _folds(c: Cursor) -> str:
    """ "Fold the hood in half with right sides together and": what is folded; "" when nothing is."""
    start = c.at
    if not c.take("fold"):
        return ""
    place = c.at
    c.take("the")
    c.words_until(frozenset({"in", "and"}), 3)
    what = c.raw(place, c.at)
    if not what or not c.take("in half"):
        c.back(start)
        return ""
    c.take("with right sides tog", "with rs tog", "right sides tog", "with wrong sides tog", "with ws tog")
    c.take(", then", ", and", "and", ",")
    return what


def folded_of(manner: tuple[str, ...]) -> str:
    """What is folded in half before its halves are bound off together; "" when nothing is."""
    return next((each.removesuffix(f" {FOLDED}") for each in manner if each.endswith(FOLDED)), "")


def _slid(c: Cursor, start: int) -> WorkRows | None:
    """ "*K4, do not turn, slide sts to other end of needle; rep from * until cord measures 10 cm"."""
    mark = c.step().text if c.here.kind == "mark" and c.here.text == "*" else ""
    if not c.take("k"):
        return c.back(start)
    count = c.count()
    c.take("st")
    c.take(",", ".", ";")
    turned = c.take("do not turn", "without turn")
    c.take(",", ".", ";", "and", ", and", "; then", ", then")
    slid = c.take("slide", "slide the", "push", "push the", "sl") and c.take("st", "all st", "the st", "them", "work")
    if count is None or not slid:
        return c.back(start)
    c.take("back")
    if not c.take("to other end of needle", "to the other end of the needle", "to right end of needle",
                  "to the right end of the needle", "to the other end of needle", "to opposite end of needle",
                  "to the opposite end of the needle", "to other end of dpn", "to the other end of the dpn",
                  "to other end of the needle"):  # fmt: skip
        return c.back(start)
    turned = c.take("without turn", ", do not turn") or turned
    while c.take(",", ".", ";"):
        pass
    again = c.take(f"rep from {mark}") if mark else c.take("rep this row", "rep last row", "rep this")
    extent = read_extent(c) if again and turned else None
    if extent is None:
        return c.back(start)
    return _cord(c, start, extent, count)


def _cord(c: Cursor, start: int, extent: Extent, count: Count | None) -> WorkRows:
    return WorkRows(Fabric("named", "i-cord", span=c.span(start)), extent, count, span=c.span(start))


def _named(c: Cursor, start: int) -> WorkRows | BindOff | CastOn | Finish | OnTrust | None:
    """What is worked, made or bound off under a name of its own."""
    if not c.take("work in", "cont in", "work", "k", "make", "cont", "add", "bind off in", "bo in"):
        return c.back(start)
    c.take("a", "an")
    wide = c.at
    count = c.count()
    if count is not None and not (c.take("- st") or c.take("st")):
        return c.back(start)
    applied = c.take("applied", "attached", "knitted-on", "knit-on")
    name_start = c.at
    if not c.take("i-cord", "icord"):
        c.back(name_start)
        return _bound_off(c, start, wide) if not applied else c.back(start)
    if applied or c.take("edging", "border", "trim"):
        return _along(c, start, wide)
    if c.take("bind-off", "bind off", "cast-off", "bo"):
        manner = _words(c, wide, c.at)
        return _all_stitches(c, start, manner)
    if c.take("cast-on", "cast on", "co"):
        method = _words(c, wide, c.at)
        stitches = c.count() if c.take("over", "for", "of") else None
        if stitches is None or not c.take("st"):
            return c.back(start)
        return CastOn(stitches, method, span=c.span(start))
    extent = _long(c) or read_extent(c)
    return c.back(start) if extent is None else _cord(c, start, extent, count)


def _long(c: Cursor) -> Extent | None:
    """ "70 cm long" behind "knit an i-cord"."""
    start = c.at
    c.take(",")
    c.take("meas", "about", "approx", "of")
    length = c.length()
    if length is None:
        return c.back(start)
    c.take("long", "in length")
    return Extent(ForLength(length, span=c.span(start)), span=c.span(start))


def _words(c: Cursor, first: int, last: int) -> str:
    return c.raw(first, last)


def _bound_off(c: Cursor, start: int, wide: int) -> BindOff | OnTrust | None:
    """ "Work a tubular bind-off", "work three-needle bind-off"; "work a crochet edging" is taken on trust."""
    c.at = wide
    words = c.words_until(frozenset({"bind-off", "cast-off", "crochet"}), 4)
    if c.here.key in ("bind-off", "cast-off") and words:
        c.step()
        return _all_stitches(c, start, _words(c, wide, c.at))
    if c.here.key == "crochet" or (c.here.kind == "word" and words == "" and c.here.key == "crochet"):
        while c.here.kind in ("word", "ordinal"):
            c.skip()
        c.settle()
        return OnTrust(c.raw(start, c.at), span=c.span(start))
    return c.back(start)


def _all_stitches(c: Cursor, start: int, manner: str) -> BindOff | None:
    """How many stitches a named bind-off is worked over; all of them when nothing is said."""
    count: Count | None = None
    before = c.at
    if c.take("over", "across", "on", "along"):
        c.take("all", "the", "rem", "all rem", "the rem", "these", "all the")
        count = c.count()
        if not c.take("st"):
            count = c.back(before)
    if c.here.kind in ("word", "number") and c.here.key not in ("and", "then"):
        return c.back(start)
    return BindOff(count, (manner,), span=c.span(start))


def _along(c: Cursor, start: int, wide: int) -> BindOff | Finish | None:
    """An applied i-cord along live stitches binds them off; along an edge it touches none."""
    manner = _words(c, wide, c.at)
    c.take("edging", "border", "trim")
    manner = _words(c, wide, c.at)
    if not c.take("along", "over", "across", "around", "rnd", "on", "all rnd", "all around", "to"):
        return c.back(start)
    before = c.at
    c.take("all", "the", "rem", "all rem", "the rem", "these", "live", "all the")
    count = c.count()
    c.take("live", "rem")
    if c.take("st") and not c.looking("of"):
        return BindOff(count, (manner,), span=c.span(start))
    c.back(before)
    last = ""
    while c.here.kind == "word" and (c.here.numbers is None or c.here.key in _SIDES_TOLD):
        last = c.here.key
        c.skip()
    if last not in _EDGES:
        return c.back(start)
    c.settle()
    return Finish("work", c.raw(start, c.at), span=c.span(start))


_UNDO = ("undo", "unzip", "remove", "unravel", "release", "unpick", "take out", "undoing", "unzipping", "removing")
_CAST_ON_ITSELF = ("provisional cast-on edge", "provisional cast-on chain", "provisional cast-on", "provisional cast on",
                   "provisional co edge", "provisional co", "crochet chain of provisional cast-on")  # fmt: skip
_ASIDE = ("spare needle", "a spare needle", "a second needle", "second needle", "the second needle", "another needle",
          "the spare needle", "a holder", "holder", "spare dpn", "a spare dpn", "waste yarn")  # fmt: skip


def undo_words(c: Cursor) -> bool:
    """Reads "carefully remove waste yarn from the provisional cast-on"."""
    start = c.at
    c.take("carefully")
    if not c.take(*_UNDO):
        c.back(start)
        return False
    c.take("the")
    if c.take("waste yarn from", "scrap yarn from", "crochet chain from", "chain from", "waste yarn of"):
        c.take("the")
    if not c.take(*_CAST_ON_ITSELF):
        c.back(start)
        return False
    return True


def waste_words(c: Cursor) -> bool:
    """Reads "remove waste yarn": of what, the stitches behind it tell."""
    start = c.at
    c.take("carefully")
    if c.take(*_UNDO):
        c.take("the")
        if c.take("waste yarn", "scrap yarn", "crochet chain", "chain"):
            return True
    c.back(start)
    return False


def from_cast_on(c: Cursor) -> bool:
    """Reads "from provisional cast-on" behind the stitches that are taken."""
    start = c.at
    if c.take("from", "of"):
        c.take("the")
        if c.take(*_CAST_ON_ITSELF):
            return True
    c.back(start)
    return False


def aside_words(c: Cursor) -> bool:
    """Whether stitches go on a needle of their own."""
    return c.take(*_ASIDE)
