"""Findings for people: the source line, a marker under the span, the sizes, the numbers and the way out.

In: findings. Out: text, with ANSI colours when asked for; for a terminal its words are wrapped, in a file a message stays
on one line, where it can be searched for. Nothing depends on colour alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from textwrap import wrap

from castoff.diagnostic import Diagnostic
from castoff.span import Span

_COLOURS = {"error": "31", "warning": "33", "note": "36", "hint": "32", "place": "34"}
_WIDTH = 72
"""Columns of a source line that are shown: with its number no more than a terminal's eighty, or the marker would stand
under another word. A longer line is cut around its marker."""


def write_findings(findings: Sequence[Diagnostic], *, colour: bool = False, columns: int | None = None) -> str:
    """The findings in the order of their places, a blank line behind each.

    columns: of the terminal that they are wrapped for; None leaves every message on one line.
    """
    return "".join(write_finding(finding, colour=colour, columns=columns) + "\n\n" for finding in in_order(findings))


def in_order(findings: Iterable[Diagnostic]) -> list[Diagnostic]:
    """By file, place and rule; equal ones once."""
    return sorted(dict.fromkeys(findings), key=lambda finding: finding.order)


def write_finding(finding: Diagnostic, *, colour: bool = False, columns: int | None = None) -> str:
    """One finding: headline, source line with marker, sizes, hint, related places."""
    head = f"{finding.severity}[{finding.rule.name}]"
    lines = _wrapped(f"{head}: {finding.message}", "  ", columns)
    lines[0] = lines[0].replace(head, _paint(head, finding.severity, colour), 1)
    if finding.span is not None:
        lines += _excerpt(finding.span, "^", finding.severity, colour)
    gutter = " " * (_gutter(finding) + 1)
    within = f"{gutter}  "
    if finding.sizes:
        word = "size" if len(finding.sizes) == 1 else "sizes"
        lines += _wrapped(f"{gutter}= {word}: {_joined(finding.sizes)}", within, columns)
    if finding.hint is not None:
        hint = _wrapped(f"{gutter}= hint: {finding.hint}", within, columns)
        lines += [hint[0].replace("hint", _paint("hint", "hint", colour), 1), *hint[1:]]
    for other in finding.related:
        lines += _wrapped(f"{gutter}= {other.message}:", within, columns)
        lines += _excerpt(other.span, "-", "place", colour)
    return "\n".join(lines)


def _wrapped(text: str, indent: str, columns: int | None) -> list[str]:
    """A text in lines of so many columns, the later ones indented; a hint of several lines keeps them."""
    if columns is None:
        return [text]
    lines: list[str] = []
    for line in text.split("\n"):
        own = line[: len(line) - len(line.lstrip())]
        lines += wrap(
            line,
            max(columns, 40),
            initial_indent="",
            subsequent_indent=indent if not lines else own + "  ",
            break_long_words=False,
            break_on_hyphens=False,
            drop_whitespace=True,
        ) or [""]
    return lines


def _gutter(finding: Diagnostic) -> int:
    return len(str(finding.span.line)) if finding.span is not None else 1


def _excerpt(span: Span, marker: str, tone: str, colour: bool) -> list[str]:
    number, column = span.source.place(span.start)
    text = span.source.line(number)
    end_line, end_column = span.end_place
    last = end_column if end_line == number else len(text) + 1
    length = max(1, last - column)
    start = 0
    if len(text) > _WIDTH:
        start = max(0, min(column - 21, len(text) - _WIDTH))
        text = ("…" if start else "") + text[start + bool(start) : start + _WIDTH]
        text += "…" if start + _WIDTH < len(span.source.line(number)) else ""
    shown = _printable(text)
    before = _printable(span.source.line(number)[start : column - 1])
    length = max(1, min(length, len(shown) - len(before)))
    label = str(number)
    bar = " " * len(label)
    where = _paint(f"{span.source.name}:{number}:{column}", "place", colour)
    return [
        f"{bar}--> {where}",
        f"{bar} |",
        f"{label} | {shown}",
        f"{bar} | {' ' * len(before)}{_paint(marker * length, tone, colour)}",
    ]


def _joined(sizes: Iterable[str]) -> str:
    """Names of sizes in a row, parted by semicolons where they hold commas themselves ("M, cup C")."""
    names = tuple(sizes)
    return ("; " if any("," in name for name in names) else ", ").join(names)


def _printable(text: str) -> str:
    """Tabs as one space, control characters as a dot, so that markers stand where they should."""
    return "".join(
        " " if each == "\t" else each if each.isprintable() or each in "\u00a0\u202f" else "·" for each in text
    )


def _paint(text: str, tone: str, colour: bool) -> str:
    return f"\x1b[1;{_COLOURS[tone]}m{text}\x1b[0m" if colour else text


def summary(findings: Iterable[Diagnostic], patterns: int) -> str:
    """The last line of a report: "2 errors and 1 warning in 3 patterns", "no findings in 1 pattern"."""
    severities = [finding.severity for finding in findings]
    parts = []
    for severity in ("error", "warning", "note"):
        number = severities.count(severity)
        if number:
            parts.append(f"{number} {severity}{'' if number == 1 else 's'}")
    word = "pattern" if patterns == 1 else "patterns"
    if not parts:
        return f"no findings in {patterns} {word}"
    listed = parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + " and " + parts[-1]
    return f"{listed} in {patterns} {word}"
