"""Chart symbols: what they stand for, and that their geometry stays in its cells."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import pytest

from castoff.trade import Trade, load_trade
from castoff.trade.symbols import Stroke
from castoff.trade.table import TradeTableError


def points(stroke: Stroke) -> Iterator[tuple[float, float]]:
    """Points of a stroke's outline."""
    numbers = stroke.numbers
    if stroke.shape in ("line", "box"):
        yield from zip(numbers[::2], numbers[1::2], strict=True)
        return
    x, y, radius = numbers[:3]
    start, end = (numbers[3], numbers[4]) if stroke.shape == "arc" else (0, 360)
    for step in range(37):
        angle = math.radians(start + (end - start) * step / 36)
        yield x + radius * math.cos(angle), y + radius * math.sin(angle)


def test_every_symbol_stays_in_its_cells(trade: Trade) -> None:
    for symbol in trade.symbols.symbols:
        for stroke in symbol.strokes:
            for x, y in points(stroke):
                assert -1e-9 <= x <= symbol.cells + 1e-9, symbol.name
                assert -1e-9 <= y <= 1 + 1e-9, symbol.name


def test_no_two_symbols_look_the_same(trade: Trade) -> None:
    looks = [(symbol.cells, symbol.strokes) for symbol in trade.symbols.symbols]
    assert len(set(looks)) == len(looks)


@pytest.mark.parametrize(
    ("token", "symbol"),
    [("k", "knit"), ("p", "purl"), ("yo", "yarn_over"), ("yfwd", "yarn_over"), ("k2tog", "k2tog"), ("ssk", "ssk"),
     ("cdd", "s2kp"), ("RT", "right_twist"), ("mb", "bobble"), ("k1 tbl", "knit_tbl")],
)  # fmt: skip
def test_the_symbol_of_a_stitch(trade: Trade, token: str, symbol: str) -> None:
    stitch = trade.stitches.find(token)
    assert stitch is not None
    found = trade.symbols.for_stitch(stitch)
    assert found is not None
    assert found.name == symbol


def test_a_cable_is_drawn_by_rule_and_has_no_row(trade: Trade) -> None:
    stitch = trade.stitches.find("C4F")
    assert stitch is not None
    assert trade.symbols.for_stitch(stitch) is None


def test_every_stitch_named_by_a_symbol_exists_and_spans_its_cells(trade: Trade) -> None:
    for symbol in trade.symbols.symbols:
        for name in symbol.stitches:
            stitch = trade.stitches.find(name)
            assert stitch is not None, name
            assert stitch.name == name
            if stitch.kind == "twist":
                assert symbol.cells == stitch.takes


def test_wrong_side_meanings_agree_with_the_stitch_book(trade: Trade) -> None:
    # automatic charts have printed wrong meanings for wrong-side rows: both tables must say the same
    for symbol in trade.symbols.symbols:
        stitch = trade.stitches.find(symbol.rs)
        if stitch is not None and stitch.wrong_side and trade.stitches.find(symbol.ws) is not None:
            assert symbol.ws == stitch.wrong_side, symbol.name


@pytest.mark.parametrize(
    ("symbol", "rs", "ws"),
    # c2 (a printed beginner's guide) and c3 (a magazine): knit and purl change over, a yarn over stays
    [
        ("knit", "k", "p"),
        ("purl", "p", "k"),
        ("yarn_over", "yo", "yo"),
        ("k2tog", "k2tog", "p2tog"),
        ("ssk", "ssk", "ssp"),
    ],
)
def test_right_and_wrong_side(trade: Trade, symbol: str, rs: str, ws: str) -> None:
    found = trade.symbols.find(symbol)
    assert found is not None
    assert (found.rs, found.ws) == (rs, ws)


def test_a_decrease_slants_as_it_leans(trade: Trade) -> None:
    # c4: a stroke that leans right stands for k2tog
    for name, rises in (("k2tog", True), ("ssk", False)):
        symbol = trade.symbols.find(name)
        assert symbol is not None
        x1, y1, x2, y2 = symbol.strokes[0].numbers
        assert ((y2 - y1) / (x2 - x1) > 0) is rises


def test_reading_rules_for_flat_and_round(trade: Trade) -> None:
    flat, round_ = trade.symbols.reading_rules("flat"), trade.symbols.reading_rules("in the round")
    assert "Read from the bottom row up." in flat
    assert "Read from the bottom row up." in round_
    assert any("wrong-side rows from left to right" in rule for rule in flat)
    assert not any("wrong-side" in rule for rule in round_)


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        (
            "draw: [circle 0.5 0.5 0.3], sure: high",
            "draw: [cirkle 0.5 0.5 0.3]",
            "should be like `line 0.2 0.2 0.8 0.8`",
        ),
        ("draw: [circle 0.5 0.5 0.3], sure: high", "draw: [circle 0.5 0.5]", "`circle` needs 3 numbers, and has 2"),
        (
            "draw: [circle 0.5 0.5 0.3], sure: high",
            "draw: [circle 1.5 0.5 0.3]",
            "1.5 lies outside the symbol's 1 by 1 cells",
        ),
        ("draw: [circle 0.5 0.5 0.3], sure: high", "draw: [line 0.5 0.5 0.3]", "has 3 numbers"),
        ("stitches: [p], label", "stitches: [k], label", "`k` is already drawn as `knit`"),
        ("yarn_over: {cells: 1", "yarn_over: {cells: 0", "a symbol spans at least 1 cell"),
    ],
)
def test_a_faulty_house_table(read_template: Callable[[str], str], old: str, new: str, fault: str) -> None:
    text = read_template("trade/chart_symbols.yaml")
    assert text.count(old) == 1
    trade = load_trade(lambda name: text.replace(old, new))
    with pytest.raises(TradeTableError) as caught:
        _ = trade.symbols
    assert fault in str(caught.value)
