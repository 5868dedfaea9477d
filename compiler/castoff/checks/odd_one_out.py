"""The one size that does not come out as the others do, or the two that changed places.

In: how far each size is off, and the step by which a slip would move it (the height of a row). Out: the indices of sizes
that are a whole step off while every other size comes out to the hair. Rounding alone spreads the sizes; where all but one
are exact, the author counted rows, and the odd one has a row too many or too few; where two neighbours are off by as much
to either side, their numbers are swapped.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

_EXACT = Fraction(1, 5)
"""Share of a step that still counts as exact; half of it where only two other sizes bear witness."""
_OFF = Fraction(4, 5)
"""Share of a step from which a size counts as off."""


def odd_sizes(off: Sequence[Fraction | None], step: Fraction) -> tuple[int, ...]:
    """Indices of the sizes that are off while all the others, two at least, are exact; empty when there are none."""
    known = [(index, value) for index, value in enumerate(off) if value is not None]
    odd = [(index, value) for index, value in known if abs(value) >= _OFF * step]
    others = [abs(value) for index, value in known if (index, value) not in odd]
    if step == 0 or not odd or len(others) < 2:
        return ()
    exact = _EXACT * step / (2 if len(others) == 2 else 1)
    if any(value > exact for value in others) or len(odd) > 2:
        return ()
    if len(odd) == 2 and not (odd[1][0] - odd[0][0] == 1 and abs(odd[0][1] + odd[1][1]) <= exact):
        return ()
    return tuple(index for index, _ in odd)
