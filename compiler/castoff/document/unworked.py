"""What is worked no times in the sizes that are printed: `K0`, "0 more times", a rate of no rows.

In: an instruction line and the setting of the edition. Out: the stretches of the line that vanish, or that all of it
does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from castoff.document.setting import Setting
from castoff.notation.nodes import nodes_of
from castoff.notation.syntax import (
    AtBeginning,
    Count,
    ForRows,
    InstructionLine,
    Repeat,
    RepeatRows,
    ShapeRows,
    Step,
    Stitch,
    Times,
    Token,
    Total,
    WorkRows,
)
from castoff.span import Span


def _none(count: Count | None, setting: Setting) -> bool:
    """Whether a count is nothing in every size that is printed."""
    return count is not None and all(not value for value in setting.pick(count.values))


def _never(step: Step, setting: Setting) -> bool:
    """Whether a step is not worked at all in the sizes that are printed."""
    match step:
        case RepeatRows(times=Times(count=count), then=then) if step.extent is None:
            return _none(count, setting) and all(_none(times.count, setting) for _, times in then)
        case WorkRows():
            return isinstance(step.extent.until, ForRows) and _none(step.extent.until.rows, setting)
        case AtBeginning():
            return _none(step.rows, setting)
        case ShapeRows(rates=rates, until=None) if rates:
            return all(rate.times is not None and _none(rate.times.count, setting) for rate in rates)
    return False


def unworked(line: InstructionLine, setting: Setting) -> tuple[list[Span], bool]:
    """Stretches of a line that are worked no times, and whether that is the whole line."""
    never = [step for step in line.steps if _never(step, setting)]
    if never:
        left = [step for step in line.steps if step not in never and not isinstance(step, Total)]
        if not left:
            return [], True
    dropped = [_sentence(line.tokens, step.span) for step in never]
    for step in line.steps:
        if step in never:
            continue
        for node in nodes_of(step):
            count = None
            if isinstance(node, Stitch):
                count = node.count
            elif isinstance(node, Repeat) and node.times.kind == "all":
                count = node.times.count
            if _none(count, setting) and isinstance(node, (Stitch, Repeat)):
                dropped.append(_with_comma(line.tokens, node.span))
        if isinstance(step, RepeatRows):
            dropped.extend(_idle_rates(line.tokens, _rates_of(step), setting))
        elif isinstance(step, ShapeRows):
            dropped.extend(_idle_rates(line.tokens, [(r.span, r.times) for r in step.rates], setting))
    return dropped, False


def _rates_of(step: RepeatRows) -> list[tuple[Span, Times | None]]:
    if step.every is None or step.times is None:
        return []
    return [(step.every.span, step.times), *((every.span, times) for every, times in step.then)]


def _idle_rates(
    tokens: Sequence[Token], rates: Sequence[tuple[Span, Times | None]], setting: Setting
) -> Iterator[Span]:
    """Rates worked no times: "…, then every 4th row 0 times" goes from the rate before it to its own end."""
    idle = [times is not None and _none(times.count, setting) for _, times in rates]
    if all(idle):
        return
    for index, (span, times) in enumerate(rates):
        if not idle[index] or times is None:
            continue
        kept_before = [before for before in range(index) if not idle[before]]
        if kept_before:
            earlier = rates[index - 1][1]
            start = earlier.span.end if earlier is not None else span.start
            yield Span(span.source, start, times.span.end)
        else:
            # the first rate goes: from its "every" to the "every" of the next
            following = rates[index + 1][0]
            yield Span(span.source, _back_to_every(tokens, span.start), _back_to_every(tokens, following.start))


def _back_to_every(tokens: Sequence[Token], start: int) -> int:
    """Where the word "every" (or "on every") before a rate's number stands."""
    at = start
    for token in reversed([token for token in tokens if token.span.start <= start]):
        if token.kind == "space" or token.span.start == start:
            at = token.span.start if token.span.start == start else at
            if token.text.lower() in ("every", "each"):
                return token.span.start
            continue
        if token.text.lower() in ("every", "each", "foll", "following", "alt"):
            at = token.span.start
            continue
        break
    return at


def inside(span: Span, outer: Span) -> bool:
    """Whether a place lies within another."""
    return outer.start <= span.start and span.end <= outer.end


def _with_comma(tokens: Sequence[Token], span: Span) -> Span:
    """A stretch with the comma that parts it from what follows, or, at the end, from what comes before."""
    after = [token for token in tokens if token.span.start >= span.end]
    comma = next((token for token in after if token.kind != "space"), None)
    if comma is not None and comma.text == ",":
        end = comma.span.end
        following = next((token for token in after if token.span.start >= end), None)
        if following is not None and following.kind == "space":
            end = following.span.end
        return Span(span.source, span.start, end)
    start = span.start
    for token in reversed([token for token in tokens if token.span.end <= span.start]):
        if token.kind == "space":
            continue
        if token.text == ",":
            start = token.span.start
        break
    return Span(span.source, start, span.end)


def _sentence(tokens: Sequence[Token], span: Span) -> Span:
    """A step with its full stop and the space behind it."""
    end = span.end
    for token in tokens:
        if token.span.start >= end and (token.kind == "space" or token.text in (".", ";", ",")):
            end = token.span.end
        elif token.span.start >= end:
            break
    return Span(span.source, span.start, end)
