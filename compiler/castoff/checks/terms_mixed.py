"""US and UK words stand side by side.

A reader who meets "cast off" in the back and "bind off" in the sleeve looks for the difference. The source says under
`terms:` whose words it is written in; an edition in the other terms is made from it.

Fires:
    terms: US
    notes: "Cast off loosely, then bind off the other edge."

Silent:
    terms: US
    notes: "Bind off loosely, keeping an even tension."
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.checks.printed_words import Printed
from castoff.diagnostic import Diagnostic, Related, Rule

RULE = Rule("terms-mixed", "warning", __doc__ or "")

# Of the trade's pairs only those whose words the other side does not use at all: tension, grafting, jumper and moss
# stitch mean something on both, and spelling is no term.
_TELLING = frozenset({
    "bind off", "binding off", "bound off", "bind-off", "BO", "stockinette stitch", "stockinette", "reverse stockinette",
    "reverse stockinette stitch", "work even", "working even", "knit even",
})  # fmt: skip
_NOT_READ = frozenset({"yarn", "history", "picture", "formula"})


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each word of the other country, at its first place."""
    terms = evidence.pattern.terms
    seen: set[str] = set()
    for printed in evidence.printed:
        if printed.where in _NOT_READ:
            continue
        for start, end, instead in _foreign(evidence, printed):
            found = printed.text.value[start:end]
            if found.casefold() in seen:
                continue
            seen.add(found.casefold())
            other = "UK" if terms.value == "US" else "US"
            yield Diagnostic.of(
                RULE,
                f"`{found}` in a pattern in {terms.value} terms",
                printed.text.span(start, end),
                hint=f"write `{instead}`, or `terms: {other}` when the whole pattern is in {other} words",
                related=() if terms.span is None else (Related(terms.span, "the terms are declared here"),),
            )


def _foreign(evidence: Evidence, printed: Printed) -> Iterator[tuple[int, int, str]]:
    terms = evidence.pattern.terms.value
    book = evidence.trade.terms
    for term in book.foreign(printed.text.value, terms):
        if term.pair.name in _TELLING:
            yield term.start, term.end, term.instead
    if terms == "US":
        names = "|".join(dict.fromkeys(word for _, _, word in book.yarn_overs))
        for match in re.finditer(rf"\b(?:{names})\b", printed.text.value, re.IGNORECASE):
            yield match.start(), match.end(), "yo"
