"""The second side is left to the knitter as "reversing shaping".

Turning a side round in one's head is where knitters go wrong; publishers ask for both sides in full. Castoff turns it
round by itself: a section that `mirrors:` another is printed in full, with its shaping changed over, and is knitted too.

Fires:
    Work as for Swatch, reversing shaping.

Silent:
    Work in st st for 4 rows.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import WorkAs

RULE = Rule("reversed-shaping", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each "reversing shaping"."""
    pattern = evidence.pattern
    titles = {name.casefold(): name for name in pattern.pieces}
    titles.update({section.title.value.casefold(): section.title.value for section in pattern.sections})
    for placed in evidence.placed:
        if isinstance(placed.node, WorkAs) and placed.node.reversed:
            other = titles.get(placed.node.of.casefold(), placed.node.of)
            yield Diagnostic.of(
                RULE,
                f"the shaping of `{other}` is to be reversed, and its rows are not written out",
                placed.node.span,
                hint=f"make it a section of its own with `mirrors: {other}`: its rows are then printed in full, "
                "turned round, and knitted",
            )
