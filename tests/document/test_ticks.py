"""Rows folded into lines of a tick list."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.document.courses import Row, parts_of
from castoff.document.ticks import _in_few_words, folded
from castoff.knitting.fabric import RowRecord


def rows(*labels: str, change: bool = False) -> tuple[Row, ...]:
    return tuple(
        Row(label, at, 40 - at if change else 40, 39 - at if change else 40) for at, label in enumerate(labels)
    )


def test_rows_that_come_round_again_stand_in_one_line() -> None:
    groups = list(folded(rows("set-up", "dec", "even", "dec", "even", "dec", "even", "last")))
    assert [(group.labels, group.times) for group in groups] == [
        (("set-up",), 1), (("dec", "even"), 3), (("last",), 1),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("labels", "told"),
    [
        (("row 1", "row 2", "row 3"), "rows 1–3"),
        (("rnd 1", "rnd 2"), "rnds 1 and 2"),
        (("row 1", "row 3"), "row 1 and row 3"),
        (("row 1", "rnd 2"), "row 1 and rnd 2"),
        (("dec row", "row 2"), "dec row and row 2"),
        (("row 4",), "row 4"),
    ],
)
def test_rows_that_follow_each_other_are_named_together(labels: tuple[str, ...], told: str) -> None:
    assert _in_few_words(labels) == told


def test_the_shorter_of_two_cycles_is_taken() -> None:
    assert [(group.labels, group.times) for group in folded(rows("k", "k", "k", "k"))] == [(("k",), 4)]


def test_one_by_one_only_plain_rows_are_folded() -> None:
    course = (*rows("dec", "dec", change=True), *rows("even", "even", "even"))
    assert [(group.labels, group.times) for group in folded(course, one_by_one=True)] == [
        (("dec",), 1), (("dec",), 1), (("even",), 3),
    ]  # fmt: skip


@given(st.lists(st.sampled_from("abc"), max_size=40), st.booleans(), st.booleans())
def test_nothing_is_lost_and_nothing_doubled(labels: list[str], change: bool, one_by_one: bool) -> None:
    groups = folded(rows(*labels, change=change), one_by_one)
    assert [label for group in groups for _ in range(group.times) for label in group.labels] == labels


def record(label: str, row: int, rows: int = 1, step: int = 1, short: bool = False) -> RowRecord:
    return RowRecord(label, row, "RS", "flat", 10, 10, rows, step, height_mm=Fraction(4), short=short)


def test_records_with_others_between_are_unfolded_in_working_order() -> None:
    (part,) = parts_of([record("cast-on row", 1), record("dec", 2, 3, 2), record("even", 3, 3, 2)])
    assert [(row.label, row.number) for row in part] == [
        ("cast-on row", 1), ("dec", 2), ("even", 3), ("dec", 4), ("even", 5), ("dec", 6), ("even", 7),
    ]  # fmt: skip


def test_going_back_to_stitches_that_waited_begins_a_part() -> None:
    parts = parts_of([record("back", 1, 20), record("left", 21, 4), record("right", 21, 4)])
    assert [[row.number for row in part] for part in parts] == [list(range(1, 25)), list(range(21, 25))]


def test_a_short_row_adds_no_height() -> None:
    (part,) = parts_of([record("row", 1), record("short", 2, short=True)])
    assert [row.height_mm for row in part] == [4, 0]
