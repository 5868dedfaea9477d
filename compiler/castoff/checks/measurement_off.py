"""A printed measurement is not what the fabric comes to.

Holds each entry under `measurements` against the piece that its `of` names, in every size: stitches by the stitch gauge
for a width, rows by the row gauge for a length. What is printed must be a rounding of it. A finished chest without an
`of` is held against the widths of Back and Front. A knitter chooses the size by this number.

Fires:
    measurements:
      width: {label: Width, is: 50 cm, of: width of Swatch}

Silent:
    measurements:
      width: {label: Width, is: 20 cm, of: width of Swatch}

Silent:
    measurements:
      width: {label: Width, is: 8 in, of: width of Swatch}
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.checks.evidence import Evidence, Finished
from castoff.checks.fabric_places import Place, Taken, Unknown, read_place, take
from castoff.checks.length_surplus import surpluses_mm
from castoff.checks.odd_one_out import odd_sizes
from castoff.checks.typed_list import HOUSE_HALF_STEP_MM, half_step_mm, typed_measure
from castoff.checks.unit_pairs import INCH, converted, say, say_number
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.numeral import UNITS, NumeralList
from castoff.per_size import pair_list

RULE = Rule("measurement-off", "error", __doc__ or "")

_FOOT = frozenset({"foot", "ankle", "leg", "sole"})
"""Words of a label of a sock that is measured where it is straight, and not round its gusset (common practice)."""

# 4 in and 10 cm are one gauge square though they differ by 1.6 %, so a length in inches at a gauge over 10 cm is held
# to either reading of the square
_SQUARE = Fraction(1016, 1000)


@dataclass(frozen=True, slots=True)
class _Off:
    """One size in which it is off: millimetres printed and knitted, and the sum."""

    size: int
    printed: Fraction
    taken: Taken


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each measurement that is off in some size."""
    for finished in evidence.finished:
        place = place_of(evidence, finished)
        if not isinstance(place, Place) or finished.values is None:
            continue
        foot = place.where == "" and not _FOOT.isdisjoint(finished.measurement.label.value.casefold().split())
        measure = typed_measure(finished.measurement.expression, evidence.pattern.sizes.axes)
        typed = measure.first if measure else None
        told = finished.measurement.of is not None and not foot
        off = [
            found
            for size in range(len(evidence.sizes))
            if (found := _judge(evidence, finished.values[size], place, typed, size, told=told))
        ]
        if (
            not off
            and place.along
            and not any(evidence.unsure(size, *place.pieces) for size in range(len(evidence.sizes)))
        ):
            off = _odd_row(evidence, finished.values, place)
        if off:
            yield _finding(evidence, finished, place, typed, off)


def place_of(evidence: Evidence, finished: Finished) -> Place | Unknown | None:
    """Where a measurement is taken; None when nothing says so."""
    pattern = evidence.pattern
    names = (*pattern.pieces, *(section.title.value for section in pattern.sections))
    of = finished.measurement.of
    if of is not None:
        return read_place(of.value, names)
    words = f"{finished.measurement.key.value} {finished.measurement.label.value}".casefold()
    flat = {section.piece.value for section in pattern.sections if section.worked.value == "flat"}
    if {"Back", "Front"} <= flat and ("chest" in words or "bust" in words):
        return Place(False, Fraction(1), ("Back", "Front"), "")
    return None


def _judge(
    evidence: Evidence, printed: Fraction | None, place: Place, typed: NumeralList | None, size: int, *, told: bool
) -> _Off | None:
    taken = take(place, evidence.knitted.sizes[size])
    if printed is None or not isinstance(taken, Taken) or evidence.unsure(size, *place.pieces):
        return None
    inch = evidence.pattern.inch.value if evidence.pattern.inch is not None else INCH
    allowed = HOUSE_HALF_STEP_MM if typed is None else half_step_mm(typed, inch)
    low = high = taken.millimetres
    if place.along and taken.rows is not None:
        least, most = surpluses_mm(evidence, taken.piece, taken.rows, size)
        low, high = min(low, low - most), max(high, high - least)
        # grafting closes a ring with a row of its own, which no line has told
        if any(event.kind == "graft" for event in evidence.knitted.sizes[size].pieces[taken.piece].events):
            high += _row_height(evidence, taken, size)
    more, less = _squares(evidence, typed)
    low, high = low / less, high * more
    if low - allowed <= printed <= high + allowed:
        return None
    straight = None if told else _straight(evidence, place, size)
    if straight is not None and straight / less - allowed <= printed <= straight * more + allowed:
        return None  # a body whose sleeves grow out of it is measured below them
    return _Off(size, printed, taken)


