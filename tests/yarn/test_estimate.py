"""Yarn from counted loops, by hand and against totals that others have published."""

from fractions import Fraction
from math import isclose, sqrt
from pathlib import Path

import pytest

from castoff.pipeline import Proof, prove_file, prove_text
from castoff.yarn.estimate import END_MM, GRAFT_TIMES
from castoff.yarn.loop import WET_RELAXED, by_geometry

ROOT = Path(__file__).parents[2]

RING = """
written_for: 1
title: Ring
excerpt: true
sizes: {names: One size}
gauge:
  stockinette: {stitches: 18, rows: 23.5, over: 4 in / 10 cm, worked: in the round, needles: main}
yarns:
  A: {weight: worsted, ball: 123 yd / 50 g}
  B: {weight: worsted, ball: 123 yd / 50 g}
needles:
  main: {size: US 10, type: circular, length: 16 in}
sections:
  - title: Tube
    piece: Ring
    worked: in the round
    gauge: stockinette
    work: |
      With A, provisionally cast on 75 sts. Place marker and join to work in the round.
      Knit 9 rnds.
      Change to B. Knit 10 rnds.
      Change to A. Knit 10 rnds.
      Change to B. Knit 10 rnds.
      Rep the last 20 rnds 6 more times.
      Break A. Break B.
      Graft the live sts to the cast-on edge.
"""


def ring() -> Proof:
    proof = prove_text("ring.yaml", RING)
    assert proof.sound, [finding.message for finding in proof.findings]
    return proof


def test_a_plain_tube_by_hand() -> None:
    # by hand: 75 stitches over 159 rounds and a cast-on of two loops a stitch, each loop sqrt(21.6 / density)
    proof = ring()
    over = 101.6  # 4 in
    loop = sqrt(WET_RELAXED / (18 * 23.5 / over**2))
    a, b = proof.estimates
    fabric = a.by_geometry[0].fabric + b.by_geometry[0].fabric
    assert isclose(fabric, 75 * 159 * loop, rel_tol=1e-9)
    assert isclose(a.by_geometry[0].cast_on, 2 * 75 * loop, rel_tol=1e-9)
    assert isclose(a.by_geometry[0].seams, GRAFT_TIMES * 75 * over / 18, rel_tol=1e-9)
    assert b.by_geometry[0].seams == 0
    assert a.by_geometry[0].ends >= 2 * END_MM


def test_a_denser_fabric_has_shorter_loops() -> None:
    # Munden 1959: density times the square of the loop is constant, so four times the density halves the loop
    loose = ring().pattern
    dense = prove_text("ring.yaml", RING.replace("stitches: 18, rows: 23.5", "stitches: 36, rows: 47")).pattern
    assert loose is not None and dense is not None
    assert isclose(by_geometry(loose.gauges[0]), 2 * by_geometry(dense.gauges[0]), rel_tol=1e-12)


def test_a_striped_ring_against_a_stated_total(capsys: pytest.CaptureFixture[str]) -> None:
    # Common practice, no source: 75 sts by 160 rounds of stockinette at 18 sts and 23.5 rounds to 4 in / 10 cm, a tube in
    # two yarns and sixteen stripes joined into a ring, is stated to need about 345 yd (316 m), bought as four balls of
    # 123 yd / 50 g.
    stated_m = 316
    a, b = ring().estimates
    ours_m = (a.amounts[0].total + b.amounts[0].total) / 1000
    with capsys.disabled():
        print(f"\nstriped ring: stated {stated_m} m, worked out {ours_m:.0f} m ({ours_m / stated_m - 1:+.1%})")
    assert a.by_swatch is None, "geometry alone"
    assert abs(ours_m / stated_m - 1) <= 0.10
    assert (a.balls(0), b.balls(0)) == (2, 2)


PUBLISHED = (
    # dummies.com, "Estimating how much yarn to buy": yards by yarn weight and stitches per inch
    ("tests/typed_patterns/harbour-beanie.yaml", "Adult M", "a hat at 4 to 5 sts to the inch", 150, 250),
    ("patterns/skipjack-jumper.yaml", "M", "an adult's sweater at 4 to 5 sts to the inch", 800, 1500),
    ("tests/typed_patterns/skerry-pullover.yaml", "M", "an adult's sweater at 5 to 6 sts to the inch", 1000, 2000),
)


@pytest.mark.parametrize(("source", "size", "what", "low", "high"), PUBLISHED)
def test_against_published_totals(
    source: str, size: str, what: str, low: int, high: int, capsys: pytest.CaptureFixture[str]
) -> None:
    # The table names no size: its hat and sweater are taken to be a medium. The constants were set before these totals
    # were looked at. How far the smallest and the largest size lie outside is printed.
    proof = prove_file(ROOT / source)
    assert proof.pattern is not None
    yards = [Fraction(each.total) / Fraction(9144, 10) for each in proof.estimates[0].amounts]
    medium = yards[proof.pattern.sizes.labels.index(size)]
    with capsys.disabled():
        print(
            f"\n{what}: published {low} to {high} yd, worked out {float(medium):.0f} yd in size {size}; "
            f"{float(yards[0]):.0f} to {float(yards[-1]):.0f} yd over all sizes "
            f"({float(yards[0] / low - 1):+.0%} at the low end, {float(yards[-1] / high - 1):+.0%} at the high end)"
        )
    assert low <= medium <= high


