"""What formulas can speak of besides each other: the sizes, the gauges, the bodies, and the ease of fit words.

In: a `Pattern` and the `Trade`. Out: a `Scene` with exact gauges and a look-up of body measurements and fits.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from castoff.grading.faults import BODY_MEASUREMENT, GAUGE_UNNAMED, UNKNOWN_NUMBER, WRONG_DIMENSION, fault
from castoff.grading.formula import FormulaFault, Name, Word
from castoff.grading.worth import Worth
from castoff.model.pattern import Pattern, Sizes
from castoff.model.shape import nearest
from castoff.span import Span, Text
from castoff.trade.body import BodyTable, Fit, LengthUnit
from castoff.trade.gauge import INCH_MM, Gauge
from castoff.trade.load import Trade
from castoff.units import LENGTH, ROWS, STITCHES

_ENDS = ("low", "high", "middle")


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """What one pattern's formulas can speak of.

    sizes: their names. gauges: exact gauges by key, in the order of the source.
    unit: whether body tables are read in centimetres or inches: the unit the pattern's first gauge is given in.
    """

    sizes: tuple[str, ...]
    gauges: tuple[tuple[str, Gauge], ...]
    unit: LengthUnit
    source: Sizes
    trade: Trade

    @staticmethod
    def of(pattern: Pattern, trade: Trade) -> Scene:
        """The scene of a pattern."""
        gauges = tuple(
            (
                stated.key.value,
                Gauge(stated.stitches.value, None if stated.rows is None else stated.rows.value, stated.over.value),
            )
            for stated in pattern.gauges
        )
        inches = bool(pattern.gauges) and pattern.gauges[0].over.unit == "in"
        return Scene(pattern.sizes.labels, gauges, "in" if inches else "cm", pattern.sizes, trade)

    # ------------------------------------------------------------------------------------------ gauges

    def gauge(self, word: Word | None, call: str, place: Span) -> Gauge:
        """The gauge a function asks for: the one named, or the only one there is."""
        keys = tuple(key for key, _ in self.gauges)
        if word is None:
            if len(self.gauges) == 1:
                return self.gauges[0][1]
            if not self.gauges:
                raise fault(
                    GAUGE_UNNAMED, f"`{call}` needs a gauge, and the pattern has none", place, hint="add `gauge:`"
                )
            message = f"`{call}` needs a gauge, and the pattern has {len(self.gauges)}"
            choices = " or ".join(f"`gauge={_shown(key)}`" for key in keys)
            raise fault(GAUGE_UNNAMED, message, place, hint=f"add {choices}")
        return self._named_gauge(word.word, word.span)

    def _named_gauge(self, name: str, place: Span) -> Gauge:
        for key, gauge in self.gauges:
            if key == name or _folded(key) == _folded(name):
                return gauge
        keys = tuple(key for key, _ in self.gauges)
        near = nearest(name, keys)
        hint = f"did you mean `{_shown(near)}`?" if near else None
        if hint is None and keys:
            hint = f"the gauges are {', '.join(f'`{key}`' for key in keys)}"
        raise fault(UNKNOWN_NUMBER, f"there is no gauge `{name}`", place, hint=hint)

    def _gauge_rate(self, name: Name) -> Worth:
        """`gauge.rib.stitches`, or `gauge.stitches` when there is one gauge only."""
        *key, rate = name.parts[1:] or ("",)
        if rate not in ("stitches", "rows") or len(key) > 1:
            raise fault(
                UNKNOWN_NUMBER, f"`{name.dotted}` is no number", name.span,
                hint="write `gauge.stockinette.stitches` or `gauge.stockinette.rows`, with the name of your gauge",
            )  # fmt: skip
        gauge = self._named_gauge(key[0], name.span) if key else self.gauge(None, name.dotted, name.span)
        if rate == "rows":
            if gauge.rows is None:
                raise no_rows(name.span)
            return Worth((gauge.rows_per_mm,) * len(self.sizes), ROWS / LENGTH)
        return Worth((gauge.stitches_per_mm,) * len(self.sizes), STITCHES / LENGTH)

    # ------------------------------------------------------------------------------------------ bodies

    def named(self, name: Name) -> Worth:
        """`body.head`, `gauge.rib.rows`, `fit.loose`: a name that is no key under `numbers`."""
        if name.parts[0] == "gauge":
            return self._gauge_rate(name)
        if name.parts[0] == "fit":
            return self._ease_of(name)
        parts = name.parts[1:]
        if not parts or len(parts) > 2 or (len(parts) == 2 and parts[1] not in _ENDS):
            hint = "write `body.` and a measurement, or `body.chest.low` for the lower end of a range"
            raise fault(UNKNOWN_NUMBER, f"`{name.dotted}` is no body measurement", name.span, hint=hint)
        for measure in self.source.body:
            if _folded(measure.key.value) == _folded(parts[0]):
                return Worth(measure.amounts.values, LENGTH)
        return self._from_table(name, parts[0], parts[1] if len(parts) == 2 else "high")

    def fit(self, word: str) -> Fit | None:
        """The fit that a word of a formula names: `loose_fit`, or short `loose`."""
        wanted = _folded(word)
        for each in self.trade.ease.fits:
            spellings = [_folded(spelling) for spelling in (each.name, *each.also)]
            short = [re.sub(r"_fit(ting)?$", "", spelling) for spelling in spellings]
            if wanted in (*spellings, *short):
                return each
        return None

    def _ease_of(self, name: Name) -> Worth:
        """`fit.classic`: the published ease of a fit word; the middle of its range, or the end that is asked for."""
        parts = name.parts[1:]
        known = tuple(re.sub(r"_fit(ting)?$", "", _folded(each.name)) for each in self.trade.ease.fits)
        found = self.fit(parts[0]) if parts else None
        if found is None or len(parts) > 2 or (len(parts) == 2 and parts[1] not in _ENDS):
            near = nearest(parts[0], known) if parts else None
            choices = ", ".join(f"`fit.{each}`" for each in known)
            hint = f"did you mean `fit.{near}`?" if near else f"write one of {choices}"
            raise fault(UNKNOWN_NUMBER, f"`{name.dotted}` is no fit", name.span, hint=hint)
        low, high = found.cm if self.unit == "cm" else found.inches
        ends = [each for each in (low, high) if each is not None]
        # an open end ("15 cm and more") leaves the other one for all three
        end = parts[1] if len(parts) == 2 else "middle"
        value = {"low": ends[0], "high": ends[-1], "middle": (ends[0] + ends[-1]) / 2}[end]
        factor = Fraction(10) if self.unit == "cm" else INCH_MM
        return Worth((value * factor,) * len(self.sizes), LENGTH)

    def _own(self) -> tuple[str, ...]:
        return tuple(measure.key.value for measure in self.source.body)

    def _from_table(self, name: Name, measurement: str, end: str) -> Worth:
        """A measurement of the published table, in its own unit as printed; of a range, the upper end.

        The upper end is what patterns that follow the Craft Yarn Council's table list as "to fit" (30, 34, 38 … 62 in:
        a published pattern's size list, cross-checked against the table).
        """
        standard = self.source.standard
        if standard is None:
            near = nearest(measurement, self._own())
            hint = f"did you mean `body.{near}`?" if near else "add it under `sizes: body:`, or name a `standard:`"
            raise fault(BODY_MEASUREMENT, f"there is no body measurement `{measurement}`", name.span, hint=hint)
        table = self._table(standard)
        if table.measurement(measurement) is None:
            known = tuple(column.name for column in table.measurements) + self._own()
            near = nearest(measurement, known)
            hint = f"did you mean `body.{near}`?" if near else f"it has {', '.join(known)}"
            message = f"the table `{standard.value}` has no measurement `{measurement}`"
            raise fault(BODY_MEASUREMENT, message, name.span, hint=hint)
        values: list[Fraction] = []
        empty: list[str] = []
        for size in self.source.standard_sizes:
            if table.size(size.value) is None:
                near_size = table.near_size(size.value)
                names = ", ".join(row.name for row in table.sizes)
                hint = f"did you mean `{near_size}`?" if near_size else f"its sizes are {names}"
                message = f"the table `{standard.value}` has no size `{size.value}`"
                raise fault(BODY_MEASUREMENT, message, size.span(), hint=hint)
            bounds = table.look_up(measurement, size.value, self.unit)
            factor = Fraction(10) if self.unit == "cm" else INCH_MM
            if bounds is None:
                bounds = table.look_up(measurement, size.value, "in" if self.unit == "cm" else "cm")
                factor = INCH_MM if self.unit == "cm" else Fraction(10)
            if bounds is None:
                empty.append(size.value)
                continue
            low, high = bounds
            values.append({"low": low, "high": high, "middle": (low + high) / 2}[end] * factor)
        if empty:
            message = f"the table `{standard.value}` gives no `{measurement}` for size {', '.join(empty)}"
            raise fault(BODY_MEASUREMENT, message, name.span, sizes=empty, hint="give it under `sizes: body:`")
        return Worth(tuple(values), LENGTH)

    def _table(self, standard: Text) -> BodyTable:
        table = self.trade.bodies.find(standard.value)
        if table is None:
            known = self.trade.bodies.names
            near = nearest(standard.value, known)
            hint = f"did you mean `{near}`?" if near else f"the tables are {', '.join(known)}"
            raise fault(BODY_MEASUREMENT, f"there is no body table `{standard.value}`", standard.span(), hint=hint)
        return table

    def size_names(self, indices: Iterable[int]) -> tuple[str, ...]:
        """Names of sizes by index."""
        return tuple(self.sizes[index] for index in indices)


def no_rows(place: Span) -> FormulaFault:
    """The fault of asking a gauge without rows for its rows."""
    return fault(WRONG_DIMENSION, "this gauge gives stitches only, no rows", place, hint="add `rows:` to the gauge")


def _folded(name: str) -> str:
    return name.casefold().replace(" ", "_").replace("-", "_")


def _shown(key: str) -> str:
    return key if key.isidentifier() else f'"{key}"'
