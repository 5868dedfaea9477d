"""What each rule says, word for word: one page a rule under `wording/`, for the firing examples of the rule's own page.

A page holds, for each example, the finding as a reader meets it: line, sizes, message and hint. To change a wording, change
the page.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.checks.tiny_pattern import examples_of, with_fragment

from castoff.checks.registry import CHECK_RULES
from castoff.diagnostic import Diagnostic, Rule
from castoff.pipeline import prove, prove_text
from castoff.world import World

PAGES = Path(__file__).parent / "wording"


def findings(rule: Rule, fragment: str, folder: Path) -> tuple[Diagnostic, ...]:
    source = with_fragment(fragment)
    # only a folder can lack a picture
    proof = (
        prove("example.yaml", source.encode(), World.beside(), folder)
        if rule.name == "picture-missing"
        else prove_text("example.yaml", source)
    )
    return tuple(finding for finding in proof.findings if finding.rule == rule)


def told(rule: Rule, folder: Path) -> str:
    """The page of a rule as it is now."""
    parts = []
    for fragment in examples_of(rule.page).fires:
        lines = [*(f"> {line}" for line in fragment.split("\n"))]
        for finding in findings(rule, fragment, folder):
            at = finding.span
            text = "" if at is None else at.source.text[at.start : at.end].strip().split("\n")[0]
            sizes = f", sizes {', '.join(finding.sizes)}" if finding.sizes else ""
            lines.append(f"{finding.severity} at `{text}`{sizes}")
            lines.append(f"  {finding.message}")
            if finding.hint is not None:
                lines.append(f"  hint: {finding.hint}")
            lines.extend(f"  {related.message}" for related in finding.related)
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


@pytest.mark.parametrize("rule", CHECK_RULES, ids=lambda rule: rule.name)
def test_wording(rule: Rule, tmp_path: Path) -> None:
    assert told(rule, tmp_path) == (PAGES / f"{rule.name}.txt").read_text("utf-8")


def test_no_page_is_left_over() -> None:
    assert {path.stem for path in PAGES.glob("*.txt")} == {rule.name for rule in CHECK_RULES}


@pytest.mark.parametrize("rule", CHECK_RULES, ids=lambda rule: rule.name)
def test_messages_keep_to_the_house_style(rule: Rule, tmp_path: Path) -> None:
    for fragment in examples_of(rule.page).fires:
        for finding in findings(rule, fragment, tmp_path):
            assert not finding.message.endswith(".")
            assert finding.message[0] == "`" or not finding.message[0].isupper()
            assert "Fraction" not in finding.message + (finding.hint or "")
