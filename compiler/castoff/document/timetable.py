"""Timetables: where two shapings run AT THE SAME TIME, which row does what, in every size.

In: the job, whose knitting knows every row. Out: an appendix with the rows of each shaping by their numbers, counted from
the first row on which either of them works, and the name of a row for the tick list. The words of the instructions say
how often; this says when, with the counts of every size as they were knitted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from castoff.document.job import Job
from castoff.document.tree import Block, Blocks, Fact, FactList, Heading, Inlines, Link, Paragraph, Text
from castoff.document.wording import joined
from castoff.knitting.fabric import Event, RowRecord, SectionKnitted
from castoff.notation.nodes import nodes_of
from castoff.notation.syntax import (
    AtBeginning,
    EndShaping,
    InstructionLine,
    Meanwhile,
    RowStep,
    ShapeRows,
    Side,
    Step,
    WorkRows,
)
from castoff.span import Span

BESIDE = "at the same time"
"""Name of what happens to a row beside the row's own work."""
KEY = "timetable"


@dataclass(frozen=True, slots=True)
class Shaping:
    """A row on which something is shaped.

    number: counted from the first of the timetable. acts: what is done on it, in words, the row's own work first.
    after: stitches that it leaves. side: that faces the knitter; None in the round.
    """

    number: int
    acts: tuple[str, ...]
    after: int
    side: Side | None


def timetables(job: Job) -> Blocks:
    """The appendix; nothing when no two shapings run beside each other. Sections that shape alike share a table."""
    tables: dict[tuple[Fact, ...], list[int]] = {}
    for index in range(len(job.pattern.sections)):
        facts = _facts(job, index)
        if facts:
            tables.setdefault(facts, []).append(index)
    if not tables:
        return ()
    blocks: list[Block] = [
        Heading(2, (Text(job.say("headings", "timetable")),), KEY),
        Paragraph((Text(job.say("timetable", "lead")),), "note"),
    ]
    for facts, sections in tables.items():
        titles = joined([job.pattern.sections[index].title.value for index in sections])
        blocks.append(Heading(3, (Text(titles),), f"{KEY}-{sections[0] + 1}"))
        blocks.append(FactList(facts, "facts", f"{KEY}-{sections[0] + 1}-rows"))
    return tuple(blocks)


def pointer(job: Job, index: int) -> Blocks:
    """Beneath the rows of a section: that its timetable stands at the end; nothing when it has none."""
    if not _facts(job, index):
        return ()
    link = Link((Text(job.say("headings", "timetable")),), f"#{KEY}")
    before, _, after = job.say("timetable", "pointer", heading="#").partition("#")
    return (Paragraph((Text(before), link, Text(after)), "note"),)


def _facts(job: Job, index: int) -> tuple[Fact, ...]:
    """A fact for each size, or one for all when they shape on the same rows."""
    own = job.only(job.pattern.sections[index].worked_in(job.setting.axes))
    told = _told_in(job, index)
    tables = [
        (name, shapings(job, told, size.sections[index]))
        for name, size in zip(own.setting.pick(job.setting.sizes), own.setting.pick(job.knitted.sizes), strict=True)
        if index < len(size.sections)
    ]
    if not any(table for _, table in tables):
        return ()
    if len({table for _, table in tables}) == 1:
        names = [name for name, _ in tables]
        every = job.say("timetable", "every_size", one=len(names) == 1, name=names[0])
        return (Fact((Text(every),), _says(job, tables[0][1])),)
    facts = [Fact((Text(name),), _says(job, table)) for name, table in tables if table]
    return tuple(facts)


def _says(job: Job, table: Sequence[Shaping]) -> tuple[Inlines, ...]:
    """A line for each act with the numbers of its rows, and what is left at the end."""
    by_act: dict[str, list[int]] = {}
    for row in table:
        for act in row.acts:
            by_act.setdefault(act, []).append(row.number)
    lines = [
        job.say(
            "timetable",
            "rows",
            act=act[:1].upper() + act[1:],
            rows=joined([str(each) for each in numbers]),
            one=len(numbers) == 1,
        )
        for act, numbers in by_act.items()
    ]
    last = table[-1]
    lines.append(job.say("timetable", "leaves", row=last.number, after=last.after, side=table[0].side or ""))
    return tuple((Text(line),) for line in lines)


