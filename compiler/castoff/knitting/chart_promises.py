"""What a stitch pattern promises of its place: that it is centred, and on which rows it is worked.

In: a row in work that comes to it, or the row that was worked. Out: nothing, or a fault with the numbers.
"""

from __future__ import annotations

from collections.abc import Collection

from castoff.knitting.charts import panels_on, pattern_of
from castoff.knitting.faults import PART_OFF, ROWS_OFF, fault
from castoff.knitting.loops import PANEL, hidden
from castoff.knitting.state import SizeState
from castoff.span import Span

_LONGEST = 100
"""Rows since a pattern was worked are counted so far; further on nobody needs to know how many they were."""


def mind_promises(state: SizeState, worked: Collection[str], span: Span | None) -> None:
    """Holds the patterns to what they promise after a row. worked: the patterns and places worked in it."""
    _mind_pace(state, worked, span)
    needle = state.piece.needle
    for panel in panels_on(needle):
        name = pattern_of(panel)
        known = state.plan.patterns.get(name)
        if known is not None and known.centred and panel in worked:
            _mind_centred(state, panel, name, span)


def _mind_centred(state: SizeState, panel: str, name: str, span: Span | None) -> None:
    """As many stitches lie before a centred pattern as behind it, up to the next markers or the ends of the row."""
    needle = state.piece.needle
    own = [place for place, mark in needle.marks if mark.startswith(PANEL) and mark[1:-1] == panel]
    start, stop = (own[0], own[-1]) if len(own) > 1 else (0, own[0])
    places = [place for place, mark in needle.marks if not hidden(mark)]
    before = start - max((place for place in places if place < start), default=0)
    behind = min((place for place in places if place > stop), default=needle.stitches) - stop
    if before == behind:
        return
    state.report(
        fault(
            PART_OFF,
            span,
            "{name} is centred; {before} sts lie at one side of it and {behind} at the other",
            hint="{some} and {others} sts",
            name=state.plan.called(name),
            before=min(before, behind),
            behind=max(before, behind),
            some=(before + behind) // 2,
            others=before + behind - (before + behind) // 2,
        )
    )


def _mind_pace(state: SizeState, worked: Collection[str], span: Span | None) -> None:
    """Rows of a pattern come on every so many rows of the fabric, counted from the one before."""
    since = state.piece.charts_since
    for name, pattern in state.plan.patterns.items():
        if not pattern.every:
            continue
        if name not in worked:
            if name in since:
                since[name] = min(since[name] + 1, _LONGEST)
            continue
        apart = since.get(name, pattern.every - 1) + 1
        since[name] = 0
        if apart != pattern.every:
            state.report(
                fault(
                    ROWS_OFF,
                    span,
                    "{name} is worked on every {every}{th} row; here it comes {apart} {rows} after its last one",
                    hint="{more}",
                    name=state.plan.called(name),
                    every=pattern.every,
                    th=_th(pattern.every),
                    apart=apart,
                    rows="row" if apart == 1 else "rows",
                    more=f"{pattern.every - 1} rows between" if pattern.every > 1 else "no rows between",
                )
            )


def _th(number: int) -> str:
    if number % 100 in (11, 12, 13):
        return "th"
    return {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
