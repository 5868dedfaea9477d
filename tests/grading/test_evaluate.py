"""Formulas to numbers per size: values, units, and every fault with its place and its sum."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from castoff.diagnostic import Diagnostic
from castoff.grading.evaluate import Numbers, Resolved, evaluate, resolve
from castoff.grading.functions import SIGNATURES
from castoff.model.load import load
from castoff.model.pattern import Pattern
from castoff.source.read import read_source
from castoff.span import Text
from castoff.trade import Trade

ROOT = Path(__file__).parents[2]
TWO_GAUGES = """\
  stockinette: {stitches: 20, rows: 28, over: 10 cm}
  seed stitch: {stitches: 18, over: 4 in}"""
HEADS = "  body:\n    head: 48 (52, 56) cm"
Make = Callable[..., Pattern]


@pytest.fixture
def worked(make: Make, trade: Trade) -> Callable[..., Numbers]:
    """The numbers of a pattern that holds no fault; notes are let pass."""

    def made(numbers: str, **parts: str) -> Numbers:
        checked = evaluate(make(numbers, **parts), trade)
        assert [found for found in checked.findings if found.severity != "note"] == []
        return checked.value

    return made


def words(numbers: Numbers, name: str) -> list[str]:
    found = numbers.get(name)
    assert found is not None
    return ["–" if value is None else value.words for value in found]


def told(finding: Diagnostic) -> str:
    assert finding.span is not None
    marked = finding.span.source.text[finding.span.start : finding.span.end]
    sizes = f" [{', '.join(finding.sizes)}]" if finding.sizes else ""
    hint = f" | {finding.hint}" if finding.hint else ""
    return f"{finding.rule.name} «{marked}» {finding.message}{sizes}{hint}"


# ---------------------------------------------------------------------------------------------- values


@pytest.mark.parametrize(
    ("formula", "values"),
    [
        ("84", ["84"] * 3),
        ("84 (92, 100)", ["84", "92", "100"]),
        ("84 (–, 100) + 2", ["86", "–", "102"]),
        ("-4 cm", ["−4 cm"] * 3),
        ("body.head - 4 cm", ["44 cm", "48 cm", "52 cm"]),
        ("body.head * 90%", ["43.2 cm", "46.8 cm", "50.4 cm"]),
        ("stitches(body.head)", ["96 stitches", "104 stitches", "112 stitches"]),
        ("stitches(body.head - 4 cm, multiple_of=8)", ["88 stitches", "96 stitches", "104 stitches"]),
        ("stitches(41 cm, multiple_of=4, plus=2)", ["82 stitches"] * 3),
        ("stitches(41.2 cm, to=up)", ["83 stitches"] * 3),
        ("stitches(41.2 cm, to=down, parity=odd)", ["81 stitches"] * 3),
        ("stitches(41 cm, plus=1 (2, 3), multiple_of=10)", ["81 stitches", "82 stitches", "83 stitches"]),
        ("stitches(stitches(41 cm), multiple_of=8)", ["80 stitches"] * 3),
        ("rows(20 cm)", ["56 rows"] * 3),
        ("width(84, gauge=stockinette)", ["42 cm"] * 3),
        ("width(stitches(42 cm))", ["42 cm"] * 3),
        ("length(14)", ["5 cm"] * 3),
        ("20 cm * gauge.stockinette.stitches", ["40 stitches"] * 3),
        ("20 cm * gauge.rows", ["56 rows"] * 3),
        ("gauge.stockinette.stitches", ["20 stitches to 10 cm"] * 3),
        ("nearest(20.3 cm, 0.5 cm)", ["20.5 cm"] * 3),
        ("up(20.1 cm, 0.5 cm)", ["20.5 cm"] * 3),
        ("down(stitches(41 cm) / 3)", ["27 stitches"] * 3),
        ("nearest(83, 4)", ["84"] * 3),
        ("min(body.head, 50 cm)", ["48 cm", "50 cm", "50 cm"]),
        ("max(stitches(20 cm), 41)", ["41 stitches"] * 3),
        ("count(stitches(20 cm)) * 2 + rows(5 cm)", ["94 rows"] * 3),
        ("body.head / 4 cm", ["12", "13", "14"]),
        ("100 g / 50 g", ["2"] * 3),
    ],
)
def test_value(formula: str, values: list[str], worked: Callable[..., Numbers]) -> None:
    assert words(worked(f"x: {formula}", sizes=HEADS), "x") == values


@pytest.mark.parametrize(
    ("gauge", "formula", "value"),
    [
        # published worked examples, each worked again by hand
        ("{stitches: 18, rows: 24, over: 4 in}", "width(204)", Fraction(204, 18) * 4 * Fraction("25.4")),  # 45.33 in
        ("{stitches: 4, over: 1 in}", "width(184)", 46 * Fraction("25.4")),
        ("{stitches: 4.25, over: 1 in}", "width(184)", Fraction(184 * 4, 17) * Fraction("25.4")),  # 43.29 in
        ("{stitches: 22, over: 10 cm}", "stitches(48 cm)", Fraction(106)),  # 105.6
        ("{stitches: 20, over: 4 in}", "stitches(8 in)", Fraction(40)),
        ("{stitches: 5.5, over: 1 in}", "stitches(9 in)", Fraction(50)),  # 49.5
        ("{stitches: 5.5, over: 1 in}", "stitches(13 in)", Fraction(72)),  # 71.5
        ("{stitches: 28, rows: 40, over: 10 cm}", "stitches(26 cm, to=down, parity=even)", Fraction(72)),  # 72.8
        ("{stitches: 28, rows: 40, over: 10 cm}", "rows(49 cm)", Fraction(196)),
        ("{stitches: 28, rows: 40, over: 10 cm}", "stitches(56 cm, to=down, parity=even)", Fraction(156)),  # 156.8
        # common practice: 75 sts at 18 to 4 in make a tube of about 16½ in, 160 rounds at 23.5 about 27¼ in
        ("{stitches: 18, rows: 23.5, over: 4 in}", "nearest(width(75), ½ in)", Fraction("16.5") * Fraction("25.4")),
        ("{stitches: 18, rows: 23.5, over: 4 in}", "nearest(length(160), ¼ in)", Fraction("27.25") * Fraction("25.4")),
    ],
)
def test_published_gauge_arithmetic(gauge: str, formula: str, value: Fraction, worked: Callable[..., Numbers]) -> None:
    found = worked(f"x: {formula}", gauge=f"  stockinette: {gauge}").get("x")
    assert found is not None and found[0] is not None and found[0].value == value


def test_numbers_may_stand_in_any_order(worked: Callable[..., Numbers]) -> None:
    numbers = worked("wedge: cast_on / 8\ncast_on: stitches(around, multiple_of=8)\naround: 44 cm")
    assert numbers.names() == ("wedge", "cast_on", "around")
    assert words(numbers, "wedge")[0] == "11 stitches"
    assert numbers.sizes == ("S", "M", "L")
    assert numbers.get("nothing") is None


def test_an_entry_tells_how_it_was_rounded_and_what_it_needs(worked: Callable[..., Numbers]) -> None:
    entry = worked("ease: -4 cm\nx: stitches(body.head + ease, multiple_of=8)", sizes=HEADS).entry("x")
    assert entry is not None and entry.unrounded is not None
    assert [value and value.value for value in entry.unrounded] == [88, 96, 104]
    assert entry.needs == ("body.head", "ease")
    assert entry.formula.value == "stitches(body.head + ease, multiple_of=8)"


def test_gauges_by_name_with_or_without_spaces(worked: Callable[..., Numbers]) -> None:
    numbers = worked('a: stitches(4 in, gauge="seed stitch")\nb: stitches(4 in, gauge=seed_stitch)', gauge=TWO_GAUGES)
    assert words(numbers, "a") == words(numbers, "b") == ["18 stitches"] * 3


def test_a_number_may_be_called_what_a_function_is(worked: Callable[..., Numbers]) -> None:
    numbers = worked("width: width(84)\nlength: width / 2")
    assert words(numbers, "length") == ["21 cm"] * 3


def test_a_long_chain_of_numbers(worked: Callable[..., Numbers]) -> None:
    lines = [f"n{index}: n{index + 1} + 1" for index in range(1500)] + ["n1500: 1"]
    assert words(worked("\n".join(lines)), "n0") == ["1501"] * 3


# ---------------------------------------------------------------------------------------------- bodies


def test_bodies_of_a_published_table_as_printed(worked: Callable[..., Numbers]) -> None:
    """Women's chest, Craft Yarn Council by way of leaflets with the same steps: S 32-34 in, M 36-38, L 40-42."""
    numbers = worked(
        "high: body.chest\nlow: body.chest.low\nmiddle: body.chest.middle\nbust: body.bust\nown: body.head",
        gauge="  stockinette: {stitches: 20, over: 4 in}",
        sizes="  standard: women\n" + HEADS,
    )
    inches = {name: [value and value.value / Fraction("25.4") for value in numbers.get(name) or ()]
              for name in ("high", "low", "middle", "bust")}  # fmt: skip
    assert inches == {"high": [34, 38, 42], "low": [32, 36, 40], "middle": [33, 37, 41], "bust": [34, 38, 42]}
    assert words(numbers, "own")[0] == "48 cm"


