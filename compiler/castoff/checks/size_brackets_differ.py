"""A size list is bracketed unlike the sizes.

The names of the sizes set the form: `S (M, L) (XL, 2X)` asks for `80 (84, 88) (92, 96)` all through. A knitter finds
her number by its place; a bracket that breaks elsewhere puts her finger on the wrong one.

Fires:
    sizes: {names: "S (M, L) (XL, 2X)"}
    notes: "Wear it with 2 (3, 4, 5, 6) cm of ease."

Silent:
    sizes: {names: "S (M, L) (XL, 2X)"}
    notes: "Wear it with 2 (3, 4) (5, 6) cm of ease."
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.numeral import VULGAR, NumeralList, read_list
from castoff.per_size import Axes, size_list
from castoff.span import Text

RULE = Rule("size-brackets-differ", "warning", __doc__ or "")

_STARTS = re.compile(rf"(?<![\w.⁄/])(?=[\d{''.join(VULGAR)}]|[-–—]\s*[(\[])")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each list of another form."""
    sizes = evidence.pattern.sizes
    if len(sizes.axes.first) < 3:
        return
    first = sizes.axes.first
    form = (sizes.opener, sizes.grouping or (len(first) - 1,))
    shown = size_list(first, *form)
    for printed in evidence.printed:
        for numbers in lists_in(printed.text, sizes.axes):
            if (numbers.opener, numbers.grouping or (len(first) - 1,)) != form:
                yield Diagnostic.of(
                    RULE,
                    f"`{printed.text.value[numbers.start : numbers.end].strip()}` is bracketed unlike `{shown}`",
                    printed.text.span(numbers.start, numbers.end),
                    hint=f"write `{size_list(_typed(printed.text, numbers)[: len(first)], *form)}`",
                    related=(Related(sizes.span, "the sizes are named here"),),
                )


def lists_in(text: Text, axes: Axes) -> Iterator[NumeralList]:
    """The size lists of a text."""
    at = 0
    while (start := _STARTS.search(text.value, at)) is not None:
        found = read_list(text.value, start.start(), axes)
        if isinstance(found, NumeralList):
            at = max(found.end, start.start() + 1)
            if found.opener and len(found.numbers) == axes.count > 1:
                yield found
        else:
            at = found.end if found is not None else start.start() + 1


def _typed(text: Text, numbers: NumeralList) -> tuple[str, ...]:
    return tuple(text.value[number.start : number.end] for number in numbers.numbers)
