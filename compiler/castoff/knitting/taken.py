"""How many stitches acts take, told from the acts alone, before anybody knits them.

In: acts, and what each stitch takes. Out: their sum, or None where it depends on the place (targets, fabrics, turns).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from castoff.notation.syntax import Action, IntoOne, MarkerAct, Remark, Repeat, Stitch


def stitches_taken(body: Sequence[Action], takes: Callable[[str], int | None], size: int) -> int | None:
    """The stitches that acts use up in one size.

    takes: the stitches that one of a name uses up; None for a name that nobody knows.
    """
    total = 0
    for act in body:
        once: int | None
        if isinstance(act, Stitch):
            once, times = takes(act.name), 1 if act.count is None else act.count.at(size) or 0
        elif isinstance(act, Repeat) and act.times.kind == "all" and act.times.count is not None and not act.last:
            once, times = stitches_taken(act.body, takes, size), act.times.count.at(size) or 0
        elif isinstance(act, IntoOne):
            once, times = act.takes, 1
        elif isinstance(act, (Remark, MarkerAct)):
            once, times = 0, 1
        else:
            once, times = None, 1
        if once is None:
            return None
        total += once * times
    return total
