"""Charts of the author's stitch patterns, with their keys.

In: the charts of the proof and the job. Out: a figure for each, and how charts are read, said once. The rows in words
stand before the chart in any case. A grid that is made is read back, square by square, to the rows that the needle knows;
one that would say anything else is a finding and stops the edition.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import cos, radians, sin

from castoff.diagnostic import Diagnostic, Rule
from castoff.document.job import Job
from castoff.document.tree import (
    Block,
    Blocks,
    BulletList,
    ChartCell,
    ChartColour,
    ChartGrid,
    ChartSymbol,
    Circle,
    Figure,
    Inlines,
    Label,
    Paragraph,
    Polyline,
    Shape,
    Text,
)
from castoff.knitting.chart import Chart, ChartRow
from castoff.model.pattern import OwnStitch
from castoff.trade.stitch import Crossing, Stitch
from castoff.trade.symbols import ChartSymbol as TradeSymbol
from castoff.trade.symbols import Stroke

SIGN_MISSING = Rule(
    "chart-sign-missing",
    "error",
    """A stitch of a chart has no sign.

    The trade's stitches have signs of their own, and cables are drawn by their crossing. A stitch of yours is drawn by the
    character under `symbol`.

    Fires:
        stitches:
          knot: {takes: 1, makes: 1, words: make a knot}
    Silent:
        stitches:
          knot: {takes: 1, makes: 1, words: make a knot, symbol: "●"}
    """,
)
CHART_DIFFERS = Rule(
    "chart-differs",
    "error",
    """A chart that was made does not read back to its rows.

    Every chart is read again, square by square and from the side on which each row starts, before it is printed. Two
    stitches with the same sign make a chart that can be read in two ways.

    Fires:
        stitches:
          knot: {takes: 1, makes: 1, words: make a knot, symbol: "●"}
          bead: {takes: 1, makes: 1, words: place a bead, symbol: "●"}
    Silent:
        stitches:
          knot: {takes: 1, makes: 1, words: make a knot, symbol: "●"}
          bead: {takes: 1, makes: 1, words: place a bead, symbol: "○"}
    """,
)
RULES = (SIGN_MISSING, CHART_DIFFERS)

_LINE = 0.07
"""Thickness of a stroke, in cells."""
_GROUNDS = ("#ffffff", "#5b6f7c", "#d9b38c", "#9cb59a", "#b58a9b", "#e6d87a", "#7f7f7f", "#c9d6df")
"""Grounds for the yarns of a chart, in the order of the source: told apart in grey as well, the first without a sign."""


def charts_of(job: Job, name: str, number: int) -> Blocks:
    """The chart of a stitch pattern; nothing when it asks for none. number: its place among the stitch patterns."""
    chart = job.charts.get(name)
    if chart is None:
        return ()
    symbols = tuple(_symbols(job, chart))
    grid = ChartGrid(
        rows=tuple(tuple(_cells(job, chart, row)) for row in reversed(chart.rows)),
        row_labels=tuple((str(row.number), "right" if row.side == "RS" else "left") for row in reversed(chart.rows)),
        symbols=symbols,
        colours=_colours(job, chart),
        outlines=tuple(_outlines(chart)),
        column_labels=tuple(str(column) for column in range(chart.columns, 0, -1)) if chart.columns <= 40 else (),
        cell_ratio=_ratio(job),
    )
    job.found.extend(_unlike(job, chart, grid))
    alt = job.say("chart", "alt", name=name, rows=len(chart.rows), columns=chart.columns, round=not chart.flat)
    gaps = any(cell.no_stitch for row in grid.rows for cell in row)
    caption = (Text(job.say("chart", "caption", name=name, repeat=bool(grid.outlines), gaps=gaps)),)
    return (Figure(grid, alt, caption, key=f"chart-{number}"),)


def how_to_read(job: Job) -> Blocks:
    """How the charts of the pattern are read; nothing when there are none."""
    charts = tuple(job.charts.values())
    if not charts:
        return ()
    ways = dict.fromkeys("flat" if chart.flat else "in the round" for chart in charts)
    rules = dict.fromkeys(rule for way in ways for rule in job.trade.symbols.reading_rules(way))  # type: ignore[arg-type]
    items: list[Blocks] = [(Paragraph((Text(job.language.words(rule)),)),) for rule in rules]
    lead: Block = Paragraph((Text(job.say("chart", "lead", several=len(charts) > 1)),), "note")
    return lead, BulletList(tuple(items))


# ── squares ───────────────────────────────────────────────────────────────────────────────────────


def _cells(job: Job, chart: Chart, row: ChartRow) -> Iterator[ChartCell]:
    grounds = _grounds(job, chart)
    for square in row.squares:
        if not square.stitch:
            yield ChartCell(no_stitch=True)
            continue
        # a knit stitch in colour shows the sign of its colour
        name = "" if square.yarn and square.stitch == "k" else square.stitch
        yield ChartCell(name, grounds.get(square.yarn), columns=square.columns)


def _grounds(job: Job, chart: Chart) -> dict[str, str]:
    used = {square.yarn for row in chart.rows for square in row.squares if square.yarn}
    keys = [yarn.key.value for yarn in job.pattern.yarns if yarn.key.value in used]
    return {key: _GROUNDS[index % len(_GROUNDS)] for index, key in enumerate(keys)}


def _colours(job: Job, chart: Chart) -> tuple[ChartColour, ...]:
    found: list[ChartColour] = []
    for index, (key, ground) in enumerate(_grounds(job, chart).items()):
        yarn = job.pattern.yarn(key)
        colour = yarn.colour.value if yarn is not None and yarn.colour is not None else ""
        words = job.say("chart", "colour", key=key, colour=colour)
        found.append(ChartColour(ground, (Text(words),), _yarn_sign(key) if index else ""))
    return tuple(found)


def _yarn_sign(key: str) -> str:
    return f"yarn {key}"


def _outlines(chart: Chart) -> Iterator[tuple[int, int, int, int]]:
    """The repeat, as rectangles over the rows that have it at the same columns."""
    rows = list(reversed(chart.rows))
    top = 0
    while top < len(rows):
        bottom = top + 1
        while bottom < len(rows) and rows[bottom].repeat == rows[top].repeat:
            bottom += 1
        repeat = rows[top].repeat
        if repeat is not None and repeat != (0, chart.columns):
            yield repeat[0], top, repeat[1], bottom
        top = bottom


def _ratio(job: Job) -> float:
    """Height of a square for a width of 1, as the gauge has it; square without a row gauge."""
    gauge = next((each for each in job.pattern.gauges if each.rows is not None), None)
    if gauge is None or gauge.rows is None:
        return 1.0
    ratio = gauge.stitches.value / gauge.rows.value
    return float(round(min(Fraction(1), max(Fraction(6, 10), ratio)) * 20) / Fraction(20))


# ── signs ─────────────────────────────────────────────────────────────────────────────────────────


def _symbols(job: Job, chart: Chart) -> Iterator[ChartSymbol]:
    """The signs of a chart in order of first use, bottom row first."""
    own = {each.key.value: each for each in job.pattern.stitches}
    used: dict[str, set[str]] = {}
    wide: dict[str, int] = {}
    for row in chart.rows:
        for square in row.squares:
            if square.stitch:
                used.setdefault(square.stitch, set()).add(row.side)
                wide[square.stitch] = square.columns
    for name, sides in used.items():
        both = chart.flat and "WS" in sides
        shapes, text = _drawn(job, name, own.get(name))
        yield ChartSymbol(name, shapes, _meaning(job, name, own.get(name), both), text, wide[name])
    for index, key in enumerate(_grounds(job, chart)):
        if index:
            yield ChartSymbol(_yarn_sign(key), _yarn_shapes(index), (Text(key),))


def _drawn(job: Job, name: str, own: OwnStitch | None) -> tuple[tuple[Shape, ...], str]:
    if own is not None:
        if own.symbol is None:
            place = own.key.span()
            message = f"`{name}` stands in a chart and has no sign"
            job.found.append(Diagnostic.of(SIGN_MISSING, message, place, hint='give it one, such as `symbol: "●"`'))
            return (), ""
        text = own.symbol.value
        middle = max(1, own.makes.value) / 2
        return (Label(middle, 0.78, text, 0.8),), text
    stitch = job.trade.stitches.find(name)
    symbol = None if stitch is None else job.trade.symbols.for_stitch(stitch)
    if symbol is not None and stitch is not None:
        return tuple(_shapes(symbol, (stitch.makes - symbol.cells) / 2)), ""
    if stitch is not None and stitch.crossing is not None:
        return tuple(_cable(stitch.crossing)), ""
    message = f"`{name}` stands in a chart, and the trade has no sign for it"
    place = job.pattern.title.span()
    hint = "give it a name of your own under `stitches:`, with a `symbol`"
    job.found.append(Diagnostic.of(SIGN_MISSING, message, place, hint=hint))
    return (), ""


def _meaning(job: Job, name: str, own: OwnStitch | None, both: bool) -> Inlines:
    if own is not None:
        return (Text(f"{name}: {own.words.value}"),)
    stitch = job.trade.stitches.find(name)
    if stitch is None:
        return (Text(name),)
    turned = job.trade.stitches.find(stitch.wrong_side) if both and stitch.wrong_side else None
    words = job.say("chart", "sign", words=stitch.words, wrong="" if turned is None else turned.words)
    return (Text(job.language.words(words)),)


def _shapes(symbol: TradeSymbol, shift: float) -> Iterator[Shape]:
    """The strokes of the trade's sign, turned from y up to y down, in the middle of the squares it spans."""
    for stroke in symbol.strokes:
        yield _shape(stroke, shift)


