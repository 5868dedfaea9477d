"""A section ends without telling how many stitches are left.

After a change in the number of stitches a printed total lets the knitter see a slip while it is still near. At the
latest the end of the section must give one.

Fires:
    Row 1 (RS): K1, k2tog, k to end.
    Row 2 (WS): Purl.

Silent:
    Row 1 (RS): K1, k2tog, k to end. 39 sts.
    Row 2 (WS): Purl.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import CastOn, InstructionLine, Opening, Total, UntilStitches
from castoff.per_size import pair_list

RULE = Rule("stated-total-missing", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each section that is left with an untold change."""
    pattern = evidence.pattern
    if pattern.excerpt:
        return
    told: dict[int, int] = {}
    for placed in evidence.placed:
        if isinstance(placed.node, (Total, UntilStitches, CastOn, Opening)):
            told[placed.section] = max(told.get(placed.section, -1), placed.line_index)
    titles = [section.title.value for section in pattern.sections]
    for index, lines in enumerate(evidence.lines):
        knitted = [
            section
            for size in evidence.knitted.sizes
            for section in size.sections
            if section.title == titles[index] and titles.count(section.title) == 1
        ]
        if len(knitted) != len(evidence.sizes) or not any(section.stitches for section in knitted):
            continue
        changed = -1
        for at, line in enumerate(lines):
            if isinstance(line, InstructionLine) and any(
                record.span is not None
                and line.span.start <= record.span.start < line.span.end
                and record.after != record.before
                for section in knitted
                for record in section.records.folded()
            ):
                changed = at
        if changed > told.get(index, -1):
            left = tuple(str(section.stitches) for section in knitted)
            shown = pair_list(left, pattern.sizes.axes, pattern.sizes.opener, pattern.sizes.grouping)
            yield Diagnostic.of(
                RULE,
                f"the number of stitches changes here, and `{titles[index]}` ends without a total",
                lines[changed].span,
                hint=f"end the line with `{shown} sts.`",
            )
