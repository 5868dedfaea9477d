"""A source to a typed pattern: what is read, and every fault of shape and value in one run."""

from __future__ import annotations

import datetime
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from castoff.model.load import load
from castoff.model.pattern import Pattern
from castoff.model.schema import SOURCE, Listing, Part, Shape, Table
from castoff.model.shape import json_schema, misfits
from castoff.source.node import Mapping, plain
from castoff.source.read import read_source
from castoff.span import Span
from castoff.trade import Trade, load_trade

ROOT = Path(__file__).parents[2]
FULL = """\
written_for: 1
title: Saltgrass Cap
version: "1.0.0"
date: 2026-11-01
designer: Ines Farrow
studio: Saltgrass & Tern
invented: true
summary: A ribbed cap.
audience: child
skill: easy
terms: UK
inch: 2.5
sizes:
  names: S (M, L)
  standard: women
  body:
    head: 48 (52, –) cm
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: in the round, needles: larger}
  rib: {stitches: 5½, over: 1 in / 2.5 cm, fabric: k2 p2 rib, note: relaxed, yarn_factor: 1.1, stretch: 60%}
swatch:
  stockinette: {width: 16 cm, height: 15 cm, mass: 11 g}
yarns:
  A: {name: Low Tide Worsted, colour: slate, weight: worsted, fibre: 100% wool, ball: 200 m / 100 g, held: 2}
  B: {needs: "2 (2, 3) balls", ball: 50 g = 112 m (123 yd)}
needles:
  larger: {size: 5 mm, type: circular, length: 40 cm}
  smaller: {size: US 6}
notions: [1 button 20 mm, "ribbon, 1 m"]
numbers:
  cast_on: stitches(body.head - 4 cm, gauge=stockinette, multiple_of=8)
stitch_patterns:
  seed stitch: {multiple: 2, plus: 1, worked: flat, mirror: seed stitch, chart: yes, centred: yes, every: 1,
    rows: "Row 1: *K1, p1; rep from * to last st, k1.\\nRep row 1."}
stitches:
  mb: {takes: 1, makes: 1, words: make bobble, how: "(K1, p1, k1) into next st", symbol: "●", mirror: mb}
abbreviations:
  mb: make bobble
sections:
  - title: Brim
    piece: Cap
    worked: in the round
    gauge: rib
    needles: smaller
    yarn: A
    work: |
      Rnd 1: *K2, p2; rep from * to end.
  - title: Crown
    piece: Cap
    gauge: stockinette
    make: 2
    begins: You have 84 (92, 100) sts.
    notes: Change to dpns.
    work: |
      Knit 1 rnd.
  - title: Ear Flap
    worked: flat
    work: |
      Knit 1 row.
  - title: Other Flap
    mirrors: Ear Flap
    instead: [{of: Knit 1, work: Knit 1 row.}]
measurements:
  height: {label: Height, is: "20 (21, 22) cm", of: length of Cap, note: unrolled}
pictures: [{file: cap.jpg, alt: The cap, credit: I. Farrow, place: Crown, caption: Seen from above}]
cautions: [Buttons come off.]
notes: "Some *notes*."
care: Hand wash.
help: help@example.org
terms_of_use: For yourself.
history: [{version: "1.0.0", date: 2026-11-01, change: First published.}]
allow: [{rule: yarn-unused, because: kept for the tassel, where: Brim}]
tested: S, L
margin: 12.5%
excerpt: no
"""


@pytest.fixture(scope="module")
def trade() -> Trade:
    return load_trade(lambda name: (ROOT / "templates" / name).read_text(encoding="utf-8"))


def root_of(source: str) -> Mapping:
    read = read_source("cap.yaml", source.encode())
    assert read.value is not None, read.findings
    return read.value


def sound(source: str, trade: Trade) -> Pattern:
    read = read_source("cap.yaml", source.encode())
    assert read.findings == () and read.value is not None
    loaded = load(read.value, trade.needles.read)
    assert loaded.findings == ()
    assert loaded.value is not None
    return loaded.value


def marked(span: Span | None) -> str:
    assert span is not None
    return span.source.text[span.start : span.end]


# ---------------------------------------------------------------------------------------------- what is read


