"""A yarn is listed and never knitted.

The buyer pays for every yarn of the list. Where there are several, each must be called for by its letter in some line,
or be the `yarn:` of a section. An excerpt need not use what its whole pattern lists.

Fires:
    yarns:
      A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}
      B: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}

Silent:
    yarns:
      A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import CastOn, ChangeYarn, PickUpRow, Stripes, UseYarn

RULE = Rule("yarn-unused", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each yarn that no line calls for, when there are several."""
    yarns = evidence.pattern.yarns
    if len(yarns) < 2 or evidence.pattern.excerpt:
        return
    used = {section.yarn.value for section in evidence.pattern.sections if section.yarn is not None}
    for placed in evidence.placed:
        node = placed.node
        if isinstance(node, (UseYarn, ChangeYarn, CastOn, PickUpRow)):
            used.update(node.yarns)
        elif isinstance(node, Stripes):
            used.update(key for _, key in node.bands)
    folded = {key.casefold() for key in used}
    for yarn in yarns:
        if yarn.key.value.casefold() not in folded:
            yield Diagnostic.of(
                RULE,
                f"yarn `{yarn.key.value}` is listed, and no line knits with it",
                yarn.key.span(),
                hint=f"say `with {yarn.key.value}` where it is used, or take it off the list",
            )
