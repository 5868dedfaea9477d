"""Figures: pictures, drawings and charts on the page.

In: a `Figure`. Out: strips: the figure in one piece, its caption and credit below it, and for a chart its key and its
words. Colours of a drawing's parts come from the style. Charts and drawings are one string of operators each, which is
some forty times as fast as one call a cell.
"""

from __future__ import annotations

from math import atan2, cos, pi, sin

from castoff.document.tree import (
    Block,
    ChartCell,
    ChartGrid,
    ChartSymbol,
    Circle,
    Drawing,
    Figure,
    Inlines,
    Label,
    Paragraph,
    Picture,
    Polyline,
    Shape,
    Text,
)
from castoff.render.pdf.rows import SetBlock
from castoff.render.pdf.setting import MM, Setting, text_strips
from castoff.render.pdf.sheet import Run, Sheet
from castoff.render.pdf.strips import NEVER, Column, Strip
from castoff.render.pdf.tagger import Element

CIRCLE = 0.5523
"""Distance of a Bézier curve's handles for a quarter of a circle, in radii."""


def set_figure(setting: Setting, block: Figure, parent: Element, column: Column, inner: SetBlock) -> None:
    """Sets a figure into a column."""
    if isinstance(block.content, Picture) and not setting.pictures:
        return
    column.key(block.key)
    words: tuple[Block, ...] = () if isinstance(block.content, Picture) else block.content.words
    if setting.style.linear and not isinstance(block.content, Picture):
        said: tuple[Block, ...] = (Paragraph(block.caption),) if block.caption else ()
        for word in (*said, *(words or (Paragraph((Text(block.alt),)),))):
            inner(setting, word, parent, column)
        return
    tag = parent.child("Figure", alt=block.alt)
    strip = _strip(setting, block, tag)
    column.put([strip], before=setting.gap, after=4.0, sticky=bool(block.caption or block.credit))
    shift = setting.side
    small = setting.voice(setting.style.type.small, ink=setting.style.colours.muted)
    for inline, last in ((block.caption, not block.credit), (block.credit, True)):
        if inline:
            caption = text_strips(setting, inline, small, parent.child("P"), x=shift)
            column.put(caption, after=4.0, sticky=not last)
    column.room = setting.gap
    if isinstance(block.content, ChartGrid):
        _set_key(setting, block.content, parent, column)
        for word in words:
            inner(setting, word, parent, column)


def _strip(setting: Setting, block: Figure, tag: Element) -> Strip:
    match block.content:
        case Picture() as picture:
            return picture_strip(setting, picture, tag, setting.height * 0.62)
        case Drawing() as drawing:
            return _drawing_strip(setting, drawing, tag)
        case ChartGrid() as chart:
            return _chart_strip(setting, chart, tag)


def picture_strip(setting: Setting, picture: Picture, tag: Element, tallest: float) -> Strip:
    """A picture as wide as the text area, or as the text column when it would be too tall for that."""
    width = min(setting.width, tallest * picture.width_px / picture.height_px)
    if setting.measure < width < setting.width - 0.01:
        width = setting.measure
    height = width * picture.height_px / picture.width_px
    shift = _shift(setting, width)

    def draw(sheet: Sheet, x: float, top: float) -> None:
        x += shift
        _frame(tag, x, top - height, x + width, top)
        sheet.mark(tag)
        sheet.picture(picture.data, x, top - height, width, height)

    return Strip(height, draw)


def _frame(tag: Element, left: float, lower: float, right: float, upper: float) -> None:
    """Where the figure stands, as PDF wants it said of figures."""
    tag.attributes = f"/O/Layout/Placement/Block/BBox[{left:.2f} {lower:.2f} {right:.2f} {upper:.2f}]"


