"""An edition in the other country's words is knitted again before it is set, and is not set when it says something else."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from castoff.document import tree as t
from castoff.document.edition import Edition, parse_edition
from castoff.model.house import House
from castoff.pipeline import prove_file
from castoff.press import Press
from castoff.read_back import mind_the_words, printed_rows
from castoff.world import World

ROOT = Path(__file__).parents[2]
SOURCES = sorted([*(ROOT / "patterns").glob("*-*.yaml"), *(ROOT / "tests" / "typed_patterns").glob("*.yaml")])


def press_of(path: Path) -> Press:
    return Press(prove_file(path), World.beside(path), path.parent, House())


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_every_pattern_has_an_edition_in_the_other_country_s_words(path: Path) -> None:
    press = press_of(path)
    assert press.proof.pattern is not None
    other = "UK" if press.proof.pattern.terms.value == "US" else "US"
    for words in ("text", "text words", "imperial text size=1"):
        edition = parse_edition(f"{words} {other.lower()}", press.proof.pattern.sizes.labels)
        made = press.print(edition)
        assert [finding.message for finding in made.findings] == []
        assert made.value is not None


def turned(document: t.Document, old: str, new: str) -> t.Document:
    """The document with one thing said otherwise in its first row that says it."""

    def blocks(given: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(
            replace(block, rows=tuple(map(row, block.rows))) if isinstance(block, t.InstructionList) else block
            for block in given
        )

    def row(given: t.InstructionRow) -> t.InstructionRow:
        said = t.plain_text(given.text)
        return replace(given, text=(t.Text(said.replace(old, new)),)) if old in said else given

    return replace(document, blocks=blocks(document.blocks))


CAP = ROOT / "patterns" / "saltgrass-cap.yaml"


def told(old: str, new: str) -> list[str]:
    press = press_of(CAP)
    edition = Edition(terms="UK")
    own = press.compose(Edition()).value
    printed = turned(press.compose(edition).value, old, new)
    assert printed_rows(printed) != printed_rows(press.compose(edition).value)
    return [
        f"{'/'.join(finding.sizes)}: {finding.message}"
        for finding in mind_the_words(press.proof, edition, printed, own)
    ]


def test_a_row_that_means_something_else_is_told_with_its_counts() -> None:
    first, *_ = told("k2tog", "k3tog")
    assert first.startswith(": the UK edition says `Rnd 1: *K9 (10, 11, 12, 13), k3tog, pm;")
    assert first.endswith("= 96 (104, 112, 120, 128); 88 (96, 104, 112, 120) sts are on the needle")


def test_a_row_that_keeps_its_counts_but_not_its_stitches_is_told_by_size() -> None:
    assert told("K2, p2", "K2, k2") == [
        "XS/S/M/L/XL: the UK edition is knitted differently in section `Brim`: in size XS row 1 is "
        "88 → 88 sts (RS, round: 88 k) instead of 88 → 88 sts (RS, round: 44 k, 44 p)"
    ]


def test_rows_too_many_are_told() -> None:
    found = told("Rep last 2 rnds until 16 sts rem", "Rep last 2 rnds until 24 sts rem")
    assert found


def test_a_row_that_can_no_longer_be_read_is_told() -> None:
    found = told("k2tog", "gather")
    assert found
    assert all("the UK edition says `" in line and "`gather" in line for line in found)


def test_the_same_words_are_not_knitted_again() -> None:
    press = press_of(CAP)
    own = press.compose(Edition()).value
    assert list(mind_the_words(press.proof, Edition(terms="UK"), own, own)) == []


def test_a_house_whose_table_of_words_is_wrong_gets_no_such_edition(tmp_path: Path) -> None:
    source = ROOT / "patterns" / "skipjack-jumper.yaml"
    copy = tmp_path / source.name
    copy.write_bytes(source.read_bytes())
    table = tmp_path / "templates" / "trade" / "terms.yaml"
    table.parent.mkdir(parents=True)
    shipped = (ROOT / "templates" / "trade" / "terms.yaml").read_text("utf-8")
    assert "work even, uk: work straight" in shipped
    table.write_text(shipped.replace("work even, uk: work straight", "work even, uk: purl"), "utf-8")
    press = press_of(copy)
    assert press.print(parse_edition("us text")).value is not None
    made = press.print(parse_edition("uk text"))
    assert made.value is None
    assert {finding.rule.name for finding in made.findings} == {"edition-reads-differently"}
    assert all(finding.span is not None and finding.span.source.name.endswith(source.name) for finding in made.findings)
