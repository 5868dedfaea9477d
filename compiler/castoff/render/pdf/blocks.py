"""Blocks: which part sets which, and the simple ones themselves.

In: blocks of the tree. Out: strips in a `Column`. Headings, paragraphs, lists, cautions, contents and groups are set
here; rows, tables, figures and the title page have modules of their own.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from castoff.document.tree import (
    Block,
    Blocks,
    BulletList,
    Caution,
    Columns,
    Contents,
    FactList,
    Figure,
    Heading,
    Inlines,
    InstructionList,
    KeepTogether,
    NumberedList,
    PageBreak,
    Paragraph,
    Rule,
    Table,
    Text,
    TickTable,
    TitlePage,
    headings,
    plain_text,
)
from castoff.render.linear import table_in_words
from castoff.render.pdf.figures import set_figure
from castoff.render.pdf.front import set_title_page
from castoff.render.pdf.lines import Voice, draw_line, set_lines, words_of
from castoff.render.pdf.rows import bullet, set_facts, set_instructions, set_ticks
from castoff.render.pdf.setting import Setting, baseline, over, text_strips
from castoff.render.pdf.sheet import Run, Sheet
from castoff.render.pdf.strips import ALONE, BETWEEN, IN_GROUP, NEVER, Column, Panel, Strip, in_columns, shifted
from castoff.render.pdf.tables import fits, set_table
from castoff.render.pdf.tagger import Element

LIST_INDENT = 14.0
PANEL_PADDING = 9.0


@dataclass(frozen=True, slots=True)
class Entry:
    """A heading as it was set: for the outline and the contents list."""

    level: int
    title: str
    key: str
    inline: Inlines


def keyed(blocks: Blocks) -> list[Entry]:
    """The document's headings in reading order, each with a key of its own and a level that rises by one at most."""
    entries: list[Entry] = []
    level = 0
    for heading in headings(blocks):
        level = min(heading.level, level + 1)
        entries.append(
            Entry(level, plain_text(heading.inline), heading.key or f"heading-{len(entries)}", heading.inline)
        )
    return entries


