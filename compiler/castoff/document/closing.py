"""What stands at the end: care, help, who tested it, changes, terms of use, and what the pattern claims for itself.

In: the job. Out: blocks. That every size was worked by machine is claimed only when nothing was taken on trust and no
finding was left or accepted; otherwise the page says what was not proven, and where.
"""

from __future__ import annotations

from dataclasses import dataclass

from castoff.document.job import Job
from castoff.document.pictures import END, figures_for
from castoff.document.tree import (
    Block,
    Blocks,
    BulletList,
    Cell,
    Heading,
    Inlines,
    Paragraph,
    Table,
    Text,
)
from castoff.document.wording import joined
from castoff.model.pattern import Change
from castoff.span import Text as SourceText


def notes(job: Job) -> Blocks:
    """The author's notes, before the instructions."""
    return _headed(job, "notes", job.pattern.notes)


def care(job: Job) -> Blocks:
    """How to wash it."""
    return _headed(job, "care", job.pattern.care)


def last_pictures(job: Job) -> Blocks:
    """Pictures whose place is the end, or nowhere in particular."""
    figures = tuple(figures_for(job, END))
    return (Heading(2, (Text(job.say("headings", "pictures")),), "pictures"), *figures) if figures else ()


def help_and_history(job: Job) -> Blocks:
    """Where to ask, and what has changed."""
    return (*_headed(job, "help", job.pattern.help), *_history(job))


def _headed(job: Job, name: str, text: SourceText | None) -> Blocks:
    blocks = job.markdown(text)
    return (Heading(2, (Text(job.say("headings", name)),), name), *blocks) if blocks else ()


def _history(job: Job) -> Blocks:
    changes = job.pattern.history
    if not changes:
        return ()
    head = tuple(Cell((Text(job.say("closing", name)),), "column") for name in ("version", "date", "change"))
    body = tuple(_change(job, change) for change in changes)
    caption = (Text(job.say("closing", "history_caption")),)
    heading = Heading(2, (Text(job.say("headings", "history")),), "history")
    return heading, Table(caption, (head,), body, key="history-table")


def _change(job: Job, change: Change) -> tuple[Cell, ...]:
    date = (Text(change.date.value.isoformat()),)
    return Cell((Text(change.version.value),), "row"), Cell(date), Cell(job.inline(change.change))


# ── colophon ──────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Unproven:
    """Why the pattern cannot claim to be proven.

    trusted: places taken on trust, as (section title, words). open: rule names of findings left, with how many.
    accepted: rule names of accepted findings, with the author's reasons.
    """

    trusted: tuple[tuple[str, str], ...] = ()
    open: tuple[tuple[str, int], ...] = ()
    accepted: tuple[tuple[str, str], ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether nothing stands against the claim."""
        return not (self.trusted or self.open or self.accepted)


def unproven(job: Job) -> Unproven:
    """What stands against the claim that every size was worked by machine."""
    trusted: dict[tuple[str, str], None] = {}
    for size in job.knitted.sizes:
        for span in size.trusted:
            words = " ".join(span.source.text[span.start : span.end].split())
            trusted.setdefault((_section_at(job, span.start), words))
    open_: dict[str, int] = {}
    for finding in job.earlier:
        if finding.severity != "note":
            open_[finding.rule.name] = open_.get(finding.rule.name, 0) + 1
    allowed = {each.rule.value: each.because.value for each in job.pattern.allow}
    accepted = {finding.rule.name: allowed.get(finding.rule.name, "") for finding in job.accepted}
    return Unproven(tuple(trusted), tuple(sorted(open_.items())), tuple(accepted.items()))


def _section_at(job: Job, offset: int) -> str:
    """Title of the section whose text holds a place of the source."""
    title = ""
    for section in job.pattern.sections:
        if section.title.span().start <= offset:
            title = section.title.value
    return title


def colophon(job: Job) -> Blocks:
    """The last block: version and date, makers, claim, terms of use, notice."""
    pattern = job.pattern
    blocks: list[Block] = [Heading(2, (Text(job.say("headings", "colophon")),), "colophon")]
    made = job.say(
        "closing",
        "made",
        version=pattern.version.value if pattern.version is not None else "",
        date=pattern.date.value.isoformat() if pattern.date is not None else "",
        designer=pattern.designer.value if pattern.designer is not None else "",
        studio=pattern.studio.value if pattern.studio is not None else "",
        edition=job.edition.description(job.setting.sizes),
    )
    blocks.append(Paragraph((Text(made),), "colophon"))
    blocks.extend(_claim(job))
    if pattern.tested:
        names = [name.value for name in pattern.tested]
        every = len(names) == len(pattern.sizes)
        words = job.say("closing", "tested", names=joined(names), every=every, one=len(names) == 1)
        blocks.append(Paragraph((Text(words),), "colophon"))
    blocks.extend(job.markdown(pattern.terms_of_use, role="colophon"))
    if pattern.invented:
        blocks.append(Paragraph((Text(job.say("closing", "invented")),), "notice"))
    return tuple(blocks)


def _claim(job: Job) -> Blocks:
    against = unproven(job)
    pattern = job.pattern
    if not any(job.lines.values()):
        return ()
    if against.nothing:
        words = job.say(
            "closing",
            "proven",
            version=pattern.version.value if pattern.version is not None else "",
            date=pattern.date.value.isoformat() if pattern.date is not None else "",
            excerpt=pattern.excerpt,
        )
        return (Paragraph((Text(words),), "colophon"),)
    items: list[Inlines] = []
    for section, words in against.trusted:
        items.append((Text(job.say("closing", "on_trust", section=section, words=words)),))
    for rule, count in against.open:
        items.append((Text(job.say("closing", "open", rule=rule.replace("-", " "), count=count)),))
    for rule, because in against.accepted:
        items.append((Text(job.say("closing", "accepted", rule=rule.replace("-", " "), because=because)),))
    lead = Paragraph((Text(job.say("closing", "not_proven")),), "colophon")
    return lead, BulletList(tuple((Paragraph(item, "colophon"),) for item in items))
