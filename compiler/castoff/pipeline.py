"""The whole way through: a pattern source to its proof, and a proof to its editions.

In: the name and bytes of a source, and the `World` it may read. Out: a `Proof`: what every stage made of it, and
everything that was found. Read `prove` to see the stages in order; `press.py` goes on from there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path

from castoff.checks.aftermath import without_aftermath
from castoff.checks.evidence import Evidence
from castoff.checks.judge import Accepted, judge, settle
from castoff.checks.registry import RULES as CHECK_RULES
from castoff.diagnostic import Checked, Diagnostic
from castoff.grading.evaluate import Numbers, Resolved, evaluate, resolve
from castoff.grading.written_out import written_out
from castoff.knitting.chart import Chart, chart_of
from castoff.knitting.fabric import Knitted
from castoff.knitting.faults import STILL_HELD, STILL_LIVE
from castoff.knitting.knit import knit
from castoff.knitting.mirrored import mind_the_mirrors
from castoff.knitting.mirrored_patterns import Pair, mind_mirrored_patterns
from castoff.knitting.plan import NeedleSpec, OwnStitch, Plan, PlanGauge, PlanSection, StitchPattern
from castoff.model.house import House, load_house
from castoff.model.load import load
from castoff.model.pattern import Form, Pattern, Section
from castoff.model.shared import read_shared, with_shared
from castoff.notation.lines import parse_work
from castoff.notation.other_sides import OtherSides, stitch_mirror, write_other_sides
from castoff.notation.syntax import Line
from castoff.notation.vocabulary import Vocabulary
from castoff.source.read import read_source
from castoff.span import Span, Text
from castoff.trade import Trade, load_trade
from castoff.trade.gauge import Gauge
from castoff.world import HOUSE_FILE, SHARED_FILE, World, read_bytes, shown
from castoff.yarn.estimate import MARGIN, Estimate, estimate

WHOLE_PATTERN_RULES = (STILL_LIVE, STILL_HELD)
"""Rules of the needle that ask for a whole pattern: an excerpt may end with stitches on needles and holders."""

RULES = CHECK_RULES
"""Every rule up to the proof, for the manual."""


@dataclass(frozen=True, slots=True)
class Proof:
    """One source with everything that was made of it.

    findings: what is open, in the order of their places; accepted: what the author accepts, with the reason.
    Each later field is None or empty when an earlier stage could make nothing of the source.
    lines, pattern_lines: instruction lines by section, and rows of the author's stitch patterns by name.
    estimates: what each yarn comes to, in the order of the source. charts: of the stitch patterns that ask for one.
    shared: name and bytes of the shared file that was beside it.
    """

    name: str
    data: bytes = field(repr=False)
    findings: tuple[Diagnostic, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    pattern: Pattern | None = None
    numbers: Numbers | None = None
    lines: tuple[tuple[Line, ...], ...] = ()
    pattern_lines: tuple[tuple[str, tuple[Line, ...]], ...] = ()
    plan: Plan | None = field(default=None, repr=False)
    knitted: Knitted | None = field(default=None, repr=False)
    trade: Trade | None = field(default=None, repr=False)
    estimates: tuple[Estimate, ...] = field(default=(), repr=False)
    charts: tuple[Chart, ...] = field(default=(), repr=False)
    shared: tuple[str, bytes] | None = field(default=None, repr=False)

    @property
    def sound(self) -> bool:
        """Whether nothing open is an error, so that editions may be set."""
        return not any(finding.severity == "error" for finding in self.findings)


def prove_file(path: Path) -> Proof:
    """The proof of a source in a file. Raises WorldError when it cannot be read."""
    house = house_of(path.parent).value
    margin = MARGIN if house.margin is None else house.margin.value
    return prove(shown(path), read_bytes(path), World.beside(path), path.parent, margin, shared_of(path.parent))


def shared_of(folder: Path) -> tuple[str, bytes] | None:
    """Name and bytes of what the patterns of a folder share: beside them, or beside their folder; None when nothing."""
    for path in (folder / SHARED_FILE, folder.parent / SHARED_FILE):
        if path.is_file():
            return shown(path), read_bytes(path)
    return None


def house_of(folder: Path) -> Checked[House]:
    """The house file beside the patterns; an empty house when there is none."""
    path = folder / HOUSE_FILE
    return load_house(shown(path), read_bytes(path)) if path.is_file() else Checked(House())


def prove_text(name: str, text: str) -> Proof:
    """The proof of a source that lies in no folder: for editors and tests."""
    return prove(name, text.encode(), World.beside())


def prove(
    name: str,
    data: bytes,
    world: World,
    folder: Path | None = None,
    margin: Fraction = MARGIN,
    shared: tuple[str, bytes] | None = None,
) -> Proof:
    """All stages up to the judgement, in order. Each goes on with what the one before could make.

    folder: where the source's pictures lie; None when nobody can look. margin: yarn added where the pattern says none.
    shared: name and bytes of what it may use of the shared file.
    """
    trade = load_trade(world.template)
    read = read_source(name, data)
    if read.value is None:
        return Proof(name, data, read.findings)
    common = None if shared is None else read_source(*shared)
    filled = with_shared(read.value, None if common is None else common.value)
    findings = [*read.findings, *filled.findings]
    if common is not None:
        findings += common.findings
        findings += () if common.value is None else read_shared(common.value)
    if not all(finding.severity != "error" for finding in findings[len(read.findings) :]):
        return Proof(name, data, tuple(dict.fromkeys(findings)), shared=shared)
    loaded = load(filled.value, trade.needles.read)
    findings += loaded.findings
    pattern = loaded.value
    if pattern is None:
        return Proof(name, data, tuple(findings))
    graded = evaluate(pattern, trade)
    findings += graded.findings
    numbers = graded.value
    notation = read_notation(pattern, numbers, trade)
    findings += notation.findings
    lines, pattern_lines, openings = notation.value
    sided = write_other_sides(
        pattern,
        lines,
        pattern_lines,
        make_vocabulary(pattern, numbers, trade),
        trade.stitches,
        lambda text, section: written_out(text, numbers, section.worked.value),
    )
    findings += sided.findings
    sides = sided.value
    pattern, lines = sides.pattern, sides.lines
    plan = make_plan(pattern, lines, pattern_lines, openings, trade)
    knitting = knit(plan)
    drawn = [
        chart_of(each.key.value, plan.patterns[each.key.value.lower()], plan, trade.stitches, each.rows.span())
        for each in pattern.stitch_patterns
        if each.chart
    ]
    findings += (finding for each in drawn for finding in each.findings)
    findings += mind_mirrored_patterns(_declared_mirrors(pattern), plan, stitch_mirror(pattern, trade.stitches))
    findings += (each for each in knitting.findings if not (pattern.excerpt and each.rule in WHOLE_PATTERN_RULES))
    estimates = estimate(pattern, knitting.value, trade.stitches, margin)
    evidence = Evidence(pattern, numbers, lines, knitting.value, trade, _pictures_there(pattern, folder), margin)
    findings += judge(evidence)
    if sided.sound and knitting.sound:
        findings += mind_the_mirrors(knitting.value, pattern.sizes.labels, _pairs(sides))
    findings = without_aftermath(findings, evidence)
    axes = pattern.sizes.axes
    told = dict.fromkeys(replace(each, sizes=axes.told(each.sizes)) for each in sides.at_home(findings))
    verdict = settle(told, pattern, tuple(rule.name for rule in RULES))
    return Proof(
        name,
        data,
        verdict.open,
        verdict.accepted,
        pattern,
        numbers,
        lines,
        tuple(pattern_lines.items()),
        plan,
        knitting.value,
        trade,
        estimates,
        tuple(each.value for each in drawn if each.value is not None),
        shared,
    )


def _pairs(sides: OtherSides) -> Iterator[tuple[int, int, Span]]:
    """Mirrored sections with those they mirror, and where that is said."""
    for second, (_, first) in sides.made.items():
        section = sides.pattern.sections[second]
        yield second, first, (section.mirrors or section.title).span()


def _declared_mirrors(pattern: Pattern) -> Iterator[Pair]:
    """Stitch patterns that are declared the other side of one another."""
    for each in pattern.stitch_patterns:
        if each.mirror is not None:
            yield Pair(each.key.value, each.mirror.value, each.mirror.span())


Notation = tuple[tuple[tuple[Line, ...], ...], dict[str, tuple[Line, ...]], tuple[tuple[Line, ...], ...]]
"""Lines of the sections, rows of the author's stitch patterns by name, opening states of the sections."""


