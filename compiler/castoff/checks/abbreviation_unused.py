"""An abbreviation is explained and never used.

Only where the author types the list (`abbreviations:`). A list carried over from another pattern hides the few lines
that the reader needs.

Fires:
    abbreviations: {CO: cast on, BO: bind off, st(s): stitch(es), ssp: slip slip purl, st st: stockinette}

Silent:
    abbreviations: {CO: cast on, BO: bind off, st(s): stitch(es), st st: stockinette}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.checks.short_forms import spellings, used_short_forms
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("abbreviation-unused", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each entry of the typed list that no text uses."""
    listed = evidence.pattern.abbreviations
    if not listed:
        return
    used = {name.casefold() for form in used_short_forms(evidence) for name in (form.name, form.as_written)}
    words = "\n".join(printed.text.value for printed in evidence.printed if printed.where != "front")
    for entry in listed:
        forms = spellings(entry.key.value)
        if any(form.casefold() in used for form in forms):
            continue
        # "k" also stands in k2 and k2tog's list entry "k2tog" only for itself
        if any(
            re.search(rf"(?<![A-Za-z]){re.escape(form)}(?=\d|(?![A-Za-z\d]))", words, re.IGNORECASE) for form in forms
        ):
            continue
        yield Diagnostic.of(
            RULE,
            f"`{entry.key.value}` is explained and never used",
            entry.key.span(),
            hint="take it off the list",
        )
