"""The mirrored sections of a pattern: written, read, and what is found in them told where the author can see it.

In: a pattern whose lines have been read. Out: the pattern with the work of its mirrored sections, their lines, and
`OtherSides`, which moves every finding in such a text to the `mirrors:` that asked for it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from castoff.diagnostic import Checked, Diagnostic, Related
from castoff.model.pattern import Pattern, Section
from castoff.notation.lines import parse_work
from castoff.notation.mirror import OtherSide, Standing, mirror_section
from castoff.notation.other_side_words import swapped
from castoff.notation.syntax import InstructionLine, Line, RowsAs, RowStep
from castoff.notation.turned import SidedBook, Sides, turned_row
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Span, Text


@dataclass(frozen=True, slots=True)
class OtherSides:
    """The pattern with its mirrored sections written. made: by the section's place: its text, and the section mirrored."""

    pattern: Pattern
    lines: tuple[tuple[Line, ...], ...]
    made: Mapping[int, tuple[OtherSide, int]]

    def at_home(self, findings: Iterable[Diagnostic]) -> Iterator[Diagnostic]:
        """Findings, those in a text that was made moved to where it was asked for.

        What is found on the line that a line was made from as well is told there alone.
        """
        told = list(findings)
        plain = [each for each in told if self._home(each.span) is None]
        for each in told:
            home = self._home(each.span)
            if home is None or each.span is None:
                yield replace(each, related=tuple(self._related(each.related)))
                continue
            section, side = home
            origin = side.origin(each.span.start)
            if origin is not None and any(_within(other, each, origin) for other in plain):
                continue
            line = side.text.source.line(each.span.line).strip()
            mirrors = section.mirrors or section.title
            message = f"{each.message} (in `{line}`, turned round from `{mirrors.value}`)"
            from_here = () if origin is None else (Related(origin, "the line it was made from"),)
            related = (*from_here, *self._related(each.related))
            yield replace(each, message=message, span=mirrors.span(), related=related)

    def _home(self, span: Span | None) -> tuple[Section, OtherSide] | None:
        if span is None:
            return None
        found = (at for at, (side, _) in self.made.items() if side.text.source is span.source)
        at = next(found, None)
        return None if at is None else (self.pattern.sections[at], self.made[at][0])

    def _related(self, related: Iterable[Related]) -> Iterator[Related]:
        for each in related:
            home = self._home(each.span)
            origin = None if home is None else home[1].origin(each.span.start)
            yield each if origin is None else replace(each, span=origin)


def _within(other: Diagnostic, finding: Diagnostic, origin: Span) -> bool:
    return (
        other.rule == finding.rule
        and other.span is not None
        and other.span.source is origin.source
        and origin.start <= other.span.start < max(origin.end, origin.start + 1)
    )


def write_other_sides(
    pattern: Pattern,
    lines: tuple[tuple[Line, ...], ...],
    pattern_lines: Mapping[str, tuple[Line, ...]],
    vocabulary: Vocabulary,
    book: SidedBook,
    prepared: Callable[[Text, Section], Text],
) -> Checked[OtherSides]:
    """Writes and reads every section that mirrors another and has no work of its own.

    prepared: writes out what stands for words in an instruction text (shaping plans). book: of the trade's stitches.
    """
    if not any(section.mirrors is not None and section.work is None for section in pattern.sections):
        return Checked(OtherSides(pattern, lines, {}))
    sides = _sides_of(pattern, pattern_lines, book)
    findings: list[Diagnostic] = []
    read = list(lines)
    sections = list(pattern.sections)
    made: dict[int, tuple[OtherSide, int]] = {}
    standing: dict[str, Standing] = {}
    for index, section in enumerate(pattern.sections):
        source = _mirrored(pattern, index)
        piece = section.piece.value
        if section.work is not None or source is None:
            standing.pop(piece, None)
            continue
        first = pattern.sections[source]
        here = Standing(None) if section.begins is not None else standing.get(piece, Standing())
        turned = mirror_section(
            read[source],
            sides,
            len(pattern.sizes),
            here,
            f"{section.title.value}, turned round from {first.title.value}",
            names=tuple(_names(pattern, first.piece.value, piece)),
            terms=pattern.terms.value,
            instead=tuple((each.of, each.work) for each in section.instead),
            more=any(other.piece.value == piece for other in pattern.sections[index + 1 :]),
        )
        findings += turned.findings
        standing[piece] = turned.value.standing
        if not turned.sound:
            continue
        text = turned.value.text
        parsed = parse_work(prepared(text, section), vocabulary, section.worked_in(pattern.sizes.axes))
        findings += parsed.findings
        read[index] = parsed.value
        sections[index] = replace(section, work=text)
        made[index] = turned.value, source
    whole = OtherSides(replace(pattern, sections=tuple(sections)), tuple(read), made)
    return Checked(whole, tuple(findings))


def _mirrored(pattern: Pattern, index: int) -> int | None:
    mirrors = pattern.sections[index].mirrors
    if mirrors is None:
        return None
    earlier = range(index - 1, -1, -1)
    return next((at for at in earlier if pattern.sections[at].title.value == mirrors.value), None)


def _names(pattern: Pattern, first: str, second: str) -> Iterator[tuple[str, str]]:
    """What is called otherwise on the other side, after left and right have changed places."""
    turned = swapped(first, ())
    if turned.lower() != second.lower():
        yield turned, second
    for each in pattern.stitch_patterns:
        if each.mirror is not None and each.mirror.value != each.key.value:
            yield each.key.value, each.mirror.value


def stitch_mirror(pattern: Pattern, book: SidedBook) -> Callable[[str], str]:
    """Gives for a stitch of the book, or of the author's own, the one that leans the other way; "" when there is none."""
    return Sides(book, _own(pattern), {}).mirror


def _own(pattern: Pattern) -> dict[str, tuple[int, str]]:
    return {
        each.key.value.lower(): (each.takes.value, each.mirror.value if each.mirror is not None else "")
        for each in pattern.stitches
    }


def _sides_of(pattern: Pattern, pattern_lines: Mapping[str, tuple[Line, ...]], book: SidedBook) -> Sides:
    own = _own(pattern)
    sides = Sides(book, own, {})
    fabrics: dict[str, str] = {}
    for each in pattern.stitch_patterns:
        name = each.key.value
        if each.mirror is not None:
            fabrics[name.lower()] = each.mirror.value
        else:
            alike = all(_alike(line, sides, len(pattern.sizes)) for line in pattern_lines.get(name, ()))
            fabrics[name.lower()] = name if alike else ""
    return Sides(book, own, fabrics)


def _alike(line: Line, sides: Sides, sizes: int) -> bool:
    """Whether a row of a stitch pattern is the same from both ends."""
    if not isinstance(line, InstructionLine):
        return True
    return all(
        isinstance(step, RowsAs) or turned_row(step.work, sides, sizes) is step.work
        for step in line.steps
        if isinstance(step, (RowStep, RowsAs))
    )
