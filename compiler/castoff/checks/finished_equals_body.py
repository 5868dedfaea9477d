"""The finished measurements are the body measurements over again.

A published sheet had the body list pasted where the finished one belongs: every knitter then chooses a size without
ease. Lists round the body that agree in every size are told (a sock may well be as long as the foot); where the piece is
really meant to have no ease at all, `allow:` says so.

Fires:
    sizes: {names: "S (M)", body: {chest: "81 (91) cm"}}
    measurements:
      chest: {label: Finished chest, is: "81 (91) cm"}

Silent:
    sizes: {names: "S (M)", body: {chest: "81 (91) cm"}}
    measurements:
      chest: {label: Finished chest, is: "86 (96) cm"}
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.body_pairs import worn
from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule

RULE = Rule("finished-equals-body", "warning", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each finished list that is a body list."""
    if len(evidence.sizes) < 2:
        return
    for pair in worn(evidence):
        if pair.values == pair.body.amounts.values:
            yield Diagnostic.of(
                RULE,
                f"`{pair.finished.measurement.label.value}` is the body's `{pair.body.key.value}` in every size",
                pair.finished.measurement.expression.span(),
                hint="give the size of the knitting: the body plus ease",
                related=(Related(pair.body.amounts.span, "the body's list"),),
            )
