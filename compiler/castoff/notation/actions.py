"""What is done within a row: stitches, repeats, fabrics over some stitches, and the acts of acts.py, in order.

In: a cursor. Out: tuples of `Action`. A list of actions ends where no further action can be read; what stands behind
it (a total, a full stop, "rep from *") is the caller's.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation import repeats
from castoff.notation.acts import (
    read_bind_off,
    read_cast_on,
    read_hold,
    read_marker,
)
from castoff.notation.asides import read_aside, read_for_part
from castoff.notation.counting import read_times
from castoff.notation.cursor import DEEPEST, Cursor
from castoff.notation.fabrics import read_chart, read_chart_row, read_fabric
from castoff.notation.held import read_held, read_slip_held
from castoff.notation.marking import read_mark
from castoff.notation.onto_needles import read_from_needle, read_on_needle
from castoff.notation.phrases import BY_FIRST, read_phrase
from castoff.notation.picking_up import read_more_picked_up, read_pick_up
from castoff.notation.shaping import read_end_shaping, read_evenly
from castoff.notation.stitches import read_stitch
from castoff.notation.syntax import (
    Action,
    Count,
    EndShaping,
    Evenly,
    Fabric,
    MarkerAct,
    MarkStitch,
    PickUp,
    Remark,
    Stitch,
    StitchTo,
    Target,
    ToEnd,
    ToMarker,
    UseYarn,
    WorkFabric,
)
from castoff.notation.targets import read_target
from castoff.notation.turns import read_turn
from castoff.notation.waste_yarn import read_opening_act
from castoff.notation.yarns import read_yarns

_SEPARATORS = frozenset({",", ";", "and", "then", "&", "+"})
_FABRIC_FIRST = frozenset(
    [
        "st",
        "st-st",
        "stockinette",
        "garter",
        "gst",
        "reverse",
        "rev",
        "seed",
        "moss",
        "double",
        "rib",
        "patt",
        "twisted",
        "est",
        "as",
        "row",
        "rnd",
        "the",
        "lace",
        "this",
        "chart",
    ]
)
_WORK_FIRST = frozenset({"work", "working", "cont", "keeping", "keep"})


def read_actions(c: Cursor) -> tuple[Action, ...]:
    """Reads as many actions as stand here; empty when there is none."""
    actions: list[Action] = []
    while True:
        before = c.at
        if actions:
            _separator(c)
            part = read_for_part(c) if isinstance(actions[-1], Stitch | StitchTo | WorkFabric) else None
            if part is not None:
                actions.append(part)
                continue
            if c.at == before and not _may_follow_directly(c):
                break
        found = read_action(c)
        if not found and actions:
            found = _one(_more_picked_up(c, actions))
        if not found:
            c.back(before)
            break
        _append(actions, found)
        c.settle()
    return tuple(actions)


def _more_picked_up(c: Cursor, actions: list[Action]) -> PickUp | None:
    """ "…, pm, 30 sts along back neck": goes on with the picking up, markers set in between or not."""
    last = next((each for each in reversed(actions) if not isinstance(each, MarkerAct | MarkStitch | Remark)), None)
    return read_more_picked_up(c, last) if isinstance(last, PickUp) else None


def _separator(c: Cursor) -> None:
    while c.here.key in _SEPARATORS:
        c.at += 1
    c.reach()


def _may_follow_directly(c: Cursor) -> bool:
    here = c.here
    if here.kind == "mark":
        return here.text in ("[", "(") or here.text[0] in "*†‡"
    return here.stitch is not None or here.key in BY_FIRST or here.key in (
        "pm", "sm", "rm", "turn", "removing", "slipping", "inc", "dec", "increasing", "decreasing", "w&t",
        "dropping", "in", "while", "with", "picking", "to", "place", "work", "placing", "marking",
        "working", "closing", "resolving", "mds", "wrap",
    )  # fmt: skip


def _append(actions: list[Action], found: tuple[Action, ...]) -> None:
    """Adds actions; "knit, increasing 8 sts evenly" is one thing to do."""
    for action in found:
        last = actions[-1] if actions else None
        if isinstance(action, Evenly | EndShaping) and action.fabric is None and last is not None:
            fabric = _fabric_of(last)
            if fabric is not None:
                actions[-1] = replace(action, fabric=fabric, span=last.span.to(action.span))
                continue
        actions.append(action)


def _fabric_of(action: Action) -> Fabric | None:
    """The fabric of an action that goes to the end of the row."""
    if isinstance(action, Stitch) and action.count is None and action.name in ("k", "p"):
        return Fabric("knit" if action.name == "k" else "purl", span=action.span)
    if isinstance(action, StitchTo) and isinstance(action.target, ToEnd) and action.name in ("k", "p"):
        return Fabric("knit" if action.name == "k" else "purl", span=action.span)
    if isinstance(action, WorkFabric) and isinstance(action.over, ToEnd):
        return action.fabric
    return None


def read_action(c: Cursor) -> tuple[Action, ...]:
    """Reads one action (a remark behind a stitch comes along); empty when none stands here."""
    here = c.here
    if here.kind == "mark":
        if here.text[0] in "*†‡" and here.text not in c.open_marks:
            if len(c.open_marks) >= DEEPEST:
                return ()
            # "rep from * on N2" says where it is worked again, not how often
            by_needles = any(lexeme.key in ("n", "needle") for lexeme in c.lexemes[c.at :])
            twice = repeats.read_on_needles(c, read_actions) if by_needles else ()
            return twice or _one(repeats.read_starred(c, read_actions))
        spacing = _spacing(c) if c.peek().key in _ABOUT else _over_gap(c) or read_aside(c)
        if spacing is not None:
            return (spacing,)
        bracketed = (read_mark(c) or read_marker(c)) if here.text in ("[", "(") else None
        bracketed = bracketed or _act_in_brackets(c)
        if bracketed is not None:
            return (bracketed,)
        if here.text in ("[", "("):
            return _one(repeats.read_bracket(c, read_actions)) if len(c.open_marks) < DEEPEST else ()
        return ()
    if here.kind != "word" and here.kind != "number":
        return ()
    for reader in (
        read_on_needle,
        read_from_needle,
        _remark,
        read_opening_act,
        _yarn,
        read_turn,
        read_mark,
        read_marker,
        read_bind_off,
        read_cast_on,
        read_pick_up,
        read_slip_held,
        read_hold,
    ):
        found = reader(c)
        if found is not None:
            return (found,)
    if here.key in ("inc", "dec", "increasing", "decreasing", "shape"):
        shaping = read_evenly(c) or read_end_shaping(c)
        if shaping is not None:
            return (shaping,)
        if c.peek().key == "evenly":
            return ()  # how many, it does not say: no stitch by itself
    into = repeats.read_into(c)
    if into is not None:
        return (into,)
    held = read_held(c)
    if held is not None:
        return (held,)
    worked = _work(c) or _fabric_first(c) or _colour_run(c)
    if worked is not None:
        return (worked,)
    if here.stitch is not None or here.key in ("make", "with", "yarn"):
        stitch = read_stitch(c)
        if stitch is not None:
            return _one(_in_yarn(c, stitch))
    return ()


def _colour_run(c: Cursor) -> UseYarn | None:
    """ "*2A, 2B" of stranded knitting: so many stitches in a yarn, as stockinette."""
    start = c.at
    count = c.count() if c.here.kind == "number" else None
    yarn = None if count is None else c.yarn()
    if count is None or yarn is None or c.here.key == ":":
        return c.back(start)
    span = c.span(start)
    plain = WorkFabric(Fabric("named", "stockinette", span=span), count, span=span)
    return UseYarn((yarn,), (plain,), span=span)


def _act_in_brackets(c: Cursor) -> MarkerAct | None:
    """ "(removing marker)": what is done to a marker on the way."""
    start = c.at
    if start not in c.closers or c.peek().key not in ("removing", "slipping", "dropping"):
        return None
    c.step()
    act = read_marker(c)
    if act is None or not c.take(")", "]") or read_times(c, "all") is not None:
        return c.back(start)
    return act


_ABOUT = frozenset({"about", "approx", "that's", "that", "this"})


def _over_gap(c: Cursor) -> Remark | None:
    """ "ssk (1 st from each side of gap)": which stitches are those that close it."""
    start = c.at
    if not c.take("(", "["):
        return None
    one = c.count()
    if one is None or set(one.values) != {1}:
        return c.back(start)
    if c.take("st before and"):
        two = c.count()
        if two is None or set(two.values) != {1} or not c.take("st after", "st after the"):
            return c.back(start)
    elif not c.take("st from each side of", "st each side of", "st on each side of", "st from either side of"):
        return c.back(start)
    c.take("the")
    if not c.take("gap") or not c.take(")", "]"):
        return c.back(start)
    return Remark(c.raw(start, c.at), span=c.span(start))


def _spacing(c: Cursor) -> Remark | None:
    """ "(about 3 sts for every 4 rows)": how picked-up stitches are spread; their number is told before it."""
    start = c.at
    if not c.take("(", "["):
        return None
    c.take("that's", "that is", "this is")
    if not c.take("about", "approx") or c.count() is None:
        return c.back(start)
    if not c.take("st for every", "st in every", "st for each", "st per") or c.count() is None:
        return c.back(start)
    if not c.take("row", "rnd", "st") or not c.take(")", "]"):
        return c.back(start)
    return Remark(c.raw(start, c.at), span=c.span(start))


def _one(action: Action | None) -> tuple[Action, ...]:
    return () if action is None else (action,)


def _remark(c: Cursor) -> Remark | None:
    """A listed set phrase."""
    start = c.at
    return Remark(c.raw(start, c.at), span=c.span(start)) if read_phrase(c) else None


def read_remark(c: Cursor) -> Remark | None:
    """A listed set phrase, or a bracket that names a place; None when neither stands here."""
    return _remark(c) or (read_aside(c) if c.here.kind == "mark" else None)


def _yarn(c: Cursor) -> UseYarn | None:
    """ "with A", "in MC", "using both yarns"."""
    start = c.at
    if c.take("join in", "join", "rejoin"):
        yarns = read_yarns(c)
        if not yarns and not c.take("yarn", "new yarn", "second ball of yarn", "a second ball of yarn"):
            return c.back(start)
        return UseYarn(yarns, joins=True, span=c.span(start))
    if not c.take("with", "using", "in", "change to", "changing to"):
        return None
    yarns = read_yarns(c)
    if not yarns:
        return c.back(start)
    c.take("only", "hold double", "alone")
    return UseYarn(yarns, span=c.span(start))


def _in_yarn(c: Cursor, action: Action) -> Action:
    """ "k3 in B", "k3 B"."""
    start = c.at
    with_word = c.take("in", "with", "using")
    yarn = c.yarn()
    if yarn is None or (not with_word and c.here.key == ":"):
        c.back(start)
        return action
    return UseYarn((yarn,), (action,), span=action.span.to(c.span(start)))


def _work(c: Cursor) -> Action | None:
    """ "work in patt to last 3 sts", "work 12 sts in seed st", "work to m", "cont in rib to end"."""
    start = c.at
    if c.take_key(_WORK_FIRST) is None:
        return None
    c.take("even", "straight")
    before = c.at
    c.take("in", "from", "foll")
    chart = read_chart(c)
    if chart is not None:
        return _over_chart(c, chart, start)
    c.back(before)
    c.take("next", "first", "last", "rem", "the next", "across next", "across the next", "over next")
    if c.count_at():
        count = c.count()
        if count is not None and c.take("st"):
            after_count = c.at
            of = c.take("of", "from")
            if not of:
                c.take("in")
            over_count = read_chart(c) if of else read_fabric(c)
            if over_count is not None:
                over_count = read_chart_row(c, over_count)
            if over_count is None:
                c.back(after_count)
                over_count = Fabric("set", span=c.span(before))
            return WorkFabric(over_count, count, _way(c), span=c.span(start))
        c.back(before)
        if count is None or c.here.stitch is None:
            return c.back(start)
    c.back(before)
    in_word = c.take("in", "across in", "all st in", "across all st in", "across")
    fabric_start = c.at
    fabric = read_fabric(c)
    if fabric is None and in_word and c.lexemes[c.at - 1].key == "across":
        c.back(before)
    over = _over(c)
    if fabric is None:
        if over is None:
            return c.back(start)
        after = c.at
        c.take("in")
        fabric = read_fabric(c)
        if fabric is None:
            c.back(after)
            fabric = Fabric("set", span=c.span(start))
        return WorkFabric(fabric, over, span=c.span(start))
    if over is None:
        if c.here.key in ("until", "for", "row", "rnd"):
            return c.back(start)
        over = ToEnd(span=c.span(fabric_start))
    return WorkFabric(fabric, over, span=c.span(start))


def _over_chart(c: Cursor, chart: Fabric, start: int) -> WorkFabric | None:
    """How far a chart is worked, and its row when that is told behind: "over next 17 sts, row 1"; up to the marker that is
    slipped behind it when nothing is said."""
    over: Count | Target | None = _repeats_over(c, chart) or _over(c)
    if over is None:
        if c.here.key in ("until", "for", "row", "rnd", "through"):
            return c.back(start)
        after = c.at
        c.take(",")
        marker = c.looking("sm", "sl m", "sl the m", "rm", "remove m", "slipping m")
        c.back(after)
        over = ToMarker(span=c.span(start)) if marker else ToEnd(span=c.span(start))
    else:
        chart = read_chart_row(c, chart)
    return WorkFabric(chart, over, span=c.span(start))


def _repeats_over(c: Cursor, chart: Fabric) -> Count | None:
    """ "8-st rep of chart 6 times [around]": so many stitches."""
    start = c.at
    times = None if chart.repeat is None else read_times(c, "all")
    if chart.repeat is None or times is None or times.kind != "all" or times.count is None:
        return c.back(start)
    c.take("around", "across", "to end")
    pairs = zip(chart.repeat.values, times.count.values, strict=True)
    values = tuple(None if one is None or many is None else one * many for one, many in pairs)
    return Count(values, span=c.span(start))


def _over(c: Cursor) -> Count | Target | None:
    """Over how much of the row: a target, or "over next 7 sts"."""
    start = c.at
    if c.take("over", "across", "for"):
        c.take("the")
        c.take("next", "first", "centre", "last", "rem", "foll")
        count = c.count()
        if count is not None and c.take("st"):
            return count
        if c.lexemes[start].key == "over" and c.take("all st", "rem st", "st"):
            return ToEnd(span=c.span(start))
        c.back(start)
    return read_target(c)


def _fabric_first(c: Cursor) -> Action | None:
    """ "rib to end", "patt 12 sts", "patt to last 3 sts", "seed st over next 5 sts", "moss st 5", "as set to end"."""
    start = c.at
    c.take("in")
    next_row = c.here.key == "next" and c.peek().key in ("row", "rnd") and c.peek(2).key == "of"
    named = (
        c.at > start or next_row or c.here.key in _FABRIC_FIRST or c.name_of(c.vocabulary.stitch_patterns) is not None
    )
    if not named and not _rib_ahead(c):
        return _faces(c)
    c.back(start)
    c.take("in")
    chart = read_chart(c)
    if chart is not None and (c.here.key in ("over", "across", "around", "to") or not c.count_at()):
        return _over_chart(c, chart, start)
    c.back(start)
    c.take("in")
    fabric = read_fabric(c)
    if fabric is None:
        return c.back(start)
    over = _over(c)
    way = ""
    if over is None and c.count_at():
        c.take("next", "first")
        before = c.at
        count = c.count()
        if count is not None and not c.looking("row", "rnd", "more"):
            c.take("st")
            over = count
            way = _way(c)
        else:
            c.back(before)
    if over is None:
        if c.here.kind not in ("mark", "end") and c.here.key not in (
            "and",
            "then",
            "removing",
            "slipping",
            "inc",
            "dec",
        ):
            return c.back(start)
        over = ToEnd(span=c.span(start))
    return WorkFabric(fabric, over, way, span=c.span(start))


_PLACES = frozenset(
    {
        "opening",
        "gap",
        "edge",
        "neck",
        "thumb",
        "heel",
        "instep",
        "centre",
        "shoulder",
        "armhole",
        "underarm",
        "side",
        "front",
    }
)


def _way(c: Cursor) -> str:
    """Where so many stitches lead, told beside their number: "rib 18 sts to face opening"."""
    start = c.at
    if not c.take("to"):
        return ""
    c.take("the")
    place = ""
    while c.here.kind == "word" and c.here.stitch is None and c.at - start < 5:
        place = c.here.key
        c.skip()
        if place in _PLACES:
            break
    if place not in _PLACES:
        c.back(start)
        return ""
    c.settle()
    return c.raw(start, c.at)


def _rib_ahead(c: Cursor) -> bool:
    """Whether "k2, p2 rib" begins here: knit and purl counts up to the word "rib"."""
    ahead = 0
    while ahead < 12:
        lexeme = c.peek(ahead)
        if lexeme.key == "rib":
            return ahead > 0
        if not (
            lexeme.stitch in ("k", "p") or lexeme.kind == "number" or lexeme.key in (",", "/", "times", "tbl", "by")
        ):
            return False
        ahead += 1
    return False


def _faces(c: Cursor) -> WorkFabric | None:
    """ "k the knits and p the purls", "knit the k sts and purl the p sts as they face you"."""
    start = c.at
    told = c.at
    c.take("work", "k and p")
    c.take("the", "all the", "all", "each", "every")
    lie = ("as they appear", "as they face", "as they face you", "as they present themselves", "as they lie",
           "as it appears", "as it faces", "as it faces you", "as it presents itself")  # fmt: skip
    if c.take("st") and c.take(*lie):
        told = c.at
        if not (c.take("(") and _faces(c) is not None and c.take(")")):  # the same in other words
            c.back(told)
        return WorkFabric(Fabric("faces", span=c.span(start)), ToEnd(span=c.span(start)), span=c.span(start))
    c.back(told)
    if not (c.take("k the k st", "k the k", "k all k st", "k all the k st", "k k st", "k the k-st", "k all k")
            and (c.take("and") or c.take(","))
            and c.take("p the p st", "p the p", "p all p st", "p all the p st", "p p st", "p the p-st",
                "p all p")):  # fmt: skip
        return c.back(start)
    c.take("as they appear", "as they face you", "as they present themselves", "as they come", "as they show")
    over = read_target(c) or ToEnd(span=c.span(start))
    return WorkFabric(Fabric("faces", span=c.span(start)), over, span=c.span(start))
