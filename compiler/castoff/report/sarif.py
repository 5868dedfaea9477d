"""Findings as SARIF 2.1.0 (OASIS Static Analysis Results Interchange Format), for code hosts and CI.

In: findings. Out: one SARIF log with one run. Columns are counted in Unicode code points.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import PurePath
from typing import Any
from urllib.parse import quote

from castoff import __version__
from castoff.diagnostic import Diagnostic, Rule
from castoff.report.text import in_order
from castoff.span import Span

_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def write_sarif(findings: Sequence[Diagnostic]) -> str:
    """The findings as a SARIF log with a line end; the rules that fired are described in the tool's driver."""
    ordered = in_order(findings)
    rules: list[Rule] = sorted({each.rule.name: each.rule for each in ordered}.values(), key=lambda rule: rule.name)
    index = {rule.name: at for at, rule in enumerate(rules)}
    log = {
        "$schema": _SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {
                    "driver": {
                        "name": "castoff",
                        "semanticVersion": __version__,
                        "rules": [_rule(rule) for rule in rules],
                    }
                },
                "columnKind": "unicodeCodePoints",
                "results": [_result(each, index[each.rule.name]) for each in ordered],
            }
        ],
    }
    return json.dumps(log, ensure_ascii=False, indent=2) + "\n"


def _rule(rule: Rule) -> dict[str, Any]:
    return {
        "id": rule.name,
        "shortDescription": {"text": rule.summary},
        "fullDescription": {"text": rule.text},
        "help": {"text": rule.text},
        "defaultConfiguration": {"level": rule.severity},
    }


def _result(finding: Diagnostic, index: int) -> dict[str, Any]:
    text = finding.message
    if finding.sizes:
        text += f" (sizes: {', '.join(finding.sizes)})"
    if finding.hint is not None:
        text += f". Hint: {finding.hint}"
    result: dict[str, Any] = {
        "ruleId": finding.rule.name,
        "ruleIndex": index,
        "level": finding.severity,
        "message": {"text": text},
    }
    if finding.span is not None:
        result["locations"] = [_location(finding.span)]
    if finding.related:
        result["relatedLocations"] = [
            {**_location(other.span), "message": {"text": other.message}} for other in finding.related
        ]
    return result


def _location(span: Span) -> dict[str, Any]:
    line, column = span.source.place(span.start)
    end_line, end_column = span.end_place
    return {
        "physicalLocation": {
            "artifactLocation": {"uri": quote(PurePath(span.source.name).as_posix())},
            "region": {"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column},
        }
    }
