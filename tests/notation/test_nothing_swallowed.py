"""No reader of words swallows stitch work: what is said behind any line is in the tree as work, or the line is refused."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest
from tests.notation.corpus import LINES
from tests.notation.vocabularies import corpus_vocabulary

from castoff.notation.lines import parse_line
from castoff.notation.syntax import (
    AtBeginning,
    BindOff,
    BindOffAct,
    CastOn,
    CastOnAct,
    InstructionLine,
    OnTrust,
    PickUp,
    Stitch,
    WorkRows,
)
from castoff.span import Span, Text

_WORK = ("k37", "pick up and knit 37 sts", "knit 37 rows", "cast on 37 sts", "bind off 37 sts")
_BEHIND = (", {}", " and {}", ", then {}", ", with A, {}")
_MORE = (
    "Join A.", "Join B at neck edge.", "Join side seams.", "Join yarn.", "Sew the sides to the top edge.",
    "Sew sleeve seams with A.", "Seam the left shoulder.", "Mattress stitch the side seams.", "Whip the edges together.",
    "Graft the toe.", "Graft the 12 toe sts to the 12 heel sts.", "Graft sts together using kitchener stitch.",
    "Weave in ends.", "With A, sew on button.", "Using yarn and a tapestry needle, sew the ends.", "Block to measurements.",
    "Steam lightly.", "Close the gap.", "Add a tassel.", "Attach the cord at the top edge.", "Fold hem to the wrong side.",
    "Make a pompom.", "Set in sleeves.", "Tie a bow.", "Secure the ends.", "Neaten the edges.", "Turn.", "Place marker.",
    "Rnds now begin at centre of heel.", "Shape armholes.", "Divide for neck:", "Carry yarn not in use up the side.",
    "Slip the rem sts onto a holder.", "Leave these sts on a holder for the neck.", "Complete as for Back.",
    "Work as for Back to **.", "Complete the toe as for first sock from **.", "Make a second mitt the same.",
    "Change to larger needles.", "Rejoin yarn to the held sts at neck edge.", "Fasten off.", "Do not turn.",
)  # fmt: skip


def _numbers(node: object) -> Iterator[int | None]:
    """The numbers of work in a tree."""
    if isinstance(node, (Stitch, PickUp, CastOn, CastOnAct, BindOff, BindOffAct)) and node.count is not None:
        yield node.count.values[0]
    if isinstance(node, WorkRows):
        rows = getattr(node.extent.until, "rows", None)
        if rows is not None:
            yield rows.values[0]
    if isinstance(node, AtBeginning):
        yield node.rows.values[0]
    if isinstance(node, tuple):
        for each in node:
            yield from _numbers(each)
    elif is_dataclass(node) and not isinstance(node, (Span, Text)):
        for each_field in fields(node):
            yield from _numbers(getattr(node, each_field.name))


def _told(text: str) -> tuple[object, ...] | None:
    value = parse_line(Text.plain(text), corpus_vocabulary()).value
    return value.steps if isinstance(value, InstructionLine) else None


def _with_work(text: str) -> Iterator[str]:
    stem = text.rstrip()
    stem = stem[:-1] if stem[-1] in ".:" else stem
    for behind in _BEHIND:
        for work in _WORK:
            yield stem + behind.format(work) + "."
    for work in _WORK:
        yield f"{stem}. {work.capitalize()}."


@pytest.mark.parametrize("text", (*LINES, *_MORE))
def test_work_said_behind_a_line_is_knitted_or_refused(text: str) -> None:
    swallowed = []
    for longer in _with_work(text):
        steps = _told(longer)
        if steps is None or isinstance(steps[0], OnTrust):
            continue
        if 37 not in _numbers(steps):
            swallowed.append(longer)
    assert swallowed == []
