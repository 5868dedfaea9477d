"""What kind of row some acts are: what decides how they are tried, and what their row leaves behind.

In: the acts of a row. Out: `RowKind`, looked through once for every row.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.knitting.fabrics import rib_columns
from castoff.knitting.state import Acts, RowKind, SizeState
from castoff.notation.nodes import nodes_of
from castoff.notation.syntax import (
    Action,
    BindOffAct,
    CastOnAct,
    Drop,
    EndShaping,
    IntoOne,
    Join,
    MarkerAct,
    PickUp,
    PickUpWrap,
    Remark,
    Repeat,
    Stitch,
    StitchTo,
    ToMarker,
    UseYarn,
    WorkFabric,
    WorkHeld,
)


def _uses(acts: Acts, kinds: tuple[type, ...]) -> bool:
    for act in acts:
        if isinstance(act, kinds):
            return True
        inner = getattr(act, "body", None)
        if isinstance(act, (Repeat, UseYarn)) and inner and _uses(inner, kinds):
            return True
    return False


def _uses_second(acts: Acts) -> bool:
    return any(isinstance(act, UseYarn) and (act.joins or _uses_second(act.body or ())) for act in acts)


def _steady(acts: Acts) -> bool:
    """Whether acts decide by nothing but comparing places and counts, and dividing."""
    for act in acts:
        if isinstance(act, MarkerAct):
            steady = act.act == "slip"
        elif isinstance(act, WorkFabric):
            steady = not rib_columns(act.fabric)
        elif isinstance(act, (Repeat, UseYarn)):
            steady = _steady(act.body or ())
        else:
            steady = isinstance(act, (Stitch, StitchTo, EndShaping, IntoOne, Remark))
        if not steady:
            return False
    return True


def kind_of(state: SizeState, acts: Acts) -> RowKind:
    """What kind of row some acts are; looked through once."""
    known = state.shared.kinds.get(id(acts))
    if known is None:
        wraps = next((act for act in acts if isinstance(act, PickUpWrap) and act.come), None)
        kind = RowKind(
            makes=_uses(acts, (PickUp, WorkHeld, Join, CastOnAct)),
            held=_uses(acts, (WorkHeld, Join)),
            binds=_uses(acts, (BindOffAct,)),
            drops=tuple(act for act in acts if isinstance(act, Drop) and (act.count is None or act.of is not None)),
            joins=tuple(yarn for act in acts if isinstance(act, UseYarn) and act.joins for yarn in act.yarns),
            named=tuple(_named_yarns(acts)),
            picks=sum(isinstance(act, PickUp) for act in acts),
            second=_uses_second(acts),
            only=_one_stitch(acts, wraps),
            wraps=wraps,
            steady=_steady(acts),
            marks=any(isinstance(node, (MarkerAct, ToMarker)) for node in nodes_of(acts)),
        )
        known = (acts, kind)
        state.shared.kinds[id(acts)] = known
    return known[1]


def _one_stitch(acts: Acts, wraps: Action | None) -> bool:
    """Whether a row says nothing but one stitch: "with A, knit"."""
    real = [act for act in acts if not isinstance(act, (UseYarn, Remark, MarkerAct)) and act is not wraps]
    yarns = all(act.body is None for act in acts if isinstance(act, UseYarn))
    return yarns and len(real) == 1 and isinstance(real[0], Stitch)


def _named_yarns(acts: Acts) -> Iterator[str]:
    for act in acts:
        if isinstance(act, UseYarn):
            yield from act.yarns
        inner = getattr(act, "body", None)
        if isinstance(act, (Repeat, UseYarn)) and inner:
            yield from _named_yarns(inner)
