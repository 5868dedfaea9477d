"""A finding as people and machines see it."""

import json
from pathlib import Path
from xml.etree import ElementTree

import jsonschema
import pytest

from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.report.data import write_json
from castoff.report.junit import write_junit
from castoff.report.sarif import write_sarif
from castoff.report.text import summary, write_finding, write_findings
from castoff.span import SourceFile, Span

SOURCE = SourceFile("cap.yaml", "title: Cap\nwork: |\n  Rnd 1: K12, p6, k54.\n  Rnd 2: Knit.\n")
RULE = Rule("stitches-missing", "error", "A row asks for more stitches than the needle holds.\n\nWhy it matters.")
HEURISTIC = Rule("size-step-uneven", "warning", "One size steps out of line.")


def span(words: str) -> Span:
    start = SOURCE.text.index(words)
    return Span(SOURCE, start, start + len(words))


def finding() -> Diagnostic:
    return Diagnostic.of(
        RULE,
        "k12 + p6 + k54 = 72; 70 sts are on the needle",
        span("K12, p6, k54"),
        sizes=["M", "L"],
        hint="k52",
        related=[Related(span("Cap"), "said here")],
    )


def test_text_shows_the_line_a_marker_the_sizes_and_the_way_out() -> None:
    assert write_finding(finding()) == (
        "error[stitches-missing]: k12 + p6 + k54 = 72; 70 sts are on the needle\n"
        " --> cap.yaml:3:10\n"
        "  |\n"
        "3 |   Rnd 1: K12, p6, k54.\n"
        "  |          ^^^^^^^^^^^^\n"
        "  = sizes: M, L\n"
        "  = hint: k52\n"
        "  = said here:\n"
        " --> cap.yaml:1:8\n"
        "  |\n"
        "1 | title: Cap\n"
        "  |        ---"
    )


def test_sizes_that_hold_commas_are_parted_by_semicolons() -> None:
    told = Diagnostic.of(RULE, "unread", span("Cap"), sizes=["M, cup B", "L, cup D"])
    assert "= sizes: M, cup B; L, cup D\n" in write_finding(told) + "\n"


def test_a_page_is_read_without_the_indent_of_the_code() -> None:
    rule = Rule("link-broken", "error", """A link leads nowhere.

        Why it matters.

        Fires:
            notes: See.
        """)  # fmt: skip
    text = "A link leads nowhere.\n\nWhy it matters.\n\nFires:\n    notes: See."
    assert rule.text == text
    assert rule.summary == "A link leads nowhere."
    (told,) = json.loads(write_sarif([Diagnostic.of(rule, "unread", None)]))["runs"][0]["tool"]["driver"]["rules"]
    assert told["help"]["text"] == told["fullDescription"]["text"] == text


def test_a_long_line_is_cut_around_its_marker() -> None:
    text = "Rnd 1: " + "k1, " * 100 + "wrong, " + "p1, " * 100
    source = SourceFile("long.yaml", text)
    start = text.index("wrong")
    shown = write_finding(Diagnostic.of(RULE, "unread", Span(source, start, start + 5)))
    line, marker = shown.splitlines()[-2:]
    assert len(line) < 120
    assert line[marker.index("^") : marker.rindex("^") + 1] == "wrong"


def test_control_characters_do_not_reach_the_terminal() -> None:
    source = SourceFile("odd.yaml", "a\x1b[31m\tb")
    shown = write_finding(Diagnostic.of(RULE, "odd", Span(source, 0, 1)))
    assert "\x1b" not in shown


def test_colour_adds_codes_and_no_words() -> None:
    import re

    coloured = write_findings([finding()], colour=True)
    assert "\x1b[1;31m" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == write_findings([finding()])


@pytest.mark.parametrize(
    ("severities", "line"),
    [
        ([], "no findings in 3 patterns"),
        (["error"], "1 error in 3 patterns"),
        (["error", "error", "warning"], "2 errors and 1 warning in 3 patterns"),
    ],
)
def test_summary(severities: list[str], line: str) -> None:
    rules = {"error": RULE, "warning": HEURISTIC}
    findings = [Diagnostic.of(rules[each], f"{at}", None) for at, each in enumerate(severities)]
    assert summary(findings, 3) == line


