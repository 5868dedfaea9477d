"""Markdown to blocks: notes, care, help, and the `>` lines of the instructions.

In: a `Text` of the source (or a text of the house) as CommonMark, with `{formulas}`. Out: blocks with their numbers set
for the edition. Markdown gives paragraphs, lists, emphasis, links, headings and line breaks. HTML is refused, since it
would mean nothing on paper; pictures are refused, since a picture needs alternative text and a credit (`pictures:`).

A formula that cannot be worked out is reported by grading's own rules and leaves nothing behind.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from markdown_it import MarkdownIt
from markdown_it.token import Token

from castoff.diagnostic import Diagnostic, Rule
from castoff.document.figures import FORMULA_LIMIT, FORMULA_START, merged, set_figures
from castoff.document.setting import Setting
from castoff.document.tree import (
    Block,
    Blocks,
    BulletList,
    Emphasis,
    Heading,
    Inline,
    Inlines,
    LineBreak,
    Link,
    NumberedList,
    Paragraph,
    Role,
    Strong,
    Text,
)
from castoff.document.tree import Rule as DividingLine
from castoff.document.wording import typeset
from castoff.span import Span
from castoff.span import Text as SourceText

HTML_IN_PROSE = Rule(
    "html-in-prose",
    "error",
    """HTML stands in a text for the knitter.

    Notes and other prose are Markdown. HTML tags mean nothing on paper and would be printed as they stand, or lost.

    Fires:   notes: "Use <b>soft</b> yarn."
    Silent:  notes: "Use **soft** yarn."
    """,
)
PICTURE_IN_PROSE = Rule(
    "picture-in-prose",
    "error",
    """A picture is called for inside a text.

    A picture needs alternative text and a credit, and a place. It belongs under `pictures:`, which asks for them.

    Fires:   notes: "![The cap](cap.jpg)"
    Silent:  pictures: [{file: cap.jpg, alt: The cap on a table, credit: Ines Farrow}]
    """,
)
RULES = (HTML_IN_PROSE, PICTURE_IN_PROSE)

_FORMULA = re.compile(r"\{([^{}\n]*)\}")
_SAFE_LINK = re.compile(r"(https?://|mailto:|#)", re.IGNORECASE)
_MARKDOWN_HINT = "use Markdown: **strong**, *light*"
_ADDRESS = re.compile(r"https?://[^\s<>()]*[^\s<>().,;:!?]|[\w.+-]+@[\w-]+(?:\.[\w-]+)*\.[a-z]{2,}")


def reader() -> MarkdownIt:
    """A CommonMark reader with typographer's quotes."""
    return MarkdownIt("commonmark", {"typographer": True}).enable("smartquotes")


@dataclass(slots=True)
class Prose:
    """Turns Markdown into blocks for one edition.

    work_out: sets the value of a formula; () when it has none (then somebody else has reported why).
    found: what was wrong, gathered.
    """

    setting: Setting
    work_out: Callable[[SourceText], Inlines]
    found: list[Diagnostic] = field(default_factory=list)
    words: Callable[[str], str] = str
    _markdown: MarkdownIt = field(default_factory=reader, repr=False)

    def blocks(self, text: SourceText, *, role: Role = "body", level: int = 3) -> Blocks:
        """The blocks of a text. role: of its paragraphs. level: of its first-rank headings."""
        formulas: dict[str, Inlines] = {}

        def carry(match: re.Match[str]) -> str:
            char = chr(FORMULA_START + len(formulas) % FORMULA_LIMIT)
            formulas[char] = self.work_out(text.part(match.start(1), match.end(1)))
            return char

        plain = _FORMULA.sub(carry, text.value)
        tokens = self._markdown.parse(typeset(plain))
        return _Reading(self, text, formulas, tokens, role, level).blocks()

    def inline(self, text: SourceText) -> Inlines:
        """A text that is one paragraph, as inline text; several paragraphs are parted by line breaks."""
        parts: list[Inline] = []
        for block in self.blocks(text):
            if parts:
                parts.append(LineBreak())
            parts.extend(_inline_of(block))
        return merged(parts)

    def say(self, words: str, *, role: Role = "body", level: int = 3) -> Blocks:
        """Markdown of the house, which has no place in the pattern."""
        return self.blocks(SourceText.plain(words, "templates/texts"), role=role, level=level)


