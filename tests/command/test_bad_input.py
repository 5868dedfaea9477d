"""Whatever is wrong with the input, a reader gets a place, numbers and a way out: no traceback, and nothing is written."""

import subprocess
import sys
from pathlib import Path

import pytest

WHOLE = (
    (Path(__file__).parents[2] / "templates" / "new.yaml").read_text("utf-8").replace("NAME OF THE PATTERN", "Trial")
)


def run(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "castoff", *arguments]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False, timeout=60)


def changed(old: str, new: str) -> str:
    assert old in WHOLE, f"the starting source no longer says {old!r}"
    return WHOLE.replace(old, new)


ROUND = "Rnd 1: *K2, p2; rep from * to end. {cast_on} sts."
BAD = {
    "an empty file": (b"", "empty"),
    "not YAML": (b"title: [Cap\nsections: }", "error["),
    "a tab": (b"title: Cap\nsizes:\n\tnames: S\n", "tab"),
    "binary data": (bytes(range(256)) * 4, "error["),
    "not a mapping": (b"- a\n- b\n", "error["),
    "a wrong unit": (changed("depth: 10 cm", "depth: 10 furlongs").encode(), "furlongs"),
    "a size list of the wrong length": (changed("depth: 10 cm", "depth: 10 (12, 14, 16) cm").encode(), "3 sizes"),
    "a division by zero": (changed("depth: 10 cm", "depth: 10 cm / (3 - 3)").encode(), "zero"),
    "a formula that refers to itself": (changed("depth: 10 cm", "depth: depth + 1 cm").encode(), "depth"),
    "an unknown name": (changed("depth: 10 cm", "depth: dept + 1 cm").encode(), "dept"),
    "an unknown stitch": (changed("*K2, p2;", "*K2, p2tgo;").encode(), "p2tgo"),
    "a repeat of 10⁹": (
        changed("*K2, p2; rep from * to end.", "*K2, p2; rep from * 1000000000 more times.").encode(), "error["
    ),
    "a count of 10³⁰": (changed("*K2, p2; rep from * to end.", f"K{10**30}.").encode(), "error["),
    "a typo in a key": (changed("designer:", "desinger:").encode(), "did you mean `designer`"),
    "a missing picture": ((WHOLE + "pictures: [{file: no.jpg, alt: A cuff, credit: Nobody}]\n").encode(), "no.jpg"),
    "a stitch gauge of nothing": (changed("stitches: 24", "stitches: 0").encode(), "error["),
    "a date that is none": (changed("date: 2026-01-31", "date: 2026-02-31").encode(), "2026-02-31"),
    "a key twice": ((WHOLE + "title: Again\n").encode(), "title"),
    "an alias bomb": (
        b"a: &a [x, x, x, x, x, x, x, x, x]\n"
        + b"".join(b"%c: &%c [%s]\n" % (98 + n, 98 + n, b", ".join([b"*%c" % (97 + n)] * 9)) for n in range(9)),
        "error[",
    ),
    "no sections": (WHOLE[: WHOLE.index("sections:")].encode(), "sections"),
    "a stitch total that is wrong": (changed(ROUND, ROUND.replace("{cast_on} sts.", "37 sts.")).encode(), "37"),
}  # fmt: skip


@pytest.mark.parametrize("what", BAD)
def test_bad_sources_are_told_and_nothing_is_written(what: str, tmp_path: Path) -> None:
    data, telling = BAD[what]
    (tmp_path / "trial.yaml").write_bytes(data)
    check = run(tmp_path, "check", "trial.yaml")
    assert check.returncode == 1, check.stdout + check.stderr
    assert telling in check.stdout
    assert "trial.yaml" in check.stdout
    build = run(tmp_path, "build", "trial.yaml")
    assert build.returncode == 1
    assert "nothing written" in build.stdout
    for each in (check, build):
        assert "Traceback" not in each.stdout + each.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == ["trial.yaml"]


def test_the_starting_source_is_clean(tmp_path: Path) -> None:
    (tmp_path / "trial.yaml").write_text(WHOLE)
    check = run(tmp_path, "check", "trial.yaml")
    assert (check.stdout, check.returncode) == ("no findings in 1 pattern\n", 0)


def test_a_folder_without_sources(tmp_path: Path) -> None:
    check = run(tmp_path, "check", ".")
    assert check.returncode == 1
    assert "no pattern sources" in check.stderr


def test_a_path_that_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    for command in ("check", "build", "show", "knit", "yarn"):
        result = run(tmp_path, command, "nowhere.yaml")
        assert (result.returncode, "nowhere.yaml: no such file or folder" in result.stderr) == (2, True)


@pytest.mark.parametrize(
    "arguments",
    [
        ["chekc"],
        ["check", "--format", "pdf"],
        ["show"],
        ["explain", "no-such-rule"],
        ["show", "trial.yaml", "--why", "cast_no"],
        ["show", "trial.yaml", "--size", "XXL"],
        ["knit", "trial.yaml", "--section", "Crown"],
        ["new", "???"],
    ],
)
def test_wrong_use_ends_with_2(arguments: list[str], tmp_path: Path) -> None:
    (tmp_path / "trial.yaml").write_text(WHOLE)
    result = run(tmp_path, *arguments)
    assert result.returncode == 2
    assert "Traceback" not in result.stderr
    assert result.stdout == ""


def test_near_misses_are_named(tmp_path: Path) -> None:
    (tmp_path / "trial.yaml").write_text(WHOLE)
    assert "did you mean `cast_on`?" in run(tmp_path, "show", "trial.yaml", "--why", "cast_no").stderr
    assert "the sizes are S, M, L" in run(tmp_path, "show", "trial.yaml", "--size", "XXL").stderr


def test_an_output_folder_that_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "trial.yaml").write_text(WHOLE)
    (tmp_path / "build").write_text("a file, not a folder")
    result = run(tmp_path, "build", "trial.yaml")
    assert result.returncode == 1
    assert "cannot be written" in result.stdout
    assert "Traceback" not in result.stdout + result.stderr
    assert (tmp_path / "build").read_text() == "a file, not a folder"


def test_an_edition_that_means_nothing(tmp_path: Path) -> None:
    (tmp_path / "trial.yaml").write_text(WHOLE)
    result = run(tmp_path, "build", "trial.yaml", "--edition", "metrci")
    assert result.returncode == 2
    assert "did you mean `metric`" in result.stderr
    assert not (tmp_path / "build").exists()


def test_one_bad_pattern_does_not_stop_the_others(tmp_path: Path) -> None:
    (tmp_path / "good.yaml").write_text(WHOLE)
    (tmp_path / "bad.yaml").write_text(changed("*K2, p2;", "*K2, p3;"))
    result = run(tmp_path, "build", ".", "--edition", "metric a4")
    assert result.returncode == 1
    assert [path.name for path in sorted((tmp_path / "build").glob("*.pdf"))] == ["trial-0.1.0-metric-a4-standard.pdf"]
    assert "1 of 2 patterns stopped by errors" in result.stdout
