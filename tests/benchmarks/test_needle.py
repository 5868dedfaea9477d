"""How long the needle takes: a raglan in nine sizes, and the same raglan with ten times as many stitches.

Run with `python -m pytest tests/benchmarks --benchmark-only`. The larger one has the gauge of a thread: 3.2 times the
stitches and rows in each direction, so that its rows of shaping are 3.2 times as many and its stitches ten times. Wanted:
under 150 ms, and under twice that for the larger.
"""

import re
from pathlib import Path
from typing import Any

import pytest

from castoff.knitting.fabric import Knitted
from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan
from castoff.pipeline import prove_text

RAGLAN = Path(__file__).parents[2] / "patterns" / "merrow-raglan.yaml"
FINER = 3.2
"""Its square is a little over ten."""


def plan_of(finer: float) -> Plan:
    source = re.sub(
        r"stitches: (\d+), rows: (\d+)",
        lambda match: f"stitches: {int(int(match[1]) * finer)}, rows: {int(int(match[2]) * finer)}",
        RAGLAN.read_text("utf-8"),
    )
    plan = prove_text(RAGLAN.name, source).plan
    assert plan is not None
    return plan


def stitches(knitted: Knitted) -> int:
    return sum(
        record.after * record.rows
        for size in knitted.sizes
        for piece in size.pieces.values()
        for record in piece.records
    )


@pytest.mark.parametrize("finer", [1, FINER], ids=["raglan", "ten times the stitches"])
def test_knitting_nine_sizes(benchmark: Any, finer: float) -> None:
    plan = plan_of(finer)
    checked = benchmark(knit, plan)
    assert len(checked.value.sizes) == 9
    assert stitches(checked.value) > 500_000 * finer**2
