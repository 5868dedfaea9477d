"""Sizes: body measurements that each is meant to fit, finished measurements, and the ease between them.

In: the job. Out: the tables a knitter chooses a size by, and the same measures for the drawing and the front page.

Body and finished measures are two things and are never mixed; where a finished measure goes round what a body measure
goes round, the difference is printed as ease, worked out from the numbers that are printed, so that the table adds
up.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from castoff.document.job import Job
from castoff.document.tree import Block, Blocks, Cell, Heading, Inlines, Pair, Paragraph, Quantity, Table, Text
from castoff.document.wording import System, Values, decimal, in_system, mixed, ordered_systems, system_of
from castoff.grading.evaluate import resolve
from castoff.model.pattern import Amounts, Measurement
from castoff.numeral import Measure as TypedMeasure
from castoff.numeral import read_measure
from castoff.span import Text as SourceText
from castoff.units import INCH_MM

_EASE: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("bust", ("bust", "chest", "full_chest")),
    ("chest", ("chest", "bust", "full_chest")),
    ("head", ("head", "circumference", "around", "ring")),
    ("hand", ("hand", "circumference", "palm")),
    ("foot", ("foot", "foot_circumference", "circumference")),
    ("waist", ("waist",)),
    ("hip", ("hip", "hips")),
    ("upper_arm", ("upper_arm", "sleeve_width")),
    ("neck", ("neck", "neck_circumference")),
)
"""Body measurement, and the keys of finished measurements that go round the same place, likeliest first."""


_BODY_NAME = re.compile(r"\bbody\.(\w+)")


@dataclass(frozen=True, slots=True)
class Sized:
    """A measure of every size.

    key, label: as in the source. values: exact millimetres, None where a size has none. unit, twin, twin_unit: as
    typed; unit is "" for a computed measure.
    """

    key: str
    label: str
    values: Values
    unit: str = ""
    twin: Values | None = None
    twin_unit: str = ""
    note: Inlines = ()

    def numbers(self, job: Job, system: System) -> tuple[tuple[Fraction | None, ...], str]:
        """The printed numbers of every size in one system, and their unit."""
        return in_system(self.values, self.unit, system, job.setting, twin=self.twin, twin_unit=self.twin_unit)


def body_measures(job: Job) -> tuple[Sized, ...]:
    """What the sizes are meant to fit: as given in the source, then the girths its formulas take from a body table."""
    body = job.pattern.sizes.body
    given = tuple(_typed(each.key.value, _body_label(job, each.key.value), each.amounts) for each in body)
    known = {each.key for each in given}
    found = (_from_table(job, key) for key in _girths_used(job) if key not in known)
    return (*given, *(sized for sized in found if sized is not None))


def _body_label(job: Job, key: str) -> str:
    return job.say("sizes", "body", key=key.replace("_", " "))


def _girths_used(job: Job) -> tuple[str, ...]:
    """Girths of the body that formulas name (`body.bust`), in order of first use; lengths a buyer does not choose by."""
    if job.pattern.sizes.standard is None:
        return ()
    formulas = [number.formula.value for number in job.pattern.numbers]
    formulas += [measurement.expression.value for measurement in job.pattern.measurements]
    girths = {key for key, _ in _EASE}
    names = (name for formula in formulas for name in _BODY_NAME.findall(formula))
    return tuple(dict.fromkeys(name for name in names if name in girths))


def _from_table(job: Job, key: str) -> Sized | None:
    """A girth of a published table: the pair of figures as printed there; its exact value where the table has ranges."""
    sizes = job.pattern.sizes
    table = job.trade.bodies.find(sizes.standard.value) if sizes.standard is not None else None
    if table is None:
        return None
    names = [size.value for size in sizes.standard_sizes]
    pairs = [(table.look_up(key, name, "cm"), table.look_up(key, name, "in")) for name in names]
    centimetres = [cm[0] * 10 for cm, _ in pairs if cm is not None and cm[0] == cm[1]]
    inches = [inch[0] * INCH_MM for _, inch in pairs if inch is not None and inch[0] == inch[1]]
    label = _body_label(job, key)
    if len(centimetres) == len(inches) == len(sizes):
        return Sized(key, label, tuple(centimetres), "cm", tuple(inches), "in")
    resolved = resolve(SourceText.plain(f"body.{key}"), job.numbers).value
    return None if resolved is None or resolved.kind != "length" else Sized(key, label, resolved.values)


def _typed(key: str, label: str, amounts: Amounts) -> Sized:
    return Sized(key, label, amounts.values, amounts.unit, amounts.twin, amounts.twin_unit)


def finished_measures(job: Job) -> tuple[Sized, ...]:
    """The finished measurements; one whose formula cannot be worked out is left to grading to report."""
    found = (_finished(job, measurement) for measurement in job.pattern.measurements)
    return tuple(sized for sized in found if sized is not None)


def _finished(job: Job, measurement: Measurement) -> Sized | None:
    text = measurement.expression.value.strip()
    sizes = len(job.pattern.sizes)
    label = job.language.words(measurement.label.value)
    note = job.inline(measurement.note)
    typed = read_measure(text, 0, job.pattern.sizes.axes)
    if isinstance(typed, TypedMeasure) and typed.end == len(text):
        first = typed.first.spread(sizes)
        twin = typed.second.spread(sizes) if typed.second is not None else None
        return Sized(
            measurement.key.value,
            label,
            first.in_base(),
            first.symbol or "",
            None if twin is None else twin.in_base(),
            "" if twin is None else twin.symbol or "",
            note,
        )
    resolved = resolve(measurement.expression, job.numbers).value
    if resolved is None or resolved.kind != "length":
        return None
    return Sized(measurement.key.value, label, resolved.values, note=note)


def ease_between(body: Sized, finished: tuple[Sized, ...]) -> Sized | None:
    """The finished measure that goes round what a body measure goes round."""
    wanted = dict(_EASE).get(body.key, (body.key,))
    for key in wanted:
        for each in finished:
            if each.key == key:
                return each
    return None


# ── the table ─────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class _Line:
    """A measure in the table: its label and, for each system, a ready text per printed size."""

    label: str
    rows: tuple[tuple[str, tuple[str, ...]], ...]


def sizes_and_measures(job: Job) -> Blocks:
    """The heading with its tables; nothing for a pattern that gives no measures."""
    body, finished = body_measures(job), finished_measures(job)
    if not body and not finished:
        return ()
    groups = [("to_fit", [_line(job, each) for each in body]), ("finished", [_line(job, each) for each in finished])]
    eased = [_ease_line(job, each, other) for each in body if (other := ease_between(each, finished)) is not None]
    groups.append(("ease", eased))
    groups = [(name, _parted(job, lines)) for name, lines in groups if lines]
    blocks: list[Block] = [Heading(2, (Text(job.say("headings", "sizes")),), "sizes")]
    shown = len(job.setting.shows)
    if shown == 1:
        blocks.append(_one_size_table(job, groups))
    elif job.edition.reading == "large":
        blocks.extend(_tables_by_measure(job, groups))
    else:
        blocks.extend(_wide_tables(job, groups))
    notes = [(each.label, each.note) for each in finished if each.note]
    blocks.extend(Paragraph((Text(f"{label}: "), *note), "note") for label, note in notes)
    if eased:
        blocks.append(Paragraph((Text(job.say("sizes", "ease_note")),), "note"))
    return tuple(blocks)


def _parted(job: Job, lines: list[_Line]) -> list[_Line]:
    """Lines of a pattern whose sizes run in two directions: one for each part of the sizes that has numbers of its own."""
    setting = job.setting
    if setting.axes.plain or setting.shown is not None:
        return lines
    parted: list[_Line] = []
    at = {size: index for index, size in enumerate(setting.shows)}
    for line in lines:
        texts = [
            tuple(each[at[size]] for _, each in line.rows) if size in at else () for size in range(len(setting.sizes))
        ]
        for words, run in setting.parted(texts):
            rows = tuple((unit, tuple(each[at[size]] for size in run)) for unit, each in line.rows)
            parted.append(_Line(f"{line.label}, {words}" if words else line.label, rows))
    return parted


def _line(job: Job, sized: Sized) -> _Line:
    rows = []
    for system in ordered_systems(sized.unit, job.setting):
        values, unit = _tabled(*sized.numbers(job, system))
        change = mixed if unit in ("in", "ft") else decimal
        rows.append((unit, tuple("–" if value is None else change(value) for value in job.setting.pick(values))))
    return _Line(sized.label, tuple(rows))


def _tabled(values: Values, unit: str) -> tuple[Values, str]:
    """Numbers in the unit of their table: centimetres or inches, whatever they were typed in."""
    factor, target = {"mm": (Fraction(1, 10), "cm"), "m": (Fraction(100), "cm"), "ft": (Fraction(12), "in")}.get(
        unit, (Fraction(1), unit)
    )
    return tuple(None if value is None else value * factor for value in values), target


def _ease_line(job: Job, body: Sized, finished: Sized) -> _Line:
    """Finished less body, from the numbers printed in each system, with its sign."""
    rows = []
    for system in ordered_systems(body.unit, job.setting):
        worn, unit = _tabled(*finished.numbers(job, system))
        bare, _ = _tabled(*body.numbers(job, system))
        texts = []
        for wide, fits in zip(job.setting.pick(worn), job.setting.pick(bare), strict=True):
            texts.append("–" if wide is None or fits is None else _signed(wide - fits, unit))
        rows.append((unit, tuple(texts)))
    return _Line(job.say("sizes", "ease", label=finished.label, body=body.label), tuple(rows))


def _signed(value: Fraction, unit: str) -> str:
    text = (mixed if unit in ("in", "ft") else decimal)(abs(value))
    return f"{'−' if value < 0 else '+' if value > 0 else ''}{text}"


def _wide_tables(job: Job, groups: list[tuple[str, list[_Line]]]) -> list[Table]:
    """Sizes across, measures down; a table for each system, so that nobody has to skip every other line."""
    names = job.setting.heads
    tables = []
    for system in job.setting.systems:
        other_too = system if len(job.setting.systems) > 1 else None
        wanted = "in" if system == "imperial" else "cm"
        head = (
            Cell((Text(job.say("sizes", "measure")),), "column"),
            *(Cell((Text(name),), "column", "center") for name in names),
        )
        body: list[tuple[Cell, ...]] = []
        for group, lines in groups:
            for line in lines:
                label = line.label if group == "ease" else job.say("sizes", group, label=line.label)
                for unit, texts in line.rows:
                    if unit == wanted:
                        cells = (Cell((Text(text),), None, "center") for text in texts)
                        body.append((Cell((Text(label),), "row"), *cells))
        caption = (Text(job.say("sizes", f"caption_{system}")),)
        tables.append(Table(caption, (head,), tuple(body), key=f"sizes-{system}", system=other_too))
    return tables


def _one_size_table(job: Job, groups: list[tuple[str, list[_Line]]]) -> Table:
    """Measures down, systems across: all there is to say of one size."""
    # on a web page the reader chooses a system, and sees one cell
    paired = job.edition.reading == "web" and len(job.setting.systems) > 1
    width = 1 if paired else max(len(line.rows) for _, lines in groups for line in lines)
    name = job.setting.pick(job.setting.sizes)[0]
    head = (
        (
            Cell((Text(job.say("sizes", "measure")),), "column"),
            Cell((Text(job.say("sizes", "size", name=name)),), "column", "left", columns=width),
        ),
    )
    body: list[tuple[Cell, ...]] = []
    for group, lines in groups:
        for line in lines:
            label = line.label if group == "ease" else job.say("sizes", group, label=line.label)
            if paired and len(line.rows) == 2:
                body.append((Cell((Text(label),), "row"), Cell((_pair(line.rows),))))
                continue
            texts = [f"{texts[0]}\u00a0{unit}" for unit, texts in line.rows]
            cells = [Cell((Text(text),)) for text in texts]
            body.append((Cell((Text(label),), "row"), *cells, *[Cell()] * (width - len(cells))))
    return Table((Text(job.say("sizes", "caption")),), head, tuple(body), key="sizes-table")


def _pair(rows: Sequence[tuple[str, tuple[str, ...]]]) -> Pair:
    """The one size's measure in both systems, which a reader may choose from."""
    said: dict[System, Inlines] = {system_of(unit): (Quantity(texts[0], unit),) for unit, texts in rows}
    return Pair(said["metric"], said["imperial"], system_of(rows[0][0]))


def _tables_by_measure(job: Job, groups: list[tuple[str, list[_Line]]]) -> list[Table]:
    """A narrow table for each measure, sizes down: what fits a page in large print."""
    names = job.setting.heads
    tables = []
    for group, lines in groups:
        for number, line in enumerate(lines, 1):
            label = line.label if group == "ease" else job.say("sizes", group, label=line.label)
            head = (
                (
                    Cell((Text(job.say("sizes", "size_column")),), "column"),
                    *(Cell((Text(unit),), "column") for unit, _ in line.rows),
                ),
            )
            body = tuple(
                (Cell((Text(name),), "row"), *(Cell((Text(texts[index]),)) for _, texts in line.rows))
                for index, name in enumerate(names)
            )
            tables.append(Table((Text(label),), head, body, key=f"sizes-{group}-{number}"))
    return tables
