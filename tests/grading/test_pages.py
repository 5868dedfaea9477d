"""The page of every rule of sources, model and grading: what it says fires, fires, and what it says is silent, is."""

from __future__ import annotations

import textwrap
from pathlib import Path

import pytest

from castoff.diagnostic import Diagnostic, Rule
from castoff.grading.evaluate import evaluate, resolve
from castoff.grading.faults import RULES as GRADING
from castoff.model.load import RULES as MODEL
from castoff.model.load import load
from castoff.source.faults import NOT_TEXT
from castoff.source.faults import RULES as SOURCE
from castoff.source.read import read_source
from castoff.trade import load_trade

TEMPLATES = Path(__file__).parents[2] / "templates"
BASE = {
    "written_for": "written_for: 1\n",
    "title": "title: Cap\n",
    "sizes": "sizes:\n  names: S (M, L)\n",
    "gauge": "gauge:\n  stockinette: {stitches: 20, rows: 28, over: 10 cm}\n",
    "needles": "needles:\n  larger: {size: 5 mm}\n",
    "sections": "sections:\n  - title: Brim\n    work: |\n      Knit 1 row.\n",
}


def example(page: str, heading: str) -> str:
    """The lines under a heading of a page, without their indent."""
    lines = page.splitlines()
    start = lines.index(f"{heading}:") + 1
    end = next((at for at in range(start, len(lines)) if lines[at] and not lines[at].startswith("    ")), len(lines))
    return textwrap.dedent("\n".join(line[4:] for line in lines[start:end])) + "\n"


def whole(part: str) -> str:
    """A fragment with the rest of a pattern round it."""
    keys = {line.split(":")[0] for line in part.splitlines() if line[:1].isalpha()}
    return "".join(text for key, text in BASE.items() if key not in keys) + part


def findings(source: str) -> list[Diagnostic]:
    trade = load_trade(lambda name: (TEMPLATES / name).read_text(encoding="utf-8"))
    read = read_source("cap.yaml", source.encode())
    told = list(read.findings)
    if read.value is None:
        return told
    loaded = load(read.value, trade.needles.read)
    told += loaded.findings
    if loaded.value is None:
        return told
    graded = evaluate(loaded.value, trade)
    told += graded.findings
    for section in loaded.value.sections:
        for line in section.work.lines() if section.work is not None else ():
            if "{" in line.value:
                inner = line.part(line.value.index("{") + 1, line.value.index("}"))
                told += resolve(inner, graded.value).findings
    return told


@pytest.mark.parametrize("rule", [rule for rule in SOURCE if rule is not NOT_TEXT], ids=lambda rule: rule.name)
def test_pages_of_the_source(rule: Rule) -> None:
    fires = read_source("cap.yaml", example(rule.page, "Fires").encode()).findings
    assert rule in [finding.rule for finding in fires]
    assert read_source("cap.yaml", example(rule.page, "Silent").encode()).findings == ()


@pytest.mark.parametrize("rule", [*MODEL, *GRADING], ids=lambda rule: rule.name)
def test_pages_of_model_and_grading(rule: Rule) -> None:
    fires = findings(whole(example(rule.page, "Fires")))
    assert rule in [finding.rule for finding in fires]
    assert {finding.severity for finding in fires if finding.rule is rule} == {rule.severity}
    assert findings(whole(example(rule.page, "Silent"))) == []


@pytest.mark.parametrize("rule", [*SOURCE, *MODEL, *GRADING], ids=lambda rule: rule.name)
def test_pages_are_pages(rule: Rule) -> None:
    assert rule.summary.endswith(".") and len(rule.summary) <= 110
    assert rule.name == rule.name.lower() and " " not in rule.name


def test_no_two_rules_have_one_name() -> None:
    names = [rule.name for rule in (*SOURCE, *MODEL, *GRADING)]
    assert len(names) == len(set(names))