def _shape(stroke: Stroke, shift: float) -> Shape:
    numbers = stroke.numbers
    if stroke.shape == "circle":
        return Circle(numbers[0] + shift, 1 - numbers[1], numbers[2], _LINE)
    if stroke.shape == "disc":
        return Circle(numbers[0] + shift, 1 - numbers[1], numbers[2], 0.0, fill="ink")
    if stroke.shape == "box":
        left, low, right, high = numbers
        corners = ((left, 1 - low), (right, 1 - low), (right, 1 - high), (left, 1 - high))
        return Polyline(tuple((x + shift, y) for x, y in corners), True, _LINE, fill="ink")
    if stroke.shape == "arc":
        x, y, radius, start, stop = numbers
        return Polyline(tuple(_arc((x + shift, y), radius, start, stop)), width_mm=_LINE)
    points = zip(numbers[::2], numbers[1::2], strict=True)
    return Polyline(tuple((x + shift, 1 - y) for x, y in points), width_mm=_LINE)


def _arc(centre: tuple[float, float], radius: float, start: float, stop: float) -> Iterator[tuple[float, float]]:
    """An arc as a broken line of twelve parts; degrees counter-clockwise."""
    for part in range(13):
        angle = radians(start + (stop - start) * part / 12)
        yield centre[0] + radius * cos(angle), 1 - centre[1] - radius * sin(angle)


