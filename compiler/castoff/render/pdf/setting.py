"""What every block needs to be set: the style's voices, the grid of the page, and where text goes.

In: a style with its faces and the width of the text area. Out: a `Setting`, and `text_strips`, which turns inline text
into strips. The grid has two columns: a side column in which labels and terms hang, and the text column beside it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from castoff.document.tree import Inlines
from castoff.render.pdf.faces import Faces
from castoff.render.pdf.lines import Line, Voice, draw_line, set_lines, words_of
from castoff.render.pdf.sheet import Sheet
from castoff.render.pdf.strips import ALONE, IN_PARAGRAPH, Strip
from castoff.render.pdf.tagger import Element
from castoff.render.style import Style, TypeSize

MM = 72 / 25.4
"""Points in a millimetre."""


@dataclass(frozen=True, slots=True)
class Setting:
    """The grid and the voices.

    width: of the text area, side: of the side column, height: of a page's column, all in points. pages: page number by
    heading key, filled before anything is drawn. pictures: whether photographs are printed.
    """

    style: Style
    faces: Faces
    width: float
    side: float
    height: float
    pictures: bool = True
    pages: dict[str, int] = field(default_factory=dict)

    @property
    def leading(self) -> float:
        """Distance between the base lines of running text: the page's rhythm."""
        return self.style.type.body.leading

    @property
    def measure(self) -> float:
        """Width of the text column."""
        return self.width - self.side

    @property
    def gap(self) -> float:
        """Room between paragraphs: half a line, or a blank line in large print."""
        return self.leading * (1.0 if self.style.linear else 0.5)

    def narrowed(self, width: float, side: float) -> Setting:
        """The same voices in a narrower place."""
        return replace(self, width=width, side=side)

    def voice(self, size: TypeSize, family: str = "text", ink: str = "") -> Voice:
        """A voice of the style. family: text, label or display; ink: a colour, the style's own when empty."""
        faces = {"text": self.faces.text, "label": self.faces.label, "display": self.faces.display}[family]
        colours = self.style.colours
        return Voice(faces, size.size, size.leading, ink or colours.ink, link_ink="" if ink else colours.accent)

    @property
    def body(self) -> Voice:
        """Running text."""
        return self.voice(self.style.type.body)

    @property
    def label(self) -> Voice:
        """Row labels and terms: the size of the text beside them, so that the base lines agree."""
        return replace(self.voice(self.style.type.body, "label", self.style.colours.accent), bold=True)


def baseline(voice: Voice) -> float:
    """How far below the upper edge of its line the base line lies: capitals stand in the middle."""
    return voice.leading / 2 + voice.size * 0.33


def text_strips(
    setting: Setting,
    inline: Inlines,
    voice: Voice,
    element: Element,
    *,
    x: float = 0.0,
    measure: float | None = None,
    first_indent: float = 0.0,
    cost: float = IN_PARAGRAPH,
    goes_on: bool = False,
) -> list[Strip]:
    """Inline text as one strip a line.

    x: left edge in the column; measure: width, the rest of the setting's when None. cost: of a page break between two
    lines. goes_on: more text follows in the same element, so the last line ends in a space as well.
    """
    room = setting.width - x if measure is None else measure
    lines = set_lines(words_of(inline, voice, setting.faces), room, first_indent)
    if goes_on:
        lines[-1] = replace(lines[-1], last=False)
    return line_strips(lines, voice, element, x, cost)


def line_strips(lines: list[Line], voice: Voice, element: Element, x: float, cost: float = IN_PARAGRAPH) -> list[Strip]:
    """Lines as strips. A break that leaves the first or last line alone costs more."""
    links: dict[int, Element] = {}
    down = baseline(voice)
    strips: list[Strip] = []
    for index, line in enumerate(lines):

        def draw(sheet: Sheet, left: float, top: float, line: Line = line) -> None:
            draw_line(sheet, line, left + x, top - down, element, links)

        alone = index == 1 or index == len(lines) - 1
        strips.append(Strip(voice.leading, draw, cost=(cost + (ALONE if alone else 0.0)) if index else 0.0))
    return strips


def over(strips: list[Strip], *others: list[Strip]) -> list[Strip]:
    """Stacks drawn beside each other from the same upper edge, the first list's strips deciding where pages may
    break. The others hang from its first strip, which is drawn last of all, since it stands to their right; a break
    inside their height is ruled out."""
    hanging = [strip for other in others for strip in other]
    if not hanging:
        return strips
    tallest = max(sum(strip.height for strip in other) for other in others)
    main = strips[0]

    def draw(sheet: Sheet, x: float, top: float) -> None:
        for other in others:
            y = top
            for strip in other:
                strip.draw(sheet, x, y)
                y -= strip.height
        main.draw(sheet, x, top)

    height = sum(strip.height for strip in strips)
    made = [replace(main, draw=draw), *strips[1:]]
    reached = made[0].height
    for strip in made[1:]:
        if reached < tallest - 0.01:
            strip.cost += ALONE
        reached += strip.height
    if tallest > height:
        made[-1] = replace(made[-1], height=made[-1].height + tallest - height)
    return made