# ── the rows of a section ─────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Told:
    """What the lines of a section say of shaping, the same for all its sizes.

    acts: the shaping steps by their places. with_two: places of the steps of the lines that say "at the same time": each
    of the two may have rows to itself.
    """

    acts: Mapping[Span, Step]
    with_two: frozenset[Span]


def _told_in(job: Job, index: int) -> Told:
    lines = [tuple(nodes_of(line.steps)) for line in job.lines.get(index, ()) if isinstance(line, InstructionLine)]
    acts = {node.span: node for nodes in lines for node in nodes if isinstance(node, (ShapeRows, AtBeginning))}
    with_two = frozenset(
        node.span
        for nodes in lines
        if any(isinstance(node, Meanwhile) for node in nodes)
        for node in nodes
        if isinstance(node, (ShapeRows, AtBeginning, RowStep, WorkRows))
    )
    return Told(acts, with_two)


def shapings(job: Job, told: Told, section: SectionKnitted) -> tuple[Shaping, ...]:
    """The rows of a section on which something is shaped while a second shaping runs, in working order.

    Empty when nothing runs beside anything else. They reach from the first to the last row of the lines concerned.
    """
    beside = {event.span for record in section.records for event in _beside(record)}
    if not beside:
        return ()
    spans = beside | {record.span for record in section.records if _beside(record)} | told.with_two
    held = [record for record in section.records if record.span in spans]
    first, last = min(record.row for record in held), max(record.last_row for record in held)
    rows = [
        (number, record)
        for record in section.records
        if record.after != record.before or _beside(record)
        for number in range(record.row, record.last_row + 1, record.step)
        if first <= number <= last
    ]
    rows.sort(key=lambda each: each[0])
    first = rows[0][0]
    return tuple(
        Shaping(row - first + 1, _told(job, record, told.acts), record.after, _side(record)) for row, record in rows
    )


def named(job: Job, index: int, section: SectionKnitted) -> Iterator[RowRecord]:
    """The records of a section, those that shape beside other rows under the name of what they do."""
    known = _told_in(job, index).acts if any(_beside(record) for record in section.records) else {}
    for record in section.records:
        yield replace(record, label=_brief(job, record, known)) if _beside(record) else record


def _side(record: RowRecord) -> Side | None:
    return None if record.form == "round" else record.side


def _beside(record: RowRecord) -> tuple[Event, ...]:
    return tuple(event for event in record.changes if event.name == BESIDE)


def _brief(job: Job, record: RowRecord, known: Mapping[Span, Step]) -> str:
    """What is done on a row in few words, "dec at armhole and neck", where the acts are alike; else each in full."""
    own = _own(record)
    steps = [(known.get(record.span) if record.span else None, own)] if own else []
    steps += [(known.get(event.span) if event.span else None, _signed(event)) for event in _beside(record)]
    ends = [step.act.ends for step, _ in steps if isinstance(step, ShapeRows) and isinstance(step.act, EndShaping)]
    if (
        len(ends) < len(steps)
        or not all(end.endswith(" edge") for end in ends)
        or len({change for _, change in steps}) > 1
    ):
        return joined(_told(job, record, known))
    return job.say("timetable", "brief", change=steps[0][1], where=joined([end.removesuffix(" edge") for end in ends]))


def _own(record: RowRecord) -> int:
    """Stitches that a row adds or takes by its own work."""
    return record.after - record.before - sum(_signed(event) for event in _beside(record))


def _told(job: Job, record: RowRecord, known: Mapping[Span, Step]) -> tuple[str, ...]:
    """What is done on a row: its own work when that changes the count, then what runs beside it."""
    beside = _beside(record)
    own = _own(record)
    acts = [_words(job, known.get(event.span) if event.span else None, _signed(event), "") for event in beside]
    if own:
        acts.insert(0, _words(job, known.get(record.span) if record.span else None, own, record.label))
    return tuple(acts)


def _signed(event: Event) -> int:
    return event.count if event.kind == "increase" else -event.count


def _words(job: Job, step: Step | None, change: int, label: str) -> str:
    """An act in words, by the step that asks for it; by the row's name where it is a row that was written out."""
    act = step.act if isinstance(step, (ShapeRows, AtBeginning)) else None
    where = act.ends if isinstance(act, EndShaping) else ""
    if isinstance(step, AtBeginning):
        where = "end" if step.at_end else "beginning"
    if act is None and label:
        return label
    kind = "" if act is None or isinstance(act, EndShaping) else type(act).__name__
    return job.say("timetable", "act", kind=kind, change=change, count=abs(change), where=where)
