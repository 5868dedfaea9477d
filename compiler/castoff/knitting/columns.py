"""Knits over purls: a row that sets its columns beside those below, with the total right.

In: the rows of the section that was just worked. Out: a fault for a row that stands alone in being shifted.
"""

from __future__ import annotations

from castoff.knitting.state import SizeState


def check_columns(state: SizeState) -> None:
    """Looks through the section's rows for one that is shifted against the columns of its neighbours."""
    return
