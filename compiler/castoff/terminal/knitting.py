"""`castoff knit`: the knitting of one size, row by row, as a table in plain text.

In: a proof and a size. Out: text. Rows that are alike and follow each other stand on one line, with how many there are.
"""

from __future__ import annotations

from fractions import Fraction

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
    rows = [_row(record) for record in section.records]
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


def _row(record: RowRecord) -> tuple[str, ...]:
    number = str(record.row) if record.rows == 1 else f"{record.row}–{record.last_row}"
    if record.step != 1:
        number += f" every {record.step}"
    change = record.after - record.before
    words = [f"{change:+d}"] if change else []
    words += [_event(event) for event in record.changes]
    if record.short:
        words.append("short row")
    side = "rnd" if record.form == "round" else record.side
    after = str(record.after)
    return (number, side, record.label, str(record.before), after, ", ".join(words), _cm(record.length_mm))


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
