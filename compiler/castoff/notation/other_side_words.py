"""Words of the other side: left for right, RS for WS, a row's words with some of them exchanged.

In: words and tokens of a line. Out: words. What they mean is `mirror.py`'s business.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from types import MappingProxyType

from castoff.notation.syntax import Action, Token
from castoff.span import Span

_SIDE_WORDS = MappingProxyType({"left": "right", "right": "left"})
_LEFT_OR_RIGHT = re.compile(
    r"\b(?P<keep>right[ -]sides?(?= facing| row| of (?:the )?(?:work|fabric)|s? together|-)"
    r"|(?:left|right)[ -](?:hand[ -])?needles?|with right sides?\b)|\b(?:left|right)\b",
    re.IGNORECASE,
)
OTHER_WORD = {
    "RS": "WS", "WS": "RS", "right-side": "wrong-side", "wrong-side": "right-side", "knitwise": "purlwise",
    "purlwise": "knitwise", "wyif": "wyib", "wyib": "wyif", "kwise": "pwise", "pwise": "kwise",
}  # fmt: skip
_ENDING = re.compile(r"\b(?:RS|WS|right-side|wrong-side)(?= row\b)")
_LONG = {"k": "knit", "p": "purl", "knit": "purl", "purl": "knit"}


def swapped(text: str, names: tuple[tuple[str, str], ...]) -> str:
    """Left for right in words, and the name of the piece; sides of the fabric and of needles keep theirs."""
    out: list[str] = []
    at = 0
    for found in _LEFT_OR_RIGHT.finditer(text):
        if found["keep"] is None:
            out += [text[at : found.start()], like(found[0], _SIDE_WORDS[found[0].lower()])]
            at = found.end()
    new = "".join((*out, text[at:]))
    for old_name, new_name in names:
        parts = re.split(rf"(?i)\b({re.escape(old_name)})\b", new)
        new = "".join(like(part, new_name) if index % 2 else part for index, part in enumerate(parts))
    return new


def other_ending(text: str) -> str:
    """ "ending with a WS row" as "ending with a RS row": the last one named."""
    found = list(_ENDING.finditer(text))
    if not found:
        return text
    last = found[-1]
    return text[: last.start()] + OTHER_WORD[last[0]] + text[last.end() :]


def like(old: str, new: str) -> str:
    """A word with the capitals of the one it stands for."""
    if old.isupper() and len(old) > 1:
        return new.upper()
    return " ".join(
        word[:1].upper() + word[1:] if old.split()[min(index, len(old.split()) - 1)][:1].isupper() else word.lower()
        for index, word in enumerate(new.split())
    )


def in_style(token: Token, name: str) -> str:
    """A stitch in the author's way of writing: `Purl` for `Knit`, `p` for `k`."""
    if name.lower() == token.text.lower():
        return token.text
    long = _LONG.get(token.text.lower()) if len(token.text) > 1 else None
    return like(token.text, long or name) if name in ("k", "p") else name


def work_span(work: tuple[Action, ...]) -> Span:
    """The place of a row's acts, from the first to the last."""
    acts = list(work)
    span = acts[0].span
    for act in acts[1:]:
        span = span.to(act.span)
    return span


def replaced(tokens: Sequence[Token], places: list[tuple[Span, str]]) -> str:
    """The words of a line with some stretches exchanged; a new stretch begins as the old one did."""
    out: list[str] = []
    done: set[int] = set()
    for token in tokens:
        inside = next(
            (index for index, (span, _) in enumerate(places) if span.start <= token.span.start < span.end), None
        )
        if inside is None:
            out.append(token.text)
        elif inside not in done:
            done.add(inside)
            words = places[inside][1]
            capital = _begins_with_capital(tokens, places[inside][0])
            out.append(_with_capital(words) if capital else words)
    return "".join(out)


def _begins_with_capital(tokens: Sequence[Token], place: Span) -> bool:
    inside = "".join(token.text for token in tokens if place.start <= token.span.start < place.end)
    return next((sign.isupper() for sign in inside if sign.isalpha()), False)


def _with_capital(words: str) -> str:
    at = next((index for index, sign in enumerate(words) if sign.isalpha()), 0)
    return words[:at] + words[at : at + 1].upper() + words[at + 1 :]
