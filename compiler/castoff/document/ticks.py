"""Tick lists: the rows of shaped sections with boxes, for "where am I".

In: the job, whose knitting knows every row of every size. Out: an appendix of tables. A one-size edition lists each
row with the count it leaves. With several sizes, a list is printed for the sections whose rows follow the same course
in all of them; the counts are lists per size, and a row that is worked more often in larger sizes has boxes for the
largest.
"""

from __future__ import annotations

from collections.abc import Sequence

from castoff.document.job import Job
from castoff.document.tree import Blocks, Heading, Inlines, PageBreak, Paragraph, Text, TickRow, TickTable
from castoff.document.wording import counts
from castoff.knitting.fabric import RowRecord, SectionKnitted

FEWEST_CHANGES = 3
"""Rows that change the count, from which a section counts as shaped."""
MOST_BOXES = 60
"""Boxes in one line; longer stretches are plain knitting that nobody ticks off row by row."""


def tick_lists(job: Job) -> Blocks:
    """The appendix; nothing when no section is shaped."""
    tables: list[TickTable] = []
    for index, section in enumerate(job.pattern.sections):
        printed = [
            size.sections[index]
            for size in job.setting.pick(job.knitted.sizes)
            if index < len(size.sections)
        ]
        if not printed or not all(_shaped(each) for each in printed):
            continue
        rows = _rows(job, printed)
        if rows:
            tables.append(TickTable((Text(section.title.value),), rows, f"ticks-{index + 1}"))
    if not tables:
        return ()
    heading = Heading(2, (Text(job.say("headings", "ticks")),), "ticks")
    return (PageBreak(), heading, Paragraph((Text(job.say("ticks", "lead")),), "note"), *tables)


def _shaped(section: SectionKnitted) -> bool:
    changes = sum(record.rows for record in section.records if record.after != record.before)
    return changes >= FEWEST_CHANGES


def _course(section: SectionKnitted) -> tuple[tuple[RowRecord, ...], ...]:
    """Rows in order, stretches of the same two or more labels that follow each other folded together.

    Each entry holds the records that one line of the list stands for.
    """
    found: list[list[RowRecord]] = []
    for record in section.records:
        if found and found[-1][0].label == record.label and found[-1][0].side == record.side:
            found[-1].append(record)
        else:
            found.append([record])
    return tuple(tuple(each) for each in found)


def _rows(job: Job, sections: Sequence[SectionKnitted]) -> tuple[TickRow, ...]:
    """Lines of one table; empty when the sizes do not follow the same course."""
    courses = [_course(section) for section in sections]
    labels = [tuple(each[0].label for each in course) for course in courses]
    if len(set(labels)) == 1:
        return tuple(_tick(job, [course[at] for course in courses]) for at in range(len(courses[0])))
    return _by_row(job, sections[0]) if len(sections) == 1 else ()


def _tick(job: Job, records: Sequence[Sequence[RowRecord]]) -> TickRow:
    """One line: the label, the count it leaves in each size, a box for each time it is worked."""
    times = [sum(record.rows for record in each) for each in records]
    after = [each[-1].after for each in records]
    before = [each[0].before for each in records]
    remark: Inlines = ()
    if any(first != last for first, last in zip(before, after, strict=True)):
        remark = (*_per_size(job, after), Text(f"\u00a0{job.say('ticks', 'stitches')}"))
    if len(set(times)) > 1:
        behind: Inlines = (Text("; "), *remark) if remark else ()
        remark = (*_per_size(job, times), Text(f" {job.say('ticks', 'times')}"), *behind)
    return TickRow((Text(records[0][0].label),), remark, min(max(times), MOST_BOXES))


def _per_size(job: Job, values: Sequence[int]) -> Inlines:
    """Numbers of the printed sizes as a list."""
    if job.setting.shown is not None:
        return (Text(str(values[0])),)
    return counts(list(values), job.setting)


def _by_row(job: Job, section: SectionKnitted) -> tuple[TickRow, ...]:
    return tuple(_tick(job, [each]) for each in _course(section))