def test_bodies_in_centimetres_are_the_table_s_own(worked: Callable[..., Numbers]) -> None:
    """81-86 cm is printed for S, though 34 in are 86.36 cm."""
    numbers = worked("x: body.chest\ny: body.chest.low", sizes="  standard: women")
    assert (words(numbers, "x")[0], words(numbers, "y")[0]) == ("86 cm", "81 cm")


@pytest.mark.parametrize(
    ("sizes", "formula", "expected"),
    [
        (
            "",
            "body.head",
            "body-measurement-missing «body.head» there is no body measurement `head` | add it under "
            "`sizes: body:`, or name a `standard:`",
        ),
        (
            HEADS,
            "body.haed",
            "body-measurement-missing «body.haed» there is no body measurement `haed` | did you mean "
            "`body.head`?",
        ),
        (
            "  standard: womens",
            "body.chest",
            "body-measurement-missing «womens» there is no body table `womens` | did you mean `women`?",
        ),
        (
            "  standard: women",
            "body.waste",
            "body-measurement-missing «body.waste» the table `women` has no measurement `waste` | did you "
            "mean `body.waist`?",
        ),
        (
            "  standard: women\n  standard_sizes: S (M, Q9)",
            "body.chest",
            "body-measurement-missing «Q9» the table `women` has no size `Q9` | its sizes are XS, S, M, L, "
            "1X, 2X, 3X, 4X, 5X",
        ),
        (
            HEADS,
            "body.head.middling",
            "unknown-number «body.head.middling» `body.head.middling` is no body measurement | write "
            "`body.` and a measurement, or `body.chest.low` for the lower end of a range",
        ),
    ],
)  # fmt: skip
def test_body_fault(sizes: str, formula: str, expected: str, make: Make, trade: Trade) -> None:
    (found,) = evaluate(make(f"x: {formula}", sizes=sizes), trade).findings
    assert told(found) == expected


