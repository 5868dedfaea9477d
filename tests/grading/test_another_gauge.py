"""Changing the gauge re-grades a whole garment with no other edit.

Both garments of the catalogue that are written from body table and ease, at each stitch gauge from 16 to 26 to 10 cm with
rows and rib in proportion. A yarn's category belongs to one gauge, so its finding is told apart: it is right to say so.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from castoff.pipeline import prove_text
from castoff.units import decimal

ROOT = Path(__file__).parents[2]
GARMENTS = ("merrow-raglan", "fulmar-cardigan")
STOCKINETTE, RIB = "{stitches: 22, rows: 30,", "{stitches: 24, rows: 32,"
PER_SIZE = re.compile(r"\d\s*[(\[]\s*[\d½¼¾.–-]+\s*,\s*[\d½¼¾.–-]+")


def at_gauge(source: str, stitches: int) -> str:
    share = Fraction(stitches, 22)
    assert source.count(STOCKINETTE) == source.count(RIB) == 1
    source = source.replace(STOCKINETTE, f"{{stitches: {stitches}, rows: {decimal(30 * share, 1)},")
    return source.replace(RIB, f"{{stitches: {decimal(24 * share, 1)}, rows: {decimal(32 * share, 1)},")


@pytest.mark.parametrize("name", GARMENTS)
def test_eleven_gauges(name: str) -> None:
    source = (ROOT / "patterns" / f"{name}.yaml").read_text("utf-8")
    told: dict[int, list[str]] = {}
    for stitches in range(16, 27):
        proof = prove_text(f"{name}.yaml", at_gauge(source, stitches))
        others = [finding for finding in proof.findings if finding.rule.name != "yarn-weight-off-gauge"]
        told[stitches] = [f"{finding.rule.name}: {finding.message}" for finding in others]
        assert proof.knitted is not None and proof.knitted.stitches > 0
    clean = [stitches for stitches, findings in told.items() if not findings]
    assert len(clean) >= 8, told


@pytest.mark.parametrize("name", GARMENTS)
def test_no_list_per_size_stands_in_the_source_but_the_names(name: str) -> None:
    proof = prove_text(f"{name}.yaml", (ROOT / "patterns" / f"{name}.yaml").read_text("utf-8"))
    assert proof.pattern is not None
    assert len(proof.pattern.sizes) == 9
    texts = [number.formula.value for number in proof.pattern.numbers]
    texts += [section.work.value for section in proof.pattern.sections if section.work is not None]
    texts += [measurement.expression.value for measurement in proof.pattern.measurements]
    for text in texts:
        assert PER_SIZE.search(text) is None, text
    chest = proof.numbers.get("chest") if proof.numbers is not None else None
    ease = proof.numbers.get("ease") if proof.numbers is not None else None
    assert chest is not None and ease is not None
    bodies = [each.value - less.value for each, less in zip(chest, ease, strict=True) if each and less]
    # the table gives ranges, of which the upper ends stand: 71 to 76 cm and 152 to 158 cm
    assert len(bodies) == 9 and (min(bodies), max(bodies)) == (Fraction(760), Fraction(1580))
