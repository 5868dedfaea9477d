"""Bind-offs told act by act, in words again.

In: a node of the syntax tree. Out: text.
"""

from __future__ import annotations

from castoff.notation.print_numbers import print_count
from castoff.notation.syntax import OffAct, WorkedOff


def print_worked_off(so: WorkedOff) -> str:
    """ "k2, *slip 2 sts back to left needle, k2tog tbl, k1; rep from * until all sts are bound off"."""
    lead = "".join(f"{_act(act)}, " for act in so.lead)
    body = ", ".join(_act(act) for act in so.body)
    if so.plain:
        return f"{lead}*{body}; rep from * to end, binding off in patt"
    end = "all sts are bound off" if so.left is None else f"{print_count(so.left)} sts rem"
    return f"{lead}*{body}; rep from * until {end}"


def _act(act: OffAct) -> str:
    number = print_count(act.count)
    match act.act:
        case "back":
            return f"slip {number} sts back to left needle"
        case "over":
            return "pass first st over second"
        case "on":
            return f"CO {number} sts"
        case _:
            if act.stitch in ("k", "p"):
                return f"{act.stitch}{number}"
            if act.stitch in ("k tbl", "p tbl"):
                return f"{act.stitch[0]}{number} tbl"
            once = set(act.count.values) == {1}
            return act.stitch if once else f"{act.stitch} {number} times"
