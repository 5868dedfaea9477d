"""Where in the file each character of a YAML scalar was typed.

In: the file's text, the stretch a scalar takes up, its style and its value. Out: the anchors of a `Text`.
A literal block loses its indent, a folded or plain scalar its line ends, a quoted one its escapes; in each case
value and file run in step from one anchor to the next.
"""

from __future__ import annotations

import re

Anchors = tuple[tuple[int, int], ...]

_BLANK = " \t\r\n\x85\u2028\u2029"
_BREAK = "\r\n\x85\u2028\u2029"
_HEADER = re.compile(r"[|>](?P<marks>[-+0-9]*)[^\n]*\n?")
_ESCAPE_LENGTH = {"x": 4, "u": 6, "U": 10}


def anchors(source: str, start: int, end: int, style: str, value: str) -> Anchors:
    """Pairs (index into value, offset in the file), ascending, the first for index 0.

    source: text of the whole file. start, end: what the scalar takes up, its quotes or block header included.
    style: "", "'", '"', "|" or ">".
    """
    if style == "|":
        found = _literal(source, start, end, value)
        if found is not None:
            return found
    if style in ("|", ">"):
        header = _HEADER.match(source, start, end)
        return _walk(source, header.end() if header else start, end, value, "")
    if style in ("'", '"'):
        return _walk(source, start + 1, end - 1, value, style)
    if source.startswith(value, start):
        return ((0, start),)
    return _walk(source, start, end, value, "")


def _literal(source: str, start: int, end: int, value: str) -> Anchors | None:
    """Line by line: the lines of a literal block are the file's lines without their indent."""
    header = _HEADER.match(source, start, end)
    if header is None:
        return None
    lines = value.split("\n")
    offsets: list[tuple[int, str]] = []
    at = header.end()
    for _ in lines:
        line_end = source.find("\n", at)
        if line_end == -1:
            line_end = len(source)
        offsets.append((at, source[at:line_end].removesuffix("\r")))
        at = min(line_end + 1, len(source))
    indent = next(
        (len(raw) - len(line) for line, (_, raw) in zip(lines, offsets, strict=True) if line.strip(" ")), None
    )
    if indent is None or indent < 0:
        return None
    result: list[tuple[int, int]] = []
    index = 0
    for line, (offset, raw) in zip(lines, offsets, strict=True):
        if line and raw[indent:] != line:
            return None
        result.append((index, min(offset + min(indent, len(raw)), len(source))))
        index += len(line) + 1
    return tuple(result)


def _walk(source: str, start: int, end: int, value: str, quote: str) -> Anchors:
    """Value and file side by side; white space of the one stands for white space of the other."""
    result: list[tuple[int, int]] = [(0, start)]
    at = start
    index = 0

    def note(offset: int) -> None:
        value_index, file_offset = result[-1]
        if offset - file_offset != index - value_index:
            if value_index == index:
                result[-1] = (index, offset)
            else:
                result.append((index, offset))

    while index < len(value):
        char = value[index]
        if quote == '"' and at < end and source[at] == "\\":
            if source[at + 1 : at + 2] in tuple(_BREAK):  # an escaped line end leaves nothing behind
                at += 2
                while at < end and source[at] in _BLANK:
                    at += 1
                continue
            note(at)
            at += _ESCAPE_LENGTH.get(source[at + 1 : at + 2], 2)
            index += 1
            continue
        if at < end and char == source[at] and not (char in _BLANK and _folded(source, at, end)):
            note(at)
            at += 2 if quote == "'" and char == "'" else 1
            index += 1
            continue
        if char in _BLANK and at < end and source[at] in _BLANK:
            # a fold: white space round a line end stands for one space, or for the empty lines within it
            run = at
            while run < end and source[run] in _BLANK:
                run += 1
            note(at)
            while index < len(value) and value[index] in _BLANK and not _is_indent(value, index, source, run):
                index += 1
            at = run
            continue
        if at < end and source[at] in _BLANK:
            at += 1
            continue
        note(min(at, end))
        index += 1
    return tuple(result)


def _folded(source: str, at: int, end: int) -> bool:
    """Whether the white space at a position runs over a line end."""
    while at < end and source[at] in " \t":
        at += 1
    return at < end and source[at] in _BREAK


def _is_indent(value: str, index: int, source: str, run: int) -> bool:
    """Whether the value goes on with the very character that follows the fold."""
    return run < len(source) and value[index] == source[run]
