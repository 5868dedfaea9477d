"""What can be wrong with a file before anybody asks what it says, and how a YAML parser's complaint is put in words.

In: a `SourceFile` and the parser's exception. Out: rules and diagnostics.
"""

from __future__ import annotations

import re

import yaml

from castoff.diagnostic import Diagnostic, Rule
from castoff.span import SourceFile, Span

NOT_TEXT = Rule(
    "source-not-text",
    "error",
    """A source is not a text file in UTF-8.

A pattern source is plain text. A word processor's file, a picture, or text saved in an older encoding
cannot be read without guessing, and a guess could change a number.

Fires:
    a file saved as UTF-16, or a PDF renamed to .yaml
Silent:
    title: Saltgrass Cap
""",
)
EMPTY = Rule(
    "source-empty",
    "error",
    """A source holds nothing.

Either the file was saved before it was written, or every line of it is a comment.

Fires:
    # nothing but a comment
Silent:
    title: Saltgrass Cap
""",
)
NOT_YAML = Rule(
    "source-not-yaml",
    "error",
    """A source cannot be read as YAML.

Everything behind the place could mean something else than it seems to, so nothing of the file is used.

Fires:
    sizes: {names: S (M, L)
Silent:
    sizes:
      names: S (M, L)
""",
)
TAB = Rule(
    "tab-in-indent",
    "error",
    """A line is indented with a tab.

How deep a tab indents differs from editor to editor, so YAML forbids it there. Use spaces, two for each step.

Fires:
    sizes:
    \tnames: S (M, L)
Silent:
    sizes:
      names: S (M, L)
""",
)
NEEDS_QUOTES = Rule(
    "needs-quotes",
    "error",
    """A value begins with a sign, or holds one, that YAML keeps for itself.

A leading `*`, `&`, `{`, `[`, `%`, `@`, `!`, `|`, `>` or backtick, and a colon with a space behind it, mean something
to YAML. Put such a value in quotes, or write it as a block: a `|` behind the key and the text indented below.

Fires:
    row: *K2, p2; rep from * to end
Silent:
    row: "*K2, p2; rep from * to end"
""",
)
DUPLICATE_KEY = Rule(
    "duplicate-key",
    "error",
    """The same key stands twice in one place.

Most readers of YAML take the last and say nothing, so that a number that was meant to be used is not.

Fires:
    title: Saltgrass Cap
    title: Saltgrass Hat
Silent:
    title: Saltgrass Cap
    summary: Saltgrass Hat in an earlier life.
""",
)
SPLIT_ENTRY = Rule(
    "split-entry",
    "error",
    """A comma has cut an entry in two.

Between braces or brackets YAML takes every comma for the end of an entry, also those of a size list. Write one
entry a line, or put the value in quotes.

Fires:
    body: {head: 50 (53, 56) cm}
Silent:
    body:
      head: 50 (53, 56) cm
""",
)
CUT_BY_COMMENT = Rule(
    "cut-by-comment",
    "error",
    """A `#` with a space before it has cut off the rest of a value.

YAML takes it for the start of a comment: `US #8` is read as `US`. Put the value in quotes.

Fires:
    size: US #8
Silent:
    size: "US #8"
""",
)
ALIAS = Rule(
    "alias-not-usable",
    "error",
    """A reference to an anchor cannot be followed.

`&name` names a value and `*name` uses it again. The name must stand before its first use, a value cannot hold
itself, and what the references come to must stay within a size that a pattern could have.

Fires:
    notions: *thread
Silent:
    notions: &thread [tapestry needle]
""",
)
NOT_A_PATTERN = Rule(
    "source-not-a-mapping",
    "error",
    """A source is no list of keys with values.

A pattern source begins with keys such as `title:` and `sizes:`, one a line.

Fires:
    - Saltgrass Cap
Silent:
    title: Saltgrass Cap
""",
)
SEVERAL_DOCUMENTS = Rule(
    "several-documents",
    "error",
    """A file holds more than one YAML document.

`---` starts another document. One file is one pattern: the second would be passed over in silence.

Fires:
    title: Saltgrass Cap
    ---
    title: Tern Mitts
Silent:
    title: Saltgrass Cap
""",
)
YAML_FEATURE = Rule(
    "yaml-feature-not-used",
    "error",
    """A source uses a part of YAML that pattern sources do without.

Tags (`!!int`), merge keys (`<<`), and keys that are lists or mappings would change what a line means from afar.
Every value is read as text and given its type by its key, so none of them is needed.

Fires:
    written_for: !!int "1"
Silent:
    written_for: 1
""",
)
TOO_LARGE = Rule(
    "source-too-large",
    "error",
    """A source is larger, or nested deeper, than a pattern can be.

The limits (4 million characters, 40 levels) are far beyond any pattern; what passes them is another kind of file.

Fires:
    [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]
Silent:
    title: Saltgrass Cap
""",
)

