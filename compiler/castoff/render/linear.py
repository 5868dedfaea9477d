"""Tables said line by line, for readers that have no columns: plain text and large print.

In: a `Table`. Out: blocks, a bold row heading and under it one line for each column ("M: 52 cm").
"""

from __future__ import annotations

from castoff.document.tree import Blocks, Cell, Inlines, LineBreak, Paragraph, Strong, Table, Text, plain_text


def table_in_words(table: Table) -> Blocks:
    """The table's caption, then every body row with its column headings."""
    headings = _column_headings(table.head, table.column_count)
    blocks: list[Paragraph] = []
    if table.caption:
        blocks.append(Paragraph((Strong(table.caption),), key=table.key))
    for row in _full_rows(table.body):
        titled = bool(row) and row[0].scope == "row"
        inline: list[object] = []
        if titled:
            inline.append(Strong(row[0].inline))
        seen: list[Cell] = [row[0]] if titled else []
        for heading, cell in zip(headings[len(seen) :], row[len(seen) :], strict=True):
            if any(cell is earlier for earlier in seen) or not cell.inline:
                continue
            seen.append(cell)
            if inline:
                inline.append(LineBreak())
            if heading:
                inline += [*heading, Text(": ")]
            inline += cell.inline
        if inline:
            blocks.append(Paragraph(tuple(inline)))  # type: ignore[arg-type]
    return tuple(blocks)


def _column_headings(head: tuple[tuple[Cell, ...], ...], count: int) -> list[Inlines]:
    """For each column the heads above it, from the top, joined with commas."""
    headings: list[Inlines] = [() for _ in range(count)]
    for row in _full_rows(head):
        for index, cell in enumerate(row):
            says = plain_text(headings[index])
            if cell.inline and plain_text(cell.inline) not in says.split(", "):
                headings[index] = (*headings[index], Text(", "), *cell.inline) if headings[index] else cell.inline
    return headings


def _full_rows(rows: tuple[tuple[Cell, ...], ...]) -> list[list[Cell]]:
    """Rows with one entry a column, spanning cells repeated."""
    full: list[list[Cell]] = []
    reaching: dict[int, tuple[Cell, int]] = {}
    for row in rows:
        line: list[Cell] = []
        cells = list(row)
        below: dict[int, tuple[Cell, int]] = {}
        while cells or len(line) in reaching:
            if len(line) in reaching:
                cell, left = reaching.pop(len(line))
                if left > 1:
                    below[len(line)] = (cell, left - 1)
                line.append(cell)
                continue
            cell = cells.pop(0)
            for _ in range(cell.columns):
                if cell.rows > 1:
                    below[len(line)] = (cell, cell.rows - 1)
                line.append(cell)
        reaching = below
        full.append(line)
    return full
