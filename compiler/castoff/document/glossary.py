"""Abbreviations and special stitches, found from the rows as they are printed.

In: the blocks of the instructions (and notes), and the job. Out: the two lists. They are gathered from the short
forms that the printed rows hold, so that none is missing, none is spare, and each is in the words of the edition's
country. A list that
the author typed is printed as typed: the checks hold it against use.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from castoff.document.chart import charts_of, how_to_read
from castoff.document.job import Job
from castoff.document.line import set_line
from castoff.document.tree import (
    Abbreviation,
    Block,
    Blocks,
    BulletList,
    Emphasis,
    Fact,
    FactList,
    Heading,
    Inline,
    Inlines,
    InstructionList,
    Link,
    NoBreak,
    NumberedList,
    Paragraph,
    StitchTerm,
    Strong,
    Text,
    plain_text,
    walk,
)
from castoff.notation.syntax import InstructionLine


def glossary(job: Job, blocks: Blocks) -> Blocks:
    """The lists that stand before the instructions: abbreviations, then special stitches."""
    patterns = _stitch_patterns(job)
    every = (*blocks, *patterns)
    return (*_abbreviations(job, every), *_techniques(job, every), *patterns)


Term: TypeAlias = Abbreviation | StitchTerm


def used(blocks: Blocks) -> tuple[tuple[str, Term], ...]:
    """The short forms that printed blocks hold, each once, in order of first use, as the lists have them.

    Capital and small letters are one short form, listed as it is typed: `2/2 LC`, `RS`, `St st`. Only where it stands
    nowhere but at the head of a sentence its first letter says nothing, and becomes small.
    """
    found: dict[str, tuple[str, Term, bool]] = {}
    for block in walk(blocks):
        for inline in _inlines(block):
            for node, opens in _terms(inline, True):
                text = node.text.rstrip(".")
                known = found.get(text.casefold())
                if known is None or (known[2] and not opens):
                    found[text.casefold()] = (text, node, opens)
    return tuple((_entry(text, node, opens), node) for text, node, opens in found.values())


def _inlines(block: object) -> Iterator[Inlines]:
    if isinstance(block, (Paragraph, Heading)):
        yield block.inline
    elif isinstance(block, InstructionList):
        for row in block.rows:
            yield from (part for part in (row.label, row.text, row.stated) if part)
    elif isinstance(block, (BulletList, NumberedList)):
        return


def _terms(inline: Inlines, opens: bool) -> Iterator[tuple[Term, bool]]:
    """Short forms, and whether each opens a sentence, where it has a capital for that alone."""
    for node in inline:
        if isinstance(node, (Abbreviation, StitchTerm)):
            yield node, opens
        elif isinstance(node, (Strong, Emphasis, NoBreak, Link)):
            yield from _terms(node.inline, opens)
        said = plain_text((node,)).rstrip(' \u00a0*([{"“')
        opens = said.endswith((".", ":", "!", "?")) if said else opens


def _entry(text: str, node: Term, opens: bool) -> str:
    """A short form as the list has it. opens: it was only seen at the head of a sentence."""
    capitals = sum(char.isupper() for char in text)
    if len(text) == 1:
        return text.lower() if isinstance(node, StitchTerm) else text
    return text[0].lower() + text[1:] if opens and capitals == 1 and text[0].isupper() else text


def _abbreviations(job: Job, blocks: Blocks) -> Blocks:
    if job.setting.written_out:
        return ()
    typed = job.pattern.abbreviations
    if typed:
        facts = [Fact((Text(each.key.value),), (job.inline(each.words),)) for each in typed]
    else:
        entries = {entry: node.expansion for entry, node in used(blocks)}
        ordered = sorted(_paired(entries), key=lambda each: (each[0].casefold(), each[0]))
        facts = [Fact((Text(short),), ((Text(words),),)) for short, words in ordered]
    if not facts:
        return ()
    heading = Heading(2, (Text(job.say("headings", "abbreviations")),), "abbreviations")
    return heading, FactList(tuple(facts), "glossary", "abbreviations-list")


def _paired(entries: dict[str, str]) -> Iterator[tuple[str, str]]:
    """Entries, a short form and its plural as one: "rnd(s)", "round(s)"."""
    for short, words in entries.items():
        plural = entries.get(short + "s")
        if plural is not None and plural.startswith(words):
            yield f"{short}(s)", f"{words}({plural[len(words) :]})"
        elif not (short.endswith("s") and (single := entries.get(short[:-1])) is not None and words.startswith(single)):
            yield short, words


def _techniques(job: Job, blocks: Blocks) -> Blocks:
    """Stitches beyond knit and purl, with how they are worked; the author's own in the author's words."""
    own = {each.key.value.lower(): each for each in job.pattern.stitches}
    spoken = _by_words(job)
    facts: dict[str, Fact] = {}
    for entry, node in used(blocks):
        if not isinstance(node, StitchTerm):
            continue
        mine = own.get(entry.lower()) or own.get(spoken.get(entry.lower(), ""))
        if mine is not None:
            says: list[Inlines] = [(Text(mine.words.value + "."),)]
            if mine.how is not None:
                says.append(job.inline(mine.how))
            facts.setdefault(mine.key.value, Fact((Text(entry),), tuple(says)))
            continue
        stitch = job.trade.stitches.find(spoken.get(entry.lower(), entry))
        if stitch is None or not stitch.how or stitch.name in ("k", "p"):
            continue
        words: list[Inline] = [Text(job.language.words(stitch.how))]
        facts.setdefault(stitch.name, Fact((Text(entry),), (tuple(words),)))
    if not facts:
        return ()
    heading = Heading(2, (Text(job.say("headings", "techniques")),), "techniques")
    return heading, FactList(tuple(facts.values()), "glossary", "techniques-list")


def _by_words(job: Job) -> dict[str, str]:
    """For a written-out edition: the words of each stitch used, and its name."""
    if not job.setting.written_out:
        return {}
    found: dict[str, str] = {}
    for name in job.knitted.stitch_names():
        stitch = job.trade.stitches.find(name)
        if stitch is not None:
            found[(stitch.spoken or stitch.words).lower()] = stitch.name
    for each in job.pattern.stitches:
        found[each.words.value.lower()] = each.key.value.lower()
    return found


def _stitch_patterns(job: Job) -> Blocks:
    """The author's stitch patterns with their multiple and rows."""
    found: list[Block] = []
    for number, pattern in enumerate(job.pattern.stitch_patterns, 1):
        if not found:
            found.append(Heading(2, (Text(job.say("headings", "stitch_patterns")),), "stitch-patterns"))
            found.extend(how_to_read(job))
        found.append(Heading(3, (Text(pattern.key.value),), f"stitch-pattern-{number}"))
        words = job.say("instructions", "multiple", multiple=pattern.multiple.value, plus=pattern.plus.value)
        found.append(Paragraph((Text(words),), "note"))
        rows = (
            set_line(line, job.setting, job.language)
            for line in job.pattern_lines.get(pattern.key.value, ())
            if isinstance(line, InstructionLine)
        )
        found.append(InstructionList(tuple(row for row in rows if row is not None), f"stitch-pattern-{number}-rows"))
        found.extend(job.markdown(pattern.note, role="note", level=4))
        found.extend(charts_of(job, pattern.key.value, number))
    return tuple(found)
