"""The house's texts."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.document.sources import ROOT

from castoff.document.texts import Texts
from castoff.world import World

FILES = {
    "texts/yarn.j2": "{# head #}\n{% block name %}\n{{ name }}\n{% if colour %}\n in {{ colour }}\n"
    "{% endif %}\n, knitted.\n{% endblock %}\n"
    "{% block wrong %}\n\n{{ nmae }}{% endblock %}\n{% block odd %}{{ 1 / 0 }}{% endblock %}\n"
    "{% block sly %}{{ ().__class__.__mro__ }}{% endblock %}\n"
    "{% block long %}{% for x in range(1000000) %}x{% endfor %}{% endblock %}",
    "texts/broken.j2": "{% block a %}\nfine\n{% if %}\n{% endblock %}",
}


def texts() -> Texts:
    return Texts(FILES.__getitem__)


def test_a_text_is_one_line_without_a_space_before_a_comma() -> None:
    assert texts().say("yarn", "name", name="Low Tide", colour="slate") == "Low Tide in slate, knitted."
    assert texts().say("yarn", "name", name="Low Tide", colour="") == "Low Tide, knitted."


@pytest.mark.parametrize(
    ("name", "line", "message"),
    [
        ("wrong", 11, "text `wrong`: 'nmae' is undefined"),
        ("odd", 12, "text `odd`: division by zero"),
        ("sly", 13, "text `sly`: access to attribute '__class__' of 'tuple' object is unsafe."),
        ("long", 14, "text `long`: Range too big. The sandbox blocks ranges larger than MAX_RANGE (100000)."),
    ],
)
def test_a_slip_in_a_text_is_found_with_its_line(name: str, line: int, message: str) -> None:
    house = texts()
    assert house.say("yarn", name, name="Low Tide") == ""
    (found,) = house.found
    assert found.rule.name == "text-unusable" and found.severity == "error"
    assert found.span is not None
    assert (found.span.source.name, found.span.line, found.message) == ("templates/texts/yarn.j2", line, message)


def test_a_file_that_is_no_jinja_is_found_once() -> None:
    house = texts()
    assert house.say("broken", "a") == house.say("broken", "a") == ""
    (found,) = house.found
    assert found.span is not None and found.span.line == 3
    assert found.message.startswith("is no usable Jinja2: ")


def test_a_missing_text_names_those_there_are() -> None:
    house = texts()
    house.say("yarn", "weight")
    (found,) = house.found
    assert found.message == "has no text `weight`"
    assert found.hint == "the texts in this file: `long`, `name`, `odd`, `sly`, `wrong`"


def test_a_missing_file_is_a_finding() -> None:
    house = Texts(World(Path("/nowhere")).template)
    assert house.say("front", "sizes") == ""
    assert [found.rule.name for found in house.found] == ["text-unusable"]


def test_every_text_that_ships_can_be_read() -> None:
    house = Texts(World.beside().template)
    for path in sorted((ROOT / "templates" / "texts").glob("*.j2")):
        house.say(path.stem, "no such text")
    assert {found.message for found in house.found} == {"has no text `no such text`"}
    assert len(house.found) >= 8
