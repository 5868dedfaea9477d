"""A sleeve does not fit the armhole it is sewn into.

Measures the edge of the sleeve that is set in (the cap, along its steps and slopes, or a straight top) and the edge of the
armhole on back and front, both from the rows as they are knitted. A set-in cap may be eased in by a few centimetres; a cap
that is shorter than its armhole, or much longer, puckers or cannot be sewn at all.

Fires:
    measurements: {width: {label: Width, is: 35 cm}}
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Sleeve
        make: 2
        worked: flat
        work: |
          With larger needles, CO 50 sts.
          Work in st st for 60 rows.
          BO 5 sts at beg of next 2 rows. 40 sts.
          Work even for 10 rows.
          BO all sts.
      - title: Finishing
        piece: Jumper
        work: |
          Sew shoulder seams.
          Sew sleeve caps to armhole edges.

Silent:
    measurements: {width: {label: Width, is: 35 cm}}
    sections:
      - title: Back
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Front
        worked: flat
        work: |
          With larger needles, CO 70 sts.
          Work in st st for 40 rows.
          BO 5 sts at beg of next 2 rows. 60 sts.
          Work even for 50 rows.
          BO 15 sts at beg of next 2 rows. 30 sts.
          BO all sts.
      - title: Sleeve
        make: 2
        worked: flat
        work: |
          With larger needles, CO 80 sts.
          Work in st st for 60 rows.
          BO 5 sts at beg of next 2 rows. 70 sts.
          Work even for 10 rows.
          BO all sts.
      - title: Finishing
        piece: Jumper
        work: |
          Sew shoulder seams.
          Sew sleeve caps to armhole edges.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from castoff.checks.evidence import Evidence
from castoff.checks.garment import Part, cm, parts_of, told_to
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("cap-does-not-fit", "warning", __doc__ or "")

# common practice: a cap is as long as its armhole or up to 2 to 5 cm longer; a knitted edge gives by a few parts of 100
_SHORTER, _SHORTER_MM = 0.06, 15.0
_LONGER, _LONGER_MM = 0.15, 50.0


@dataclass(frozen=True, slots=True)
class _Fit:
    size: int
    cap_mm: float
    armholes_mm: tuple[float, ...]
    sleeve: Part

    @property
    def gap_mm(self) -> float:
        """Cap less armhole."""
        return self.cap_mm - sum(self.armholes_mm)

    @property
    def wrong(self) -> bool:
        """Whether no easing and no stretch makes up for it."""
        around = sum(self.armholes_mm)
        short = -self.gap_mm > max(_SHORTER_MM, _SHORTER * around)
        return short or self.gap_mm > max(_LONGER_MM, _LONGER * around)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for all sizes."""
    span = told_to(evidence, r"sleeve|\bcaps?\b", r"armhole|body|set[ -]in")
    if span is None:
        return
    fits = [fit for size in range(len(evidence.sizes)) if (fit := _fit(evidence, size)) is not None]
    wrong = [fit for fit in fits if fit.wrong]
    if not wrong:
        return
    worst = max(wrong, key=lambda fit: abs(fit.gap_mm))
    name = evidence.sizes[worst.size]
    armhole = " + ".join(cm(each) for each in worst.armholes_mm)
    short = worst.gap_mm < 0
    told = f"{cm(worst.cap_mm)} round, and the armhole {armhole} = {cm(sum(worst.armholes_mm))}"
    where = f" in {name}" if len(evidence.sizes) > 1 else ""
    rows = 2 * max(1, ceil(abs(worst.gap_mm) / 2 / float(worst.sleeve.row_mm) / 2))
    if worst.sleeve.edges[0].armhole is None:
        stitches = ceil(abs(worst.gap_mm) / float(worst.sleeve.stitch_mm))
        hint = f"{'widen' if short else 'narrow'} the top of the sleeve{where} by about {stitches} sts"
    else:
        hint = f"make the cap{where} about {rows} rows {'higher' if short else 'lower'}, or change what is bound off"
    yield Diagnostic.of(
        RULE,
        f"the edge of `{worst.sleeve.name}` is {told}{where}: {cm(abs(worst.gap_mm))} too {'short' if short else 'long'}",
        span,
        sizes=[evidence.sizes[fit.size] for fit in wrong] if len(wrong) < len(evidence.sizes) else (),
        hint=hint,
    )


def _fit(evidence: Evidence, size: int) -> _Fit | None:
    parts = parts_of(evidence, size)
    sleeves = [part for part in parts if part.role == "sleeve"]
    sides: list[float] = []
    for role in ("back", "front"):
        # back and front each give one edge to an armhole; two fronts give one each
        edges = [edge.armhole_mm for part in parts if part.role == role for edge in part.edges]
        known = [edge for edge in edges if edge is not None]
        if not known or len(known) < len(edges):
            return None
        sides.append(sum(known) / len(known))
    if not sleeves:
        return None
    sleeve = sleeves[0]
    slopes = [edge.armhole_mm or 0.0 for edge in sleeve.edges]
    return _Fit(size, sum(slopes) + float(sleeve.sides.top_mm), tuple(sides), sleeve)
