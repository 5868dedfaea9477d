"""Single stitches and how they are worked: `k5`, `sl 1 purlwise wyif`, `k2 tog`, `k to last 3 sts`, `sl1, k1, psso`.

In: a cursor at a stitch word. Out: `Stitch`, `StitchTo` or a `Repeat` of the one stitch; None when it is none.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.syntax import Cable, Count, Repeat, Stitch, StitchTo, ToEnd
from castoff.notation.targets import read_marked, read_target, read_with_loop

_WHOLE = ("all st", "all the st", "every st", "each st", "all", "back", "across all st", "across row", "plain")
_BACK_LOOPS = ("tbl", "through back loop", "through back loops", "through the back loop", "through the back loops",
               "through back of loop", "through back of loops", "tbls")  # fmt: skip
_OF_STOPS = frozenset({"st", "to", "and", "then", "from", "on", "in", "of", "turn"})


def read_stitch(c: Cursor) -> Stitch | StitchTo | Repeat | Cable | None:
    """Reads one stitch with its count, its target or its times."""
    start = c.at
    held = _yarn_held(c)
    if c.here.stitch is None:
        made = _made(c)
        return made if made is not None else c.back(start)
    cable = _cable(c)
    if cable is not None:
        return cable
    combined = _passed_over(c)
    if combined is not None:
        return combined
    lexeme = c.step()
    name = lexeme.stitch or ""
    if name in ("k", "p"):
        special = _knit_or_purl(c, start, name)
        if special is not None:
            return special
    if name not in ("k", "p") and c.take(*_BACK_LOOPS):
        name = c.stitch(f"{name} tbl") or f"{name} tbl"

    marked = _marked(c) if name in ("k", "p", "sl", "k tbl", "p tbl") else None
    if marked is not None:
        return Stitch(name, c.same(1, start), lexeme.text, of=marked, span=c.span(start))
    placed = ""
    if not c.take("next", "in next", "into next") and c.take(
        "in first", "in last", "into first", "into last", "in same"
    ):
        placed = c.lexemes[c.at - 1].key
    elif name in ("k", "p", "sl") and (_at_end(c, 1) or (c.looking("the") and _at_end(c, 2))):
        c.take("the")
        placed = f"the {c.step().key}"
    across = c.at
    if name in ("k", "p") and c.take("across the next", "across next", "across the", "across") and not c.count_at():
        c.back(across)  # "k across": as far as a place
    count = c.count() if c.count_at() and not _rows_follow(c) else None
    if name in ("k", "p") and count is not None and c.take(*_BACK_LOOPS):
        name += " tbl"
    one = c.at
    of = ""
    if count is None and c.lexemes[c.at - 1].key in _ONE_MORE and c.take("st"):
        count = c.same(1, one)
    else:
        of = (_of(c) or _called(c)) if count is not None and name in ("k", "p", "sl") else ""
        c.take("st")
    if count is not None and not of:
        of = _way(c)
    manner, held = _manner(c, held)
    held = held or _yarn_held(c)
    if c.here.key in _TARGET_FIRST and count is None:
        target = read_target(c)
        if target is not None:
            held = held or _yarn_held(c)
            return StitchTo(name, target, held, span=c.span(start))
    stitch = Stitch(name, count, lexeme.text, held, manner, span=c.span(start))
    of = of or placed or _explained(c, count)
    if of:
        stitch = replace(stitch, of=of)
    return _times(c, start, stitch)


def _at_end(c: Cursor, ahead: int) -> bool:
    """Whether "last 5" or "rem 5" stands here: stitches counted out to the end of the row."""
    word = c.peek(ahead - 1)
    return word.key in ("last", "rem") and c.peek(ahead).kind == "number"


_ONE_MORE = frozenset({"next", "first", "last", "same"})
_TARGET_FIRST = frozenset({"to", "across", "around", "until"})


def _times(c: Cursor, start: int, stitch: Stitch) -> Stitch | Repeat:
    before = c.at
    times = read_times(c, "all")
    if times is None or times.kind != "all" or times.count is None:
        c.back(before)
        return stitch
    if stitch.count is None:
        return replace(stitch, count=times.count, span=c.span(start))
    return Repeat((stitch,), times, "(", span=c.span(start))


def _marked(c: Cursor) -> str | None:
    """ "k marked st", "p1 marked st", "k the centre st": that stitch alone."""
    start = c.at
    if c.count_at() and c.step().text != "1":
        return c.back(start)
    found = read_marked(c)
    return found if found is not None else c.back(start)


def _explained(c: Cursor, count: Count | None) -> str:
    """ "k1 (centre st)", "p1 (marked st)": which stitch the one before the bracket is."""
    start = c.at
    comma = c.take(",")
    if not comma and not c.take("("):
        return ""
    if count is not None and read_with_loop(c) and (comma or c.take(")")):
        return "with the loop"
    c.back(start)
    if count is None or any(value not in (1, None) for value in count.values) or not c.take("("):
        c.back(start)
        return ""
    c.take("this is", "=")
    marked = read_marked(c)
    if marked is None or not c.take(")"):
        c.back(start)
        return ""
    return marked


def _rows_follow(c: Cursor) -> bool:
    """ "knit 5 rows" is no row; "k2tog 3 times" counts times."""
    after = c.peek().key
    return after in ("row", "rnd", "times") or (after == "more" and c.peek(2).key in ("row", "rnd", "times"))


def _of(c: Cursor) -> str:
    """Whose stitches: "knit the 13 thumb sts" is "thumb"."""
    start = c.at
    if c.here.kind != "word" or c.here.key in _OF_STOPS or c.here.stitch is not None:
        return ""
    words = c.words_until(_OF_STOPS, 3)
    if c.here.key == "st" and words:
        return words
    c.back(start)
    return ""


def _called(c: Cursor) -> str:
    """The same behind them in brackets: "k28 (instep)", "k28 (instep sts)"."""
    start = c.at
    if not c.take("("):
        return ""
    if c.here.kind == "word" and c.here.key not in _OF_STOPS and c.here.stitch is None:
        words = c.words_until(_OF_STOPS, 2)
        c.take("st")
        if words and c.take(")"):
            c.settle()
            return words
    c.back(start)
    return ""


def _way(c: Cursor) -> str:
    """Where so many stitches lead: "k3 to side of foot" is "to side of foot"."""
    start = c.at
    if c.take("to side of", "to the side of", "to centre of", "to the centre of", "to beg of", "to the beg of"):
        c.words_until(frozenset({"and", "then"}), 4)
        return c.raw(start, c.at)
    return ""


def _knit_or_purl(c: Cursor, start: int, name: str) -> Stitch | StitchTo | None:
    """Forms of plain knitting and purling that are more than a count."""
    into = _front_and_back(c, start, name)
    if into is not None:
        return into
    after = c.at
    number = None
    c.take("next", "the next")
    if c.count_at():
        number = c.count()
        c.take("st")
        if number is not None and c.take("tog"):
            first = number.values[0]
            if first is None or any(value != first for value in number.values):
                return None
            word = f"{name}{first}tog"
            if c.take(*_BACK_LOOPS):
                word += " tbl"
            found = c.stitch(word)
            if found is not None:
                manner: Literal["knitwise", "purlwise"] | None = None
                stitch = Stitch(found, None, c.raw(start, c.at), None, manner, span=c.span(start))
                return _only_stitch(_times(c, start, stitch))
    c.back(after)
    if c.take("tbl"):
        found = c.stitch(f"{name} tbl")
        if found is not None:
            target = read_target(c)
            if target is not None:
                return StitchTo(found, target, span=c.span(start))
            return Stitch(found, c.count() if c.count_at() else None, c.raw(start, c.at), span=c.span(start))
    c.back(after)
    which = "the first" if c.take("the first", "first") else ""
    if (which or c.take("the")) and c.count_at():
        number = c.count()
        of = f"{which} {_of(c)}".strip()
        if number is not None and c.take("st"):
            return Stitch(name, number, c.lexemes[start].text, of=of, span=c.span(start))
    c.back(after)
    if c.take("rem st", "the rem st", "rem"):
        return StitchTo(name, ToEnd(span=c.span(after)), span=c.span(start))
    if c.take(*_WHOLE):
        c.take("around", "across", "to end")
        return StitchTo(name, ToEnd(span=c.span(after)), span=c.span(start))
    if c.take("every row", "every rnd", "each rnd", "each row"):
        c.back(after)
    return None


def _only_stitch(found: Stitch | Repeat) -> Stitch | None:
    return found if isinstance(found, Stitch) else None


def _front_and_back(c: Cursor, start: int, name: str) -> Stitch | None:
    """ "knit into front and back of next st" is kfb."""
    before = c.at
    c.take("1", "one")
    c.take("into", "in")
    c.take("the")
    if c.take("front and back of", "front & back of", "f&b of", "front and back") or c.take(
        "front , back and front of"
    ):
        three = c.lexemes[c.at - 2].key == "front" and c.lexemes[c.at - 4].key == "back"
        c.take("the")
        c.take("next", "same", "each", "first", "last")
        c.take("st")
        word = f"{name}fbf" if three else f"{name}fb"
        found = c.stitch(word)
        if found is not None:
            return Stitch(found, None, c.raw(start, c.at), span=c.span(start))
    return c.back(before)


def _made(c: Cursor) -> Stitch | None:
    """ "make 1", "make one left", "yarn over"."""
    start = c.at
    word = ""
    if c.take("make"):
        if not c.take("one", "a st") and not (c.count_at() and c.step().text == "1"):
            return c.back(start)
        word = "m1"
        if c.take("left", "l"):
            word = "m1l"
        elif c.take("right", "r"):
            word = "m1r"
        if c.take("purlwise"):
            word += "p"
        c.take("st")
    elif c.take("yarn over", "yarn-over", "yarn forward", "yarn rnd needle", "yarn over needle"):
        word = "yo"
    found = c.stitch(word) if word else None
    if found is None:
        return c.back(start)
    stitch = Stitch(found, None, c.raw(start, c.at), span=c.span(start))
    return _only_stitch(_times(c, start, stitch)) or stitch


def _manner(
    c: Cursor, held: Literal["front", "back"] | None
) -> tuple[Literal["knitwise", "purlwise"] | None, Literal["front", "back"] | None]:
    manner: Literal["knitwise", "purlwise"] | None = None
    while True:
        if c.take("knitwise", "as if to k", "as to k"):
            manner = "knitwise"
        elif c.take("purlwise", "as if to p", "as to p"):
            manner = "purlwise"
        else:
            found = _yarn_held(c)
            if found is None:
                return manner, held
            held = found


def _yarn_held(c: Cursor) -> Literal["front", "back"] | None:
    start = c.at
    if c.take("wyif", "with yarn in front", "with yarn at front", "with yarn hold in front", "with yarn to front"):
        c.take(",") if c.lexemes[c.at].key == "," and c.peek().stitch == "sl" and start == 0 else None
        return "front"
    if c.take("wyib", "with yarn in back", "with yarn at back", "with yarn hold in back", "with yarn to back"):
        return "back"
    return c.back(start)


def _passed_over(c: Cursor) -> Stitch | None:
    """ "sl1, k1, psso", "sl 1, k2tog, psso", "sl 2 knitwise, k1, p2sso" are one stitch each."""
    start = c.at
    if c.here.stitch != "sl":
        return None
    c.step()
    count = c.count()
    c.take("st")
    c.take("tog")
    manner = _manner(c, None)[0]
    c.take(",", "-")
    slipped = None if count is None else count.values[0]
    together = _two_together(c)
    if together is not None:
        word = {"k": "sk2p", "p": "sp2p"}[together]
    elif c.here.stitch == "k":
        c.step()
        c.take("1", "next")
        if c.count_at() and (c.step().text != "1"):
            return c.back(start)
        c.take("st")
        word = "s2kp" if slipped == 2 else "skp"
    else:
        return c.back(start)
    c.take(",", "-")
    c.take("and")
    two = slipped == 2
    passed = ("pass 2 sl st over", "p2sso") if two else ("psso", "pass sl st over", "pass the sl st over")
    if not (c.take(*passed) or _pass(c, two)):
        return c.back(start)
    found = c.stitch(word)
    if found is None or slipped not in (1, 2) or (two and word != "s2kp"):
        return c.back(start)
    stitch = Stitch(found, None, c.raw(start, c.at), None, manner, span=c.span(start))
    return _only_stitch(_times(c, start, stitch))


def _two_together(c: Cursor) -> Literal["k", "p"] | None:
    """ "k2tog", "knit two together", "p2tog" inside a longer decrease: which of the two."""
    start = c.at
    name: Literal["k", "p"] = "k" if c.here.stitch in ("k", "k2tog") else "p"
    if c.here.stitch in ("k2tog", "p2tog"):
        c.step()
        return name
    if c.here.stitch in ("k", "p"):
        c.step()
        c.take("next", "the next")
        count = c.count() if c.count_at() else None
        c.take("st")
        if count is not None and count.values[0] == 2 and c.take("tog"):
            return name
    return c.back(start)


def _pass(c: Cursor, two: bool) -> bool:
    """ "pass slipped stitch over", "pass both slipped sts over"."""
    start = c.at
    if c.take("pass"):
        c.take("the")
        if two and not (c.take("both", "two") or (c.count_at() and c.step().text == "2")):
            c.back(start)
            return False
        if c.take("slipped st over", "sl st over"):
            c.take("k st", "it", "the k st")
            return True
    c.back(start)
    return False


def _cable(c: Cursor) -> Cable | None:
    """ "sl 3 to cn and hold at back, k3, k3 from cn"."""
    start = c.at
    if c.here.stitch != "sl" and c.here.key != "place":
        return None
    c.step()
    c.take("the", "next", "the next")
    count: Count | None = c.count()
    c.take("st")
    if count is None or not c.take("to cn", "onto cn", "on cn", "to cable needle", "onto cable needle", "on cable needle",
                                   "onto a cable needle", "to a cable needle"):  # fmt: skip
        return c.back(start)
    c.take(",")
    c.take("and")
    c.take("hold", "leave", "hold it", "leave it")
    c.take("in", "at", "to")
    c.take("the")
    where = c.take_key(frozenset({"front", "back"}))
    if where is None:
        return c.back(start)
    c.take("of work", "of the work")
    over: list[Stitch] = []
    while True:
        c.take(",", ";", "and", "then")
        c.take("then")
        if c.here.stitch is None or len(over) > 12:
            return c.back(start)
        piece_start = c.at
        lexeme = c.step()
        number = c.count()
        name = lexeme.stitch or ""
        if number is not None and c.take("tbl"):
            name += " tbl"
        c.take("st")
        stitch = Stitch(name, number, lexeme.text, span=c.span(piece_start))
        over.append(stitch)
        if c.take("from cn", "from cable needle", "from the cable needle", "off cn"):
            split = _held_part(over, count)
            if not 0 < split < len(over):
                return c.back(start)
            hold: Literal["front", "back"] = "front" if where == "front" else "back"
            return Cable(count, hold, tuple(over[:split]), tuple(over[split:]), span=c.span(start))


def _held_part(pieces: list[Stitch], held: Count) -> int:
    """Where the stitches from the cable needle begin: as many at the end as were put on it; at least the last."""
    at, left = len(pieces) - 1, held.values[0] or 0
    left -= 1 if pieces[at].count is None else pieces[at].count.values[0] or 0  # type: ignore[union-attr]
    while left > 0 and at > 0:
        at -= 1
        count = pieces[at].count
        left -= 1 if count is None else count.values[0] or 0
    return at
