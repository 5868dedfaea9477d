"""Small patterns that hold nothing but numbers."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from castoff.model.load import load
from castoff.model.pattern import Pattern
from castoff.source.read import read_source
from castoff.trade import Trade, load_trade

TEMPLATES = Path(__file__).parents[2] / "templates"
HEAD = """\
written_for: 1
title: Cap
sizes:
  names: S (M, L)
{sizes}
gauge:
{gauge}
numbers:
{numbers}
sections:
  - title: Brim
    work: |
      {work}
"""
ONE_GAUGE = "  stockinette: {stitches: 20, rows: 28, over: 10 cm}"
TWO_GAUGES = ONE_GAUGE + "\n  seed stitch: {stitches: 18, over: 4 in}"

Make = Callable[..., Pattern]


@pytest.fixture(scope="session")
def trade() -> Trade:
    return load_trade(lambda name: (TEMPLATES / name).read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def make() -> Make:
    """A pattern in three sizes with the numbers given, one a line."""

    def made(numbers: str, *, gauge: str = ONE_GAUGE, sizes: str = "", work: str = "Knit 1 row.") -> Pattern:
        lines = "\n".join(f"  {line.strip()}" for line in numbers.strip().splitlines())
        source = HEAD.format(sizes=sizes, gauge=gauge, numbers=lines, work=work)
        read = read_source("cap.yaml", source.encode())
        assert read.value is not None and not read.findings, read.findings
        loaded = load(read.value)
        assert loaded.value is not None and not loaded.findings, loaded.findings
        return loaded.value

    return made
