"""Chart symbols as plain geometry.

In: `trade/chart_symbols.yaml`. Out: symbols by name and by stitch, with strokes on a unit square per cell (x to the
right, y up). Cables have no row: they are drawn by rule from the `crossing` of the stitch.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple, cast

from castoff.trade.stitch import Stitch
from castoff.trade.table import Entry, read_table

FILE = "trade/chart_symbols.yaml"

Shape = Literal["line", "circle", "disc", "box", "arc"]
_STROKE = re.compile(r"(line|circle|disc|box|arc)((?: -?\d+(?:\.\d+)?)+)")
_NUMBERS_OF = {"circle": 3, "disc": 3, "box": 4, "arc": 5}


class Stroke(NamedTuple):
    """A part of a symbol.

    shape: line (x1 y1 x2 y2 ..., a broken line), circle (x y radius, open), disc (the same, filled), box
        (x1 y1 x2 y2, filled), arc (x y radius from to, degrees counter-clockwise).
    numbers: in cells.
    """

    shape: Shape
    numbers: tuple[float, ...]


class ChartSymbol(NamedTuple):
    """A symbol of a chart.

    cells: squares that it spans.
    rs, ws: what to work on a right-side and on a wrong-side row.
    label: what the key calls it.
    stitches: names of the stitches that are drawn with it.
    sure: how well the published shape is known: high, medium, low.
    """

    name: str
    cells: int
    rs: str
    ws: str
    label: str
    strokes: tuple[Stroke, ...]
    stitches: tuple[str, ...] = ()
    sure: str = ""
    sources: tuple[str, ...] = ()


class ReadingRule(NamedTuple):
    """A sentence on how charts are read; `worked` is "flat" or "in the round", or empty for both."""

    rule: str
    worked: str
    sources: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class ChartSymbols:
    """The symbols, and the sentences on how to read a chart, in the order of the table."""

    symbols: tuple[ChartSymbol, ...]
    rules: tuple[ReadingRule, ...]

    @cached_property
    def _by_name(self) -> dict[str, ChartSymbol]:
        return {symbol.name: symbol for symbol in self.symbols}

    @cached_property
    def _by_stitch(self) -> dict[str, ChartSymbol]:
        return {stitch: symbol for symbol in self.symbols for stitch in symbol.stitches}

    def find(self, name: str) -> ChartSymbol | None:
        """A symbol by its name ("no_stitch")."""
        return self._by_name.get(name)

    def for_stitch(self, stitch: Stitch) -> ChartSymbol | None:
        """The symbol of a stitch as worked on a right-side row; None for cables and for stitches without one."""
        return self._by_stitch.get(stitch.name)

    def reading_rules(self, worked: Literal["flat", "in the round"]) -> tuple[str, ...]:
        """The sentences for a chart that is worked flat or in the round."""
        return tuple(rule.rule for rule in self.rules if rule.worked in ("", worked))


def read_symbols(text: str, file: str = FILE) -> ChartSymbols:
    """The symbols of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "reading_rules", "symbols")
    symbols = tuple(_symbol(name, entry) for name, entry in table.entry("symbols").items())
    owner: dict[str, str] = {}
    for symbol, (_, entry) in zip(symbols, table.entry("symbols").items(), strict=True):
        for stitch in symbol.stitches:
            if owner.setdefault(stitch, symbol.name) != symbol.name:
                raise entry.fault(f"`{stitch}` is already drawn as `{owner[stitch]}`")
    return ChartSymbols(symbols, tuple(_rule(entry) for entry in table.entry("reading_rules").elements()))


def _rule(entry: Entry) -> ReadingRule:
    cells = entry.cells("rule", "for", "src")
    return ReadingRule(cells.text("rule"), cells.choice("for", ("flat", "in the round"), ""), cells.texts("src"))


def _symbol(name: str, entry: Entry) -> ChartSymbol:
    cells = entry.cells("cells", "rs", "ws", "stitches", "label", "draw", "sure", "src")
    spans = cells.whole("cells")
    if spans == 0:
        raise cells.found["cells"].fault("a symbol spans at least 1 cell")
    strokes = tuple(_stroke(element, spans) for element in cells.entry("draw").elements())
    return ChartSymbol(
        name, spans, cells.text("rs"), cells.text("ws"), cells.text("label"), strokes,
        cells.texts("stitches"), cells.text("sure", ""), cells.texts("src"),
    )  # fmt: skip


def _stroke(entry: Entry, cells: int) -> Stroke:
    match = _STROKE.fullmatch(entry.text())
    if match is None:
        raise entry.fault(f"should be like `line 0.2 0.2 0.8 0.8`, and is `{entry.text()}`")
    shape = cast(Shape, match[1])
    numbers = tuple(float(number) for number in match[2].split())
    wanted = _NUMBERS_OF.get(shape)
    if wanted is None and (len(numbers) < 4 or len(numbers) % 2):
        raise entry.fault(f"a line needs an x and a y for each of at least 2 points, and has {len(numbers)} numbers")
    if wanted is not None and len(numbers) != wanted:
        raise entry.fault(f"`{shape}` needs {wanted} numbers, and has {len(numbers)}")
    for place, number in enumerate(numbers[:2] if wanted and shape != "box" else numbers):
        if not 0 <= number <= (cells if place % 2 == 0 else 1):
            raise entry.fault(f"{number:g} lies outside the symbol's {cells} by 1 cells")
    return Stroke(shape, numbers)
