"""The work of a row as canonical text.

In: actions. Out: text that parses to the same actions.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from castoff.notation.print_numbers import print_count, print_ordinal
from castoff.notation.syntax import (
    Action,
    BindOffAct,
    Cable,
    CastOnAct,
    Count,
    Drop,
    EndShaping,
    Evenly,
    Fabric,
    FromNeedle,
    HoldAct,
    IntoOne,
    Join,
    MarkerAct,
    MarkStitch,
    OnNeedle,
    OpeningAct,
    PickUp,
    PickUpWrap,
    Remark,
    Repeat,
    SlipHeld,
    Stitch,
    StitchTo,
    Target,
    Times,
    ToCentre,
    ToDivision,
    ToEnd,
    ToLast,
    ToMarker,
    ToStitch,
    ToTurn,
    ToWorked,
    Turn,
    UseYarn,
    WorkFabric,
    WorkHeld,
)

_HELD = {"front": " wyif", "back": " wyib"}
_SIDES = ("RS", "WS")
_WAITING = (
    "holder",
    "second holder",
    "first holder",
    "third holder",
    "waste yarn",
    "hold",
    "scrap yarn",
    "spare yarn",
    "spare needle",
    "safety pin",
    "thread",
)


def print_actions(actions: tuple[Action, ...]) -> str:
    """Actions in order, commas between."""
    return ", ".join(print_action(action) for action in actions)


def print_action(action: Action) -> str:
    """One action."""
    match action:
        case Stitch():
            return _stitch(action)
        case StitchTo():
            return f"{action.name} {print_target(action.target)}{_HELD.get(action.yarn_held or '', '')}"
        case WorkFabric():
            return _work_fabric(action)
        case Repeat():
            return _repeat(action)
        case IntoOne():
            where = "next st" if action.takes == 1 else f"next {action.takes} sts"
            return f"({print_actions(action.body)}) in {where}"
        case Cable():
            pieces = ", ".join(_stitch(piece) for piece in (*action.over, *action.back) if isinstance(piece, Stitch))
            return f"sl {print_count(action.held)} to cn and hold in {action.hold}, {pieces} from cn"
        case UseYarn():
            return _use_yarn(action)
        case Evenly() | EndShaping():
            return _shaping(action)
        case PickUp():
            return _pick_up(action)
        case SlipHeld():
            return f"sl first {print_count(action.count)} sts from {action.holder} onto right needle"
        case WorkHeld():
            return _work_held(action)
        case _:
            return _plain(action)


def _plain(action: Action) -> str:
    match action:
        case MarkerAct():
            return print_marker(action)
        case MarkStitch():
            return print_mark(action)
        case BindOffAct():
            return print_bind_off(action)
        case CastOnAct():
            return print_cast_on(action)
        case HoldAct():
            return print_hold(action)
        case OnNeedle():
            return f"with same needle ({action.needle})" if action.same else f"with {action.needle}"
        case FromNeedle():
            which = "across" if action.count is None else f"first {print_count(action.count)} sts from"
            return f"{action.stitch} {which} {action.source} onto {action.onto}"
        case OpeningAct():
            number = print_count(action.count)
            return f"k {number} sts with waste yarn, sl these {number} sts back to lh needle and k them again"
        case Turn():
            return _TURNS[action.method]
        case PickUpWrap():
            return _pick_up_wrap(action)
        case Drop():
            count = "" if action.count is None else f" {print_count(action.count)}"
            of = "" if action.of is None else f" of each {print_count(action.of)}"
            return f"dropping{count}{of} extra wraps"
        case Join():
            return f"{action.stitch or 'work'} across sts of {action.other}"
        case Remark():
            return action.words
        case _:
            return ""


_TURNS: Mapping[str, str] = MappingProxyType(
    {
        "plain": "turn",
        "wrap": "w&t",
        "german": "turn and make ds",
        "yarn-over": "turn, yo",
        "pin": "turn, place pin on yarn",
    }
)
_PLACES: Mapping[str, str] = MappingProxyType(
    {"turn": "gap", "wrapped": "wrapped st", "double-wrapped": "double-wrapped st", "ds": "ds", "yo": "yo"}
)


def _pick_up_wrap(action: PickUpWrap) -> str:
    verb = {"k": "knitting", "p": "purling", "work": "working"}[action.stitch]
    if action.come and action.what == "wrap":
        return "picking up wraps" if action.stitch == "work" else f"picking up wraps and {verb} them tog with sts"
    if action.come:
        return f"{verb} each ds as one st" if action.what == "ds" else f"{verb} each yo tog with next st"
    if action.what == "loop":
        return "close gap" if action.stitch == "work" else f"pull up loop and {action.stitch} it tog with next st"
    if action.what == "yo":
        return f"{action.stitch} yo tog with next st"
    next_ones = "" if action.count is None else f"next {print_count(action.count)} "
    if action.what == "ds":
        return f"{action.stitch} {next_ones}ds"
    many = action.count is not None
    wraps = "both wraps" if action.both else "their wraps" if many else "its wrap"
    return f"{action.stitch} {next_ones}wrapped st{'s' if many else ''} tog with {wraps}"


def _stitch(stitch: Stitch) -> str:
    text = stitch.name
    if stitch.of in ("marked", "centre"):
        return f"{text} {stitch.of} st"
    if stitch.of == "with the loop":
        number = "" if stitch.count is None else print_count(stitch.count)
        return f"{text}{number} (including st used in binding off)"
    if stitch.name in ("k tbl", "p tbl") and stitch.count is not None:
        text = f"{stitch.name[0]}{print_count(stitch.count)} tbl"
    elif stitch.count is not None:
        space = "" if stitch.name in ("k", "p") else " "
        if (
            stitch.name[-1].isdigit()
            or " " in stitch.name
            or stitch.name == "yo"
            or stitch.of in ("first", "last", "same")
        ):
            text = f"{stitch.name} {print_count(stitch.count)} times"
        else:
            text += space + print_count(stitch.count)
    if stitch.of in ("first", "last", "same"):
        text = f"{stitch.name} in {stitch.of} st"
    elif stitch.of in ("the last", "the rem"):
        text = f"{stitch.name} {stitch.of} {'' if stitch.count is None else print_count(stitch.count)} sts"
    elif stitch.of.startswith("the first"):
        name = stitch.of.removeprefix("the first")
        text = f"{stitch.name} the first {'' if stitch.count is None else print_count(stitch.count)}{name} sts"
    elif stitch.of:
        text += f" {stitch.of}" if stitch.of.startswith("to ") else f" {stitch.of} sts"
    if stitch.manner is not None:
        text += f" {stitch.manner}"
    return text + _HELD.get(stitch.yarn_held or "", "")


def print_target(target: Target) -> str:
    """A place in the row."""
    match target:
        case ToEnd():
            return "around" if target.around else "to end"
        case ToLast():
            return f"to last {print_count(target.stitches)} sts"
        case ToCentre():
            return f"to centre {print_count(target.stitches)} sts"
        case ToMarker():
            return f"to {_near(target.before, target.after)}{print_marker_name(target.marker)}"
        case ToStitch():
            return f"to {_near(target.before, target.after)}{target.name} st"
        case ToTurn():
            return f"to {_near(target.before, target.after)}{_PLACES[target.to]}"
        case ToWorked():
            behind = " after bind-off" if target.behind else ""
            return f"until there are {print_count(target.stitches)} sts on rh needle{behind}"
        case ToDivision():
            name = (
                target.name
                if target.name.startswith("needle") or target.name.endswith(("needle", "needles"))
                else f"{target.name} sts"
            )
            if target.before is not None:
                return f"to last {print_count(target.before)} sts on {name}"
            return f"to end of {name}"


def _near(before: Count | None, after: Count | None) -> str:
    if before is not None:
        return f"{print_count(before)} sts before "
    return "" if after is None else f"{print_count(after)} sts past "


def print_marker_name(name: str | None) -> str:
    """A marker as words."""
    if name is None:
        return "m"
    if name == "beg of rnd":
        return "beg of rnd m"
    return f"m {name}" if len(name) == 1 and name.isupper() else f"{name} m"


def print_fabric(fabric: Fabric) -> str:
    """The name of a fabric as words."""
    text = {"knit": "k", "purl": "p", "faces": "k the k sts and p the p sts"}.get(fabric.kind, "")
    if fabric.kind == "named":
        text = _chart(fabric)
    elif fabric.kind == "rib":
        columns = ", ".join(f"{stitch}{count}" for stitch, count in fabric.rib)
        text = ("twisted " if fabric.twisted else "") + columns + " rib"
    elif fabric.kind == "set":
        text = _chart(fabric) if fabric.name == "chart" else fabric.name or "patt"
    if fabric.start == "set" and fabric.kind != "set":
        text += " as set"
    if fabric.border is not None:
        edges = fabric.border
        text += f", keeping first and last {print_count(edges.stitches)} sts in {print_fabric(edges.fabric)}"
    return text


def _chart(fabric: Fabric) -> str:
    """A chart or stitch pattern, with its row or its repeat."""
    text = fabric.name if fabric.repeat is None else f"{print_count(fabric.repeat)}-st rep of {fabric.name}"
    if fabric.row is None:
        return text
    row = print_count(fabric.row)
    return f"row {row} of {text}" if fabric.repeat is None else f"{text} (row {row})"


def print_start(fabric: Fabric) -> str:
    """ "beg with a k row, " before the fabric."""
    if fabric.start in (None, "set"):
        return ""
    start = fabric.start or ""
    if start.isdigit():
        return f"beg with row {start}, "
    words = start.split()
    return f"beg with a {words[0]} row, " if len(words) == 1 else f"beg with a {words[0]} ({words[1]}) row, "


def _work_fabric(action: WorkFabric) -> str:
    fabric = print_fabric(action.fabric)
    if action.fabric.kind == "faces":
        return (
            fabric
            if isinstance(action.over, ToEnd)
            else f"{fabric} {print_target(action.over)}"
            if not isinstance(action.over, Count)
            else fabric
        )
    if isinstance(action.over, Count) and action.way:
        return f"work {print_count(action.over)} sts in {fabric} {action.way}"
    if isinstance(action.over, Count):
        return f"work in {fabric} over next {print_count(action.over)} sts"
    return f"work in {fabric} {print_target(action.over)}"


def print_times(times: Times) -> str:
    """How often."""
    if times.target is not None:
        return print_target(times.target)
    count = "1" if times.count is None else print_count(times.count)
    return {"all": f"{count} times in total", "more": f"{count} more times"}.get(times.kind, f"{count} times")


def _repeat(repeat: Repeat) -> str:
    body = print_actions(repeat.body)
    if repeat.mark in ("[", "("):
        closer = "]" if repeat.mark == "[" else ")"
        times = print_times(repeat.times)
        return f"{repeat.mark}{body}{closer} {times.removesuffix(' in total')}"
    last = f", ending last rep {print_actions(repeat.last)}" if repeat.last else ""
    return f"{repeat.mark}{body}; rep from {repeat.mark} {print_times(repeat.times)}{last}"


def _use_yarn(action: UseYarn) -> str:
    yarns = " and ".join(action.yarns)
    if action.joins:
        return f"join {yarns or 'yarn'}"
    if action.body is None:
        return f"with {yarns}"
    return ", ".join(_in_colour(inner, yarns) for inner in action.body)


def _in_colour(action: Action, yarns: str) -> str:
    if isinstance(action, WorkFabric) and isinstance(action.over, Count) and action.fabric.name == "stockinette":
        return f"{print_count(action.over)} {yarns}"
    return f"{print_action(action)} in {yarns}"


def _shaping(action: Evenly | EndShaping) -> str:
    verb = "dec" if action.decrease else "inc"
    lead = "" if action.fabric is None else print_row_fabric(action.fabric) + ", "
    if isinstance(action, EndShaping):
        return f"{lead}{verb} {print_count(action.stitches)} sts at {print_ends(action.ends)}"
    where = "" if action.target is None else f" {print_target(action.target)}"
    stitch = "" if action.stitch is None else f" using {action.stitch}"
    if action.made is not None:
        return f"{lead}{verb} evenly to {print_count(action.made)} sts{stitch}"
    assert action.change is not None, "an even change says by how many or to how many"
    return f"{lead}{verb} {print_count(action.change)} sts evenly{where}{stitch}"


def print_row_fabric(fabric: Fabric) -> str:
    """A fabric over a whole row: "k to end", "work in patt to end"."""
    if fabric.kind in ("knit", "purl"):
        return f"{'k' if fabric.kind == 'knit' else 'p'} to end"
    return f"work in {print_fabric(fabric)} to end"


def print_ends(ends: str) -> str:
    """Which ends a shaping is at."""
    return {"each": "each end", "beginning": "beg", "end": "end"}.get(ends, ends)


def print_bind_off(act: BindOffAct) -> str:
    """A bind-off within or as a row."""
    text = "bo" + (" all sts" if act.count is None and act.target is None else "")
    if act.count is not None:
        text += f" {print_count(act.count)} sts"
    if act.target is not None:
        text += f" {print_target(act.target)}"
    for manner in act.manner:
        text += f" using {manner}" if manner.endswith(("method", "bind-off", "cast-off", "i-cord")) else f" {manner}"
    return text + (f" ({print_count(act.on_right)} sts on rh needle)" if act.on_right is not None else "")


def print_cast_on(act: CastOnAct) -> str:
    """A cast-on within a row."""
    text = f"co {print_count(act.count)} sts" + {
        "end": " at end of row",
        "gap": " over gap",
        "each gap": " over each gap",
    }.get(act.where, "")
    return text + print_method(act.method)


def print_method(method: str | None) -> str:
    """ " using the long-tail method"; "loosely" and "for thumb" stand alone."""
    if method is None:
        return ""
    parts = method.split("; ")
    return "".join(
        f" {part}"
        if part in ("loosely", "firmly", "provisionally") or part.startswith("for ")
        else f" using the {part}"
        for part in parts
    )


def _pick_up(act: PickUp) -> str:
    verb = f"pick up and {'p' if act.purl else 'k'}" if act.knit else "pick up"
    count = "sts" if act.count is None else f"{print_count(act.count)} sts"
    if act.ratio is not None:
        count = f"{act.ratio[0]} sts for every {act.ratio[1]} rows"
    each = f" (1 in each {act.each})" if act.each else ""
    return f"{verb} {count}{' ' + act.edge if act.edge else ''}{each}"


def print_hold(act: HoldAct) -> str:
    """Stitches put aside."""
    count = "rem" if act.count is None and not act.worked else "" if act.count is None else print_count(act.count)
    which = f"{'these' if act.told else 'last'} {count}".strip() if act.worked else f"{act.told} {count}".strip()
    if act.worked and act.count is None:
        which = "these"
    if any(sign.isdigit() for sign in act.on) or (act.on.endswith(" needle") and act.on not in _WAITING):
        name = "" if act.holder == act.on else f" {act.holder}"
        return f"leave {which}{name} sts on hold on {act.on}"
    if act.target is not None:
        which = ""
        return f"place sts {print_target(act.target)} on {print_waiting(act.holder, act.on)}"
    behind = "" if act.behind is None else f" just worked and last {print_count(act.behind)} sts of last rnd"
    total = "" if act.total is None else f" ({print_count(act.total)} sts)"
    return f"place {which} sts{behind} on {print_waiting(act.holder, act.on)}{total}"


def print_waiting(holder: str, on: str = "holder") -> str:
    """What stitches wait on."""
    return holder if holder in _WAITING or holder == on else f"{'a ' if on == 'holder' else ''}{on} for {holder}"


def _work_held(act: WorkHeld) -> str:
    first = act.body[0] if act.body else None
    verb = (
        first.name
        if isinstance(first, StitchTo)
        else "rib"
        if isinstance(first, WorkFabric) and first.fabric.name
        else "work"
    )
    which = f" {act.which}" if act.which else ""
    count = which if act.count is None else f"{which} {print_count(act.count)}"
    if act.holder is None and act.which == "rem":
        return f"{verb}{count} sts"
    name = "" if act.holder is None else f" {act.holder}"
    if name.strip() in _WAITING:
        return f"{verb} across{count} sts from{name}"
    return f"{verb} across{count} held{name} sts"


def print_mark(act: MarkStitch) -> str:
    """A stitch marked in the loop."""
    which = "this st" if act.which == "this" else f"the {act.which if act.at is None else print_ordinal(act.at)} st"
    return f"place m after {which}" if act.behind else f"mark {which}"


def print_marker(act: MarkerAct) -> str:
    """A marker placed, slipped, removed, or taken out and put back."""
    if act.act == "replace":
        return "removing and replacing m"
    if act.every:
        return "removing ms" if act.act == "remove" else "slipping ms"
    if act.act == "place":
        lettered = act.name is not None and len(act.name) == 1 and act.name.isupper()
        return "pm" if act.name is None else f"place m {act.name}" if lettered else f"pm for {act.name}"
    if act.name is None:
        return "sm" if act.act == "slip" else "removing m" if act.along else "rm"
    return f"{'sl' if act.act == 'slip' else 'removing' if act.along else 'remove'} {print_marker_name(act.name)}"
