"""One size, or two that changed places, are off centre.

A row that works as many stitches before its middle as after it in every size but one has a wrong number in that size: its
total is right, and the thumb, the gusset or the decrease sits beside its place.

Fires:
    sizes: {names: "S (M, L)"}
    measurements: {width: {label: Width, is: "20 cm", of: width of Swatch at the cast-on edge}}
    Row 1 (RS): K19 (18, 19), k2tog, k to end. 39 sts.

Silent:
    sizes: {names: "S (M, L)"}
    measurements: {width: {label: Width, is: "20 cm", of: width of Swatch at the cast-on edge}}
    Row 1 (RS): K19 (19, 19), k2tog, k to end. 39 sts.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import Done, RowRecord
from castoff.notation.syntax import Count, MarkerAct, RowStep, Stitch, StitchTo, ToEnd

RULE = Rule("off-centre", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each size that is off centre where the others are not."""
    names = evidence.sizes
    if len(names) < 3:
        return
    for placed in evidence.placed:
        step = placed.node
        if not isinstance(step, RowStep) or len(step.work) < 3:
            continue
        first, last = step.work[0], step.work[-1]
        if not (isinstance(first, Stitch) and isinstance(last, StitchTo) and isinstance(last.target, ToEnd)):
            continue
        count = first.count
        if count is None or count.formula is not None or first.name != last.name:
            continue
        sides = [_sides(evidence, placed.section, step, count, size) for size in range(len(names))]
        if any(side is None for side in sides):
            continue
        gaps = [side[0] - side[1] for side in sides if side is not None]
        odd = [size for size, gap in enumerate(gaps) if gap != 0]
        swapped = len(odd) == 2 and len(gaps) > 3 and odd[1] - odd[0] == 1 and gaps[odd[0]] == -gaps[odd[1]]
        # a gap of one is an odd number of stitches, which has no middle
        if (len(odd) == 1 or swapped) and abs(gaps[odd[0]]) > 1:
            for size in odd:
                yield _finding(names[size], sides[size] or (0, 0), first.name, count)


def _sides(evidence: Evidence, section: int, step: RowStep, count: Count, size: int) -> tuple[int, int] | None:
    """Plain stitches at the beginning and at the end of the row, as it was first knitted; on both sides of a marker that
    is all it places."""
    span = step.span
    knitted = evidence.knitted.sizes[size].sections
    if len(knitted) != len(evidence.pattern.sections):
        return None
    record: RowRecord | None = next(
        (r for r in knitted[section].records if r.span is not None and span.start <= r.span.start < span.end), None
    )
    if record is not None and len(step.work) == 3 and isinstance(step.work[1], MarkerAct):
        first_part = count.at(size)
        return None if first_part is None else (first_part, record.before - first_part)
    if record is None or len(record.worked) < 3:
        return None
    first, last = record.worked[0], record.worked[-1]
    if not (isinstance(first, Done) and isinstance(last, Done)) or first.stitch != last.stitch:
        return None
    return first.count, last.count


def _finding(size: str, sides: tuple[int, int], stitch: str, count: Count) -> Diagnostic:
    before, after = sides
    return Diagnostic.of(
        RULE,
        f"size {size}: {before} sts before the middle of the row and {after} after it; "
        "in the other sizes there are as many on both sides",
        count.span,
        sizes=(size,),
        hint=f"`{stitch}{(before + after) // 2}` in size {size}" if (before + after) % 2 == 0 else None,
    )