class Compositor:
    """Sets the blocks of one document in order; knows which heading comes next."""

    def __init__(self, entries: list[Entry]) -> None:
        self.entries = entries
        self.at = 0

    def next_heading(self) -> Entry:
        """The heading being set."""
        entry = self.entries[self.at]
        self.at += 1
        return entry

    def set_all(self, setting: Setting, blocks: Blocks, parent: Element, column: Column) -> None:
        """Sets blocks one after the other."""
        for block in blocks:
            self.set(setting, block, parent, column)

    def set(self, setting: Setting, block: Block, parent: Element, column: Column) -> None:
        """Sets one block into a column."""
        match block:
            case TitlePage():
                set_title_page(setting, block, self.next_heading().key, parent, column, self.set)
            case Heading():
                self.heading(setting, parent, column)
            case Paragraph():
                set_paragraph(setting, block, parent, column)
            case BulletList() | NumberedList():
                self.list(setting, block, parent, column)
            case FactList():
                set_facts(setting, block, parent, column)
            case Table():
                self.table(setting, block, parent, column)
            case InstructionList():
                set_instructions(setting, block, parent, column, self.set)
            case TickTable():
                set_ticks(setting, block, parent, column)
            case Caution():
                self.caution(setting, block, parent, column)
            case Figure():
                set_figure(setting, block, parent, column, self.set)
            case Contents():
                self.contents(setting, block, parent, column)
            case KeepTogether():
                self.together(setting, block, parent, column)
            case Columns():
                self.columns(setting, block, parent, column)
            case PageBreak():
                column.key(block.key)
                column.breaks = True
            case Rule():
                set_rule(setting, block, column)

    def heading(self, setting: Setting, parent: Element, column: Column) -> None:
        """A heading, in the manner of the style. Level 2 opens a section across the page, level 3 a part of one."""
        entry = self.next_heading()
        column.key(entry.key)
        tag = parent.child(f"H{entry.level}")
        if entry.level <= 2:
            _section_heading(setting, entry.inline, tag, column)
            return
        size = setting.style.type.part if entry.level == 3 else setting.style.type.body
        voice = replace(setting.voice(size, "display", setting.style.colours.accent), bold=True)
        strips = text_strips(setting, entry.inline, voice, tag, cost=NEVER)
        column.put(strips, before=setting.leading, after=setting.leading * 0.25, sticky=True, cost=BETWEEN / 2)

    def table(self, setting: Setting, block: Table, parent: Element, column: Column) -> None:
        """A table; in words where the style has no columns or the table does not fit them."""
        if setting.style.linear and (block.column_count > 3 or not fits(setting, block)):
            self.set_all(setting, table_in_words(block), parent, column)
        else:
            set_table(setting, block, parent, column)

    def list(self, setting: Setting, block: BulletList | NumberedList, parent: Element, column: Column) -> None:
        """A list. Large print has no bullets: its items are paragraphs."""
        column.key(block.key)
        numbered = isinstance(block, NumberedList)
        kind = "Decimal" if numbered else ("None" if setting.style.linear else "Disc")
        owner = parent.child("L", f"/O/List/ListNumbering/{kind}")
        for index, item in enumerate(block.items):
            mark = f"{block.start + index}." if isinstance(block, NumberedList) else "•"
            if setting.style.linear and not numbered:
                mark = ""
            self.item(setting, mark, item, owner.child("LI"), column, first=index == 0)
        column.room = setting.gap

    def item(self, setting: Setting, mark: str, blocks: Blocks, item: Element, column: Column, first: bool) -> None:
        """One item: its mark hangs before the text."""
        voice = setting.body
        width = 0.0
        tag = item.child("Lbl") if mark else None
        if mark:
            face = voice.family.face(False, False)
            width = max(LIST_INDENT, Run(mark, face, voice.size, voice.ink).width + 7)
        # everything in the item, also what hangs, stands right of the mark
        inner = setting.narrowed(setting.measure - width, 0.0)
        body = item.child("LBody")
        own = Column()
        self.set_all(inner, blocks, body, own)
        strips = shifted(own.strips, setting.side + width)
        if strips and tag is not None:
            strips = over(strips, [bullet(setting, mark, voice, tag, setting.side)])
        apart = setting.gap if setting.style.linear else setting.leading * 0.25
        column.put(strips, before=setting.gap if first else apart, after=apart)

    def caution(self, setting: Setting, block: Caution, parent: Element, column: Column) -> None:
        """A warning on a ground of its own, with a bar at its left."""
        column.key(block.key)
        owner = parent.child("Div")
        own = Column()
        pad = 0.0 if setting.style.linear else PANEL_PADDING
        warn = setting.style.colours.caution
        title = replace(setting.voice(setting.style.type.body, "label", warn), bold=True)
        inner = setting.narrowed(setting.width - pad, pad * 1.6)
        own.put(
            text_strips(inner, block.title, title, owner.child("P"), x=inner.side, cost=NEVER), after=2.0, sticky=True
        )
        self.set_all(inner, block.blocks, owner, own)
        for strip in own.strips[1:]:
            strip.cost += ALONE
        _on_panel(own.strips, _ground(setting, setting.style.colours.panel, warn) if pad else None)
        column.put(own.strips, before=setting.gap + pad, after=setting.gap + pad)

    def contents(self, setting: Setting, block: Contents, parent: Element, column: Column) -> None:
        """The headings with their page numbers, each a link."""
        column.key(block.key)
        entries = [entry for entry in self.entries if 2 <= entry.level <= block.depth]
        if not entries:
            return
        voice = replace(setting.label, ink=setting.style.colours.accent)
        title = text_strips(setting, block.title, voice, parent.child("P"), x=setting.side)
        column.put(title, before=setting.gap, after=setting.leading * 0.25, sticky=True)
        owner = parent.child("TOC")
        for entry in entries:
            link = owner.child("TOCI").child("Reference").child("Link")
            x = setting.side + (entry.level - 2) * LIST_INDENT
            column.put(_contents_line(setting, entry, link, x), before=0.0, after=0.0)
        column.room = setting.gap

    def together(self, setting: Setting, block: KeepTogether, parent: Element, column: Column) -> None:
        """Blocks that stay on one page when they can."""
        column.key(block.key)
        start = len(column.strips)
        self.set_all(setting, block.blocks, parent, column)
        for strip in column.strips[start + 1 :]:
            strip.cost += IN_GROUP

    def columns(self, setting: Setting, block: Columns, parent: Element, column: Column) -> None:
        """Blocks in columns; one column where the style says so."""
        column.key(block.key)
        if setting.style.linear or block.count < 2:
            self.set_all(setting, block.blocks, parent, column)
            return
        gap = setting.leading * 1.5
        width = (setting.width - gap * (block.count - 1)) / block.count
        own = Column()
        self.set_all(setting.narrowed(width, 0.0), block.blocks, parent, own)
        if own.strips:
            strips = in_columns(own.strips, block.count, width + gap, setting.height * 0.6)
            column.put(strips, before=setting.gap, after=setting.gap)


