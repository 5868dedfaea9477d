"""Every rule has its page, and the examples on the page do what they say."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from tests.checks.tiny_pattern import TINY, examples_of, with_fragment

import castoff
from castoff.checks.registry import CHECK_RULES, CHECKS, RULES
from castoff.diagnostic import Rule
from castoff.pipeline import prove_text

PACKAGE = Path(castoff.__file__).parent
# a picture can only be missing from a folder; its own page tests it there
ELSEWHERE = frozenset({"picture-missing"})


def test_the_tiny_pattern_is_clean() -> None:
    proof = prove_text("tiny.yaml", TINY.replace("@\n", ""))
    assert [(finding.rule.name, finding.message) for finding in proof.findings] == []


def test_names_are_unique_and_say_a_fault() -> None:
    names = [rule.name for rule in RULES]
    assert sorted(set(names)) == sorted(names)
    for name in names:
        assert name == name.lower()
        assert not name.startswith("check-")


def test_every_rule_declared_anywhere_up_to_the_checks_is_registered() -> None:
    registered = {rule.name for rule in RULES}
    for folder in ("source", "model", "grading", "notation", "knitting", "checks"):
        for path in sorted((PACKAGE / folder).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Rule":
                    first = node.args[0] if node.args else None
                    assert isinstance(first, ast.Constant), f"{path.name}: a rule's name is written out"
                    assert first.value in registered, f"{path.name} declares {first.value!r}, which is not registered"


def test_file_and_rule_share_their_name() -> None:
    for check in CHECKS:
        assert check.find.__module__.rsplit(".", 1)[1].replace("_", "-") == check.rule.name


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_page_has_a_summary_and_tells_when_it_fires(rule: Rule) -> None:
    assert 10 < len(rule.summary) < 120
    assert rule.summary.endswith(".")
    assert rule.severity in ("error", "warning", "note")
    # a note about another finding has nothing of its own to show
    if rule.severity != "note" or rule in CHECK_RULES:
        assert "Fires:" in rule.page
        assert "Silent:" in rule.page


@pytest.mark.parametrize("rule", CHECK_RULES, ids=lambda rule: rule.name)
def test_the_examples_of_a_page(rule: Rule) -> None:
    examples = examples_of(rule.page)
    assert examples.fires
    assert examples.silent
    for fragment in () if rule.name in ELSEWHERE else examples.fires:
        findings = prove_text("fires.yaml", with_fragment(fragment)).findings
        assert rule.name in [finding.rule.name for finding in findings], (fragment, findings)
    for fragment in examples.silent:
        proof = prove_text("silent.yaml", with_fragment(fragment))
        told = [finding.message for finding in proof.findings if finding.rule == rule or finding.severity == "error"]
        assert told == [], fragment
