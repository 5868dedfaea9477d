"""Some sizes are larger than the body, and others smaller.

Ease may shrink or grow with the size, but a garment that is loose in S and tight in 3X is a slip of grading.

Fires:
    sizes: {names: "S (M, L)", body: {chest: "81 (91, 101) cm"}}
    measurements:
      chest: {label: Finished chest, is: "86 (96, 99) cm"}

Silent:
    sizes: {names: "S (M, L)", body: {chest: "81 (91, 101) cm"}}
    measurements:
      chest: {label: Finished chest, is: "86 (96, 106) cm"}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.body_pairs import worn
from castoff.checks.evidence import Evidence
from castoff.checks.unit_pairs import say_number
from castoff.diagnostic import Diagnostic, Related, Rule

RULE = Rule("ease-changes-sign", "warning", __doc__ or "")

# half a centimetre is rounding, no ease
_ROUNDING_MM = Fraction(5)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each measurement with ease of both signs."""
    for pair in worn(evidence):
        looser = [ease for ease in pair.ease if ease is not None and ease > _ROUNDING_MM]
        tighter = [ease for ease in pair.ease if ease is not None and ease < -_ROUNDING_MM]
        if not looser or not tighter:
            continue
        few_tight = len(tighter) <= len(looser)
        odd = [
            (name, ease)
            for name, ease in zip(evidence.sizes, pair.ease, strict=True)
            if ease is not None and (ease < -_ROUNDING_MM if few_tight else ease > _ROUNDING_MM)
        ]
        eases = ", ".join(f"{'+' if ease > 0 else '−'}{say_number(abs(ease) / 10)} cm in {name}" for name, ease in odd)
        rest = "looser" if few_tight else "tighter"
        yield Diagnostic.of(
            RULE,
            f"ease of `{pair.finished.measurement.label.value}` over `{pair.body.key.value}` is {eases}; "
            f"other sizes are {rest} than the body",
            pair.finished.measurement.expression.span(),
            sizes=(name for name, _ in odd),
            related=(Related(pair.body.amounts.span, "the body's list"),),
        )
