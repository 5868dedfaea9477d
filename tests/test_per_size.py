"""Lists per size, as values and as the trade writes them."""

from __future__ import annotations

import pytest

from castoff.per_size import PerSize, size_list


def test_a_size_that_skips_goes_on_skipping() -> None:
    doubled = PerSize((1, None, 3)).map(lambda value: value * 2)
    assert doubled == PerSize((2, None, 6))
    assert list(doubled) == [2, None, 6]
    assert doubled[2] == 6 and len(doubled) == 3


def test_uniform_lists_are_known() -> None:
    assert PerSize.same(84, 4).uniform
    assert not PerSize((84, None)).uniform


def test_one_size_edition() -> None:
    assert PerSize((84, 92, 100)).only(1) == PerSize((92,))


@pytest.mark.parametrize(
    ("texts", "opener", "grouping", "shown"),
    [
        (("84",), "(", (), "84"),
        (("84", "92", "100"), "(", (), "84 (92, 100)"),
        (("84", "92", "100"), "[", (), "84 [92, 100]"),
        (("4", "8", "12", "16", "20"), "(", (2, 2), "4 (8, 12) (16, 20)"),
        (("84", "–", "100"), "(", (), "84 (–, 100)"),
    ],
)
def test_size_list(texts: tuple[str, ...], opener: str, grouping: tuple[int, ...], shown: str) -> None:
    assert size_list(texts, opener, grouping) == shown
