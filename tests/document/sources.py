"""Small whole patterns for the tests of the document, and short ways to an edition of them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from castoff.diagnostic import Checked
from castoff.document.compose import compose
from castoff.document.edition import Edition, parse_edition
from castoff.document.tree import Document, Heading, InstructionList, InstructionRow, plain_text, walk
from castoff.pipeline import Proof, prove_file, prove_text
from castoff.world import World

ROOT = Path(__file__).parents[2]
TYPED = tuple(sorted((ROOT / "tests" / "typed_patterns").glob("*.yaml")))
CATALOGUE = tuple(sorted((ROOT / "patterns").glob("*-*.yaml")))

HEAD = """\
written_for: 1
title: Trial Cap
version: "1.0.0"
date: 2026-11-01
designer: Ines Farrow
studio: Saltgrass & Tern
invented: true
summary: A cap for trials.
sizes:
  names: S (M, L)
  body:
    head: 48 (52, 56) cm
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: in the round, needles: larger}
yarns:
  A: {name: Low Tide Worsted, colour: slate, weight: worsted, fibre: 100% wool, ball: 200 m / 100 g}
needles:
  larger: {size: 5 mm, type: circular, length: 40 cm}
"""


def source(work: str, more: str = "", head: str = HEAD) -> str:
    """A pattern whose only section holds these lines. more: further entries of the source."""
    lines = "\n".join(f"      {line}" for line in work.strip("\n").split("\n"))
    return f"{head}{more}sections:\n  - title: Body\n    piece: Cap\n    worked: in the round\n    work: |\n{lines}\n"


def edition_of(proof: Proof, words: str | Edition = "both", **changes: object) -> Checked[Document]:
    """An edition of a proof. changes: further arguments of `compose`."""
    assert proof.pattern is not None, proof.findings
    assert proof.numbers is not None
    assert proof.knitted is not None
    assert proof.trade is not None
    edition = words if isinstance(words, Edition) else parse_edition(words, proof.pattern.sizes.labels)
    return compose(
        proof.pattern,
        proof.numbers,
        dict(enumerate(proof.lines)),
        proof.knitted,
        proof.trade,
        edition,
        World.beside().template,
        proof.findings,
        accepted=tuple(each.finding for each in proof.accepted),
        pattern_lines=dict(proof.pattern_lines),
        **changes,  # type: ignore[arg-type]
    )


@cache
def composed(text: str, words: str = "both") -> Document:
    """The document of a source; nothing may be wrong with it in this stage."""
    checked = edition_of(prove_text("trial.yaml", text), words)
    assert checked.findings == ()
    return checked.value


@cache
def from_file(path: Path) -> Proof:
    """The proof of a source in a file."""
    return prove_file(path)


def rows(document: Document, section: int = 1) -> list[InstructionRow]:
    """The rows of a section, counted from 1."""
    found: list[InstructionRow] = []
    here = ""
    for block in walk(document.blocks):
        if isinstance(block, Heading):
            here = block.key
        elif isinstance(block, InstructionList) and here == f"section-{section}":
            found.extend(block.rows)
    return found


def said(row: InstructionRow) -> str:
    """A row as one line: label, text, and the total that is set apart behind `=>`."""
    label = f"{plain_text(row.label)}: " if row.label else ""
    stated = f" => {plain_text(row.stated)}" if row.stated else ""
    return f"{label}{plain_text(row.text)}{stated}".replace("\u00a0", " ")


def lines_of(text: str, words: str = "both") -> list[str]:
    """The rows of the only section of a source, each as one line."""
    return [said(row) for row in rows(composed(text, words))]
