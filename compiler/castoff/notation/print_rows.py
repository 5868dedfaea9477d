"""Labels, several rows and how far they go as canonical text.

In: nodes of the syntax tree. Out: text that parses to the same nodes.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.notation.print_actions import (
    print_actions,
    print_bind_off,
    print_cast_on,
    print_ends,
    print_fabric,
    print_row_fabric,
    print_start,
    print_times,
)
from castoff.notation.print_numbers import print_count, print_length, print_ordinal
from castoff.notation.syntax import (
    AtBeginning,
    BindOffAct,
    CastOnAct,
    Count,
    EndShaping,
    Extent,
    ForLength,
    ForRows,
    GoOnShaping,
    Label,
    Landmark,
    Rate,
    RepeatRows,
    RowRef,
    ToldRepeat,
    Until,
    UntilLength,
    UntilMatch,
    UntilRow,
    UntilStitches,
    UntilTimes,
    UntilWorked,
    WorkRows,
)


def print_label(label: Label) -> str:
    """The label with its colon."""
    many = len(label.ranges) > 1 or any(first != last for first, last in label.ranges)
    unit = label.unit + ("s" if many else "")
    numbers = _ranges(label.ranges)
    called = f"{label.name} " if label.which == "next" and label.name and " " not in label.name else ""
    if label.which == "next":
        number = f"{print_count(label.ranges[0][1])} " if label.ranges else ""
        text = f"Next {number}{called}{unit}"
    elif label.which == "named":
        text = f"{label.name.capitalize()} {unit}{' ' + numbers if numbers else ''}"
    elif label.which == "set-up":
        text = f"Set-up {unit}{' ' + numbers if numbers else ''}"
    elif label.which == "last":
        text = f"Last {unit}"
    elif label.which == "all":
        return _every_label(label)
    else:
        text = f"{unit.capitalize()} {numbers}"
    inside = [label.side] if label.side is not None else []
    name = label.name if label.which not in ("named", "all") and not called else ""
    marks = ", ".join([*inside, *([name] if name else []), *([label.yarn] if label.yarn else [])])
    text += f" ({marks})" if marks else ""
    every = _every(label)
    return f"{text}{' and ' + every if every else ''}:"


def _every(label: Label) -> str:
    if label.every_side is not None:
        return f"every {label.every_side} {label.unit}"
    if label.every_step is None:
        return ""
    if label.every_step.values[0] == 1:
        return f"every {label.unit}"
    return f"every {print_ordinal(label.every_step)} {label.unit}"


def _every_label(label: Label) -> str:
    if label.name in ("even", "odd"):
        return f"{label.name.capitalize()} {label.unit}s:"
    return _every(label).capitalize().replace(" rs ", " RS ").replace(" ws ", " WS ") + ":"


def _ranges(ranges: tuple[tuple[Count, Count], ...]) -> str:
    parts = [
        print_count(first) if first == last else f"{print_count(first)}–{print_count(last)}" for first, last in ranges
    ]
    return " and ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else "".join(parts)


def print_row_ref(rows: RowRef) -> str:
    """Rows spoken of."""
    if rows.more:
        return " and ".join(print_row_ref(each) for each in (replace(rows, more=()), *rows.more))
    if rows.kind in ("last", "these"):
        count = rows.count
        if count is not None and all(value == 1 for value in count.values):
            return "last row" if rows.kind == "last" else "this row"
        return f"{rows.kind} {'' if count is None else print_count(count) + ' '}rows"
    numbers = _ranges(rows.ranges)
    if rows.kind == "named" and not rows.ranges and rows.name.startswith("chart "):
        return rows.name
    if rows.kind == "named":
        return f"{rows.name} row{' ' + numbers if numbers else ''}"
    of = rows.name or rows.section
    return f"rows {numbers}" + (f" of {of}" if of else "")


def print_going_on(step: GoOnShaping) -> str:
    """Shaping that goes on in the way of the rows before."""
    parts = ["Cont in this way" if step.rows is None else f"Rep {print_row_ref(step.rows)}"]
    if step.decrease is not None:
        change = "" if step.change is None else f" {print_count(step.change)} sts"
        parts = [f"Cont to {'dec' if step.decrease else 'inc'}{change} in this way"]
    if step.fewer is not None:
        parts.append(f"working {print_count(step.fewer)} sts {'more' if step.more else 'fewer'} {step.where}")
    if step.instead is not None:
        new, old = step.instead
        parts.append(f"working k{print_count(new)} instead of k{print_count(old)}")
    text = ", ".join(parts)
    for at, leg in enumerate(step.legs):
        text += ", then" if at else "," if step.rows is not None or len(parts) > 1 else ""
        if leg.every is not None:
            side = f"{leg.every_side} " if leg.every_side is not None else ""
            one = leg.every.values == (1,) * len(leg.every.values)
            text += f" on every {'' if one else print_ordinal(leg.every) + ' '}{side}{leg.unit or 'row'}"
        text += f" {print_times(leg.times)}" if leg.times is not None else ""
        text += f" {print_extent(leg.until)}" if leg.until is not None else ""
    return text


def print_repeat_rows(step: RepeatRows) -> str:
    """Rows worked again, with their rates."""
    start = "" if step.start is None else f"Beg with a {step.start} row, "
    text = f"{start}{'rep' if start else 'Rep'} {print_row_ref(step.rows)}"
    if step.every_side is not None and step.every is None:
        text += f" every {step.every_side} row"
    elif step.every is not None:
        text += f" every {print_ordinal(step.every)}{' ' + step.every_side if step.every_side else ''} row"
    if step.times is not None:
        text += f" {print_times(step.times)}"
    for every, times in step.then:
        text += f", then every {print_ordinal(every)} row {print_times(times)}"
    if step.growing is not None:
        what = f" of {step.growing.what}" if step.growing.what else ""
        each = " in each half" if step.growing.each else ""
        text += f", working {print_count(step.growing.reps)} more reps{what}{each} each time"
    if step.extent is not None:
        if step.times is not None and isinstance(step.extent.until, ForRows):
            return f"{text}, ending with a {step.extent.ending} row"
        text += f" {print_extent(step.extent)}"
    return text


def print_work_rows(step: WorkRows) -> str:
    """Rows in a fabric."""
    extent = print_extent(step.extent)
    if step.over is not None:
        which = "these" if step.which == "these" else f"the {step.which}"
        extent += f" on {which} {print_count(step.over)} sts{' ' + step.part if step.part else ''}"
    start = print_start(step.fabric)
    if step.fabric.kind in ("knit", "purl"):
        verb = "K" if step.fabric.kind == "knit" else "P"
        if isinstance(step.extent.until, ForRows):
            return capital(f"{start}{verb} {extent.removeprefix('for ')}")
        return capital(f"{start}{verb} every row {extent}")
    return capital(f"{start}work in {print_fabric(step.fabric)} {extent}")


def capital(text: str) -> str:
    """The first letter as a capital; size and yarn names further on stay as they are."""
    return text[:1].upper() + text[1:]


def print_extent(extent: Extent) -> str:
    """How far."""
    text = _until(extent.until)
    if extent.ending is not None:
        text += f", ending with a {extent.ending} row"
    elif extent.ending_row is not None:
        chart = f" of {extent.ending_chart}" if extent.ending_chart else ""
        text += f", ending with row {print_count(extent.ending_row)}{chart}"
    return text


def _until(until: Until) -> str:
    match until:
        case ForRows():
            return f"for {print_count(until.rows)} rows"
        case UntilLength():
            if until.short_of is not None and until.short_of == until.length and until.origin is None:
                return f"until {until.what} measures {print_length(until.length)} less than desired length"
            short = "" if until.short_of is None else f" or {print_length(until.short_of)} less than desired length"
            return f"until {until.what} measures {print_length(until.length)}{print_landmark(until.origin)}{short}"
        case ForLength():
            return f"for {'another ' if until.more else ''}{print_length(until.length)}"
        case UntilStitches():
            if until.where == "unwrapped":
                return f"until {print_count(until.stitches)} unwrapped sts rem"
            where = f" {until.where}" if until.where else ""
            return f"until there are {print_count(until.stitches)} sts{where}"
        case UntilMatch():
            if until.short_of is not None:
                less = f"is {print_count(until.short_of)} rows shorter than"
                return f"until {until.what} {less} {until.piece}{' to ' + until.to if until.to else ''}"
            return f"until {until.what} measures same as {until.piece}{' to ' + until.to if until.to else ''}"
        case UntilTimes():
            return f"until {print_count(until.count)} {until.what} have been worked"
        case UntilRow():
            return _until_row(until)
        case UntilWorked("ds" | "wraps"):
            return f"until all {until.part} have been worked"
        case UntilWorked():
            if until.part.startswith("needle "):
                return f"until all sts on {until.part} have been worked"
            return f"until all {until.part + ' ' if until.part else ''}sts have been worked"


def _until_row(until: UntilRow) -> str:
    chart = until.chart or "chart"
    if until.row is None:
        return f"until {chart} is complete"
    if until.all:
        return f"until all {print_count(until.row)} rows of {chart} have been worked"
    of = f" of {until.chart}" if until.chart else ""
    return f"through row {print_count(until.row)}{of}"


def print_told_repeat(told: ToldRepeat) -> str:
    """What is told of a chart's repeat."""
    if told.times is not None and told.stitches is not None:
        of = f" of {told.chart}" if told.chart else ""
        return f"working the {print_count(told.stitches)}-st rep{of} {print_count(told.times)} times"
    if told.stitches is None and told.rows is not None:
        return f"{capital(told.chart)} rows rep every {print_count(told.rows)} rows"
    parts = [f"{print_count(told.stitches)}-st"] if told.stitches is not None else []
    parts += [f"{print_count(told.rows)}-row"] if told.rows is not None else []
    return f"{capital(told.chart)} is a {' and '.join(parts)} rep"


