"""How long things take. Run with `python -m pytest tests/benchmarks --benchmark-only`; a usual test run skips them.

Whole processes are started afresh, as a reader starts them; the stages are timed after their imports. Nothing here passes
or fails by time: figures belong into a report, not into an assertion.
"""

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from castoff.grading.evaluate import evaluate
from castoff.knitting.knit import knit
from castoff.pipeline import prove_file, read_notation

ROOT = Path(__file__).parents[2]
JUMPER = ROOT / "patterns" / "skipjack-jumper.yaml"
TYPED = ROOT / "tests" / "typed_patterns" / "skerry-pullover.yaml"


def castoff(*arguments: str) -> int:
    command = [sys.executable, "-m", "castoff", *arguments]
    return subprocess.run(command, capture_output=True, check=False, cwd=ROOT).returncode


@pytest.mark.parametrize("source", [JUMPER, TYPED], ids=lambda path: path.stem)
def test_check_as_a_whole_process(benchmark: Any, source: Path) -> None:
    assert benchmark(castoff, "check", str(source)) == 0


def test_build_of_one_edition_as_a_whole_process(benchmark: Any, tmp_path: Path) -> None:
    arguments = ("build", str(JUMPER), "--edition", "both a4", "--anew", "--out", str(tmp_path))
    assert benchmark(castoff, *arguments) == 0


def test_build_of_eight_editions_as_a_whole_process(benchmark: Any, tmp_path: Path) -> None:
    arguments = ("build", str(JUMPER), "--edition", "print", "--edition", "metric large", "--edition", "web", "--anew")
    assert benchmark(castoff, *arguments, "--out", str(tmp_path)) == 0


def test_grading_all_sizes(benchmark: Any) -> None:
    """The pattern with the most numbers: a cardigan in nine sizes from the body table."""
    proof = prove_file(ROOT / "patterns" / "fulmar-cardigan.yaml")
    assert proof.pattern is not None and proof.trade is not None
    assert benchmark(evaluate, proof.pattern, proof.trade).sound


@pytest.mark.parametrize("source", [JUMPER, TYPED], ids=lambda path: path.stem)
def test_knitting_all_sizes(benchmark: Any, source: Path) -> None:
    plan = prove_file(source).plan
    assert plan is not None
    assert benchmark(knit, plan).sound


@pytest.mark.parametrize("source", [JUMPER, TYPED], ids=lambda path: path.stem)
def test_reading_the_lines(benchmark: Any, source: Path) -> None:
    proof = prove_file(source)
    assert proof.pattern is not None and proof.numbers is not None and proof.trade is not None
    assert benchmark(read_notation, proof.pattern, proof.numbers, proof.trade).sound


@pytest.mark.parametrize("source", [JUMPER, TYPED], ids=lambda path: path.stem)
def test_proof_of_all_sizes(benchmark: Any, source: Path) -> None:
    assert benchmark(prove_file, source).sound
