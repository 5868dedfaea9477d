"""The trade as it ships."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from castoff.trade import Trade, load_trade

TEMPLATES = Path(__file__).parents[2] / "templates"


@pytest.fixture(scope="session")
def read_template() -> Callable[[str], str]:
    return lambda name: (TEMPLATES / name).read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def trade(read_template: Callable[[str], str]) -> Trade:
    return load_trade(read_template)
