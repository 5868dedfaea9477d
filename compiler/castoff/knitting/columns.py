"""Knits over purls: a row that sets its columns beside those of its neighbours, with the total right.

In: the rows of a section in one size, in order. Out: a fault for a row that stands alone in being shifted.

Two ways of seeing it. Ribs and other textures of knits and purls: the faces of a row are those of the row below moved
by some stitches. In a rib none is moved; in seed stitch and diagonal patterns all are, and alike; one row that is moved
while the others are not, or two rows that are moved against each other by anything but half the repeat, is a slip. Lace:
where the other rows of a pattern read the same from both ends, one that does not, and would if it were moved, is a slip.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from castoff.knitting.fabric import Done, RowRecord, Worked
from castoff.knitting.fabrics import RIBS, SEED
from castoff.knitting.faults import COLUMNS_SHIFTED, fault
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
    _laces(state, records)


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


# ------------------------------------------------------------------------------------------------ lace


_MIRROR = {"k2tog": "ssk", "ssk": "k2tog", "skp": "k2tog", "m1l": "m1r", "m1r": "m1l", "p2tog": "ssp", "ssp": "p2tog"}
_ONE_NAME = {"skp": "ssk", "skpo": "ssk", "sk2p": "cdd", "s2kp": "cdd", "k3tog": "cdd", "sssk": "cdd", "cdd": "cdd"}


def _laces(state: SizeState, records: Sequence[RowRecord]) -> None:
    rows = []
    for record in {id(each.span): each for each in reversed(records)}.values():
        names = {stitch for (_, stitch), _ in record.tally}
        if "yo" in names and len(names - _PLAIN) > 1 and any(not isinstance(each, Done) for each in record.worked):
            rows.append(record)
    rows.reverse()
    if len(rows) < 3:
        return
    texts = [_text(record.worked) for record in rows]
    if any(text is None for text in texts):
        return
    even = [_reads_both_ways(text) for text in texts if text is not None]
    if even.count(False) != 1:
        return
    at = even.index(False)
    text = texts[at]
    assert text is not None, "texts were looked through above"
    moved = _would_read(text)
    if moved:
        record = rows[at]
        state.report(
            fault(
                COLUMNS_SHIFTED,
                record.span,
                "{label} stands {by} st{s} to one side: the other rows of the pattern read the same from both ends, "
                "this one does not",
                hint="move {by} st{s} from one end of the row to the other",
                label=record.label,
                by=moved,
                s="" if moved == 1 else "s",
            )
        )


def _text(worked: Sequence[Worked]) -> list[str] | None:
    text: list[str] = []
    for each in worked:
        if isinstance(each, Done):
            text.extend([_ONE_NAME.get(each.stitch, each.stitch)] * min(each.count, LONGEST_TEXT + 1))
        else:
            inner = _text(each.body)
            if inner is None or len(inner) * each.times > LONGEST_TEXT:
                return None
            text.extend(inner * each.times)
        if len(text) > LONGEST_TEXT:
            return None
    return text


def _mirrored(text: Sequence[str]) -> list[str]:
    return [_MIRROR.get(name, name) for name in reversed(text)]


def _reads_both_ways(text: Sequence[str]) -> bool:
    return list(text) == _mirrored(text)


def _would_read(text: Sequence[str]) -> int:
    """By how many plain stitches, taken from one end and put to the other, the row would read both ways; 0 if not."""
    for by in (1, 2):
        if all(name == "k" for name in text[:by]) and _reads_both_ways([*text[by:], *text[:by]]):
            return by
        if all(name == "k" for name in text[-by:]) and _reads_both_ways([*text[-by:], *text[:-by]]):
            return by
    return 0
