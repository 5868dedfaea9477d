"""The notes may say what a short form stands for; what they tell to be worked is still asked about."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text

WORK = "Work in st st for 4 rows."


def _rules(notes: str) -> list[str]:
    fragment = f"notes: {notes}\n{WORK}"
    return [finding.rule.name for finding in prove_text("a.yaml", with_fragment(fragment)).findings]


@pytest.mark.parametrize(
    "notes", ['"Sk2p means slip 1 st, k2tog, pass it over."', '"All even. RT = slip 2 sts to cn, k1."']
)
def test_what_a_short_form_means_is_no_instruction(notes: str) -> None:
    assert _rules(notes) == []


@pytest.mark.parametrize("notes", ['"Sk2p means so. Slip 2 sts at each end."', '"Sleeve: pick up 5 sts at the cuff."'])
def test_what_is_to_be_worked_is_one(notes: str) -> None:
    assert _rules(notes) == ["prose-instruction"]
