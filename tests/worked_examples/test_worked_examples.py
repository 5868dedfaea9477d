"""Thirteen printed patterns of 1843 to 1918 (public domain), typed as a designer would type them today.

Each source names its book; what must be found in it, and what must hold, stands with the reasoning in `expected.yaml`.
"""

from __future__ import annotations

import ast
import operator
import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from castoff.diagnostic import Diagnostic
from castoff.knitting.fabric import PieceKnitted, RowRecord
from castoff.pipeline import Proof, prove_text

HERE = Path(__file__).parent
EXPECTED: dict[str, dict[str, Any]] = yaml.safe_load((HERE / "expected.yaml").read_text(encoding="utf-8"))
SOURCES = tuple(sorted(path.stem for path in HERE.glob("*.yaml") if path.name != "expected.yaml"))

_TITLE = re.compile(r"  - title: (.*)")
_LIST = r"(?:\d+|–)(?: \([^()]*\))?"
_TOTAL = re.compile(rf"(?<=[.—] )({_LIST}) sts(?=[.:] |[.:]$)|(?<=[.—] )({_LIST}) sts(?=\.)")
_OPERATORS: dict[type[ast.operator], Callable[[int, int], int]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.FloorDiv: operator.floordiv,
}


def text_of(source: str) -> str:
    return (HERE / f"{source}.yaml").read_text(encoding="utf-8")


@cache
def proof_of(source: str) -> Proof:
    return prove_text(f"{source}.yaml", text_of(source))


def instruction_lines(text: str) -> Iterator[tuple[str, int, str]]:
    """Section title, line number from 1, and the line, for every line of instructions."""
    title = ""
    inside = False
    for number, line in enumerate(text.splitlines(), start=1):
        found = _TITLE.fullmatch(line)
        if found is not None:
            title, inside = found[1].strip('"'), False
        elif line == "    work: |":
            inside = True
        elif not line.startswith("      "):
            inside = False
        elif inside and title:
            yield title, number, line.strip()


def line_of(text: str, entry: dict[str, Any]) -> int:
    """The one line that an entry of `expected.yaml` speaks of."""
    if "key" in entry:
        lines = enumerate(text.splitlines(), start=1)
        found = [number for number, line in lines if line.strip().startswith(entry["key"])]
    else:
        found = [
            number
            for title, number, line in instruction_lines(text)
            if title == entry["section"] and line.startswith(entry["row"])
        ]
    assert len(found) == 1, f"{entry} is on lines {found}"
    return found[0]


def told(finding: Diagnostic) -> str:
    """A finding with its place, for a failing test to show."""
    place = "whole file" if finding.span is None else f"line {finding.span.line}"
    return f"{place}: {finding.severity} {finding.rule.name} {list(finding.sizes)}: {finding.message}"


def numbers_in(message: str) -> set[int]:
    return {int(number) for number in re.findall(r"\d+", message)}


def entries(kind: str) -> list[Any]:
    return [
        pytest.param(source, entry, id=f"{source}: {entry.get('section', '')} {entry.get('row', entry.get('key'))}")
        for source, wanted in EXPECTED.items()
        for entry in wanted[kind]
    ]


def result_of(calc: str) -> int:
    """A sum of the book's numbers: + - * // and brackets."""

    def value(node: ast.expr) -> int:
        if isinstance(node, ast.BinOp):
            return _OPERATORS[type(node.op)](value(node.left), value(node.right))
        assert isinstance(node, ast.Constant) and isinstance(node.value, int), f"{calc} is no sum of whole numbers"
        return node.value

    return value(ast.parse(calc, mode="eval").body)


def matches(finding: Diagnostic, text: str, entry: dict[str, Any]) -> bool:
    return (
        finding.rule.name == entry["rule"]
        and finding.span is not None
        and finding.span.line == line_of(text, entry)
        and set(entry["numbers"]) <= numbers_in(finding.message)
        and list(finding.sizes) == entry.get("sizes", [])
    )


def test_every_source_is_expected_and_every_expectation_has_a_source() -> None:
    assert sorted(EXPECTED) == list(SOURCES)


@pytest.mark.parametrize("source", SOURCES)
def test_the_head_of_the_file_names_book_year_and_public_domain(source: str) -> None:
    head = "".join(line for line in text_of(source).splitlines(keepends=True)[:12] if line.startswith("#"))
    assert re.search(r"from \"[A-Z]|from\s+# \"|from \"The", head), "the book stands in double quotes"
    assert re.search(r"\b18\d\d\b|\b19[12]\d\b", head)
    assert "Public domain:" in head


@pytest.mark.parametrize(("source", "entry"), entries("findings"))
def test_a_known_error_is_found_at_its_row_with_its_numbers(source: str, entry: dict[str, Any]) -> None:
    text, proof = text_of(source), proof_of(source)
    found = [finding for finding in proof.findings if matches(finding, text, entry)]
    assert len(found) == 1, "\n".join(["found instead:", *map(told, proof.findings)])


@pytest.mark.parametrize("source", SOURCES)
def test_nothing_else_is_reported(source: str) -> None:
    text, proof = text_of(source), proof_of(source)
    wanted = EXPECTED[source]["findings"]
    others = [finding for finding in proof.findings if not any(matches(finding, text, entry) for entry in wanted)]
    assert not others, "\n" + "\n".join(map(told, others))


