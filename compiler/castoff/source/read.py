"""A file's bytes to a node tree.

In: the bytes of one YAML file and the name to report it by. Out: its `Mapping`, every value with its place, and what
is wrong with it. The parser's events are put together here and not by the YAML library, so that duplicate keys,
aliases, depth and splits are seen where they stand. Standard: YAML 1.1 as PyYAML reads it, without tags, merge keys
and keys that are not scalars.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Protocol

import yaml

from castoff.diagnostic import Checked, Diagnostic, Related, Rule
from castoff.source import faults
from castoff.source.align import anchors
from castoff.source.node import Entry, Mapping, Node, Scalar, Sequence
from castoff.span import SourceFile, Span, Text

MAX_CHARACTERS = 4_000_000
MAX_DEPTH = 40
MAX_NODES = 50_000
"""What a tree may come to with all aliases followed; the largest garment known has some 2,000."""

_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
_COMMENT_CUT = re.compile(r"[ \t]+#(?=\d)[^\n\r]*")


class _CMark(Protocol):
    """A place as the C parser gives it."""

    index: int


_FASTEST: type[yaml.SafeLoader] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_source(name: str, data: bytes, loader: type[yaml.SafeLoader] = _FASTEST) -> Checked[Mapping | None]:
    """The node tree of a file; None when there is no way to read it.

    name: what reports call the file. data: its bytes, UTF-8 with or without a byte order mark.
    loader: the YAML parser; both of PyYAML's give the same tree.
    """
    source, finding = decode(name, data)
    if finding is not None:
        return Checked(None, (finding,))
    if not source.text.strip():
        return Checked(None, (Diagnostic.of(faults.EMPTY, "the file is empty", Span(source, 0, 0)),))
    if "\t" in source.text:
        # the two parsers are not of one mind on tabs
        loader = yaml.SafeLoader
    builder = _Builder(source)
    try:
        builder.take(yaml.parse(source.text, Loader=loader))
    except yaml.YAMLError as error:
        if loader is not yaml.SafeLoader:
            # always in the words of the pure parser, so that they never differ
            return read_source(name, data, yaml.SafeLoader)
        complaint = faults.in_words(source, error)
        place = complaint.span
        before = [found for found in builder.findings if not (found.span and place and _meet(found.span, place))]
        return Checked(None, (*before, complaint))
    except _TooDeep as error:
        message = f"values are nested more than {MAX_DEPTH} levels deep"
        return Checked(None, (Diagnostic.of(faults.TOO_LARGE, message, error.span),))
    root = builder.root
    findings = builder.findings
    if root is None or (isinstance(root, Scalar) and root.blank):
        findings.append(Diagnostic.of(faults.EMPTY, "the file holds nothing but comments", Span(source, 0, 0)))
        return Checked(None, tuple(findings))
    if not isinstance(root, Mapping):
        what = "a list" if isinstance(root, Sequence) else "a text"
        findings.append(
            Diagnostic.of(
                faults.NOT_A_PATTERN,
                f"the file is {what}, not keys with values",
                Span(source, root.span.start, min(root.span.end, root.span.start + 60)),
                hint="begin with `written_for: 1`, then `title:`, `sizes:` …",
            )
        )
        return Checked(None, tuple(findings))
    findings.sort(key=lambda finding: finding.order)
    broken = any(finding.rule in (faults.ALIAS, faults.SEVERAL_DOCUMENTS) for finding in findings)
    return Checked(None if broken else root, tuple(findings))


def decode(name: str, data: bytes) -> tuple[SourceFile, Diagnostic | None]:
    """The text of a file, and a finding when its bytes are no text that can be used."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        source = SourceFile(name, "")
        return source, Diagnostic.of(
            faults.NOT_TEXT, "the file is UTF-16, not UTF-8", Span(source, 0, 0), hint="save it as UTF-8"
        )
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        source = SourceFile(name, data.decode("utf-8", errors="replace"))
        at = len(data[: error.start].decode("utf-8"))
        binary = b"\x00" in data
        message = "the file is no text" if binary else f"byte {data[error.start]:#04x} is no UTF-8"
        hint = None if binary else "save the file as UTF-8"
        return source, Diagnostic.of(faults.NOT_TEXT, message, Span(source, at, at + 1), hint=hint)
    source = SourceFile(name, text.removeprefix("\ufeff"))
    if len(source.text) > MAX_CHARACTERS:
        message = f"the file has {len(source.text):,} characters; a pattern has at most {MAX_CHARACTERS:,}"
        return source, Diagnostic.of(faults.TOO_LARGE, message, Span(source, 0, 0))
    control = _CONTROL.search(source.text)
    if control is not None:
        code = f"U+{ord(control.group()):04X}"
        return source, Diagnostic.of(
            faults.NOT_TEXT, f"a control character ({code}) stands in the file", Span(source, *control.span())
        )
    return source, None


