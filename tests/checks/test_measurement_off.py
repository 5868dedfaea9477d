"""Printed measurements against the fabric: the places that can be named, and the rounding that is let pass."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text

SHAPED = (
    "Row 1 (RS): K1, m1l, k to last st, m1r, k1. 42 sts.\n"
    "Row 2 (WS): Purl.\n"
    "Place a marker at each end of last row to mark armholes.\n"
    "Work in st st for 12 rows.\n"
    "Row 1 (RS): K1, k2tog, k to last 3 sts, ssk, k1. 40 sts.\n"
    "Row 2 (WS): Purl."
)


def told(measurement: str, work: str = SHAPED) -> list[str]:
    findings = prove_text(
        "a.yaml", with_fragment(f"measurements:\n  it: {{label: It, {measurement}}}\n{work}")
    ).findings
    return [f"{finding.rule.name}: {finding.message}" for finding in findings]


@pytest.mark.parametrize(
    "measurement",
    [
        # 40 sts at 20 to 10 cm are 20 cm, 42 sts are 21 cm; 44 rows at 28 to 10 cm are 15.7 cm
        "is: 20 cm, of: width of Swatch at the cast-on edge",
        "is: 20 cm, of: width of Swatch at the narrowest",
        "is: 21 cm, of: width of Swatch",
        "is: 21 cm, of: width of Swatch after the last increase row",
        "is: 20 cm, of: width of Swatch before the first increase row",
        "is: 20 cm, of: width of Swatch after the decrease row",
        "is: 20 cm, of: width of Swatch at the bind-off edge",
        "is: 42 cm, of: twice the width of Swatch",
        "is: 10.5 cm, of: half the width of Swatch",
        "is: 15.5 cm, of: length of Swatch",
        "is: 6¼ in, of: length of Swatch",
        "is: 8 in, of: width of Swatch at the cast-on edge",
        "is: 8¼ in / 21 cm, of: width of Swatch",
    ],
)
def test_right(measurement: str) -> None:
    assert told(measurement) == []


@pytest.mark.parametrize(
    ("measurement", "message"),
    [
        ("is: 21 cm, of: width of Swatch at the cast-on edge", "21 cm is printed, and 40 sts come to 20 cm"),
        ("is: 20 cm, of: width of Swatch", "20 cm is printed, and 42 sts come to 21 cm"),
        ("is: 16.5 cm, of: length of Swatch", "16.5 cm is printed, and 44 rows come to 15.5 cm"),
        ("is: 8¾ in, of: width of Swatch", "8¾ in is printed, and 42 sts come to 8¼ in"),
        ("is: 21 cm, of: twice the width of Swatch", "21 cm is printed, and 2 × 42 sts come to 42 cm"),
    ],
)
def test_wrong(measurement: str, message: str) -> None:
    assert told(measurement) == [f"measurement-off: `It`: {message}"]


@pytest.mark.parametrize(
    ("measurement", "message"),
    [
        ("is: 20 cm, of: the Swatch", "`the Swatch` does not say what is measured"),
        ("is: 20 cm, of: width of Sleeve", "there is no piece `Sleeve`"),
        ("is: 20 cm, of: width of Swatch after the moon", "`after the moon` is no place across `Swatch`"),
    ],
)
def test_places_that_are_not_found(measurement: str, message: str) -> None:
    assert told(measurement) == [f"measurement-unplaced: `It`: {message}"]


def test_finished_chest_is_held_against_back_and_front() -> None:
    sections = "".join(
        f"""
  - title: {title}
    piece: {title}
    worked: flat
    gauge: stockinette
    work: |
      CO 80 sts.
      Work in st st for 28 rows.
      BO all sts."""
        for title in ("Back", "Front")
    )
    for printed, expected in (
        ("80 cm", []),
        ("81 cm", ["measurement-off: `Finished chest`: 81 cm is printed, and 80 sts + 80 sts come to 80 cm"]),
    ):
        fragment = f"sections:{sections}\n  - title: Finishing\n    work: |\n      Weave in ends."
        measurements = f"measurements:\n  chest: {{label: Finished chest, is: {printed}}}\n"
        findings = prove_text("a.yaml", with_fragment(measurements + fragment)).findings
        assert [f"{each.rule.name}: {each.message}" for each in findings if each.severity == "error"] == expected


def test_a_length_worked_to_is_as_right_as_its_rows() -> None:
    # to 7 cm ends on row 20 (7.14 cm), then 6 rows: 26 rows are 9.29 cm, the lengths of the text add up to 9.14 cm
    section = (
        "sections:\n  - title: Swatch\n    worked: flat\n    gauge: stockinette\n    work: |\n      CO 40 sts.\n"
        "      Work in st st until piece measures 7 cm, ending with a WS row.\n      Work 6 rows in st st.\n"
        "      BO all sts.\n      Weave in ends."
    )
    for printed, wrong in (("9 cm", False), ("9.5 cm", False), ("8.5 cm", True), ("10 cm", True)):
        fragment = f"measurements:\n  it: {{label: It, is: {printed}, of: length of Swatch}}\n{section}"
        rules = [each.rule.name for each in prove_text("a.yaml", with_fragment(fragment)).findings]
        assert rules == (["measurement-off"] if wrong else []), printed


def test_the_foot_of_a_sock_is_measured_where_it_is_straight() -> None:
    gusset = "Work in st st for 40 rows.\nRow 1 (RS): K1, m1l, k to last st, m1r, k1. 42 sts.\nRow 2 (WS): Purl.\n"
    gusset += "Rep rows 1 and 2 4 more times. 50 sts."

    def heard(label: str, length: str) -> list[str]:
        measurement = f"{{label: {label}, is: {length}, of: width of Swatch}}"
        return [
            finding.message
            for finding in prove_text("a.yaml", with_fragment(f"measurements:\n  it: {measurement}\n{gusset}")).findings
            if finding.rule.name == "measurement-off"
        ]

    assert heard("Foot circumference", "20 cm") == []
    assert heard("Foot circumference", "21 cm") == ["`Foot circumference`: 21 cm is printed, and 50 sts come to 25 cm"]
    assert heard("Around", "20 cm") == ["`Around`: 20 cm is printed, and 50 sts come to 25 cm"]
