"""The place of a measurement is not found.

`of:` says where in the knitted fabric a measurement is taken, so that it can be held against it: `width of Body`, `length
of Sleeve`, `twice the width of Back`, `width of Sleeve after the last increase row`, `length of Back from the underarm to
the top`. A place that nobody finds is held against nothing.

Fires:
    measurements:
      width: {label: Width, is: 20 cm, of: width of Sleeve}

Silent:
    measurements:
      width: {label: Width, is: 20 cm, of: width of Swatch}
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.checks.fabric_places import Unknown, read_place, take
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("measurement-unplaced", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each `of` that names nothing."""
    pattern = evidence.pattern
    names = tuple(dict.fromkeys((*pattern.pieces, *(section.title.value for section in pattern.sections))))
    for finished in evidence.finished:
        of = finished.measurement.of
        if of is None:
            continue
        place = read_place(of.value, names)
        if not isinstance(place, Unknown):
            unknown = None
            for index, size in enumerate(evidence.knitted.sizes):
                if evidence.unsure(index, *place.pieces):
                    unknown = None
                    break
                # a size that never increases has no last increase row; a place is unknown when no size has it
                found = take(place, size)
                unknown = found if isinstance(found, Unknown) else None
                if unknown is None:
                    break
            if unknown is None:
                continue
            place = unknown
        words = of.value.split()
        near = difflib.get_close_matches(words[-1] if words else "", names, 1)
        hint = f"is `{near[0]}` meant?" if near else f"say it like `width of {names[0]}` or `length of {names[0]}`"
        yield Diagnostic.of(
            RULE, f"`{finished.measurement.label.value}`: {place.fault}", of.span(), hint=hint
        )  # fmt: skip
