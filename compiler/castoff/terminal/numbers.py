"""`castoff show`: every number of a pattern per size, and where each comes from.

In: a proof. Out: text. A number has its formula, its value in every size, the same in the other units, and how far rounding
moved it; a count with a gauge behind it also says how wide or long it is.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from fractions import Fraction

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from castoff.grading.evaluate import Entry, Numbers
from castoff.per_size import PerSize
from castoff.pipeline import Proof
from castoff.terminal.other_units import converted
from castoff.trade.gauge import Gauge
from castoff.units import LENGTH, MASS, ROWS, STITCHES, Quantity, decimal

_WIDTH = 400
"""Columns when nobody's terminal sets them: a table in a file is never folded."""

Row = tuple[str, Sequence[str]]


def show_numbers(proof: Proof, size: int | None = None, *, colour: bool = False) -> str:
    """All numbers as a table; size: index of the only size shown, None for all."""
    assert proof.pattern is not None and proof.numbers is not None
    labels = proof.pattern.sizes.labels
    shown = range(len(labels)) if size is None else (size,)
    table = Table(box=box.SIMPLE_HEAD, title=proof.pattern.title.value, title_justify="left", pad_edge=False)
    table.add_column("number", no_wrap=True)
    for index in shown:
        table.add_column(labels[index], justify="right", no_wrap=True)
    table.add_column("formula", overflow="fold")
    for measure in proof.pattern.sizes.body:
        values = [None if value is None else Quantity(value, LENGTH) for value in measure.amounts.values]
        cells = [_amount(values[index]) for index in shown]
        table.add_row(f"body.{measure.key.value}", *cells, Text(measure.amounts.text.value, style="dim"))
    for entry in proof.numbers.entries:
        for at, (name, worths) in enumerate(_rows(entry, proof.numbers)):
            cells = [worths[index] for index in shown]
            formula = Text(_one_line(entry.formula.value)) if at == 0 else Text("")
            table.add_row(Text(name, style="" if at == 0 else "dim"), *cells, formula)
    return _printed(table, colour)


def show_why(proof: Proof, name: str, size: int | None = None) -> str:
    """The chain of formulas behind a number, one line each, deeper ones further in, down to body and gauge."""
    assert proof.pattern is not None and proof.numbers is not None
    labels = proof.pattern.sizes.labels
    lines: list[str] = []
    for index in range(len(labels)) if size is None else (size,):
        lines.append(f"size {labels[index]}")
        lines += _chain(name, proof, index, 1, set())
    return "\n".join(lines) + "\n"


def _chain(name: str, proof: Proof, size: int, depth: int, told: set[str]) -> list[str]:
    assert proof.numbers is not None
    indent = "  " * depth
    if name.startswith("gauge."):
        return [f"{indent}{name} = {_gauge_words(proof.numbers, name)}"]
    if name.startswith("body."):
        return [f"{indent}{name} = {_body_words(proof, name, size)}"]
    entry = proof.numbers.entry(name)
    if entry is None:
        return [f"{indent}{name}"]
    values = entry.values
    worth = "no value" if values is None else _amount(values[size])
    if entry.plan is not None:
        worth = "a plan"
    before = entry.unrounded
    moved = ""
    if before is not None and values is not None and before[size] != values[size]:
        moved = f", from {_amount(before[size])} before rounding"
    line = f"{indent}{name} = {worth}{moved}: {_one_line(entry.formula.value)}"
    if name in told:
        return [line + " (as above)"]
    told.add(name)
    return [line, *(each for need in entry.needs for each in _chain(need, proof, size, depth + 1, told))]


def _gauge_words(numbers: Numbers, name: str) -> str:
    gauge = _gauge(numbers, name)
    if gauge is None:
        return "unknown"
    rows = f" and {decimal(gauge.rows)} rows" if gauge.rows is not None else ""
    return f"{decimal(gauge.stitches)} stitches{rows} to {decimal(gauge.over_mm / 10)} cm"


