"""Numbered and named rows, and rows worked again.

In: `RowStep`, `RowsAs`, `RepeatRows` and where the knitting stands. Out: the rows worked, and kept for later lines.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.extents import chart_rows
from castoff.knitting.faults import IDLE_REPEAT, NO_SUCH_ROW, ROW_NUMBER, Pointer, fault
from castoff.knitting.numbers_ahead import counts_on, row_follows
from castoff.knitting.pattern_rows import in_yarn, numbers_of, rows_of_pattern, stands_for
from castoff.knitting.run import run_rows
from castoff.knitting.state import RowDef, SizeState, label_text
from castoff.knitting.work_row import work_row
from castoff.notation.syntax import (
    Count,
    Fabric,
    Label,
    Repeat,
    RowRef,
    RowsAs,
    RowStep,
    Stitch,
    ToEnd,
    WorkFabric,
)
from castoff.span import Span

_UNIT_WORDS = ("row", "rows", "rnd", "rnds", "round", "rounds")


def plain_name(name: str) -> str:
    """A row's name without its unit: "Dec rnd" and "dec" are the same row."""
    return " ".join(word for word in name.lower().split() if word not in _UNIT_WORDS)


def row_step(state: SizeState, step: RowStep, expected: int | None) -> None:
    """Works a row, or the rows of a range."""
    label = step.label
    state.piece.fabric = None
    _mind_idle_repeats(state, step)
    if label is None and _only_fabric(state, step):
        return
    if label is None:
        back = state.piece.turned and state.piece.due == "WS"
        unit = "rnd" if state.piece.form == "round" and not back else "row"
        row = RowDef(step.work, "this row", unit=unit, partial=True, span=step.span)
        work_row(state, row, expected)
        state.remember(row)
        return
    numbers = numbers_of(state, label) if label.which == "numbers" else []
    row = RowDef(
        step.work, label_text(label, state.size), None, plain_name(label.name), label.side, label.unit, span=step.span
    )
    if label.yarn:
        row = replace(row, yarn=label.yarn)
    if row.name:
        state.named[row.name] = row
        if label.which == "named" and label.ranges:
            first = label.ranges[0][0].at(state.size)
            _mind_named_number(state, row, first)
            row = replace(row, label=f"{row.name} {label.unit} {first}", name=f"{row.name} {first}")
            state.named[row.name] = row
    if label.which == "all" or (label.which == "numbers" and not numbers):
        if label.which == "all":
            state.every.append((label, row))
        return
    if not numbers:
        _fill_before(state, label)
        many = len(numbers_of(state, label)) if label.which == "next" else 1
        if many > 1:
            run_rows(state, [row], many, step.span, expected=expected)
        else:
            work_row(state, row, expected)
            state.remember(row)
        state.counted += max(many, 1)
        return
    start = state.piece.needle.stitches
    for at, number in enumerate(numbers):
        each = replace(
            row,
            number=number,
            label=label_text(label, state.size, number),
            side=(label.side or label.every_side) if at == 0 else None,
        )
        last = at == len(numbers) - 1
        numbered_row(state, each, expected if last else None)
        if last:
            state.piece.before = start if len(numbers) > 1 else state.piece.before
        if label.every_side is not None or label.every_step is not None:
            state.every.append((label, each))
    state.last_rows = len(numbers)


def _mind_idle_repeats(state: SizeState, step: RowStep) -> None:
    """A repeat that does what plain knitting or purling does, `*p2; rep from * to end`, has lost a part; and one of slipped
    stitches makes no row at all."""
    for act in step.work:
        only = act.body[0] if isinstance(act, Repeat) and len(act.body) == 1 else None
        if isinstance(only, Stitch) and only.name in ("k", "p", "sl") and only.count is not None:
            state.report(
                fault(
                    IDLE_REPEAT,
                    act.span,
                    "the repeat holds nothing but {name}: part of it may be missing",
                    hint="without a repeat it would be `knit` or `purl`"
                    if only.name != "sl"
                    else "a row works some sts",
                    name=only.name,
                )
            )


