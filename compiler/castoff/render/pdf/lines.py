"""Lines: inline text broken to a measure.

In: inline text of the tree, a voice (family, size, colour). Out: lines of placed runs. Lines are left ragged; of all
ways to break a paragraph the one with the evenest edge is taken. A line never ends inside a word, a number, a number
and its unit, or a bracket of a size list, and rather not inside a size list at all. Nothing is hyphenated.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from castoff.document.tree import (
    NO_BREAK_SPACE,
    Abbreviation,
    Emphasis,
    Inline,
    Inlines,
    LineBreak,
    Link,
    NoBreak,
    Pair,
    Quantity,
    SizeList,
    StitchTerm,
    Strong,
    Text,
    plain_text,
)
from castoff.render.pdf.faces import Faces, Family
from castoff.render.pdf.sheet import Run, Sheet
from castoff.render.pdf.tagger import Element

LINE = 0.1
"""Cost of a line in units of a whole empty line, so that a paragraph is not made longer to be even."""
IN_SIZE_LIST = 0.25
"""Cost of ending a line inside a size list: twice this inside a bracket, less than half of it between the brackets of
a long one."""
UNIT = r"(?:sts?|stitch(?:es)?|rows?|rnds?|rounds?|times?|more|cm|mm|in|m|yds?|g|oz|balls?)\b"
BEFORE_UNIT = re.compile(rf"(?<=[\d½¼¾⅓⅔⅛⅜⅝⅞)]) (?={UNIT})")
STARTS_WITH_UNIT = re.compile(rf" (?={UNIT})")
"""Where a space stands between a number and its unit in running text; no line ends there."""
NARROWEST = 8.0
"""Points: no measure is taken for less, so that a letter fits whatever was asked for."""
GROUPED_FROM = 7
"""Size lists of this many values and more get extra room around their brackets."""


@dataclass(frozen=True, slots=True)
class Voice:
    """How a stretch of text is set. ink: its colour, link_ink: that of links, "" for the same; spacing: extra room
    behind every character, in points."""

    family: Family
    size: float
    leading: float
    ink: str
    bold: bool = False
    italic: bool = False
    spacing: float = 0.0
    link_ink: str = ""


@dataclass(slots=True)
class Word:
    """What stands between two places where a line may end.

    runs: its pieces with the link each belongs to. space: room behind it when the line goes on. cost: of ending the
    line behind it; forced: the line does end there.
    """

    runs: list[tuple[Run, Link | None]] = field(default_factory=list)
    width: float = 0.0
    space: float = 0.0
    cost: float = 0.0
    forced: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A line: (x, run, link) from its left edge, and its width. last: whether the paragraph ends here."""

    placed: tuple[tuple[float, Run, Link | None], ...]
    width: float
    last: bool

    @property
    def text(self) -> str:
        """Its characters, spaces between words included."""
        return "".join(run.text for _, run, _ in self.placed)


def words_of(inline: Inlines, voice: Voice, faces: Faces, link: Link | None = None) -> list[Word]:
    """The words of inline text in a voice. Raises MissingCharacter."""
    builder = _Builder(faces)
    builder.take(inline, voice, link, glued=False)
    return builder.finish()


def set_lines(words: list[Word], measure: float, first_indent: float = 0.0) -> list[Line]:
    """Lines no wider than `measure` (points); the first starts `first_indent` further right, and
    stays empty when the first word does not fit there. A word that is wider than
    a line is cut between characters."""
    lines: list[Line] = []
    measure = max(measure, NARROWEST)
    if first_indent and words[0].width > measure - first_indent:
        lines.append(Line((), first_indent, last=False))
    start = 0
    for index, word in enumerate(words):
        if word.forced or index == len(words) - 1:
            stretch = _cut_wide(words[start : index + 1], measure)
            lines += _even(stretch, measure, first_indent if not lines else 0.0, last=index == len(words) - 1)
            start = index + 1
    return lines


def natural_width(words: list[Word]) -> float:
    """Width of the words on one line."""
    return sum(word.width + word.space for word in words) - (words[-1].space if words else 0.0)


def widest_word(words: list[Word]) -> float:
    """Width of the widest word."""
    return max((word.width for word in words), default=0.0)


