"""The composition: everything proven about a pattern, as one document tree per edition.

In: pattern, numbers, lines and knitting, the trade, the edition, the house's texts, and the findings so far. Out: a
`Document` with the findings of this stage. The order of the parts is the usual one of the trade; each part has a
module of its own and leaves itself out when the pattern has nothing to say about it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from castoff.diagnostic import Checked, Diagnostic
from castoff.document.cautions import cautions
from castoff.document.closing import care, colophon, help_and_history, last_pictures, notes
from castoff.document.edition import Edition
from castoff.document.front import front, meta
from castoff.document.glossary import glossary
from castoff.document.instructions import instructions
from castoff.document.job import Job, YarnNeed
from castoff.document.language import Language, expander, pairs_of
from castoff.document.materials import materials
from castoff.document.measures import sizes_and_measures
from castoff.document.prose import Prose
from castoff.document.schematic import schematic
from castoff.document.setting import Setting, setting_of
from castoff.document.shape import Shapes, shapes_of
from castoff.document.texts import Texts
from castoff.document.ticks import tick_lists
from castoff.document.timetable import timetables
from castoff.document.tree import Block, Blocks, Contents, Document, FactList, Inlines, PageBreak, Text, TickTable
from castoff.document.wording import listed, measure, mixed
from castoff.document.yarn import needs_of
from castoff.grading.evaluate import Numbers, resolve
from castoff.knitting.chart import Chart
from castoff.knitting.fabric import Knitted
from castoff.model.pattern import Pattern
from castoff.notation.syntax import Line
from castoff.span import Text as SourceText
from castoff.trade import Trade
from castoff.yarn.estimate import estimate

FEW_LINES = 12
"""Lines of an appendix that need no page of their own."""
LONG = 14
"""Sections beyond which a standard edition prints a list of contents."""


def compose(
    pattern: Pattern,
    numbers: Numbers,
    lines: Mapping[int, tuple[Line, ...]],
    knitted: Knitted,
    trade: Trade,
    edition: Edition,
    texts: Callable[[str], str] | Texts,
    findings: tuple[Diagnostic, ...] = (),
    *,
    accepted: tuple[Diagnostic, ...] = (),
    photograph: Callable[[str], bytes] | None = None,
    yarn_needs: Mapping[str, YarnNeed] | None = None,
    pattern_lines: Mapping[str, tuple[Line, ...]] | None = None,
    charts: Mapping[str, Chart] | None = None,
    shapes: Shapes | None = None,
) -> Checked[Document]:
    """One edition of a pattern.

    lines: by the section's place in the pattern. texts: gives the text of a template ("texts/front.j2"), or the
    `Texts` that all editions of a run share. findings: those of all stages before and of the checks, without the
    accepted ones; they decide what the pattern claims for itself.
    photograph: gives the bytes of a picture file by the name in the source. yarn_needs: by yarn key, worked out from
    the stitches when not given. pattern_lines: rows of the author's stitch patterns, by name;
    charts: of those that ask for one.
    shapes: of the pieces, as `shapes_of` makes them, when several editions share them.
    The findings returned are those of this stage alone: texts, pictures and prose that cannot be set.
    """
    job = _job(
        pattern, numbers, lines, knitted, trade, edition, texts, findings, accepted,
        photograph, yarn_needs, pattern_lines, charts, shapes,
    )  # fmt: skip
    body = instructions(job)
    before: list[Block] = list(notes(job))
    safety = cautions(job)
    # what may hurt a child is said before a stitch is cast on; advice to grown-ups may wait
    early = safety if pattern.audience.value != "adult" else ()
    blocks: Blocks = (
        *front(job),
        *sizes_and_measures(job),
        *schematic(job),
        *materials(job),
        *glossary(job, (*before, *body)),
        *before,
        *early,
        *body,
        *care(job),
        *(() if early else safety),
        *last_pictures(job),
        *help_and_history(job),
        *colophon(job),
        *appendix(timetables(job), tick_lists(job)),
    )
    document = Document(meta(job), _with_contents(job, blocks))
    return Checked(document, tuple(dict.fromkeys((*job.texts.found, *job.prose.found, *job.found))))


def _job(
    pattern: Pattern,
    numbers: Numbers,
    lines: Mapping[int, tuple[Line, ...]],
    knitted: Knitted,
    trade: Trade,
    edition: Edition,
    texts: Callable[[str], str] | Texts,
    findings: tuple[Diagnostic, ...],
    accepted: tuple[Diagnostic, ...],
    photograph: Callable[[str], bytes] | None,
    yarn_needs: Mapping[str, YarnNeed] | None,
    pattern_lines: Mapping[str, tuple[Line, ...]] | None,
    charts: Mapping[str, Chart] | None,
    shapes: Shapes | None,
) -> Job:
    setting = setting_of(pattern, edition)
    language = Language(
        setting,
        pairs_of(trade.terms, setting.typed_terms, setting.terms),
        expander(trade.abbreviations, setting.terms),
        trade.stitches.find,
        {stitch.key.value.lower(): stitch.words.value for stitch in pattern.stitches},
    )
    house = texts if isinstance(texts, Texts) else Texts(texts)
    prose = Prose(setting, lambda formula: _worked_out(formula, numbers, setting), words=language.words)
    shapes = shapes_of(knitted, trade.stitches) if shapes is None else shapes
    needs = needs_of(estimate(pattern, knitted, trade.stitches)) if yarn_needs is None else yarn_needs
    return Job(
        pattern, numbers, lines, knitted, trade, edition, house, setting, language, prose,
        photograph or _no_photograph, needs,
        pattern_lines or {}, charts or {}, findings, accepted, shapes,
    )  # fmt: skip


def appendix(*parts: Blocks) -> Blocks:
    """What is laid beside the knitting and no part of the text: on pages of its own, unless it is but a few lines."""
    blocks = tuple(block for part in parts for block in part)
    lines = sum(len(block.rows) for block in blocks if isinstance(block, TickTable))
    lines += sum(len(fact.says) for block in blocks if isinstance(block, FactList) for fact in block.facts)
    return (PageBreak(), *blocks) if lines > FEW_LINES else blocks


def _no_photograph(name: str) -> bytes:
    raise FileNotFoundError(f"no folder to read `{name}` from")


def _worked_out(formula: SourceText, numbers: Numbers, setting: Setting) -> Inlines:
    """A `{formula}` in prose, set; nothing when it has no value, which grading reports."""
    resolved = resolve(formula, numbers).value
    if resolved is None:
        return ()
    if resolved.kind in ("length", "mass"):
        return measure(resolved.values, "", setting, kind="mass" if resolved.kind == "mass" else "length")
    return listed([None if value is None else mixed(value) for value in resolved.values], setting)


def _with_contents(job: Job, blocks: Blocks) -> Blocks:
    """A list of contents behind the front page where the document is long, or read in parts."""
    long = job.edition.reading == "standard" and len(job.pattern.sections) > LONG
    wanted = long or job.edition.reading in ("large", "web")
    if not wanted:
        return blocks
    return (*blocks[:1], Contents((Text(job.say("headings", "contents")),)), *blocks[1:])
