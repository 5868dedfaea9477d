"""An edition read back: its printed rows parsed and knitted again, as proof that a change of words changed nothing.

In: a proof, an edition, and rows as they are printed. Out: the fabric that those rows make, and findings where an edition
in another country's words makes another one than the same edition in the source's own words. Both are read from print,
so that lengths are rounded alike in both and every row must agree.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from castoff.diagnostic import Checked, Diagnostic, Rule
from castoff.document.edition import Edition
from castoff.document.tree import Document, Heading, InstructionList, InstructionRow, plain_text, walk
from castoff.knitting.fabric import Knitted, RowRecord
from castoff.knitting.knit import knit
from castoff.notation.lines import parse_work
from castoff.per_size import SizeNames
from castoff.pipeline import Proof, make_vocabulary
from castoff.span import Text

EDITION_READS_DIFFERENTLY = Rule(
    "edition-reads-differently",
    "error",
    """An edition in another country's words does not say the same.

    Words are turned from US to UK or back one phrase at a time, and a phrase can mean something else in its new place. So
    the rows of such an edition are read and knitted again, and held row by row against the same edition in the source's
    own words. Where they part, or a turned line can no longer be read, the edition is not set.

    Fires:   a house's own table of words with {us: work even, uk: decrease}
    Silent:  a house's own table of words with {us: work even, uk: work straight}
    """,
)
RULES = (EDITION_READS_DIFFERENTLY,)

UK_YARN_OVERS = ("yfwd", "yrn", "yon", "yfrn")
"""What one US yarn over is called by the stitches beside it: one loop made, all of them."""

Rows = Mapping[int, tuple[str, ...]]
"""Printed rows by the section's place in the pattern."""


def printed_rows(document: Document) -> Rows:
    """The rows of a document, each as the line that stands on the page."""
    found: dict[int, list[str]] = {}
    section = -1
    for block in walk(document.blocks):
        if isinstance(block, Heading):
            section = int(block.key.split("-")[1]) - 1 if block.key.startswith("section-") else -1
        elif isinstance(block, InstructionList) and section >= 0:
            found.setdefault(section, []).extend(map(_line, block.rows))
    return {index: tuple(rows) for index, rows in found.items()}


def _line(row: InstructionRow) -> str:
    label = f"{plain_text(row.label)}: " if row.label else ""
    stated = f" {plain_text(row.stated)}" if row.stated else ""
    return f"{label}{plain_text(row.text)}{stated}"


def knit_again(proof: Proof, edition: Edition, rows: Rows) -> Checked[Knitted]:
    """What the rows of an edition make, in the sizes and the words of the edition.

    Everything the rows do not say is the proof's: gauges, needles, yarns, opening states. The findings are those of
    reading and knitting, with places in the printed rows.
    """
    if proof.pattern is None or proof.numbers is None or proof.trade is None or proof.plan is None:
        raise ValueError("a pattern without a proof has no editions to read")
    names = proof.pattern.sizes.labels
    shown = edition.sizes(names)
    sizes: tuple[str, ...] = (names[shown[0]],)
    if edition.size is None:
        sizes = SizeNames.of(proof.pattern.sizes.axes.keeping(edition.kept)) if edition.kept else names
    vocabulary = make_vocabulary(proof.pattern, proof.numbers, proof.trade)
    vocabulary = replace(vocabulary, sizes=sizes, terms=edition.terms or vocabulary.terms)
    findings: list[Diagnostic] = []
    sections = []
    for index, section in enumerate(proof.plan.sections):
        read = parse_work(Text.plain("\n".join(rows.get(index, ()))), vocabulary)
        findings += read.findings
        worked_in = None if section.sizes is None else tuple(section.sizes[size] for size in shown)
        sections.append(replace(section, lines=read.value, sizes=worked_in))
    patterns = dict(proof.plan.patterns)
    if len(shown) < len(names):
        for each in proof.pattern.stitch_patterns:
            key = each.key.value.lower()
            patterns[key] = replace(patterns[key], lines=parse_work(each.rows, vocabulary).value)
    knitting = knit(replace(proof.plan, sizes=sizes, sections=tuple(sections), patterns=patterns))
    return Checked(knitting.value, (*findings, *knitting.findings))


