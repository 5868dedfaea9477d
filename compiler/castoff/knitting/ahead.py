"""Which of two numbers is right, told from what comes after: the knitting goes on from both, by way of trial.

In: the state of one size, and a needle to go on from. Out: how far it comes. The state is copied, so that a trial leaves
nothing behind; it is made only where something is wrong, and ends at the first fault or after some steps.
"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, fields, replace
from typing import TypeVar

from castoff.knitting.loops import Needle
from castoff.knitting.slope import Records
from castoff.knitting.state import Beside, PieceState, SecondSide, SizeState
from castoff.span import Span

MOST_STEPS = 60
"""How far a trial goes: a wrong number mostly shows in the next row that counts."""


@dataclass(frozen=True, slots=True)
class Trial:
    """How far the knitting came. steps: worked before the first fault. where: its place, None when there was none.

    proven: the number was never in doubt up to there.
    """

    steps: int
    where: Span | None = None
    proven: bool = True


def tried(state: SizeState, needle: Needle, *, guessed: bool = False) -> Trial:
    """How far the knitting comes with this needle. guessed: its markers need not be where they were."""
    if state.work_ahead is None or state.trial is not None:
        return Trial(0)
    trial = _copied(state)
    trial.trial = state.steps + MOST_STEPS
    trial.piece.needle = needle
    trial.piece.doubt = False
    trial.piece.unsure = guessed or trial.piece.unsure
    trial.piece.unaccounted = None
    piece = trial.piece
    trial.piece.strayed = trial.piece.strayed or (guessed and bool(needle.marks))
    for block in reversed(state.following):
        state.work_ahead(trial, block)
        if trial.over:
            break
    where = trial.faults[0].span if trial.faults else None
    return Trial(trial.steps - state.steps, where, not piece.doubt)


def _copied(state: SizeState) -> SizeState:
    pieces = {name: _with_own_lists(piece) for name, piece in state.pieces.items()}
    trial = _with_own_lists(state)
    return replace(
        trial,
        faults=[],
        pieces=pieces,
        piece=pieces.get(state.piece.name) or _with_own_lists(state.piece),
        beside=[_with_own_lists(each) for each in state.beside],
        second=None if state.second is None else _with_own_lists(state.second),
        following=[],
    )


Kept = TypeVar("Kept", SizeState, PieceState, Beside, SecondSide)


def _with_own_lists(kept: Kept) -> Kept:
    """A copy that shares nothing that can be changed: what lies in the lists is frozen, and is not copied."""
    made = copy(kept)
    for each in fields(kept):
        value = getattr(kept, each.name)
        if isinstance(value, Records):
            setattr(made, each.name, value.copied())
        elif isinstance(value, (list, dict, set)):
            setattr(made, each.name, copy(value))
    return made
