"""How long pages take, beside others that set the same text. `python -m pytest tests/benchmarks --benchmark-only -s`.

Comparisons are made in one run on one machine, so that what they say does not hang on the machine: only those are
asserted. WeasyPrint and Typst are measured where they are installed (`pip install weasyprint typst`).
"""

from __future__ import annotations

import gc
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from tests.benchmarks.plainly import as_typst, by_platypus, fonts

from castoff.document.edition import Edition
from castoff.document.tree import Document
from castoff.model.house import House
from castoff.pipeline import prove_file
from castoff.press import Press
from castoff.render.html import render_html
from castoff.render.pdf.faces import load_faces
from castoff.render.pdf.press import render_pdf
from castoff.render.style import load_style
from castoff.world import World

ROOT = Path(__file__).parents[2]
LONG = ROOT / "patterns" / "fulmar-cardigan.yaml"
"""The longest pattern of the catalogue: a tagged edition of a dozen pages."""
EDITION = Edition(paper="A4")
ROUNDS = 7


def castoff(*arguments: str) -> int:
    command = [sys.executable, "-m", "castoff", *arguments]
    return subprocess.run(command, capture_output=True, check=False, cwd=ROOT).returncode


@pytest.fixture(autouse=True)
def as_in_a_run() -> Any:
    """A build switches the collector off; so does the yardstick."""
    gc.collect()
    gc.disable()
    yield
    gc.enable()


@cache
def document() -> Document:
    press = Press(prove_file(LONG), World.beside(LONG), LONG.parent, House())
    composed = press.compose(EDITION)
    assert composed.findings == ()
    return composed.value


def assets(name: str) -> bytes:
    return World.beside(LONG).template_bytes(name)


def pages(data: bytes) -> int:
    return len(pypdfium2.PdfDocument(data))


def our_pages() -> bytes:
    style = load_style("saltmarsh", assets)
    return render_pdf(document(), EDITION, style, assets, load_faces(style, assets))


def their_pages() -> bytes:
    fonts(assets)
    return by_platypus(document())


def best(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """The least of some runs, in seconds: what the work costs when nothing disturbs it."""
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return min(taken)


def test_a_tagged_edition_as_a_whole_process(benchmark: Any, tmp_path: Path) -> None:
    arguments = ("build", str(LONG), "--edition", "both a4", "--anew", "--out", str(tmp_path))
    assert benchmark(castoff, *arguments) == 0
    (made,) = tmp_path.glob("*.pdf")
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"\n{pages(made.read_bytes())} pages, peak memory {peak:.0f} MiB")


def test_eight_editions_as_a_whole_process(benchmark: Any, tmp_path: Path) -> None:
    editions = ("print", "metric a4 size=1", "either")
    arguments = [word for edition in editions for word in ("--edition", edition)]
    assert benchmark(castoff, "build", str(LONG), *arguments, "--anew", "--out", str(tmp_path)) == 0
    assert len(list(tmp_path.glob("*.pdf"))) == 8


def test_layout_and_drawing(benchmark: Any) -> None:
    document()
    assert pages(benchmark(our_pages)) >= 10


def test_against_plain_reportlab(benchmark: Any) -> None:
    """Tagged, archival pages with our lines and page breaks, against ReportLab's own pages of the same text."""
    document()
    # turn and turn about, so that what disturbs the machine disturbs both
    pairs = [(best(our_pages, 1), best(their_pages, 1)) for _ in range(4 * ROUNDS)]
    ours, theirs = min(one for one, _ in pairs), min(other for _, other in pairs)
    ratio = ours / theirs
    benchmark.pedantic(our_pages, rounds=1)
    each = (ours / pages(our_pages()) * 1000, theirs / pages(their_pages()) * 1000)
    print(
        f"\nours {ours * 1000:.0f} ms, {each[0]:.1f} a page; plain ReportLab {theirs * 1000:.0f} ms, {each[1]:.1f} a page"
    )
    print(f"{ratio:.2f} times plain ReportLab on the same text")
    assert ratio < 1.5


@pytest.mark.skipif(find_spec("weasyprint") is None, reason="WeasyPrint is not installed")
def test_against_weasyprint(benchmark: Any) -> None:
    """A tagged PDF of our web page, which holds the same tree."""
    import weasyprint

    source = render_html(document(), load_style("saltmarsh", assets)).decode()
    theirs = best(lambda: weasyprint.HTML(string=source).write_pdf(pdf_variant="pdf/ua-1"), 2)
    ours = best(our_pages)
    benchmark.pedantic(our_pages, rounds=1)
    print(f"\nours {ours * 1000:.0f} ms, WeasyPrint {theirs * 1000:.0f} ms: {theirs / ours:.1f} times as long")
    assert theirs > 3 * ours


@pytest.mark.skipif(find_spec("typst") is None, reason="Typst is not installed")
def test_beside_typst(benchmark: Any, tmp_path: Path) -> None:
    """Typst is compiled code; the gap is stated, not asserted. Whole processes, since it keeps what it has set."""
    source = tmp_path / "pattern.typ"
    source.write_text(as_typst(document()), "utf-8")
    program = (
        "import sys, typst; source, out, fonts = sys.argv[1:]; "
        "typst.compile(source, output=out, pdf_standards=['ua-1'], font_paths=[fonts])"
    )
    out = tmp_path / "pattern.pdf"
    command = [sys.executable, "-c", program, str(source), str(out), str(ROOT / "templates" / "fonts")]
    theirs = best(lambda: subprocess.run(command, check=True, capture_output=True), 3)
    build = ("build", str(LONG), "--edition", "both a4", "--anew", "--out", str(tmp_path / "ours"))
    ours = best(lambda: castoff(*build), 3)
    benchmark.pedantic(our_pages, rounds=1)
    print(
        f"\nTypst {theirs * 1000:.0f} ms for {pages(out.read_bytes())} pages of ready markup; "
        f"ours {ours * 1000:.0f} ms with reading, knitting and judging, layout and drawing {best(our_pages) * 1000:.0f} ms"
    )
