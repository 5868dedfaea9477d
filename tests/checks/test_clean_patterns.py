"""Patterns by a competent author, typed in literal numbers, are clean: a check that cries wolf is switched off."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from castoff.checks.printed_words import printed_words
from castoff.checks.unit_pairs import Pair, pairs_in, same_amount
from castoff.pipeline import prove_file

TYPED = sorted((Path(__file__).parents[1] / "typed_patterns").glob("*.yaml"))


@pytest.mark.parametrize("path", TYPED, ids=lambda path: path.stem)
def test_a_clean_pattern_has_no_findings_at_all(path: Path) -> None:
    findings = prove_file(path).findings
    found = [(each.rule.name, each.span and each.span.line, each.message) for each in findings]
    assert found == []


def moved(pair: Pair, index: int, inch: Fraction) -> list[str]:
    """Slips of a whole centimetre or half an inch in one size of a pair that would pass."""
    passed = []
    first, second = pair.first[index], pair.second[index]
    assert first is not None
    assert second is not None
    for by in (-1, 1):
        step = {"cm": Fraction(by), "in": Fraction(by, 2)}
        for one, other in ((step[pair.first_unit], Fraction(0)), (Fraction(0), step[pair.second_unit])):
            if same_amount(first + one, pair.first_unit, second + other, pair.second_unit, inch):
                passed.append(f"{first + one} {pair.first_unit} / {second + other} {pair.second_unit}")
    return passed


def test_each_whole_centimetre_or_half_inch_moved_in_a_typed_pair_is_found() -> None:
    tried = 0
    passed: list[str] = []
    for path in TYPED:
        pattern = prove_file(path).pattern
        assert pattern is not None
        assert pattern.inch is not None
        for printed in printed_words(pattern):
            for pair in pairs_in(printed.text, len(pattern.sizes)):
                if {pair.first_unit, pair.second_unit} == {"in", "cm"}:
                    for index in range(len(pair.first)):
                        tried += 1
                        passed += moved(pair, index, pattern.inch.value)
    assert tried >= 27
    assert passed == []
