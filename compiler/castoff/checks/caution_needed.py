"""The piece is for a baby or a child and has parts to be wary of.

Buttons come off and are swallowed, cords and ties catch. The compiler prints the trade's cautions of itself; this note
tells the author which they are, so that the design can be thought over.

Fires:
    audience: baby
    notions: [3 buttons 15 mm]

Silent:
    audience: adult
    notions: [3 buttons 15 mm]
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("caution-needed", "note", __doc__ or "")

_PARTS = re.compile(
    r"\b(?:buttons?|beads?|toy eyes|safety eyes|poppers?|snaps?|sequins?|cords?|i-cord|drawstrings?|ties|ribbon|"
    r"pom-?poms?|tassels?)\b(?!hole)",
    re.IGNORECASE,
)
_PLACES = frozenset({"notion", "work", "notes"})


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each kind of part, at its first place; silent when the author gives a caution of it."""
    audience = evidence.pattern.audience
    if audience.value == "adult":
        return
    given = " ".join(caution.value for caution in evidence.pattern.cautions).casefold()
    seen: set[str] = set()
    for printed in evidence.printed:
        if printed.where not in _PLACES:
            continue
        for match in _PARTS.finditer(printed.text.value):
            part = match.group().casefold().rstrip("s")
            if part in seen or part in given:
                continue
            seen.add(part)
            yield Diagnostic.of(
                RULE,
                f"`{match.group()}` on a piece for a {audience.value}: a caution is printed",
                printed.text.span(match.start(), match.end()),
                hint="say more under `cautions:`, or design it away",
            )