@pytest.mark.parametrize(("source", "entry"), entries("holds"))
def test_a_total_that_holds_is_the_sum_of_the_numbers_of_the_book(source: str, entry: dict[str, Any]) -> None:
    calcs = entry["calc"] if isinstance(entry["calc"], list) else [entry["calc"]]
    assert [result_of(str(calc)) for calc in calcs] == [int(number) for number in re.findall(r"\d+", entry["sts"])]
    text = text_of(source)
    line = text.splitlines()[line_of(text, entry) - 1]
    assert f"{entry['sts']} sts" in line


def totals_of(source: str) -> list[Any]:
    """Every total that a source states and that the knitting can be held to.

    Behind a row that cannot be worked the next total is the one that knitting goes on from, and what is taken on trust
    is not knitted.
    """
    text = text_of(source)
    broken = {
        line_of(text, entry)
        for entry in EXPECTED[source]["findings"]
        if entry["rule"] in ("repeat-does-not-divide", "too-few-stitches", "stitches-left-over")
    }
    wrong = {line_of(text, entry) for entry in EXPECTED[source]["findings"]} - broken
    found = []
    lost = False
    for title, number, line in instruction_lines(text):
        lost = lost or number in broken
        for match in _TOTAL.finditer(line):
            if not (lost or number in wrong or line.startswith((">", "On trust:"))):
                found.append(pytest.param(source, number, match[1] or match[2], id=f"{source}: {title}, line {number}"))
            lost = False
    return found


@pytest.mark.parametrize(("source", "number", "total"), [each for source in SOURCES for each in totals_of(source)])
def test_a_total_that_is_one_off_is_found_with_both_numbers(source: str, number: int, total: str) -> None:
    """Proves that every stated total is really held against the knitting: the same text with one more is a finding."""
    lines = text_of(source).splitlines(keepends=True)
    right = next(int(each) for each in re.findall(r"\d+", total))
    wrong = total.replace(str(right), str(right + 1), 1)
    before, _, after = lines[number - 1].rpartition(f" {total} sts")
    lines[number - 1] = f"{before} {wrong} sts{after}"
    proof = prove_text(f"{source}.yaml", "".join(lines))
    found = [
        finding
        for finding in proof.findings
        if finding.span is not None
        and finding.span.line == number
        and finding.rule.name == "stated-total-off"
        and {right, right + 1} <= numbers_in(finding.message)
    ]
    assert found, "\n".join(["found instead:", *map(told, proof.findings)])


# ---------------------------------------------------------------------------------------------- what was knitted


def piece_of(source: str, name: str) -> PieceKnitted:
    knitted = proof_of(source).knitted
    assert knitted is not None
    return knitted.sizes[0].pieces[name]


def row_by_row(piece: PieceKnitted) -> list[RowRecord]:
    """The record of every row in its order; one record may stand for several rows."""
    rows = {record.row + n * record.step: record for record in piece.records for n in range(record.rows)}
    return [rows[row] for row in sorted(rows)]


def in_yarn(record: RowRecord, yarn: str) -> int:
    return sum(count for (key, _), count in record.tally if key == yarn)


def test_the_check_has_the_colours_that_the_printed_rounds_give() -> None:
    """Eight stitches of each round, as charted from the printed words: c crimson, d dark; ten checks in a round."""
    chart = [
        "cddddddc", "ccddddcc", "cccddccc", "ccddddcc", "cddddddc",
        "dddccddd", "ddccccdd", "dccccccd", "ddccccdd", "dddccddd",
    ]  # fmt: skip
    rounds = row_by_row(piece_of("ryder-check-top-1896", "Stocking Top"))[4:44]
    assert [in_yarn(record, "CC") for record in rounds] == [10 * row.count("c") for row in chart] * 4
    assert [in_yarn(record, "MC") for record in rounds] == [10 * row.count("d") for row in chart] * 4


def test_the_quilt_square_has_its_white_in_the_rows_that_name_it() -> None:
    white = {7: 3, 8: 3, 11: 7, 12: 7, 15: 11, 16: 11, 19: 11, 20: 11, 23: 7, 24: 7, 27: 3, 28: 3}
    records = piece_of("lambert-quilt-square-1843", "Square").records
    found = {record.row: in_yarn(record, "B") for record in records if in_yarn(record, "B")}
    assert found == white


def test_the_square_from_the_centre_grows_by_eight_in_every_pattern_round() -> None:
    square = piece_of("beeton-counterpane-square-1870-mended", "Square")
    counts = [square.stitches_at(row) for row in range(1, 42)]
    assert counts[:3] == [8, 12, 12]
    assert counts[3:] == [4 * (5 + 2 * (n // 2)) for n in range(38)]


def test_the_quilt_square_is_nineteen_wide_in_the_middle_and_symmetrical() -> None:
    square = piece_of("lambert-quilt-square-1843", "Square")
    counts = [square.stitches_at(row) for row in range(37)]
    assert counts == [*range(1, 20), *range(18, 0, -1)]


def test_the_heel_of_the_sock_turns_in_the_short_rows_of_the_book() -> None:
    """Stitches live after each of the 15 rows; all but the last two leave some unworked, at one side or at both."""
    knitted = proof_of("rc-service-sock-1918").knitted
    assert knitted is not None
    turn = next(section for section in knitted.sizes[0].sections if section.title == "Heel turn")
    assert [record.after for record in turn.records] == list(range(30, 15, -1))
    assert [record.short for record in turn.records] == [True] * 13 + [False] * 2
