"""The change history does not know this version.

Readers tell from the history whether their copy has the fault that was mended. The version printed on the page must
have its line there, with the same date.

Fires:
    version: "1.1.0"
    history: [{version: "1.0.0", date: 2026-11-01, change: First published.}]

Silent:
    version: "1.0.0"
    history: [{version: "1.0.0", date: 2026-11-01, change: First published.}]
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule

RULE = Rule("history-behind", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """A finding when the version has no line in the history, or one of another date."""
    pattern = evidence.pattern
    if pattern.version is None or pattern.excerpt:
        return
    version = pattern.version.value
    entry = next((change for change in pattern.history if change.version.value == version), None)
    if entry is None:
        listed = ", ".join(f"`{change.version.value}`" for change in pattern.history) or "nothing"
        date = pattern.date.value.isoformat() if pattern.date is not None else "2026-11-01"
        yield Diagnostic.of(
            RULE,
            f"this is version `{version}`, and the history lists {listed}",
            pattern.version.span(),
            hint=f'add `- {{version: "{version}", date: {date}, change: …}}` under `history:`',
        )
    elif pattern.date is not None and pattern.date.span is not None and entry.date.value != pattern.date.value:
        yield Diagnostic.of(
            RULE,
            f"version `{version}` is dated {pattern.date.value.isoformat()} here, "
            f"and {entry.date.value.isoformat()} in the history",
            pattern.date.span,
            related=(Related(entry.version.span(), "the history's line"),),
        )
