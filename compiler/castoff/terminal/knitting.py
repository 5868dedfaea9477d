"""`castoff knit`: the knitting of one size, row by row, as a table in plain text.

In: a proof and a size. Out: text, no wider than `WIDTH`. Rows that are alike and follow each other stand on one line;
rows that come round again in the same order are shown once, with how often they do and where they end. A row that failed
stands in its place, with what is wrong and the needle where it stopped.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from castoff.document.timetable import BESIDE
from castoff.knitting.fabric import Event, RowRecord, SectionKnitted, SizeKnitted, Stopped
from castoff.pipeline import Proof

WIDTH = 80
"""Columns of a terminal; longer words go on below."""
LABEL_WIDTH = 24
"""Of the names of rows."""
FEWEST_TIMES = 3
"""Times that rows come round, from which they are shown once."""
MOST_TURNS = 40
"""Rows that leave other stitches at each turn, up to which every one is shown."""
LONGEST_CYCLE = 40
"""Rows in the longest group that is looked for as coming round again."""

_HEAD = ("row", "side", "worked as", "before", "after", "length", "change")
_RIGHT = (True, False, False, True, True, True, False)


@dataclass(frozen=True, slots=True)
class _Row:
    """One row as it is shown.

    change: what it does to the count and besides, in words. left: stitches left behind a turn; -1 without one. length_mm:
    of the piece then.
    """

    number: int
    side: str
    label: str
    before: int
    after: int
    change: str
    left: int
    length_mm: Fraction

    @property
    def alike(self) -> tuple[object, ...]:
        """What must be the same in a row that is called the same."""
        return self.label, self.side, self.after - self.before, self.change

    @property
    def plain(self) -> bool:
        """Whether nothing changes."""
        return self.before == self.after and not self.change


Cells = tuple[str, ...]


def show_knitting(proof: Proof, size: int, section: str | None = None, *, every_row: bool = False) -> str:
    """The rows of every section, or of one, in one size.

    size: its index. every_row: each row on a line of its own. A column each for the row of the piece, the side, the label,
    stitches before and after, the length of the piece so far, and what changed.
    """
    assert proof.pattern is not None and proof.knitted is not None
    knitted = proof.knitted.sizes[size]
    parts = [f"{proof.pattern.title.value}, size {proof.pattern.sizes.labels[size]}"]
    for each in knitted.sections:
        if section is None or each.title.casefold() == section.casefold():
            parts.append(_section(each, every_row))
    held = _held(knitted)
    if held:
        parts.append(held)
    return "\n\n".join(parts) + "\n"


def _section(section: SectionKnitted, every_row: bool) -> str:
    lines = [f"{section.title} ({section.piece})"]
    between = [_event(event) for event in section.events if event.kind in _BETWEEN]
    if between:
        lines += _wrapped("; ".join(dict.fromkeys(between)), "  ", "    ")
    table: list[Cells | str] = []
    rows = list(_unfolded(section.records))
    for halt in (*section.stopped, None):
        upto = (
            len(rows) if halt is None else next((at for at, row in enumerate(rows) if row.number > halt.row), len(rows))
        )
        table += [_cells([row]) for row in rows[:upto]] if every_row else list(_folded(rows[:upto]))
        rows = rows[upto:]
        if halt is not None:
            table += [_failed(halt), *_needle(halt)]
    lines += _set(table)
    end = "stitch" if section.stitches == 1 else "stitches"
    lines.append(f"  leaves {section.stitches} {end} after row {section.rows}, {_cm(section.length_mm)}")
    return "\n".join(lines)


# ── rows ──────────────────────────────────────────────────────────────────────────────────────────


def _unfolded(records: Sequence[RowRecord]) -> Iterator[_Row]:
    """Every row in the order of the work: a record may stand for several, with others between."""
    found: list[tuple[int, int, int, RowRecord]] = []
    stretch = 0
    for order, record in enumerate(records):
        before = records[order - 1] if order else None
        if before is not None and (before.part != record.part or record.row < min(before.row, records[0].row)):
            stretch += 1
        found += [(stretch, record.row + worked * record.step, order, record) for worked in range(record.rows)]
    for _, number, _, record in sorted(found, key=lambda each: each[:3]):
        side = "rnd" if record.form == "round" else record.side
        so_far = record.length_mm - (record.last_row - number) * record.height_mm
        yield _Row(number, side, record.label, record.before, record.after, _change(record), _left(record), so_far)


def _folded(rows: Sequence[_Row]) -> Iterator[Cells | str]:
    """Rows as lines of the table: the cycle that covers most at each point is shown once, the shorter of equals."""
    at = 0
    while at < len(rows):
        run = 1
        while at + run < len(rows) and rows[at].plain and _goes_on(rows[at], rows[at + run], run):
            run += 1
        best, times = 0, 1
        for length in range(2, LONGEST_CYCLE + 1):
            cycle = [row.alike for row in rows[at : at + length]]
            if len(cycle) < length:
                break
            count = 1
            while [row.alike for row in rows[at + count * length : at + (count + 1) * length]] == cycle:
                count += 1
            # where each turn leaves other stitches, the rows of a heel are of use; those of a long edging are not
            steady = all(rows[at + n].left == rows[at + n + length].left for n in range(length * (count - 1)))
            enough = count >= FEWEST_TIMES and (steady or count * length > MOST_TURNS)
            if enough and count * length > max(best * times, run):
                best, times = length, count
        if not best:
            yield _cells(rows[at : at + run])
            at += run
            continue
        first, last = rows[at : at + best], rows[at + best * times - 1]
        yield from (_cells([row]) for row in first)
        yield (
            f"these {len(first)} {'rnds' if last.side == 'rnd' else 'rows'} {times - 1} more times, to "
            f"{'rnd' if last.side == 'rnd' else 'row'} {last.number}: {last.after} sts, {_cm(last.length_mm)}"
        )
        at += best * times


def _goes_on(first: _Row, row: _Row, distance: int) -> bool:
    """Whether a row is the same plain row again, each on the other side of the fabric or round and round."""
    sides = {first.side} if first.side == "rnd" else {"RS", "WS"}
    turned = first.side == "rnd" or (row.side == first.side) == (distance % 2 == 0)
    return row.plain and row.label == first.label and row.after == first.after and row.side in sides and turned


def _cells(rows: Sequence[_Row]) -> Cells:
    first, last = rows[0], rows[-1]
    number = str(first.number) if first.number == last.number else f"{first.number}–{last.number}"
    side = "/".join(dict.fromkeys(row.side for row in rows[:2]))
    left = f"{first.left} left" if first.left > 0 else ""
    change = ", ".join(filter(None, (first.change, left)))
    return number, side, first.label, str(first.before), str(last.after), _cm(last.length_mm), change


def _left(record: RowRecord) -> int:
    return next((event.count for event in reversed(record.changes) if event.kind == "turn"), -1)


def _change(record: RowRecord) -> str:
    """What a row adds or takes, and what happened in it besides its stitches."""
    delta = record.after - record.before
    beside = "".join(f" ({_event(event)})" for event in record.changes if event.name == BESIDE)
    words = [f"{delta:+d}{beside}"] if delta or beside else []
    for _, events in groupby(record.changes, key=lambda event: (event.kind, event.name)):
        happened = list(events)
        if happened[0].name == BESIDE:
            continue
        times = f" × {len(happened)}" if len(happened) > 1 else ""
        words.append(_event(happened[0]) + times)
    if record.short and not any(event.kind == "turn" for event in record.changes):
        words.append("short row")
    return ", ".join(words)


_BETWEEN = (
    "cast on", "hold", "resume", "pick up", "join yarn", "break yarn", "change needles", "join round", "seam", "graft",
    "fasten off", "on trust", "bind off",
)  # fmt: skip
_TURNS = {"plain": "turn", "wrap": "wrap and turn"}


def _event(event: Event) -> str:
    """What happened, in words."""
    name = f" {event.name}" if event.name else ""
    match event.kind:
        case "turn":
            return _TURNS.get(event.name, f"{event.name} turn")
        case "place marker" | "remove marker":
            if event.name == "all":
                return "remove all markers"
            count = f" {event.count}" if event.count > 1 else ""
            return f"{event.kind}{count}{name}"
        case "change needles":
            told = event.name.endswith(("dpn", "dpns", "needle", "needles"))
            return f"change to {event.name}{'' if told else ' needles'}"
        case "hold":
            return f"put aside {event.count}: {event.name}" if event.name else f"put aside {event.count}"
        case "resume":
            return f"take back {event.count}{f' of {event.name}' if event.name else ''}"
        case "join yarn" | "break yarn":
            return f"{event.kind}{name}"
        case "increase" | "decrease":
            return f"{'+' if event.kind == 'increase' else '-'}{event.count}{name}"
    return f"{event.kind}{f' {event.count}' if event.count else ''}{name}"


# ── a row that failed ─────────────────────────────────────────────────────────────────────────────


def _failed(halt: Stopped) -> Cells:
    side = "rnd" if halt.form == "round" else halt.side
    return (str(halt.row), side, halt.label, str(halt.before), "stops", "", "")


def _needle(halt: Stopped) -> tuple[str, ...]:
    """What is wrong, and the stitches on both needles at the place where the row stopped."""
    made, left = halt.halt.made, halt.halt.left
    worked = f"on the right needle, {len(made)}: {_runs(made, halt.halt.made_marks, halt.side)}"
    ahead = f"on the left needle, {len(left)}: {_runs(left, halt.halt.left_marks, halt.side)}"
    return (f"! {halt.why}", worked, ahead)


_OTHER = str.maketrans("kp", "pk")


def _runs(faces: str, marks: tuple[tuple[int, str], ...], side: str) -> str:
    """Stitches as they face the knitter, run by run, with the markers between: "k12 p6 |side| k3"."""
    if not faces and not marks:
        return "none"
    seen = faces if side == "RS" else faces.translate(_OTHER)
    parts: list[str] = []
    places = sorted({0, len(seen), *(place for place, _ in marks)})
    for at, place in enumerate(places):
        parts += [f"|{name}|" if name else "|" for where, name in marks if where == place]
        stop = places[at + 1] if at + 1 < len(places) else place
        for letter, run in groupby(seen[place:stop]):
            count = len(list(run))
            parts.append(f"{count} yo" if letter == "y" else f"{letter}{count}")
    return " ".join(parts)


def _held(size: SizeKnitted) -> str:
    waiting = [f"{name}: {piece.live} live" for name, piece in size.pieces.items() if piece.live]
    return "still on the needles: " + ", ".join(waiting) if waiting else ""


def _cm(length_mm: Fraction) -> str:
    return f"{float(length_mm) / 10:.1f} cm"


# ── the table ─────────────────────────────────────────────────────────────────────────────────────


def _set(table: Sequence[Cells | str]) -> list[str]:
    """Lines of a table: cells in columns, and sentences that go across them."""
    rows = [each for each in table if not isinstance(each, str)]
    if not rows:
        return []
    widths = [max(len(row[at]) for row in (_HEAD, *rows)) for at in range(len(_HEAD))]
    widths[2] = min(widths[2], LABEL_WIDTH)
    widths[-1] = max(12, WIDTH - 2 - sum(widths[:-1]) - 2 * (len(widths) - 1))
    lines: list[str] = []
    for each in (_HEAD, *table):
        lines += _wrapped(each, "      ", "        ") if isinstance(each, str) else _line(each, widths)
    return lines


def _line(cells: Cells, widths: Sequence[int]) -> list[str]:
    """A row of cells; a name or a change that is too long goes on below."""
    broken = [textwrap.wrap(cell, width) or [""] for cell, width in zip(cells, widths, strict=True)]
    lines = []
    for at in range(max(map(len, broken))):
        texts = [parts[at] if at < len(parts) else "" for parts in broken]
        set_ = [
            text.rjust(width) if right else text.ljust(width)
            for text, width, right in zip(texts, widths, _RIGHT, strict=True)
        ]
        lines.append("  " + "  ".join(set_).rstrip())
    return lines


def _wrapped(text: str, first: str, further: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=further, break_long_words=False)