def _drawing_strip(setting: Setting, drawing: Drawing, tag: Element) -> Strip:
    scale = min(MM, setting.width / drawing.width_mm, setting.height * 0.9 / drawing.height_mm)
    width, height = drawing.width_mm * scale, drawing.height_mm * scale
    shift = _shift(setting, width)

    def draw(sheet: Sheet, x: float, top: float) -> None:
        x += shift
        _frame(tag, x, top - height, x + width, top)
        sheet.mark(tag)
        shapes(sheet, setting, drawing.shapes, x, top, scale)

    return Strip(height, draw)


def _shift(setting: Setting, width: float) -> float:
    """Where a figure starts: in the text column when it fits there."""
    return setting.side if width <= setting.measure else 0.0


def shapes(
    sheet: Sheet, setting: Setting, drawn: tuple[Shape, ...], x: float, top: float, scale: float, ratio: float = 1.0
) -> None:
    """Draws shapes whose origin is the upper left corner (x, top); scale: points a unit, ratio: height to width."""
    code: list[str] = []
    for shape in drawn:
        match shape:
            case Polyline():
                code += _polyline(setting, shape, x, top, scale, ratio)
            case Circle():
                code += _circle(setting, shape, x, top, scale, ratio)
            case Label():
                continue
    if code:
        sheet.operators(f"q 1 J 1 j {' '.join(code)} Q")
    for shape in drawn:
        if isinstance(shape, Label):
            _label(sheet, setting, shape, x, top, scale, ratio)


def _ink(setting: Setting, name: str) -> str:
    colours = setting.style.colours
    parts = {"ink": colours.ink, "accent": colours.accent, "pale": colours.panel, "paper": "#ffffff"}
    return parts.get(name, name)


def _rgb(colour: str, operator: str) -> str:
    return " ".join(f"{int(colour[at : at + 2], 16) / 255:.3f}" for at in (1, 3, 5)) + f" {operator}"


def _paint(setting: Setting, fill: str | None, ink: str, width: float, closed: bool) -> tuple[str, str]:
    """Operators that set the colours, and the one that paints."""
    stroke = width > 0
    before = []
    if fill:
        before.append(_rgb(_ink(setting, fill), "rg"))
    if stroke:
        before.append(_rgb(_ink(setting, ink), "RG"))
        before.append(f"{width:.2f} w")
    painting = {(True, True): "b" if closed else "B", (True, False): "f", (False, True): "s" if closed else "S"}
    return " ".join(before), painting.get((bool(fill), stroke), "n")


def _polyline(setting: Setting, shape: Polyline, x: float, top: float, scale: float, ratio: float) -> list[str]:
    points = [(x + px * scale, top - py * scale * ratio) for px, py in shape.points]
    before, paint = _paint(setting, shape.fill, shape.ink, shape.width_mm * scale, shape.closed)
    dashes = " ".join(f"{dash * scale:.2f}" for dash in shape.dashes)
    path = " ".join(f"{px:.2f} {py:.2f} {'l' if index else 'm'}" for index, (px, py) in enumerate(points))
    code = [before, f"[{dashes}] 0 d", path, paint]
    if shape.arrows != "none" and len(points) > 1:
        size = 1.9 * MM * min(1.0, scale / MM)
        fill = _rgb(_ink(setting, shape.ink), "rg")
        if shape.arrows in ("start", "both"):
            code.append(f"{fill} {_arrow(points[1], points[0], size)}")
        if shape.arrows in ("end", "both"):
            code.append(f"{fill} {_arrow(points[-2], points[-1], size)}")
    return code


def _arrow(tail: tuple[float, float], head: tuple[float, float], size: float) -> str:
    angle = atan2(head[1] - tail[1], head[0] - tail[0])
    corners = [head]
    for turn in (pi - 0.32, pi + 0.32):
        corners.append((head[0] + size * cos(angle + turn), head[1] + size * sin(angle + turn)))
    (ax, ay), (bx, by), (cx, cy) = corners
    return f"{ax:.2f} {ay:.2f} m {bx:.2f} {by:.2f} l {cx:.2f} {cy:.2f} l f"


