"""One wrong number, one finding: what several stages found of the same slip, told once.

In: the findings of all stages, and the evidence. Out: the same without those that follow from another. Two typed figures
that contradict each other on one line are the cause of whatever the fabric says of that line, of its piece and of the
measurements taken on it; a piece that parts company with its pair is the cause of its wrong length. What is left out
here is told again by the next check, once the cause has been mended, if it had another.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from castoff.checks.evidence import Evidence, Finished
from castoff.checks.fabric_places import Place
from castoff.checks.measurement_off import place_of
from castoff.diagnostic import Diagnostic
from castoff.knitting.faults import PIECES_PART
from castoff.knitting.faults import RULES as NEEDLE_RULES

_FIGURES = ("rows-named-twice", "conversion-off", "stated-length-off", "zero-typed", PIECES_PART.name)
"""Rules by which two figures of a piece refute each other, or one that is 0, the more telling first."""
_OF_THE_FABRIC = ("measurement-off", "measurement-contradicted", "zero-typed", "sides-of-unequal-length")
_SILENT_BEHIND = {
    "rows-named-twice": frozenset((*(rule.name for rule in NEEDLE_RULES), *_OF_THE_FABRIC)),
    "conversion-off": frozenset((PIECES_PART.name, "stated-length-off", "length-already-passed", *_OF_THE_FABRIC)),
    "stated-length-off": frozenset(_OF_THE_FABRIC),
    "zero-typed": frozenset(_OF_THE_FABRIC),
    PIECES_PART.name: frozenset(_OF_THE_FABRIC),
}


@dataclass(frozen=True, slots=True)
class _Where:
    """Pieces and sizes that a finding is about; line: where it is typed."""

    pieces: frozenset[str]
    sizes: frozenset[str]
    line: tuple[str, int] | None


def without_aftermath(findings: Iterable[Diagnostic], evidence: Evidence) -> list[Diagnostic]:
    """The findings, without those that another one has caused."""
    found = list(findings)
    if sum(each.severity == "error" for each in found) < 2:
        return found
    causes = [
        (each, _where(each, evidence)) for each in found if each.rule.name in _FIGURES and each.severity == "error"
    ]
    needle = {rule.name for rule in NEEDLE_RULES}
    refuted = [_where(each, evidence) for each in found if each.rule.name in needle and each.severity == "error"]
    return [
        each
        for each in found
        if not any(_follows(each, cause, where, evidence) for cause, where in causes)
        and not (each.rule.name == "zero-typed" and any(_same(_where(each, evidence), where) for where in refuted))
        and not (each.rule.name == "off-centre" and any(_behind(_where(each, evidence), where) for where in refuted))
    ]


def _behind(one: _Where, other: _Where) -> bool:
    """Whether a finding comes behind another in the same text, of the same piece and a size they share."""
    later = one.line is not None and other.line is not None and one.line[0] == other.line[0] and one.line > other.line
    return later and _same(one, other)


def _follows(finding: Diagnostic, cause: Diagnostic, where: _Where, evidence: Evidence) -> bool:
    if finding is cause or finding.rule.name not in _SILENT_BEHIND[cause.rule.name]:
        return False
    mine = _where(finding, evidence)
    return _same(mine, where) or (mine.line == where.line and bool(mine.sizes & where.sizes))


def _same(one: _Where, other: _Where) -> bool:
    return bool(one.pieces & other.pieces) and bool(one.sizes & other.sizes)


def _where(finding: Diagnostic, evidence: Evidence) -> _Where:
    span = finding.span
    sizes = frozenset(finding.sizes or evidence.sizes)
    if span is None:
        return _Where(frozenset(), sizes, None)
    line = (span.source.name, span.line)
    pieces: set[str] = set()
    for section in evidence.pattern.sections:
        text = section.work
        if text is not None and text.source is span.source and text.span().start <= span.start < text.span().end:
            pieces.add(section.piece.value)
    pieces.update(
        piece for finished in evidence.finished if _spans(finished, finding) for piece in _of(finished, evidence)
    )
    if finding.rule is PIECES_PART:
        pieces.update(name for name in evidence.pattern.pieces if f"of {name}:" in finding.message)
    return _Where(frozenset(pieces), sizes, line)


def _spans(finished: Finished, finding: Diagnostic) -> bool:
    span, mine = finding.span, finished.measurement.expression.span()
    return span is not None and span.source is mine.source and mine.start <= span.start < mine.end


def _of(finished: Finished, evidence: Evidence) -> tuple[str, ...]:
    """The pieces that a measurement is taken on; every piece when nothing says which."""
    place = place_of(evidence, finished)
    if not isinstance(place, Place):
        return evidence.pattern.pieces
    owners = {section.title.value: section.piece.value for section in evidence.pattern.sections}
    return tuple(name if name in evidence.pattern.pieces else owners.get(name, name) for name in place.pieces)
