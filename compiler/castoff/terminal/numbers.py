"""`castoff show`: every number of a pattern per size, and where each comes from.

In: a proof. Out: text. A number has its formula, its value in every size, the same in the other units, how wide or long a
count is, and how far rounding moved it, as a count and as a width. Measurements and shaping plans are told the same way.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from fractions import Fraction
from textwrap import wrap

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from castoff.grading.evaluate import Entry, entry_of
from castoff.grading.origin import Step, extent_mm, moved_mm, why
from castoff.grading.worth import Planned, Values, Worth
from castoff.pipeline import Proof
from castoff.span import Text as SourceText
from castoff.terminal.other_units import converted
from castoff.units import LENGTH, MASS, STITCHES, Dimension, decimal, in_words

_WIDTH = 400
"""Columns when nobody's terminal sets them: a table in a file is never folded."""

TERMINAL = 80
"""Columns of a terminal, where sentences are folded."""

Row = tuple[str, Sequence[str]]


class UnknownNumberError(ValueError):
    """What is asked for is no number, body measurement or finished measurement, and no formula either."""


def show_numbers(proof: Proof, size: int | None = None, *, colour: bool = False) -> str:
    """All numbers as a table; size: index of the only size shown, None for all."""
    assert proof.pattern is not None and proof.numbers is not None
    labels = proof.pattern.sizes.labels
    title = proof.pattern.title.value
    costs = "".join(_costs(proof.numbers.entries, labels))
    if size is not None:
        return _table(proof, (size,), (labels[size],), title, colour) + costs
    axes = labels.axes
    told: list[str] = []
    for run in axes.runs:
        # a table for each place in the other directions: each cup, each neck
        others = [axes.words(number, axes.place(run.start)[number]) for number, _ in axes.directions if number]
        told.append(_table(proof, tuple(run), axes.first, ", ".join((title, *others)), colour))
    return "\n".join(told) + costs


def _table(proof: Proof, shown: Sequence[int], heads: Sequence[str], title: str, colour: bool) -> str:
    """The numbers of some sizes, which `heads` names."""
    assert proof.pattern is not None and proof.numbers is not None
    labels = proof.pattern.sizes.labels
    table = Table(box=box.SIMPLE_HEAD, title=title, title_justify="left", pad_edge=False)
    table.add_column("number", no_wrap=True)
    for head in heads:
        table.add_column(head, justify="right", no_wrap=True)
    table.add_column("formula", overflow="fold")

    def add(rows: Sequence[Row], formula: Text) -> None:
        for at, (name, cells) in enumerate(rows):
            style = "" if at == 0 else "dim"
            table.add_row(Text(name, style=style), *(cells[index] for index in shown), formula if at == 0 else Text(""))

    for measure in proof.pattern.sizes.body:
        worth = Worth(measure.amounts.values, LENGTH)
        name = f"body.{measure.key.value}"
        add(list(_worth_rows(name, worth)), Text(_one_line(measure.amounts.text.value), style="dim"))
    for entry in proof.numbers.entries:
        add(list(_rows(entry, proof)), Text(_one_line(entry.formula.value)))
    if proof.pattern.measurements:
        table.add_section()
    for measurement in proof.pattern.measurements:
        found = entry_of(measurement.key.value, measurement.expression, proof.numbers).value
        rows: list[Row] = (
            [(measurement.label.value, ["?"] * len(labels))] if found is None else list(_rows(found, proof))
        )
        rows[0] = (measurement.label.value, rows[0][1])
        add(rows, Text(_one_line(measurement.expression.value)))
    return _printed(table, colour)


def show_why(proof: Proof, asked: str, size: int | None = None) -> str:
    """The chain of formulas behind a number, one line each, deeper ones further in, down to body, ease and gauge.

    asked: a number, a number of a plan (`taper.every`), a body measurement (`body.head`), a finished measurement by its
    key, or any formula, such as one between braces in an instruction. Raises UnknownNumberError.
    """
    assert proof.pattern is not None and proof.numbers is not None
    subject = _subject(proof, asked)
    labels = proof.pattern.sizes.labels
    lines: list[str] = []
    for index in range(len(labels)) if size is None else (size,):
        lines.append(f"size {labels[index]}")
        for step in why(proof.numbers, subject, index):
            indent = "  " * (step.depth + 1)
            # a long line goes on further in than the steps below it begin
            lines += wrap(
                _line(step, subject, proof, index), TERMINAL, initial_indent=indent, subsequent_indent=indent + "      ",
                break_long_words=False, break_on_hyphens=False,
            )  # fmt: skip
    return "\n".join(lines) + "\n"


def _subject(proof: Proof, asked: str) -> str | Entry:
    assert proof.pattern is not None and proof.numbers is not None
    if proof.numbers.entry(asked) is not None or why(proof.numbers, asked, 0):
        return asked
    for measurement in proof.pattern.measurements:
        if asked.casefold() in (measurement.key.value.casefold(), measurement.label.value.casefold()):
            found = entry_of(measurement.key.value, measurement.expression, proof.numbers)
            if found.value is not None:
                return found.value
    formula = entry_of(asked, SourceText.plain(asked, "--why"), proof.numbers)
    if formula.value is None:
        told = formula.findings[0]
        raise UnknownNumberError(told.message + (f"; {told.hint}" if told.hint else ""))
    return formula.value


