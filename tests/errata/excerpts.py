"""Sources with a single slip: a right one, and the same with one thing printed wrong.

In: an entry of a table in this folder. Out: the text of a source, with its slip or without; the line that is to be found;
what is found in a source.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import yaml

from castoff.diagnostic import Diagnostic
from castoff.document.edition import Edition
from castoff.pipeline import prove_text
from castoff.press import Press
from castoff.world import World

HERE = Path(__file__).parent
HEAD = """\
written_for: 1
title: Shearwater Excerpt
excerpt: true
terms: US
"""
GIVEN = {
    "gauge": """\
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}""",
    "yarns": """\
yarns:
  A: {weight: worsted}""",
    "needles": """\
needles:
  larger: {size: 5 mm}""",
}
"""What an excerpt is knitted with when its entry does not say."""


def table(name: str) -> Any:
    """A table of this folder."""
    return yaml.safe_load((HERE / name).read_text("utf-8"))


def right(case: Mapping[str, Any]) -> str:
    """The source as it should be."""
    sizes = case.get("sizing", f'sizes: {{names: "{case.get("sizes", "One size")}"}}\n')
    parts = [HEAD, sizes, *(f"{case.get(key, text).rstrip()}\n" for key, text in GIVEN.items())]
    for key, title in (("patterns", "stitch_patterns"), ("stitches", "stitches")):
        if key in case:
            parts.append(f"{title}:\n{textwrap.indent(case[key], '  ')}")
    parts.append("sections:\n")
    if "sections" in case:
        parts.append(textwrap.indent(case["sections"], "  "))
    else:
        parts.append(f"  - title: Body\n    worked: {case.get('worked', 'flat')}\n")
        if "begins" in case:
            parts.append(f'    begins: "{case["begins"]}"\n')
        parts.append(f"    work: |\n{textwrap.indent(case['work'], '      ')}")
    if "measurements" in case:
        parts.append(f"measurements:\n{textwrap.indent(case['measurements'], '  ')}")
    return "".join([*parts, case.get("more", "")])


def slipped(text: str, slip: tuple[str, str]) -> str:
    """A source with one thing in it changed; it must stand there once."""
    before, after = slip
    assert text.count(before) == 1, f"`{before}` stands {text.count(before)} times in the source"
    return text.replace(before, after)


def slip_of(case: Mapping[str, Any]) -> tuple[str, str]:
    """What stands there, and what was printed instead."""
    before, after = (str(each) for each in case["slip"])
    return before, after


def line_at(case: Mapping[str, Any], text: str) -> int:
    """The line that the finding is to stand at: the one that begins with `at`, else that of the slip."""
    if "at" not in case:
        before, after = slip_of(case)
        same = next(
            (at for at, (one, two) in enumerate(zip(before, after, strict=False)) if one != two),
            min(len(before), len(after)),
        )
        return text[: text.index(before) + same].count("\n") + 1
    wrong = slipped(text, slip_of(case))
    lines = [number for number, line in enumerate(wrong.splitlines(), 1) if line.strip().startswith(case["at"])]
    assert len(lines) == 1, f"`{case['at']}` begins lines {lines}"
    return lines[0]


def found_in(text: str, edition: bool = False) -> list[Diagnostic]:
    """Errors and warnings of a source; of an edition of it when asked for."""
    proof = prove_text("excerpt.yaml", text)
    found = proof.findings
    if edition:
        found = Press(proof, World.beside(), HERE).compose(Edition("metric")).findings
    return [each for each in found if each.severity != "note"]


def told(findings: list[Diagnostic]) -> str:
    """Findings for a failing test to show."""
    return "\n".join(
        f"line {each.span.line if each.span else 0} {each.sizes}: {each.rule.name}: {each.message} ({each.hint})"
        for each in findings
    )


def answers(finding: Diagnostic, wanted: Mapping[str, Any], line: int) -> bool:
    """Whether a finding stands at its line and says what it has to say."""
    words = f"{finding.message} {finding.hint or ''}"
    return (
        finding.span is not None
        and finding.span.line == line
        and finding.rule.name == wanted.get("rule", finding.rule.name)
        and ("sizes" not in wanted or list(finding.sizes) == wanted["sizes"])
        and all(str(said) in words for said in wanted["says"])
    )
