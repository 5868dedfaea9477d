"""Stitches that wait while others are worked back and forth, and the row that takes them in again.

In: a row about to be worked, and the stitches that wait. Out: the row as it is to be worked: with "k28 instep sts" read as
the stitches that wait, or with all of the round on the needle again, from where the yarn hangs.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.held import telling
from castoff.knitting.loops import Group, joined
from castoff.knitting.state import PieceState, RowDef, SizeState
from castoff.knitting.steps_needles import REST
from castoff.notation.syntax import Action, Count, Stitch, StitchTo, ToDivision, ToEnd, WorkFabric, WorkHeld

_MARKED = ("", "marked", "centre")
_HEEL = frozenset({"heel", "flap"})


def taking_in(state: SizeState, row: RowDef) -> RowDef:
    """The row with the stitches that it speaks of taken from where they wait; before a round, the rest of it rejoined."""
    piece = state.piece
    waiting = [group for group in state.holders if group.piece == piece.name]
    if not waiting:
        return row
    named = {at: name for at, act in enumerate(row.acts) if (name := _named(act))}
    rest = next((group for group in waiting if group.name == REST), None)
    acts = list(row.acts)
    taken = 0
    for at, name in named.items():
        group = _meant(piece, waiting, rest, name)
        if group is None or (
            group is rest and sum(_meant(piece, waiting, rest, each) is rest for each in named.values()) > 1
        ):
            continue
        acts[at] = _held(row.acts[at], group, name)
        taken += group is rest
    if rest is not None and not taken and (row.unit == "rnd" or any(_other(piece, name) for name in named.values())):
        _rejoin_at_yarn(state, rest)
    if taken:
        piece.rotated = 0
    return row if acts == list(row.acts) else replace(row, acts=tuple(acts))


def _named(act: Action) -> str:
    """Whose stitches an act works: "k28 instep sts", "k across instep sts"; "" when it does not say."""
    if isinstance(act, Stitch):
        return "" if act.of in _MARKED else act.of
    target = act.target if isinstance(act, StitchTo) else act.over if isinstance(act, WorkFabric) else None
    if isinstance(target, ToDivision) and "needle" not in target.name and target.before is None:
        return target.name
    return ""


def _other(piece: PieceState, name: str) -> bool:
    """Whether a part is none of those that are worked back and forth."""
    words = telling(name)
    return bool(words) and not words & (_HEEL | telling(piece.worked_part))


def _meant(piece: PieceState, waiting: list[Group], rest: Group | None, name: str) -> Group | None:
    """The stitches that wait under a name; the rest of the round, where nothing of that name waits or is in work."""
    words = telling(name)
    for group in waiting:
        if group is not rest and words & telling(group.name):
            return group
    if len(waiting) == 1 and not telling(waiting[0].name) and waiting[0].left and _other(piece, name):
        return waiting[0]
    return rest if rest is not None and _other(piece, name) else None


def _held(act: Action, group: Group, name: str) -> WorkHeld:
    """The act as work on held stitches: as many as it says, or all of them."""
    holder = REST if group.name == REST else name
    count: Count | None = None
    body: Action
    if isinstance(act, Stitch):
        count = act.count
        body = StitchTo(act.name, ToEnd(span=act.span), span=act.span)
    elif isinstance(act, StitchTo):
        body = StitchTo(act.name, ToEnd(span=act.span), span=act.span)
    else:
        assert isinstance(act, WorkFabric), "only these name a part"
        body = WorkFabric(act.fabric, ToEnd(span=act.span), span=act.span)
    return WorkHeld(holder, count, (body,), span=act.span)


def _rejoin_at_yarn(state: SizeState, rest: Group) -> None:
    """All of the round on the needle again; it begins where the yarn hangs."""
    piece = state.piece
    whole = joined(piece.needle, rest.needle, piece.needle.at)
    whole = replace(whole, marks=tuple(dict.fromkeys(whole.marks)))
    piece.needle = replace(whole.rotated(whole.at), at=0)
    piece.rotated = 0
    piece.form, piece.due, piece.turned = "round", "RS", False
    state.holders = [group for group in state.holders if group is not rest]
