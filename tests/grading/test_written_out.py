"""The words of a plan in an instruction: what is printed is what the needle knits, from one plan."""

from __future__ import annotations

import pytest

from castoff.grading.written_out import written_out
from castoff.pipeline import Proof, prove_text
from castoff.span import Text

SOURCE = """\
written_for: 1
title: T
sizes: {{names: "S (M, L)"}}
gauge: {{st: {{stitches: 20, rows: 28, over: 10 cm}}}}
yarns: {{A: {{name: Low Tide DK}}}}
needles: {{larger: {{size: 5 mm}}}}
excerpt: true
numbers:
  p: {plan}
sections:
  - title: B
    worked: {form}
    work: |
      With larger needles, cast on 124 (136, 140) sts.
{lines}
"""


def proof(plan: str, *lines: str, form: str = "flat") -> Proof:
    indented = "\n".join(f"      {line}" for line in lines)
    return prove_text("t.yaml", SOURCE.format(plan=plan, form=form, lines=indented))


def shaped(found: Proof, size: int) -> list[int]:
    """Numbers of the rows that change the count."""
    assert found.knitted is not None
    assert [finding.message for finding in found.findings if finding.severity == "error"] == []
    records = found.knitted.sizes[size].sections[0].records
    rows = [
        record.row + n * record.step for record in records for n in range(record.rows) if record.before != record.after
    ]
    return sorted(rows)


def plan_rows(found: Proof, size: int) -> list[int]:
    assert found.numbers is not None
    entry = found.numbers.entry("p")
    assert entry is not None and entry.plan is not None
    plan = entry.plan.plans[size]
    assert plan is not None and hasattr(plan, "shaping_rows")
    return list(plan.shaping_rows)


@pytest.mark.parametrize(
    "plan",
    [
        "spread(10 (11, 12), over=40 (40, 40))",  # one rate in S, two in the others
        "spread(10 (11, 12), over=40 (40, 40), wording=same)",
        "spread(10 (11, 12), over=40 (41, 42), rates=one)",
        "spread(11 (9, 7), over=41 (41, 41), on=RS, first=longer)",
        "spread(20 (22, 24), over=40, ends=both)",
        "spread(0 (11, 12), over=40)",  # nothing to do in S
    ],
)
def test_the_needle_shapes_the_rows_of_the_plan(plan: str) -> None:
    found = proof(plan, "Dec row: K1, ssk, k to last 3 sts, k2tog, k1.", "Rep dec row {p.words}.")
    for size in range(3):
        # the plan counts from the dec row itself
        assert shaped(found, size) == [1, *(1 + row for row in plan_rows(found, size))]


def test_rounds_are_called_rounds() -> None:
    found = proof("spread(10, over=40)", "Place marker and join.", "Rep rnd 1 {p.words}.", form="in the round")
    assert found.numbers is not None
    line = Text.plain("Rep dec rnd {p.words}.")
    assert written_out(line, found.numbers, "round").value == "Rep dec rnd every {p.every}th rnd {p.times} times."
    assert written_out(line, found.numbers).value == "Rep dec rnd every {p.every}th row {p.times} times."


@pytest.mark.parametrize(
    ("plan", "line", "totals"),
    [
        ("evenly(10 (11, 12), across=124 (136, 140))", "Inc row: {p.words}.", (134, 147, 152)),
        ("evenly(10 (11, 12), across=124 (136, 140), uses=2)", "Dec row: {p.words}.", (114, 125, 128)),
        ("evenly(10 (8, 7), across=124 (136, 140), worked=round)", "Inc row: {p.words}.", (134, 144, 147)),
        ("steps(23 (24, 26), over=3)", "Bind off {p.words}.", (78, 88, 88)),
        ("curve(23 (24, 26), over=16)", "Bind off {p.words}.", (78, 88, 88)),
    ],
)
def test_rows_and_bound_edges(plan: str, line: str, totals: tuple[int, ...]) -> None:
    found = proof(plan, line)
    assert [finding.message for finding in found.findings if finding.severity == "error"] == []
    assert found.knitted is not None
    assert tuple(size.sections[0].stitches for size in found.knitted.sizes) == totals


def test_every_character_keeps_its_place_in_order() -> None:
    found = proof("spread(10 (11, 12), over=40)", "Knit 1 row.")
    assert found.numbers is not None
    line = Text.plain("Rep dec row {p.words}. 4 sts.")
    out = written_out(line, found.numbers)
    places = [out.offset(index) for index in range(len(out.value))]
    assert places == sorted(places)
    assert out.value.endswith(". 4 sts.") and out.offset(out.value.index(". 4")) == line.value.index(". 4")
    second = out.value.index(", then")
    assert line.value.index("{") < out.offset(second) < line.value.index("}")
    assert max(places[:second]) < out.offset(second)


def test_words_where_a_number_is_wanted() -> None:
    found = proof("spread(10, over=40)", "Knit {p.words + 1} rows.")
    (told,) = [finding for finding in found.findings if finding.rule.name == "wrong-dimension"]
    assert told.message == "the words of `p` stand for themselves in an instruction line"
    assert told.hint is not None and told.hint.startswith("write `{p.words}` there, alone")


def test_a_row_that_one_size_does_not_have_stays_unread() -> None:
    """evenly() of nothing in S leaves no place for the first change: no sentence serves all sizes."""
    found = proof("evenly(0 (11, 12), across=124 (136, 140))", "Inc row: {p.words}.")
    assert [finding.rule.name for finding in found.findings if finding.severity == "error"] == ["wrong-dimension"]