# ---------------------------------------------------------------------------------------------- faults


@pytest.mark.parametrize(
    ("numbers", "expected"),
    [
        (
            "x: 4 + 4 cm",
            "wrong-dimension «4 + 4 cm» `4 cm` (a length) cannot be added to `4` (a plain number) | give "
            "`4` a unit, such as `cm`",
        ),
        (
            "x: rows(20 cm) - stitches(20 cm)",
            "wrong-dimension «rows(20 cm) - stitches(20 cm)» `stitches(20 cm)` (stitches) cannot be taken "
            "from `rows(20 cm)` (rows) | write `count(stitches(20 cm))` if the bare number is meant",
        ),
        (
            "x: max(20 cm, stitches(20 cm))",
            "wrong-dimension «20 cm, stitches(20 cm)» `20 cm` (a length) cannot be compared with "
            "`stitches(20 cm)` (stitches) | `width(stitches(20 cm), gauge=…)` makes a length of it",
        ),
        (
            "c: stitches(40 cm)\nx: c / gauge.rows",
            "wrong-dimension «c / gauge.rows» `x` comes out as stitches times length divided by rows: `c` "
            "is divided by `gauge.rows` | stitches go with a stitch gauge, rows with a row gauge; "
            "`count(x)` makes a bare number of a count",
        ),
        (
            "x: rows(20 cm) / stitches(20 cm)",
            "wrong-dimension «rows(20 cm) / stitches(20 cm)» `x` comes out as rows divided by stitches: "
            "`rows(20 cm)` is divided by `stitches(20 cm)` | stitches go with a stitch gauge, rows with a "
            "row gauge; `count(x)` makes a bare number of a count",
        ),
        (
            "x: rows(stitches(20 cm))",
            "wrong-dimension «stitches(20 cm)» `rows()` takes a length, and `stitches(20 cm)` is stitches | "
            "`width(stitches(20 cm), gauge=…)` makes a length of it",
        ),
        (
            "x: length(stitches(20 cm))",
            "wrong-dimension «stitches(20 cm)» `length()` takes rows, and `stitches(20 cm)` is stitches | "
            "write `count(stitches(20 cm))` if as many rows are meant",
        ),
        (
            "x: stitches(40)",
            "wrong-dimension «40» `stitches()` takes a length, and `40` is a plain number | give it a unit, "
            "such as `cm`",
        ),
        (
            "x: count(4 cm)",
            "wrong-dimension «4 cm» `count()` takes stitches, rows or balls, and `4 cm` is a length",
        ),
        (
            "x: stitches(4 cm - 6 (2, 8) cm)",
            "wrong-argument «4 cm - 6 (2, 8) cm» `4 cm - 6 (2, 8) cm` is below zero: −2 cm, −4 cm [S, L]",
        ),
        (
            "c: 84\nx: zz / 8",
            "unknown-number «zz» there is no number `zz` | the numbers are c, x",
        ),
        (
            "cast_on: 84\nx: caston / 8",
            "unknown-number «caston» there is no number `caston` | did you mean `cast_on`?",
        ),
        (
            "x: stiches(40 cm)",
            "unknown-function «stiches» there is no function `stiches` | did you mean `stitches`?",
        ),
        (
            "x: stitches()",
            "wrong-argument «stitches()» `stitches()` is given no values | write `stitches(length, "
            "gauge=stockinette, multiple_of=4, plus=2, to=nearest, parity=even)`",
        ),
        (
            "x: width(4, 5)",
            "wrong-argument «width(4, 5)» `width()` is given 2 values | write `width(stitches, "
            "gauge=stockinette)`",
        ),
        (
            "x: stitches(40 cm, multiple=8)",
            "wrong-argument «multiple=8» `stitches()` takes no `multiple=` | did you mean `multiple_of=`?",
        ),
        (
            "x: stitches(40 cm, plus=1, plus=2)",
            "wrong-argument «plus=2» `plus=` stands twice",
        ),
        (
            "x: stitches(40 cm, to=sideways)",
            "wrong-argument «sideways» `to` cannot be `sideways`; it is `nearest`, `up` or `down`",
        ),
        (
            "x: stitches(40 cm, multiple_of=4.5)",
            "wrong-argument «4.5» `multiple_of` is a whole number from 1 up, and `4.5` is 4.5",
        ),
        (
            "x: stitches(40 cm, multiple_of=4, parity=odd)",
            "wrong-argument «stitches(40 cm, multiple_of=4, parity=odd)» no multiple of 4 plus 0 is odd | "
            "leave out `parity`, or change `plus`",
        ),
        (
            "x: stitches(40 cm, gauge=stockinete)",
            "unknown-number «stockinete» there is no gauge `stockinete` | did you mean `stockinette`?",
        ),
        (
            "x: nearest(20 cm)",
            "wrong-argument «nearest(20 cm)» `nearest()` needs a step for a length | write `nearest(20 cm, "
            "0.5 cm)`",
        ),
        (
            "x: nearest(20 cm, 0 cm)",
            "wrong-argument «0 cm» the step should be above zero",
        ),
        (
            "x: 84 / (4 - 4)",
            "division-by-zero «84 / (4 - 4)» `84` is divided by `(4 - 4)`, which is 0 [S, M, L]",
        ),
        (
            "x: 84 / 0 (1, 0)",
            "division-by-zero «84 / 0 (1, 0)» `84` is divided by `0 (1, 0)`, which is 0 in size S, L [S, L]",
        ),
        (
            "x: x + 1",
            "formula-loop «x» `x` is worked out from itself | give one of them a value of its own",
        ),
        (
            "a: b + 1\nb: c\nc: a",
            "formula-loop «a» `a` is worked out from itself: `a` → `b` → `c` → `a` | give one of them a "
            "value of its own",
        ),
        (
            "cast on: 84",
            "number-name «cast on» `cast on` cannot be the name of a number | write `cast_on`",
        ),
        (
            "body: 84",
            "number-name «body» `body` is what formulas call the bodies by | choose "
            "another name",
        ),
        (
            "x: spread(12, over=10 (20, 11))",
            "shaping-impossible «spread(12, over=10 (20, 11))» 12 shaping rows do not fit into 10 rows: 12 "
            "× 1 = 12 [S, L] | give at least 12 rows, or shape at most 10 times",
        ),
        (
            "x: spread(12)",
            "wrong-argument «spread(12)» `over=` is missing | write `spread(times, over=rows, on=RS, "
            "ends=both, first=shorter, rates=two, wording=same)`",
        ),
        (
            "p: spread(2, over=10)\nx: p + 1",
            "wrong-dimension «p» `p` is a plan for shaping, not a number | ask for a number of it: every, "
            "times, then_every, then_times, rest",
        ),
        (
            "p: spread(2, over=10)\nx: p.evry",
            "unknown-number «p.evry» the plan `p` has no `evry` | did you mean `p.every`?",
        ),
        (
            "a: 4\nx: a.every",
            "unknown-number «a.every» `a` is a number and has no `every`",
        ),
        (
            "x: nearest(90, 4)",
            "rounding-tie «nearest(90, 4)» 90 lies exactly between two; 92 is taken [S, M, L] | say `to=up` "
            "or `to=down`",
        ),
    ],
)  # fmt: skip
def test_fault(numbers: str, expected: str, make: Make, trade: Trade) -> None:
    (found,) = evaluate(make(numbers), trade).findings
    assert told(found) == expected


