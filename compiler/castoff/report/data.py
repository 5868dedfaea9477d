"""Findings as JSON, for tools and editors.

In: findings. Out: one JSON object: `{"castoff": version, "findings": [...]}`; lines and columns count from 1, the end
column is the one after the last character.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from castoff import __version__
from castoff.diagnostic import Diagnostic
from castoff.report.text import in_order
from castoff.span import Span


def write_json(findings: Sequence[Diagnostic]) -> str:
    """The findings as indented JSON with a line end."""
    body = {"castoff": __version__, "findings": [_finding(each) for each in in_order(findings)]}
    return json.dumps(body, ensure_ascii=False, indent=2) + "\n"


def _place(span: Span | None) -> dict[str, Any] | None:
    if span is None:
        return None
    line, column = span.source.place(span.start)
    end_line, end_column = span.end_place
    return {"file": span.source.name, "line": line, "column": column, "end_line": end_line, "end_column": end_column}


def _finding(finding: Diagnostic) -> dict[str, Any]:
    return {
        "rule": finding.rule.name,
        "severity": finding.severity,
        "message": finding.message,
        "sizes": list(finding.sizes),
        "hint": finding.hint,
        "place": _place(finding.span),
        "related": [{"message": other.message, "place": _place(other.span)} for other in finding.related],
    }