RULES = (
    NOT_TEXT, EMPTY, NOT_YAML, TAB, NEEDS_QUOTES, DUPLICATE_KEY, SPLIT_ENTRY, CUT_BY_COMMENT, ALIAS, NOT_A_PATTERN,
    SEVERAL_DOCUMENTS, YAML_FEATURE, TOO_LARGE,
)  # fmt: skip

_KEY = re.compile(r"^[ ]*(?:- +)*(?P<key>[^\s#:'\"\[{][^:#]*?):[ ]+(?P<value>\S.*?)[ ]*$")
_SIGNS = "*&{[%@!|>`\"'"
QUOTE_HINT = "put the value in quotes, or on lines of its own below `{key}: |`"


def in_words(source: SourceFile, error: yaml.YAMLError) -> Diagnostic:
    """A YAML parser's complaint as a finding, with the hint that fits the line it stands on."""
    if not isinstance(error, yaml.MarkedYAMLError) or error.problem_mark is None:
        return Diagnostic.of(NOT_YAML, "this is not YAML", Span(source, 0, 0))
    offset = min(error.problem_mark.index, len(source.text))
    line_number, column = source.place(offset)
    line = source.line(line_number)
    indent = line[: len(line) - len(line.lstrip(" \t"))]
    if "\t" in indent:
        at = source.line_starts[line_number - 1] + indent.index("\t")
        return Diagnostic.of(
            TAB, "a tab indents this line", Span(source, at, at + 1), hint="use two spaces for each step"
        )
    slip = _sign(source, line_number, error)
    if slip is not None:
        return slip
    problem = _plain_words(str(error.problem or "it cannot be read"))
    if error.context and error.context_mark is not None and error.context_mark.line + 1 != line_number:
        problem += f" ({_plain_words(error.context)}, begun in line {error.context_mark.line + 1})"
    start = min(offset, max(0, len(source.text) - 1))
    end = source.line_starts[line_number - 1] + max(column, len(line))
    return Diagnostic.of(NOT_YAML, problem, Span(source, start, max(start, min(end, len(source.text)))))


def _sign(source: SourceFile, line_number: int, error: yaml.MarkedYAMLError) -> Diagnostic | None:
    """The finding for a value that a sign of YAML's stands in the way of, on this line or the one before."""
    for number in (line_number, line_number - 1):
        line = source.line(number)
        match = _KEY.match(line)
        if match is None:
            continue
        value = match["value"]
        start = source.line_starts[number - 1] + match.start("value")
        span = Span(source, start, start + len(value))
        hint = QUOTE_HINT.format(key=match["key"].strip())
        if value[0] in _SIGNS and not (value[0] in "|>" and len(value.split()[0]) <= 2 and number != line_number):
            if value[0] in "{[" and "expected ',' or" in str(error.problem):
                return None
            return Diagnostic.of(
                NEEDS_QUOTES, f"a value cannot begin with `{value[0]}` and go on like this", span, hint=hint
            )
        if number == line_number and ": " in value and "mapping values" in str(error.problem):
            at = start + value.index(": ")
            return Diagnostic.of(
                NEEDS_QUOTES, "a colon with a space stands inside a value", Span(source, at, at + 2), hint=hint
            )
    return None


def _plain_words(problem: str) -> str:
    """The parser's problem without its own terms."""
    for token, words in (
        ("while parsing a ", ""), ("while scanning a ", ""), ("while scanning an ", ""), ("while scanning ", ""),
        ("<block end>", "the end of the block"), ("<stream end>", "the end of the file"),
        ("<document start>", "the start"), ("<block mapping start>", "an entry"), ("<scalar>", "a value"),
        ("<block sequence start>", "a list"), ("quoted scalar", "quoted value"),
        ("block mapping", "the keys"), ("flow mapping", "the braces"),
        ("flow sequence", "the brackets"), ("block collection", "the list"), ("simple key", "the key"),
        ("could not find expected ':'", "a `:` is missing behind this key"),
        ("mapping values are not allowed here", "a `:` stands where none can be"),
        ("while parsing", "in"), ("stream end", "the end of the file"),
    ):  # fmt: skip
        problem = problem.replace(token, words)
    return problem.replace("'", "`").strip()
