"""Tables: what can be wrong with one, and that every row's sources are spelled out."""

from __future__ import annotations

from pathlib import Path

import pytest

from castoff.trade.table import Entry, TradeTableError, read_table

FOLDER = Path(__file__).parents[2] / "templates" / "trade"
FILES = sorted(path.name for path in FOLDER.glob("*.yaml"))


def test_scalars_stay_text() -> None:
    cells = read_table("t.yaml", "{size: 012, terms: NO, version: 1.10, time: 1:30, null: ~}")
    assert [cells.text(name) for name in ("size", "terms", "version", "time")] == ["012", "NO", "1.10", "1:30"]
    assert not cells.has("null")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "t.yaml: is empty"),
        ("a: [1, 2", "t.yaml, line 2: is not readable YAML: "),
        ("a: 1\nb: {c: 1\nd: 2}", "t.yaml, line 3: is not readable YAML: "),
        ("- a\n- b", "t.yaml, line 1: should hold `key: value` entries"),
        ("a: 1\n\na: 2", "t.yaml, line 3: a: is given twice"),
    ],
)
def test_what_is_no_table(text: str, message: str) -> None:
    with pytest.raises(TradeTableError) as caught:
        read_table("t.yaml", text)
    assert str(caught.value).startswith(message)


def test_cells_say_what_they_should_hold() -> None:
    cells = read_table("t.yaml", "a: {b: 1.5, c: [1, 2, 3], d: {e: f}, g: maybe}").entry("a").cells()
    for attempt, message in (
        (lambda: cells.whole("b"), "t.yaml, line 1: a › b: should be a whole number from 0 up, and is `1.5`"),
        (lambda: cells.range("c"), "t.yaml, line 1: a › c: should be `[low, high]`"),
        (lambda: cells.text("d"), "t.yaml, line 1: a › d: should be a single value"),
        (lambda: cells.number("z"), "t.yaml, line 1: a: has no `z`"),
        (lambda: cells.flag("g"), "t.yaml, line 1: a › g: `maybe` is not known here; use one of yes, no"),
    ):
        with pytest.raises(TradeTableError) as caught:
            attempt()
        assert str(caught.value) == message


def cited(entry: Entry) -> list[Entry]:
    """Every source cited under an entry."""
    try:
        items = list(entry.items())
    except TradeTableError:
        return [found for element in entry.elements() if element != entry for found in cited(element)]
    return [found for name, value in items for found in (value.elements() if name == "src" else cited(value))]


@pytest.mark.parametrize("name", FILES)
def test_every_source_is_spelled_out_at_the_head_of_its_file(name: str) -> None:
    table = read_table(name, (FOLDER / name).read_text(encoding="utf-8"))
    sources = dict(table.found["sources"].items()) if "sources" in table.found else {}
    keys = {entry.text() for entry in cited(table.row)}
    assert keys == sources.keys()


def test_what_stands_in_the_folder() -> None:
    assert FILES == [
        "abbreviations.yaml", "body.yaml", "body_babies.yaml", "body_children.yaml", "body_heads_hands_feet.yaml",
        "body_men.yaml", "body_women.yaml", "cautions.yaml", "chart_symbols.yaml", "ease.yaml", "needles.yaml",
        "skills.yaml", "stitches.yaml", "terms.yaml", "units.yaml", "yarn_weights.yaml",
    ]  # fmt: skip
