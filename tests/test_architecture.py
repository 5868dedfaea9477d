"""The house stays one-way: a stage imports lower stages only, and only the command imports inside functions."""

import ast
from collections.abc import Iterator
from pathlib import Path

import castoff

PACKAGE = Path(castoff.__file__).parent

STAGES = (
    ("span", "diagnostic", "per_size", "numeral", "units", "rounding"),
    ("trade",),
    ("source",),
    ("model",),
    ("grading",),
    ("notation",),
    ("knitting",),
    ("yarn",),
    ("checks", "document"),
    ("render",),
    ("report",),
    ("world",),
    ("pipeline",),
    ("read_back",),
    ("press",),
    ("catalogue",),
    ("terminal",),
    ("cli",),
    ("__main__",),
)
"""Lowest first; those on one line may not import each other, save the foundation on the first, which is ordered below."""

FOUNDATION = ("span", "diagnostic", "per_size", "numeral", "units", "rounding")

HEAVY = {
    "reportlab": ("render",),
    "pypdf": ("render",),
    "jinja2": ("document",),
    "markdown_it": ("document",),
    "rich": ("terminal", "cli"),
    "click": ("cli", "terminal"),
    "pint": ("terminal",),
}
"""Packages that only some stages may load, so that a check stays light."""


def modules() -> Iterator[tuple[str, str, ast.Module]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE).with_suffix("").parts
        yield parts[0], "/".join(parts), ast.parse(path.read_text("utf-8"))


def imports(tree: ast.AST) -> Iterator[tuple[str, int]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield alias.name, node.lineno
        elif isinstance(node, ast.ImportFrom) and node.module is not None:
            assert node.level == 0, "imports are absolute"
            if node.module == "castoff":
                for alias in node.names:
                    yield f"castoff.{alias.name}", node.lineno
            else:
                yield node.module, node.lineno


def rank(stage: str) -> int:
    for at, names in enumerate(STAGES):
        if stage in names:
            return at
    raise AssertionError(f"`{stage}` has no place among the stages: give it one in STAGES and in DEVELOPERS.md")


def test_every_module_has_a_stage() -> None:
    for stage, _, _ in modules():
        if stage != "__init__":
            rank(stage)


def test_imports_go_one_way() -> None:
    wrong = []
    for stage, name, tree in modules():
        if stage == "__init__":
            continue
        for imported, line in imports(tree):
            if not imported.startswith("castoff."):
                continue
            other = imported.split(".")[1]
            if other in ("__version__", stage):
                continue
            lower = rank(other) < rank(stage)
            ordered = stage in FOUNDATION and other in FOUNDATION and FOUNDATION.index(other) < FOUNDATION.index(stage)
            if not (lower or ordered):
                wrong.append(f"{name}.py:{line} imports castoff.{other}")
    assert wrong == []


def test_heavy_packages_stay_in_their_stages() -> None:
    wrong = []
    for stage, name, tree in modules():
        for imported, line in imports(tree):
            package = imported.split(".")[0]
            if package in HEAVY and stage not in HEAVY[package]:
                wrong.append(f"{name}.py:{line} imports {package}")
    assert wrong == []


def test_only_the_command_imports_inside_functions() -> None:
    wrong = []
    for stage, name, tree in modules():
        if stage == "cli":
            continue
        for function in ast.walk(tree):
            if isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef):
                for inner in ast.walk(function):
                    if isinstance(inner, ast.Import | ast.ImportFrom):
                        wrong.append(f"{name}.py:{inner.lineno}")
    assert wrong == []


def test_no_drawer_for_odds_and_ends() -> None:
    names = {name.split("/")[-1] for _, name, _ in modules()}
    assert names.isdisjoint({"utils", "util", "misc", "helpers", "common", "tools"})
