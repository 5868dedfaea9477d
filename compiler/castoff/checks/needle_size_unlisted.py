"""The instructions name a needle size that the list of needles does not have.

The knitter buys and lays ready what the list says. A size typed in a line must be one of them, in millimetres or by its
local number.

Fires:
    needles:
      larger: {size: 5 mm, type: circular, length: 60 cm}
    Switch to US 6 circular needle.
    Work in st st for 4 rows.

Fires:
    needles:
      larger: {size: 5 mm, type: circular, length: 60 cm}
    Using 3.5 mm needles, work 4 rows in garter stitch.

Silent:
    needles:
      larger: {size: 5 mm (US 8), type: circular, length: 60 cm}
    Change to US 8 needles.
    Work in st st for 4 rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence, Placed
from castoff.diagnostic import Diagnostic, Rule
from castoff.model.pattern import Needle
from castoff.notation.syntax import CastOn, ChangeNeedles, PickUpRow, Resume

RULE = Rule("needle-size-unlisted", "error", __doc__ or "")


_SIZE = re.compile(r"(?<!US )(?<!UK )\bsize (\d+)", re.IGNORECASE)
"""A size without its system is of the country whose words the pattern is written in."""


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each place that names a size which is not on the list."""
    listed = {needle.size_mm for needle in evidence.pattern.needles if needle.size_mm is not None}
    if not listed:
        return
    for placed in evidence.placed:
        words = _needles(placed)
        if words is None:
            continue
        typed = _SIZE.sub(rf"{evidence.pattern.terms.value} \1", _as_typed(placed, words))
        read = evidence.trade.needles.read(typed)
        if not read.sizes or any(needle.mm in listed for needle in read.needles):
            continue
        said = " / ".join(f"{number} mm" if system == "mm" else f"{system} {number}" for system, number in read.sizes)
        known = ", ".join(_listed(needle, evidence) for needle in evidence.pattern.needles)
        yield Diagnostic.of(
            RULE,
            f"needles of {said} are called for, and not listed" + (f": {read.fault}" if not read.needles else ""),
            placed.node.span,
            hint=f"listed are {known}",
        )


def _needles(placed: Placed) -> str | None:
    node = placed.node
    return node.needles if isinstance(node, (ChangeNeedles, CastOn, PickUpRow, Resume)) else None


def _as_typed(placed: Placed, words: str) -> str:
    """The words in the author's capitals: "US 6" is a size, "us 6" is not read as one."""
    span = placed.node.span
    typed: str = " ".join(span.source.text[span.start : span.end].split())
    at = typed.lower().find(words)
    return typed[at : at + len(words)] if at >= 0 else words


def _listed(needle: Needle, evidence: Evidence) -> str:
    found = None if needle.size_mm is None else evidence.trade.needles.by_mm(needle.size_mm)
    return f"{needle.key.value} ({needle.size.value if found is None else found.words('US', 'UK')})"
