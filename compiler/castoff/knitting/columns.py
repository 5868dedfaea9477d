"""Knits over purls: a row that sets its columns beside those of its neighbours, with the total right.

In: the rows of a section in one size, in order. Out: a fault for a row that stands alone in being shifted.

Ribs and other textures of knits and purls: the faces of a row are those of the row below moved by some stitches. In a rib
none is moved; in seed stitch and diagonal patterns all are, and alike; one row that is moved while the others are not, or
two rows that are moved against each other by anything but half the repeat, is a slip. Panels between columns of purl: a row
that has lost them, while all the others keep them, is one too. Lace and cables are looked at in `both_ways`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from castoff.knitting.both_ways import check_both_ways
from castoff.knitting.fabric import RowRecord
from castoff.knitting.fabrics import RIBS, SEED
from castoff.knitting.faults import COLUMN_LOST, COLUMNS_SHIFTED, fault
from castoff.knitting.setting import settled
from castoff.knitting.state import SizeState
from castoff.notation.syntax import RowsForm

MOST_EDGE = 4
"""Edge stitches at each end that may go their own way (garter edges, selvedges)."""
MOST_PERIOD = 30
LONGEST_TEXT = 600
_PLAIN = frozenset(("k", "p", "k tbl", "p tbl", "sl"))
_SHIFTY = ("moss", "seed", "broken", "mistake", "diagonal", "basket", "brioche", "zigzag", "farrow", "herringbone")


@dataclass(frozen=True, slots=True)
class Shift:
    """A row's columns against those of the row before it: moved by so many stitches of a repeat of `period`."""

    record: RowRecord
    before: RowRecord
    by: int
    period: int


def check_columns(state: SizeState, first: int) -> None:
    """Looks through the section's rows, from record `first` on, for one that is shifted against its neighbours.

    Rows on a slope are like those at its ends, and their columns grow one way: a shift among them is one at an end.
    """
    records = [
        record for record in state.piece.records[first:].worked() if not record.short and record.span is not None
    ]
    if len(records) < 2:
        return
    _textures(state, records)
    _seeds(state, records)
    _lost(state, records)
    _ways_back(state, records)
    check_both_ways(state, records)


# ------------------------------------------------------------------------------------------------ knits and purls


def _textures(state: SizeState, records: Sequence[RowRecord]) -> None:
    for run in _runs(records):
        shifts = _shifts(run)
        odd = _odd_one(state, shifts)
        if odd is None:
            continue
        gap = min(odd.by, odd.period - odd.by)
        span = odd.before.span
        state.report(
            fault(
                COLUMNS_SHIFTED,
                odd.record.span,
                "{label} sets its knits and purls {by} st{s} beside those of {below}: the total is right, the columns "
                "are not",
                hint="begin the row so that knits stand over knits and purls over purls",
                label=odd.record.label,
                by=gap,
                s="" if gap == 1 else "s",
                below=odd.before.label,
                related=((span, "the row whose columns it should follow"),) if span is not None else (),
            )
        )


def _runs(records: Sequence[RowRecord]) -> list[list[RowRecord]]:
    """Stretches of rows of knits and purls alone, on equally many stitches."""
    runs: list[list[RowRecord]] = []
    current: list[RowRecord] = []
    for record in records:
        plain = record.before == record.after and all(stitch in _PLAIN for (_, stitch), _ in record.tally)
        if plain and (not current or current[-1].after == record.before):
            current.append(record)
            continue
        runs.append(current)
        current = [record] if plain else []
    runs.append(current)
    return [run for run in runs if len(run) > 1]