def _mind_named_number(state: SizeState, row: RowDef, number: int | None) -> None:
    """ "Gusset rnd 1", "gusset rnd 2": numbers under a name follow one another too."""
    if number is None:
        return
    last = state.named_number.get(row.name, 0)
    if number not in (1, last + 1) or number == last:
        state.report(
            fault(
                ROW_NUMBER,
                row.span,
                "{name} {unit} {number} follows {name} {unit} {last}"
                if last
                else "the first {name} {unit} is {number}",
                hint="{name} {unit} {due} is due",
                name=row.name,
                unit=row.unit,
                number=number,
                last=last,
                due=last + 1,
            )
        )
        state.piece.doubt = True
    state.named_number[row.name] = number


def _only_fabric(state: SizeState, step: RowStep) -> bool:
    """ "Change to St st" names the fabric of the rows that follow; it is no row."""
    only = step.work[0] if len(step.work) == 1 else None
    if isinstance(only, WorkFabric) and isinstance(only.over, ToEnd) and only.fabric.kind in ("named", "rib"):
        state.piece.fabric = only.fabric
        return True
    return False


def numbered_row(state: SizeState, row: RowDef, expected: int | None) -> None:
    """Works a row in its turn: the rows that "every WS row" stands for come before it."""
    number = row.number
    assert number is not None, "numbered rows have a number"
    in_turn = number in (state.number + 1, state.counted + 1) or (not state.number and number == state.carried + 1)
    if number == 1 and state.number and not row_follows(state, state.number + 2):
        _finish_every(state)
        named = state.named_number  # "Inc rnd 3" goes on behind a band of rnds that have their own numbers
        state.forget_rows()
        state.named_number = named
        in_turn = True
    if not in_turn and number > state.number:
        fill(state, number)
        in_turn = number == state.number + 1
    if not in_turn:
        number = _out_of_order(state, row, number)
        row = replace(row, number=number)
    _mind_told_twice(state, row, number)
    state.defs[number] = row
    if number == 1:
        state.piece.landmarks["numbered"] = state.piece.rows, state.piece.length
    work_row(state, row, expected)
    state.remember(row)
    state.number = number
    state.counted = max(state.counted + 1, number)


def _mind_told_twice(state: SizeState, row: RowDef, number: int) -> None:
    """ "Row 2 and all WS rows: …", and then a row 8 that does something else."""
    same = _every_for(state, number)
    if same is None or same.acts == row.acts:
        return
    state.report(
        fault(
            ROW_NUMBER,
            row.span,
            "{unit} {number} is told twice, in two ways: a line for all such {unit}s tells it too",
            unit=row.unit,
            number=number,
            related=((same.span, "here for the first time"),) if same.span is not None else (),
        )
    )


def _out_of_order(state: SizeState, row: RowDef, number: int) -> int:
    """Says that a number is not due; returns the number that the row has, if later lines show it."""
    unit = row.unit
    last = state.defs.get(state.number)
    due = state.number + 1
    counted = counts_on(state, due) if due not in state.defs else None
    related = [Pointer(last.span, "the row before it")] if last is not None and last.span is not None else []
    if counted is not None:
        related.append(Pointer(counted, "here it counts as {unit} {due}"))
    state.report(
        fault(
            ROW_NUMBER,
            row.span,
            "{unit} {number} follows {unit} {last}" if state.number else "the first {unit} is {unit} {number}",
            hint="{unit} {due} is due",
            unit=unit,
            number=number,
            last=state.number,
            due=due,
            related=tuple(related),
        ),
        sure=counted is not None,
    )
    if counted is not None:
        return due
    state.piece.doubt = True  # what the missing row did is not known
    return number


def _every_for(state: SizeState, number: int) -> RowDef | None:
    for label, row in state.every:
        origin = row.number if row.number is not None else (2 if label.every_side == "WS" else 1)
        if stands_for(label, number, origin):
            return replace(row, number=number, label=f"{row.unit} {number}", side=None)
    return None


def fill(state: SizeState, number: int) -> None:
    """Works the rows between, where an "every … row" stands for them."""
    while state.number + 1 < number:
        row = _every_for(state, state.number + 1)
        if row is None:
            return
        _work_def(state, row)


def _work_def(state: SizeState, row: RowDef) -> None:
    assert row.number is not None, "numbered rows have a number"
    state.defs[row.number] = row
    work_row(state, row)
    state.remember(row)
    state.number = row.number
    state.counted = max(state.counted + 1, row.number)


def _finish_every(state: SizeState) -> None:
    """A pattern that ends with an "every WS row" has that row still to come."""
    if state.every and state.number and state.piece.form == "flat" and state.piece.due == "WS":
        row = _every_for(state, state.number + 1)
        if row is not None:
            _work_def(state, row)