@pytest.mark.parametrize(
    ("gauge", "formula", "expected"),
    [
        (
            TWO_GAUGES,
            "stitches(40 cm)",
            "gauge-unnamed «stitches» `stitches()` needs a gauge, and the pattern has 2 | add "
            '`gauge=stockinette` or `gauge="seed stitch"`',
        ),
        (
            TWO_GAUGES,
            "gauge.rows * 4 cm",
            "gauge-unnamed «gauge.rows» `gauge.rows` needs a gauge, and the pattern has 2 | add "
            '`gauge=stockinette` or `gauge="seed stitch"`',
        ),
        (
            TWO_GAUGES,
            "rows(40 cm, gauge=seed_stitch)",
            "wrong-dimension «rows(40 cm, gauge=seed_stitch)» this gauge gives stitches only, no rows | add "
            "`rows:` to the gauge",
        ),
        (
            "  {}",
            "stitches(40 cm)",
            "gauge-unnamed «stitches» `stitches()` needs a gauge, and the pattern has none | add `gauge:`",
        ),
    ],
)  # fmt: skip
def test_gauge_fault(gauge: str, formula: str, expected: str, make: Make, trade: Trade) -> None:
    (found,) = evaluate(make(f"x: {formula}", gauge=gauge), trade).findings
    assert told(found) == expected


