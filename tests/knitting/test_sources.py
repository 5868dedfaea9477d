"""Whole sources: the typed patterns and the demonstration catalogue knit through without a finding."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.knitting.plans import ROOT, plan_of_pattern, read_pattern

from castoff.knitting.knit import knit

TYPED = sorted((ROOT / "tests" / "typed_patterns").glob("*.yaml"))
CATALOGUE = sorted((ROOT / "patterns").glob("*-*.yaml"))


@pytest.mark.parametrize("path", TYPED + CATALOGUE, ids=lambda path: path.stem)
def test_a_sound_source_knits_through(path: Path) -> None:
    plan, unread = plan_of_pattern(read_pattern(path))
    assert [finding.message for finding in unread] == []
    checked = knit(plan)
    assert [f"{finding.rule.name}: {finding.message}" for finding in checked.findings] == []
    for size in checked.value.sizes:
        assert not size.held
        assert all(piece.live == 0 for piece in size.pieces.values())


def test_there_are_sources_to_read() -> None:
    assert len(TYPED) >= 6 and len(CATALOGUE) >= 5