def print_landmark(origin: Landmark | None) -> str:
    """Where a length is measured from."""
    return "" if origin is None else f" from {origin.words or origin.kind}"


def print_act(act: EndShaping | BindOffAct | CastOnAct) -> str:
    """What happens on each shaping row."""
    if isinstance(act, BindOffAct):
        return print_bind_off(act)
    if isinstance(act, CastOnAct):
        return print_cast_on(act)
    verb = "Dec" if act.decrease else "Inc"
    return f"{verb} {print_count(act.stitches)} sts at {print_ends(act.ends)}"


def print_rate(rate: Rate) -> str:
    """One rate of shaping."""
    times = "" if rate.times is None else f" {print_times(rate.times)}"
    plain = rate.times is not None and rate.times.kind == "all" and rate.times.count is not None
    if rate.first == "following" and plain and rate.times is not None and rate.times.count is not None:
        if rate.every.values[0] == 2:
            return f"on foll {print_count(rate.times.count)} alt {rate.unit}s"
        if all(value == 1 for value in rate.times.count.values):
            return f"on foll {print_ordinal(rate.every)} {rate.unit}"
        return f"on foll {print_count(rate.times.count)} {print_ordinal(rate.every)} {rate.unit}s"
    if plain and rate.first in ("next", "this") and rate.every.values[0] == 1 and rate.times is not None:
        count = rate.times.count
        number = "" if count is None or all(value == 1 for value in count.values) else f"{print_count(count)} "
        return f"on {rate.first} {number}{rate.unit}"
    if plain and isinstance(rate.first, int) and rate.every.values == (1,) * len(rate.every.values):
        return f"on {print_ordinal(Count((rate.first,), span=rate.span))} {rate.unit}"
    every = "every" if rate.every.values == (1,) * len(rate.every.values) else f"every foll {print_ordinal(rate.every)}"
    if rate.every_side is not None:
        every += f" {rate.every_side}"
    lead = ""
    if isinstance(rate.first, int):
        lead = f"{print_ordinal(Count((rate.first,), span=rate.span))} and "
    elif rate.first in ("next", "this"):
        lead = f"{rate.first} and "
    return f"on {lead}{every} {rate.unit}{times}"


def print_at_beginning(step: AtBeginning) -> str:
    """Stitches bound off, cast on or shaped at the beginning of several rows."""
    act = print_act(step.act)
    for tail in (" at beg", " at end of row", " at end"):
        act = act.removesuffix(tail)
    place = "at end of" if step.at_end else "at beg of"
    rows = "row" if all(value == 1 for value in step.rows.values) else f"{print_count(step.rows)} rows"
    side = f"{step.side} " if step.side is not None else ""
    rest = f", {print_actions(step.rest)}" if step.rest else ""
    if isinstance(step.act, EndShaping) and step.act.fabric is not None:
        rest = f", {print_row_fabric(step.act.fabric)}"
    return f"{act} {place} next {side}{rows}{rest}"
