"""The number of a needle of a set by its name.

In: "needle 2", "second needle". Out: 2; 0 when the name has none.
"""

from __future__ import annotations

_WORDS = ("first", "second", "third", "fourth", "fifth")


def needle_number(name: str) -> int:
    """The number of a needle by its name: "needle 2" and "second needle" are 2; 0 when it has none."""
    digits = "".join(sign for sign in name if sign.isdigit())
    if digits:
        return int(digits)
    return next((at for at, word in enumerate(_WORDS, 1) if name.startswith(word)), 0)