def _fill_before(state: SizeState, label: Label) -> None:
    if label.side is not None and state.piece.due is not None and state.piece.due != label.side:
        _finish_every(state)


def rows_as(state: SizeState, step: RowsAs, expected: int | None) -> None:
    """Rows worked like others that were described before."""
    numbers = numbers_of(state, step.label)
    sources = rows_meant(state, step.rows)
    if step.label.yarn:
        sources = _in_its_yarn(state, step, sources)
    if not sources:
        return
    if numbers and step.times is not None:
        _mind_times(state, step, len(numbers), len(sources))
    numbers = numbers or [state.number + 1] * len(sources)
    if step.label.which != "numbers":
        for source in sources:
            row = replace(source, label=label_text(step.label, state.size), side=step.label.side, span=step.span)
            work_row(state, row, expected if source is sources[-1] else None)
            state.remember(row)
        return
    start = state.piece.needle.stitches
    if len(numbers) > 50 and len(sources) == 1 and numbers[0] == state.number + 1:
        row = replace(sources[0], span=step.span, side=None)
        run_rows(state, [row], len(numbers), step.span, expected=expected)
        state.number = state.counted = numbers[-1]
        return
    for at, number in enumerate(numbers):
        source = sources[at % len(sources)]
        side = step.label.side if at == 0 else None
        row = replace(source, number=number, label=f"{step.label.unit} {number}", side=side, span=step.span)
        numbered_row(state, row, expected if at == len(numbers) - 1 else None)
    state.piece.before = start
    state.last_rows = len(numbers)


def _in_its_yarn(state: SizeState, step: RowsAs, sources: list[RowDef]) -> list[RowDef]:
    """ "With C, as rows 1 and 2": the same stitches, the other yarn."""
    found: list[RowDef] = []
    for row in sources:
        acts = in_yarn(row.acts, step.label.yarn, step.span)
        if acts is None:
            state.report(
                fault(
                    NO_SUCH_ROW,
                    step.span,
                    "{row} is worked in more than one yarn: {yarn} cannot take the place of one",
                    hint="write out what is worked in {yarn}",
                    row=row.label,
                    yarn=step.label.yarn,
                )
            )
            return []
        found.append(replace(row, acts=acts, yarn=None))
    return found


def _mind_times(state: SizeState, step: RowsAs, labelled: int, sources: int) -> None:
    """ "Rows 5–8: Rep rows 3 and 4 twice": the label has as many rows as come of it."""
    times = step.times
    number = 0 if times is None else state.number_of(times.count, 1) + (times.kind == "more")
    if number * sources != labelled:
        state.report(
            fault(
                ROW_NUMBER,
                step.span,
                "the label names {labelled} rows; {sources} rows {number} times are {all}",
                labelled=labelled,
                sources=sources,
                number=number,
                all=number * sources,
            )
        )


def rows_meant(state: SizeState, ref: RowRef) -> list[RowDef]:
    """The rows that a line speaks of; empty, with a fault, when they are not there."""
    if ref.more:
        return _together(state, ref)
    if ref.kind == "named":
        return _named(state, ref)
    here = "" if state.section is None else state.section.title.lower()
    if ref.section not in ("", "this section", here):
        return _rows_of_section(state, ref)
    if ref.kind in ("last", "these"):
        count = state.number_of(ref.count) if ref.count is not None else 0
        if not count and ref.kind == "these":
            block = [state.defs[number] for number in sorted(state.defs)]
            if block:
                return block
        count = count or 1
        if count > len(state.history):
            state.report(
                fault(
                    NO_SUCH_ROW,
                    ref.span,
                    "the last {count} rows are spoken of; {have} have been worked",
                    count=count,
                    have=len(state.history),
                )
            )
            return []
        if 0 < state.remembered < count:
            state.report(
                fault(
                    NO_SUCH_ROW,
                    ref.span,
                    "the last {count} rows are spoken of; {have} have been worked in this section, the others in the one "
                    "before",
                    hint="the last {have} rows",
                    count=count,
                    have=state.remembered,
                )
            )
        return state.history[-count:]
    found: list[RowDef] = []
    pattern = pattern_defs(state, chart_called(state, ref), ref.span) if ref.name else []
    for first, last in ref.ranges:
        low, high = first.at(state.size), last.at(state.size)
        if low is None or high is None:
            continue
        if high < low:
            state.report(
                fault(
                    NO_SUCH_ROW,
                    ref.span,
                    "rows {low} to {high} run backwards",
                    hint="rows {high} to {low}",
                    low=low,
                    high=high,
                )
            )
            return []
        for number in range(low, min(high, low + 5000) + 1):
            row = _row_of(state, ref, pattern, number)
            if row is None:
                have = len(pattern) or max(state.defs, default=0)
                lowest, highest = max(low, 1 if pattern else min(state.defs, default=1)), min(high, have)
                state.report(
                    fault(
                        NO_SUCH_ROW,
                        ref.span,
                        "row {number} is to be repeated; rows up to {have} have been described"
                        if have
                        else "row {number} is to be repeated; no numbered row has been described",
                        hint="rows {lowest}–{highest}"
                        if lowest < highest
                        else "row {highest}"
                        if lowest == highest
                        else None,
                        number=number,
                        have=have,
                        lowest=lowest,
                        highest=highest,
                    )
                )
                return []
            found.append(row)
    return found


