"""Plans for tests: from instruction lines, or from a whole source of the catalogue."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

from castoff.diagnostic import Diagnostic
from castoff.grading.evaluate import evaluate, resolve
from castoff.knitting.fabric import Knitted
from castoff.knitting.knit import knit
from castoff.knitting.plan import NeedleSpec, OwnStitch, Plan, PlanGauge, PlanSection, StitchPattern
from castoff.model.load import load
from castoff.model.pattern import Pattern
from castoff.notation.lines import parse_work
from castoff.notation.syntax import Form, Line
from castoff.notation.vocabulary import Resolve, Vocabulary
from castoff.source.read import read_source
from castoff.span import Text
from castoff.trade.gauge import Gauge
from castoff.trade.load import Trade, load_trade

ROOT = Path(__file__).resolve().parents[2]


def trade() -> Trade:
    return load_trade(lambda name: (ROOT / "templates" / name).read_text("utf-8"))


TRADE = trade()
GAUGES: Mapping[str, PlanGauge] = {
    "stockinette": PlanGauge(Gauge(Fraction(20), Fraction(28), Fraction(100)), "larger", "stockinette"),
    "rib": PlanGauge(Gauge(Fraction(20), Fraction(25), Fraction(100)), "smaller", "rib"),
}
NEEDLES: Mapping[str, NeedleSpec] = {"larger": NeedleSpec(Fraction(5)), "smaller": NeedleSpec(Fraction(4))}


def lines(
    work: str,
    sizes: tuple[str, ...] = ("One size",),
    own: Mapping[str, OwnStitch] | None = None,
    patterns: tuple[str, ...] = (),
    yarns: tuple[str, ...] = ("A", "B"),
) -> tuple[Line, ...]:
    """The lines of a block, which must all be readable."""
    vocabulary = Vocabulary(
        sizes,
        TRADE.stitches,
        yarns=yarns,
        needles=tuple(NEEDLES),
        stitch_patterns=patterns,
        gauges=tuple(GAUGES),
        own_stitches={name: (stitch.takes, stitch.makes) for name, stitch in (own or {}).items()},
    )
    checked = parse_work(Text.plain(work), vocabulary)
    assert not checked.findings, [finding.message for finding in checked.findings]
    return checked.value


def plan_of(
    work: str,
    sizes: tuple[str, ...] = ("One size",),
    form: Form = "flat",
    gauge: str = "stockinette",
    own: Mapping[str, OwnStitch] | None = None,
    patterns: Mapping[str, StitchPattern] | None = None,
) -> Plan:
    """A plan of one section."""
    read = lines(work, sizes, own, tuple(patterns or {}))
    section = PlanSection("Body", "Piece", read, form, gauge)
    return Plan(sizes, (section,), TRADE.stitches, GAUGES, ("A", "B"), NEEDLES, patterns or {}, own or {})


def knitted(work: str, sizes: tuple[str, ...] = ("One size",), form: Form = "flat", **more: object) -> Knitted:
    """The fabric of a block that has nothing wrong with it."""
    checked = knit(plan_of(work, sizes, form, **more))  # type: ignore[arg-type]
    assert not checked.findings, [finding.message for finding in checked.findings]
    return checked.value


def findings(
    work: str, sizes: tuple[str, ...] = ("One size",), form: Form = "flat", **more: object
) -> list[Diagnostic]:
    """What is found in a block."""
    return list(knit(plan_of(work, sizes, form, **more)).findings)  # type: ignore[arg-type]


def said(work: str, sizes: tuple[str, ...] = ("One size",), form: Form = "flat", **more: object) -> list[str]:
    """Rule and wording of everything found in a block."""
    return [f"{each.rule.name}: {each.message}" for each in findings(work, sizes, form, **more)]


def counts(work: str, sizes: tuple[str, ...] = ("One size",), form: Form = "flat", **more: object) -> list[int]:
    """Stitches after the cast-on and after every row worked, of the first size; equal rows count once."""
    piece = knitted(work, sizes, form, **more).sizes[0].pieces["Piece"]
    return [piece.cast_on[0], *(record.after for record in piece.records)]


def read_pattern(path: Path) -> Pattern:
    """A source of the catalogue."""
    return pattern_of(path.name, path.read_bytes())


def pattern_of(name: str, data: bytes) -> Pattern:
    """A source, typed."""
    source = read_source(name, data)
    assert source.value is not None, source.findings
    loaded = load(source.value)
    assert loaded.value is not None, loaded.findings
    return loaded.value


def plan_of_pattern(pattern: Pattern) -> tuple[Plan, list[Diagnostic]]:
    """The plan of a whole source, and what the parser found."""
    numbers = evaluate(pattern, TRADE).value

    return plan_with(pattern, lambda formula: resolve(formula, numbers))


def plan_with(pattern: Pattern, numbers: Resolve) -> tuple[Plan, list[Diagnostic]]:
    sizes = pattern.sizes.labels
    vocabulary = Vocabulary(
        sizes,
        TRADE.stitches,
        pattern.terms.value,
        tuple(yarn.key.value for yarn in pattern.yarns),
        tuple(needle.key.value for needle in pattern.needles),
        tuple(each.key.value for each in pattern.stitch_patterns),
        tuple(gauge.key.value for gauge in pattern.gauges),
        {each.key.value.lower(): (each.takes.value, each.makes.value) for each in pattern.stitches},
        tuple(dict.fromkeys(section.piece.value for section in pattern.sections)),
        tuple(section.title.value for section in pattern.sections),
        numbers,
    )
    found: list[Diagnostic] = []

    def read(text: Text | None) -> tuple[Line, ...]:
        if text is None:
            return ()
        checked = parse_work(text, vocabulary)
        found.extend(checked.findings)
        return checked.value

    sections = tuple(
        PlanSection(
            each.title.value,
            each.piece.value,
            read(each.work),
            each.worked.value if each.worked.span else None,
            each.gauge.value if each.gauge else None,
            each.needles.value if each.needles else None,
            each.yarn.value if each.yarn else None,
            each.make.value,
            each.mirrors.value if each.mirrors else None,
            read(each.begins),
        )
        for each in pattern.sections
    )
    plan = Plan(
        sizes,
        sections,
        TRADE.stitches,
        {
            each.key.value: PlanGauge(
                Gauge(each.stitches.value, each.rows.value if each.rows else None, each.over.value),
                each.needles.value if each.needles else None,
                each.fabric.value if each.fabric else each.key.value,
            )
            for each in pattern.gauges
        },
        tuple(yarn.key.value for yarn in pattern.yarns),
        {
            each.key.value: NeedleSpec(
                each.size_mm, each.type.value if each.type else "", each.length.value if each.length else None
            )
            for each in pattern.needles
        },
        {
            each.key.value.lower(): StitchPattern(
                each.multiple.value, each.plus.value, each.worked.value if each.worked else "flat", read(each.rows)
            )
            for each in pattern.stitch_patterns
        },
        {each.key.value.lower(): OwnStitch(each.takes.value, each.makes.value) for each in pattern.stitches},
        pattern.terms.value,
        pattern.excerpt,
    )
    return plan, found
