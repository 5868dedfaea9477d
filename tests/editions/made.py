"""The editions that the tests of this folder read: three patterns, every kind of edition, set once a run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from castoff.document.edition import Edition, parse_edition, usual_editions
from castoff.document.tree import Document
from castoff.model.house import House
from castoff.pipeline import Proof, prove_file
from castoff.press import Press
from castoff.world import World

ROOT = Path(__file__).parents[2]
NAMES = ("saltgrass-cap", "skipjack-jumper", "dunlin-socks")
"""A cap in the round in five sizes; a jumper in flat pieces in nine; socks with short rows, written in UK terms."""

FURTHER = (
    "metric size=1",
    "metric size=2 large words plain",
    "imperial letter size=3 words",
    "either",
    "either large",
    "uk",
    "us",
    "us words",
    "plain words",
)
EDITIONS: tuple[Edition | str, ...] = (*(each for each in usual_editions("each") if each.paged), *FURTHER)


@dataclass(frozen=True)
class Made:
    """One edition: what it was set from, its tree, and its bytes."""

    proof: Proof
    edition: Edition
    document: Document
    data: bytes


@cache
def press(name: str) -> Press:
    """The press of a pattern; its proof is made once."""
    path = ROOT / "patterns" / f"{name}.yaml"
    return Press(prove_file(path), World.beside(path), path.parent, House())


@cache
def made(name: str, words: Edition | str) -> Made:
    """An edition of a pattern."""
    setter = press(name)
    assert setter.proof.pattern is not None
    edition = parse_edition(words, setter.proof.pattern.sizes.labels) if isinstance(words, str) else words
    composed, printed = setter.compose(edition), setter.print(edition)
    assert printed.findings == () and printed.value is not None
    return Made(setter.proof, edition, composed.value, printed.value)


ALL = tuple((name, words) for name in NAMES for words in EDITIONS)
"""The three patterns in every kind of edition."""

CATALOGUE = tuple(path.stem for path in sorted((ROOT / "patterns").glob("*-*.yaml")))
EVERY = ALL + tuple(
    (name, words)
    for name in CATALOGUE
    if name not in NAMES
    for words in (*(each for each in usual_editions("each") if each.paged), "metric size=1")
)
"""And every other pattern of the catalogue in the usual ones."""


def label(words: object) -> str:
    """An edition as a test's name."""
    return words.name if isinstance(words, Edition) else str(words)