def _together(state: SizeState, ref: RowRef) -> list[RowDef]:
    """Rows of several names: "inc row and row 2"; "next row" is the one that was worked behind the one before it."""
    found: list[RowDef] = []
    for part in (replace(ref, more=()), *ref.more):
        rows = _row_behind(state, found[-1], part) if part.name == "next" and found else rows_meant(state, part)
        if not rows:
            return []
        found += rows
    return found


def _row_behind(state: SizeState, row: RowDef, ref: RowRef) -> list[RowDef]:
    for at in range(len(state.history) - 2, -1, -1):
        if state.history[at].acts is row.acts:
            return [state.history[at + 1]]
    state.report(fault(NO_SUCH_ROW, ref.span, "no row has been worked behind {name}", name=row.label))
    return []


def _rows_of_section(state: SizeState, ref: RowRef) -> list[RowDef]:
    """Rows that an earlier section has told, called by its title."""
    if ref.section not in state.told_rows:
        state.report(
            fault(NO_SUCH_ROW, ref.span, "no section before this one tells numbered rows as {name}", name=ref.section)
        )
        return []
    mine = state.defs, state.every
    state.defs, state.every = state.told_rows[ref.section]
    found = rows_meant(state, replace(ref, section=""))
    state.defs, state.every = mine
    return found


def chart_called(state: SizeState, ref: RowRef) -> str:
    """The stitch pattern whose rows a line speaks of; "rows 1–4 of chart" are those of the chart in work."""
    if ref.name != "chart" or "chart" in state.plan.patterns:
        return ref.name.lower()
    found = chart_rows(state, "chart", ref.span)
    return "" if found is None else found[0]


def _row_of(state: SizeState, ref: RowRef, pattern: list[RowDef], number: int) -> RowDef | None:
    if pattern:
        return pattern[number - 1] if 0 < number <= len(pattern) else None
    if ref.name and plain_name(ref.name):
        named = state.named.get(f"{plain_name(ref.name)} {number}")
        if named is not None:
            return named
    return state.defs.get(number) or _every_for(state, number)


def _named(state: SizeState, ref: RowRef) -> list[RowDef]:
    name = plain_name(ref.name)
    if name in state.named:
        return [state.named[name]]
    close = [row for known, row in state.named.items() if name and (name in known or known in name)]
    if close:
        return [close[-1]]
    pattern = rows_of_pattern(state, ref.name.lower()) or rows_of_pattern(state, name)
    if pattern:
        return pattern_defs(state, ref.name.lower() if rows_of_pattern(state, ref.name.lower()) else name, ref.span)
    state.report(fault(NO_SUCH_ROW, ref.span, "no row is called {name}", name=ref.name))
    return []


def pattern_defs(state: SizeState, name: str, span: Span) -> list[RowDef]:
    """The rows of a stitch pattern of the source, as rows that can be worked."""
    unit = "rnd" if state.piece.form == "round" else "row"
    defs = []
    for number in range(1, len(rows_of_pattern(state, name)) + 1):
        row = Count((number,) * len(state.plan.sizes), span=span)
        acts = state.shared.acts_of(Fabric("named", name, start=str(number), row=row, span=span))
        defs.append(RowDef(acts, f"{name}, {unit} {number}", None, unit=unit, span=span))
    return defs
