"""Whatever is done to a source, reading, loading and grading tell it in findings: nothing raises, nothing hangs."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from castoff.grading.evaluate import evaluate, resolve
from castoff.model.load import load
from castoff.source.read import read_source
from castoff.trade import Trade, load_trade

ROOT = Path(__file__).parents[2]
SOURCES = tuple(
    (ROOT / "patterns" / name).read_text(encoding="utf-8")
    for name in ("skipjack-jumper.yaml", "saltgrass-cap.yaml", "tidewrack-headband.yaml")
)
TRADE = load_trade(lambda name: (ROOT / "templates" / name).read_text(encoding="utf-8"))
PIECES = ("", " ", "\n", "  ", ":", "- ", "(", ")", "{", "}", "[", ",", "0", "999999999", "/", "*", "'", '"', "#", "|", "é",
          "-", " cm", "body.", "gauge=", "%", "&a ", "*a", "–", "½")  # fmt: skip


@settings(max_examples=400, deadline=2000)
@given(
    st.sampled_from(SOURCES),
    st.lists(st.tuples(st.integers(0, 10**6), st.integers(0, 12), st.sampled_from(PIECES)), min_size=1, max_size=4),
)
def test_any_change_to_a_source_is_told_or_harmless(source: str, changes: list[tuple[int, int, str]]) -> None:
    for place, cut, piece in changes:
        at = place % (len(source) + 1)
        source = source[:at] + piece + source[at + cut :]
    _through(source, TRADE)


def _through(source: str, trade: Trade) -> None:
    read = read_source("cap.yaml", source.encode())
    findings = list(read.findings)
    if read.value is not None:
        loaded = load(read.value, trade.needles.read)
        findings += loaded.findings
        if loaded.value is not None:
            graded = evaluate(loaded.value, trade)
            findings += graded.findings
            for measurement in loaded.value.measurements:
                findings += resolve(measurement.expression, graded.value).findings
        else:
            assert findings, "a source without a pattern says why"
    else:
        assert findings
    for finding in findings:
        assert finding.span is not None
        assert 0 <= finding.span.start <= finding.span.end <= len(finding.span.source.text)
