"""A placeholder of the template is still there.

Looks for what authors and page templates leave where a figure or a name is to come: `xx`, `???`, `TBD`, `TODO`, `lorem
ipsum`, `NAME HERE`, a spreadsheet's `#REF!`. Published sheets have gone to print with them.

Fires:
    notes: "The sample took xx balls."

Fires:
    care: TBD

Silent:
    notes: "The sample took 2 balls."
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("placeholder-left", "error", __doc__ or "")

_PLACEHOLDER = re.compile(
    r"\b(?:xx|XX|xxx|XXX|TBD|TBC|TK|TODO|FIXME|TBA|tbd|tbc)\b|\?{2,}|_{3,}|\blorem ipsum\b|\blorem\b"
    r"|\b(?:NAME|TITLE|NUMBER|DATE|PHOTO|PICTURE|TEXT|YARN|ADDRESS|INSERT) HERE\b|\[(?:insert|fill in)[^\]]*\]"
    r"|#(?:REF!|N/A|VALUE!|DIV/0!|NAME\?|NUM!)"
)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each placeholder."""
    names = set(evidence.sizes)
    for printed in evidence.printed:
        for match in _PLACEHOLDER.finditer(printed.text.value):
            if match.group() in names:
                continue
            yield Diagnostic.of(
                RULE,
                f"`{match.group()}` is a placeholder",
                printed.text.span(match.start(), match.end()),
                hint="put the figure or the words in its place",
            )
