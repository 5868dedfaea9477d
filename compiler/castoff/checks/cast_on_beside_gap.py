"""Stitches bound off at the beginning of a round are cast on again beside the gap.

An opening is made over two rounds: stitches are bound off, and as many cast on over them. Bound off at the very beginning
of the round, they leave their gap there; cast on some stitches later, they close nothing, and the gap is drawn together.

Fires:
    sections:
      - title: Mitt
        worked: in the round
        work: |
          With larger needles, CO 40 sts. Join to work in the round.
          Knit 5 rnds.
          Next rnd: BO 8 sts, k to end. 32 sts.
          Next rnd: K3, cast on 8 sts, k to end. 40 sts.
          Knit 5 rnds.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Mitt
        worked: in the round
        work: |
          With larger needles, CO 40 sts. Join to work in the round.
          Knit 5 rnds.
          Next rnd: BO 8 sts, k to end. 32 sts.
          Next rnd: Cast on 8 sts, k to end. 40 sts.
          Knit 5 rnds.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.knitting.fabric import Done, RowRecord, Worked

RULE = Rule("cast-on-beside-gap", "error", __doc__ or "")

_BOUND, _CAST = "bind off", "cast on"


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each round that closes a gap where there is none, with the sizes that it hits."""
    found: dict[tuple[int, int], tuple[RowRecord, RowRecord, list[int], list[str]]] = {}
    for size, name in zip(evidence.knitted.sizes, evidence.sizes, strict=True):
        for piece in size.pieces.values():
            records = list(piece.records.folded())
            for below, above in pairwise(records):
                beside = _beside(below, above)
                if beside and below.span is not None and above.span is not None:
                    key = (below.span.start, above.span.start)
                    _, _, places, names = found.setdefault(key, (below, above, [], []))
                    places.append(beside)
                    names.append(name)
    for below, above, places, names in found.values():
        assert below.span is not None and above.span is not None, "only such are found"
        far = " or ".join(dict.fromkeys(map(str, places)))
        yield Diagnostic.of(
            RULE,
            f"cast on {far} st{'' if far == '1' else 's'} beside the gap: it is at the beginning of the round",
            above.span,
            sizes=() if len(names) == len(evidence.sizes) else tuple(names),
            hint="begin both rounds with as many stitches",
            related=(Related(below.span, "the stitches are bound off here, at the beginning"),),
        )


def _beside(below: RowRecord, above: RowRecord) -> int:
    """How many stitches stand between the gap at the beginning of the round and those that are cast on; 0 for none."""
    if below.form != "round" or above.form != "round" or below.rows > 1 or below.part != above.part:
        return 0
    bound, cast = _counts(below.worked, _BOUND), _counts(above.worked, _CAST)
    first = below.worked[0] if below.worked else None
    if len(bound) != 1 or bound != cast or not isinstance(first, Done) or first.stitch != _BOUND:
        return 0
    before = 0
    for each in above.worked:
        if not isinstance(each, Done):
            return 0
        if each.stitch == _CAST:
            return before if each is not above.worked[-1] else 0
        before += each.count
    return 0


def _counts(worked: tuple[Worked, ...], stitch: str) -> list[int]:
    return [each.count for each in worked if isinstance(each, Done) and each.stitch == stitch]
