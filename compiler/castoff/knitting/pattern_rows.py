"""The rows of a stitch pattern of the source, in order, every row said once.

In: the pattern's lines. Out: the acts of each row, "Row 2 and all WS rows" and "As row 2" filled in.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass, replace
from math import lcm

from castoff.knitting.faults import MULTIPLE_WIDE, ROW_NUMBER, fault
from castoff.knitting.plan import StitchPattern
from castoff.knitting.state import Acts, SizeState
from castoff.knitting.sums import NO_TAKE, term_of
from castoff.notation.syntax import InstructionLine, Label, Remark, Repeat, RepeatRows, RowsAs, RowStep, Side, UseYarn
from castoff.span import Span


def rows_of_pattern(state: SizeState, name: str) -> tuple[Acts, ...]:
    """The acts of every row of a named stitch pattern, row 1 first; empty when there is no such pattern."""
    key = (name, state.size)
    found = state.shared.pattern_acts.get(key)
    if found is None:
        pattern = state.plan.patterns.get(name)
        found = () if pattern is None else tuple(acts for _, acts in numbered_rows(pattern.lines, state.size))
        state.shared.pattern_acts[key] = found
        if pattern is not None:
            _mind_told_twice(state, pattern.lines)
            _mind_multiple(state, name, pattern)
    return found


def _mind_told_twice(state: SizeState, lines: Sequence[object]) -> None:
    """ "Row 2 and all WS rows: …", and then a row 8 that does something else."""
    rows = dict(numbered_rows(lines, state.size))
    every: list[tuple[Label, int, RowStep]] = []
    for line in lines:
        for step in line.steps if isinstance(line, InstructionLine) and line.sizes[state.size] else ():
            label = step.label if isinstance(step, (RowStep, RowsAs)) else None
            if label is None:
                continue
            for number in _numbers(label, state.size):
                first = next((known for each, origin, known in every if stands_for(each, number, origin)), None)
                if first is not None and rows.get(number) != first.work:
                    state.report(
                        fault(
                            ROW_NUMBER,
                            label.span,
                            "{unit} {number} is told twice, in two ways: a line for all such {unit}s tells it too",
                            unit=label.unit,
                            number=number,
                            related=((first.span, "here for the first time"),),
                        )
                    )
            if isinstance(step, RowStep) and (label.every_side is not None or label.every_step is not None):
                numbers = _numbers(label, state.size)
                every.append((label, numbers[0] if numbers else 1, step))


def _mind_multiple(state: SizeState, name: str, pattern: StitchPattern) -> None:
    """The multiple of a pattern is what its rows repeat over, and no more."""
    widths: list[tuple[int, Repeat]] = []
    for acts in state.shared.pattern_acts[name, state.size]:
        repeats = [act for act in acts if isinstance(act, Repeat)]
        if len(repeats) > 1 or any(act.times.target is None for act in repeats):
            return
        for act in repeats:
            terms = [term_of(state, each) for each in act.body if type(each).__name__ not in NO_TAKE]
            if any(term is None for term in terms):
                return
            widths.append((sum(term[1] for term in terms if term is not None), act))
    wide = lcm(*(width for width, _ in widths)) if widths and all(width for width, _ in widths) else pattern.multiple
    if wide < pattern.multiple and pattern.multiple % wide == 0:
        state.report(
            fault(
                MULTIPLE_WIDE,
                widths[0][1].span,
                "{name} is said to be a multiple of {multiple} sts, its rows repeat over {wide}",
                hint="`multiple: {wide}`",
                name=pattern.name or name,
                multiple=pattern.multiple,
                wide=wide,
            )
        )


def first_side(state: SizeState, name: str) -> Side | None:
    """The side on which row 1 of a stitch pattern is worked, as its labels say; None when they do not, or it varies.

    Rows of an uneven number change sides at every repeat.
    """
    pattern = state.plan.patterns.get(name)
    if pattern is None or pattern.form != "flat" or len(rows_of_pattern(state, name)) % 2:
        return None
    for line in pattern.lines:
        for step in line.steps if isinstance(line, InstructionLine) else ():
            label = step.label if isinstance(step, (RowStep, RowsAs)) else None
            numbers = [] if label is None else _numbers(label, state.size)
            if label is not None and label.side is not None and numbers:
                return label.side if numbers[0] % 2 else "WS" if label.side == "RS" else "RS"
    return None


def numbers_of(state: SizeState, label: Label) -> list[int]:
    """The row numbers that a label names, in this size."""
    return _numbers(label, state.size)


def _numbers(label: Label, size: int) -> list[int]:
    numbers: list[int] = []
    for first, last in label.ranges:
        low, high = first.at(size), last.at(size)
        if low is None or high is None:
            continue
        numbers.extend(range(low, min(high, low + 2000) + 1))
    return numbers


def in_yarn(acts: Acts, yarn: str, span: Span) -> Acts | None:
    """The acts of a row in another yarn than it was told in; None when it is worked in several."""
    if not yarn:
        return acts
    used = [act for act in _every_act(acts) if isinstance(act, UseYarn)]
    if not used:
        return (UseYarn((yarn,), span=span), *acts)
    at = next(at for at, act in enumerate(acts) if not isinstance(act, Remark))
    first = acts[at]
    whole = isinstance(first, UseYarn) and (first.body is None or at == len(acts) - 1)
    if len(used) > 1 or not whole or not isinstance(first, UseYarn) or first.joins or len(first.yarns) != 1:
        return None
    return (*acts[:at], replace(first, yarns=(yarn,)), *acts[at + 1 :])


def _every_act(node: object) -> Iterator[object]:
    """Every act of a row, those within repeats and brackets too."""
    if isinstance(node, tuple):
        for each in node:
            yield from _every_act(each)
    elif is_dataclass(node) and not isinstance(node, Span):
        yield node
        for field in fields(node):
            if field.name != "span":
                yield from _every_act(getattr(node, field.name))


def stands_for(label: Label, number: int, origin: int) -> bool:
    """Whether an "and every … row" label covers a row. origin: the number that the label itself names."""
    step = 2
    if label.every_step is not None:
        step = next((value for value in label.every_step.values if value), 2)
    return number >= origin and (number - origin) % step == 0


def numbered_rows(lines: Sequence[object], size: int) -> tuple[tuple[int, Acts], ...]:
    """The rows that lines tell, by number and in order: what each says in a size."""
    rows: dict[int, Acts] = {}
    every: list[tuple[Label, int, Acts]] = []
    following = 1
    for line in lines:
        if not isinstance(line, InstructionLine) or not line.sizes[size]:
            continue
        for step in line.steps:
            if isinstance(step, RowStep):
                numbers = _numbers(step.label, size) if step.label is not None else []
                numbers = numbers or [following]
                yarn = "" if step.label is None else step.label.yarn
                for number in numbers:
                    rows[number] = in_yarn(step.work, yarn, step.span) or step.work
                following = numbers[-1] + 1
                if step.label is not None and (step.label.every_side is not None or step.label.every_step is not None):
                    every.append((step.label, numbers[0], rows[numbers[0]]))
            elif isinstance(step, RowsAs):
                numbers = _numbers(step.label, size)
                sources = [
                    number
                    for first, last in step.rows.ranges
                    for number in range(first.at(size) or 0, (last.at(size) or 0) + 1)
                ]
                for at, number in enumerate(numbers):
                    if sources and sources[at % len(sources)] in rows:
                        acts = rows[sources[at % len(sources)]]
                        rows[number] = in_yarn(acts, step.label.yarn, step.span) or acts
                if numbers:
                    following = numbers[-1] + 1
            elif isinstance(step, RepeatRows):
                continue
    if not rows:
        return ()
    last = max(rows)
    for label, origin, acts in every:
        for number in range(1, last + 2):
            if number not in rows and stands_for(label, number, origin) and number <= last + 1:
                rows[number] = acts
    last = max(rows)
    return tuple((number, rows[number]) for number in range(1, last + 1) if number in rows)