def _circle(setting: Setting, shape: Circle, x: float, top: float, scale: float, ratio: float) -> list[str]:
    before, paint = _paint(setting, shape.fill, shape.ink, shape.width_mm * scale, True)
    cx, cy = x + shape.x * scale, top - shape.y * scale * ratio
    a, b = shape.radius * scale, shape.radius * scale * min(1.0, ratio)
    a = min(a, b) if ratio < 1.0 else a
    k = CIRCLE
    path = (
        f"{cx + a:.2f} {cy:.2f} m "
        f"{cx + a:.2f} {cy + b * k:.2f} {cx + a * k:.2f} {cy + b:.2f} {cx:.2f} {cy + b:.2f} c "
        f"{cx - a * k:.2f} {cy + b:.2f} {cx - a:.2f} {cy + b * k:.2f} {cx - a:.2f} {cy:.2f} c "
        f"{cx - a:.2f} {cy - b * k:.2f} {cx - a * k:.2f} {cy - b:.2f} {cx:.2f} {cy - b:.2f} c "
        f"{cx + a * k:.2f} {cy - b:.2f} {cx + a:.2f} {cy - b * k:.2f} {cx + a:.2f} {cy:.2f} c h"
    )
    return [before, "[] 0 d", path, paint]


def _label(sheet: Sheet, setting: Setting, shape: Label, x: float, top: float, scale: float, ratio: float) -> None:
    face = setting.faces.label.face(shape.strong, False)
    size = shape.size_mm * scale
    pieces = [
        Run(text, fitting, size, _ink(setting, shape.ink)) for fitting, text in setting.faces.pieces(shape.text, face)
    ]
    width = sum(run.width for run in pieces)
    back = {"start": 0.0, "middle": width / 2, "end": width}[shape.anchor]
    angle = shape.angle * pi / 180
    px = x + shape.x * scale - back * cos(angle)
    py = top - shape.y * scale * ratio - back * sin(angle)
    for run in pieces:
        sheet.turned_run(px, py, shape.angle, run)
        px += run.width * cos(angle)
        py += run.width * sin(angle)


def _chart_strip(setting: Setting, chart: ChartGrid, tag: Element) -> Strip:
    columns = max((sum(cell.columns for cell in row) for row in chart.rows), default=1)
    rows = max(1, len(chart.rows))
    edge = 26.0
    cell = min(15.0, (setting.width - 2 * edge) / columns, (setting.height * 0.9 - 16) / rows / chart.cell_ratio)
    tall = cell * chart.cell_ratio
    foot = 14.0 if chart.column_labels else 2.0
    width, height = columns * cell + 2 * edge, rows * tall + foot
    shift = max(0.0, _shift(setting, width - edge) - edge)

    def draw(sheet: Sheet, x: float, top: float) -> None:
        x += shift
        _frame(tag, x, top - height, x + width, top)
        sheet.mark(tag)
        _draw_chart(sheet, setting, chart, x + edge, top, cell, tall, columns)

    return Strip(height, draw)


