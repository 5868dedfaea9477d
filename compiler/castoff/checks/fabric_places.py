"""Where a measurement is taken: `width of Back`, `length of Sleeve from the cast-on edge to the underarm`.

In: the words of a measurement's `of`, and the knitted pieces of one size. Out: a `Place` that was understood, and the
`Taken` measure in exact millimetres with the sum behind it.

Read: width, circumference, length, height, depth; `twice` and `half` before them; `of` a piece, several pieces joined by
`and` (their measures are added), or a section; `laid flat`; `at the cast-on edge`, `at the bind-off edge`, `at the
narrowest`, `after row 12`, `after the last increase row`, `before the first decrease row`; `from … to …` between two
landmarks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from castoff.knitting.fabric import PieceKnitted, RowRecord, Rows, SizeKnitted

_PLACE = re.compile(
    r"(?P<factor>twice|double|2 ×|2 x|half)?\s*(?:of\s+)?(?:the\s+)?(?P<flat>flat\s+)?"
    r"(?P<what>width|circumference|length|height|depth)"
    r"(?P<flat2>\s+laid\s+flat)?\s+of\s+(?:the\s+)?(?P<rest>.+?)(?P<flat3>,?\s+laid\s+flat)?\s*",
    re.IGNORECASE,
)
_AT = re.compile(r"\s+(?P<words>(?:at|after|before|above|below|from|up to|to)\b.*)$", re.IGNORECASE)
_EDGES = re.compile(
    r"(?:at|from)\s+(?:the\s+)?(?P<edge>cast[- ]?on|beginning|bottom|bind[- ]?off|cast[- ]?off|top|end)\b.*"
)
_ROW = re.compile(r"(?:at|after)\s+(?:row|rnd|round)\s+(?P<row>\d+)")
_SHAPING = re.compile(
    r"(?P<side>after|before)\s+(?:the\s+)?(?:(?P<which>first|last)\s+)?(?P<kind>inc|dec)\w*(?:\s+(?:rows?|rnds?|rounds?))?"
)
_FROM_TO = re.compile(r"(?:from\s+(?:the\s+)?(?P<first>.+?))?\s*(?:(?:up\s+)?to\s+(?:the\s+)?(?P<last>.+))?")


@dataclass(frozen=True, slots=True)
class Place:
    """What is measured: `along` the rows' number ("length") or across ("width"), `factor` times, over `pieces`."""

    along: bool
    factor: Fraction
    pieces: tuple[str, ...]
    where: str


@dataclass(frozen=True, slots=True)
class Taken:
    """A measure in one size. sum: how it came about. last_row: where a length ends, None for widths."""

    millimetres: Fraction
    sum: str
    piece: str
    rows: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Unknown:
    """A place that could not be found. fault: why."""

    fault: str


def read_place(words: str, names: tuple[str, ...]) -> Place | Unknown:
    """The place that some words name; `names` are those of pieces and sections."""
    match = _PLACE.fullmatch(words.strip())
    if match is None:
        return Unknown(f"`{words}` does not say what is measured")
    factor = {"half": Fraction(1, 2), "": Fraction(1)}.get((match["factor"] or "").lower(), Fraction(2))
    if match["flat"] or match["flat2"] or match["flat3"]:
        factor /= 2
    rest = match["rest"]
    # a piece goes before a section whose title is the same but for its capitals
    by_name = {name.casefold(): name for name in reversed(names)}
    where = ""
    if rest.casefold() not in by_name and (at := _AT.search(rest)) is not None:
        rest, where = rest[: at.start()], at["words"]
    pieces: list[str] = []
    for part in [rest] if rest.casefold() in by_name else re.split(r"\s+and\s+(?:the\s+)?|\s*\+\s*|,\s*", rest):
        name = by_name.get(part.strip().casefold())
        if name is None:
            return Unknown(f"there is no piece `{part.strip()}`")
        pieces.append(name)
    along = match["what"].lower() in ("length", "height", "depth")
    return Place(along, factor, tuple(pieces), where.strip().casefold())


def take(place: Place, size: SizeKnitted) -> Taken | Unknown | None:
    """The measure of a place in one size; None when the fabric has no gauge there or nothing was knitted."""
    total = Fraction(0)
    sums: list[str] = []
    rows: tuple[int, int] | None = None
    measured = ""
    for name in place.pieces:
        piece = size.pieces.get(name)
        records: Rows
        if piece is None:
            section = next((section for section in size.sections if section.title == name), None)
            piece = size.pieces.get(section.piece) if section is not None else None
            if section is None or piece is None:
                return None
            records = section.records
        else:
            records = piece.records
        one = _along(place, piece, records) if place.along else _across(place, piece, records)
        if not isinstance(one, Taken):
            return one
        total += one.millimetres
        measured = measured or piece.name
        sums.append(one.sum)
        rows = one.rows
    together = " + ".join(sums)
    if place.factor != 1:
        together = f"{place.factor} × ({together})" if len(sums) > 1 else f"{place.factor} × {together}"
    return Taken(total * place.factor, together, measured, rows if len(place.pieces) == 1 else None)


