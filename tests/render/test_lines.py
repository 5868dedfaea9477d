"""Line breaks."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.render import samples

from castoff.document import tree as t
from castoff.render.pdf.faces import Faces, load_faces
from castoff.render.pdf.lines import Voice, set_lines, words_of
from castoff.render.style import load_style

STYLE = load_style("saltmarsh", samples.assets)
FACES: Faces = load_faces(STYLE, samples.assets)
VOICE = Voice(FACES.text, 10.0, 14.0, "#000000")


def broken(inline: t.Inlines, measure: float, indent: float = 0.0) -> list[str]:
    lines = set_lines(words_of(inline, VOICE, FACES), measure, indent)
    assert all(line.width <= measure + 0.1 for line in lines)
    return [line.text.replace("\u00a0", "~") for line in lines]


def test_lines_join_to_the_text() -> None:
    inline = (
        t.Text("Knit every round until the cap measures "),
        t.Strong((t.Text("13 cm"),)),
        t.Text(" from the edge."),
    )
    assert " ".join(broken(inline, 120.0)) == t.plain_text(inline).replace("13 cm", "13~cm")


def test_a_size_list_keeps_its_brackets_and_its_unit() -> None:
    for measure in range(40, 200, 7):
        for line in broken((t.Text("until "), samples.per_size(*range(1100, 1112), unit="sts")), float(measure)):
            for piece in line.split():
                assert piece not in ("(", ")", "sts")


def test_a_short_size_list_is_not_cut_for_a_few_points() -> None:
    inline = (t.Text("With smaller needles cast on "), samples.per_size(80, 88, 96, unit="sts"), t.Text(" and join."))
    assert "80 (88, 96)~sts" in " | ".join(broken(inline, 150.0))


def test_a_number_and_its_unit_stay_together() -> None:
    for measure in range(45, 120, 3):
        assert "4~cm" in " ".join(
            broken((t.Text("Work even for "), t.Quantity("4", "cm"), t.Text(" more")), float(measure))
        )


def test_no_line_begins_with_the_unit_of_the_number_before() -> None:
    inline = (
        t.Text("Cast on "),
        samples.per_size(*range(86, 95)),
        t.Text(" sts. Rep 5 more times, k12, 72 sts, 10 cm."),
    )
    for measure in range(60, 260, 5):
        for line in broken(inline, float(measure)):
            assert line.split("~")[0].split(" ")[0] not in ("sts.", "sts,", "more", "cm.")


def test_a_wide_word_is_cut_not_lost() -> None:
    lines = broken((t.Text("https://example.org/" + "saltgrass" * 12),), 80.0)
    assert "".join(lines) == "https://example.org/" + "saltgrass" * 12


def test_a_line_break_breaks() -> None:
    assert broken((t.Text("one"), t.LineBreak(), t.Text("two")), 200.0) == ["one", "two"]


def test_the_first_line_leaves_its_indent_free() -> None:
    lines = set_lines(words_of((t.Text("knit " * 30),), VOICE, FACES), 100.0, 40.0)
    assert lines[0].placed[0][0] == 40.0
    assert lines[1].placed[0][0] == 0.0


@pytest.mark.parametrize("sizes", [1, 2, 6, 7, 8, 9, 10, 11, 12, 20])
def test_the_house_s_brackets_hold_every_size(sizes: int) -> None:
    groups = t.size_groups(sizes)
    assert sum(groups) == sizes - 1
    assert len(groups) <= 1 or all(2 <= length <= 4 for length in groups)


@settings(deadline=None)  # a loaded machine is no fault of the words
@given(some.lists(some.text(some.characters(codec="latin-1", categories=("L", "N", "P")), min_size=1), min_size=1))
def test_no_word_is_lost(words: list[str]) -> None:
    text = " ".join(words)
    inline = (t.Text(text),)
    lines = set_lines(words_of(inline, VOICE, FACES), 130.0)
    spaces = {ord(" "): None, ord("\u00a0"): None}
    assert "".join(line.text for line in lines).translate(spaces) == text.translate(spaces)
    assert all(line.width <= 130.1 for line in lines)
