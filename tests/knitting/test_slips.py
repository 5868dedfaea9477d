# ruff: noqa: E501 - lines are quoted whole
"""The slips that knitters and their editors make most: what is said about each, word for word, and what is offered."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment
from tests.knitting.plans import GAUGES, NEEDLES, TRADE

from castoff.checks.evenly_unspaced import spaced_row
from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection
from castoff.notation.lines import parse_work
from castoff.notation.vocabulary import Vocabulary
from castoff.pipeline import prove_text
from castoff.span import Text

SLIPS = {
    "`more` is missing": (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1 and 2 5 times in all. 12 rows worked.",
        "stated-rows-off: 12 rows are printed, 10 have been worked in this section", "10 rows"),
    "`times` is missing": (
        "Row 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1 and 2 5 more.",
        "unread-words: `.` cannot be read here; understood so far: `rep rows 1 and 2 5 more`", "`times` is missing: `5 more times`"),
    "how many more times": (
        "Row 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1 and 2 more times.",
        "unread-words: `.` cannot be read here; understood so far: `rep rows 1 and 2 more times`", "say how many more times: `5 more times`"),
    "`to end` is forgotten": (
        "Cast on 20 sts.\nRow 1 (RS): K5, p5.",
        "stitches-left-over: row 1: k5 + p5 = 10; 20 sts are on the needle, 10 left unworked", "`p to end`"),
    "`to end` is forgotten behind a lone k": (
        "Cast on 20 sts.\nRow 1 (RS): K5, p5, k.",
        "stitches-left-over: row 1: k5 + p5 + k (1) = 11; 20 sts are on the needle, 9 left unworked", "`k to end`"),
    "a number is off": (
        "Cast on 70 sts.\nRow 1 (RS): K12, p6, k54.",
        "too-few-stitches: row 1: k12 + p6 + k54 = 72; 70 sts are on the needle", "k52 would come out"),
    "`to last` leaves too few": (
        "Cast on 20 sts.\nRow 1 (RS): K1, ssk, k to last 2 sts, k2tog, k1.",
        "too-few-stitches: row 1: k2tog (2) + k1 = 3 behind the place that leaves 2 sts", "`to last 3 sts`"),
    "`to last` leaves too many": (
        "Cast on 20 sts.\nRow 1 (RS): K1, ssk, k to last 4 sts, k2tog, k1.",
        "stitches-left-over: row 1: k2tog (2) + k1 = 3 behind the place that leaves 4 sts", "`to last 3 sts`"),
    "a decrease on the wrong side": (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nDec row (RS): K1, ssk, k to last 3 sts, k2tog, k1. 18 sts.",
        "wrong-side-due: dec row is printed for the RS, a WS row is due",
        "a row is missing or one too many before it, or it is meant as the WS row"),
    "`rep` is missing": (
        "Cast on 20 sts.\nRow 1 (RS): *K2, p2; from * to end.",
        "unread-words: `from` cannot be read here; understood so far: `row 1 (rs): *k2, p2;`", "`rep` is missing: `rep from *`"),
    "`rep from *` is missing": (
        "Row 1 (RS): *K2, p2.",
        "unread-words: the line ends where more is needed; understood so far: `row 1 (rs): *k2, p2.`",
        "missing: `rep from *` for the star that opens the repeat"),
    "the star is missing": (
        "Row 1 (RS): K2, p2; rep from * to end.",
        "unread-words: `*` cannot be read here; understood so far: `row 1 (rs): k2, p2; rep from`",
        "no `*` stands before it: put one where the repeat begins"),
    "a length has no unit": (
        "Work in St st until piece measures 10.",
        "unread-words: `10` cannot be read here; understood so far: `work in st st until piece measures`", "a length needs its unit: `10 cm`"),
    "a repeat has lost a part": (
        "Cast on 20 sts.\nRow 1 (RS): *P2; rep from * to end.",
        "repeat-of-one-stitch: the repeat holds nothing but p: part of it may be missing", "without a repeat it would be `knit` or `purl`"),
    "a repeat does not fit": (
        "Cast on 24 sts.\nRow 1 (RS): K1, *yo, k2tog; rep from * to end.",
        "repeat-does-not-divide: row 1: 23 sts do not divide by 2: 1 left over", "22 or 24 sts would fit"),
    "both sides of one row": (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nRow 2 (RS): Purl.",
        "wrong-side-due: row 2 is printed for the RS, a WS row is due",
        "a row is missing or one too many before it, or it is meant as the WS row"),
    "one row too few": (
        "Cast on 20 sts.\nRow 1 (RS): Knit.\nRow 2: Purl.\nRow 4: Purl.",
        "row-number-out-of-order: row 4 follows row 2", "row 3 is due"),
    "`each end` counted once": (
        "Cast on 24 sts.\nRow 1 (RS): Knit.\nRow 2: Purl.\nDec 1 st at each end of next row. 23 sts.",
        "stated-total-off: 23 sts are printed, 22 are on the needle", "22 sts"),
    "a k2tog in two letters": (
        "Row 1 (RS): K1, k2tgo, k to end.",
        "unread-words: `k2tgo` cannot be read here; understood so far: `row 1 (rs): k1,`", "did you mean `k2tog`?"),
    "two rates without `then`": (
        "Cast on 40 sts.\nWork 2 rows in St st.\nDec 1 st at each end of next and every foll 4th row 3 times, every alt row twice.",
        "then-missing: the second rate is read as coming behind the first; the line does not say so", "write `then` before it"),
    "times read both ways": (
        "Cast on 40 sts.\nRow 1 (RS): *K1, yo; rep from * 5 times, k to end.",
        "times-ambiguous: row 1: the repeat can be worked as often as it says in all (45 sts) or once more (46 sts)",
        "write `more times`, or `times in all`"),
    "rows repeated so many times, in all or more": (
        "Cast on 70 sts.\nRow 1 (RS): K1, ssk, k to end.\nRow 2: Purl.\nRep rows 1 and 2 6 times.",
        "times-ambiguous: the rows can be worked 6 more times (63 sts) or 6 times in all (64 sts)",
        "write `6 more times`, or `6 times in all`, or the total behind it"),
    "how many are increased is forgotten": (
        "Cast on 40 sts.\nRow 1 (RS): Knit.\nInc evenly across row.",
        "unread-words: `.` cannot be read here; understood so far: `inc evenly across row`",
        "say how many: `inc 8 sts evenly across row`, or how many there are to be: `inc evenly to 80 sts`"),
    "how many are decreased is forgotten behind a stitch": (
        "Cast on 40 sts.\nRow 1 (RS): Knit, decreasing evenly across the row.",
        "unread-words: `.` cannot be read here; understood so far: `… 1 (rs): knit, decreasing evenly across the row`",
        "say how many: `dec 8 sts evenly across row`, or how many there are to be: `dec evenly to 80 sts`"),
    "more increases than stitches": (
        "Cast on 40 sts.\nRow 1 (RS): Knit, inc 50 sts evenly.",
        "no-even-spacing: row 1: 50 increases do not fit evenly across 40 sts", "at most 40 fit"),
}  # fmt: skip


def found(work: str) -> list[tuple[str, str | None]]:
    vocabulary = Vocabulary(
        ("One size",), TRADE.stitches, yarns=("A", "B"), needles=tuple(NEEDLES), gauges=tuple(GAUGES)
    )
    read = parse_work(Text.plain(work), vocabulary)
    findings = read.findings
    if not findings:
        section = PlanSection("Body", "Piece", read.value, "flat", "stockinette")
        findings = knit(Plan(("One size",), (section,), TRADE.stitches, GAUGES, ("A", "B"), NEEDLES)).findings
    return [(f"{each.rule.name}: {each.message}", each.hint) for each in findings]


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_with_what_would_be_right(slip: str) -> None:
    work, wording, hint = SLIPS[slip]
    assert found(work + "\nBind off all sts.")[0] == (wording, hint)


def test_centimetres_for_inches() -> None:
    right = "Work in St st until swatch measures 10 cm / 4 in from cast-on edge, ending with a WS row."
    wrong = right.replace("10 cm / 4 in", "4 cm / 10 in")
    assert "conversion-off" not in rules_of(right)
    assert "conversion-off" in rules_of(wrong)


def rules_of(line: str) -> list[str]:
    return [finding.rule.name for finding in prove_text("tiny.yaml", with_fragment(line)).findings]


def test_times_that_fit_one_reading_are_settled_by_the_total() -> None:
    rows = "Cast on 40 sts.\nRow 1 (RS): K1, ssk, k to last 3 sts, k2tog, k1.\nRow 2: Purl.\nRep rows 1 and 2 5 times. {} sts.\nBind off all sts."
    assert found(rows.format(28)) == []  # five more
    assert found(rows.format(30)) == []  # five in all
    assert found(rows.format(29))[0][0] == "stated-total-off: 29 sts are printed, 28 are on the needle"


def test_a_spacing_is_offered() -> None:
    assert spaced_row(84, 6, decrease=False) == "k7, *m1, k14; rep from * 4 times more, m1, k7"
    assert spaced_row(40, 41, decrease=False) is None


@pytest.mark.parametrize("rate", ["every 4 rows", "every 4th row"])
def test_every_fourth_row_without_the_first(rate: str) -> None:
    line = f"Dec 1 st at each end {rate} 2 times."
    found = [
        each for each in prove_text("tiny.yaml", with_fragment(line)).findings if each.rule.name == "first-row-unsaid"
    ]
    assert [each.message for each in found] == [
        "every 4th row, but which is the first: rows 1, 5, 9 … or rows 4, 8, 12 …"
    ]
    assert found[0].hint is not None and "write `next and every foll 4th row`" in found[0].hint
    assert "first-row-unsaid" not in rules_of("Dec 1 st at each end of next and every foll 4th row 2 times.")


def test_rows_repeated_so_many_times_are_settled_by_what_is_printed() -> None:
    rows = "Cast on 70 sts.\nRow 1 (RS): K1, ssk, k to end.\nRow 2: Purl.\nRep rows 1 and 2 {}\nBind off all sts."
    assert found(rows.format("6 times. 63 sts.")) == found(rows.format("6 times. 64 sts.")) == []
    assert found(rows.format("6 more times.")) == found(rows.format("6 times in all.")) == []
    plain = rows.replace("K1, ssk, k to end", "Knit")
    assert found(plain.format("6 times.")) == []  # the stitches are the same in both readings; the length is measured
    assert found(rows.format("6 times. 62 sts."))[0][0].startswith("stated-total-off: 62 sts are printed")
