"""A part that readers look for is missing.

Publishers and knitters expect, beside the instructions: a summary, the designer, a version and a date (two printings
that look alike, one with the fault, are a known trouble), finishing, care, where to ask for help, and the terms of use.
A source that is a fragment says `excerpt: true` and is left alone.

Fires:
    care: ""

Silent:
    care: "Hand wash cool."
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import Finish
from castoff.span import Text

RULE = Rule("part-missing", "warning", __doc__ or "")

_MAKING_UP = re.compile(r"finish|making up|make up|to make|block", re.IGNORECASE)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each part that is missing."""
    pattern = evidence.pattern
    if pattern.excerpt:
        return
    finishing = any(isinstance(placed.node, Finish) for placed in evidence.placed) or any(
        _MAKING_UP.search(section.title.value) for section in pattern.sections
    )
    parts = (
        (_said(pattern.summary), "summary", "`summary:` tells in a sentence what it is and how it is worked"),
        (_said(pattern.designer), "designer", "`designer:` names who is to be asked and thanked"),
        (_said(pattern.version), "version", 'number this printing, such as `version: "1.0.0"`'),
        (pattern.date is not None, "date", "`date: 2026-11-01` tells one printing from the next"),
        (finishing, "finishing", "end with a section that tells about ends, seams and blocking"),
        (_said(pattern.care), "care", "`care:` tells how to wash it"),
        (_said(pattern.help), "word of where to ask for help", "`help:` gives an address for questions"),
        (_said(pattern.terms_of_use), "terms of use", "`terms_of_use:` tells what the buyer may do with it"),
    )
    for there, name, hint in parts:
        if not there:
            yield Diagnostic.of(RULE, f"the pattern has no {name}", pattern.title.span(), hint=hint)


def _said(text: Text | None) -> bool:
    return text is not None and bool(text.value.strip())