def draw_line(sheet: Sheet, line: Line, x: float, y: float, element: Element, links: dict[int, Element]) -> None:
    """Draws a line with its left edge at x and its base line at y, under the element; links get elements of their own,
    kept in `links` so that a link over two lines stays one."""
    at = 0
    while at < len(line.placed):
        link = line.placed[at][2]
        upto = at
        while upto < len(line.placed) and line.placed[upto][2] is link:
            upto += 1
        stretch = [(x + offset, run) for offset, run, _ in line.placed[at:upto]]
        ends = upto == len(line.placed) and not line.last
        if link is None:
            sheet.mark(element)
            sheet.runs(y, stretch, line_end=ends)
        else:
            owner = links.setdefault(id(link), element.child("Link"))
            sheet.mark(owner)
            sheet.runs(y, stretch, line_end=ends)
            first, last = stretch[0], stretch[-1]
            size = max(run.size for _, run in stretch)
            says = link.description or plain_text(link.inline).strip() or link.target
            right = last[0] + last[1].width
            sheet.link(owner, link.target, says, first[0], y - size * 0.25, right - first[0], size * 1.1)
        at = upto


class _Builder:
    """Gathers words while walking the inline tree."""

    def __init__(self, faces: Faces) -> None:
        self.faces = faces
        self.words: list[Word] = []
        self.word = Word()

    def finish(self) -> list[Word]:
        if self.word.runs or not self.words:
            self.words.append(self.word)
        return self.words

    def take(self, inline: Inlines, voice: Voice, link: Link | None, glued: bool) -> None:
        before: object = None
        for node in _side_by_side(inline):
            match node:
                case Text():
                    text = BEFORE_UNIT.sub(NO_BREAK_SPACE, node.text)
                    if isinstance(before, SizeList):
                        text = NO_BREAK_SPACE + text[1:] if STARTS_WITH_UNIT.match(text) else text
                    self.text(text, voice, link, glued)
                case Strong():
                    self.take(node.inline, replace(voice, bold=True), link, glued)
                case Emphasis():
                    self.take(node.inline, replace(voice, italic=True), link, glued)
                case Abbreviation() | StitchTerm():
                    self.text(node.text, voice, link, glued, node.expansion)
                case SizeList():
                    self.size_list(node, voice, link, glued)
                case Quantity():
                    self.add(f"{node.number}{node.glue}{node.unit}", voice, link)
                case NoBreak():
                    self.take(node.inline, voice, link, glued=True)
                case LineBreak():
                    self.end_word(voice, forced=True)
                case Link():
                    self.take(node.inline, voice, node, glued)
            before = node

    def text(self, text: str, voice: Voice, link: Link | None, glued: bool, expansion: str = "") -> None:
        if glued:
            text = text.replace(" ", NO_BREAK_SPACE)
        for index, piece in enumerate(text.replace("\n", " ").split(" ")):
            if index:
                self.end_word(voice)
            if piece:
                self.add(piece, voice, link, expansion)

    def size_list(self, node: SizeList, voice: Voice, link: Link | None, glued: bool) -> None:
        parts = node.parts
        roomy = len(parts) >= GROUPED_FROM
        for index, part in enumerate(parts):
            self.add(part, voice, link)
            if index < len(parts) - 1:
                if glued:
                    self.add(NO_BREAK_SPACE, voice, link)
                    continue
                bracket_next = parts[index + 1].startswith("(")
                share = 0.4 if roomy and bracket_next and index else 2.0
                self.end_word(voice, cost=IN_SIZE_LIST * share)
                if roomy and bracket_next:
                    self.words[-1].space += voice.size * 0.3

    def add(self, text: str, voice: Voice, link: Link | None, expansion: str = "") -> None:
        face = voice.family.face(voice.bold, voice.italic)
        ink = voice.link_ink or voice.ink if link is not None else voice.ink
        for fitting, piece in self.faces.pieces(text, face):
            run = Run(piece, fitting, voice.size, ink, expansion, voice.spacing)
            self.word.runs.append((run, link))
            self.word.width += run.width

    def end_word(self, voice: Voice, cost: float = 0.0, forced: bool = False) -> None:
        space = voice.family.face(voice.bold, voice.italic).width(" ") * voice.size + voice.spacing
        if not self.word.runs:
            if self.words and not forced:
                self.words[-1].space = max(self.words[-1].space, space)
            elif forced and self.words and not self.words[-1].forced:
                self.words[-1].forced = True
            return
        self.word.space, self.word.cost, self.word.forced = space, cost, forced
        self.words.append(self.word)
        self.word = Word()