def test_everything_a_source_may_say(trade: Trade) -> None:
    pattern = sound(FULL, trade)
    assert pattern.title.value == "Saltgrass Cap"
    assert pattern.date is not None and pattern.date.value == datetime.date(2026, 11, 1)
    assert (pattern.audience.value, pattern.terms.value, pattern.invented, pattern.excerpt) == (
        "child", "UK", True, False,
    )  # fmt: skip
    assert pattern.inch is not None and pattern.inch.value == 25
    assert pattern.margin is not None and pattern.margin.value == Fraction(1, 8)
    assert pattern.sizes.labels == ("S", "M", "L")
    assert [name.value for name in pattern.sizes.standard_sizes] == ["S", "M", "L"]
    assert pattern.sizes.body[0].amounts.values == (Fraction(480), Fraction(520), None)
    assert [text.value for text in pattern.notions] == ["1 button 20 mm", "ribbon, 1 m"]
    assert [size.value for size in pattern.tested] == ["S", "L"]
    assert pattern.pieces == ("Cap", "Ear Flap", "Other Flap")
    assert pattern.history[0].date.value == datetime.date(2026, 11, 1)
    assert (pattern.allow[0].rule.value, pattern.allow[0].where and pattern.allow[0].where.value) == (
        "yarn-unused", "Brim",
    )  # fmt: skip


def test_gauges(trade: Trade) -> None:
    pattern = sound(FULL, trade)
    stockinette, rib = pattern.gauge("stockinette"), pattern.gauge("rib")
    assert stockinette is not None and rib is not None and stockinette.rows is not None
    assert (stockinette.stitches.value, stockinette.rows.value) == (Fraction(20), Fraction(28))
    assert stockinette.over.value == 100
    assert stockinette.worked is not None and stockinette.worked.value == "round"
    assert (rib.stitches.value, rib.rows, rib.over.value, rib.over.twin) == (
        Fraction(11, 2), None, Fraction(254, 10), Fraction(25),
    )  # fmt: skip
    assert marked(rib.stitches.span) == "5½"
    assert (stockinette.yarn_factor, stockinette.stretch) == (None, None)
    assert rib.yarn_factor is not None and rib.stretch is not None
    assert (rib.yarn_factor.value, rib.stretch.value) == (Fraction(11, 10), Fraction(3, 5))


def test_yarns(trade: Trade) -> None:
    pattern = sound(FULL, trade)
    a, b = pattern.yarn("A"), pattern.yarn("B")
    assert a is not None and b is not None and a.ball is not None and b.ball is not None
    assert (a.ball.length.value, a.ball.mass.value, a.held.value) == (Fraction(200_000), Fraction(100), 2)
    assert (b.ball.length.value, b.ball.length.twin, b.ball.mass.value) == (
        Fraction(112_000), Fraction(1_124_712, 10), Fraction(50),
    )  # fmt: skip
    assert b.needs_balls == (Fraction(2), Fraction(2), Fraction(3))


def test_needles_by_millimetres_and_by_table(trade: Trade) -> None:
    pattern = sound(FULL, trade)
    larger, smaller = pattern.needle("larger"), pattern.needle("smaller")
    assert larger is not None and smaller is not None and larger.length is not None
    assert (larger.size_mm, larger.length.value) == (Fraction(5), Fraction(400))
    assert smaller.size_mm == 4  # US 6 is 4 mm: Craft Yarn Council needle table
    assert larger.type is not None and larger.type.value == "circular"


def test_a_section_takes_over_what_the_one_before_it_in_its_piece_said(trade: Trade) -> None:
    brim, crown, flap, other = sound(FULL, trade).sections
    assert (crown.worked.value, crown.worked.span) == ("round", None)
    assert crown.needles is brim.needles and crown.yarn is brim.yarn
    assert (crown.gauge and crown.gauge.value, crown.make.value) == ("stockinette", 2)
    assert (flap.worked.value, flap.gauge, flap.yarn) == ("flat", None, None)
    assert (other.mirrors and other.mirrors.value, other.work, other.worked.value) == ("Ear Flap", None, "flat")


def test_lines_of_work_know_their_lines_in_the_file(trade: Trade) -> None:
    crown = sound(FULL, trade).section("Crown")
    assert crown is not None and crown.work is not None
    assert crown.work.span().line == FULL[: FULL.index("Knit 1 rnd")].count("\n") + 1
    assert marked(crown.work.span(5, 6)) == "1"


