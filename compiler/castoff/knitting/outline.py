"""The shape of a piece, from what was knitted.

In: the records of a piece, and the width of a stitch and height of a row at each gauge. Out: the outline as bands of
rows of one width, and the edges with their lengths.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import overload

from castoff.knitting.fabric import Edge, OutlineStep, RowRecord
from castoff.knitting.state import PieceState

Pitches = Mapping[str | None, tuple[Fraction, Fraction]]


class Outline(Sequence[OutlineStep]):
    """Bands of rows of one width, from the bottom up, part by part; worked out when somebody looks at them."""

    __slots__ = ("_pitches", "_records", "_steps")

    def __init__(self, records: Sequence[RowRecord], pitches: Pitches) -> None:
        self._records = records
        self._pitches = pitches
        self._steps: tuple[OutlineStep, ...] | None = None

    def steps(self) -> tuple[OutlineStep, ...]:
        """All of them."""
        if self._steps is None:
            self._steps = outline_of(self._records, self._pitches)
        return self._steps

    def __len__(self) -> int:
        return len(self.steps())

    @overload
    def __getitem__(self, index: int) -> OutlineStep: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[OutlineStep, ...]: ...
    def __getitem__(self, index: int | slice) -> OutlineStep | tuple[OutlineStep, ...]:
        return self.steps()[index]

    def __iter__(self) -> Iterator[OutlineStep]:
        return iter(self.steps())

    def __eq__(self, other: object) -> bool:
        return self.steps() == tuple(other) if isinstance(other, (Outline, tuple)) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.steps())


def outline_of(records: Sequence[RowRecord], pitches: Pitches) -> tuple[OutlineStep, ...]:
    """Bands of rows of one width, from the bottom up, part by part."""
    steps: list[OutlineStep] = []
    gauge: str | None = None
    for record in sorted(
        (record for record in records if not record.short), key=lambda record: (record.part, record.row)
    ):
        last = steps[-1] if steps else None
        if (
            last is not None
            and last.stitches == record.after
            and gauge == record.gauge
            and last.form == record.form
            and last.part == record.part
        ):
            steps[-1] = OutlineStep(
                last.row,
                last.rows + record.rows,
                last.stitches,
                last.width_mm,
                last.height_mm + record.height_mm * record.rows,
                last.form,
                last.part,
            )
        else:
            gauge = record.gauge
            pitch = pitches.get(gauge)
            width = None if pitch is None else record.after * pitch[0]
            steps.append(
                OutlineStep(
                    record.row,
                    record.rows,
                    record.after,
                    width,
                    record.height_mm * record.rows,
                    record.form,
                    record.part,
                )
            )
    return tuple(steps)


def edges_of(piece: PieceState, pitches: Pitches) -> tuple[Edge, ...]:
    """The edges of a piece: what was cast on, bound off and picked up, what is live, and the sides."""

    def wide(stitches: int, gauge: str | None) -> Fraction | None:
        pitch = pitches.get(gauge)
        return None if pitch is None else stitches * pitch[0]

    edges: list[Edge] = []
    gauge = piece.records[-1].gauge if piece.records else piece.cast_on[1]
    for event in piece.events:
        kinds = {"cast on": "cast on", "bind off": "bind off", "pick up": "picked up"}
        if event.kind in kinds:
            at = next((record.gauge for record in piece.records.folded() if record.last_row >= event.row), gauge)
            kind = kinds[event.kind]
            if kind == "cast on":
                edges.append(Edge("cast on", event.count, event.row, wide(event.count, at)))
            elif kind == "bind off":
                edges.append(Edge("bind off", event.count, event.row, wide(event.count, at)))
            else:
                edges.append(Edge("picked up", event.count, event.row, wide(event.count, at)))
    if piece.needle.stitches:
        edges.append(Edge("live", piece.needle.stitches, piece.rows, wide(piece.needle.stitches, gauge)))
    if any(record.form == "flat" for record in piece.records.folded()):
        edges.append(Edge("left", 0, piece.rows, piece.length))
        edges.append(Edge("right", 0, piece.rows, piece.length))
    return tuple(edges)