def _side_by_side(inline: Inlines) -> Iterator[Inline]:
    """Inline text with the measures of both systems one behind the other: paper shows both."""
    for node in inline:
        if isinstance(node, Pair):
            yield from node.inline
        else:
            yield node


def _cut_wide(words: list[Word], measure: float) -> list[Word]:
    """The words, with those wider than a line cut between characters."""
    if all(word.width <= measure for word in words):
        return words
    cut: list[Word] = []
    for word in words:
        if word.width <= measure:
            cut.append(word)
            continue
        piece = Word()
        for run, link in word.runs:
            for character in run.text:
                letter = replace(run, text=character)
                if piece.runs and piece.width + letter.width > measure:
                    cut.append(piece)
                    piece = Word()
                _append(piece, letter, link)
        piece.space, piece.cost, piece.forced = word.space, word.cost, word.forced
        cut.append(piece)
    return cut


def _append(word: Word, run: Run, link: Link | None) -> None:
    word.width += run.width
    before = word.runs[-1] if word.runs else None
    if before and before[1] is link and before[0].expansion == run.expansion and _same_look(before[0], run):
        run = replace(run, text=word.runs[-1][0].text + run.text)
        word.runs.pop()
    word.runs.append((run, link))


def _even(words: list[Word], measure: float, first_indent: float, last: bool) -> list[Line]:
    """Breaks one stretch of words so that the squares of what is left over at the right add up to least."""
    count = len(words)
    costs = [0.0] * (count + 1)
    ends = [count] * (count + 1)
    for start in range(count - 1, -1, -1):
        room = measure - (first_indent if start == 0 else 0.0)
        width = 0.0
        best = float("inf")
        for end in range(start, count):
            width += words[end].width
            if width > room + 0.01 and end > start:
                break
            left_over = max(0.0, room - width) / measure
            if end == count - 1:
                cost = 0.12 if start and width < measure * 0.12 else 0.0
            else:
                cost = left_over * left_over + words[end].cost
            cost += LINE + costs[end + 1]
            if cost < best:
                best, ends[start] = cost, end + 1
            width += words[end].space
        costs[start] = best
    lines: list[Line] = []
    start = 0
    while start < count:
        end = ends[start]
        lines.append(_line(words[start:end], first_indent if start == 0 else 0.0, last and end == count))
        start = end
    return lines


@dataclass(slots=True)
class _Placing:
    """A line being filled; neighbours that touch and look alike are gathered into one run.

    run, link: of the stretch being gathered, its words in `texts`; start, end: where it stands.
    """

    placed: list[tuple[float, Run, Link | None]] = field(default_factory=list)
    run: Run | None = None
    link: Link | None = None
    texts: list[str] = field(default_factory=list)
    start: float = 0.0
    end: float = 0.0

    def add(self, x: float, run: Run, link: Link | None, text: str, expansion: str) -> float:
        """Adds text in the manner of a run at x. Gives where it ends."""
        width = run.face.width(text) * run.size + run.spacing * len(text)
        before = self.run
        if (
            before is not None
            and link is self.link
            and not expansion
            and not before.expansion
            and abs(self.end - x) < 0.01
            and _same_look(before, run)
        ):
            self.texts.append(text)
        else:
            self.flush()
            self.run, self.link, self.start = run, link, x
            if run.expansion != expansion:
                self.run = replace(run, expansion=expansion)
            self.texts = [text]
        self.end = x + width
        return self.end

    def flush(self) -> None:
        """The stretch gathered so far becomes a run."""
        if self.run is not None:
            text = "".join(self.texts)
            run = self.run if self.run.text == text else replace(self.run, text=text)
            self.placed.append((self.start, run, self.link))
            self.run = None


def _line(words: list[Word], indent: float, last: bool) -> Line:
    """Places the words; neighbours that look alike become one run, with the space between them in it."""
    placing = _Placing()
    x = indent
    for index, word in enumerate(words):
        for run, link in word.runs:
            x = placing.add(x, run, link, run.text, run.expansion)
        if index < len(words) - 1 and word.runs:
            run, link = word.runs[-1]
            after = words[index + 1].runs[0][1] if words[index + 1].runs else None
            placing.add(x, run, link if link is after else None, " ", "")
            x += word.space
    placing.flush()
    return Line(tuple(placing.placed), x, last)


def _same_look(one: Run, other: Run) -> bool:
    return (
        one.face is other.face
        and one.size == other.size
        and one.colour == other.colour
        and one.spacing == other.spacing
    )