def _draw_chart(
    sheet: Sheet, setting: Setting, chart: ChartGrid, x: float, top: float, cell: float, tall: float, columns: int
) -> None:
    code: list[str] = ["q"]
    grounds: dict[str, list[str]] = {}
    lines: list[str] = []
    marks: list[tuple[ChartSymbol, float, float]] = []
    known = {symbol.name: symbol for symbol in chart.symbols}
    signs = {colour.colour: colour.symbol for colour in chart.colours}
    for index, row in enumerate(chart.rows):
        at = 0
        upper = top - index * tall
        for square in row:
            left = x + at * cell
            at += square.columns
            if square.no_stitch:
                continue
            if square.colour:
                box = f"{left:.2f} {upper - tall:.2f} {cell * square.columns:.2f} {tall:.2f} re"
                grounds.setdefault(square.colour, []).append(box)
            lines.append(f"{left:.2f} {upper - tall:.2f} {cell * square.columns:.2f} {tall:.2f} re")
            name = square.symbol or signs.get(square.colour or "", "")
            if name in known:
                marks.append((known[name], left, upper))
    for colour, boxes in grounds.items():
        code.append(f"{_rgb(colour, 'rg')} {' '.join(boxes)} f")
    code.append(f"{_rgb(setting.style.colours.muted, 'RG')} 0.3 w {' '.join(lines)} S")
    for left_cell, upper_cell, right_cell, lower_cell in chart.outlines:
        wide, high = (right_cell - left_cell) * cell, (lower_cell - upper_cell) * tall
        corner = f"{x + left_cell * cell:.2f} {top - lower_cell * tall:.2f} {wide:.2f} {high:.2f} re S"
        code.append(f"{_rgb(setting.style.colours.caution, 'RG')} 1.4 w {corner}")
    code.append("Q")
    sheet.operators(" ".join(code))
    for symbol, left, upper in marks:
        shapes(sheet, setting, symbol.shapes, left, upper, cell, tall / cell)
    face = setting.faces.label.regular
    size = min(7.5, max(5.0, cell * 0.62))
    for index, (number, place) in enumerate(chart.row_labels):
        run = Run(number, face, size, setting.style.colours.ink)
        left = x + columns * cell + 4 if place == "right" else x - 4 - run.width
        sheet.runs(top - (index + 0.5) * tall - size * 0.35, [(left, run)])
    for index, number in enumerate(chart.column_labels):
        run = Run(number, face, size, setting.style.colours.ink)
        sheet.runs(top - len(chart.rows) * tall - size - 2, [(x + (index + 0.5) * cell - run.width / 2, run)])


def _set_key(setting: Setting, chart: ChartGrid, parent: Element, column: Column) -> None:
    """The chart's key: each sign and each colour with its meaning, as a list."""
    owner = parent.child("L", "/O/List/ListNumbering/None")
    used = _signs_used(chart)
    entries: list[tuple[ChartCell, Inlines]] = [
        (ChartCell(symbol.name), symbol.meaning) for symbol in chart.symbols if symbol.name in used
    ]
    entries += [(ChartCell(colour.symbol, colour.colour), colour.meaning) for colour in chart.colours]
    voice = setting.voice(setting.style.type.table)
    for index, (square, meaning) in enumerate(entries):
        item = owner.child("LI")
        strips = text_strips(
            setting, meaning or (Text(square.symbol),), voice, item.child("LBody"), x=setting.side + 22
        )
        strips[0] = _key_square(setting, chart, square, strips[0])
        if index:
            strips[0].cost = NEVER / 100
        column.put(strips, before=4.0, after=4.0)
    column.room = setting.gap


def _signs_used(chart: ChartGrid) -> frozenset[str]:
    return frozenset(square.symbol for row in chart.rows for square in row if square.symbol)


def _key_square(setting: Setting, chart: ChartGrid, square: ChartCell, beside: Strip) -> Strip:
    symbol = next((one for one in chart.symbols if one.name == square.symbol), None)

    def draw(sheet: Sheet, x: float, top: float) -> None:
        sheet.artifact()
        left, side, upper = x + setting.side, 12.0, top - (beside.height - 12.0) / 2
        if square.colour:
            sheet.rectangle(left, upper - side, side, side, square.colour)
        sheet.frame(left, upper - side, side, side, 0.4, setting.style.colours.muted)
        if symbol is not None:
            # a sign that spans several squares is drawn as narrow as one
            shapes(sheet, setting, symbol.shapes, left, upper, side / symbol.columns, float(symbol.columns))
        sheet.close()
        beside.draw(sheet, x, top)

    return Strip(beside.height, draw, beside.before, beside.cost)
