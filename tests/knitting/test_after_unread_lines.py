"""What follows a line that could not be read: markers that it may have placed are unknown, and not absent."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text

SECTIONS = """excerpt: true
measurements: {{width: {{label: Width, is: 30 cm}}}}
sections:
  - title: Yoke
    piece: Body
    work: |
      Cast on 20 sts.
      {line}
      Row 2 (WS): Purl. 20 sts.
  - title: Rest
    piece: Body
    work: |
      Next row (RS): K to marker, sm, k to end. 20 sts.
      Next row: Purl.
      Bind off all sts.
"""


def rules(line: str) -> list[str]:
    proof = prove_text("unread.yaml", with_fragment(SECTIONS.format(line=line)))
    return [finding.rule.name for finding in proof.findings if finding.severity == "error"]


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("Row 1 (RS): Frobnicate 10 sts, pm, k10.", ["unread-words"]),
        ("Row 1 (RS): K20.", ["marker-not-there"]),
        ("Row 1 (RS): K10, pm, k10.", []),
    ],
)
def test_a_marker_is_missed_only_where_every_line_was_read(line: str, found: list[str]) -> None:
    assert rules(line) == found
