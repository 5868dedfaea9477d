"""The title page: what the pattern is, and what a knitter decides by.

In: a `TitlePage`. Out: strips. Two manners: quiet (a large title with room around it) and banner (a coloured band from
edge to edge of the paper behind title and makers).
"""

from __future__ import annotations

from dataclasses import replace

from castoff.document.tree import Inlines, Picture, TitlePage
from castoff.render.pdf.figures import picture_strip
from castoff.render.pdf.lines import Voice
from castoff.render.pdf.rows import SetBlock, set_facts
from castoff.render.pdf.setting import Setting, text_strips
from castoff.render.pdf.sheet import Sheet
from castoff.render.pdf.strips import ALONE, IN_GROUP, NEVER, Column, Panel, Strip, stack_height
from castoff.render.pdf.tagger import Element
from castoff.render.style import TypeSize

LEAST_PICTURE, MOST_PICTURE = 0.2, 0.62
"""How much of a page's height the picture takes: what the rest of the title page leaves it, within these shares."""


def set_title_page(
    setting: Setting, block: TitlePage, key: str, parent: Element, column: Column, inner: SetBlock
) -> None:
    """Sets the title page into a column; what follows goes on below it when there is room."""
    column.key(key)
    head, foot = Column(), Column()
    if setting.style.title_page == "banner":
        _banner(setting, block, parent, head)
    else:
        _quiet(setting, block, parent, head)
    figure = block.figure
    _facts(setting, block, parent, foot)
    column.put(head.strips, after=head.room)
    if figure is not None and isinstance(figure.content, Picture) and setting.pictures:
        small = setting.voice(setting.style.type.small, ink=setting.style.colours.muted)
        tag = parent.child("Figure", alt=figure.alt)
        below = Column()
        for inline in (figure.caption, figure.credit):
            if inline:
                below.put(text_strips(setting, inline, small, parent.child("P"), x=setting.side), after=4.0)
        taken = stack_height(head.strips) + head.room + stack_height(below.strips) + 3 * setting.leading
        rest = stack_height(foot.strips)
        if taken + rest < setting.height * (1 - LEAST_PICTURE):
            taken += rest
        tallest = min(max(setting.height - taken, setting.height * LEAST_PICTURE), setting.height * MOST_PICTURE)
        column.put([picture_strip(setting, figure.content, tag, tallest)], before=setting.leading, after=4.0)
        if below.strips:
            below.strips[0].cost = NEVER
            column.put(below.strips, after=setting.gap)
    elif figure is not None and not isinstance(figure.content, Picture):
        inner(setting, figure, parent, column)
    if not setting.style.linear:
        for strip in foot.strips:
            strip.cost += IN_GROUP
    if foot.strips:
        foot.strips[0].cost = 0.0 if setting.style.linear else ALONE
        column.put(foot.strips, before=setting.gap, after=foot.room)


def _facts(setting: Setting, block: TitlePage, parent: Element, column: Column) -> None:
    """The panel of facts between two rules, and the notice under it."""
    if block.facts is not None:
        column.room = max(column.room, setting.leading)
        if not setting.style.linear:
            _line(setting, column)
        set_facts(setting, block.facts, parent, column)
        if not setting.style.linear:
            _line(setting, column)
    if block.notice:
        voice = setting.voice(setting.style.type.small, "label", setting.style.colours.caution)
        strips = text_strips(setting, block.notice, replace(voice, bold=True), parent.child("P"), x=setting.side)
        strips[0].cost = ALONE
        column.put(strips, before=setting.gap, after=setting.gap)


def _title_voice(setting: Setting, inline: Inlines, ink: str, measure: float) -> Voice:
    """The title's voice: as large as the style says, smaller when the title is long, so that it takes three lines at
    most."""
    size = setting.style.type.title
    least = max(setting.style.type.section.size, size.size * 0.55)
    while True:
        voice = setting.voice(size, "display", ink)
        lines = len(text_strips(setting, inline, voice, Element("H1", None), measure=measure))
        if lines <= 2 or (lines == 3 and size.size < setting.style.type.title.size * 0.8) or size.size <= least:
            return voice
        size = TypeSize(size.size * 0.9, size.leading * 0.9)


def _kicker(setting: Setting, ink: str) -> Voice:
    voice = setting.voice(setting.style.type.kicker, "label", ink)
    return replace(voice, bold=True, spacing=0.0 if setting.style.linear else 0.9)


def _quiet(setting: Setting, block: TitlePage, parent: Element, column: Column) -> None:
    colours = setting.style.colours
    if block.kicker:
        kicker = text_strips(setting, block.kicker, _kicker(setting, colours.accent), parent.child("P"), cost=NEVER)
        column.put(kicker, after=setting.leading * (0.5 if setting.style.linear else 3.0), sticky=True)
    voice = _title_voice(setting, block.title, colours.accent, setting.width)
    column.put(
        text_strips(setting, block.title, voice, parent.child("H1"), cost=NEVER),
        after=setting.leading * 0.5,
        sticky=True,
    )
    if block.byline:
        byline = replace(setting.voice(setting.style.type.lead), italic=True)
        column.put(
            text_strips(setting, block.byline, byline, parent.child("P"), cost=NEVER), after=setting.leading * 1.5
        )
    if block.summary:
        lead = setting.voice(setting.style.type.lead)
        x = setting.side
        column.put(text_strips(setting, block.summary, lead, parent.child("P"), x=x), after=setting.leading)


def _banner(setting: Setting, block: TitlePage, parent: Element, column: Column) -> None:
    colours = setting.style.colours
    white = "#ffffff"
    strips: list[Strip] = []
    if block.kicker:
        strips += text_strips(setting, block.kicker, _kicker(setting, white), parent.child("P"), cost=NEVER)
    voice = _title_voice(setting, block.title, white, setting.width)
    title = text_strips(setting, block.title, voice, parent.child("H1"), cost=NEVER)
    title[0].before = setting.leading * 2.5
    strips += title
    if block.byline:
        byline = setting.voice(setting.style.type.lead, "label", white)
        made = text_strips(setting, block.byline, byline, parent.child("P"), cost=NEVER)
        made[0].before = setting.leading * 0.5
        strips += made

    def band(sheet: Sheet, x: float, top: float, bottom: float) -> None:
        sheet.artifact()
        lower = bottom - setting.leading * 1.5
        sheet.rectangle(0, lower, sheet.width, sheet.height - lower, colours.accent)
        sheet.rectangle(0, lower - 4, sheet.width, 2, colours.accent)

    panel = Panel(band)
    for strip in strips:
        strip.panel = panel
        strip.cost = NEVER
    column.put(strips, after=setting.leading * 3)
    if block.summary:
        lead = setting.voice(setting.style.type.lead)
        column.put(text_strips(setting, block.summary, lead, parent.child("P"), x=setting.side), after=setting.leading)


def _line(setting: Setting, column: Column) -> None:
    def draw(sheet: Sheet, x: float, top: float) -> None:
        sheet.artifact()
        sheet.line(x, top, x + setting.width, top, 0.6, setting.style.colours.accent)

    column.put([Strip(0.6, draw, cost=NEVER)], before=setting.gap, after=setting.leading * 0.5)
