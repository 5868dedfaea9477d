"""The rest of a row whose beginning was told: "bind off 5 sts at beg of next row, k to end" is one row, not two.

In: a cursor behind "at beg of next row". Out: the step with the rest of its row, or as it was; None when there is a rest
that such a row cannot have.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.cursor import Cursor
from castoff.notation.rows import read_row_work
from castoff.notation.syntax import (
    Action,
    AtBeginning,
    EndShaping,
    Fabric,
    Repeat,
    StitchTo,
    ToEnd,
    ToLast,
    WorkFabric,
)


def with_rest(c: Cursor, step: AtBeginning, start: int) -> AtBeginning | None:
    """Reads ", k to end", "and purl to end", "; work to last 3 sts, k2tog, k1", ". K to end."."""
    work = _rest(c)
    if not work:
        return step
    if step.at_end:
        return c.back(start)
    if not isinstance(step.act, EndShaping):
        return replace(step, rest=work, span=c.span(start))
    fabric = _fabric_of(work)
    if fabric is None:
        return c.back(start)
    return replace(step, act=replace(step.act, fabric=fabric), span=c.span(start))


def rest_ahead(c: Cursor) -> bool:
    """Whether the rest of a row stands here, behind shaping at a rate, whose rows cannot have one."""
    before = c.at
    found = bool(_rest(c))
    c.back(before)
    return found


def _rest(c: Cursor) -> tuple[Action, ...]:
    before = c.at
    sentence = c.take(".")
    while not sentence and c.take(",", ";", "and", "then", "-"):
        pass
    place = c.at
    work = read_row_work(c) if place > before else ()
    ended = c.here.kind in ("mark", "end") or c.here.key in ("and", "then")
    # "Knit." behind a full stop is a row of its own
    its_own = sentence and not _speaks_of_the_end(c.raw(place, c.at))
    if work and ended and not its_own and _comes_to_the_end(work):
        return work
    c.back(before)
    return ()


def _speaks_of_the_end(words: str) -> bool:
    return " to end" in words or " to the end" in words or " to last" in words or " to the last" in words


def _comes_to_the_end(work: tuple[Action, ...]) -> bool:
    for act in work:
        target = act.target if isinstance(act, StitchTo) else act.over if isinstance(act, WorkFabric) else None
        if isinstance(act, Repeat):
            target = act.times.target
        if isinstance(target, (ToEnd, ToLast)):
            return True
    return False


def _fabric_of(work: tuple[Action, ...]) -> Fabric | None:
    """ "Dec 1 st at beg of next row, k to end": what the rest of the row is worked in."""
    only = work[0] if len(work) == 1 else None
    if isinstance(only, StitchTo) and only.name in ("k", "p") and isinstance(only.target, ToEnd):
        return Fabric("knit" if only.name == "k" else "purl", span=only.span)
    if isinstance(only, WorkFabric) and isinstance(only.over, ToEnd):
        return only.fabric
    return None
