"""Vocabularies for tests: that of the corpus, and those of pattern sources."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from castoff.diagnostic import Checked
from castoff.grading.evaluate import Resolved
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Text
from castoff.trade.stitch_book import StitchBook, read_stitches

ROOT = Path(__file__).parents[2]


@cache
def book() -> StitchBook:
    """The stitch book that ships."""
    return read_stitches((ROOT / "templates/trade/stitches.yaml").read_text(encoding="utf-8"))


def worked_out(formula: Text) -> Checked[Resolved | None]:
    """Formulas of the corpus: `brim` is a length, `half` no whole number, `unknown` nothing, all else a count."""
    if formula.value == "unknown":
        return Checked(None)
    if formula.value == "half":
        return Checked(Resolved("count", (Fraction(21, 2), Fraction(11), Fraction(12), Fraction(13)), formula.value))
    if formula.value == "brim":
        return Checked(Resolved("length", (Fraction(40), Fraction(40), Fraction(45), Fraction(50)), formula.value))
    return Checked(Resolved("count", (Fraction(84), Fraction(92), Fraction(100), Fraction(108)), formula.value))


def corpus_vocabulary(sizes: tuple[str, ...] = ("S", "M", "L", "XL")) -> Vocabulary:
    """The words that corpus.py uses."""
    return Vocabulary(
        sizes=sizes,
        book=book(),
        yarns=("A", "B", "MC", "CC", "CC1", "CC2"),
        needles=("larger", "smaller", "dpns"),
        stitch_patterns=("seed stitch", "ripple lace", "chart A"),
        gauges=("stockinette", "rib"),
        own_stitches={"mb2": (1, 1), "big bobble": (1, 1)},
        pieces=("Back", "Front", "Sleeve", "Cap"),
        sections=("Cuff",),
        resolve=worked_out,
    )


def source_blocks(path: Path) -> Iterator[tuple[str, Vocabulary]]:
    """Every block of instruction lines of a pattern source, with the source's vocabulary."""
    source: dict[str, Any] = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    names = str(source["sizes"]["names"])
    sizes = tuple(part.strip() for part in re.split(r"[][(),]", names) if part.strip())
    sections = source["sections"]
    vocabulary = Vocabulary(
        sizes=sizes,
        book=book(),
        terms=source.get("terms", "US"),
        yarns=tuple(source.get("yarns") or ()),
        needles=tuple(source.get("needles") or ()),
        stitch_patterns=tuple(source.get("stitch_patterns") or ()),
        gauges=tuple(source.get("gauge") or ()),
        own_stitches=dict.fromkeys(source.get("stitches") or (), (1, 1)),
        pieces=tuple(dict.fromkeys(section.get("piece", section["title"]) for section in sections)),
        sections=tuple(section["title"] for section in sections),
    )
    for section in sections:
        for key in ("begins", "work"):
            if key in section:
                yield section[key], vocabulary
    for pattern in (source.get("stitch_patterns") or {}).values():
        yield pattern["rows"], vocabulary


def typed_sources() -> tuple[Path, ...]:
    """Sources in literal numbers that others wrote: typed patterns and worked examples."""
    folders = ("tests/typed_patterns", "tests/worked_examples")
    paths = (path for folder in folders for path in sorted((ROOT / folder).glob("*.yaml")))
    return tuple(path for path in paths if path.name != "expected.yaml")
