"""Less yarn is stated than the fabric takes.

Counts the loops of every row in every size, takes their length from the weighed swatch or from the gauge, and holds the
sum against `needs:`. An amount below it by more than such an estimate can err leaves the knitter a sleeve short.

Fires:
    yarns: {A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g, needs: 5 m}}

Silent:
    yarns: {A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g, needs: 30 m}}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.checks.yarn_needed import HOUSE_MARGIN, needed_mm, stated_mm
from castoff.diagnostic import Diagnostic, Rule
from castoff.model.pattern import Yarn
from castoff.per_size import size_list

RULE = Rule("yarn-short", "error", __doc__ or "")

# An estimate from the gauge alone lands within a tenth of the yarn used, one in ten beyond it; twice that refutes.
REFUTED_BELOW = Fraction(8, 10)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each yarn of which some size has too little."""
    needed = needed_mm(evidence)
    for yarn in evidence.pattern.yarns:
        stated = stated_mm(yarn, len(evidence.sizes))
        used = needed.get(yarn.key.value)
        if stated is None or used is None:
            continue
        short = [
            size
            for size, (has, takes) in enumerate(zip(stated, used, strict=True))
            if has is not None and float(has) < takes * float(REFUTED_BELOW)
        ]
        if short:
            yield told(RULE, evidence, yarn, short, stated, used)


def told(
    rule: Rule,
    evidence: Evidence,
    yarn: Yarn,
    sizes: list[int],
    stated: tuple[Fraction | None, ...],
    used: tuple[float, ...],
) -> Diagnostic:
    """A finding on a stated amount, with the estimate and what would be right."""
    names = evidence.sizes
    form = evidence.pattern.sizes
    margin = evidence.pattern.margin.value if evidence.pattern.margin is not None else HOUSE_MARGIN
    has = size_list(tuple(f"{float(stated[size] or 0) / 1000:.0f}" for size in sizes))
    takes = size_list(tuple(f"{used[size] / 1000:.0f}" for size in sizes))
    right = tuple(str(-int(-amount * float(1 + margin) // 1000)) for amount in used)
    return Diagnostic.of(
        rule,
        f"{has} m of yarn `{yarn.key.value}` are stated, and the fabric takes about {takes} m",
        yarn.needs.span if yarn.needs is not None else yarn.key.span(),
        sizes=(names[size] for size in sizes) if len(sizes) < len(names) else (),
        hint=f"with {float(margin * 100):g} % to spare: "
        f"{size_list(right, form.opener, form.grouping) if len(set(right)) > 1 else right[0]} m",
    )