@pytest.mark.parametrize(
    ("names", "labels", "opener", "grouping"),
    [
        ("One size", ("One size",), "(", ()),
        ("S (M, L, XL)", ("S", "M", "L", "XL"), "(", ()),
        ("1–2 yrs [3–4 yrs, 5–7 yrs]", ("1–2 yrs", "3–4 yrs", "5–7 yrs"), "[", ()),
        ("XS (S, M) (L, XL)", ("XS", "S", "M", "L", "XL"), "(", (2, 2)),
        ("S [M:L]", ("S", "M", "L"), "[", ()),
        ("34 [36:38] [40:42]", ("34", "36", "38", "40", "42"), "[", (2, 2)),
        ("Toddler (Child; Adult S)", ("Toddler", "Child", "Adult S"), "(", ()),
    ],
)
def test_size_names(names: str, labels: tuple[str, ...], opener: str, grouping: tuple[int, ...], trade: Trade) -> None:
    sizes = sound(MINIMAL.replace("names: S (M, L)", f"names: {names}"), trade).sizes
    assert (sizes.labels, sizes.opener, sizes.grouping) == (labels, opener, grouping)
    assert [marked(name.span()) for name in sizes.names] == list(labels)


@pytest.mark.parametrize("path", sorted([*ROOT.glob("tests/typed_patterns/*.yaml"), *ROOT.glob("patterns/*.yaml")]))
def test_real_sources_are_read_without_a_finding(path: Path, trade: Trade) -> None:
    if path.name != "house.yaml":
        sound(path.read_text(encoding="utf-8"), trade)


# ---------------------------------------------------------------------------------------------- what is wrong

