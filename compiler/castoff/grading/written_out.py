"""Shaping plans in instructions: `{taper.words}` becomes the words of the plan, with a formula for each of its numbers.

In: an instruction text and the numbers. Out: the same text with every such place written out, which the notation then
reads like words that somebody typed: `every {taper.every}th row {taper.times} times, then …`. So the needle knits what is
printed, and both come from one plan. Every written-out character keeps its place in the file, as far as there is room
between the braces.

A `spread` gives "every 4th row 3 times, then every 6th row twice", for "Rep dec row {taper.words}." `evenly` gives a whole
row, "k6, m1, [k13, m1] 3 times, k6". `steps` and `curve` give "8 sts at beg of next 4 rows. Bind off 7 sts at beg of next
2 rows", for both edges in turn, for "Bind off {shoulder.words}."
"""

from __future__ import annotations

import re

from castoff.grading.evaluate import Numbers
from castoff.grading.shaping import Curve, Evenly, Slope, Spread
from castoff.grading.worth import Plan
from castoff.model.pattern import Form
from castoff.span import Text

_WORDS = re.compile(r"\{\s*([^\W\d]\w*)\.words\s*\}")


def written_out(text: Text, numbers: Numbers, form: Form = "flat") -> Text:
    """An instruction text with every plan written out.

    form: how the text is worked: rows of a plan are called rounds in the round. What is no plan, or cannot be said in
    one sentence for all sizes, stays as it is, for the formula reader to fault.
    """
    places: list[tuple[int, int, list[str]]] = []
    for found in _WORDS.finditer(text.value):
        entry = numbers.entry(found[1])
        planned = None if entry is None else entry.plan
        plans = () if planned is None else tuple(plan for plan in planned.plans if plan is not None)
        parts = parts_of(found[1], plans, form)
        if parts:
            places.append((found.start(), found.end(), parts))
    return _replaced(text, places) if places else text


def parts_of(name: str, plans: tuple[Plan, ...], form: Form) -> list[str]:
    """The words of a plan in parts, each of which may be worked no times in some size; empty when it has none."""
    first = plans[0] if plans else None
    if isinstance(first, Spread):
        return _spread_parts(name, [plan for plan in plans if isinstance(plan, Spread)], form)
    if isinstance(first, Evenly):
        return _evenly_parts(name, [plan for plan in plans if isinstance(plan, Evenly)])
    if isinstance(first, Slope):
        keys = [("each", "times"), ("then_each", "then_times")]
        wanted = [pair for pair in keys if any(dict(plan.numbers)[pair[1]] for plan in plans)]
        return _bound_parts([(f"{{{name}.{each}}} sts", f"{{2 * {name}.{times}}} rows") for each, times in wanted])
    if isinstance(first, Curve):
        runs = [(f"{{{name}.first}} sts", "2 rows")]
        for size, key in ((4, "fours"), (3, "threes"), (2, "twos"), (1, "ones")):
            if any(dict(plan.numbers)[key] for plan in plans):
                runs.append((f"{size} {'st' if size == 1 else 'sts'}", f"{{2 * {name}.{key}}} rows"))
        return _bound_parts(runs)
    return []


def _spread_parts(name: str, plans: list[Spread], form: Form) -> list[str]:
    row = "rnd" if form == "round" else "row"
    parts: list[str] = []
    for every, times, lead in (("every", "times", ""), ("then_every", "then_times", ", then ")):
        worked = [dict(plan.numbers)[every] for plan in plans if dict(plan.numbers)[times]]
        if worked:
            interval = row if set(worked) == {1} else f"{{{name}.{every}}}th {row}"
            parts.append(f"{lead if parts else ''}every {interval} {{{name}.{times}}} times")
    return parts


def _evenly_parts(name: str, plans: list[Evenly]) -> list[str]:
    """The row in parts; none when a change stands alone at the beginning in some sizes only."""
    if len({plan.before > 0 for plan in plans}) > 1 or len({plan.uses for plan in plans}) > 1 or plans[0].uses > 2:
        return []
    parts: list[str] = []
    change, less = ("m1", "") if plans[0].uses == 1 else ("k2tog", " - 2")
    if plans[0].before:
        parts.append(f"k{{{name}.before{less}}}, {change}")
    for each, count in (("each", "count"), ("then_each", "then_count")):
        if any(dict(plan.numbers)[count] for plan in plans):
            parts.append(f"[k{{{name}.{each}{less}}}, {change}] {{{name}.{count}}} times")
    if any(plan.after for plan in plans):
        parts.append(f"k{{{name}.after}}")
    return [part if index == 0 else f", {part}" for index, part in enumerate(parts)]


def _bound_parts(runs: list[tuple[str, str]]) -> list[str]:
    said = [f"{stitches} at beg of next {rows}" for stitches, rows in runs]
    return [part if index == 0 else f". Bind off {part}" for index, part in enumerate(said)]


def _replaced(text: Text, places: list[tuple[int, int, list[str]]]) -> Text:
    """A text with stretches of it exchanged. Each part of a new stretch gets its own share of the old one's places."""
    value: list[str] = []
    anchors: list[tuple[int, int]] = []
    length = at = 0

    def keep(start: int, end: int) -> None:
        nonlocal length
        old = text.part(start, end)
        anchors.extend((length + index, offset) for index, offset in old.anchors)
        value.append(old.value)
        length += end - start

    for start, end, parts in places:
        keep(at, start)
        for number, part in enumerate(parts):
            low = start + (end - start) * number // len(parts)
            room = start + (end - start) * (number + 1) // len(parts) - low
            for index in range(len(part)):
                anchors.append((length + index, text.offset(low + min(index, room - 1))))
            value.append(part)
            length += len(part)
        at = end
    keep(at, len(text.value))
    return Text("".join(value), text.source, tuple(anchors))