def _across(place: Place, piece: PieceKnitted, records: Rows) -> Taken | Unknown | None:
    wide = [record for record in records.folded() if not record.short]
    counts: list[tuple[int, str | None]] = [(record.after, record.gauge) for record in wide]
    whole = records is piece.records or len(records) == len(piece.records)
    cast_on = piece.cast_on
    if cast_on[0] and cast_on[1] is None and wide:
        cast_on = (cast_on[0], wide[0].gauge)
    if whole and cast_on[0]:
        counts.insert(0, cast_on)
    where = place.where
    chosen: tuple[int, str | None] | None
    divided = _divided(wide) if not where else None
    if divided is not None:
        counts = [(record.after, record.gauge) for record in wide[divided:]]
    if not where or where == "at the widest":
        # many rows, few widths
        chosen = max(dict.fromkeys(counts), key=lambda each: _width(piece, *each) or Fraction(0), default=None)
    elif where == "at the narrowest":
        chosen = min((each for each in counts if each[0]), key=lambda each: _width(piece, *each) or 0, default=None)
    elif (edge := _EDGES.fullmatch(where)) is not None:
        if edge["edge"].replace("-", " ").replace(" ", "") in ("caston", "beginning", "bottom"):
            chosen = counts[0] if counts else None
        else:
            chosen = (wide[-1].before if wide[-1].after == 0 else wide[-1].after, wide[-1].gauge) if wide else None
    elif (row := _ROW.fullmatch(where)) is not None:
        number = int(row["row"])
        chosen = next(((r.after, r.gauge) for r in reversed(records) if not r.short and r.row <= number), None)
    elif (shaping := _SHAPING.fullmatch(where)) is not None:
        grows = shaping["kind"] == "inc"
        found = [r for r in wide if (r.after > r.before if grows else r.after < r.before)]
        if not found:
            return Unknown(f"`{piece.name}` has no {'increase' if grows else 'decrease'} row")
        first = shaping["which"] == "first" or (shaping["which"] is None and shaping["side"] == "before")
        record = found[0] if first else found[-1]
        chosen = (record.after if shaping["side"] == "after" else record.before, record.gauge)
    elif (above := re.fullmatch(r"(above|below)\s+(?:the\s+)?(.+)", where)) is not None:
        chosen = _beside(above[1], above[2], wide)
    else:
        return Unknown(f"`{where}` is no place across `{piece.name}`")
    width = _width(piece, *chosen) if chosen is not None else None
    if chosen is None or width is None:
        return None
    return Taken(width, f"{chosen[0]} sts", piece.name)


def _divided(records: list[RowRecord]) -> int | None:
    """The row that put sleeves aside: what lies before it is a yoke, and no width of the body alone."""
    found = [
        index
        for index, record in enumerate(records)
        if any(event.kind == "hold" and "sleeve" in event.name for event in record.changes)
    ]
    return found[-1] if found else None


def _beside(side: str, gauge: str, records: list[RowRecord]) -> tuple[int, str | None] | None:
    """The first row above, or the last row below, the part that is worked to a gauge ("above the rib")."""
    inside = [index for index, record in enumerate(records) if (record.gauge or "").casefold() == gauge.casefold()]
    at = None if not inside else inside[-1] + 1 if side == "above" else inside[0] - 1
    if at is None or not 0 <= at < len(records):
        return None
    return records[at].after, records[at].gauge


def _width(piece: PieceKnitted, stitches: int, gauge: str | None) -> Fraction | None:
    pitch = piece.gauges.get(gauge)
    return None if pitch is None else stitches * pitch[0]


def _along(place: Place, piece: PieceKnitted, records: Rows) -> Taken | Unknown | None:
    if not piece.records:
        return None
    if len(records) != len(piece.records):
        own = list(records.folded())
        rows = sum(record.rows for record in own if not record.short)
        length = sum((record.rows * record.height_mm for record in own if not record.short), Fraction(0))
        first = min((record.row for record in own), default=1)
        return Taken(length, f"{rows} rows", piece.name, (first - 1, max((r.last_row for r in own), default=0)))
    if not place.where:
        if piece.length_mm == 0:
            return None
        return Taken(piece.length_mm, f"{piece.rows} rows", piece.name, (0, piece.rows))
    match = _FROM_TO.fullmatch(place.where)
    if match is None or not (match["first"] or match["last"]):
        return Unknown(f"`{place.where}` is no stretch of `{piece.name}`")
    start = _landmark(piece, match["first"]) if match["first"] else 0
    end = _landmark(piece, match["last"]) if match["last"] else piece.rows
    if start is None or end is None:
        missing = match["first"] if start is None else match["last"]
        return Unknown(f"`{piece.name}` has no `{missing}`; it has {', '.join(_named(piece))}")
    low, high = sorted((start, end))
    return Taken(piece.length_between(low, high), f"{high - low} rows", piece.name, (low, high))


def _named(piece: PieceKnitted) -> Iterator[str]:
    yield from ("`cast-on edge`", "`top`")
    for name in piece.landmarks:
        if name not in ("cast-on", "beginning"):
            yield f"`{name}`"


def _landmark(piece: PieceKnitted, words: str) -> int | None:
    plain = re.sub(r"\s+(?:edge|row|rnd|round)$", "", words.strip().casefold())
    if plain.replace("-", " ").replace(" ", "") in ("caston", "beginning", "bottom"):
        return 0
    if plain.replace("-", " ").replace(" ", "") in ("bindoff", "castoff", "top", "end"):
        return piece.rows
    for name, (row, _) in piece.landmarks.items():
        if name.casefold() in (plain, words.strip().casefold()):
            return row
    return None
