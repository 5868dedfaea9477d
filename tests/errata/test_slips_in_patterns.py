"""One slip at a time in whole patterns: as they are handed in, and as an editor finds them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.errata.excerpts import answers, found_in, line_at, slip_of, slipped, table, told

ROOT = Path(__file__).resolve().parents[2]
SLIPS: list[dict[str, Any]] = [slip for name in ("handed_in.yaml", "editor.yaml") for slip in table(name)["slips"]]
FOUND = [slip for slip in SLIPS if "found" in slip]
PATTERNS = sorted({slip["pattern"] for slip in SLIPS})


def source_of(pattern: str) -> str:
    return (ROOT / f"{pattern}.yaml").read_text("utf-8")


def name_of(slip: dict[str, Any]) -> str:
    return f"{Path(slip['pattern']).name}: {slip['what']}"


def test_they_are_many_and_none_is_told_twice() -> None:
    assert len({(slip["pattern"], *slip["slip"]) for slip in SLIPS}) == len(SLIPS) >= 130
    assert len(FOUND) >= len(SLIPS) - 2


@pytest.mark.parametrize("pattern", PATTERNS)
def test_the_pattern_is_clean(pattern: str) -> None:
    found = found_in(source_of(pattern))
    assert not found, told(found)


@pytest.mark.parametrize("slip", FOUND, ids=name_of)
def test_a_slip_is_found(slip: dict[str, Any]) -> None:
    source = source_of(slip["pattern"])
    found = found_in(slipped(source, slip_of(slip)))
    line = line_at(slip, source) + slip.get("below", 0)
    assert any(answers(each, slip["found"], line) for each in found), told(found)


@pytest.mark.parametrize("slip", [slip for slip in SLIPS if "unfound" in slip], ids=name_of)
def test_what_is_not_found_is_said_to_be(slip: dict[str, Any]) -> None:
    """When this fails the compiler has learned to find it: say so in the table."""
    assert found_in(slipped(source_of(slip["pattern"]), slip_of(slip))) == []
