"""Rows of instructions, facts and tick lists: labels in the side column, text beside them.

In: `InstructionList`, `FactList`, `TickTable`. Out: strips. A row keeps to one page when it can; its stated count
stands at the right edge of its last line, or on a line of its own when there is no room.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from castoff.document.tree import Block, FactList, Inlines, InstructionList, InstructionRow, Strong, Text, TickTable
from castoff.render.pdf.lines import Line, Voice, natural_width, set_lines, words_of
from castoff.render.pdf.setting import Setting, baseline, line_strips, over, text_strips
from castoff.render.pdf.sheet import Run, Sheet
from castoff.render.pdf.strips import ALONE, BETWEEN, IN_PARAGRAPH, IN_ROW, NEVER, Column, Strip, in_columns
from castoff.render.pdf.tagger import Element

INDENT = 14.0
"""Points that a row inside a repeated group stands further in."""
LABEL_GAP = 8.0
STATED_GAP = 16.0
TERM_LINES = 4
"""A term of more lines than this in the side column is set above what it belongs to."""
NARROW_SIDE = 20.0
"""A side column narrower than this holds no term."""
TICK_SIDE = 10.0
TICK_STEP = 13.5
TALLEST_STACK = 0.32
"""Of the height of a page: taller stacks of ticks leave pages half empty."""
TICKS_IN_COLUMNS = 12
"""A tick list of this many lines and more is set in two columns."""

SetBlock = Callable[[Setting, Block, Element, Column], None]
"""Sets one block into a column; passed in, since notes of a row may hold any block."""


def set_instructions(
    setting: Setting, block: InstructionList, parent: Element, column: Column, inner: SetBlock
) -> None:
    """The rows, as a list of label and body."""
    if not block.rows:
        return
    column.key(block.key)
    labelled = any(row.label is not None for row in block.rows)
    owner = parent.child("L", "/O/List/ListNumbering/None" if not labelled else "/O/List/ListNumbering/Decimal")
    rows = [_row_strips(setting, row, owner.child("LI")) for row in block.rows]
    airy = setting.style.linear or any(len(strips) > 1 for strips, _ in rows)
    gap = setting.gap if airy else setting.leading * 0.25
    for index, ((strips, body), row) in enumerate(zip(rows, block.rows, strict=True)):
        if index in (1, len(rows) - 1):
            strips[0].cost += IN_ROW
        column.put(strips, before=gap, after=gap)
        for note in row.notes:
            column.room = min(column.room, gap)
            column.sticky = False
            inner(setting, note, body, column)
    column.room = max(column.room, setting.gap)


def _row_strips(setting: Setting, row: InstructionRow, item: Element) -> tuple[list[Strip], Element]:
    voice = setting.body
    shift = row.indent * INDENT
    x = setting.side + shift
    room = setting.width - x
    body = item.child("LBody")
    hanging: list[Strip] = []
    first_indent = 0.0
    ahead: list[Strip] = []
    if row.label is not None:
        label = (*row.label, Text(":"))
        width = natural_width(words_of(label, setting.label, setting.faces))
        tag = item.child("Lbl")
        if width > room * 0.6 + setting.side:
            ahead = text_strips(setting, label, setting.label, tag, x=shift, cost=NEVER)
        else:
            hanging = text_strips(setting, label, setting.label, tag, x=shift, measure=width + 1, goes_on=True)
            first_indent = max(0.0, width + LABEL_GAP - setting.side)
            if len(hanging) > 1:
                ahead, hanging, first_indent = hanging, [], 0.0
    lines = set_lines(words_of(row.text, voice, setting.faces), room, first_indent)
    strips = _with_stated(setting, row.stated, lines, voice, body, x, room)
    for strip in strips[1:]:
        strip.cost = max(strip.cost, IN_ROW)
    strips = over(strips, hanging) if hanging else strips
    if ahead:
        strips[0].cost = NEVER
        strips = [*ahead, *strips]
    return strips, body


def _with_stated(
    setting: Setting, stated: Inlines | None, lines: list[Line], voice: Voice, body: Element, x: float, room: float
) -> list[Strip]:
    """The lines of a row with its stated count at the right."""
    if stated is None:
        return line_strips(lines, voice, body, x, IN_ROW)
    loud = replace(setting.label, ink=setting.style.colours.accent)
    words = words_of(stated, loud, setting.faces)
    width = natural_width(words)
    lines = [*lines[:-1], replace(lines[-1], last=False)]
    strips = line_strips(lines, voice, body, x, IN_ROW)
    if lines[-1].width + STATED_GAP + width <= room and not setting.style.linear:
        count = line_strips(set_lines(words, width + 1), loud, body, x + room - width)
        strips[-1] = _beside(strips[-1], count[0])
        return strips
    broken = set_lines(words, room * 0.94)
    widest = max(line.width for line in broken)
    block = line_strips(broken, loud, body, x if setting.style.linear else x + room - widest, IN_ROW)
    for strip in block:
        strip.cost = ALONE + IN_ROW
    return [*strips, *block]


def _beside(left: Strip, right: Strip) -> Strip:
    def draw(sheet: Sheet, x: float, top: float) -> None:
        left.draw(sheet, x, top)
        right.draw(sheet, x, top)

    return replace(left, draw=draw)


def set_facts(setting: Setting, block: FactList, parent: Element, column: Column) -> None:
    """Facts, terms in the side column; a glossary in two columns of its own."""
    if not block.facts:
        return
    column.key(block.key)
    if block.kind == "glossary" and not setting.style.linear:
        gap = setting.leading * 1.5
        half = (setting.width - gap) / 2
        size = setting.style.type.table
        terms = [natural_width(words_of(fact.term, _term(setting, size.size), setting.faces)) for fact in block.facts]
        narrow = setting.narrowed(half, min(max(terms) + LABEL_GAP, half * 0.4))
        strips = _fact_strips(narrow, block, parent, small=True)
        column.put(in_columns(strips, 2, half + gap, setting.height * 0.5), before=setting.gap, after=setting.gap)
        return
    column.put(_fact_strips(setting, block, parent, small=False), before=setting.gap, after=setting.gap)


def _term(setting: Setting, size: float) -> Voice:
    return replace(setting.label, size=size)


def _fact_strips(setting: Setting, block: FactList, parent: Element, small: bool) -> list[Strip]:
    size = setting.style.type.table if small else setting.style.type.body
    voice = setting.voice(size)
    term_voice = replace(setting.label, size=size.size, leading=size.leading)
    owner = parent.child("L", "/O/List/ListNumbering/None")
    linear = setting.style.linear or not setting.side
    made: list[Strip] = []
    for fact in block.facts:
        item = owner.child("LI")
        tag, body = item.child("Lbl"), item.child("LBody")
        strips: list[Strip] = []
        for index, paragraph in enumerate(fact.says):
            inner = body.child("P") if len(fact.says) > 1 else body
            within = ALONE if small else IN_PARAGRAPH
            lines = text_strips(setting, paragraph, voice, inner, x=0.0 if linear else setting.side, cost=within)
            if index:
                lines[0].cost = IN_ROW
            strips += lines
        if linear:
            term = text_strips(setting, fact.term, term_voice, tag, goes_on=True)
            if strips:
                strips[0].cost = NEVER
            strips = [*term, *strips]
        else:
            strips = _hang(setting, fact.term, term_voice, tag, strips)
        strips[0].before = setting.leading * (0.0 if small else 0.25)
        strips[0].cost += BETWEEN
        if setting.style.linear:
            strips[0].before = setting.gap
        made += strips
    if made:
        made[0].before = 0.0
    return made


def _hang(setting: Setting, term: Inlines, voice: Voice, tag: Element, strips: list[Strip]) -> list[Strip]:
    """The term in the side column beside the strips; above them when it is too long for that."""
    if setting.side >= NARROW_SIDE:
        beside = text_strips(setting, term, voice, tag, measure=setting.side - LABEL_GAP, goes_on=True)
        if not strips:
            return beside
        if len(beside) <= TERM_LINES:
            return over(strips, beside)
    above = text_strips(setting, term, voice, tag, goes_on=True)
    if strips:
        strips[0].cost = NEVER
    return [*above, *strips]


def set_ticks(setting: Setting, block: TickTable, parent: Element, column: Column) -> None:
    """A list to tick off: boxes in groups of five in front of each line; in words where there are no drawings."""
    column.key(block.key)
    if block.caption:
        caption = text_strips(setting, block.caption, setting.label, parent.child("P"))
        column.put(caption, before=setting.gap, after=setting.leading * 0.25, sticky=True)
    owner = parent.child("L", "/O/List/ListNumbering/None")
    voice = setting.voice(setting.style.type.table, "label")
    if setting.style.linear:
        for row in block.rows:
            times: Inlines = (Text(f" ({row.boxes} times)"),) if row.boxes > 1 and not row.times else ()
            remarked: Inlines = (Text(", "), *row.says) if row.says else ()
            line = (Strong(row.label), *times, *remarked)
            body = owner.child("LI").child("LBody")
            column.put(text_strips(setting, line, voice, body), before=setting.gap, after=setting.gap)
        return
    gap = setting.leading * 1.5
    half = setting.narrowed((setting.width - gap) / 2, setting.side)
    widest = max((natural_width(words_of(row.says, voice, setting.faces)) for row in block.rows), default=0.0)
    two = len(block.rows) >= TICKS_IN_COLUMNS and widest <= half.measure - _boxes_width(_boxes_a_line(half, block)) - 10
    strips = _tick_strips(half if two else setting, block, owner, voice)
    if two:
        strips = in_columns(strips, 2, half.width + gap, setting.height * TALLEST_STACK)
    column.put(strips, after=setting.gap)


def _boxes_a_line(setting: Setting, block: TickTable) -> int:
    """How many boxes stand side by side: whole fives, as far as there is room."""
    many = max(row.boxes for row in block.rows)
    return min(many, next((n for n in (20, 15, 10, 5) if _boxes_width(n) <= setting.measure * 0.6), 1))


def _tick_strips(setting: Setting, block: TickTable, owner: Element, voice: Voice) -> list[Strip]:
    """The lines of a tick list: label in the side column, boxes, remark."""
    label_voice = replace(setting.label, size=voice.size, leading=voice.leading)
    made: list[Strip] = []
    for index, row in enumerate(block.rows):
        item = owner.child("LI")
        tag, body = item.child("Lbl"), item.child("LBody")
        per_line = _boxes_a_line(setting, block)
        room = _boxes_width(per_line) + 10
        lines = -(-row.boxes // per_line)
        # a row of boxes says how often, to those who hear it, unless words do
        said = body.child("Span", actual=f"({row.boxes} times) ") if row.boxes > 1 and not row.times else None
        boxes = Strip(lines * TICK_STEP + 2, _boxes(setting, row.boxes, per_line, setting.side, said))
        remark = text_strips(setting, row.says, voice, body, x=setting.side + room) if row.says else []
        strips = _hang(setting, row.label, label_voice, tag, over(remark, [boxes]) if remark else [boxes])
        strips[0].before = 2.0 if index else 0.0
        strips[0].cost = IN_ROW + (ALONE if index in (1, len(block.rows) - 1) else 0.0) if index else 0.0
        made += strips
    return made


def _boxes_width(count: int) -> float:
    """Width of boxes side by side, a wider gap after every fifth."""
    return count * TICK_STEP + (count - 1) // 5 * 3


def _boxes(
    setting: Setting, count: int, per_line: int, left: float, said: Element | None
) -> Callable[[Sheet, float, float], None]:
    """Draws boxes to tick, a wider gap after every fifth. said: what stands for them; None when they say nothing."""

    def draw(sheet: Sheet, x: float, top: float) -> None:
        if said is None:
            sheet.artifact()
        else:
            sheet.mark(said)
        for index in range(count):
            at = index % per_line
            box_left = x + left + at * TICK_STEP + at // 5 * 3
            lower = top - (index // per_line) * TICK_STEP - TICK_SIDE - 2
            sheet.frame(box_left, lower, TICK_SIDE, TICK_SIDE, 0.6, setting.style.colours.muted)

    return draw


def bullet(setting: Setting, mark: str, voice: Voice, tag: Element, x: float) -> Strip:
    """The mark in front of a list's item."""
    run = Run(mark, voice.family.face(voice.bold, voice.italic), voice.size, setting.style.colours.accent)

    def draw(sheet: Sheet, left: float, top: float) -> None:
        sheet.mark(tag)
        sheet.runs(top - baseline(voice), [(left + x, run)], line_end=True)

    return Strip(voice.leading, draw)