def _meet(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def _index(mark: yaml.Mark | _CMark | None) -> int:
    if mark is None:
        raise AssertionError("the YAML parser leaves no event without a place")
    return mark.index


class _TooDeep(Exception):
    def __init__(self, span: Span) -> None:
        self.span = span


@dataclass(slots=True)
class _Open:
    """A sequence or mapping whose end has not been read yet."""

    start: int
    anchor: str | None
    mapping: bool
    flow: bool
    items: list[Node] = field(default_factory=list)
    """Keys and values in turn for a mapping."""


@dataclass(slots=True)
class _Builder:
    """Puts a parser's events together."""

    source: SourceFile
    findings: list[Diagnostic] = field(default_factory=list)
    root: Node | None = None
    stack: list[_Open] = field(default_factory=list)
    named: dict[str, Node] = field(default_factory=dict)
    sizes: dict[int, int] = field(default_factory=dict)
    """Nodes that each named node and each node holding aliases comes to, by identity."""
    documents: int = 0

    def take(self, events: Iterable[yaml.Event]) -> None:
        """Read every event of a file."""
        for event in events:
            if isinstance(event, yaml.ScalarEvent):
                self._tagless(event)
                self._add(self._scalar(event), event.anchor)
            elif isinstance(event, (yaml.MappingStartEvent, yaml.SequenceStartEvent)):
                self._tagless(event)
                start = _index(event.start_mark)
                if len(self.stack) >= MAX_DEPTH:
                    raise _TooDeep(Span(self.source, start, start + 1))
                mapping = isinstance(event, yaml.MappingStartEvent)
                self.stack.append(_Open(start, event.anchor, mapping, bool(event.flow_style)))
            elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
                self._close(_index(event.end_mark))
            elif isinstance(event, yaml.AliasEvent):
                self._alias(event)
            elif isinstance(event, yaml.DocumentStartEvent):
                self.documents += 1
                if self.documents == 2:
                    at = _index(event.start_mark)
                    self._find(
                        faults.SEVERAL_DOCUMENTS, "a second document starts here", Span(self.source, at, at + 3),
                        hint="give each pattern a file of its own",
                    )  # fmt: skip

    def _find(
        self, rule: Rule, message: str, span: Span, hint: str | None = None, related: Iterable[Related] = ()
    ) -> None:
        self.findings.append(Diagnostic.of(rule, message, span, hint=hint, related=related))

    def _tagless(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
        tag: str | None = event.tag
        if tag is not None:
            at = _index(event.start_mark)
            shown = tag.replace("tag:yaml.org,2002:", "!!")
            end = self.source.text.find(" ", at)
            self._find(
                faults.YAML_FEATURE, f"a tag, `{shown}`, stands before a value", Span(self.source, at, max(at, end)),
                hint="leave the tag out: every value is read as text",
            )  # fmt: skip

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        start, end = _index(event.start_mark), _index(event.end_mark)
        style: str = event.style if event.style in ("'", '"', "|", ">") else ""
        if event.anchor is not None or event.tag is not None:
            start = self._past_properties(start, end, style, event.value)
        text = Text(event.value, self.source, anchors(self.source.text, start, end, style, event.value))
        if not style and event.value:
            cut = _COMMENT_CUT.match(self.source.text, end)
            if cut is not None:
                whole = self.source.text[start : cut.end()].rstrip()
                self._find(
                    faults.CUT_BY_COMMENT, f"`{cut.group().strip()}` is taken for a comment and lost",
                    Span(self.source, *cut.span()), hint=f'put the value in quotes: "{whole}"',
                )  # fmt: skip
        return Scalar(text, Span(self.source, start, end), style)

    def _past_properties(self, start: int, end: int, style: str, value: str) -> int:
        """Where a scalar starts behind its anchor and tag."""
        mark = style or value[:1]
        at = start
        while at < end and self.source.text[at] in "&!":
            while at < end and not self.source.text[at].isspace():
                at += 1
            while at < end and self.source.text[at].isspace():
                at += 1
        return at if not mark or self.source.text.startswith(mark, at) else start

    def _alias(self, event: yaml.AliasEvent) -> None:
        name = event.anchor or ""
        span = Span(self.source, _index(event.start_mark), _index(event.end_mark))
        node = self.named.get(name)
        if node is None:
            inside = any(part.anchor == name for part in self.stack)
            message = f"`{name}` would hold itself" if inside else f"no anchor `&{name}` stands before this"
            hint = None if inside else "put the value in quotes if no reference was meant"
            self._find(faults.ALIAS, message, span, hint=hint)
            node = Scalar(Text("", self.source, ((0, span.start),)), span)
        self._add(node, None)

    def _add(self, node: Node, anchor: str | None) -> None:
        if anchor is not None:
            self.named[anchor] = node
        if self.stack:
            self.stack[-1].items.append(node)
        elif self.root is None:
            self.root = node

    def _close(self, end: int) -> None:
        part = self.stack.pop()
        span = Span(self.source, part.start, end)
        total = 1 + sum(self.sizes.get(id(item), 1) for item in part.items)
        if total > MAX_NODES:
            if not any(found.rule is faults.ALIAS for found in self.findings):
                line = Span(self.source, part.start, min(end, part.start + 1))
                message = f"with its references followed this comes to {total:,} values; the limit is {MAX_NODES:,}"
                self._find(faults.ALIAS, message, line)
            total = 1
        if part.flow:
            self._mend(part)
        node = self._mapping(part, span) if part.mapping else Sequence(tuple(part.items), span)
        self.sizes[id(node)] = total
        self._add(node, part.anchor)

    def _mapping(self, part: _Open, span: Span) -> Mapping:
        entries: list[Entry] = []
        first: dict[str, Text] = {}
        pairs = list(zip(part.items[::2], part.items[1::2], strict=True))
        for key, value in pairs:
            if not isinstance(key, Scalar):
                self._find(
                    faults.YAML_FEATURE, "a list or mapping stands where a key should be", key.span,
                    hint="put it in quotes if it is a text",
                )  # fmt: skip
                continue
            name = key.text.value
            if name == "<<" and not key.style:
                self._find(
                    faults.YAML_FEATURE, "merge keys (`<<`) are not read", key.span,
                    hint="repeat the entries, or refer to each value by `*name`",
                )  # fmt: skip
                continue
            if name in first:
                before = first[name].span()
                self._find(
                    faults.DUPLICATE_KEY, f"`{name}` stands twice", key.span,
                    hint=f"it stood first in line {before.line}",
                    related=(Related(before, f"`{name}` stood here first"),),
                )  # fmt: skip
                continue
            first[name] = key.text
            if part.flow and isinstance(value, Scalar) and not value.style and not value.text.value:
                braces = self.source.text[span.start : span.end]
                self._find(
                    faults.SPLIT_ENTRY, f"`{name}` has no value", key.span,
                    hint=f'put it in quotes if it is a text: "{braces}"' if len(pairs) == 1
                    else "write one entry a line, or put the value in quotes",
                )  # fmt: skip
            entries.append(Entry(key.text, value))
        return Mapping(tuple(entries), span)

    def _mend(self, part: _Open) -> None:
        """Puts values together again that commas have cut in two: an opening bracket closed in another scalar."""
        at = 0
        opened: int | None = None
        while at < len(part.items):
            item = part.items[at]
            if isinstance(item, Scalar) and not item.style:
                value = item.text.value
                if opened is None and _unclosed(value, "(", ")") and (at % 2 == 1 or not part.mapping):
                    opened = at
                elif opened is not None and _unclosed(value, ")", "("):
                    rest = self._rest(part, at)
                    where = part.items[opened].span.to(part.items[rest].span if rest > at else item.span)
                    whole = self.source.text[where.start : where.end].rstrip()
                    where = Span(self.source, where.start, where.start + len(whole))
                    hint = f'write one entry a line, or put the value in quotes: "{whole}"'
                    self._find(faults.SPLIT_ENTRY, f"the commas in `{whole}` have split it", where, hint=hint)
                    mended = Scalar(Text(whole, self.source, ((0, where.start),)), where)
                    last = rest + 1 if part.mapping and rest % 2 == 0 else rest
                    part.items[opened : last + 1] = [mended]
                    at, opened = opened, None
            at += 1

    def _rest(self, part: _Open, at: int) -> int:
        """The last scalar of a run that was cut: a bracket that opens in the closing part goes on to its own end."""
        item = part.items[at]
        if not isinstance(item, Scalar) or item.text.value.rfind("(") <= item.text.value.rfind(")"):
            return at
        for later in range(at + 1, len(part.items)):
            scalar = part.items[later]
            if isinstance(scalar, Scalar) and not scalar.style and _unclosed(scalar.text.value, ")", "("):
                return self._rest(part, later)
        return at


def _unclosed(value: str, opener: str, closer: str) -> bool:
    return value.count(opener) > value.count(closer)