def _cable(crossing: Crossing) -> Iterator[Shape]:
    """A crossing: the group in front as two whole lines, the one behind as lines that stop short of it.

    Cells of a crossing are counted from the right; the drawing runs from the left, from the bottom up.
    """
    width = crossing.width
    front, arrives = _stretch(crossing.over_starts, width), _stretch(crossing.over_ends, width)
    for at in (0, 1):
        yield Polyline(((front[at], 0.9), (arrives[at], 0.1)), width_mm=_LINE)
    travels_left = crossing.travels == "left"
    under = crossing.under
    # behind, the group starts on the other side of the one in front and goes the other way
    begin = (0.0, float(under)) if travels_left else (float(width - under), float(width))
    end = (float(width - under), float(width)) if travels_left else (0.0, float(under))
    dashes = (0.12, 0.1) if crossing.under_worked == "purl" else ()
    for at in (0, 1):
        inset = 0.12 if at == 0 else -0.12
        low, high = begin[at] + inset, end[at] + inset
        yield Polyline(((low, 0.9), (low + (high - low) * 0.28, 0.68)), width_mm=_LINE, dashes=dashes)
        yield Polyline(((high - (high - low) * 0.28, 0.32), (high, 0.1)), width_mm=_LINE, dashes=dashes)


def _stretch(cells: Sequence[int], width: int) -> tuple[float, float]:
    """Cells counted from the right as a stretch from the left, a little inside."""
    return width - 1 - max(cells) + 0.12, width - min(cells) - 0.12


