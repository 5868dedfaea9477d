"""A block of instruction text, line by line: the entry of this stage.

In: the text of a section's `work`, and the vocabulary. Out: one `Line` for each line, with findings. A line that
cannot be read becomes an `UnreadLine` with its finding, and the lines after it go on.

An indented line continues the one above; blank lines are skipped; `> ` begins prose for the reader alone; "Sizes S and
M only:" alone or in front of an instruction says for whom it is.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.diagnostic import Checked, Diagnostic
from castoff.notation.cursor import Cursor
from castoff.notation.lexemes import tokens_of
from castoff.notation.lexer import lex
from castoff.notation.sentences import read_sentences
from castoff.notation.sizes import read_sizes
from castoff.notation.syntax import InstructionLine, Line, OnTrust, ProseLine, SizesLine, UnreadLine
from castoff.notation.unread import explain
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Text


def parse_work(
    text: Text, vocabulary: Vocabulary, everyone: tuple[bool, ...] | None = None
) -> Checked[tuple[Line, ...]]:
    """Reads a whole block. Sizes named by a line of their own hold until "All sizes:" or the end of the block.

    everyone: the sizes that the block is for; all of them when not given.
    """
    lines: list[Line] = []
    findings: list[Diagnostic] = []
    if everyone is None:
        everyone = (True,) * len(vocabulary.sizes)
    sizes = everyone
    for line in _joined(text):
        checked = parse_line(line, vocabulary, sizes, everyone)
        findings.extend(checked.findings)
        if isinstance(checked.value, SizesLine):
            sizes = checked.value.sizes
        lines.append(checked.value)
    return Checked(tuple(lines), tuple(findings))


def parse_line(
    line: Text,
    vocabulary: Vocabulary,
    sizes: tuple[bool, ...] | None = None,
    everyone: tuple[bool, ...] | None = None,
) -> Checked[Line]:
    """Reads one line; `sizes` are those it is for when it does not say itself, `everyone` those of its block."""
    if sizes is None:
        sizes = (True,) * len(vocabulary.sizes)
    if line.value.startswith(">"):
        return Checked(ProseLine(sizes, line, span=line.span()))
    lexed = lex(line, vocabulary)
    c = Cursor(line, lexed.lexemes, vocabulary)
    own_sizes = read_sizes(c)
    if own_sizes is not None:
        if everyone is not None:
            own_sizes = tuple(own and all_ for own, all_ in zip(own_sizes, everyone, strict=True))
        if c.done:
            return Checked(SizesLine(own_sizes, line, span=line.span()), lexed.findings)
        sizes = own_sizes
    trust = _on_trust(c)
    steps = (trust,) if trust is not None else read_sentences(c)
    findings = [*lexed.findings, *c.findings]
    if not c.done or not steps:
        if not findings:
            findings.append(explain(c))
        return Checked(UnreadLine(sizes, line, span=line.span()), tuple(findings))
    if any(finding.severity == "error" for finding in findings):
        return Checked(UnreadLine(sizes, line, span=line.span()), tuple(findings))
    read = InstructionLine(sizes, steps, tokens_of(line, lexed), line, span=line.span())
    return Checked(read, tuple(findings))


def _joined(text: Text) -> Iterator[Text]:
    """The lines of a block, continuation lines joined to theirs, ends trimmed, blank lines left out."""
    value = text.value
    pieces: list[tuple[int, int]] = []
    at = 0
    while at <= len(value):
        end = value.find("\n", at)
        if end == -1:
            end = len(value)
        line = value[at:end]
        if line.strip():
            stop = at + len(line.rstrip())
            if line[:1] in (" ", "\t") and pieces:
                pieces[-1] = (pieces[-1][0], stop)
            else:
                pieces.append((at + len(line) - len(line.lstrip()), stop))
        at = end + 1
    for start, stop in pieces:
        yield text.part(start, stop)


def _on_trust(c: Cursor) -> OnTrust | None:
    """ "On trust: crochet a picot edging. 84 sts." """
    start = c.at
    if not c.take("on trust :"):
        return None
    words_start = c.at
    at = len(c.lexemes) - 2
    leaves = None
    stop = len(c.lexemes) - 1
    while at > words_start and not c.lexemes[at].text.strip(".…"):
        at -= 1
    if at - 1 > words_start and c.lexemes[at].key == "st" and c.lexemes[at - 1].kind == "number":
        before = c.lexemes[at - 2].key
        if before in (".", "-", ";", "(", "="):
            c.at = at - 1
            leaves = c.count()
            stop = at - 2
    elif c.lexemes[at].key == ")" and c.lexemes[at - 1].key == "st" and c.lexemes[at - 2].kind == "number":
        c.at = at - 2
        leaves = c.count()
        stop = at - 3
    words = c.raw(words_start, stop).rstrip(" .")
    c.at = len(c.lexemes) - 1
    c.reach()
    if not words:
        return c.back(start)
    return OnTrust(words, leaves, span=c.span(start))