MINIMAL = """\
written_for: 1
title: Cap
sizes:
  names: S (M, L)
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm}
needles:
  larger: {size: 5 mm}
sections:
  - title: Brim
    work: |
      Knit 1 row.
"""


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        (
            "written_for: 1",
            "written_for: 2",
            "unknown-language-version «2» the source is written for version 2; this compiler reads version "
            "1 | write `written_for: 1`",
        ),
        (
            "written_for: 1",
            "written_for: one",
            "unreadable-value «one» `one` should be a whole number from 1 up",
        ),
        (
            "title: Cap",
            "titel: Cap",
            "unknown-key «titel» `titel` is no key of a pattern source | did you mean `title`?",
        ),
        (
            "title: Cap",
            "title:",
            "empty-value «title» `title` has nothing behind it | leave the key out",
        ),
        (
            "title: Cap",
            "title: Cap\nterms: USA",
            "unknown-word «USA» `terms` cannot be `USA`; it is `US` or `UK` | did you mean `US`?",
        ),
        (
            "title: Cap",
            "title: Cap\nskill: hard",
            "unknown-word «hard» `skill` cannot be `hard`; it is `basic`, `easy`, `intermediate` or "
            "`complex` | use `basic`, `easy`, `intermediate` or `complex`",
        ),
        (
            "title: Cap",
            "title: Cap\nnotions: thread",
            "misplaced-value «thread» `notions` is a text; it should be a list, each item on a line that "
            "begins with `- ` | write `- thread` on a line of its own",
        ),
        (
            "title: Cap",
            "title: [Cap]",
            "misplaced-value «[Cap]» `title` is a list; it should be a text",
        ),
        (
            "names: S (M, L)",
            "names: [S, M, L]",
            "misplaced-value «[S, M, L]» `names` is a list; it should be a text | write `S (M, L)`",
        ),
        (
            "names: S (M, L)",
            "names: S, M, L",
            "size-names-unreadable «S, M, L» the sizes stand in no brackets | write `S (M, L)`",
        ),
        (
            "names: S (M, L)",
            "names: S (M, S)",
            "size-names-unreadable «S» size `S` stands twice",
        ),
        (
            "names: S (M, L)",
            "names: S (M, L",
            "size-names-unreadable «(M, L» `(M, L` is no bracket of size names | write the sizes like `S "
            "(M, L, XL)`",
        ),
        (
            "names: S (M, L)",
            "names: S (M, , L)",
            "size-names-unreadable «S (M, , L)» a size has no name | take out the comma that is over",
        ),
        (
            ", over: 10 cm",
            "",
            "missing-key «stockinette» `stockinette` has no `over` | add `over: 10 cm`: the length: 10 cm "
            "and 4 in are taken for the same square",
        ),
        (
            "over: 10 cm",
            "over: 10",
            "wrong-unit «10» `10` has no unit | write a length, such as `10 cm`",
        ),
        (
            "over: 10 cm",
            "over: 10 g",
            "wrong-unit «10 g» `10 g` is a mass; a length stands here | write it like `10 cm`",
        ),
        (
            "over: 10 cm",
            "over: 10 centimetrs",
            "wrong-unit «centimetrs» `centimetrs` is no unit of length | did you mean `centimetres`?",
        ),
        (
            "over: 10 cm",
            "over: 0 cm",
            "unreadable-value «0 cm» `0 cm` should be above zero",
        ),
        (
            "over: 10 cm",
            "over: 10 cm wide",
            "unreadable-value « wide» `wide` is left over behind `10 cm`",
        ),
        (
            "stitches: 20",
            "stitches: twenty",
            "unreadable-value «twenty» `twenty` is no number",
        ),
        (
            "stitches: 20",
            "stiches: 20",
            "unknown-key «stiches» `stiches` is no key of `stockinette` | did you mean `stitches`?",
        ),
        (
            "names: S (M, L)",
            "names: S (M, L)\n  body:\n    head: 48 (52) cm",
            "size-list-length «48 (52) cm» 2 values for 3 sizes | give one value for each of S, M, L, or a "
            "single one for all",
        ),
        (
            "names: S (M, L)",
            "names: S (M, L)\n  body:\n    head: 48 (52, 55, 58) cm",
            "size-list-length «48 (52, 55, 58) cm» 4 values for 3 sizes | give one value for each of S, M, "
            "L, or a single one for all",
        ),
        (
            "names: S (M, L)",
            "names: S (M, L)\n  standard: women\n  standard_sizes: S (M)",
            "size-list-length «S (M)» 2 values for 3 sizes | give one value for each of S, M, L, or a "
            "single one for all",
        ),
        (
            "size: 5 mm",
            "size: US 99",
            "needle-size-unknown «US 99» there is no needle US 99",
        ),
        (
            "- title: Brim",
            "- title: Brim\n    gauge: stockinete",
            "unknown-name «stockinete» there is no gauge `stockinete` | did you mean `stockinette`?",
        ),
        (
            "- title: Brim",
            "- title: Brim\n    yarn: A",
            "unknown-name «A» there is no yarn `A` | add it under `yarns`",
        ),
        (
            "    work: |\n      Knit 1 row.\n",
            "    make: 2\n",
            "section-without-work «Brim» section `Brim` has neither `work` nor `mirrors` | add `work: |` "
            "and the lines",
        ),
        (
            "title: Cap",
            "title: Cap\ndate: 2026-02-30",
            "unreadable-value «2026-02-30» there is no such day as `2026-02-30` | write year-month-day, "
            "such as `2026-11-01`",
        ),
        (
            "title: Cap",
            "title: Cap\nmargin: 10",
            "unreadable-value «10» `10` is no share from 0 % to 100 % | write it like `10%`",
        ),
        (
            "title: Cap",
            "title: Cap\ntested: S, XL",
            "unknown-name «XL» there is no size `XL` | did you mean `L`?",
        ),
        (
            "title: Cap",
            "title: Cap\nyarns:\n  A: {ball: 200 m}",
            "unreadable-value «200 m» this put-up gives no mass | write it like `200 m / 100 g`",
        ),
        (
            "title: Cap",
            "title: Cap\nyarns:\n  A: {ball: 200 m / 100 g wool}",
            "unreadable-value « wool» `wool` cannot be read in a put-up | write it like `200 m / 100 g`",
        ),
    ],
)  # fmt: skip
def test_fault(was: str, now: str, told: str, trade: Trade) -> None:
    assert was in MINIMAL
    (found,) = load(root_of(MINIMAL.replace(was, now, 1)), trade.needles.read).findings
    hint = f" | {found.hint}" if found.hint else ""
    assert f"{found.rule.name} «{marked(found.span)}» {found.message}{hint}" == told