def test_json_counts_lines_and_columns_from_one() -> None:
    (only,) = json.loads(write_json([finding()]))["findings"]
    assert only["place"] == {"file": "cap.yaml", "line": 3, "column": 10, "end_line": 3, "end_column": 22}
    assert only["sizes"] == ["M", "L"]
    assert only["hint"] == "k52"


def test_sarif_is_valid_by_its_published_schema() -> None:
    # OASIS SARIF 2.1.0, schema as shipped (MIT) in the npm package @microsoft/jest-sarif 1.0.0-beta.0
    schema = json.loads((Path(__file__).parents[1] / "data" / "sarif-2.1.0-rtm.5.json").read_text("utf-8"))
    whole_file = Diagnostic.of(HEURISTIC, "no place", None)
    log = json.loads(write_sarif([finding(), whole_file]))
    jsonschema.Draft4Validator(schema).validate(log)
    results = log["runs"][0]["results"]
    assert [each["level"] for each in results] == ["warning", "error"]
    region = results[1]["locations"][0]["physicalLocation"]["region"]
    assert region == {"startLine": 3, "startColumn": 10, "endLine": 3, "endColumn": 22}
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    assert [rules[each["ruleIndex"]]["id"] for each in results] == [each["ruleId"] for each in results]


def test_the_schema_can_refuse() -> None:
    schema = json.loads((Path(__file__).parents[1] / "data" / "sarif-2.1.0-rtm.5.json").read_text("utf-8"))
    log = json.loads(write_sarif([finding()]))
    del log["runs"][0]["tool"]["driver"]["name"]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft4Validator(schema).validate(log)


def test_junit_counts_failures_and_keeps_clean_patterns() -> None:
    warning = Diagnostic.of(HEURISTIC, "steps \x01 out", None)
    root = ElementTree.fromstring(write_junit({"cap.yaml": [finding(), warning], "sock.yaml": []}).encode())
    assert (root.get("tests"), root.get("failures")) == ("2", "1")
    cap, sock = root
    assert cap.find("testcase/failure") is not None
    assert "size-step-uneven" in (cap.findtext("system-out") or "")
    assert sock.find("testcase/failure") is None


@pytest.mark.parametrize("at", [0, 60, 300, 590])
def test_a_marker_stands_under_its_words_in_a_terminal_of_eighty_columns(at: int) -> None:
    words = " ".join(f"word{number:03}" for number in range(75))
    source = SourceFile("long.yaml", "\n" * 9998 + words)
    start = len(words.encode()) * at // 600 // 8 * 8
    span = Span(source, 9998 + start, 9998 + start + 7)
    shown = write_finding(Diagnostic.of(RULE, "a fault", span)).splitlines()
    line, marker = shown[-2:]
    assert all(len(each) <= 80 for each in shown)
    assert line[marker.index("^") : marker.rindex("^") + 1] == words[start : start + 7]


def test_words_are_wrapped_for_a_terminal_and_kept_on_one_line_for_a_file() -> None:
    source = SourceFile("cap.yaml", "work: Rnd 1: k3.\n")
    long = "12 + 13 + 14 + 15 + 16 + 17 + 18 = 105; 106 sts are on the needle, and so it is told in one sentence more"
    finding = Diagnostic(
        Rule("too-few-stitches", "error", "a row", "3"),
        long,
        Span(source, 6, 10),
        hint=long,
        related=(Related(Span(source, 6, 10), long),),
    )
    whole = write_finding(finding)
    folded = write_finding(finding, columns=60)
    assert max(map(len, folded.split("\n"))) <= 60
    assert max(map(len, whole.split("\n"))) > 100
    assert folded.split() == whole.split()
    painted = write_finding(finding, columns=60, colour=True)
    assert painted.count("\n") == folded.count("\n")