def test_one_fault_is_told_once_and_takes_down_only_what_needs_it(make: Make, trade: Trade) -> None:
    checked = evaluate(make("a: 84 +\nb: a / 2\nc: b / 2\nd: 7"), trade)
    assert [found.rule.name for found in checked.findings] == ["formula-unreadable"]
    assert [checked.value.get(name) is None for name in "abcd"] == [True, True, True, False]
    (found,) = resolve(Text.plain("c + 1"), checked.value).findings
    assert told(found) == "number-without-value «c» `c` has no value, for the fault in line 11"
    assert found.related[0].span.line == 11


def test_two_loops_are_two_findings_and_the_rest_is_worked_out(make: Make, trade: Trade) -> None:
    checked = evaluate(make("a: b\nb: a\nc: d\nd: c + e\ne: 5"), trade)
    assert [found.rule.name for found in checked.findings] == ["formula-loop", "formula-loop"]
    assert words(checked.value, "e") == ["5"] * 3


def test_a_count_that_is_not_whole_is_told_where_it_is_worked_out(make: Make, trade: Trade) -> None:
    pattern = make(
        "c: stitches(40 (41, 42.5) cm)\nhalf: c / 4\nraw: c / 3", work="Cast on {half} sts, then {half} more."
    )
    checked = evaluate(pattern, trade)
    (found,) = checked.findings
    assert told(found) == (
        "number-not-whole «c / 4» `half` should be a whole number of stitches, and is 20.5 in M, 21.25 in L [M, L]"
        " | round it with `nearest(…)`, `up(…)` or `down(…)`, or make what it is worked out from a multiple"
    )
    # the needle goes on with whole stitches, and the fault is not told again
    assert resolve(Text.plain("half"), checked.value).findings == ()
    (again,) = resolve(Text.plain("half + raw"), checked.value).findings
    assert again.rule.name == "number-not-whole"


