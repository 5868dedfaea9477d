"""Tick lists: the rows of shaped sections with boxes, for "where am I".

In: the job, whose knitting knows every row of every size. Out: an appendix of tables. A one-size edition lists the rows
one by one, each with the count it leaves. With several sizes, rows that come round again and again stand in one line
with a box for each time; a list is printed for the sections that follow the same course in all sizes, with counts per
size.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from castoff.document.courses import Row, parts_of
from castoff.document.job import Job
from castoff.document.timetable import named
from castoff.document.tree import Blocks, Heading, Inlines, Paragraph, Text, TickRow, TickTable
from castoff.document.wording import counts, joined
from castoff.knitting.fabric import SectionKnitted
from castoff.knitting.slope import Records

_NUMBERED = re.compile(r"(row|rnd|round) (\d+)")
FEWEST_CHANGES = 3
"""Rows that change the count, from which a section counts as shaped."""
MOST_BOXES = 40
"""Boxes in one line."""
MOST_ROWS = 400
"""Rows of a section beyond which nobody ticks them off one by one."""
LONGEST_CYCLE = 8
"""Rows in the longest group that is looked for as coming round again."""


@dataclass(frozen=True, slots=True)
class Group:
    """Rows that are worked one after the other, so many times. after: the count at the end."""

    labels: tuple[str, ...]
    times: int
    before: int
    after: int


def tick_lists(job: Job) -> Blocks:
    """The appendix; nothing when no section is shaped."""
    tables: list[TickTable] = []
    for index, section in enumerate(job.pattern.sections):
        own = job.only(section.worked_in(job.setting.axes))
        printed = [
            replace(each, records=Records(named(job, index, each)))
            for size in own.setting.pick(job.knitted.sizes)
            for each in size.sections[index : index + 1]
        ]
        if not printed or not all(_shaped(each) for each in printed):
            continue
        lines = _lines(own, printed)
        if lines:
            tables.append(TickTable((Text(section.title.value),), lines, f"ticks-{index + 1}"))
    if not tables:
        return ()
    heading = Heading(2, (Text(job.say("headings", "ticks")),), "ticks")
    return (heading, Paragraph((Text(job.say("ticks", "lead")),), "note"), *tables)


def _shaped(section: SectionKnitted) -> bool:
    changes = sum(record.rows for record in section.records if record.after != record.before)
    return changes >= FEWEST_CHANGES and sum(record.rows for record in section.records) <= MOST_ROWS


def _lines(job: Job, sections: Sequence[SectionKnitted]) -> tuple[TickRow, ...]:
    """The lines of one table; empty when the sizes do not follow the same course."""
    if len(sections) == 1:
        # in large print a list of every row would outgrow the instructions it belongs to
        groups = tuple(folded(rows_of(sections[0]), one_by_one=job.edition.reading != "large"))
        return tuple(_tick(job, [group]) for group in groups)
    courses = [tuple(folded(rows_of(section))) for section in sections]
    if len({tuple(group.labels for group in course) for course in courses}) > 1:
        return ()
    return tuple(_tick(job, [course[at] for course in courses]) for at in range(len(courses[0])))


def rows_of(section: SectionKnitted) -> tuple[Row, ...]:
    """Every row of a section in working order, one part after the other."""
    return tuple(row for part in parts_of(section.records) for row in part)


def folded(rows: Sequence[Row], one_by_one: bool = False) -> Iterator[Group]:
    """Rows as groups that come round again: at each point the cycle that covers most, the shorter of equals.

    one_by_one: rows that change the count are listed each for itself; only plain rows are folded.
    """
    at = 0
    while at < len(rows):
        best, times = 1, 1
        for length in range(1, LONGEST_CYCLE + 1):
            cycle = [row.label for row in rows[at : at + length]]
            if len(cycle) < length or (one_by_one and _changes(rows[at : at + length])):
                break
            count = 1
            while [row.label for row in rows[at + count * length : at + (count + 1) * length]] == cycle:
                if one_by_one and _changes(rows[at + count * length : at + (count + 1) * length]):
                    break
                count += 1
            if count > 1 and count * length > best * times:
                best, times = length, count
        last = rows[at + best * times - 1]
        yield Group(tuple(row.label for row in rows[at : at + best]), times, rows[at].before, last.after)
        at += best * times


def _changes(rows: Sequence[Row]) -> bool:
    return any(row.before != row.after for row in rows)


def _tick(job: Job, groups: Sequence[Group]) -> TickRow:
    """One line: the labels, how often and what count they leave in each size, a box for each time."""
    times = [group.times for group in groups]
    remark: Inlines = ()
    if any(group.before != group.after for group in groups):
        remark = (*_per_size(job, [group.after for group in groups]), Text(f"\u00a0{job.say('ticks', 'stitches')}"))
    # a long plain stretch goes by its length: one box, and the number of rows for whoever counts them
    boxes = max(times) if max(times) <= MOST_BOXES else 1
    told = () if set(times) == {boxes} else (*_per_size(job, times), Text(f"\u00a0{job.say('ticks', 'times')}"))
    label = job.language.words(_in_few_words(groups[0].labels))
    return TickRow((Text(label[:1].upper() + label[1:]),), remark, boxes, told)


def _in_few_words(labels: Sequence[str]) -> str:
    """Names of rows as one: "row 1", "row 2", "row 3" are "rows 1–3"."""
    numbered = [_NUMBERED.fullmatch(label) for label in labels]
    kinds = {match[1] for match in numbered if match is not None}
    numbers = [int(match[2]) for match in numbered if match is not None]
    if len(labels) > 1 and len(numbers) == len(labels) and len(kinds) == 1:
        first, last = numbers[0], numbers[-1]
        if numbers == list(range(first, last + 1)):
            return f"{kinds.pop()}s {first} and {last}" if last == first + 1 else f"{kinds.pop()}s {first}–{last}"
    return joined(labels)


def _per_size(job: Job, values: Sequence[int]) -> Inlines:
    """Numbers of the printed sizes as a list."""
    if job.setting.shown is not None:
        return (Text(str(values[0])),)
    every = dict(zip(job.setting.shows, values, strict=True))
    return counts([every.get(size) for size in range(len(job.setting.sizes))], job.setting)
