"""The guide to writing a pattern is true: its examples are read and knitted, its keys and commands exist."""

import re
from pathlib import Path

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.cli import castoff
from castoff.model.schema import SOURCE
from castoff.pipeline import Proof, prove, prove_text
from castoff.report.text import write_findings
from castoff.world import World

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "patterns" / "README.md").read_text("utf-8")
BLOCK = re.compile(r"^```(?P<kind>[a-z]+(?: [a-z]+)?)\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)

EXCERPT = """\
written_for: 1
title: Example
excerpt: true
skill: complex
sizes: {{names: "S (M, L)"}}
gauge:
  stockinette: {{stitches: 20, rows: 28, over: 10 cm, needles: larger}}
  rib: {{stitches: 22, rows: 30, over: 10 cm, needles: smaller}}
yarns:
  A: {{name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}}
  B: {{name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}}
needles:
  larger: {{size: 5 mm}}
  smaller: {{size: 4 mm}}
  dpns: {{size: 5 mm, type: double-pointed}}
stitch_patterns:
  basket: {{multiple: 4, rows: "Row 1: *K2, p2; rep from * to end."}}
  chart A:
    multiple: 4
    rows: |
      Rows 1 and 2: *K2, p2; rep from * to end.
      Rows 3 and 4: *P2, k2; rep from * to end.
stitches:
  mb: {{takes: 1, makes: 1, words: make bobble}}
sections:
  - title: Piece
    worked: {form}
    gauge: stockinette
    work: |
{lines}
"""


def blocks(*kinds: str) -> list[pytest.param]:  # type: ignore[valid-type]
    found = []
    for match in BLOCK.finditer(GUIDE):
        if match["kind"] in kinds:
            line = GUIDE.count("\n", 0, match.start()) + 1
            found.append(pytest.param(match["kind"], match["body"], id=f"line {line}"))
    return found


def told(proof: Proof) -> str:
    return write_findings([finding for finding in proof.findings if finding.severity != "note"])


@pytest.mark.parametrize(("kind", "body"), blocks("yaml source"))
def test_whole_sources_are_clean(kind: str, body: str) -> None:
    assert told(prove_text("guide.yaml", body)) == ""


def test_what_is_shared_is_used_by_the_source_behind_it() -> None:
    kinds = ("yaml shared", "yaml using")
    found = [(match["kind"], match["body"]) for match in BLOCK.finditer(GUIDE) if match["kind"] in kinds]
    assert [kind for kind, _ in found] == ["yaml shared", "yaml using"]
    (_, shared), (_, body) = found
    proof = prove("guide.yaml", body.encode(), World.beside(), shared=("shared.yaml", shared.encode()))
    assert told(proof) == ""
    assert prove_text("guide.yaml", body).sound is False


@pytest.mark.parametrize(("kind", "body"), blocks("yaml part"))
def test_parts_of_sources_are_clean(kind: str, body: str) -> None:
    assert told(prove_text("guide.yaml", with_fragment(body))) == ""


@pytest.mark.parametrize(("kind", "body"), blocks("knit flat", "knit round"))
def test_instructions_are_knitted(kind: str, body: str) -> None:
    lines = "".join(f"      {line}\n" for line in body.splitlines())
    source = EXCERPT.format(form="in the round" if kind == "knit round" else "flat", lines=lines)
    proof = prove_text("guide.yaml", source)
    # an excerpt's unused yarns and needles are no fault of the example
    findings = [each for each in proof.findings if not each.rule.name.endswith("-unused") and each.severity != "note"]
    assert write_findings(findings) == ""
    assert proof.knitted is not None and proof.knitted.stitches > 0


def test_every_example_is_one_of_these() -> None:
    kinds = [match["kind"] for match in BLOCK.finditer(GUIDE)]
    assert set(kinds) <= {"yaml source", "yaml part", "yaml shared", "yaml using", "knit flat", "knit round"}
    assert len(kinds) >= 20
    assert GUIDE.count("```") == 2 * len(kinds)


def test_every_key_of_a_source_is_in_the_guide() -> None:
    table = GUIDE[GUIDE.index("| key |") : GUIDE.index("A whole source:")]
    missing = [key.name for key in SOURCE.keys if f"`{key.name}`" not in table]
    assert missing == []


def test_every_command_in_the_documents_exists() -> None:
    documents = GUIDE + (ROOT / "README.md").read_text("utf-8") + (ROOT / "DEVELOPERS.md").read_text("utf-8")
    named = set(re.findall(r"\bcastoff ([a-z]+)\b", documents))
    assert set(castoff.commands) <= named
    unknown = set(re.findall(r"^\s+castoff ([a-z]+)", documents, re.MULTILINE)) - set(castoff.commands)
    assert unknown == set()
