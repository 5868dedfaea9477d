"""The sum of a row, as an editor would write it in the margin: "k12 + p6 + k54 = 72; 70 sts are on the needle".

In: the acts of a row and the stitches there are. Out: the wording with its numbers and the number that would be right;
None where the row has no fixed sum.
"""

from __future__ import annotations

from castoff.knitting.faults import Values
from castoff.knitting.state import Acts, SizeState
from castoff.notation.syntax import BindOffAct, Count, HoldAct, Repeat, Stitch, StitchTo, ToLast, WorkFabric

NO_TAKE = ("MarkerAct", "Remark", "UseYarn", "CastOnAct", "PickUp", "Turn")
"""Acts that use no stitches of the needle."""


def explained(state: SizeState, acts: Acts, have: int) -> tuple[str, str | None, Values] | None:
    """Wording, hint and numbers for a row whose stitches do not add up; None when it has places to go to."""
    tail = _behind_a_place(state, acts)
    if tail is not None:
        return tail
    terms: list[tuple[str, int]] = []
    for act in acts:
        if type(act).__name__ in NO_TAKE:
            continue
        term = term_of(state, act)
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
    last = acts[-1]
    to_end = isinstance(last, Stitch) and last.name in ("k", "p") and have > total
    if to_end and isinstance(last, Stitch) and have - total > max((number for _, number in plain), default=0):
        hint = "`{name} to end`"
        values.append(("name", last.name))
    elif plain:
        act, number = max(plain, key=lambda pair: pair[1])
        right = number + have - total
        if right > 0:
            hint = "{right} would come out"
            values.append(("right", f"{act.name}{right}"))
    return message, hint, tuple(values)


def _behind_a_place(state: SizeState, acts: Acts) -> tuple[str, str | None, Values] | None:
    """What stands behind the last "to last 2 sts" must use up those 2; None when it does, or cannot be told."""
    at = next((at for at in range(len(acts) - 1, -1, -1) if _to_last(acts[at]) is not None), None)
    place = None if at is None else _to_last(acts[at])
    if at is None or place is None or at + 1 == len(acts):
        return None
    terms = [term_of(state, act) for act in acts[at + 1 :] if type(act).__name__ not in NO_TAKE]
    if not terms or any(term is None for term in terms):
        return None
    total = sum(term[1] for term in terms if term is not None)
    left = state.number_of(place.stitches)
    if total == left:
        return None
    values: list[tuple[str, int | str]] = [("left", left), ("total", total)]
    parts = []
    for number, term in enumerate(term for term in terms if term is not None):
        values.append((f"t{number}", term[0]))
        parts.append("{t" + str(number) + "}")
        if not term[0].endswith(str(term[1])):
            values.append((f"n{number}", term[1]))
            parts[-1] += " ({n" + str(number) + "})"
    message = f"{' + '.join(parts)} = " + "{total} behind the place that leaves {left} st{s}"
    values.append(("s", "" if left == 1 else "s"))
    values.append(("t", "" if total == 1 else f"{total} "))
    return message, "`to last {t}st" + ("s" if total != 1 else "") + "`", tuple(values)


def _to_last(act: object) -> ToLast | None:
    target = act.target if isinstance(act, StitchTo) else act.over if isinstance(act, WorkFabric) else None
    if isinstance(act, Repeat):
        target = act.times.target
    return target if isinstance(target, ToLast) else None


def term_of(state: SizeState, act: object) -> tuple[str, int] | None:
    """An act as a term of the sum, with the stitches that it uses; None when that depends on where it stands."""
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
        inner = [term_of(state, each) for each in act.body if type(each).__name__ not in NO_TAKE]
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
