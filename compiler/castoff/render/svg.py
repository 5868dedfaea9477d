"""Drawings and charts as SVG.

In: shapes of the document tree. Out: an `<svg>` element that carries its alternative text. Parts of a drawing take the
page's colours through CSS variables.
"""

from __future__ import annotations

from html import escape

from castoff.document.tree import ChartGrid, ChartSymbol, Circle, Drawing, Label, Polyline, Shape

INKS = {"ink": "#1f2421", "accent": "#2f4a38", "pale": "#f1f3ec", "paper": "#ffffff"}
"""A drawing's parts; a drawing stands on white also where the page is dark."""
CELL = 20.0


def drawing_svg(drawing: Drawing, alt: str) -> str:
    """A drawing in millimetres."""
    shapes = "".join(_shape(shape) for shape in drawing.shapes)
    size = f'viewBox="0 0 {_n(drawing.width_mm)} {_n(drawing.height_mm)}" width="{_n(drawing.width_mm)}mm"'
    return f'<svg role="img" aria-label="{escape(alt)}" {size}>{shapes}</svg>'


def chart_svg(chart: ChartGrid, alt: str) -> str:
    """A chart: cells, signs, row numbers at the side where the row starts, outlines of repeats."""
    columns = max((sum(cell.columns for cell in row) for row in chart.rows), default=1)
    tall = CELL * chart.cell_ratio
    edge, foot = 30.0, 16.0 if chart.column_labels else 2.0
    width, height = columns * CELL + 2 * edge, len(chart.rows) * tall + foot
    signs = {symbol.name: symbol for symbol in chart.symbols}
    by_colour = {colour.colour: colour.symbol for colour in chart.colours}
    made: list[str] = []
    for index, row in enumerate(chart.rows):
        at = 0
        for cell in row:
            x, y = edge + at * CELL, 1 + index * tall
            at += cell.columns
            if cell.no_stitch:
                continue
            fill = cell.colour or "#ffffff"
            box = f'x="{_n(x)}" y="{_n(y)}" width="{_n(CELL * cell.columns)}" height="{_n(tall)}"'
            made.append(f'<rect {box} fill="{fill}" stroke="#59625c" stroke-width=".6"/>')
            symbol = signs.get(cell.symbol or by_colour.get(cell.colour or "", ""))
            if symbol is not None:
                made.append(_symbol(symbol, x, y, CELL, tall))
    for left, top, right, bottom in chart.outlines:
        box = f'x="{_n(edge + left * CELL)}" y="{_n(1 + top * tall)}"'
        size = f'width="{_n((right - left) * CELL)}" height="{_n((bottom - top) * tall)}"'
        made.append(f'<rect {box} {size} fill="none" stroke="#8a3b1e" stroke-width="2"/>')
    for index, (number, side) in enumerate(chart.row_labels):
        x = edge + columns * CELL + 5 if side == "right" else edge - 5
        anchor = "start" if side == "right" else "end"
        made.append(_text(x, 1 + (index + 0.7) * tall, number, 11, anchor))
    for index, number in enumerate(chart.column_labels):
        made.append(_text(edge + (index + 0.5) * CELL, len(chart.rows) * tall + 13, number, 11, "middle"))
    size = f'viewBox="0 0 {_n(width)} {_n(height)}" width="{_n(width)}"'
    return f'<svg role="img" aria-label="{escape(alt)}" {size}>{"".join(made)}</svg>'


def symbol_svg(symbol: ChartSymbol | None, colour: str | None) -> str:
    """A sign in its cell, for a chart's key; the words beside it say what it is."""
    inside = _symbol(symbol, 0.5, 0.5, CELL / symbol.columns, CELL) if symbol is not None else ""
    box = f'<rect x=".5" y=".5" width="20" height="20" fill="{colour or "#ffffff"}" stroke="#59625c"/>'
    return f'<svg aria-hidden="true" viewBox="0 0 21 21" width="21">{box}{inside}</svg>'


def _symbol(symbol: ChartSymbol, x: float, y: float, wide: float, tall: float) -> str:
    inside = "".join(_shape(shape) for shape in symbol.shapes)
    return f'<g transform="translate({_n(x)} {_n(y)}) scale({_n(wide)} {_n(tall)})">{inside}</g>'


def _shape(shape: Shape) -> str:
    match shape:
        case Polyline():
            return _polyline(shape)
        case Circle():
            look = _look(shape.fill, shape.ink, shape.width_mm)
            return f'<circle cx="{_n(shape.x)}" cy="{_n(shape.y)}" r="{_n(shape.radius)}" {look}/>'
        case Label():
            turn = f' transform="rotate({_n(-shape.angle)} {_n(shape.x)} {_n(shape.y)})"' if shape.angle else ""
            bold = ' font-weight="700"' if shape.strong else ""
            return _text(shape.x, shape.y, shape.text, shape.size_mm, shape.anchor, _ink(shape.ink), turn + bold)


def _polyline(shape: Polyline) -> str:
    points = " ".join(f"{_n(x)},{_n(y)}" for x, y in shape.points)
    look = _look(shape.fill, shape.ink, shape.width_mm)
    if shape.dashes:
        look += f' stroke-dasharray="{" ".join(_n(dash) for dash in shape.dashes)}"'
    made = f'<{"polygon" if shape.closed else "polyline"} points="{points}" {look}/>'
    if shape.arrows in ("start", "both"):
        made += _arrow(shape.points[1], shape.points[0], _ink(shape.ink))
    if shape.arrows in ("end", "both"):
        made += _arrow(shape.points[-2], shape.points[-1], _ink(shape.ink))
    return made


def _arrow(tail: tuple[float, float], head: tuple[float, float], ink: str) -> str:
    dx, dy = head[0] - tail[0], head[1] - tail[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    ux, uy = dx / length * 1.9, dy / length * 1.9
    left = (head[0] - ux - uy * 0.33, head[1] - uy + ux * 0.33)
    right = (head[0] - ux + uy * 0.33, head[1] - uy - ux * 0.33)
    points = " ".join(f"{_n(x)},{_n(y)}" for x, y in (head, left, right))
    return f'<polygon points="{points}" fill="{ink}"/>'


def _look(fill: str | None, ink: str, width: float) -> str:
    stroke = f'stroke="{_ink(ink)}" stroke-width="{_n(width)}"' if width else 'stroke="none"'
    return f'fill="{_ink(fill) if fill else "none"}" {stroke}'


def _ink(name: str) -> str:
    return INKS.get(name, name)


def _text(x: float, y: float, text: str, size: float, anchor: str, ink: str = "#1f2421", more: str = "") -> str:
    place = f'x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}" text-anchor="{anchor}"'
    return f'<text {place} fill="{ink}" font-family="sans-serif"{more}>{escape(text)}</text>'


def _n(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text