def _squares(evidence: Evidence, typed: NumeralList | None) -> tuple[Fraction, Fraction]:
    """By how much a length may come out longer and shorter, because 4 in and 10 cm are one gauge square."""
    gauges = evidence.pattern.gauges
    if typed is not None and typed.symbol == "in":
        return _SQUARE if any(gauge.over.unit != "in" for gauge in gauges) else Fraction(1), Fraction(1)
    return Fraction(1), _SQUARE if any(gauge.over.unit == "in" for gauge in gauges) else Fraction(1)


def _straight(evidence: Evidence, place: Place, size: int) -> Fraction | None:
    """The widths of its pieces where each is straight for the longest while, together; None when one has no gauge."""
    total = Fraction(0)
    for name in place.pieces:
        piece = evidence.knitted.sizes[size].pieces.get(name)
        longest = max(piece.outline, key=lambda step: step.rows, default=None) if piece is not None else None
        if longest is None or longest.width_mm is None:
            return None
        total += longest.width_mm
    return total


def _odd_row(evidence: Evidence, printed: tuple[Fraction | None, ...], place: Place) -> list[_Off]:
    """The sizes that are whole rows off where every other size is exact."""
    taken = [take(place, knitted) for knitted in evidence.knitted.sizes]
    gaps: list[Fraction | None] = []
    row = Fraction(0)
    for size, each in enumerate(taken):
        value = printed[size]
        if not isinstance(each, Taken) or value is None or each.rows is None:
            gaps.append(None)
            continue
        if any(surpluses_mm(evidence, each.piece, each.rows, size)):
            return []
        row = _row_height(evidence, each, size)
        gaps.append(each.millimetres - value)
    return [
        _Off(size, value, found)
        for size in odd_sizes(gaps, row)
        if (value := printed[size]) is not None and isinstance(found := taken[size], Taken)
    ]


def _row_height(evidence: Evidence, taken: Taken, size: int) -> Fraction:
    records = evidence.knitted.sizes[size].pieces[taken.piece].records
    return records[0].height_mm if records else Fraction(0)


def _apart(each: _Off, unit: str, shown: Callable[[Fraction], Fraction]) -> str:
    """The length knitted, to a tenth where the printed rounding would hide the difference."""
    rounded = shown(each.taken.millimetres)
    if abs(rounded * UNITS[unit][2] - each.printed) > HOUSE_HALF_STEP_MM:
        return say(rounded, unit)
    return f"{float(each.taken.millimetres / UNITS[unit][2]):.2f} {unit}"


def _finding(
    evidence: Evidence, finished: Finished, place: Place, typed: NumeralList | None, off: list[_Off]
) -> Diagnostic:
    names = evidence.sizes
    unit = typed.symbol if typed is not None and typed.symbol else "cm"
    size_mm = UNITS[unit][2]

    def shown(millimetres: Fraction) -> Fraction:
        return converted(millimetres, "mm", unit, INCH)

    def printed_as(millimetres: Fraction) -> str:
        # a computed length is printed rounded; the message shows the tenth that tells it from the fabric
        return say(millimetres / size_mm, unit) if typed is not None else f"{float(millimetres / size_mm):.1f} {unit}"

    many = len(names) > 1 and len(off) < len(names)
    told = "; ".join(
        (f"size {names[each.size]}: " if many or len(off) > 1 else "")
        + f"{printed_as(each.printed)} is printed, and {each.taken.sum} come to {_apart(each, unit, shown)}"
        for each in off[:3]
    )  # fmt: skip
    if len(off) > 3:
        told += f"; and {len(off) - 3} more sizes"
    right: list[str] = []
    for size in range(len(names)):
        taken = take(place, evidence.knitted.sizes[size])
        wrong = any(each.size == size for each in off)
        printed = finished.values[size] if finished.values is not None else None
        if wrong and isinstance(taken, Taken):
            right.append(say_number(shown(taken.millimetres), unit))
        else:
            right.append("–" if printed is None else say_number(printed / size_mm, unit))
    sizes = evidence.pattern.sizes
    measurement = finished.measurement
    related = () if measurement.of is None else (Related(measurement.of.span(), "it is taken here"),)
    return Diagnostic.of(
        RULE,
        f"`{measurement.label.value}`: {told}",
        measurement.expression.span(),
        sizes=(names[each.size] for each in off) if len(off) < len(names) else (),
        hint=f"the fabric comes to {pair_list(right, sizes.axes, sizes.opener, sizes.grouping)} {unit}",
        related=related,
    )
