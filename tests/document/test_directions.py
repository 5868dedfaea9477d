"""Sizes in two directions and choices, in print."""

from dataclasses import replace
from pathlib import Path
from typing import TypeVar

import pytest
from tests.model.test_directions import proof

from castoff.document.edition import parse_edition
from castoff.document.tree import Document, Heading, InstructionList, Paragraph, Table, TitlePage, plain_text
from castoff.knitting.fabric import SizeKnitted
from castoff.press import Press
from castoff.read_back import knit_again, mind_the_words, printed_rows
from castoff.world import World

T = TypeVar("T")


def composed(words: str, *lines: str) -> Document:
    done = proof(*lines)
    assert done.pattern is not None
    edition = parse_edition(words, done.pattern.sizes.labels)
    return Press(done, World.beside(), Path()).compose(edition).value


def every(document: Document, kind: type[T]) -> list[T]:
    return [block for block in document.blocks if isinstance(block, kind)]


def rows(document: Document) -> list[list[str]]:
    return [
        [plain_text(row.text).replace("\u00a0", " ") for row in each.rows] for each in every(document, InstructionList)
    ]


def test_rows_part_the_second_direction_by_bars() -> None:
    document = composed("metric", "Row 5: K{dart}, k to end. {front} sts.")
    notes = [plain_text(each.inline) for each in every(document, Paragraph)]
    assert "Where numbers differ between cup B and cup D, they are parted by a bar: cup B | cup D." in notes
    assert rows(document)[0][0] == "CO 84 (92, 100) | 90 (98, 106) sts."
    assert rows(document)[0][2] == "K4 | 8, k to end."


def test_prose_names_the_part_that_a_list_is_for() -> None:
    notes = [plain_text(each.inline).replace("\u00a0", " ") for each in every(composed("metric"), Paragraph)]
    fronts, darts = "cup B: 84 (92, 100), cup D: 90 (98, 106)", "cup B: 4, cup D: 8"
    wanted = f"{fronts} sts, a dart of {darts} sts, a neck of crew neck: 8 cm, V neck: 18 cm."
    assert wanted in notes


def test_tables_have_the_first_sizes_across_and_the_others_down() -> None:
    table = next(each for each in every(composed("metric"), Table) if each.key == "sizes-metric")
    told = [[plain_text(cell.inline) for cell in row] for row in (*table.head, *table.body)]
    assert told[0][1:] == ["S", "M", "L"]
    assert told[1:3] == [["To fit bust, cup B", "84", "92", "100"], ["To fit bust, cup D", "90", "98", "106"]]


def test_a_section_says_for_which_choice_it_is() -> None:
    document = composed("metric")
    at = [plain_text(b.inline) if isinstance(b, (Heading, Paragraph)) else "" for b in document.blocks]
    assert at[at.index("V neck") + 1] == "For the V neck only."


def test_a_one_size_edition_keeps_one_choice() -> None:
    document = composed('metric size="M, cup D, V neck"', "V neck only: Knit 2 rows.", "Crew neck only: Knit 4 rows.")
    assert rows(document) == [["CO 98 sts.", "Knit 4 rows.", "Knit 2 rows."], ["K2tog, k to end.", "BO all sts."]]
    assert "Crew neck" not in [plain_text(each.inline) for each in every(document, Heading)]


def test_an_edition_of_one_choice_has_all_its_sizes_and_nothing_of_the_others() -> None:
    lines = ("V neck only: Knit 2 rows.", "Crew neck only: Knit 4 rows.", "Cup D only: Purl 1 row.")
    document = composed("metric neck=v", *lines)
    assert rows(document) == [
        ["CO 84 (92, 100) | 90 (98, 106) sts.", "Knit 4 rows.", "Knit 2 rows.", "Cup D only: Purl 1 row."],
        ["K2tog, k to end.", "BO all sts."],
    ]
    said = [plain_text(b.inline).replace("\u00a0", " ") for b in document.blocks if isinstance(b, (Heading, Paragraph))]
    assert "Crew neck" not in said and "For the V neck only." not in said
    fronts, darts = "cup B: 84 (92, 100), cup D: 90 (98, 106)", "cup B: 4, cup D: 8"
    assert f"{fronts} sts, a dart of {darts} sts, a neck of 18 cm." in said
    assert document.meta.edition == "metric, A4, V neck"
    (title,) = every(document, TitlePage)
    assert title.facts is not None
    assert plain_text(title.facts.facts[0].says[0]) == "S (M, L); cup: B (D); V neck"


def test_an_edition_of_one_cup_has_no_bars() -> None:
    document = composed("metric cup=D neck=crew", "Cup D only: Purl 1 row.", "Row 5: K{dart}, k to end. {front} sts.")
    assert rows(document)[0] == ["CO 90 (98, 106) sts.", "Knit 4 rows.", "Purl 1 row.", "K8, k to end."]
    assert not [each for each in every(document, Paragraph) if "bar" in plain_text(each.inline)]
    table = next(each for each in every(document, Table) if each.key == "sizes-metric")
    told = [[plain_text(cell.inline) for cell in row] for row in (*table.head, *table.body)]
    assert told == [["Measure", "S", "M", "L"], ["To fit bust", "90", "98", "106"]]


def test_lines_for_the_choice_that_is_printed_are_simply_there() -> None:
    lines = ("Sizes S and M only:", "Knit 1 row.", "V neck only:", "Knit 2 rows.", "All versions:", "Purl 1 row.")
    document = composed("metric neck=v", *lines)
    assert rows(document)[0][2:] == ["Sizes S and M only:", "Knit 1 row.", "All sizes:", "Knit 2 rows.", "Purl 1 row."]
    document = composed("metric neck=crew", *lines)
    assert rows(document)[0][2:] == ["Sizes S and M only:", "Knit 1 row.", "All versions:", "Purl 1 row."]


@pytest.mark.parametrize(
    "words", ["metric", "metric neck=v", "metric cup=D", "metric neck=crew cup=B", "size=M cup=D neck=v"]
)
def test_what_is_printed_says_the_same_in_another_country(words: str) -> None:
    done = proof("Next row: K{dart}, k to end. {front} sts.", "Next row: Purl.", "Cup D only: Knit 2 rows.")
    press = Press(done, World.beside(), Path())
    assert done.pattern is not None
    edition = parse_edition(f"{words} uk", done.pattern.sizes.labels)
    own = replace(edition, terms=None)
    found = tuple(mind_the_words(done, edition, press.compose(edition).value, press.compose(own).value))
    assert [each.message for each in found] == []


@pytest.mark.parametrize(
    "words", ["metric", "metric neck=v", "metric cup=D", "metric neck=crew cup=B", "size=M cup=D neck=v"]
)
def test_printed_rows_of_a_choice_make_the_fabric_of_its_sizes(words: str) -> None:
    done = proof("Next row: K{dart}, k to end. {front} sts.", "Next row: Purl.", "Cup D only: Knit 2 rows.")
    assert done.pattern is not None and done.knitted is not None
    edition = parse_edition(words, done.pattern.sizes.labels)
    again = knit_again(done, edition, printed_rows(Press(done, World.beside(), Path()).compose(edition).value))
    assert [each.message for each in again.findings] == []
    wanted = [done.knitted.sizes[size] for size in edition.sizes(done.pattern.sizes.labels)]
    assert [course(size) for size in again.value.sizes] == [course(size) for size in wanted]


def course(size: SizeKnitted) -> list[tuple[str, int, int]]:
    return [(section.title, section.stitches, section.rows) for section in size.sections]