def _yarn_shapes(index: int) -> tuple[Shape, ...]:
    """A sign for a colour, so that it is told without seeing colours."""
    signs: tuple[tuple[Shape, ...], ...] = (
        (Circle(0.5, 0.5, 0.16, 0.0, fill="ink"),),
        (Polyline(((0.3, 0.3), (0.7, 0.7)), width_mm=_LINE), Polyline(((0.3, 0.7), (0.7, 0.3)), width_mm=_LINE)),
        (Circle(0.5, 0.5, 0.2, _LINE),),
        (Polyline(((0.5, 0.25), (0.75, 0.7), (0.25, 0.7)), True, _LINE),),
        (Polyline(((0.5, 0.25), (0.5, 0.75)), width_mm=_LINE), Polyline(((0.25, 0.5), (0.75, 0.5)), width_mm=_LINE)),
        (Polyline(((0.3, 0.3), (0.7, 0.3), (0.7, 0.7), (0.3, 0.7)), True, _LINE),),
        (Polyline(((0.25, 0.5), (0.75, 0.5)), width_mm=_LINE),),
    )
    return signs[(index - 1) % len(signs)]


# ── reading back ──────────────────────────────────────────────────────────────────────────────────


def read_back(job: Job, grid: ChartGrid, flat: bool) -> tuple[tuple[tuple[str, str], ...], ...]:
    """The rows that a grid says, first row first: each stitch as it is worked on its side, and its yarn.

    It reads what a knitter sees: signs, grounds, squares without a stitch, and the side on which a row's number stands.
    """
    by_sign: dict[object, str] = {}
    for symbol in grid.symbols:
        by_sign.setdefault(symbol.shapes, symbol.name)
    signs = {symbol.name: by_sign[symbol.shapes] for symbol in grid.symbols}
    yarns = {ground: key for key, ground in _grounds_of(job, grid).items()}
    rows: list[tuple[tuple[str, str], ...]] = []
    for cells, (_, place) in zip(reversed(grid.rows), reversed(grid.row_labels), strict=True):
        seen = [cell for cell in cells if not cell.no_stitch]
        if place == "right":
            seen.reverse()
        wrong = flat and place == "left"
        rows.append(
            tuple(
                (_as_worked(job, signs.get(cell.symbol, "k"), wrong), yarns.get(cell.colour or "", "")) for cell in seen
            )
        )
    return tuple(rows)


def _grounds_of(job: Job, grid: ChartGrid) -> dict[str, str]:
    used = [colour.colour for colour in grid.colours]
    keys = [yarn.key.value for yarn in job.pattern.yarns]
    said = {"".join(part.text for part in colour.meaning if isinstance(part, Text)): colour for colour in grid.colours}
    found = {}
    for words, colour in said.items():
        key = next((key for key in keys if words == key or words.startswith(f"{key}:")), "")
        found[key] = colour.colour
    return found if len(found) == len(used) else {}


def _as_worked(job: Job, name: str, wrong: bool) -> str:
    stitch = job.trade.stitches.find(name)
    own = any(each.key.value == name for each in job.pattern.stitches)
    if own or stitch is None or not wrong:
        return name if own or stitch is None else stitch.name
    turned = job.trade.stitches.find(stitch.wrong_side)
    return "" if turned is None else turned.name


def _unlike(job: Job, chart: Chart, grid: ChartGrid) -> Iterator[Diagnostic]:
    """Rows that the grid says otherwise than the pattern does."""
    source = next(each for each in job.pattern.stitch_patterns if each.key.value == chart.name)
    for row, said in zip(chart.rows, read_back(job, grid, chart.flat), strict=True):
        told = tuple((_known(job, stitch.stitch), stitch.yarn) for stitch in row.worked)
        if told != said and not any(found.rule is SIGN_MISSING for found in job.found):
            at = next((index for index, (one, other) in enumerate(zip(told, said, strict=False)) if one != other), 0)
            message = (
                f"row {row.number} of the chart of `{chart.name}` reads `{_shown(said, at)}` for `{_shown(told, at)}`"
            )
            hint = "give stitches that are worked differently different signs"
            yield Diagnostic.of(CHART_DIFFERS, message, source.rows.span(), hint=hint)


def _known(job: Job, name: str) -> str:
    if any(each.key.value.lower() == name.lower() for each in job.pattern.stitches):
        return next(each.key.value for each in job.pattern.stitches if each.key.value.lower() == name.lower())
    stitch: Stitch | None = job.trade.stitches.find(name)
    return name if stitch is None else stitch.name


def _shown(row: Sequence[tuple[str, str]], at: int) -> str:
    if at >= len(row):
        return "nothing"
    name, yarn = row[at]
    return f"{name} in {yarn}" if yarn else name
