"""A circular needle is too long or too short for the round.

Stitches must reach round the needle from tip to tip and must not crowd it. Each length suits a range of circumferences;
held against it is the widest round that the needle carries, by the gauge. (Where a crown or thimble grows too small, a
line that changes to double-pointed needles is the author's to give.)

Fires:
    needles: {larger: {size: 5 mm, type: circular, length: 150 cm}}
    sections:
      - title: Swatch
        worked: in the round
        work: |
          CO 80 sts. Join to work in the rnd.
          Knit 28 rnds.
          BO all sts.
    measurements: {around: {label: Around, is: 40 cm, of: width of Swatch}}

Silent:
    needles: {larger: {size: 5 mm, type: circular, length: 40 cm}}
    sections:
      - title: Swatch
        worked: in the round
        work: |
          CO 80 sts. Join to work in the rnd.
          Knit 28 rnds.
          BO all sts.
    measurements: {around: {label: Around, is: 40 cm, of: width of Swatch}}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from castoff.checks.evidence import Evidence
from castoff.checks.unit_pairs import say_number
from castoff.diagnostic import Diagnostic, Rule
from castoff.per_size import size_list
from castoff.trade.materials import CircularLength

RULE = Rule("circular-length-unsuitable", "warning", __doc__ or "")

# Knitting stretches, a rib by a good deal more: 36 cm of it do go round a 40 cm needle. Common practice.
_STRETCH = Fraction(5, 4)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each circular needle that does not suit its widest round in some size."""
    names = evidence.sizes
    chart = evidence.trade.needles
    for needle in evidence.pattern.needles:
        if needle.length is None or needle.type is None or needle.type.value != "circular":
            continue
        length = chart.circular(needle.length.value)
        if length is None:
            continue
        widest = [_widest_round(evidence, needle.key.value, size) for size in range(len(names))]
        unsuited = [size for size, width in enumerate(widest) if width is not None and not _holds(length, width)]
        if not unsuited:
            continue
        rounds = size_list(tuple(say_number(Fraction(round((widest[size] or 0) / 10))) for size in unsuited))
        round_mm = widest[unsuited[0]] or Fraction(0)
        better = [each for each in chart.circulars if _holds(each, round_mm) and each.cm * 10 <= round_mm * _STRETCH][
            -3:
        ]
        yield Diagnostic.of(
            RULE,
            f"a {needle.length.text.value} circular needle is to hold a round of {rounds} cm",
            needle.length.span,
            sizes=(names[size] for size in unsuited) if len(unsuited) < len(names) else (),
            hint=f"{' or '.join(f'{say_number(each.cm)} cm' for each in better)} suits it" if better else None,
        )


def _holds(length: CircularLength, width: Fraction) -> bool:
    return any(length.suits(each) for each in (width, width * _STRETCH, width / _STRETCH))


def _widest_round(evidence: Evidence, key: str, size: int) -> Fraction | None:
    widths = [
        record.after * piece.gauges[record.gauge][0]
        for piece in evidence.knitted.sizes[size].pieces.values()
        for record in piece.records.folded()
        if record.form == "round" and record.needles == key and record.gauge in piece.gauges
    ]
    return max(widths, default=None)