def set_paragraph(setting: Setting, block: Paragraph, parent: Element, column: Column) -> None:
    """A paragraph in the voice of its role."""
    style = setting.style
    column.key(block.key)
    tag = parent.child("P")
    small = setting.voice(style.type.small, ink=style.colours.muted)
    match block.role:
        case "body":
            voice, after = setting.body, setting.gap
        case "lead":
            voice, after = setting.voice(style.type.lead), setting.leading
        case "note":
            voice, after = replace(setting.body, italic=True), setting.gap
        case "notice":
            voice, after = (
                replace(setting.voice(style.type.small, "label", style.colours.caution), bold=True),
                setting.gap,
            )
        case "credit" | "colophon" | "small":
            voice, after = small, setting.leading * (1.0 if style.linear else 0.25)
    column.put(text_strips(setting, block.inline, voice, tag, x=setting.side), before=after, after=after)


def set_rule(setting: Setting, block: Rule, column: Column) -> None:
    """A hairline across the text, or just room."""
    column.key(block.key)
    if block.kind == "space":
        column.room = max(column.room, setting.leading)
        return

    def draw(sheet: Sheet, x: float, top: float) -> None:
        sheet.artifact()
        sheet.line(x, top, x + setting.width, top, 0.5, setting.style.colours.line)

    column.put([Strip(0.5, draw)], before=setting.leading, after=setting.leading)


def _section_heading(setting: Setting, inline: Inlines, tag: Element, column: Column) -> None:
    style = setting.style
    colours = style.colours
    size = style.type.section
    if style.headings == "band":
        voice = setting.voice(size, "display", "#ffffff")
        strips = text_strips(
            setting, inline, voice, tag, x=PANEL_PADDING, measure=setting.width - 2 * PANEL_PADDING, cost=NEVER
        )

        def band(sheet: Sheet, x: float, top: float, bottom: float) -> None:
            sheet.artifact()
            sheet.rectangle(x, bottom - 1, setting.width, top - bottom + 2, colours.accent)

        _on_panel(strips, Panel(band))
        column.put(strips, before=setting.leading * 1.5, after=setting.leading * 0.75, sticky=True, cost=0.0)
        return
    voice = setting.voice(size, "display", colours.accent)
    strips = text_strips(setting, inline, voice, tag, cost=NEVER)
    if style.headings == "hairline":
        first = strips[0]

        def ruled(sheet: Sheet, x: float, top: float) -> None:
            sheet.artifact()
            sheet.line(x, top, x + setting.width, top, 0.6, colours.accent)
            first.draw(sheet, x, top - 5)

        strips[0] = replace(first, draw=ruled, height=first.height + 5)
    column.put(strips, before=setting.leading * 2, after=setting.leading * 0.5, sticky=True, cost=0.0)


def _on_panel(strips: list[Strip], panel: Panel | None) -> None:
    for strip in strips:
        strip.panel = panel


def _ground(setting: Setting, colour: str, bar: str) -> Panel:
    def draw(sheet: Sheet, x: float, top: float, bottom: float) -> None:
        pad = PANEL_PADDING
        sheet.artifact()
        sheet.rectangle(x, bottom - pad, setting.width, top - bottom + 2 * pad, colour)
        sheet.rectangle(x, bottom - pad, 3.0, top - bottom + 2 * pad, bar)

    return Panel(draw, PANEL_PADDING)


def _contents_line(setting: Setting, entry: Entry, link: Element, x: float) -> list[Strip]:
    """One line of the contents: title, dots, page number; the whole line is the link."""
    voice: Voice = setting.body
    room = setting.width - x
    numbers = voice.size * 2.2
    lines = set_lines(words_of((Text(entry.title),), voice, setting.faces), room - numbers)
    down = baseline(voice)
    strips: list[Strip] = []
    for index, line in enumerate(lines):

        def draw(sheet: Sheet, left: float, top: float, index: int = index) -> None:
            line, y = lines[index], top - down
            if index < len(lines) - 1:
                draw_line(sheet, line, left + x, y, link, {})
                return
            face = voice.family.regular
            number = Run(str(setting.pages.get(entry.key, 0)), face, voice.size, voice.ink)
            right = left + setting.width
            draw_line(sheet, replace(line, last=False), left + x, y, link, {})
            sheet.mark(link)
            sheet.runs(y, [(right - number.width, number)])
            sheet.link(link, f"#{entry.key}", entry.title or entry.key, left + x, y - 3, room, voice.leading)
            sheet.artifact()
            dot = Run(".", face, voice.size, setting.style.colours.line)
            at = right - number.width - 8
            while at > left + x + line.width + 6:
                sheet.runs(y, [(at, dot)])
                at -= 6

        strips.append(Strip(voice.leading, draw, cost=NEVER if index else 0.0))
    return strips
