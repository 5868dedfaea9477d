"""`castoff knit`: the knitting of one size, row by row, as a table in plain text.

In: a proof and a size. Out: text. Rows that are alike and follow each other stand on one line, with how many there are. A
row that failed stands in its place, with what is wrong and the needle where it stopped.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from castoff.knitting.fabric import Event, RowRecord, SectionKnitted, SizeKnitted, Stopped
from castoff.pipeline import Proof

_HEAD = ("row", "side", "worked as", "before", "after", "change", "length")
_RIGHT = (True, False, False, True, True, False, True)


def show_knitting(proof: Proof, size: int, section: str | None = None) -> str:
    """The rows of every section, or of one, in one size.

    size: its index. A column each for the row of the piece, the side, the label, stitches before and after, what
    changed, and the length of the piece so far.
    """
    assert proof.pattern is not None and proof.knitted is not None
    knitted = proof.knitted.sizes[size]
    parts = [f"{proof.pattern.title.value}, size {proof.pattern.sizes.labels[size]}"]
    for each in knitted.sections:
        if section is None or each.title.casefold() == section.casefold():
            parts.append(_section(each))
    held = _held(knitted)
    if held:
        parts.append(held)
    return "\n\n".join(parts) + "\n"


def _section(section: SectionKnitted) -> str:
    head = f"{section.title} ({section.piece})"
    between = [_event(event) for event in section.events if event.kind in _BETWEEN]
    rows: list[tuple[str, ...]] = [_HEAD]
    below: list[tuple[str, ...]] = [()]
    halts = list(section.stopped)
    for records in _together(section.records):
        while halts and halts[0].row < records[0].row:
            rows.append(_failed(halts[0]))
            below.append(_needle(halts.pop(0)))
        rows.append(_row(records))
        below.append(())
    for halt in halts:
        rows.append(_failed(halt))
        below.append(_needle(halt))
    lines = [head]
    if between:
        lines.append("  " + "; ".join(dict.fromkeys(between)))
    if len(rows) > 1:
        for line, under in zip(_columns(rows), below, strict=True):
            lines += ["  " + line, *("      " + each for each in under)]
    end = "stitch" if section.stitches == 1 else "stitches"
    lines.append(f"  leaves {section.stitches} {end} after row {section.rows}, {_cm(section.length_mm)}")
    return "\n".join(lines)


def _failed(halt: Stopped) -> tuple[str, ...]:
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


_BETWEEN = (
    "cast on", "hold", "resume", "pick up", "join yarn", "break yarn", "change needles", "join round", "seam", "graft",
    "fasten off", "on trust", "bind off",
)  # fmt: skip


def _together(records: Sequence[RowRecord]) -> Iterator[tuple[RowRecord, ...]]:
    """Records in the order of their rows; those that take turns and look alike (2, 4, 6 and 3, 5, 7) as one."""
    at = 0
    while at < len(records):
        step = records[at].step
        turn = tuple(records[at : at + step])
        alike = {(each.label, each.form, each.step, each.before, each.after, each.changes, each.rows) for each in turn}
        if step > 1 and len(turn) == step and len(alike) == 1:
            yield turn
            at += step
        else:
            yield turn[:1]
            at += 1


def _row(records: tuple[RowRecord, ...]) -> tuple[str, ...]:
    record = records[0]
    first, last = record.row, records[-1].last_row
    number = str(first) if first == last else f"{first}–{last}"
    if record.step != 1 and len(records) == 1:
        number += f" every {record.step}"
    change = record.after - record.before
    words = [f"{change:+d}"] if change else []
    for kind, events in groupby(record.changes, key=lambda event: (event.kind, event.name)):
        happened = list(events)
        words.append(_event(happened[0]) if len(happened) == 1 else f"{len(happened)} × {' '.join(kind).strip()}")
    if record.short:
        words.append("short row")
    side = "rnd" if record.form == "round" else "/".join(dict.fromkeys(each.side for each in records))
    after = str(record.after)
    length = _cm(records[-1].length_mm)
    return (number, side, record.label, str(record.before), after, ", ".join(words), length)


def _event(event: Event) -> str:
    count = f" {event.count}" if event.count else ""
    name = f" {event.name}" if event.name else ""
    return f"{event.kind}{count}{name}"


def _held(size: SizeKnitted) -> str:
    waiting = [f"{name}: {piece.live} live" for name, piece in size.pieces.items() if piece.live]
    return "still on the needles: " + ", ".join(waiting) if waiting else ""


def _cm(length_mm: Fraction) -> str:
    return f"{float(length_mm) / 10:.1f} cm"


def _columns(rows: list[tuple[str, ...]]) -> list[str]:
    widths = [max(len(row[at]) for row in rows) for at in range(len(_HEAD))]
    lines = []
    for row in rows:
        cells = [
            cell.rjust(width) if right else cell.ljust(width)
            for cell, width, right in zip(row, widths, _RIGHT, strict=True)
        ]
        lines.append("  ".join(cells).rstrip())
    return lines
