"""What several patterns share, put in with `use`."""

from pathlib import Path

import jsonschema
import pytest

from castoff.model.shape import json_schema
from castoff.pipeline import Proof, prove, prove_file, shared_of
from castoff.press import Press
from castoff.source.node import plain
from castoff.source.read import read_source
from castoff.world import World, find_sources

SOURCE = """\
written_for: 1
title: Swatch
excerpt: true
sizes: {names: One size}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, needles: larger}
yarns:
  A: {use: worsted, colour: slate}
needles:
  larger: {use: circular}
stitch_patterns:
  dots: {use: dots}
stitches:
  knot: {use: knot}
sections:
  - title: Swatch
    worked: flat
    gauge: stockinette
    notes: {use: swatching}
    work: |
      CO 21 sts.
      Work in dots for 4 rows.
      Next row (RS): K10, knot, k to end.
      BO all sts.
care: {use: wool}
pictures:
  - {use: detail, place: end}
"""
SHARED = """\
yarns:
  worsted: {name: Low Tide Worsted, colour: sand, weight: worsted, ball: 200 m / 100 g}
needles:
  circular: {size: 5 mm, type: circular, length: 60 cm}
stitch_patterns:
  dots: {multiple: 2, plus: 1, rows: "Row 1 (RS): K1, *p1, k1; rep from * to end.\\nRow 2: Purl."}
stitches:
  knot: {takes: 1, makes: 1, words: make a knot}
pictures:
  detail: {file: detail.jpg, alt: A knot, credit: I. Farrow}
paragraphs:
  wool: Hand wash.
  swatching: "Knit a *swatch* first."
"""


def proof(source: str = SOURCE, shared: str | None = SHARED) -> Proof:
    given = None if shared is None else ("shared.yaml", shared.encode())
    return prove("swatch.yaml", source.encode(), World.beside(), shared=given)


def faults(proof: Proof) -> list[tuple[str, str, str | None, str]]:
    return [
        (each.rule.name, each.message, each.hint, "" if each.span is None else each.span.source.name)
        for each in proof.findings
        if each.severity == "error"
    ]


def test_everything_that_can_be_shared_is_put_in() -> None:
    done = proof()
    assert faults(done) == []
    pattern = done.pattern
    assert pattern is not None
    yarn, needle = pattern.yarns[0], pattern.needles[0]
    assert (yarn.name and yarn.name.value, yarn.colour and yarn.colour.value) == ("Low Tide Worsted", "slate")
    assert needle.size_mm == 5 and needle.length is not None and needle.length.value == 600
    assert pattern.stitches[0].words.value == "make a knot"
    assert pattern.care is not None and pattern.care.value == "Hand wash."
    assert pattern.sections[0].notes is not None and pattern.sections[0].notes.value == "Knit a *swatch* first."
    picture = pattern.pictures[0]
    assert (picture.file.value, picture.place and picture.place.value) == ("detail.jpg", "end")
    assert done.knitted is not None and done.knitted.stitches > 0


def test_values_know_the_file_they_were_typed_in() -> None:
    pattern = proof().pattern
    assert pattern is not None
    yarn = pattern.yarns[0]
    assert yarn.name is not None and yarn.colour is not None
    assert (yarn.name.source.name, yarn.colour.source.name) == ("shared.yaml", "swatch.yaml")


def test_a_fault_in_what_is_shared_is_told_in_its_file() -> None:
    done = proof(shared=SHARED.replace("*p1, k1; rep", "*p1, k1, wug; rep"))
    assert {(rule, where) for rule, _, _, where in faults(done)} == {("unread-words", "shared.yaml")}


@pytest.mark.parametrize(
    ("old", "new", "message", "hint"),
    [
        (
            "use: worsted",
            "use: worstd",
            "there is nothing shared under `yarns` that is called `worstd`",
            "did you mean `worsted`?",
        ),
        (
            "use: wool",
            "use: silk",
            "there is nothing shared under `paragraphs` that is called `silk`",
            "there are `wool`, `swatching`",
        ),
    ],
)
def test_a_name_that_is_not_shared(old: str, new: str, message: str, hint: str) -> None:
    assert faults(proof(SOURCE.replace(old, new))) == [("unknown-shared", message, hint, "swatch.yaml")]


def test_nothing_is_shared_without_a_file() -> None:
    found = faults(proof(SOURCE.replace("  knot: {use: knot}\n", "  knot: {takes: 1, makes: 1, words: knot}\n"), None))
    assert len(found) == 6
    assert {hint for _, _, hint, _ in found} == {"write a `shared.yaml` beside the pattern"}


def test_keys_of_the_shared_file_are_held_to_its_shape() -> None:
    assert ("unknown-key", "`yarn` is no key of the shared file", "did you mean `yarns`?", "shared.yaml") in faults(
        proof(shared=SHARED.replace("yarns:", "yarn:"))
    )


def test_use_stands_only_where_something_can_be_shared() -> None:
    found = faults(proof(SOURCE.replace("care: {use: wool}", "designer: {use: wool}")))
    assert [(rule, message) for rule, message, *_ in found] == [
        ("misplaced-value", "`designer` is keys with values; it should be a text")
    ]


def test_an_editor_accepts_what_is_used() -> None:
    root = read_source("swatch.yaml", SOURCE.encode()).value
    assert root is not None
    jsonschema.validate(plain(root), json_schema())
    wrong = read_source("swatch.yaml", SOURCE.replace("{use: dots}", "{plus: 1}").encode()).value
    assert wrong is not None
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(plain(wrong), json_schema())


def test_the_file_lies_beside_the_pattern_or_its_folder_and_is_no_pattern(tmp_path: Path) -> None:
    folder = tmp_path / "patterns"
    folder.mkdir()
    (folder / "swatch.yaml").write_text(SOURCE, "utf-8")
    (folder / "detail.jpg").write_bytes(b"a picture")
    (tmp_path / "shared.yaml").write_text(SHARED, "utf-8")
    assert faults(prove_file(folder / "swatch.yaml")) == []
    (folder / "shared.yaml").write_text(SHARED.replace("make a knot", "make a bow"), "utf-8")
    done = prove_file(folder / "swatch.yaml")
    assert done.pattern is not None and done.pattern.stitches[0].words.value == "make a bow"
    assert [path.name for path in find_sources([folder])] == ["swatch.yaml"]
    assert shared_of(tmp_path / "elsewhere" / "deep") is None


def test_what_is_shared_counts_for_the_digest_of_a_build() -> None:
    one, other = (dict(Press(proof(shared=text), World.beside(), Path()).inputs()) for text in (SHARED, SHARED + "\n"))
    assert one["shared.yaml"] != other["shared.yaml"]
