"""Rows that read the same from both ends but for a number: stitches beside the shaping, or at the edges.

In: the lines of a section and one size. Out: a warning for a row that is uneven where nothing seems to ask for it. Rows are
looked at as they are told, so that "k1, ssk, k to last 3 sts, k2tog, k2" is seen though its total is right.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from castoff.knitting.faults import ENDS_UNLIKE, fault
from castoff.knitting.state import Acts, SizeState, label_text
from castoff.notation.syntax import (
    InstructionLine,
    Line,
    MarkerAct,
    Remark,
    Repeat,
    RowStep,
    Stitch,
    StitchTo,
    ToLast,
    UseYarn,
    WorkFabric,
)
from castoff.span import Span

_MIRROR = {
    "k2tog": "ssk", "ssk": "k2tog", "skp": "k2tog", "m1l": "m1r", "m1r": "m1l", "p2tog": "ssp", "ssp": "p2tog",
    "k3tog": "sssk", "sssk": "k3tog",
}  # fmt: skip
"""Shaping and what answers it at the other end."""


@dataclass(frozen=True, slots=True)
class _Token:
    """What an act is for the eye. count: of plain stitches, else 0."""

    kind: str
    count: int = 0
    span: Span | None = None


def mind_symmetry(state: SizeState, lines: Sequence[Line]) -> None:
    """Looks through the rows of a section."""
    rows = [
        step
        for line in lines
        if isinstance(line, InstructionLine) and line.sizes[state.size]
        for step in line.steps
        if isinstance(step, RowStep)
    ]
    for row in rows:
        for acts in _stretches(row.work):
            uneven = _uneven(_tokens(state, acts))
            if uneven is not None:
                _report(state, row, *uneven)
    edges = [(row, ends) for row in rows if (ends := _edges(state, row.work)) is not None]
    odd = [(row, ends) for row, ends in edges if ends[0].count != ends[1].count]
    if len(odd) == 1 and len(edges) > 1:
        row, (first, last) = odd[0]
        _report(state, row, first, last)


def _stretches(acts: Acts) -> Iterator[Acts]:
    """The row itself, and parts of it that are repeated from marker to marker; any other repeat has no ends."""
    yield acts
    for act in acts:
        if isinstance(act, Repeat) and any(isinstance(inner, MarkerAct) for inner in act.body):
            yield from _stretches(act.body)


def _tokens(state: SizeState, acts: Acts) -> list[_Token]:
    tokens: list[_Token] = []
    for act in acts:
        if isinstance(act, (Remark, UseYarn)):
            continue
        if isinstance(act, Stitch) and act.name in ("k", "p"):
            count = 1 if act.count is None else state.number_of(act.count)
            if tokens and tokens[-1].kind == act.name:
                last = tokens.pop()
                tokens.append(_Token(act.name, last.count + count, last.span))
            elif count:
                tokens.append(_Token(act.name, count, act.span))
        elif isinstance(act, Stitch) and act.count is None:
            tokens.append(_Token(act.name, 0, act.span))
        elif isinstance(act, MarkerAct):
            tokens.append(_Token("marker", 0, act.span))
        elif isinstance(act, (StitchTo, WorkFabric)):
            tokens.append(_Token("on", 0, act.span))
        else:
            return []  # repeats and whatever else has two ends of its own
    while tokens and tokens[-1].kind in ("marker", "on"):
        tokens.pop()
    while tokens and tokens[0].kind in ("marker", "on"):
        tokens.pop(0)
    return tokens


def _uneven(tokens: Sequence[_Token]) -> tuple[_Token, _Token] | None:
    """Two groups of plain stitches that answer each other and are not equally many; None where all do, or none can."""
    back = list(reversed(tokens))
    shaping = [token.kind for token in tokens if token.kind in _MIRROR]
    mirrored = [_MIRROR.get(token.kind, token.kind) for token in back]
    if len(shaping) < 2 or mirrored != [_same(token.kind) for token in tokens]:
        return None
    for one, two in zip(tokens, back, strict=True):
        if one.count != two.count:
            return one, two
    return None


def _same(kind: str) -> str:
    return "ssk" if kind == "skp" else kind


def _edges(state: SizeState, acts: Acts) -> tuple[_Token, _Token] | None:
    """Edge stitches on both sides of "k4, p to last 4 sts, k4"; none at the beginning counts as 0."""
    acts = tuple(act for act in acts if not isinstance(act, (Remark, MarkerAct)))
    at = next((at for at, act in enumerate(acts) if isinstance(act, StitchTo)), None)
    middle = None if at is None else acts[at]
    if at is None or not isinstance(middle, StitchTo) or not isinstance(middle.target, ToLast):
        return None
    first, last = _tokens(state, acts[:at]), _tokens(state, acts[at + 1 :])
    if len(last) != 1 or len(first) > 1 or last[0].kind == middle.name or last[0].kind not in ("k", "p"):
        return None
    if first and first[0].kind != last[0].kind:
        return None
    return (first[0] if first else _Token(last[0].kind, 0, middle.span)), last[0]


def _report(state: SizeState, row: RowStep, first: _Token, last: _Token) -> None:
    state.report(
        fault(
            ENDS_UNLIKE,
            first.span,
            "{label} has {kind}{one} on one side and {other}{two} on the other",
            hint="{kind}{one} on both sides, or {kind}{two}",
            label=label_text(row.label, state.size),
            kind=first.kind,
            one=first.count,
            other=last.kind,
            two=last.count,
        )
    )
