"""Every kind of published erratum: the right excerpt is clean, the wrong one is found at its row with its sum."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest
from tests.errata.excerpts import answers, found_in, line_at, right, slip_of, slipped, table, told

TABLE = table("published.yaml")
CASES: dict[str, dict[str, Any]] = {case["id"]: case for case in TABLE["cases"]}
FOUND = [name for name, case in CASES.items() if "found" in case]
UNFOUND = [name for name, case in CASES.items() if "unfound" in case]


def test_as_many_of_each_kind_as_were_published() -> None:
    assert len(CASES) == len(TABLE["cases"]) == 77
    assert Counter(case["kind"] for case in CASES.values()) == {
        kind: entry["cases"] for kind, entry in TABLE["kinds"].items()
    }
    assert sorted(FOUND + UNFOUND) == sorted(CASES)


@pytest.mark.parametrize("name", FOUND)
def test_the_right_one_is_clean(name: str) -> None:
    case = CASES[name]
    found = found_in(right(case), case.get("edition", False))
    assert not found, told(found)


@pytest.mark.parametrize("name", FOUND)
def test_the_wrong_one_is_found_at_its_row(name: str) -> None:
    case = CASES[name]
    source = right(case)
    found = found_in(slipped(source, slip_of(case)), case.get("edition", False))
    assert any(answers(each, case["found"], line_at(case, source)) for each in found), told(found)


@pytest.mark.parametrize("name", [name for name in UNFOUND if "slip" in CASES[name]])
def test_what_cannot_be_found_is_said_to_be(name: str) -> None:
    """When this fails the compiler has learned to find it: move the case to those with `found`."""
    case = CASES[name]
    source = right(case)
    assert found_in(source) == found_in(slipped(source, slip_of(case))) == []
