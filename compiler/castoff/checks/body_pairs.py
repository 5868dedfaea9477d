"""Which finished measurement belongs to which body measurement.

In: the evidence. Out: pairs of a finished measurement and the body measurement it is worn over, when the source gives
both. They belong together when their names say so; common practice for the names.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.checks.evidence import Evidence, Finished
from castoff.model.pattern import BodyMeasure

# finished names on the left are worn over body names on the right
_WORN_OVER = (
    (("chest", "bust", "body circumference", "body width"), ("bust", "chest")),
    (("head", "circumference", "brim", "hat"), ("head",)),
    (("hand", "palm", "mitt"), ("hand", "palm")),
    (("foot circumference", "foot width", "ball of foot"), ("foot_circumference", "foot circumference", "ball")),
    (("hip",), ("hip", "hips")),
    (("waist",), ("waist",)),
    (("upper arm", "bicep", "upper_arm"), ("upper_arm", "upper arm", "bicep")),
    (("wrist",), ("wrist",)),
)


@dataclass(frozen=True, slots=True)
class Worn:
    """A finished measurement and the body under it; lengths in millimetres per size."""

    finished: Finished
    body: BodyMeasure
    values: tuple[Fraction | None, ...]

    @property
    def ease(self) -> tuple[Fraction | None, ...]:
        """Finished less body, in millimetres per size."""
        return tuple(
            None if mine is None or under is None else mine - under
            for mine, under in zip(self.values, self.body.amounts.values, strict=True)
        )


def worn(evidence: Evidence) -> Iterator[Worn]:
    """The pairs, in the order of the measurements."""
    bodies = evidence.pattern.sizes.body
    for finished in evidence.finished:
        if finished.values is None or len(finished.values) != len(evidence.sizes):
            continue
        measurement = finished.measurement
        names = f"{measurement.key.value} {measurement.label.value}".replace("_", " ").casefold()
        # a list along the body is not worn round it
        if "length" in names or "height" in names or "depth" in names:
            continue
        for body in bodies:
            key = body.key.value.replace("_", " ").casefold()
            if any(key in under and any(name in names for name in over) for over, under in _WORN_OVER):
                yield Worn(finished, body, finished.values)
                break