def read_notation(pattern: Pattern, numbers: Numbers, trade: Trade) -> Checked[Notation]:
    """Every instruction of a pattern as syntax trees."""
    vocabulary = make_vocabulary(pattern, numbers, trade)
    findings: list[Diagnostic] = []

    def parsed(text: Text | None, form: Form = "flat", sizes: tuple[bool, ...] | None = None) -> tuple[Line, ...]:
        if text is None:
            return ()
        checked = parse_work(written_out(text, numbers, form), vocabulary, sizes)
        findings.extend(checked.findings)
        return checked.value

    pattern_lines = {each.key.value: parsed(each.rows) for each in pattern.stitch_patterns}
    axes = pattern.sizes.axes
    worked_in = [section.worked_in(axes) for section in pattern.sections]
    openings = tuple(
        parsed(section.begins, "flat", sizes) for section, sizes in zip(pattern.sections, worked_in, strict=True)
    )
    lines = tuple(
        parsed(section.work, section.worked.value, sizes)
        for section, sizes in zip(pattern.sections, worked_in, strict=True)
    )
    return Checked((lines, pattern_lines, openings), tuple(findings))


def make_vocabulary(pattern: Pattern, numbers: Numbers, trade: Trade) -> Vocabulary:
    """The words that the lines of a pattern may use."""
    return Vocabulary(
        sizes=pattern.sizes.labels,
        book=trade.stitches,
        terms=pattern.terms.value,
        yarns=tuple(yarn.key.value for yarn in pattern.yarns),
        needles=tuple(needle.key.value for needle in pattern.needles),
        stitch_patterns=tuple(each.key.value for each in pattern.stitch_patterns),
        gauges=tuple(gauge.key.value for gauge in pattern.gauges),
        own_stitches={each.key.value: (each.takes.value, each.makes.value) for each in pattern.stitches},
        pieces=pattern.pieces,
        sections=tuple(section.title.value for section in pattern.sections),
        resolve=_resolver(numbers),
    )


