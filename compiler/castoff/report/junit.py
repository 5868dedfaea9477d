"""Findings as JUnit XML, for CI servers: one suite per pattern, one failed case per finding.

There is no official standard; this is the common form that CI servers read. Warnings and notes pass and are told in
`system-out`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from xml.etree import ElementTree

from castoff.diagnostic import Diagnostic
from castoff.report.text import in_order, write_finding


def write_junit(findings: Mapping[str, Sequence[Diagnostic]]) -> str:
    """findings: those of each pattern by the name of its source, the clean ones with an empty list."""
    root = ElementTree.Element("testsuites", name="castoff")
    tests = failures = 0
    for source, found in findings.items():
        ordered = in_order(found)
        errors = [each for each in ordered if each.severity == "error"]
        others = [each for each in ordered if each.severity != "error"]
        cases = max(1, len(errors))
        suite = ElementTree.SubElement(
            root, "testsuite", name=source, tests=str(cases), failures=str(len(errors)), errors="0", skipped="0"
        )
        if not errors:
            ElementTree.SubElement(suite, "testcase", name="clean", classname=source, file=source)
        for each in errors:
            case = ElementTree.SubElement(suite, "testcase", name=each.rule.name, classname=source, file=source)
            if each.span is not None:
                case.set("line", str(each.span.line))
            failure = ElementTree.SubElement(case, "failure", message=_plain(each.message), type=each.rule.name)
            failure.text = _plain(write_finding(each))
        if others:
            output = ElementTree.SubElement(suite, "system-out")
            output.text = _plain("\n\n".join(write_finding(each) for each in others))
        tests += cases
        failures += len(errors)
    root.set("tests", str(tests))
    root.set("failures", str(failures))
    root.set("errors", "0")
    ElementTree.indent(root)
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(root, encoding="unicode") + "\n"


def _plain(text: str) -> str:
    """Without the control characters that XML 1.0 cannot hold."""
    return "".join(each if each >= " " or each in "\n\t" else "·" for each in text)
