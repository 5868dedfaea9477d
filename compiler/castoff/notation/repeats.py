"""Repeats: `*…; rep from * to end`, `*…* 4 times`, `[…] x 3`, `(…) twice`, `(…) in next st`, and what ends them.

In: a cursor at a star or an opening bracket, and the reader of actions (repeats nest). Out: `Repeat` or `IntoOne`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.needle_names import read_needle_name
from castoff.notation.syntax import (
    Action,
    Count,
    IntoOne,
    Repeat,
    Stitch,
    StitchTo,
    Target,
    Times,
    ToDivision,
    ToEnd,
    ToLast,
    WorkFabric,
)
from castoff.notation.targets import read_target

ReadActions = Callable[[Cursor], tuple[Action, ...]]


def read_starred(c: Cursor, read_actions: ReadActions) -> Repeat | None:
    """Reads from the opening star to the words that say how often."""
    start = c.at
    mark = c.step().text
    c.open_marks.append(mark)
    body = read_actions(c)
    c.open_marks.pop()
    if not body:
        return c.back(start)
    if c.here.text == mark:  # *k2, p2* …
        c.step()
        before = c.at
        if c.take(";", ",", "."):
            pass
        times = _again(c, mark) or _plain_times(c)
        if times is None:
            c.back(before)
            times = _plain_times(c)
        if times is None:
            c.want("how often the part between the stars is worked")
            return c.back(start)
        return Repeat(body, times, mark, span=c.span(start))
    while c.here.key in (";", ",", ".", "-", "and"):
        c.step()
    times = _again(c, mark)
    if times is None:
        c.want(f"`rep from {mark}` for the star that opens the repeat")
        return c.back(start)
    last = _last_repeat(c, times, read_actions)
    if last:
        return Repeat(body, times, mark, last, span=c.span(start))
    tail = _stitches_at_the_end(c, times, read_actions)
    if tail is not None:
        return Repeat(body, replace(times, target=ToLast(tail, span=tail.span)), mark, span=c.span(start))
    needle = c.at
    if times.kind == "to" and c.take("on each needle", "on every needle", "for each needle", "on each rem needle"):
        body = tuple(on_division(action, "each needle") for action in body)
        times = Times("to", target=ToEnd(span=c.span(needle)), span=times.span)
    return Repeat(body, times, mark, span=c.span(start))


def read_on_needles(c: Cursor, read_actions: ReadActions) -> tuple[Action, ...]:
    """ "*k1, m1r, k to last st on needle, m1l, k1; rep from * on N2": told for the one needle, worked on both."""
    start = c.at
    mark = c.step().text
    c.open_marks.append(mark)
    body = read_actions(c)
    c.open_marks.pop()
    if body and c.here.text == mark:
        c.step()
    while body and c.here.key in (";", ",", ".", "-", "and"):
        c.step()
    if not body or not c.take(f"rep from {mark}", f"rep between {mark}") or not c.take("on", "for", "across", "over"):
        c.back(start)
        return ()
    named = "needle 2" if c.take("other needle", "the other needle") else read_needle_name(c)
    if named not in ("needle 2", "2nd needle", "second needle"):
        c.back(start)
        return ()
    return tuple(on_division(act, name) for name in ("needle 1", "needle 2") for act in body)


def _last_repeat(c: Cursor, times: Times, read_actions: ReadActions) -> tuple[Action, ...]:
    """ "…, ending last rep k1": what stands there in place of the last act of the repeat."""
    start = c.at
    if times.kind != "to":
        return ()
    c.take(",", ";")
    if c.take(
        "ending last rep with", "ending last rep", "end last rep with", "end last rep", "ending the last rep with"
    ):
        last = read_actions(c)
        if last:
            return last
    c.back(start)
    return ()


def _stitches_at_the_end(c: Cursor, times: Times, read_actions: ReadActions) -> Count | None:
    """ "rep from * across, ending k3": how many stitches are kept for what the row ends with; that is read after this."""
    start = c.at
    if not isinstance(times.target, ToEnd):
        return None
    c.take(",", ";")
    if not c.take("ending with", "ending", "end with", "end"):
        return c.back(start)
    work = c.at
    kept = [0] * len(c.vocabulary.sizes)
    tail = read_actions(c)
    for action in tail:
        taken = _taken(c, action)
        if taken is None:
            return c.back(start)
        kept = [have + (more or 0) for have, more in zip(kept, taken.values, strict=True)]
    if not any(kept):
        return c.back(start)
    span = c.span(work)
    c.back(work)
    return Count(tuple(kept), span=span)


def _taken(c: Cursor, action: Action) -> Count | None:
    """How many stitches a plain action takes; None for one that goes to a place."""
    if not isinstance(action, Stitch):
        return None
    count = action.count or c.same(1, c.at)
    own = {name.lower(): takes for name, (takes, _) in c.vocabulary.own_stitches.items()}
    found = c.vocabulary.book.find(action.name)
    takes = own.get(action.name.lower(), None if found is None else found.takes)
    if takes is None:
        return None
    return replace(count, values=tuple(None if value is None else value * takes for value in count.values))


def read_into(c: Cursor) -> IntoOne | None:
    """ "k1 and p1 into double yo", "k1, p1 and k1 all into next st": several stitches into one place, without brackets.

    Stitches before a comma belong to it only where it says "all": "p5, k1 and p1 into yo" purls five before.
    """
    return _into_one(c, commas=True) or _into_one(c, commas=False)


def _into_one(c: Cursor, *, commas: bool) -> IntoOne | None:
    start = c.at
    body: list[Action] = []
    joined = False
    while len(body) < 8 and c.here.stitch in _INTO_STITCHES:
        at = c.at
        lexeme = c.step()
        count = c.count() if c.count_at() else None
        body.append(Stitch(lexeme.stitch or "", count, lexeme.text, span=c.span(at)))
        if commas and not joined and c.take(","):
            continue
        if not c.take("and", "&"):
            break
        joined = True
    if not joined or len(body) < 2 or (commas and not c.looking("all")):
        return c.back(start)
    into = _into(c)
    if into is None:
        return c.back(start)
    return IntoOne(tuple(body), into, span=c.span(start))


_INTO_STITCHES = frozenset({"k", "p", "yo", "k tbl", "p tbl"})


def on_division(action: Action, name: str) -> Action:
    """The action with "to end" and "to last N sts" meant for one needle."""
    if isinstance(action, StitchTo):
        return replace(action, target=_target_on(action.target, name))
    if isinstance(action, WorkFabric) and not isinstance(action.over, Count):
        return replace(action, over=_target_on(action.over, name))
    if isinstance(action, Repeat):
        times = action.times
        if times.target is not None:
            times = replace(times, target=_target_on(times.target, name))
        return replace(action, times=times)
    return action


def _target_on(target: Target, name: str) -> Target:
    if isinstance(target, ToEnd):
        return ToDivision(name, span=target.span)
    if isinstance(target, ToLast):
        return ToDivision(name, before=target.stitches, span=target.span)
    if isinstance(target, ToDivision) and target.name == "needle":
        return replace(target, name=name)
    return target


def _plain_times(c: Cursor) -> Times | None:
    start = c.at
    times = read_times(c, "all")
    if times is not None:
        return times
    c.take("rep")
    target = read_target(c)
    if target is not None:
        return Times("to", target=target, span=c.span(start))
    return c.back(start)


def _again(c: Cursor, mark: str) -> Times | None:
    """ "rep from * to end", "rep from * 5 more times", "rep between *s twice more", "rep to end"."""
    start = c.at
    if not c.take("rep"):
        return None
    c.take("instructions", "the instructions")
    named = False
    if c.take(f"from {mark}", "from first"):
        named = True
        c.take(f"to {mark}", f"- {mark}")
    elif c.take(
        f"between {mark} s",
        f"between {mark} and {mark}",
        f"{mark} to {mark}",
        f"{mark} - {mark}",
        f"between {mark}",
        mark,
    ):
        named = True
    if not named and not c.looking("to", "across", "around", "until"):
        return c.back(start)
    before = c.at
    times = read_times(c, "ambiguous")
    if times is not None:
        return times
    target: Target | None = read_target(c)
    if target is not None:
        return Times("to", target=target, span=c.span(start))
    c.back(before)
    if c.take("for", "over"):
        c.take("rem", "all rem", "the rem")
        if c.take("st"):
            return Times("to", target=ToEnd(span=c.span(before)), span=c.span(start))
        c.back(before)
    return Times("to", target=ToEnd(span=c.span(start)), span=c.span(start))


def read_bracket(c: Cursor, read_actions: ReadActions) -> Repeat | IntoOne | None:
    """Reads a bracket of actions with its count, its target, or the stitch it is worked into."""
    start = c.at
    closer = c.closers.get(start)
    if closer is None:
        c.want("the bracket that closes this one")
        return None
    mark = c.step().text
    c.open_marks.append(f"{mark}{start}")
    body = read_actions(c)
    c.open_marks.pop()
    while c.here.key in (",", ";", ".") and c.at < closer:
        c.step()
    if not body or c.at != closer:
        return c.back(start)
    c.step()
    into = _into(c)
    if into is not None:
        return IntoOne(body, into, span=c.span(start))
    needle = c.at
    if c.take("on each needle", "on every needle", "for each needle"):
        body = tuple(on_division(action, "each needle") for action in body)
        return Repeat(
            body, Times("to", target=ToEnd(span=c.span(needle)), span=c.span(needle)), mark, span=c.span(start)
        )
    times = _bracket_times(c)
    if times is None:
        c.want("how often the bracket is worked")
        return c.back(start)
    return Repeat(body, times, mark, span=c.span(start))


def _bracket_times(c: Cursor) -> Times | None:
    start = c.at
    if c.here.key in ("-", ","):
        c.step()
    c.take("rep")
    times = read_times(c, "all")
    if times is None:
        target = read_target(c)
        if target is None:
            return c.back(start)
        times = Times("to", target=target, span=c.span(start))
    return times


def _into(c: Cursor) -> int | None:
    """How many stitches a bracket is worked into; None when it is a plain repeat."""
    start = c.at
    c.take("all")
    if not c.take("into", "in"):
        return c.back(start)
    c.take("the")
    if c.take("double") and c.here.stitch in ("yo", "yfwd", "yrn", "yon", "yfrn"):
        c.step()
        return 2
    if c.here.stitch in ("yfwd", "yrn", "yon", "yfrn"):
        c.step()
        return 1
    if c.take("next yo", "yo", "same st", "next st", "1 st", "one st", "st", "each yo"):
        return 1
    c.take("next")
    count: Count | None = c.count()
    if count is not None and c.take("st"):
        first = count.values[0]
        if first is not None and first > 0 and all(value == first for value in count.values):
            return first
    return c.back(start)
