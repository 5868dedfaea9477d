"""The sum of a row, as an editor would write it in the margin: "k12 + p6 + k54 = 72; 70 sts are on the needle".

In: the acts of a row and the stitches there are. Out: the wording with its numbers and the number that would be right;
None where the row has no fixed sum.
"""

from __future__ import annotations

from castoff.knitting.faults import Values
from castoff.knitting.state import Acts, SizeState
from castoff.notation.syntax import BindOffAct, Count, HoldAct, Repeat, Stitch, WorkFabric

_NO_TAKE = ("MarkerAct", "Remark", "UseYarn", "CastOnAct", "PickUp", "Turn")


def explained(state: SizeState, acts: Acts, have: int) -> tuple[str, str | None, Values] | None:
    """Wording, hint and numbers for a row whose stitches do not add up; None when it has places to go to."""
    terms: list[tuple[str, int]] = []
    for act in acts:
        if type(act).__name__ in _NO_TAKE:
            continue
        term = _term(state, act)
        if term is None:
            return None
        if term[1]:
            terms.append(term)
    total = sum(number for _, number in terms)
    if total == have or not terms:
        return None
    values: list[tuple[str, int | str]] = []
    parts = []
    for at, (text, number) in enumerate(terms):
        name = f"t{at}"
        values.append((name, text))
        parts.append("{" + name + "}")
        if not text[-1:].isdigit() or not text.endswith(str(number)):
            parts[-1] += " ({n" + str(at) + "})"
            values.append((f"n{at}", number))
    values += [("total", total), ("have", have)]
    sum_text = " + ".join(parts)
    message = (
        sum_text + (" = {total}" if len(terms) > 1 or "(" not in sum_text else "") + "; {have} sts are on the needle"
    )
    if total < have:
        message += ", {left} left unworked"
        values.append(("left", have - total))
    hint = None
    plain = [
        (act, number)
        for act, number in (
            (act, state.number_of(act.count))
            for act in acts
            if isinstance(act, Stitch) and act.name in ("k", "p") and act.count
        )
        if number
    ]
    if plain:
        act, number = max(plain, key=lambda pair: pair[1])
        right = number + have - total
        if right > 0:
            hint = "{right} would come out"
            values.append(("right", f"{act.name}{right}"))
    return message, hint, tuple(values)


def _term(state: SizeState, act: object) -> tuple[str, int] | None:
    if isinstance(act, Stitch):
        known = state.plan.stitch(act.name)
        if known is None:
            return None
        number = 1 if act.count is None else state.number_of(act.count)
        if len(act.name) <= 2 and act.count is not None:
            return f"{act.name}{number}", known.takes * number
        return (act.name if number == 1 else f"{act.name} x {number}"), known.takes * number
    if isinstance(act, Repeat) and act.times.kind in ("all", "more"):
        number = state.number_of(act.times.count, 1) + (act.times.kind == "more")
        inner = [_term(state, each) for each in act.body if type(each).__name__ not in _NO_TAKE]
        if any(each is None for each in inner):
            return None
        used = sum(each[1] for each in inner if each is not None)
        text = ", ".join(each[0] for each in inner if each is not None)
        return f"[{text}] x {number}", used * number
    if isinstance(act, WorkFabric) and isinstance(act.over, Count):
        number = state.number_of(act.over)
        return f"{number} in pattern", number
    if isinstance(act, BindOffAct) and act.count is not None:
        number = state.number_of(act.count)
        return f"bind off {number}", number
    if isinstance(act, HoldAct) and act.count is not None and not act.worked:
        number = state.number_of(act.count)
        return f"hold {number}", number
    return None
