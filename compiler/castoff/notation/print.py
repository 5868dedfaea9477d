"""A line of the syntax tree as canonical text: printed and parsed again it is the same tree.

In: a `Line`. Out: text in the trade's shorthand, one sentence a step.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.cords import folded_of
from castoff.notation.phrases import is_remark
from castoff.notation.print_actions import (
    print_actions,
    print_bind_off,
    print_fabric,
    print_hold,
    print_mark,
    print_marker,
    print_method,
    print_start,
    print_times,
    print_waiting,
)
from castoff.notation.print_edges import print_worked_off
from castoff.notation.print_numbers import print_count, print_length
from castoff.notation.print_rows import (
    capital,
    print_act,
    print_at_beginning,
    print_extent,
    print_going_on,
    print_label,
    print_landmark,
    print_rate,
    print_repeat_rows,
    print_row_ref,
    print_told_repeat,
    print_work_rows,
)
from castoff.notation.syntax import (
    Arrange,
    AtBeginning,
    BindOff,
    BindOffAct,
    BindOffAtEdges,
    BothSides,
    CastOn,
    ChangeNeedles,
    ChangeYarn,
    Count,
    DrawThrough,
    EndShaping,
    Fabric,
    FastenOff,
    Finish,
    GoOnShaping,
    Graft,
    Hold,
    JoinRound,
    JoinShoulders,
    Line,
    Mark,
    MarkStitch,
    Meanwhile,
    Note,
    OnLastRow,
    OnTrust,
    Opening,
    PickUpRow,
    Place,
    ProseLine,
    Release,
    RepeatRows,
    RepeatSections,
    Resume,
    RoundStart,
    RowsAs,
    RowsForm,
    RowStep,
    Seam,
    SetFabric,
    ShapeRows,
    ShiftStitches,
    SizesLine,
    Stated,
    Step,
    Stripes,
    ToLast,
    ToldLength,
    ToldRepeat,
    ToldRows,
    Total,
    TurnWork,
    UnreadLine,
    WorkAs,
    WorkedOff,
    WorkFabric,
    WorkRows,
)
from castoff.notation.told_needles import EACH
from castoff.notation.totals import TURNED


def print_line(line: Line, sizes: tuple[str, ...] = ()) -> str:
    """The line as text; `sizes` are the names of the sizes, needed where a line is for some of them only."""
    if isinstance(line, ProseLine | UnreadLine | SizesLine):
        return line.text.value
    lead = ""
    if sizes and not all(line.sizes):
        lead = "Sizes " + ", ".join(name for name, flag in zip(sizes, line.sizes, strict=True) if flag) + " only: "
    return lead + print_steps(line.steps)


def print_steps(steps: tuple[Step, ...]) -> str:
    """Steps as sentences."""
    text = ""
    for before, step in zip((None, *steps), steps, strict=False):
        printed = print_step(step)
        beside = bool(text) and isinstance(step, Note) and is_remark(step.words)
        if beside and isinstance(before, RowStep):  # behind a full stop it is said of the row, and is no part of it
            text += f". {capital(printed)}"
            continue
        if isinstance(step, Note) and step.words.startswith("("):  # another name for what has just been told
            text += f". {step.words}" if isinstance(before, RowStep) else f" {step.words}"
            continue
        text += ("; " if beside else ". " if text else "") + (printed if beside else capital(printed))
    return text if text.endswith("*") else text + "."


def print_step(step: Step) -> str:
    """One step without its full stop."""
    match step:
        case RowStep():
            label = "" if step.label is None else print_label(step.label) + " "
            return label + print_actions(step.work)
        case RowsAs():
            times = "" if step.times is None else f" {print_times(step.times)}"
            return f"{print_label(step.label)} Rep {print_row_ref(step.rows)}{times}"
        case RepeatRows():
            return print_repeat_rows(step)
        case RepeatSections():
            return f"Repeat {' and '.join(step.sections)} {print_times(step.times)}"
        case WorkRows():
            return print_work_rows(step)
        case BothSides():
            return "Work both sides at the same time"
        case BindOffAtEdges():
            groups = ", then ".join(
                f"{print_count(count)} sts {print_count(times)} times" for count, times in step.groups
            )
            return f"At each neck edge, bo {groups}"
        case GoOnShaping():
            return print_going_on(step)
        case SetFabric():
            begun = print_start(step.fabric)
            return f"{begun}{'cont' if begun else 'Cont'} in {print_fabric(step.fabric)}"
        case ShapeRows():
            first, *others = step.rates
            rates = print_rate(first) + "".join(
                f", {'then ' if rate.then else ''}{print_rate(rate)}" for rate in others
            )
            until = "" if step.until is None else f" {print_extent(step.until)}"
            place = "" if isinstance(step.act, EndShaping) else " at beg"
            new = "" if step.new is None else f", working new sts in {print_fabric(step.new)}"
            return f"{print_act(step.act)}{place} {rates}{until}{new}"
        case AtBeginning():
            return print_at_beginning(step)
        case Total():
            return _total(step.stated)
        case ToldRows():
            kind = f"{step.kind} " if step.kind else ""
            unit = {"row": "rows", "rnd": "rnds", "ridge": "ridges"}[step.unit]
            where = f" {step.where}" if step.where else " worked"
            return f"{print_count(step.rows)} {kind}{unit}{where}"
        case ToldLength(what=""):
            return f"({print_length(step.length)})"
        case ToldLength():
            return f"{step.what} measures {print_length(step.length)}{print_landmark(step.origin)}"
        case _:
            return _setup(step)


def _setup(step: Step) -> str:
    match step:
        case CastOn():
            lead = _withs(step.yarns, step.needles)
            early = "provisionally " if step.provisional and "provisional" not in (step.method or "") else ""
            onto = " onto left needle" if step.onto else ""
            return f"{lead}{early}CO {print_count(step.count)} sts{onto}{print_method(step.method)}"
        case JoinRound():
            if step.over is not None and not step.what and step.which.startswith("needle"):
                return f"Work on the {print_count(step.over)} sts of {step.which} only"
            if step.over is not None and not step.what:
                return f"Work back and forth in rows on {_which(step)} {print_count(step.over)} sts"
            if step.what:
                form = "back and forth" if step.form == "flat" else "in the rnd"
                over = "" if step.over is None else f" over {_which(step)} {print_count(step.over)} sts"
                needle = f" on {step.which} only" if step.which.startswith("needle") else ""
                return f"The {step.what} is worked {form}{over}{needle}"
            if step.which.startswith("needle"):
                return f"Work on {step.which} only"
            return "Join to work in the rnd" if step.form == "round" else "Work back and forth in rows"
        case Arrange() if step.needles is None and step.groups[0][1].startswith(("needle ", EACH)):
            groups = ", ".join(_on_needle(count, where) for count, where in step.groups)
            as_told = "with" if step.groups[0][1] == EACH else "as follows:"
            return groups if step.told else f"Arrange sts {as_told} {groups}"
        case Arrange() if step.told and step.needles is not None:
            return f"{_on_needle(step.groups[0][0], '')} on each of {print_count(step.needles)} needles"
        case ShiftStitches():
            return f"Slip {print_count(step.count)} sts from {step.source} to {step.to}"
        case Arrange():
            if step.needles is not None:
                groups = ", ".join(_on_needle(count, where) for count, where in step.groups)
                evenly = f": {groups}" if groups else ""
                return f"Arrange sts over {print_count(step.needles)} needles{evenly}"
            return "Place " + " and ".join(_group(count, whose) for count, whose in step.groups)
        case RoundStart():
            at = f" at {step.where}" if step.where else ""
            return f"Rnd begins{at}" + (f", between {' and '.join(step.between)}" if step.between else "")
        case RowsForm():
            return f"{print_row_ref(step.rows)} form {print_fabric(step.fabric)}"
        case ChangeYarn():
            return _change_yarn(step)
        case ChangeNeedles():
            return f"Change to {step.needles}" + (
                "" if "needle" in step.needles or "dpn" in step.needles else " needles"
            )
        case BindOff(so=WorkedOff() as so):
            named = next(
                (manner for manner in step.manner if manner.split()[-1].endswith(("bind-off", "cast-off"))), ""
            )
            how = [manner for manner in step.manner if manner != named]
            called = named or " ".join(("bo all sts", *how))
            return f"{capital(called)}: {print_worked_off(so)}"
        case BindOff(picot=(on, off)):
            points = f"*CO {print_count(on)} sts, BO {print_count(off)} sts, sl st back to left needle"
            far = "to end" if step.leaves is None else f"until {print_count(step.leaves)} sts rem"
            return f"Picot bind-off: {points}; rep from * {far}"
        case BindOff() if folded_of(step.manner):
            return f"Fold {folded_of(step.manner)} in half and join using {step.manner[0]}"
        case BindOff():
            text = print_bind_off(BindOffAct(step.count, None, step.manner, span=step.span))
            if step.leaves is not None:
                manner = "".join(f" {how}" for how in step.manner)
                return f"Bo all but last {print_count(step.leaves)} sts{manner}"
            if step.beside is not None:
                text += f", dec {print_count(step.beside)} sts at each side of marked st"
            return text + (" as before" if step.as_before else "")
        case JoinShoulders():
            rest = "" if step.rest is None else f" and leaving{print_hold(step.rest).removeprefix('place')}"
            return (
                "Join shoulders using three-needle bind-off, "
                f"working {print_count(step.count)} sts from front and back each side{rest}"
            )
        case DrawThrough():
            return "Draw yarn through rem " + ("" if step.count is None else f"{print_count(step.count)} ") + "sts"
        case FastenOff():
            return "Fasten off"
        case TurnWork():
            return "Turn" if step.facing is None else f"With {step.facing} facing"
        case Stripes():
            return "Work in stripes of " + ", ".join(f"{print_count(rows)} rows {yarn}" for rows, yarn in step.bands)
        case Place():
            return _place(step)
        case MarkStitch():
            return print_mark(step)
        case _:
            return _parts(step)


def _parts(step: Step) -> str:
    match step:
        case Hold(only=True):
            number = "" if step.act.count is None else f"{print_count(step.act.count)} "
            return f"Work on these {number}sts only{' ' + step.part if step.part else ''}"
        case Hold():
            text = print_hold(step.act)
            return "Leave" + text.removeprefix("place").removeprefix("leave") if step.leave else text
        case Resume():
            return _resume(step)
        case PickUpRow():
            side = "" if step.side is None else f"With {step.side} facing, "
            withs = _withs(step.yarns, step.needles)
            begin = f"beg at {step.begin}, " if step.begin else ""
            return f"{side}{'w' + withs[1:] if side and withs else withs}{begin}{print_actions(step.parts)}"
        case Seam():
            return _seam(step)
        case Release():
            return _release(step)
        case Graft():
            return _graft(step)
        case Finish():
            return step.words
        case WorkAs():
            return _work_as(step)
        case ToldRepeat():
            return print_told_repeat(step)
        case Mark():
            return step.mark
        case OnTrust():
            leaves = "" if step.leaves is None else f". {print_count(step.leaves)} sts"
            return f"On trust: {step.words}{leaves}"
        case Note():
            return step.words if is_remark(step.words) else f"{step.words}:"
        case Opening():
            return _opening(step)
        case OnLastRow():
            if isinstance(step.act, WorkFabric) and isinstance(step.act.over, ToLast):
                return f"ending last rnd {print_count(step.act.over.stitches)} sts before end"
            return f"{print_actions((step.act,))} on last row"
        case Meanwhile():
            trigger = "" if step.trigger is None else f"when {print_extent(step.trigger).removeprefix('until ')}, "
            return f"At the same time, {trigger}{print_steps(step.steps).removesuffix('.')}"
        case _:
            return ""


def _total(stated: tuple[Stated, ...]) -> str:
    return "; ".join(_stated(one) for one in stated)


def _stated(one: Stated) -> str:
    if one.edges:
        edge = "" if one.edge is None else f"{print_count(one.edge)} "
        return f"{_stated(replace(one, edges=False, edge=None))} (not counting the {edge}edge sts)"
    count = one.stitches
    if one.change:
        lost = any(value is not None and value < 0 for value in count.values)
        positive = Count(tuple(None if value is None else abs(value) for value in count.values), span=count.span)
        part = f" {one.part}" if one.part else ""
        return f"{print_count(positive)} sts {'dec' if lost else 'inc'}'d{part}"
    words = one.part.split()
    if words and words[0] in TURNED | {"slipped", "chain"}:
        loops = words[0] if words[0] in ("ds", "wraps") else f"{words[0]} sts"
        return " ".join((print_count(count), loops, *words[1:]))
    if one.each:
        return f"{print_count(count)} sts each for {one.part}"
    if words and words[0] in (
        "on",
        "for",
        "between",
        "in",
        "at",
        "before",
        "after",
        "per",
        "either",
        "of",
        "across",
        "to",
        "from",
    ):
        return f"{print_count(count)} sts {one.part}"
    return f"{print_count(count)} {one.part + ' ' if one.part else ''}sts"


def _withs(yarns: tuple[str, ...], needles: str | None) -> str:
    words = [*yarns]
    if needles is not None:
        words.append(needles if "needle" in needles or "dpn" in needles else f"{needles} needles")
    return f"With {' and '.join(words)}, " if words else ""


def _on_needle(count: Count | None, where: str) -> str:
    return f"{'' if count is None else print_count(count)} sts{' on ' + where if where else ''}"


def _group(count: Count | None, whose: str) -> str:
    words = " ".join(part for part in (None if count is None else print_count(count), whose or None, "sts") if part)
    return f"{words} on one needle"


def _change_yarn(step: ChangeYarn) -> str:
    yarns = " and ".join(step.yarns) or "yarn"
    note = f" {step.note}" if step.note else ""
    if step.act == "break":
        return f"Break {yarns}" + (f", leaving{note}" if step.note else "")
    verb = {
        "join": "Join",
        "change": "Change to",
        "use": "With",
        "carry": "Carry",
        "drop": "Drop",
        "keep": "Do not break",
    }[step.act]
    return f"{verb} {yarns}{note}"


def _place(step: Place) -> str:
    if step.where:
        count = "a m" if step.count is None else f"{print_count(step.count)} ms"
        return f"Place {count} at {step.where}"
    return print_marker(step.act)


def _opening(step: Opening) -> str:
    said = [] if step.stitches is None else [f"{print_count(step.stitches)} sts"]
    said += [f"{step.side} facing"] if step.side is not None else []
    said += [f"{print_count(part.stitches)} sts {part.part}" for part in step.parts if " " in part.part]
    said += [f"{print_count(part.stitches)} {part.part} sts" for part in step.parts if " " not in part.part]
    said += [f"{print_count(count)} sts on {print_waiting(holder)}" for count, holder in step.held]
    return "You have " + "; ".join(said)


def _which(step: JoinRound) -> str:
    return "these" if step.which == "these" or step.which.startswith("needle") else f"the {step.which}"


def _resume(step: Resume) -> str:
    parts = ("first " if step.first else "") + " and ".join(
        f"{print_count(count) + ' ' if count is not None else ''}held {'' if name == 'hold' else name + ' '}sts"
        for count, name in step.parts
    )
    if step.ends:
        (first, _), (last, name) = step.parts
        counts = [print_count(count) for count in (first, last) if count is not None]
        held = "held" if name == "hold" else f"held {name}"
        parts = f"first {counts[0]} and last {counts[-1]} {held} sts"
    side = "" if step.side is None else f"With {step.side} facing, "
    if step.rejoin:
        return capital(f"{side}rejoin yarn to {parts}{_joined_at(step.note)}")
    needles = step.needles or "needle"
    needles += "" if "needle" in needles or "dpn" in needles else " needles"
    return capital(f"{side}return {parts} to {needles}")


def _joined_at(note: str) -> str:
    """Where and for what the yarn is joined: " at neck edge for right shoulder"."""
    if not note:
        return ""
    return f" {note}" if note.startswith("for ") else f" at {note}"


def _seam(step: Seam) -> str:
    verb = {"sew": "Sew", "whip": "Whip", "mattress": "Mattress", "backstitch": "Backstitch"}.get(step.manner, "Sew")
    last = step.edges[-1]
    if len(step.edges) == 1:
        return f"{verb} {last}"
    if any(word in last for word in ("seam", "edge", " and ")) or "edge" in step.edges[0]:
        return f"{verb} {step.edges[0]} to {last}"
    return f"{verb} {' and '.join(step.edges)} seams"


def _release(step: Release) -> str:
    count = "" if step.count is None else f"{print_count(step.count)} "
    where = "spare needle" if step.aside else step.needles or "needle"
    needles = where if step.aside or "needle" in where or "dpn" in where else f"{where} needles"
    return f"Undo provisional cast-on and place {count}sts on {needles}"


def _graft(step: Graft) -> str:
    counts = [f"{print_count(count)} " for count in step.counts] + [""] * len(step.parts)
    parts = " to ".join(f"{counts[index]}{part}" for index, part in enumerate(step.parts))
    return f"Graft {parts}" + ("" if step.manner == "kitchener" else f" using {step.manner}")


def _work_as(step: WorkAs) -> str:
    text = f"Complete {step.part} as for {step.of}" if step.part else f"Work as for {step.of}"
    if step.rest and not step.part:
        text = f"Complete as for {step.of}"
    if step.start:
        text += f" from {step.start}"
    if step.to:
        text += f" to {step.to}"
    if step.extent is not None:
        text += f" {print_extent(step.extent)}"
    return text + (", reversing shaping" if step.reversed else "")


__all__ = ["Fabric", "print_line", "print_step", "print_steps"]
