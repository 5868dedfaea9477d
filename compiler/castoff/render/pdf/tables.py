"""Tables: columns as wide as they need, heads repeated when a page breaks, header cells tagged with their direction.

In: a `Table`. Out: strips, one a row. A table too wide for the page is set smaller, down to a limit, and past it in
parts, each with the row headings; in linear styles it is said in words instead (by the caller).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from castoff.document.tree import Cell, Table, Text
from castoff.render.pdf.lines import Voice, draw_line, natural_width, set_lines, widest_word, words_of
from castoff.render.pdf.setting import Setting, baseline, text_strips
from castoff.render.pdf.sheet import REPEATED, Sheet
from castoff.render.pdf.strips import IN_GROUP, IN_ROW, NEVER, Column, Strip
from castoff.render.pdf.tagger import Element
from castoff.render.style import TypeSize

SMALLEST = 0.78
"""How far a table may be set smaller than the style's tables before it is set in parts."""


@dataclass(frozen=True, slots=True)
class _Grid:
    """The widths of a table's columns and the room on each side inside a cell, in points, at a size of type."""

    widths: tuple[float, ...]
    padding: float
    size: TypeSize


def set_table(setting: Setting, table: Table, parent: Element, column: Column) -> None:
    """Sets a table into a column."""
    column.key(table.key)
    parts = [table]
    for count in range(1, max(2, table.column_count)):
        parts = _in_parts(table, count)
        if all(_fit(setting, part) is not None for part in parts):
            break
    for index, part in enumerate(parts):
        fitted = _fit(setting, part) or _narrowest(setting, part)
        _set_part(setting, part, fitted, parent, column, first=index == 0)


def fits(setting: Setting, table: Table) -> bool:
    """Whether the table fits the setting's width in one piece."""
    return _fit(setting, table) is not None


def _set_part(setting: Setting, table: Table, grid: _Grid, parent: Element, column: Column, first: bool) -> None:
    owner = parent.child("Table")
    style = setting.style
    if table.caption:
        caption_voice = replace(setting.label, size=grid.size.size, leading=grid.size.leading)
        caption = text_strips(setting, table.caption, caption_voice, owner.child("Caption"), cost=NEVER)
        column.put(caption, before=setting.gap, after=3.0, sticky=True)
    else:
        column.room = max(column.room, setting.gap)
    total = sum(grid.widths)
    made: list[Strip] = []
    heads: list[Strip] = []
    repeats: list[Strip] = []
    if table.head:
        tag = owner.child("THead")
        for index, row in enumerate(table.head):
            strip = _row(setting, row, grid, tag.child("TR"), head=True)
            last = index == len(table.head) - 1
            heads.append(_ruled(strip, total, 0.9 if last else 0.0, style.colours.accent))
            repeats.append(
                _ruled(_row(setting, row, grid, None, head=True), total, 0.9 if last else 0.0, style.colours.accent)
            )
    if table.body:
        tag = owner.child("TBody")
        for index, row in enumerate(table.body):
            strip = _row(setting, row, grid, tag.child("TR"), head=False)
            strip.carry = tuple(repeats)
            made.append(_ruled(strip, total, 0.35, style.colours.line))
            alone = index in (1, len(table.body) - 1)
            strip.cost = made[-1].cost = (IN_GROUP if table.keep else IN_ROW) + (40.0 if alone else 0.0)
    rows = [*heads, *made]
    for strip in rows[1 : len(heads) + 1]:
        strip.cost = NEVER
    column.put(rows, before=0.0 if table.caption else setting.gap, after=setting.leading)
    if not first:
        column.room = setting.gap


def _ruled(strip: Strip, width: float, thickness: float, colour: str) -> Strip:
    """The strip with a rule along its lower edge."""
    if not thickness:
        return strip

    def draw(sheet: Sheet, x: float, top: float) -> None:
        strip.draw(sheet, x, top)
        sheet.artifact()
        sheet.line(x, top - strip.height, x + width, top - strip.height, thickness, colour)

    return replace(strip, draw=draw)


