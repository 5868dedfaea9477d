"""Where stitch work begins among words that are kept as words: no seam, place or remark may swallow it.

In: the lexemes of a line and a place. Out: whether a knitter would take up the needles there.
"""

from __future__ import annotations

from collections.abc import Sequence

from castoff.notation.lexemes import Lexeme

_HOW_FAR = frozenset({"to", "across", "all", "every", "each", "until", "even", "next", "last", "first"})
_COUNTED = frozenset({"st", "row", "rnd", "times", "more"})
_CAST = {"cast": ("on", "off"), "bind": ("off",)}


def works_at(lexemes: Sequence[Lexeme], at: int) -> bool:
    """Whether words at a place say what is done with stitches, and with how many: "k8", "pick up", "cast on 4"."""
    lexeme, after = lexemes[at], lexemes[min(at + 1, len(lexemes) - 1)]
    behind = lexemes[min(at + 2, len(lexemes) - 1)]
    if lexeme.kind == "end":
        return False
    if lexeme.stitch is not None and (
        after.numbers is not None or after.key in _HOW_FAR or any(sign.isdigit() for sign in lexeme.text)
    ):
        return True
    if lexeme.key == "pu" or (lexeme.key in ("pick", "picking") and after.key == "up"):
        return True
    if after.key in _CAST.get(lexeme.key, ()) and behind.numbers is not None:
        return True
    return lexeme.key in ("co", "bo") and after.numbers is not None


def holds_work(lexemes: Sequence[Lexeme], start: int, stop: int) -> bool:
    """Whether stitch work stands anywhere between two places, or a number of stitches or rows."""
    for at in range(start, stop):
        if works_at(lexemes, at):
            return True
        if lexemes[at].numbers is not None and lexemes[at + 1].key in _COUNTED:
            return True
    return False
