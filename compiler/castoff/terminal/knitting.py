"""`castoff knit`: the knitting of one size, row by row, as a table in plain text.

In: a proof and a size. Out: text. Rows that are alike and follow each other stand on one line, with how many there are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from castoff.knitting.fabric import Event, RowRecord, SectionKnitted, SizeKnitted
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
    rows = [_row(records) for records in _together(section.records)]
    lines = [head]
    if between:
        lines.append("  " + "; ".join(dict.fromkeys(between)))
    if rows:
        lines += ["  " + line for line in _columns([_HEAD, *rows])]
    end = "stitch" if section.stitches == 1 else "stitches"
    lines.append(f"  leaves {section.stitches} {end} after row {section.rows}, {_cm(section.length_mm)}")
    return "\n".join(lines)


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
