"""Which factor a pattern is held to."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text


def told(fragment: str) -> list[tuple[str, str | None]]:
    findings = prove_text("a.yaml", with_fragment(fragment)).findings
    return [(finding.message, finding.hint) for finding in findings if finding.rule.name == "conversion-off"]


@pytest.mark.parametrize(
    ("notes", "messages"),
    [
        # one factor explains them all: 2.5, though the first pair would do by both
        ("8 in / 20 cm, 40 in / 100 cm, 60 in / 150 cm", []),
        ("8 in / 20 cm, 40 in / 101.5 cm, 60 in / 152.5 cm", []),
        # two by 2.54, one by 2.5: the odd one is told
        (
            "40 in / 101.5 cm, 50 in / 127 cm, 60 in / 150 cm",
            ["60 in is 152.5 cm by 2.54, not 150 cm"],
        ),
        ("40 in / 100 cm, 50 in / 125 cm, 60 in / 152.5 cm", ["60 in is 150 cm by 2.5, not 152.5 cm"]),
        # a slip is caught under both
        ("40 in / 110 cm", ["40 in is 101.5 cm by 2.54, not 110 cm"]),
        # the gauge square of the trade
        ("20 sts to 4 in / 10 cm", []),
        ("50 g / 1.75 oz and 220 yd / 200 m", []),
        ("50 g / 2.5 oz", ["50 g is 1¾ oz, not 2½ oz"]),
        ("180 yd / 200 m", ["180 yd is 165 m, not 200 m"]),
        ("to fit 86–91 cm (34–36 in)", []),
        ("to fit 86–97 cm (34–36 in)", ["97 cm is 38¼ in by 2.54, not 36 in"]),
    ],
)
def test_without_a_declared_factor(notes: str, messages: list[str]) -> None:
    assert [message for message, _ in told(f'notes: "{notes}"')] == messages


def test_a_declared_factor_wins() -> None:
    assert told('inch: 2.54\nnotes: "40 in / 100 cm, 60 in / 150 cm"') == [
        ("40 in is 101.5 cm by 2.54, not 100 cm", "40 in / 101.5 cm, or 39¼ in / 100 cm"),
        ("60 in is 152.5 cm by 2.54, not 150 cm", "60 in / 152.5 cm, or 59 in / 150 cm"),
    ]


@pytest.mark.parametrize(
    ("length", "right"),
    [
        ("16 in / 40 cm", True), ("16 in / 41 cm", True), ("24 in / 60 cm", True), ("32 in / 80 cm", True),
        ("29 in / 75 cm", True), ("40 in / 100 cm", True), ("40 in / 80 cm", False), ("24 in / 70 cm", False),
    ],
)  # fmt: skip
def test_circular_needles_are_sold_under_names(length: str, right: bool) -> None:
    needles = f"inch: 2.54\nneedles: {{larger: {{size: 5 mm, type: circular, length: {length}}}}}"
    assert (told(needles) == []) is right


def test_the_sizes_concerned_are_named() -> None:
    fragment = (
        'sizes: {names: "S (M, L)"}\n'
        'measurements: {width: {label: Width, is: "20 cm", of: width of Swatch}}\n'
        'notes: "Sleeves of 17 (18, 19) in / 43 (46, 49) cm."'
    )
    (finding,) = [f for f in prove_text("a.yaml", with_fragment(fragment)).findings if f.rule.name == "conversion-off"]
    assert finding.sizes == ("L",)
    assert finding.message == "size L: 19 in is 48.5 cm by 2.54, not 49 cm"
