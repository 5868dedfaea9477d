"""The one size that does not come out as the others do.

In: how far each size is off, and the step by which a slip would move it (the height of a row). Out: the index of a size
that is a whole step off while every other size comes out to the hair. Rounding alone spreads the sizes; where all but one
are exact, the author counted rows, and the odd one has a row too many or too few.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

_EXACT = Fraction(1, 5)
"""Share of a step that still counts as exact; half of it where only two other sizes bear witness."""
_OFF = Fraction(4, 5)
"""Share of a step from which a size counts as off."""


def odd_one_out(off: Sequence[Fraction | None], step: Fraction) -> int | None:
    """Index of the size that is off while all the others are exact; None when there is none, or fewer than 3 sizes."""
    known = [(index, abs(value)) for index, value in enumerate(off) if value is not None]
    if len(known) < 3 or step == 0:
        return None
    exact = _EXACT * step / (2 if len(known) == 3 else 1)
    odd = [index for index, value in known if value >= _OFF * step]
    if len(odd) == 1 and all(value <= exact for index, value in known if index != odd[0]):
        return odd[0]
    return None
