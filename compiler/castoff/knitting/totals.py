"""Printed totals held against the needle.

In: a `Total` and where the knitting stands. Out: nothing, or a fault with both numbers; afterwards the knitting goes on
from the one that what follows agrees with, so that one slip is reported once.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from castoff.knitting.ahead import tried
from castoff.knitting.divisions import mind_each, mind_needle, on_needles
from castoff.knitting.edge_counts import mind_without_edges
from castoff.knitting.fabric import DoneRepeat
from castoff.knitting.faults import PART_OFF, ROWS_OFF, TOTAL_OFF, Fault, Pointer, fault
from castoff.knitting.loops import DIVISION, hidden
from castoff.knitting.row_faults import other
from castoff.knitting.short_rows import between_turns, check_wraps, tells_wraps
from castoff.knitting.sources import sources_of, told_by
from castoff.knitting.state import PieceState, SizeState
from castoff.notation.syntax import Stated, ToldRows, Total

_AFTER = frozenset({"between", "on", "in", "for", "at", "each", "to", "before", "after", "from", "of", "per", "either"})
_NEEDLE = re.compile(r"\bneedle \d|\bn ?\d|(?:first|second|third|fourth|\d(?:st|nd|rd|th)) needle")


def expected_of(state: SizeState, total: Total) -> int | None:
    """The number of stitches that a total prints for the whole needle; None when it speaks of parts or changes."""
    whole = [each for each in total.stated if not (each.change or each.part or each.each or each.edges)]
    if len(whole) == 1:
        return whole[0].stitches.at(state.size)
    changes = [stated for stated in total.stated if stated.change]
    if changes and not whole:
        return None
    return None


def check_total(state: SizeState, total: Total) -> None:
    """Holds a printed total against the needle."""
    piece = state.piece
    have = piece.needle.counted
    told = [each for each in total.stated if not each.change]
    whole = [each for each in told if _all_of_it(state, each)]
    changes = [each for each in total.stated if each.change]
    parts = [each for each in told if each not in whole]
    for stated in parts:
        if tells_wraps(stated):
            check_wraps(state, stated)
        elif stated.edges and not piece.doubt:
            mind_without_edges(state, stated)
    parts = [each for each in parts if not tells_wraps(each) and not each.edges]
    for stated in parts:
        if _tells_edge(stated):
            _check_edge(state, stated)
    parts = [each for each in parts if not _tells_edge(each)]
    was_in_doubt = piece.doubt
    for stated in whole:
        number = stated.stitches.at(state.size)
        if number is None:
            continue
        piece.doubt = False
        if number == reached(piece):
            continue  # "K20, turn. 20 sts.": what the row has come to, before the rest is put aside
        if number == have:
            piece.told = (stated.span, number, "printed here")
        elif was_in_doubt:
            piece.needle = piece.needle.resized(number)
        else:
            _refuted(state, stated, number, have, _sum_of(parts, state.size) == number)
            parts = []
        piece.unaccounted = None
    for stated in changes:
        number = stated.stitches.at(state.size)
        change = have - piece.before
        if number is None or was_in_doubt or piece.doubt or (piece.unsure and piece.needle.marks):
            continue
        if abs(number) != abs(change) or (number * change < 0):
            _refuted(state, stated, piece.before + number, have)
    if any(each.each for each in parts):
        piece.bridges = False  # "20 sts each side": the gap parts them
    if parts and not was_in_doubt and not piece.doubt:
        _check_parts(state, parts)


def _all_of_it(state: SizeState, stated: Stated) -> bool:
    """Whether a total is one of the whole needle: the body whose sleeves wait, the piece by its name, the side in work."""
    if stated.edges:
        return False
    if stated.each:
        return stated.part == "side" and state.piece.neck_rows is not None and len(segments(state)) == 1
    return not stated.part or (len(segments(state)) == 1 and _is_whole(state, stated.part))


def _sum_of(parts: Sequence[Stated], size: int) -> int:
    """What parts come to, two of each where the words say "each"."""
    return sum((stated.stitches.at(size) or 0) * (2 if stated.each else 1) for stated in parts)


def _refuted(state: SizeState, stated: Stated, number: int, have: int, parts_agree: bool = False) -> None:
    """One of two numbers is wrong: the printed one, or what the rows come to. What follows says which.

    number: on the needle as it is printed; have: as it was worked. parts_agree: printed parts come to the printed number.
    """
    piece = state.piece
    printed = piece.needle.resized(number)
    mine = tried(state, piece.needle)
    other = tried(state, printed, guessed=bool(piece.needle.marks))
    words: dict[str, int | str] = {"stated": number, "have": have}
    message, hint = "{stated} sts are printed, {have} are on the needle", "{have} sts"
    if stated.change:
        words |= {"change": f"{number - piece.before:+d}", "made": f"{have - piece.before:+d}", "before": piece.before}
        message, hint = "a change of {change} sts is printed, it is {made}", "from {before} to {have} sts"
    elif stated.part:
        words["part"] = stated.part
        message = "{stated} " + _called(stated) + " are printed, {have} are on the needle"
    rule = PART_OFF if stated.part and not stated.change else TOTAL_OFF
    source = piece.unaccounted
    mine_here = source is not None and source[0].line == stated.span.line
    related: list[Pointer] = [] if mine_here else list(sources_of(piece, stated.span))
    if other.where is not None and mine.steps > other.steps:
        # the printed number is the wrong one: the knitting goes on as it was worked
        related.append(Pointer(other.where, "{stated} sts would not come out here, {have} do"))
        state.report(Fault(rule, stated.span, message, tuple(words.items()), hint, tuple(related)), sure=True)
        return
    if mine.where is not None and (parts_agree or (other.steps > mine.steps and other.proven)):
        here = source[0] if source is not None and mine_here else stated.span
        if here is not stated.span:
            related = [*told_by(piece, here), Pointer(stated.span, "{stated} sts are printed")]
        related.append(Pointer(mine.where, "{have} sts would not come out here, {stated} do"))
        label = next(
            (row.label for row in reversed(piece.records) if row.span == here and row.before != row.after), None
        )
        message = "{have} sts are on the needle"
        if label is not None:
            words["label"] = label
            message = "{label} comes to {have} sts"
        part = " " + _called(stated) if stated.part else ""
        message += "; {stated}" + part + " are printed, and what follows needs {stated}"
        state.report(Fault(rule, here, message, tuple(words.items()), None, tuple(related)))
        piece.needle, piece.strayed = printed, piece.strayed or bool(printed.marks)
        return
    state.report(Fault(rule, stated.span, message, tuple(words.items()), hint, tuple(related)))
    if mine.where is not None:
        piece.needle, piece.doubt, piece.strayed = printed, True, piece.strayed or bool(printed.marks)


def _tells_edge(stated: Stated) -> bool:
    """Whether a printed number speaks of stitches slipped at the beginning of rows: "14 slipped sts along each edge"."""
    return stated.part.split(" ")[0] in ("slipped", "chain")


def _check_edge(state: SizeState, stated: Stated) -> None:
    """Holds "14 slipped sts along each edge of the flap" against the rows that slip their first stitch, on each side."""
    number = stated.stitches.at(state.size)
    if number is None or state.piece.doubt:
        return
    found = {"RS": 0, "WS": 0}
    for record in reversed(state.piece.records):
        if record.form != "flat" or record.short or record.part != state.piece.part:
            break
        first = record.worked[0] if record.worked else None
        while isinstance(first, DoneRepeat):
            first = first.body[0] if first.body else None
        if first is None or not first.stitch.startswith("sl"):
            break
        both = record.rows // 2 if record.step % 2 else 0  # rows of both sides, the first of them on this one
        found[record.side] += record.rows - both
        found[other(record.side)] += both
    if set(found.values()) != {number}:
        state.report(
            fault(
                PART_OFF,
                stated.span,
                "{number} sts are told along each edge; {right} RS rows and {left} WS rows have slipped their first st",
                number=number,
                right=found["RS"],
                left=found["WS"],
                hint="{right} sts" if found["RS"] == found["WS"] else None,
            )
        )


def reached(piece: PieceState) -> int | None:
    """Stitches that a row has worked up to the place where it was turned; None when it has come to its end."""
    needle = piece.needle
    if needle.at not in needle.turns:
        return None
    return needle.at if piece.due == "WS" else needle.stitches - needle.at


def _check_parts(state: SizeState, parts: list[Stated]) -> None:
    have = state.piece.needle.stitches
    numbers = [(stated, stated.stitches.at(state.size) or 0) for stated in parts]
    if any(number == 0 for _, number in numbers):
        return
    pairs = [(stated, number) for stated, number in numbers if " and " in stated.part]
    for stated, number in pairs:
        if stated.each and not _both_found(state, number, alone=len(parts) == 1):
            _part_off(state, stated, number)
            return
    if pairs:
        numbers = [each for each in numbers if each not in pairs]
    held = sum(group.stitches for group in state.holders)
    if len(numbers) > 1 and not any(stated.each for stated in parts) and not pairs:
        total = _sum_of(parts, state.size)
        if total not in (have, have + held) and not all(_found(state, *each) for each in numbers):
            terms = [(f"n{at}", number) for at, (_, number) in enumerate(numbers)]
            wording = " + ".join("{" + name + "}" for name, _ in terms)
            message = wording + " = {total} sts are printed, {have} are on the needle"
            state.report(Fault(PART_OFF, parts[0].span, message, (*terms, ("total", total), ("have", have))))
        return
    for stated, number in numbers:
        if not _found(state, stated, number):
            _part_off(state, stated, number)
            return


def _part_off(state: SizeState, stated: Stated, number: int) -> None:
    state.report(
        fault(
            PART_OFF,
            stated.span,
            "{number} {part} are printed; {there}",
            number=number,
            part=_called(stated),
            there=_there(state),
        )
    )


def _both_found(state: SizeState, number: int, *, alone: bool) -> bool:
    """ "100 sts each for front and back": twice as many between markers and gaps, or all there are, where nothing else is
    told beside them."""
    parts = segments(state)
    if len(parts) > 1:
        return parts.count(number) >= 2 or (not alone and number in parts)
    have = state.piece.needle.stitches
    return 2 * number == have if alone else 2 * number < have


def _called(stated: Stated) -> str:
    """Stitches of a part as they are called: "sts between markers", "sts each side", "body sts"."""
    if stated.each:
        return f"sts each {stated.part}".rstrip()
    if not stated.part or stated.part.split()[0] in _AFTER:
        return f"sts {stated.part}".rstrip()
    return f"{stated.part} sts"


def check_rows(state: SizeState, told: ToldRows) -> None:
    """Holds a printed number of rows against those worked: by the last line, in the section, in the piece."""
    number = told.rows.at(state.size)
    piece = state.piece
    if number is None or piece.doubt:
        return
    if told.unit == "ridge":
        number *= 2
    there = {
        "by the last line": -1 if state.repeated else state.last_rows,
        "in this section": piece.rows + piece.short_rows - sum(state.section_start),
        "in the piece": piece.rows,
        "since row 1": state.counted,
    }
    runs: dict[str | None, int] = {}
    for record in piece.records.folded():
        runs[record.gauge] = runs.get(record.gauge, 0) + record.rows
    candidates = [*there.values(), runs.get(state.gauge, 0), *_since_change(state)]
    if number in candidates:
        return
    if told.unit == "ridge" and number - 1 in (piece.rows, *_since_change(state)):
        return  # the edge that rows start from makes a ridge with the first of them
    nearest = min((key for key in there if there[key] >= 0), key=lambda key: abs(there[key] - number))
    state.report(
        fault(
            ROWS_OFF,
            told.span,
            "{told} {unit}s are printed, {have} have been worked {where}",
            hint="{right} {unit}s",
            told=told.rows.at(state.size) or 0,
            unit=told.unit,
            have=there[nearest],
            where=nearest,
            right=(there[nearest] + 1) // 2 if told.unit == "ridge" else there[nearest],
        )
    )


def _since_change(state: SizeState) -> list[int]:
    """Rows since the last change of needles, and since the last stitches were cast on, picked up or taken back."""
    piece = state.piece
    kinds = ("change needles", "pick up", "resume", "cast on", "place marker", "hold", "bind off")
    found = []
    for kind in kinds:
        at = next((event.row for event in reversed(piece.events) if event.kind == kind), None)
        if at is not None:
            found.append(piece.rows - at)
    return found


def segments(state: SizeState, *, needles: bool = False) -> list[int]:
    """Stitches between the markers, gaps and ends of the needle, in order; between needles of a set if so asked."""
    needle = state.piece.needle
    marks = [place for place, name in needle.marks if (name.startswith(DIVISION) if needles else not hidden(name))]
    places = sorted({0, needle.stitches, *marks, *needle.gaps})
    return [last - first for first, last in pairwise(places)]


def _found(state: SizeState, stated: Stated, number: int) -> bool:
    have = state.piece.needle.stitches
    parts = segments(state, needles="needle" in stated.part)
    if stated.part.endswith("each needle") or (stated.each and stated.part.endswith("needle")):
        return mind_each(state, number)
    on_one = mind_needle(state, stated.part, number) if _NEEDLE.search(stated.part) else None
    if on_one is not None:
        return on_one
    if stated.each:
        return _on_each(state, number, parts)
    sums = {number}
    running = {sum(parts[first:last]) for first in range(len(parts)) for last in range(first + 1, len(parts) + 1)}
    around = {have - each for each in running}
    if len(parts) == 1 and _is_whole(state, stated.part):
        return number == have
    turned = between_turns(state.piece)
    if turned is not None and len(parts) == 1:
        return number in (turned[1], have - turned[1])
    if len(parts) == 1:
        # no marker parts the needle: the author's division cannot be seen, only that it is no more than there is
        return number <= have or any(group.stitches == number for group in state.holders)
    return bool(sums & (running | around)) or any(group.stitches == number for group in state.holders)


def _on_each(state: SizeState, number: int, parts: list[int]) -> bool:
    """ "19 sts each side": two parts of so many, on the needle or waiting; as many from both ends; or equal shares of a
    needle that nothing parts."""
    if [*parts, *(group.stitches for group in state.holders)].count(number) >= 2:
        return True
    have = sum(parts)
    if len(parts) == 1:
        return number < have and have % number == 0
    before = {sum(parts[:at]) for at in range(1, len(parts))}
    return 2 * number <= have and number in before and have - number in before


def _is_whole(state: SizeState, part: str) -> bool:
    """Whether a part is all that is on the needle: the body whose sleeves wait, or the piece by its name."""
    if part.lower() == state.piece.name.lower():
        return True
    return part == "body" and any(group.piece == state.piece.name for group in state.holders)


def _there(state: SizeState) -> str:
    lying = on_needles(state)
    if len(lying) > 1:
        return "on the needles are " + ", ".join(str(each) for each in lying)
    parts = segments(state)
    if len(parts) == 1:
        return f"{parts[0]} are on the needle"
    needle = state.piece.needle
    if len(parts) == 2 and len(needle.gaps) == 1 and not any(not hidden(name) for _, name in needle.marks):
        return f"on one side of the gap are {parts[0]}, on the other {parts[1]}"
    return "between the markers are " + ", ".join(str(part) for part in parts)