def _body_words(proof: Proof, name: str, size: int) -> str:
    assert proof.pattern is not None
    for measure in proof.pattern.sizes.body:
        if measure.key.value == name.removeprefix("body."):
            value = measure.amounts.values[size]
            return "the size skips" if value is None else _amount(Quantity(value, LENGTH))
    standard = proof.pattern.sizes.standard
    return f"from the table `{standard.value}`" if standard is not None else "unknown"


def _rows(entry: Entry, numbers: Numbers) -> list[Row]:
    """The lines of one number: its value, the other units, what it measures, how far rounding moved it."""
    if entry.plan is not None:
        return [(entry.name, ["plan"] * len(numbers.sizes))]
    values = entry.values
    if values is None:
        return [(entry.name, ["?"] * len(numbers.sizes))]
    rows: list[Row] = [(entry.name, [_amount(each) for each in values])]
    rows += _other_units(values)
    gauge = next(filter(None, (_gauge(numbers, need) for need in entry.needs)), None)
    if gauge is None and len(numbers.scene.gauges) == 1:
        gauge = numbers.scene.gauges[0][1]
    rows += _extent(values, gauge)
    before = entry.unrounded
    if before is not None and before.values != values.values:
        rows.append(("  before rounding", [_amount(each) for each in before]))
        rows += _moved(before, values, gauge)
    return rows


def _other_units(values: PerSize[Quantity]) -> list[Row]:
    known = next((each for each in values if each is not None), None)
    if known is None or known.dimension not in (LENGTH, MASS):
        return []
    base, symbol = ("mm", "in") if known.dimension == LENGTH else ("g", "oz")
    turned = values.map(lambda each: converted(each.value, base, symbol))
    return [("", ["–" if each is None else f"{decimal(each, 2)} {symbol}" for each in turned])]


def _extent(values: PerSize[Quantity], gauge: Gauge | None) -> list[Row]:
    """How wide so many stitches are, or how long so many rows."""
    known = next((each for each in values if each is not None), None)
    if gauge is None or known is None or known.dimension not in (STITCHES, ROWS):
        return []
    if known.dimension == ROWS and gauge.rows is None:
        return []
    lengths = values.map(lambda each: _length(each, gauge))
    both = ["–" if each is None else f"{decimal(each / 10, 1)} cm, {decimal(converted(each, 'mm', 'in'), 2)} in" for each in lengths]
    return [("  wide" if known.dimension == STITCHES else "  long", both)]


def _length(count: Quantity, gauge: Gauge) -> Fraction:
    return gauge.width(count.value) if count.dimension == STITCHES else gauge.length(count.value)


def _moved(before: PerSize[Quantity], after: PerSize[Quantity], gauge: Gauge | None) -> list[Row]:
    cells: list[str] = []
    for old, new in zip(before, after, strict=True):
        if old is None or new is None:
            cells.append("–")
            continue
        change = Quantity(new.value - old.value, new.dimension)
        words = ("+" if change.value > 0 else "") + _amount(change)
        if gauge is not None and new.dimension == STITCHES:
            words += f", {decimal(_length(change, gauge) / 10, 1)} cm"
        cells.append(words)
    return [("  moved", cells)]


def _gauge(numbers: Numbers, name: str) -> Gauge | None:
    key = name.removeprefix("gauge.").split(".")[0]
    if not name.startswith("gauge."):
        return None
    return next((gauge for known, gauge in numbers.scene.gauges if known == key), None)


def _amount(quantity: Quantity | None) -> str:
    return "–" if quantity is None else quantity.words


def _one_line(formula: str) -> str:
    return " ".join(formula.split())


def _printed(table: Table, colour: bool) -> str:
    out = io.StringIO()
    console = Console(file=out, force_terminal=colour, no_color=not colour, width=None if colour else _WIDTH)
    console.print(table)
    return "\n".join(line.rstrip() for line in out.getvalue().splitlines()) + "\n"