# ---------------------------------------------------------------------------------------------- resolving


@pytest.mark.parametrize(
    ("formula", "kind", "values"),
    [
        (
            "c",
            "count",
            (80, 88, 96),
        ),
        (
            "c - 8",
            "count",
            (72, 80, 88),
        ),
        (
            "84",
            "count",
            (84, 84, 84),
        ),
        (
            "4 cm",
            "length",
            (40, 40, 40),
        ),
        (
            "40 (44, 48) cm",
            "length",
            (400, 440, 480),
        ),
        (
            "50 g",
            "mass",
            (50, 50, 50),
        ),
        (
            "1.5",
            "number",
            (Fraction(3, 2),) * 3,
        ),
        (
            "84 (–, 100)",
            "count",
            (84, None, 100),
        ),
        (
            "p.times",
            "count",
            (4,) * 3,
        ),
        (
            "p.then_every",
            "count",
            (4,) * 3,
        ),
        (
            "width(c)",
            "length",
            (400, 440, 480),
        ),
    ],
)  # fmt: skip
def test_resolve(
    formula: str, kind: str, values: tuple[Fraction | int | None, ...], worked: Callable[..., Numbers]
) -> None:
    numbers = worked("c: stitches(40 (44, 48) cm)\np: spread(36, over=140)")
    resolved = resolve(Text.plain(formula), numbers)
    assert resolved.findings == ()
    assert resolved.value == Resolved(kind, tuple(values), formula)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        (
            "gauge.stitches",
            "wrong-dimension «gauge.stitches» `gauge.stitches` is stitches divided by length, which no "
            "instruction can use",
        ),
        (
            "p",
            "wrong-dimension «p» `p` is a plan for shaping, not a number | ask for a number of it: every, "
            "times, then_every, then_times, rest",
        ),
        (
            "zz",
            "unknown-number «zz» there is no number `zz` | the numbers are c, p",
        ),
        (
            "c / 3",
            "number-not-whole «c / 3» `c / 3` should be a whole number of stitches, and is 26.667 in S, "
            "29.333 in M [S, M] | round it with `nearest(…)`, `up(…)` or `down(…)`, or make what it is "
            "worked out from a multiple",
        ),
        (
            "c +",
            "formula-unreadable «+» the formula ends too soon | a number or a name is missing here",
        ),
    ],
)  # fmt: skip
def test_resolve_fault(formula: str, expected: str, worked: Callable[..., Numbers]) -> None:
    numbers = worked("c: stitches(40 (44, 48) cm)\np: spread(36, over=140)")
    (found,) = resolve(Text.plain(formula), numbers).findings
    assert told(found) == expected


