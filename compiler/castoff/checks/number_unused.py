"""A number is worked out and never used.

Every entry under `numbers` should reach the page, a measurement, or another number. One that does not is often the
right value beside a typed, older one.

Fires:
    numbers: {hem_rows: 12}

Silent:
    numbers: {hem_rows: 12}
    notes: "The hem is {hem_rows} rows deep."
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("number-unused", "warning", __doc__ or "")

_BRACES = re.compile(r"\{([^{}]*)\}")
_NAME = re.compile(r"[^\W\d][\w.]*")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each number without a reader."""
    pattern = evidence.pattern
    formulas: list[tuple[str, str]] = [(number.key.value, number.formula.value) for number in pattern.numbers]
    formulas += [("", measurement.expression.value) for measurement in pattern.measurements]
    for printed in evidence.printed:
        formulas += [("", inside) for inside in _BRACES.findall(printed.text.value)]
    readers: dict[str, set[str]] = {}
    for owner, formula in formulas:
        for name in _NAME.findall(formula):
            # `taper.times` reads the plan `taper`
            readers.setdefault(name.split(".")[0], set()).add(owner)
    for number in pattern.numbers:
        name = number.key.value
        if not readers.get(name, set()) - {name}:
            yield Diagnostic.of(
                RULE,
                f"`{name}` is never used",
                number.key.span(),
                hint=f"write `{{{name}}}` where the number stands, or take the entry out",
            )