def _row(setting: Setting, row: tuple[Cell, ...], grid: _Grid, owner: Element | None, head: bool) -> Strip:
    """One row. owner: its TR, or None for a repeated head, which is no content."""
    voice = setting.voice(grid.size, "label")
    drawers: list[Callable[[Sheet, float, float], None]] = []
    height = 0.0
    at = 0
    for cell in row:
        left = sum(grid.widths[:at])
        width = sum(grid.widths[at : at + cell.columns])
        at += cell.columns
        height = max(height, _cell(setting, cell, voice, grid, left, width, owner, head, drawers))
    padding = grid.size.leading * 0.21

    def draw(sheet: Sheet, x: float, top: float) -> None:
        for drawer in drawers:
            drawer(sheet, x, top - padding)

    return Strip(height + 2 * padding, draw)


def _cell(
    setting: Setting,
    cell: Cell,
    voice: Voice,
    grid: _Grid,
    left: float,
    width: float,
    owner: Element | None,
    head: bool,
    drawers: list[Callable[[Sheet, float, float], None]],
) -> float:
    """Adds what draws the cell; gives the height of its text."""
    tag = None if owner is None else owner.child(*_cell_tag(cell))
    if cell.scope is not None:
        voice = replace(voice, bold=True, ink=setting.style.colours.accent if head else voice.ink)
    inner = width - 2 * grid.padding
    first = left == 0.0
    start = 0.0 if first else left + grid.padding
    room = max(1.0, inner + grid.padding if first else inner)
    lines = set_lines(words_of(cell.inline, voice, setting.faces), room + 0.05) if cell.inline else []
    links: dict[int, Element] = {}
    down = baseline(voice)
    offsets = [_offset(cell, line.text, line.width, room, voice) for line in lines]

    def draw(sheet: Sheet, x: float, top: float) -> None:
        if tag is not None:
            tag.join()
        for index, line in enumerate(lines):
            y = top - index * voice.leading - down
            if tag is None:
                sheet.artifact(REPEATED)
                sheet.runs(y, [(x + start + offsets[index] + at, run) for at, run, _ in line.placed])
            else:
                draw_line(sheet, line, x + start + offsets[index], y, tag, links)

    drawers.append(draw)
    return len(lines) * voice.leading


def _cell_tag(cell: Cell) -> tuple[str, str]:
    spans = ""
    if cell.columns > 1:
        spans += f"/ColSpan {cell.columns}"
    if cell.rows > 1:
        spans += f"/RowSpan {cell.rows}"
    if cell.scope is not None:
        return "TH", f"/O/Table/Scope/{'Column' if cell.scope == 'column' else 'Row'}{spans}"
    return "TD", f"/O/Table{spans}" if spans else ""


def _offset(cell: Cell, text: str, width: float, room: float, voice: Voice) -> float:
    """How far a line stands from the left edge of its cell. Decimal: the digits before the point or fraction end
    where they end in every cell of the column, two digits right of its middle."""
    if cell.align == "left":
        return 0.0
    if cell.align == "center" or (cell.align == "decimal" and cell.scope is not None):
        return max(0.0, (room - width) / 2)
    if cell.align == "decimal":
        whole = 0
        while whole < len(text) and text[whole].isdigit():
            whole += 1
        if whole:
            digit = voice.family.face(voice.bold, voice.italic).width("0") * voice.size
            return min(max(0.0, room / 2 + digit * 1.0 - whole * digit), max(0.0, room - width))
        return max(0.0, (room - width) / 2)
    return max(0.0, room - width)


def _fit(setting: Setting, table: Table) -> _Grid | None:
    """Column widths for the setting's width, at the style's size of table or a smaller one; None if none fits."""
    base = setting.style.type.table
    scale = 1.0
    while scale >= SMALLEST - 0.001:
        size = TypeSize(base.size * scale, base.leading * scale)
        for padding in (7.0, 5.0, 3.0):
            grid = _columns(setting, table, size, padding)
            if grid is not None:
                return grid
        scale -= 0.055
    return None


