"""The rows of an edition are read again and knitted again: to the same rows and the same counts.

A computed length is printed rounded, and the rows that fit it may differ by what the rounding is worth: such lines are
held to that, every other number to itself.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.document.sources import CATALOGUE, TYPED, edition_of, from_file

from castoff.document.edition import Edition
from castoff.document.tree import Heading, InstructionList, plain_text, walk
from castoff.knitting.fabric import SizeKnitted
from castoff.knitting.knit import knit
from castoff.notation.lines import parse_work
from castoff.pipeline import Proof, make_vocabulary
from castoff.span import Text

EDITIONS = (Edition(), Edition("metric"), Edition("imperial"), Edition(terms="UK"), Edition(terms="US"))
ROWS_OF_ROUNDING = 2
"""Half of half a centimetre is less than a row; an end on the same side of the fabric doubles it."""


def printed_rows(proof: Proof, edition: Edition) -> dict[int, list[str]]:
    found: dict[int, list[str]] = {}
    section = -1
    for block in walk(edition_of(proof, edition).value.blocks):
        if isinstance(block, Heading):
            section = int(block.key.split("-")[1]) - 1 if block.key.startswith("section-") else -1
        elif isinstance(block, InstructionList) and section >= 0:
            for row in block.rows:
                label = f"{plain_text(row.label)}: " if row.label else ""
                stated = f" {plain_text(row.stated)}." if row.stated else ""
                found.setdefault(section, []).append(f"{label}{plain_text(row.text)}{stated}")
    return found


def knitted_again(proof: Proof, edition: Edition) -> tuple[SizeKnitted, ...]:
    """The sizes of an edition, knitted from its printed rows; nothing may be wrong with them."""
    assert proof.sound, [finding.message for finding in proof.findings]
    assert proof.pattern is not None and proof.numbers is not None
    assert proof.trade is not None and proof.plan is not None
    names = proof.pattern.sizes.labels
    sizes = names if edition.size is None else (names[edition.size],)
    vocabulary = make_vocabulary(proof.pattern, proof.numbers, proof.trade)
    vocabulary = replace(vocabulary, sizes=sizes, terms=edition.terms or vocabulary.terms)
    rows = printed_rows(proof, edition)
    sections = []
    for index, section in enumerate(proof.plan.sections):
        checked = parse_work(Text.plain("\n".join(rows.get(index, []))), vocabulary)
        assert [f"{found.rule.name}: {found.message}" for found in checked.findings] == []
        sections.append(replace(section, lines=checked.value))
    patterns = {
        each.key.value.lower(): replace(
            proof.plan.patterns[each.key.value.lower()], lines=parse_work(each.rows, vocabulary).value
        )
        for each in proof.pattern.stitch_patterns
        if edition.size is not None
    }
    knitting = knit(
        replace(proof.plan, sizes=sizes, sections=tuple(sections), patterns=patterns or proof.plan.patterns)
    )
    known = {found.message for found in proof.findings}
    assert [found.message for found in knitting.findings if found.message not in known] == []
    return knitting.value.sizes


def course(size: SizeKnitted) -> list[tuple[str, int, int]]:
    return [(section.title, section.stitches, section.rows) for section in size.sections]


@pytest.mark.parametrize("path", TYPED, ids=lambda path: path.stem)
@pytest.mark.parametrize("edition", EDITIONS[:1] + EDITIONS[3:], ids=lambda edition: edition.name)
def test_typed_patterns_in_all_sizes(path: Path, edition: Edition) -> None:
    proof = from_file(path)
    assert proof.knitted is not None
    again = knitted_again(proof, edition)
    assert [course(size) for size in again] == [course(size) for size in proof.knitted.sizes]


@pytest.mark.parametrize("path", TYPED, ids=lambda path: path.stem)
def test_typed_patterns_one_size_at_a_time(path: Path) -> None:
    proof = from_file(path)
    assert proof.knitted is not None and proof.plan is not None and proof.pattern is not None
    for index, size in enumerate(proof.knitted.sizes):
        (again,) = knitted_again(proof, Edition("metric", size=index))
        assert [(title, stitches) for title, stitches, _ in course(again)] == [
            (title, stitches) for title, stitches, _ in course(size)
        ]


@pytest.mark.parametrize("path", CATALOGUE, ids=lambda path: path.stem)
@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_the_catalogue_up_to_the_rounding_of_printed_lengths(path: Path, edition: Edition) -> None:
    proof = from_file(path)
    assert proof.knitted is not None
    for again, size in zip(knitted_again(proof, edition), proof.knitted.sizes, strict=True):
        for one, other in zip(again.sections, size.sections, strict=True):
            assert (one.title, one.stitches) == (other.title, other.stitches)
            # rows are counted from the cast-on, so that the rounding of two lengths may add up
            assert abs(one.rows - other.rows) <= 2 * ROWS_OF_ROUNDING


@pytest.mark.parametrize("path", (*TYPED, *CATALOGUE), ids=lambda path: path.stem)
def test_written_out_rows_are_read_back(path: Path) -> None:
    proof = from_file(path)
    assert proof.knitted is not None
    for again, size in zip(knitted_again(proof, Edition(written_out=True)), proof.knitted.sizes, strict=True):
        assert [(title, stitches) for title, stitches, _ in course(again)] == [
            (title, stitches) for title, stitches, _ in course(size)
        ]