def _resolver(numbers: Numbers) -> Callable[[Text], Checked[Resolved | None]]:
    def resolved(formula: Text) -> Checked[Resolved | None]:
        return resolve(formula, numbers)

    return resolved


def make_plan(
    pattern: Pattern,
    lines: tuple[tuple[Line, ...], ...],
    pattern_lines: dict[str, tuple[Line, ...]],
    openings: tuple[tuple[Line, ...], ...],
    trade: Trade,
) -> Plan:
    """What the needle is given of a pattern."""
    axes = pattern.sizes.axes
    return Plan(
        sizes=pattern.sizes.labels,
        sections=tuple(
            replace(_plan_section(section, read, opening), sizes=section.worked_in(axes) if section.option else None)
            for section, read, opening in zip(pattern.sections, lines, openings, strict=True)
        ),
        book=trade.stitches,
        gauges={
            each.key.value: PlanGauge(
                Gauge(each.stitches.value, each.rows.value if each.rows is not None else None, each.over.value),
                each.needles.value if each.needles is not None else None,
                each.fabric.value if each.fabric is not None else each.key.value,
            )
            for each in pattern.gauges
        },
        yarns=tuple(yarn.key.value for yarn in pattern.yarns),
        needles={
            each.key.value: NeedleSpec(
                each.size_mm,
                each.type.value if each.type is not None else "",
                each.length.value if each.length is not None else None,
                () if each.size_mm is None else tuple(name.lower() for name in trade.needles.names(each.size_mm)),
            )
            for each in pattern.needles
        },
        patterns={
            each.key.value.lower(): StitchPattern(
                each.multiple.value,
                each.plus.value,
                each.worked.value if each.worked is not None else "flat",
                pattern_lines[each.key.value],
                each.key.value,
                each.centred,
                each.every.value if each.every is not None else 0,
            )
            for each in pattern.stitch_patterns
        },
        own_stitches={
            each.key.value.lower(): OwnStitch(each.takes.value, each.makes.value) for each in pattern.stitches
        },
        terms=pattern.terms.value,
        foot_mm=next((each.amounts.values for each in pattern.sizes.body if each.key.value == "foot_length"), ()),
    )


def _plan_section(section: Section, lines: tuple[Line, ...], opening: tuple[Line, ...]) -> PlanSection:
    return PlanSection(
        title=section.title.value,
        piece=section.piece.value,
        lines=lines,
        form=section.worked.value if section.worked.span is not None else None,
        gauge=section.gauge.value if section.gauge is not None else None,
        needles=section.needles.value if section.needles is not None else None,
        yarn=section.yarn.value if section.yarn is not None else None,
        make=section.make.value,
        mirrors=section.mirrors.value if section.mirrors is not None else None,
        opening=opening,
    )


def _pictures_there(pattern: Pattern, folder: Path | None) -> frozenset[str] | None:
    if folder is None:
        return None
    return frozenset(each.file.value for each in pattern.pictures if (folder / each.file.value).is_file())