def _columns(setting: Setting, table: Table, size: TypeSize, padding: float) -> _Grid | None:
    wished, needed = _measures(setting, table, size)
    wished = [width + 2 * padding for width in wished]
    needed = [width + 2 * padding for width in needed]
    room = setting.width
    if sum(needed) > room + 0.01:
        return None
    first = min(max(wished[0], min(setting.side, room * 0.3)), max(needed[0], room * 0.36))
    first = max(first, needed[0])
    rest = wished[1:]
    if not rest:
        return _Grid((room,), padding, size)
    if first + sum(rest) > room:
        first = max(needed[0], room - sum(rest))
    if first + sum(rest) <= room + 0.01:
        even = max(rest)
        if first + even * len(rest) <= room:
            share = min((room - first) / len(rest), max(even, 96.0))
            return _Grid((first, *([share] * len(rest))), padding, size)
        spare = (room - first - sum(rest)) / len(rest)
        return _Grid((first, *(width + spare for width in rest)), padding, size)
    first = needed[0]
    free = room - sum(needed)
    longing = [wish - need for wish, need in zip(wished, needed, strict=True)]
    whole = sum(longing) or 1.0
    if padding > 3.0 and len(rest) > 3:
        return None
    return _Grid(tuple(need + free * wish / whole for need, wish in zip(needed, longing, strict=True)), padding, size)


def _narrowest(setting: Setting, table: Table) -> _Grid:
    """The last resort: every column its share of the width, words cut where they must be."""
    base = setting.style.type.table
    size = TypeSize(base.size * SMALLEST, base.leading * SMALLEST)
    _, needed = _measures(setting, table, size)
    share = (setting.width - 2 * 2.0 * len(needed)) / sum(needed)
    return _Grid(tuple(width * share + 4.0 for width in needed), 2.0, size)


def _measures(setting: Setting, table: Table, size: TypeSize) -> tuple[list[float], list[float]]:
    """For each column the width its widest cell wishes for, and the width of its widest word."""
    voice = setting.voice(size, "label")
    wished = [0.0] * table.column_count
    needed = [0.0] * table.column_count
    for row in (*table.head, *table.body):
        at = 0
        for cell in row:
            words = words_of(cell.inline, replace(voice, bold=cell.scope is not None), setting.faces)
            if cell.columns == 1 and at < len(wished):
                stretches = set_lines(words, 100_000.0)
                wished[at] = max(wished[at], *(line.width for line in stretches))
                needed[at] = max(needed[at], widest_word(words))
            elif cell.columns > 1:
                spare = natural_width(words) - sum(wished[at : at + cell.columns])
                for column in range(at, at + cell.columns):
                    wished[column] += max(0.0, spare) / cell.columns
            at += cell.columns
    return wished, needed


def _in_parts(table: Table, count: int) -> list[Table]:
    """The table's columns dealt out to `count` tables, the first column in each. Tables with spans stay whole."""
    rows = (*table.head, *table.body)
    if any(cell.columns > 1 or cell.rows > 1 for row in rows for cell in row):
        return [table]
    columns = table.column_count - 1
    parts: list[Table] = []
    for index in range(count):
        start, end = 1 + columns * index // count, 1 + columns * (index + 1) // count

        def cut(row: tuple[Cell, ...], start: int = start, end: int = end) -> tuple[Cell, ...]:
            return (row[0], *row[start:end])

        caption = table.caption
        if index and caption:
            caption = (*caption, Text(" (continued)"))
        head = tuple(cut(row) for row in table.head)
        body = tuple(cut(row) for row in table.body)
        parts.append(replace(table, caption=caption, head=head, body=body, key=table.key if not index else ""))
    return parts
