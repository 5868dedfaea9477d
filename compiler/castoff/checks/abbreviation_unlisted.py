"""An abbreviation is used and not explained.

Only where the author types the list (`abbreviations:`); the compiler's own list is made from use. A reader who meets
`skp` and does not find it stops knitting.

Fires:
    abbreviations: {CO: cast on, st(s): stitch(es), st st: stockinette stitch}

Silent:
    abbreviations: {CO: cast on, BO: bind off, st(s): stitch(es), st st: stockinette stitch}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.checks.short_forms import explained, used_short_forms
from castoff.diagnostic import Diagnostic, Related, Rule

RULE = Rule("abbreviation-unlisted", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each short form that the typed list does not explain, at its first use."""
    listed = evidence.pattern.abbreviations
    if not listed:
        return
    known = explained(evidence)
    for form in used_short_forms(evidence):
        if form.name.casefold() not in known and form.as_written.casefold() not in known:
            words = f"{form.name}: {form.words}" if form.words else f"{form.name}: …"
            yield Diagnostic.of(
                RULE,
                f"`{form.as_written}` is used and not explained",
                form.span,
                hint=f"add `{words}` under `abbreviations:`",
                related=(Related(listed[0].key.span(), "the list begins here"),),
            )