# ---------------------------------------------------------------------------------------------- fit words


def test_fit_words_are_their_published_ease(worked: Callable[..., Numbers]) -> None:
    """Craft Yarn Council's fit words as the table has them; an open end leaves the other."""
    numbers = worked(
        "a: fit.classic\nb: fit.classic.low\nc: fit.loose_fit.high\nd: fit.very_close\ne: fit.oversized.high\n"
        "chest: 90 cm + fit.relaxed"
    )
    shown = {name: words(numbers, name)[0] for name in ("a", "b", "c", "d", "e", "chest")}
    assert shown == {"a": "7.5 cm", "b": "5 cm", "c": "15 cm", "d": "−7.5 cm", "e": "15 cm", "chest": "102.5 cm"}


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("x: fit.clasic", "unknown-number «fit.clasic» `fit.clasic` is no fit | did you mean `fit.classic`?"),
        ("x: fit.classic.lowest",
         "unknown-number «fit.classic.lowest» `fit.classic.lowest` is no fit | did you mean `fit.classic`?"),
        ("fit: 8 cm", "number-name «fit» `fit` is what formulas call the fit words by | choose another name"),
    ],
)  # fmt: skip
def test_faults_of_fit_words(formula: str, expected: str, make: Make, trade: Trade) -> None:
    (found,) = evaluate(make(formula), trade).findings
    assert told(found) == expected


# ---------------------------------------------------------------------------------------------- plans


def test_edges_that_share_stitches(worked: Callable[..., Numbers]) -> None:
    numbers = worked("p: spread(24, over=60, ends=both)\nx: p.times + p.then_times")
    assert words(numbers, "x")[0] == "12"


def test_an_odd_count_cannot_be_shared_by_two_edges(make: Make, trade: Trade) -> None:
    (found,) = evaluate(make("n: 24 (25, 26)\np: spread(n, over=60, ends=both)"), trade).findings
    assert told(found) == (
        "wrong-argument «n» `n` is 25, which two edges cannot share evenly [M] | make both counts even or both odd, "
        "with `parity=` where they are worked out"
    )


def test_a_plan_gives_its_numbers_by_name(worked: Callable[..., Numbers]) -> None:
    """36 changes in 140 rows: every 3rd row 4 times, every 4th row 32 times (a published example)."""
    numbers = worked(
        "p: spread(36, over=140)\nrow: p.every\nfirst: p.times\nthen: p.then_every\nlast: p.then_times\n"
        "e: evenly(4, across=51)\nat: e.before\ns: steps(23, over=3)\nstep: s.each\n"
        "c: curve(23, over=16)\nfoot: c.first"
    )
    shown = {name: words(numbers, name)[0] for name in ("row", "first", "then", "last", "at", "step", "foot")}
    assert shown == {"row": "3", "first": "4", "then": "4", "last": "32", "at": "6", "step": "8", "foot": "11"}
    assert numbers.get("p") is None
    entry = numbers.entry("p")
    assert entry is not None and entry.plan is not None and entry.plan.plans[0] is not None
    assert entry.plan.plans[0].words == "every 3rd row 4 times, then every 4th row 32 times"


def test_every_function_has_a_value_test() -> None:
    """So that a function added without one is seen."""
    tests = Path(__file__).read_text(encoding="utf-8")
    for name in SIGNATURES:
        assert f"{name}(" in tests, name


# ---------------------------------------------------------------------------------------------- real sources


@pytest.mark.parametrize("name", ["skipjack-jumper", "tidewrack-headband"])
def test_demonstrations_are_graded_without_a_fault(name: str, trade: Trade) -> None:
    read = read_source(name, (ROOT / "patterns" / f"{name}.yaml").read_bytes())
    assert read.value is not None
    pattern = load(read.value).value
    assert pattern is not None
    assert [found for found in evaluate(pattern, trade).findings if found.severity != "note"] == []