def mind_the_words(proof: Proof, edition: Edition, printed: Document, own: Document) -> Iterator[Diagnostic]:
    """Where an edition in another country's words and the same edition in the source's own words part.

    printed: the edition's document; own: that of the same edition with no terms asked for. The first difference of each
    section is told, in all sizes that it hits.
    """
    rows, own_rows = printed_rows(printed), printed_rows(own)
    if rows == own_rows:
        return
    here = knit_again(proof, edition, rows)
    home = knit_again(proof, replace(edition, terms=None), own_rows)
    known = {finding.message for finding in home.findings}
    told = False
    for finding in here.findings:
        if finding.severity == "error" and finding.message not in known:
            told = True
            yield _unread(proof, edition, finding, rows)
    if not told:
        yield from _partings(proof, edition, here.value, home.value)


def _unread(proof: Proof, edition: Edition, finding: Diagnostic, rows: Rows) -> Diagnostic:
    """A line that the turned words spoil, told at the title of its section."""
    line = finding.span.source.line(finding.span.line).strip() if finding.span is not None else ""
    index = next((index for index, said in rows.items() if line in said), 0)
    where = f" `{line}`" if line else ""
    message = f"the {edition.terms} edition says{where}, and that does not work: {finding.message}"
    assert proof.pattern is not None
    return Diagnostic.of(
        EDITION_READS_DIFFERENTLY, message, proof.pattern.sections[index].title.span(), sizes=finding.sizes
    )


def _partings(proof: Proof, edition: Edition, here: Knitted, home: Knitted) -> Iterator[Diagnostic]:
    assert proof.pattern is not None
    labels = proof.pattern.sizes.labels
    names = tuple(labels[size] for size in edition.sizes(labels))
    for index, section in enumerate(proof.pattern.sections):
        parted = {
            name: said
            for name, size, own in zip(names, here.sizes, home.sizes, strict=True)
            if (said := _parting(size.sections[index].records, own.sections[index].records))
        }
        if parted:
            name, said = next(iter(parted.items()))
            where = f"section `{section.title.value}`"
            message = f"the {edition.terms} edition is knitted differently in {where}: in size {name} {said}"
            yield Diagnostic.of(EDITION_READS_DIFFERENTLY, message, section.title.span(), sizes=tuple(parted))


def _parting(here: Sequence[RowRecord], home: Sequence[RowRecord]) -> str:
    """The first row in which two fabrics part; empty when they are the same."""
    one, other = _unfolded(here), _unfolded(home)
    for place in sorted({*one, *other}):
        row, own = one.get(place), other.get(place)
        if row != own:
            _, number, _ = place
            return f"row {number} is {_told(row)} instead of {_told(own)}"
    return ""


Place = tuple[int, int, int]
"""Part, row of the piece, and which of the rows that share this number: short rows may."""


def _unfolded(records: Sequence[RowRecord]) -> dict[Place, tuple[object, ...]]:
    """Every row by its place: sts before and after, what was worked how often, side, form and whether it is a short row.
    How equal rows were folded plays no part, nor which country's name a yarn over has."""
    rows: dict[Place, tuple[object, ...]] = {}
    for record in records:
        made_of: dict[tuple[str, str], int] = {}
        for (yarn, stitch), count in record.tally:
            stitch = "yo" if stitch in UK_YARN_OVERS else stitch
            made_of[yarn, stitch] = made_of.get((yarn, stitch), 0) + count
        worked = ", ".join(f"{count} {stitch}" for (_, stitch), count in sorted(made_of.items()))
        for number in range(record.row, record.last_row + 1, record.step):
            same = 0
            while (record.part, number, same) in rows:
                same += 1
            made = (record.before, record.after, worked, record.side, record.form, record.short)
            rows[record.part, number, same] = made
    return rows


def _told(row: tuple[object, ...] | None) -> str:
    if row is None:
        return "no row"
    before, after, worked, side, form, short = row
    return f"{before} → {after} sts ({side}, {form}{', short' if short else ''}: {worked})"
