"""The instructions: every section with its rows, in working order.

In: the job. Out: blocks: a heading for the whole, and for each section its heading, how many to make, its remarks,
its rows. A remark line (`>`) stands between the rows where the author put it; a line for some sizes is said to be so,
and is indented beneath that; in a one-size edition what is not for the size is gone, announcements included.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from castoff.document.job import Job
from castoff.document.line import set_line
from castoff.document.pictures import figures_for
from castoff.document.timetable import pointer
from castoff.document.tree import (
    Block,
    Blocks,
    Heading,
    Inlines,
    InstructionList,
    InstructionRow,
    Paragraph,
    Text,
)
from castoff.document.wording import joined
from castoff.model.pattern import Section
from castoff.notation.syntax import InstructionLine, Line, ProseLine, SizesLine, UnreadLine


def instructions(job: Job) -> Blocks:
    """All sections under one heading; nothing for a pattern without sections."""
    sections = [(index, section) for index, section in enumerate(job.pattern.sections)]
    if not sections:
        return ()
    blocks: list[Block] = [Heading(2, (Text(job.say("headings", "instructions")),), "instructions")]
    axes = job.setting.axes
    seconds = sorted({axes.place(size)[1] for size in job.setting.shows}) if axes.second else []
    if len(seconds) > 1:
        words = [axes.words(1, at) for at in seconds]
        said = job.say("instructions", "bars", names=joined(words), order=" | ".join(words))
        blocks.append(Paragraph((Text(said),), "note"))
        job = replace(job, setting=replace(job.setting, bars=True))
        job = replace(job, language=replace(job.language, setting=job.setting))
    opened: set[str] = set()
    for index, section in sections:
        worked = section.worked_in(job.setting.axes)
        if not any(job.setting.pick(worked)):
            continue
        own = job.only(worked)
        rows = tuple(section_blocks(own, index, section))
        first = section.piece.value not in opened
        opened.add(section.piece.value)
        making = _make(job, section) if first else ()
        if not rows and not making:
            continue
        blocks.append(Heading(3, job.prose.inline(section.title), f"section-{index + 1}"))
        blocks.extend(making)
        blocks.extend(_choice(job, section))
        blocks.extend(figures_for(job, section.title.value))
        if section.begins is not None:
            blocks.append(Paragraph(job.inline(section.begins), "note"))
        blocks.extend(job.markdown(section.notes, role="note", level=4))
        blocks.extend(rows)
        blocks.extend(pointer(job, index))
    return tuple(blocks) if len(blocks) > 1 else ()


def _make(job: Job, section: Section) -> Blocks:
    """How many of the piece to make, said at its first section."""
    if section.make.value < 2:
        return ()
    together = [
        other.title.value
        for other in job.pattern.sections
        if other.piece.value == section.piece.value
        and other.make.value == section.make.value
        and any(job.setting.pick(other.worked_in(job.setting.axes)))
    ]
    several = len(together) > 1
    words = job.say("instructions", "make", count=section.make.value, sections=joined(together), several=several)
    return (Paragraph((Text(words),), "note"),)


def _choice(job: Job, section: Section) -> Blocks:
    """For which choice a section is worked; nothing in an edition that has chosen."""
    if all(job.setting.pick(section.worked_in(job.setting.axes))):
        return ()
    options = {
        option.key: {choice.key: choice.words for choice in option.choices} for option in job.setting.axes.options
    }
    words = [options[option.value][choice.value] for option, choice in section.option]
    return (Paragraph((Text(job.say("instructions", "choice", choice=joined(words))),), "note"),)


def section_blocks(job: Job, index: int, section: Section) -> Iterator[Block]:
    """Rows and remarks of one section."""
    rows: list[InstructionRow] = []
    lists = 0
    narrowed = False
    for line in job.lines.get(index, ()):
        if isinstance(line, ProseLine):
            if any(job.setting.pick(line.sizes)):
                if rows:
                    lists += 1
                    yield InstructionList(tuple(rows), f"section-{index + 1}-rows-{lists}")
                    rows = []
                yield from job.markdown(line.text, role="note", level=4)
            continue
        if isinstance(line, SizesLine):
            printed = job.setting.pick(line.sizes)
            if not any(printed) or (all(printed) and not narrowed):
                # it parts sizes or choices of which only one is printed
                continue
            narrowed = not all(printed)
        row = _row(job, line)
        if row is not None:
            rows.append(row)
    if rows:
        yield InstructionList(tuple(rows), f"section-{index + 1}-rows-{lists + 1}")


def _row(job: Job, line: Line) -> InstructionRow | None:
    match line:
        case InstructionLine():
            own = job.only(line.sizes)
            for_all = all(job.setting.pick(line.sizes))
            row = set_line(line, own.setting, own.language, for_all=for_all)
            # a line for one cup alone stands beneath the words that say so, like one for some sizes
            return row if row is None or for_all else replace(row, indent=1)
        case SizesLine():
            return InstructionRow(None, _announced(job, line))
        case UnreadLine():
            # its error stops the build; for a proof the words stand as typed
            return InstructionRow(None, (Text(line.text.value.strip()),))
    return None


def _announced(job: Job, line: SizesLine) -> Inlines:
    if all(job.setting.pick(line.sizes)) and not all(line.sizes):
        # "V neck only:" in an edition of the V neck, where it ends what was for some sizes
        return (Text(job.say("instructions", "all_sizes")),)
    return (Text(job.language.words(line.text.value.strip())),)
