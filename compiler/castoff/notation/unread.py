"""Why a line could not be read: the word it stopped at, what was understood before it, and the nearest known wording.

In: a cursor after a failed attempt. Out: one `Diagnostic` at the word in question.
"""

from __future__ import annotations

import difflib

from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.cursor import Cursor
from castoff.notation.words import KEYS

UNREAD = Rule(
    "unread-words",
    "error",
    """Words of an instruction that cannot be knitted.

Every word of an instruction counts. A word that cannot be read would be printed unchecked, so it is an error; prose
for the knitter alone starts with `>`.

Fires:   `Row 1: K2, k2tgo, k to end.`
Silent:  `Row 1: K2, k2tog, k to end.`
""",
)
RULES = (UNREAD,)

_SLIPS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("k2tgo", "k2og", "k2tg", "k2to", "2ktog", "ktog", "k2gtog", "k2tog2"), "k2tog"),
    (("p2tgo", "p2tg", "p2to", "ptog"), "p2tog"),
    (("skk", "sk", "sks", "kss"), "ssk"),
    (("mk1", "mi", "mil", "mir"), "m1"),
    (("y0", "oy"), "yo"),
)
_STITCHES = (
    "k", "p", "k2tog", "p2tog", "k3tog", "p3tog", "ssk", "sssk", "ssp", "skp", "sk2p", "s2kp", "yo", "m1", "m1l", "m1r", "m1p",
    "kfb", "pfb", "sl", "pm", "sm", "rm", "turn", "w&t", "ktbl",
)  # fmt: skip
_WORDS = (
    "row", "rnd", "round", "rep", "repeat", "from", "end", "last", "next", "every", "foll", "alt", "times", "more", "until", "measures",
    "piece", "knit", "purl", "work", "cast", "bind", "pick", "slip", "place", "marker", "needle", "needles", "holder", "change",
    "continue", "pattern", "rib", "stockinette", "garter", "evenly", "across", "around", "increase", "decrease", "each", "join",
    "ending", "with", "beginning", "stitches", "sts", "remain", "using", "leaving", "through", "weave", "block", "sew",
)  # fmt: skip


def explain(c: Cursor) -> Diagnostic:
    """The finding for a line that stopped at `c.far`."""
    index = min(c.far, len(c.lexemes) - 1)
    lexeme = c.lexemes[index]
    before = c.raw(0, index)
    if len(before) > 48:
        before = "…" + before[-47:]
    if lexeme.kind == "end":
        message = "the line ends where more is needed"
        start = c.lexemes[index - 1].start if index else 0
        span = c.line.span(start, lexeme.end)
    else:
        message = f"`{lexeme.text}` cannot be read here"
        span = c.line.span(lexeme.start, lexeme.end)
    if before:
        message += f"; understood so far: `{before}`"
    return Diagnostic.of(UNREAD, message, span, hint=_hint(c, lexeme.text, index))


def _hint(c: Cursor, word: str, index: int) -> str | None:
    low = word.lower()
    for slips, meant in _SLIPS:
        if low in slips:
            return f"did you mean `{meant}`?"
    near = nearest(low, c)
    if near is not None:
        return f"did you mean `{near}`?"
    if c.wanted is not None:
        return f"missing: {c.wanted}"
    previous = c.lexemes[index - 1].key if index else ""
    if previous == "to" and low in ("last",):
        return "`to last 2 sts` needs the number of stitches"
    return "a line for the reader alone starts with `>`"


def nearest(low: str, c: Cursor) -> str | None:
    """The known word that a mistyped one most likely stands for; None when it is known or none is near."""
    if len(low) < 2 or not low[0].isalpha():
        return None
    own = [name.lower() for name in c.vocabulary.own_stitches]
    keys = [key for key in (*c.vocabulary.needles, *c.vocabulary.stitch_patterns) if " " not in key]
    known = (*own, *_STITCHES, *_WORDS, *keys)
    if low in known or low in KEYS or c.stitch(low) is not None:
        return None
    found = difflib.get_close_matches(low, known, 1, 0.74)
    return found[0] if found else None
