"""Sizes in two directions and choices, in print."""

from pathlib import Path
from typing import TypeVar

from tests.model.test_directions import proof

from castoff.document.edition import parse_edition
from castoff.document.tree import Document, Heading, InstructionList, Paragraph, Table, plain_text
from castoff.press import Press
from castoff.read_back import mind_the_words
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


def test_what_is_printed_says_the_same_in_another_country() -> None:
    done = proof("Row 5: K{dart}, k to end. {front} sts.")
    press = Press(done, World.beside(), Path())
    edition = parse_edition("metric uk")
    assert done.pattern is not None
    found = tuple(
        mind_the_words(done, edition, press.compose(edition).value, press.compose(parse_edition("metric")).value)
    )
    assert [each.message for each in found] == []
