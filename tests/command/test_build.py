"""`castoff build`: what is written, what is kept, and that it is the same whoever builds it."""

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest

from castoff.catalogue import LEDGER, Order, build_catalogue, editions_for, file_slug
from castoff.document.edition import usual_editions
from castoff.pipeline import house_of

PATTERNS = Path(__file__).parents[2] / "patterns"
CAP = PATTERNS / "saltgrass-cap.yaml"


def build(out: Path, *arguments: str, **environment: str) -> str:
    command = [sys.executable, "-m", "castoff", "build", *arguments, "--out", str(out)]
    done = subprocess.run(
        command, capture_output=True, text=True, check=False, timeout=120, env={**os.environ, **environment}
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def digests(out: Path) -> dict[str, str]:
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(out.glob("[!.]*"))}


def test_the_usual_set_is_three_units_on_two_papers(tmp_path: Path) -> None:
    build(tmp_path, str(CAP))
    names = [path.name for path in sorted(tmp_path.glob("*.pdf"))]
    assert names == [
        f"saltgrass-cap-1.0.0-{units}-{paper}-standard.pdf"
        for units in ("both", "imperial", "metric")
        for paper in ("a4", "letter")
    ]
    sizes = {path.name: pypdfium2.PdfDocument(path)[0].get_size() for path in tmp_path.glob("*.pdf")}
    for name, (width, height) in sizes.items():
        wanted = (595.28, 841.89) if "-a4-" in name else (612, 792)
        assert (width, height) == pytest.approx(wanted, abs=0.01)


def test_papers_cross_editions(tmp_path: Path) -> None:
    build(tmp_path, str(CAP), "--edition", "metric", "--edition", "text", "--paper", "either", "--paper", "Letter")
    assert [path.name for path in sorted(tmp_path.glob("[!.]*"))] == [
        "saltgrass-cap-1.0.0-both-text.txt",
        "saltgrass-cap-1.0.0-metric-either-standard.pdf",
        "saltgrass-cap-1.0.0-metric-letter-standard.pdf",
    ]


def test_same_bytes_in_any_process_order_and_hash_seed(tmp_path: Path) -> None:
    editions = ("--edition", "both a4", "--edition", "metric letter large", "--edition", "web", "--edition", "text")
    some = [str(PATTERNS / f"{name}.yaml") for name in ("saltgrass-cap", "skipjack-jumper", "ripple-throw")]
    build(tmp_path / "one", *some, *editions, "--jobs", "1", PYTHONHASHSEED="1")
    build(tmp_path / "two", *reversed(some), *editions, "--jobs", "2", PYTHONHASHSEED="4711")
    one = digests(tmp_path / "one")
    assert len(one) == 4 * 3
    assert one == digests(tmp_path / "two")


def test_what_has_not_changed_is_kept_and_what_has_is_not(tmp_path: Path) -> None:
    source = tmp_path / "cap.yaml"
    picture = "pictures/saltgrass-cap.png"
    (tmp_path / "pictures").mkdir()
    (tmp_path / picture).write_bytes((PATTERNS / picture).read_bytes())
    source.write_bytes(CAP.read_bytes())
    out = tmp_path / "out"
    assert "1 written" in build(out, str(source), "--edition", "both a4")
    (made,) = out.glob("*.pdf")
    first = made.stat().st_mtime_ns
    assert "0 written, 1 unchanged" in build(out, str(source), "--edition", "both a4")
    assert made.stat().st_mtime_ns == first
    assert "1 written" in build(out, str(source), "--edition", "both a4", "--anew")
    source.write_text(source.read_text("utf-8").replace("A close cap", "A very close cap"), "utf-8")
    assert "1 written" in build(out, str(source), "--edition", "both a4")
    made.unlink()
    assert "1 written" in build(out, str(source), "--edition", "both a4")


def test_a_spoiled_ledger_does_no_harm(tmp_path: Path) -> None:
    build(tmp_path, str(CAP), "--edition", "both a4")
    (tmp_path / LEDGER).write_text("not JSON")
    assert "1 written" in build(tmp_path, str(CAP), "--edition", "both a4")


def test_a_house_names_its_editions_and_style(tmp_path: Path) -> None:
    (tmp_path / "cap.yaml").write_text((PATTERNS.parent / "templates" / "new.yaml").read_text("utf-8"))
    house = tmp_path / "house.yaml"
    house.write_text("editions: [metric a4, text]\nstyle: lighthouse\n")
    build(tmp_path / "out", str(tmp_path))
    assert [path.suffix for path in sorted((tmp_path / "out").glob("[!.]*"))] == [".txt", ".pdf"]
    by_lighthouse = digests(tmp_path / "out")
    house.write_text("editions: [metric a4, text]\nstyle: saltmarsh\n")
    build(tmp_path / "out", str(tmp_path))
    by_saltmarsh = digests(tmp_path / "out")
    changed = [name for name in by_lighthouse if by_lighthouse[name] != by_saltmarsh[name]]
    assert [Path(name).suffix for name in changed] == [".pdf"]


@pytest.mark.parametrize(
    ("text", "telling"),
    [
        ("edition: [metric]\n", "did you mean `editions`?"),
        ("style: lighthuose\n", "no style `lighthuose`"),
        ("editions: [metrci]\n", "did you mean `metric`?"),
        ("editions: [metric\n", "house.yaml"),
    ],
)
def test_a_house_file_that_is_wrong_stops_the_build_in_words(text: str, telling: str, tmp_path: Path) -> None:
    source = tmp_path / "cap.yaml"
    source.write_text((PATTERNS.parent / "templates" / "new.yaml").read_text("utf-8"))
    (tmp_path / "house.yaml").write_text(text)
    (result,) = build_catalogue(Order((source,), out=tmp_path / "out"))
    assert result.stopped
    said = " ".join(
        [
            result.fault or "",
            *(f"{each.message} {each.hint} {each.span and each.span.source.name}" for each in result.findings),
        ]
    )
    assert telling in said
    assert not (tmp_path / "out").exists()


def test_file_names() -> None:
    assert file_slug("Crème & Brûlée No. 2") == "creme-brulee-no-2"
    assert file_slug("???") == ""


def test_the_catalogue_s_house_names_the_editions_that_are_built() -> None:
    house = house_of(PATTERNS)
    assert house.findings == ()
    assert [each.value for each in house.value.editions] == ["print"]
    assert house.value.style is not None and house.value.style.value == "saltmarsh"
    assert editions_for(Order((CAP,)), house.value, ("S",)) == usual_editions("print")
    asked = editions_for(Order((CAP,), editions=("web",)), house.value, ("S",))
    assert [each.reading for each in asked] == ["web"]


def test_a_pattern_without_a_date_is_set(tmp_path: Path) -> None:
    source = tmp_path / "cap.yaml"
    text = (PATTERNS.parent / "templates" / "new.yaml").read_text("utf-8")
    source.write_text("".join(line for line in text.splitlines(True) if not line.startswith("date:")))
    assert "the pattern has no date" in build(tmp_path / "out", str(source), "--edition", "both a4")
    assert len(pypdfium2.PdfDocument(next((tmp_path / "out").glob("*.pdf")))) > 0