def _line(step: Step, subject: str | Entry, proof: Proof, size: int) -> str:
    """One step: name, value in both units, how it was rounded, and the formula."""
    assert proof.numbers is not None
    if not step.value:
        return f"{step.name} = {step.formula}"
    entry = proof.numbers.entry(step.name)
    if step.depth == 0 and isinstance(subject, Entry):
        entry = subject
    amount = step.quantity
    other = "" if amount is None else "".join(f" ({each})" for each in _second(amount.value, amount.dimension))
    rounding = f", from {step.rounding}" if step.rounding else ""
    if entry is not None and entry.worth is not None:
        extent = extent_mm(proof.numbers, entry)
        if extent is not None and (long := extent[size]) is not None:
            other = f" ({_both(long)} {'wide' if entry.worth.dimension == STITCHES else 'long'})"
        moved = moved_mm(proof.numbers, entry)
        if step.rounding and moved is not None and (by := moved[size]) is not None:
            rounding += f" ({_signed(by)} cm)"
    again = " (as above)" if step.seen else ""
    formula = "" if step.formula == step.value or step.formula == step.name else f": {step.formula}"
    return f"{step.name} = {step.value}{other}{rounding}{formula}{again}"


def _rows(entry: Entry, proof: Proof) -> Iterator[Row]:
    """The lines of one number: its value, the other units, what it measures, how far rounding moved it."""
    assert proof.numbers is not None
    sizes = len(proof.numbers.sizes)
    if entry.plan is not None:
        yield from _plan_rows(entry.name, entry.plan)
        return
    if entry.worth is None:
        yield entry.name, ["?"] * sizes
        return
    worth = entry.worth
    yield from _worth_rows(entry.name, worth)
    extent = extent_mm(proof.numbers, entry)
    if extent is not None:
        both = ["–" if each is None else _both(each) for each in extent]
        yield "  wide" if worth.dimension == STITCHES else "  long", both
    if worth.before is not None and worth.before != worth.values:
        yield "  before rounding", [_amount(each, worth.dimension) for each in worth.before]
        yield "  moved", _moved(worth, worth.before, moved_mm(proof.numbers, entry))


def _worth_rows(name: str, worth: Worth) -> Iterator[Row]:
    yield name, [_amount(each, worth.dimension) for each in worth.values]
    second = [_second(each, worth.dimension) for each in worth.values]
    if any(second):
        yield "", [each[0] if each else "–" for each in second]


def _plan_rows(name: str, plan: Planned) -> Iterator[Row]:
    yield name, ["–" if each is None else "plan" for each in plan.plans]
    for key in plan.names:
        values = plan.number(key)
        if values is not None and any(values):
            yield f"  {key}", ["–" if each is None else decimal(each) for each in values]


def _costs(entries: Sequence[Entry], labels: Sequence[str]) -> Iterator[str]:
    """What it cost, plan by plan, that all sizes follow one sentence."""
    for entry in entries:
        for index, words in () if entry.plan is None else entry.plan.cost:
            yield f"{entry.name}, one wording for all sizes: {words} in {labels[index]}\n"


def _second(value: Fraction | None, dimension: Dimension) -> tuple[str, ...]:
    """The same amount in the units of the other system; empty for what is counted."""
    if value is None or dimension not in (LENGTH, MASS):
        return ()
    base, symbol = ("mm", "in") if dimension == LENGTH else ("g", "oz")
    return (f"{decimal(converted(value, base, symbol), 2)} {symbol}",)


def _both(length_mm: Fraction) -> str:
    return f"{decimal(length_mm / 10, 1)} cm, {decimal(converted(length_mm, 'mm', 'in'), 2)} in"


def _signed(length_mm: Fraction) -> str:
    return ("+" if length_mm > 0 else "") + decimal(length_mm / 10, 2)


def _moved(worth: Worth, before: Values, lengths: Values | None) -> list[str]:
    """How far rounding moved each value: as a count and as a length."""
    cells: list[str] = []
    for index, (old, new) in enumerate(zip(before, worth.values, strict=True)):
        if old is None or new is None:
            cells.append("–")
            continue
        words = ("+" if new > old else "") + _amount(new - old, worth.dimension)
        long = None if lengths is None or worth.dimension == LENGTH else lengths[index]
        cells.append(words if long is None else f"{words}, {_signed(long)} cm")
    return cells


def _amount(value: Fraction | None, dimension: Dimension) -> str:
    return "–" if value is None else in_words(value, dimension)


def _one_line(formula: str) -> str:
    return " ".join(formula.split())


def _printed(table: Table, colour: bool) -> str:
    out = io.StringIO()
    console = Console(file=out, force_terminal=colour, no_color=not colour, width=None if colour else _WIDTH)
    console.print(table)
    return "\n".join(line.rstrip() for line in out.getvalue().splitlines()) + "\n"