@dataclass(slots=True)
class _Reading:
    """One text on its way to blocks."""

    prose: Prose
    text: SourceText
    formulas: dict[str, Inlines]
    tokens: list[Token]
    role: Role
    level: int
    at: int = 0

    def blocks(self) -> Blocks:
        found: list[Block] = []
        while self.at < len(self.tokens) and not self.tokens[self.at].type.endswith("_close"):
            found.extend(self._block())
        return tuple(found)

    def _block(self) -> Iterator[Block]:
        token = self.tokens[self.at]
        self.at += 1
        match token.type:
            case "paragraph_open":
                yield Paragraph(self._leaf(), self.role)
            case "heading_open":
                yield Heading(min(6, self.level + int(token.tag[1:]) - 1), self._leaf())
            case "bullet_list_open":
                yield BulletList(tuple(self._items()))
            case "ordered_list_open":
                yield NumberedList(tuple(self._items()), int(token.attrs.get("start", 1)))
            case "blockquote_open":
                outer, self.role = self.role, "note"
                yield from self.blocks()
                self.role = outer
                self.at += 1
            case "hr":
                yield DividingLine()
            case "fence" | "code_block":
                yield Paragraph(self._lines(token.content.rstrip("\n")), self.role)
            case "html_block":
                self._report(HTML_IN_PROSE, token, "HTML in a text for the knitter", _MARKDOWN_HINT)
            case "inline":
                yield Paragraph(self._inline(token), self.role)

    def _items(self) -> Iterator[Blocks]:
        while self.tokens[self.at].type == "list_item_open":
            self.at += 1
            yield self.blocks()
            self.at += 1
        self.at += 1

    def _leaf(self) -> Inlines:
        inline = self._inline(self.tokens[self.at])
        self.at += 2
        return inline

    def _lines(self, content: str) -> Inlines:
        parts: list[Inline] = []
        for line in content.split("\n"):
            if parts:
                parts.append(LineBreak())
            parts.extend(self._figures(line))
        return merged(parts)

    def _figures(self, words: str) -> Inlines:
        """Plain text with its addresses as links and its numbers set."""
        found: list[Inline] = []
        at = 0
        for match in _ADDRESS.finditer(words):
            found.extend(set_figures(self.prose.words(words[at : match.start()]), self.prose.setting, self.formulas))
            address = match.group()
            target = f"mailto:{address}" if "://" not in address else address
            found.append(Link((Text(address),), target))
            at = match.end()
        found.extend(set_figures(self.prose.words(words[at:]), self.prose.setting, self.formulas))
        return merged(found)

    def _inline(self, token: Token) -> Inlines:
        stack: list[tuple[str, str, list[Inline]]] = [("", "", [])]
        waiting = ""

        def flush() -> None:
            nonlocal waiting
            if waiting:
                stack[-1][2].extend(self._figures(waiting))
                waiting = ""

        for child in token.children or ():
            # numbers may straddle what Markdown takes for separate texts, so plain text is gathered first
            if child.type == "text":
                waiting += child.content
            elif child.type == "softbreak":
                waiting += " "
            elif child.type == "code_inline":
                waiting += child.content
            elif child.type == "html_inline":
                flush()
                self._report(HTML_IN_PROSE, token, f"`{child.content}` is HTML", _MARKDOWN_HINT)
            elif child.type == "image":
                flush()
                self._report(
                    PICTURE_IN_PROSE,
                    token,
                    f"picture `{child.attrs.get('src', '')}` inside a text",
                    "give it under `pictures:` with `alt` and `credit`",
                )
            elif child.type == "hardbreak":
                flush()
                stack[-1][2].append(LineBreak())
            elif child.type.endswith("_open"):
                flush()
                stack.append((child.type, str(child.attrs.get("href", "")), []))
            elif child.type.endswith("_close"):
                flush()
                kind, target, inner = stack.pop()
                stack[-1][2].extend(_wrapped(kind, target, merged(inner)))
        flush()
        return merged(stack[0][2])

    def _report(self, rule: Rule, token: Token, message: str, hint: str) -> None:
        self.prose.found.append(Diagnostic.of(rule, message, self._span(token), hint=hint))

    def _span(self, token: Token) -> Span:
        """The lines of a block in the source."""
        first, last = token.map or (0, 1)
        starts = [0]
        for index, char in enumerate(self.text.value):
            if char == "\n":
                starts.append(index + 1)
        # formulas shorten a line but never take a line away, so lines still agree
        start = starts[min(first, len(starts) - 1)]
        end = starts[last] - 1 if last < len(starts) else len(self.text.value)
        return self.text.span(start, max(start, end))


def _wrapped(kind: str, target: str, inner: Inlines) -> Inlines:
    match kind:
        case "strong_open":
            return (Strong(inner),)
        case "em_open":
            return (Emphasis(inner),)
        case "link_open" if _SAFE_LINK.match(target):
            return (Link(inner, target),)
    return inner


def _inline_of(block: Block) -> Inlines:
    match block:
        case Paragraph() | Heading():
            return block.inline
        case BulletList() | NumberedList():
            parts: list[Inline] = []
            for item in block.items:
                for inner in item:
                    if parts:
                        parts.append(Text("; "))
                    parts.extend(_inline_of(inner))
            return tuple(parts)
    return ()
