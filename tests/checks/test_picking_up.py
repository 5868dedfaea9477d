"""Which side has to face for stitches to be picked up in the printed order."""

from __future__ import annotations

import pytest
from tests.knitting.plans import lines

from castoff.checks.picked_up_the_wrong_way import way_of
from castoff.notation.syntax import InstructionLine, PickUpRow

FACING = (
    # a neck, from the left shoulder
    ("20 sts down left front neck, k20 held front neck sts, pick up and knit 20 sts up right front neck", "RS"),
    ("20 sts down right front neck, k20 held front neck sts, pick up and knit 20 sts up left front neck", "WS"),
    # bands of a cardigan, from the lower edge of the right front
    ("40 sts up right front edge, 12 sts along back neck and 40 sts down left front edge", "RS"),
    ("40 sts up left front edge, 12 sts along back neck and 40 sts down right front edge", "WS"),
    ("40 sts along right front, 12 sts along back neck and 40 sts along left front", "RS"),
    ("40 sts along left front, 12 sts along back neck and 40 sts along right front", "WS"),
    ("12 sts along back neck, 20 sts along left front neck and 20 sts along right front neck", "RS"),
    # nothing to be seen from the order
    ("40 sts along front edge", None),
    ("40 sts along left front, 40 sts along right front", None),
    ("40 sts down left armhole", None),
    ("20 sts down right back neck", None),
    # the words contradict each other
    ("20 sts down left front neck, 20 sts down right front neck", None),
)


@pytest.mark.parametrize(("edges", "side"), FACING)
def test_the_order_says_which_side_faces(edges: str, side: str | None) -> None:
    (line,) = lines(f"With RS facing, pick up and knit {edges}.")
    assert isinstance(line, InstructionLine)
    (step,) = line.steps
    assert isinstance(step, PickUpRow)
    way = way_of(step)
    assert (None if way is None else way.side) == side
