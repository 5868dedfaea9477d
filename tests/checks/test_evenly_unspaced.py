"""The row that is offered for even changes: its sum, and its balance."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from castoff.checks.evenly_unspaced import spaced_row


def worked(row: str) -> tuple[int, int, list[int]]:
    """Stitches a row takes and leaves, and its plain stretches, read by a reader of its own."""
    unfolded = re.sub(r"\*(.*?); rep from \* (\d+) times more", lambda m: ", ".join([m[1]] * (int(m[2]) + 1)), row)
    takes = leaves = 0
    stretches: list[int] = []
    for part in unfolded.split(", "):
        if part == "k2tog":
            takes, leaves = takes + 2, leaves + 1
        elif part == "m1":
            leaves += 1
        else:
            stretches.append(int(part[1:]))
            takes, leaves = takes + int(part[1:]), leaves + int(part[1:])
    return takes, leaves, stretches


@given(st.integers(1, 400), st.integers(1, 100), st.booleans())
def test_the_row_uses_all_stitches_and_changes_as_many_as_asked(stitches: int, changes: int, decrease: bool) -> None:
    row = spaced_row(stitches, changes, decrease)
    if row is None:
        assert stitches < changes * (2 if decrease else 1)
        return
    takes, leaves, stretches = worked(row)
    assert takes == stitches
    assert leaves == stitches + (-changes if decrease else changes)
    if changes > 1 and len(stretches) == changes + 1:
        assert len(set(stretches[1:-1])) == 1
        assert abs(stretches[0] - stretches[-1]) <= 1


def test_a_worked_example() -> None:
    # 84 sts, 6 increases: the spacing that pattern writers print (common practice)
    assert spaced_row(84, 6, False) == "k7, *m1, k14; rep from * 4 times more, m1, k7"
    assert worked("k7, *m1, k14; rep from * 4 times more, m1, k7") == (84, 90, [7, 14, 14, 14, 14, 14, 7])
