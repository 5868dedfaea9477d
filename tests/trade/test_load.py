"""The trade reads a table when it is asked for, once, through the caller's reader."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from castoff.trade import load_trade


def test_nothing_is_read_before_it_is_asked_for(read_template: Callable[[str], str]) -> None:
    asked: list[str] = []

    def read(name: str) -> str:
        asked.append(name)
        return read_template(name)

    trade = load_trade(read)
    assert asked == []
    assert trade.stitches is trade.stitches
    assert asked == ["trade/stitches.yaml"]
    trade.bodies.find("women")
    trade.bodies.find("women")
    assert asked == ["trade/stitches.yaml", "trade/body.yaml", "trade/body_women.yaml"]


def test_a_house_file_goes_before_the_shipped_one(read_template: Callable[[str], str]) -> None:
    shipped = read_template("trade/stitches.yaml")
    own = {"trade/stitches.yaml": shipped.replace("words: make bobble", "words: work a bobble")}
    trade = load_trade(lambda name: own.get(name) or read_template(name))
    assert trade.expansion("MB") == "work a bobble"
    assert trade.expansion("RS") == "right side"


def test_what_the_reader_raises_is_passed_on() -> None:
    def read(name: str) -> str:
        raise FileNotFoundError(name)

    with pytest.raises(FileNotFoundError, match=r"trade/needles\.yaml"):
        _ = load_trade(read).needles
