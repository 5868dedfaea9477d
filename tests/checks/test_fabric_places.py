"""Measures that name sections, and names that differ in capitals alone."""

from tests.checks.tiny_pattern import TINY

from castoff.pipeline import prove_text

EDGE = TINY.replace("@\n", "").replace("title: Edge", "title: swatch")


def test_a_measure_of_a_section_that_is_off_is_told() -> None:
    more = "of: width of Swatch}\n  edge: {label: Edge, is: 9 cm, of: length of Edge"
    source = TINY.replace("@\n", "").replace("of: width of Swatch", more)
    (finding,) = [each for each in prove_text("tiny.yaml", source).findings if each.rule.name == "measurement-off"]
    assert finding.message.startswith("`Edge`: 9 cm is printed")


def test_a_piece_goes_before_a_section_of_the_same_name() -> None:
    assert "title: swatch" in EDGE
    off = EDGE.replace("is: 20 cm, of: width of Swatch", "is: 10 cm, of: length of Swatch")
    assert [each.message for each in prove_text("tiny.yaml", off).findings] == []