def test_all_faults_are_told_in_one_run_in_the_order_of_the_file() -> None:
    source = (
        MINIMAL.replace("title: Cap", "titel: Cap\naudience: cat")
        .replace("stitches: 20", "stitches: many")
        .replace("5 mm", "5")
        .replace("work:", "wrok:")
    )
    findings = load(root_of(source)).findings
    assert [(found.rule.name, found.span and found.span.line) for found in findings] == [
        ("unknown-key", 2), ("unknown-word", 3), ("unreadable-value", 7), ("section-without-work", 11),
        ("unknown-key", 12),
    ]  # fmt: skip


def test_missing_keys_are_told_with_an_example() -> None:
    findings = misfits(root_of("gauge: {}\n"))
    assert [(found.message, found.hint) for found in findings] == [
        ("a pattern source has no `written_for`", "add `written_for: 1`: version of the source language"),
        ("a pattern source has no `title`", "add `title:`: name of the pattern"),
        ("a pattern source has no `sizes`", "add `sizes:`: the sizes"),
        ("a pattern source has no `sections`", "add `sections:`: the instructions"),
    ]


def test_two_sections_of_one_title_point_at_each_other() -> None:
    source = MINIMAL + "  - title: Brim\n    work: |\n      Knit 1 row.\n"
    (found,) = load(root_of(source)).findings
    assert found.rule.name == "sections-of-one-title"
    assert (found.span and found.span.line, found.related[0].span.line) == (13, 10)


# ---------------------------------------------------------------------------------------------- the schema


def accepted(source: str) -> bool:
    """What the JSON Schema says of a source, its scalars taken for text."""
    try:
        jsonschema.validate(plain(root_of(source)), json_schema())
    except jsonschema.ValidationError:
        return False
    return True


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(json_schema())


def test_the_schema_takes_what_an_editor_makes_of_the_source() -> None:
    """An editor's YAML parser sees numbers and truth values where the compiler sees text."""

    class Editor(yaml.SafeLoader):
        """YAML 1.2 has no dates."""

    Editor.yaml_implicit_resolvers = {
        first: [(tag, pattern) for tag, pattern in found if not tag.endswith("timestamp")]
        for first, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
    }
    jsonschema.validate(yaml.load(FULL, Editor), json_schema())


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("title: Cap", "titel: Cap"), ("title: Cap", "title:"), ("title: Cap", "title: Cap\nterms: USA"),
        ("title: Cap", "title: Cap\nnotions: thread"), ("title: Cap", "title: [Cap]"), (", over: 10 cm", ""),
        ("stitches: 20", "stiches: 20"), ("title: Cap", "title: Cap\ninvented: maybe"), ("title: Cap", "title: Cap"),
        ("sections:", "section:"), ("title: Cap", "title: Cap\nnotes:"), ("title: Cap", "title: Cap\nsizes2: x"),
    ],
)  # fmt: skip
def test_editor_and_compiler_agree(was: str, now: str) -> None:
    source = MINIMAL.replace(was, now, 1)
    assert accepted(source) == (not misfits(root_of(source)))


def shapes(shape: Shape) -> list[Part]:
    if isinstance(shape, Part):
        return [shape, *(part for key in shape.keys for part in shapes(key.holds))]
    return shapes(shape.of) if isinstance(shape, (Listing, Table)) else []


def test_every_key_says_what_it_is_for() -> None:
    for part in shapes(SOURCE):
        assert part.about.endswith(".")
        for key in part.keys:
            assert key.about.endswith("."), key.name


def test_the_full_source_uses_every_key() -> None:
    """So that the tests of this file cannot fall behind the table of keys."""

    def missing(shape: Shape, value: Any) -> list[str]:
        if isinstance(shape, Part):
            values = value if isinstance(value, list) else [value]
            told = []
            for key in shape.keys:
                held = [each[key.name] for each in values if isinstance(each, dict) and key.name in each]
                told += [key.name] if not held else missing(key.holds, held)
            return told
        if isinstance(shape, Listing):
            return missing(shape.of, [item for each in value for item in each])
        if isinstance(shape, Table):
            return missing(shape.of, [item for each in value for item in each.values()])
        return []

    assert missing(SOURCE, [plain(root_of(FULL))]) == [
        "second",
        "standard_sizes",
        "options",
        "note",
        "note",
        "note",
        "option",
    ]