def test_both_methods_stand_side_by_side_when_a_swatch_was_weighed() -> None:
    weighed = RING.replace(
        "needles:\n  main", "swatch:\n  stockinette: {width: 15 cm, height: 15 cm, mass: 9 g}\nneedles:\n  main"
    )
    proof = prove_text("ring.yaml", weighed)
    a = proof.estimates[0]
    assert a.by_swatch is not None
    loops = 18 * 23.5 / 101.6**2 * 150 * 150
    loop = 9 * (123 * 914.4 / 50) / loops
    assert isclose(a.by_swatch[0].cast_on, 2 * 75 * loop, rel_tol=1e-9)
    assert a.method == "swatch"


def test_a_declared_margin_stands_for_the_usual_one() -> None:
    proof = prove_text("ring.yaml", RING.replace("excerpt: true", "excerpt: true\nmargin: 20%"))
    amounts = proof.estimates[0].by_geometry[0]
    assert isclose(amounts.margin, (amounts.used + amounts.swatch) * 0.2, rel_tol=1e-9)


def test_the_margin_of_the_house_stands_where_a_pattern_has_none(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_text("margin: 25%\n")
    (tmp_path / "ring.yaml").write_text(RING)
    (tmp_path / "own.yaml").write_text(RING.replace("excerpt: true", "excerpt: true\nmargin: 20%"))
    for name, share in (("ring", 0.25), ("own", 0.2)):
        amounts = prove_file(tmp_path / f"{name}.yaml").estimates[0].by_geometry[0]
        assert isclose(amounts.margin, (amounts.used + amounts.swatch) * share, rel_tol=1e-9)


def test_a_fabric_that_takes_more_yarn_says_by_how_much() -> None:
    """A factor lengthens the loop of geometry; the weighed swatch of that fabric has it in its mass already."""
    plain = prove_text("ring.yaml", RING)
    factor = RING.replace("needles: main}\nyarns", "needles: main, yarn_factor: 1.2}\nyarns")
    heavier = prove_text("ring.yaml", factor)
    one, other = plain.estimates[0].by_geometry[0], heavier.estimates[0].by_geometry[0]
    assert isclose(other.fabric, 1.2 * one.fabric, rel_tol=1e-9)
    swatch = "swatch:\n  stockinette: {width: 15 cm, height: 15 cm, mass: 9 g}\nneedles:\n  main"
    weighed = [prove_text("ring.yaml", each.replace("needles:\n  main", swatch)) for each in (RING, factor)]
    assert weighed[0].estimates[0].by_swatch == weighed[1].estimates[0].by_swatch


DEMONSTRATIONS = sorted((ROOT / "patterns").glob("*-*.yaml"))


@pytest.mark.parametrize("path", [path for path in DEMONSTRATIONS if path.stem != "house"], ids=lambda path: path.stem)
def test_demonstrations_by_both_methods(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where a swatch was weighed the two ways to a loop's length agree as well as a knitter's scales: within a quarter."""
    proof = prove_file(path)
    assert proof.pattern is not None and proof.estimates
    with capsys.disabled():
        for each in proof.estimates:
            geometry = [round(amounts.total / 1000) for amounts in each.by_geometry]
            told = f"\n{path.stem} {each.yarn.key.value}: geometry {geometry[0]} to {geometry[-1]} m"
            if each.by_swatch is None:
                print(f"{told}, no swatch weighed")
                continue
            ratios = [one.total / other.total - 1 for one, other in zip(each.by_geometry, each.by_swatch, strict=True)]
            swatch = [round(amounts.total / 1000) for amounts in each.by_swatch]
            print(f"{told}, swatch {swatch[0]} to {swatch[-1]} m, {min(ratios):+.1%} to {max(ratios):+.1%}")
            assert all(abs(ratio) < 0.25 for ratio in ratios)


def test_two_colours_in_a_round_float_behind_each_other() -> None:
    stranded = RING.replace("Knit 9 rnds.\n", "Rnd 1: *K2 A, k1 B; rep from * to end.\n      Knit 8 rnds with A.\n")
    proof = prove_text("ring.yaml", stranded)
    a, b = (each.by_geometry[0] for each in proof.estimates)
    width = 101.6 / 18
    assert isclose(a.floats, 25 * width, rel_tol=1e-9)
    assert isclose(b.floats, 50 * width, rel_tol=1e-9)


def test_two_sleeves_take_twice_the_yarn() -> None:
    once = prove_text("ring.yaml", RING).estimates[0].by_geometry[0]
    twice = prove_text("ring.yaml", RING.replace("piece: Ring", "piece: Ring\n    make: 2")).estimates[0].by_geometry[0]
    assert isclose(twice.fabric, 2 * once.fabric, rel_tol=1e-9)
    assert isclose(twice.swatch, once.swatch, rel_tol=1e-9)