def _shifts(run: Sequence[RowRecord]) -> list[Shift]:
    found: list[Shift] = []
    pairs = list(pairwise(run))
    # rows that are worked again and again also stand over the last of their own cycle
    repeated = [record for record in run if record.rows > 1]
    if len(repeated) > 1 and len({record.rows for record in repeated}) == 1:
        pairs.append((repeated[-1], repeated[0]))
    seen: set[tuple[int, int]] = set()
    for before, record in pairs:
        # the same two rows, worked again, tell nothing new
        places = (before.span.start if before.span else -1, record.span.start if record.span else -1)
        if places in seen:
            continue
        seen.add(places)
        below, above = settled(before.faces), settled(record.faces)
        period = _period(above)
        if period is None or period != _period(below):
            continue
        by = _moved(below, above, period)
        if by is not None:
            found.append(Shift(record, before, by, period))
    return found


def _core(faces: str) -> str:
    edge = min(MOST_EDGE, max(0, (len(faces) - 12) // 4))
    return faces[edge : len(faces) - edge]


def _period(faces: str) -> int | None:
    core = _core(faces)[:LONGEST_TEXT]
    if "k" not in core or "p" not in core:
        return None
    for period in range(2, min(MOST_PERIOD, len(core) // 2) + 1):
        if core[period:] == core[:-period]:
            return period
    return None


def _moved(below: str, above: str, period: int) -> int | None:
    under, over = _core(below)[:LONGEST_TEXT], _core(above)[:LONGEST_TEXT]
    for by in range(period):
        if over[by:] == under[: len(under) - by]:
            return by
    return None


def _odd_one(state: SizeState, shifts: Sequence[Shift]) -> Shift | None:
    moved = [shift for shift in shifts if shift.by]
    if not moved:
        return None
    name = (moved[0].record.gauge or "").lower()
    known = state.plan.gauges.get(moved[0].record.gauge or "")
    name += " " + (known.fabric.lower() if known is not None else "")
    if any(word in name for word in _SHIFTY):
        return None
    if "rib" in name.split() or "ribbing" in name.split():
        return moved[0]
    halves = all(2 * shift.by == shift.period for shift in moved)
    still = len(shifts) - len(moved)
    if halves:
        return None
    if len(moved) == 1 and still >= 1:
        return moved[0]
    if len(moved) == 2 and (moved[0].by + moved[1].by) % moved[0].period == 0:
        return moved[0]
    return None


def _seeds(state: SizeState, records: Sequence[RowRecord]) -> None:
    """In a section of seed stitch, knits and purls alternate wherever a row has both."""
    known = state.plan.gauges.get(records[0].gauge or "")
    names = ((records[0].gauge or "").lower(), known.fabric.lower() if known is not None else "")
    if not any(name in SEED for name in names):
        return
    for record in records:
        core = _core(settled(record.faces))
        plain = all(stitch in _PLAIN for (_, stitch), _ in record.tally)
        if plain and record.gauge == records[0].gauge and len(set(core)) > 1 and ("kk" in core or "pp" in core):
            state.report(
                fault(
                    COLUMNS_SHIFTED,
                    record.span,
                    "{label} does not make seed stitch: knits and purls do not alternate",
                    label=record.label,
                )
            )
            return


def _inside(record: RowRecord) -> str:
    return _core(settled(record.faces))


def _follows(below: RowRecord, record: RowRecord) -> bool:
    """Whether a row knits the knits and purls the purls, edge stitches left aside."""
    return _inside(below) == _inside(record)


def _ways_back(state: SizeState, records: Sequence[RowRecord]) -> None:
    """Rows that knit the knits and purl the purls of the row below, and one that does not."""
    pairs: dict[tuple[int, str], tuple[RowRecord, RowRecord]] = {}
    for below, record in pairwise(records):
        plain = record.before == record.after and {stitch for (_, stitch), _ in record.tally} == {"k", "p"}
        if plain and record.span is not None and len(below.faces) == len(record.faces):
            pairs.setdefault((record.span.start, record.label), (below, record))
    odd = [pair for pair in pairs.values() if not _follows(*pair)]
    if len(odd) != 1:
        return
    below, record = odd[0]
    even = [each for _, each in pairs.values() if each is not record and each.side == record.side]
    if len(even) < _FEWEST or len({settled(each.faces) for each in even}) < 2:
        return
    state.report(
        fault(
            COLUMN_LOST,
            record.span,
            "{label} does not knit the knits and purl the purls of {below}, as the other rows of its side do: {count} sts "
            "stand otherwise",
            hint="one of the two rows is another than was meant",
            label=record.label,
            below=below.label,
            count=sum(one != two for one, two in zip(_inside(below), _inside(record), strict=True)),
            related=((below.span, "the row below"),) if below.span is not None else (),
        )
    )


_FEWEST = 4
"""Rows on the same stitches, each told on its own, from which one that breaks a column is seen."""


def _lost(state: SizeState, records: Sequence[RowRecord]) -> None:
    """Columns of purl that every row keeps but one, which knits them all and is no plain row."""
    told: dict[tuple[int, str], RowRecord] = {}
    for record in records:
        if record.span is not None and record.faces and len(record.faces) == record.before == record.after:
            told.setdefault((record.span.start, record.label), record)
    by_count: dict[int, list[RowRecord]] = {}
    for record in told.values():
        by_count.setdefault(record.after, []).append(record)
    for rows in by_count.values():
        if not _FEWEST <= len(rows) <= MOST_PERIOD:
            continue
        faces = [settled(record.faces) for record in rows]
        for at, record in enumerate(rows):
            if "p" in faces[at] or any(stitch not in ("k", "p") for (_, stitch), _ in record.tally):
                # a plain row between two patterns has no columns to keep
                mixed = [index for index, each in enumerate(faces) if index != at and len(set(each)) > 1]
                others = [faces[index] for index in mixed]
                # rows of the other side alone would take garter edges for columns
                same_side = sum(rows[index].side == record.side for index in mixed)
                told_enough = len(others) + 1 >= _FEWEST and same_side > 1
                if told_enough and _alone(faces[at], others) and not _leaves_off(record.faces, faces[at], others):
                    state.report(
                        fault(
                            COLUMN_LOST,
                            record.span,
                            "{label} knits where every other row has a column of purl: {count} sts",
                            hint="purl them on the right side, knit them on the wrong side",
                            label=record.label,
                            count=_missing(faces[at], others),
                        )
                    )
                    return


def _missing(row: str, others: Sequence[str]) -> int:
    return sum(face == "k" and all(other[at] == "p" for other in others) for at, face in enumerate(row))


def _leaves_off(raw: str, row: str, others: Sequence[str]) -> bool:
    """Whether a row knits on over several columns at a stretch: it leaves the pattern off, and has not lost a purl."""
    lost = [face == "k" and all(other[at] == "p" for other in others) for at, face in enumerate(row)]
    for run in re.finditer("k+", raw):
        groups = [at for at in range(*run.span()) if lost[at] and (at == run.start() or not lost[at - 1])]
        if len(groups) > 1:
            return True
    return False


def _alone(row: str, others: Sequence[str]) -> bool:
    """Whether a row has lost columns that the others keep, and has no purl of its own where they all knit."""
    own = any(face == "p" and all(other[at] == "k" for other in others) for at, face in enumerate(row))
    return not own and _missing(row, others) > 0


def check_formed(state: SizeState, step: RowsForm) -> None:
    """Rows that are given the name of a fabric must make it: "this row forms moss st"."""
    name = step.fabric.name.lower()
    last = state.piece.records[-1] if state.piece.records else None
    if last is None or last.span is None:
        return
    faces = settled(last.faces)
    wrong = ""
    if name in SEED and ("kk" in faces or "pp" in faces):
        wrong = "knits and purls do not alternate"
    elif (name in RIBS or step.fabric.kind == "rib") and len(set(faces)) < 2:
        wrong = "it has no columns"
    if wrong:
        state.report(
            fault(
                COLUMNS_SHIFTED,
                last.span,
                "{label} does not make {name}: {wrong}",
                label=last.label,
                name=name,
                wrong=wrong,
            )
        )
