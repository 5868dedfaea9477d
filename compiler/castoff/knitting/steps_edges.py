"""Where fabric begins and ends: casting on and off, holders, picking up, joining, seams.

In: the steps of the syntax tree that make or end live stitches. Out: the state moved on.
"""

from __future__ import annotations

from dataclasses import replace

from castoff.knitting.faults import (
    BOUND_OFF_TOO_MANY,
    NO_STITCHES,
    NOT_HELD,
    PART_OFF,
    SEAM_COUNTS,
    TOO_MANY,
    UNKNOWN_NEEDLES,
    YARN_NOT_JOINED,
    fault,
)
from castoff.knitting.held import find_group
from castoff.knitting.loops import DIVISION, MOST_STITCHES, Group, Needle, joined
from castoff.knitting.state import RowDef, SizeState
from castoff.knitting.work_row import other, work_row
from castoff.notation.syntax import (
    Arrange,
    BindOff,
    CastOn,
    ChangeNeedles,
    ChangeYarn,
    Graft,
    Hold,
    JoinRound,
    Opening,
    PickUp,
    PickUpRow,
    Place,
    Resume,
    RoundStart,
    Side,
    TurnWork,
)
from castoff.span import Span


REST = "rest of the round"
"""Name of the stitches that wait while a heel is worked back and forth."""


def cast_on(state: SizeState, step: CastOn) -> None:
    """Begins a piece or a part. Live stitches of an earlier part of the piece are set aside, as worded or not."""
    number = step.count.at(state.size)
    if number is None:
        return
    piece = state.piece
    if step.needles is not None:
        use_needles(state, step.needles, step.span)
    if step.yarns:
        use_yarn(state, step.yarns, step.span, joins=True)
    if number > MOST_STITCHES:
        state.report(fault(TOO_MANY, step.span, "{number} sts are more than any needle holds", number=number))
        number = 100
        piece.doubt = True
    if piece.needle.stitches:
        _set_aside(state, "", step.span)
    begun = piece.started or piece.cast_on[0]
    piece.needle = Needle("k" * number)
    piece.form = (state.section.form if state.section is not None else None) or "flat"
    piece.due = "RS" if piece.form == "round" else None
    piece.started = False
    piece.standing = "same"
    piece.fabric = None
    piece.turned = False
    piece.unaccounted = None
    piece.doubt = False
    piece.before = number
    if begun:
        piece.part += 1
        piece.rows, piece.length = 0, piece.length * 0
    else:
        piece.cast_on = (number, state.gauge)
    piece.landmarks["cast-on"] = (0, piece.length * 0)
    state.add_loops("cast on", number)
    state.event("cast on", number, step.method or "", step.span)
    state.use_needles()
    state.forget_rows()
    state.history = []


def _set_aside(state: SizeState, name: str, span: Span) -> None:
    piece = state.piece
    state.holders.append(
        Group(name, replace(piece.needle, at=0), piece.name, piece.due, piece.rows, piece.length, True, span)
    )
    piece.needle = Needle()


def join_round(state: SizeState, step: JoinRound) -> None:
    """Joins the ends into a round, or goes back to rows."""
    piece = state.piece
    if step.form == "round":
        rejoin_rest(state)
    total = piece.needle.stitches
    if step.form == "round":
        marks = tuple(mark for mark in piece.needle.marks if 0 < mark[0] < total)
        piece.needle = replace(piece.needle, at=0, marks=marks, gaps=(), turns=())
        piece.form, piece.due, piece.turned = "round", "RS", False
        piece.landmarks.setdefault("join", (piece.rows, piece.length))
        state.event("join round", total, span=step.span)
        return
    piece.form = "flat"
    piece.worked_over = step.over
    if piece.needle.at == 0 and piece.started:
        piece.due = "RS"


def work_over_part(state: SizeState, span: Span) -> None:
    """Leaves all but the first stitches aside: "the heel is worked back and forth over the first 20 sts"."""
    piece = state.piece
    over = state.number_of(piece.worked_over)
    piece.worked_over = None
    have = piece.needle.stitches
    if not 0 < over < have:
        return
    rest = piece.needle.part(over, have)
    state.holders.append(Group(REST, replace(rest, at=0), piece.name, "RS", piece.rows, piece.length, True, span))
    piece.needle = replace(piece.needle.part(0, over), at=min(piece.needle.at, over))


def rejoin_rest(state: SizeState) -> None:
    """Stitches that were left aside while others were worked back and forth come back into the round."""
    piece = state.piece
    for at, group in enumerate(state.holders):
        if group.name == REST and group.piece == piece.name:
            piece.needle = joined(piece.needle, group.needle, piece.needle.at)
            del state.holders[at]
            return


def arrange(state: SizeState, step: Arrange) -> None:
    """Stitches laid out over needles: what is told of them must come to what there is."""
    counts = [None if count is None else count.at(state.size) for count, _ in step.groups]
    numbers = tuple(number for number in counts if number is not None)
    state.piece.arranged = numbers
    have = state.piece.needle.stitches
    needles = state.number_of(step.needles)
    shares = list(numbers)
    if not shares and 1 < needles <= 8:
        shares = [have // needles + (at < have % needles) for at in range(needles)]
    if sum(shares) == have and len(shares) > 1:
        _mind_markers(state, step, shares)
        _divide(state, shares)
    if numbers and len(numbers) == len(counts) and sum(numbers) != have:
        state.report(
            fault(
                PART_OFF, step.span, "{sum} = {total} sts are laid out, {have} are on the needle",
                sum=" + ".join(str(number) for number in numbers), total=sum(numbers), have=have,
                related=_source(state),
            )  # fmt: skip
        )


def _mind_markers(state: SizeState, step: Arrange, shares: list[int]) -> None:
    """Halves that are told of, where markers part the needle, are parted at the markers."""
    needle = state.piece.needle
    real = {place for place, name in needle.marks if not name.startswith(DIVISION)}
    if not real or len(shares) != 2 or needle.at in (0, needle.stitches) or needle.at in real:
        return
    nearest = min(real, key=lambda place: abs(place - needle.at))
    state.report(
        fault(
            PART_OFF, step.span, "the stitches are parted {off} st{s} from the marker between them",
            off=abs(nearest - needle.at), s="" if abs(nearest - needle.at) == 1 else "s",
            hint="work as far as the marker first",
        )  # fmt: skip
    )


def _divide(state: SizeState, shares: list[int]) -> None:
    """Notes where one needle of a set ends and the next begins."""
    needle = state.piece.needle
    marks = [mark for mark in needle.marks if not mark[1].startswith(DIVISION)]
    place = 0
    for number, share in enumerate(shares[:-1], 1):
        place += share
        marks.append((place, f"{DIVISION}{number}"))
    state.piece.needle = replace(needle, marks=tuple(sorted(marks)))


def round_start(state: SizeState, step: RoundStart) -> None:
    """Rounds begin where the yarn is."""
    piece = state.piece
    wrap, before = piece.wrap
    if wrap and any(word in step.where for word in ("center", "centre", "middle")) and 2 * wrap != before:
        state.report(
            fault(
                PART_OFF, step.span, "rounds are to begin at the {where}; {wrap} of its {before} sts lie before that place",
                hint="half of them are {half}", where=step.where, wrap=wrap, before=before, half=f"{before / 2:g}",
            )  # fmt: skip
        )
    piece.needle = replace(piece.needle.rotated(piece.needle.at), at=0)


def use_needles(state: SizeState, name: str, span: Span) -> None:
    """Changes to needles of the pattern, by their key or by words that hold it."""
    keys = list(state.plan.needles)
    wanted = name.lower()
    found = next((key for key in keys if key.lower() == wanted), None)
    if found is None:
        found = next((key for key in keys if key.lower() in wanted or wanted in key.lower()), None)
    if found is None and keys:
        generic = ("needle", "needles", "dpn", "dpns", "double-pointed", "circular", "straight", "mm", "us", "set")
        if not any(word in wanted for word in generic):
            state.report(
                fault(UNKNOWN_NEEDLES, span, "no needles are called {name}", name=name,
                      hint="the pattern lists " + ", ".join(keys))  # fmt: skip
            )
    state.needles = found or state.needles
    state.event("change needles", name=found or name, span=span)
    state.use_needles()


def use_yarn(state: SizeState, yarns: tuple[str, ...], span: Span, *, joins: bool = False) -> None:
    """Goes on with these yarns; each must be one of the pattern's, and not broken off since."""
    for yarn in yarns:
        if state.plan.yarns and yarn not in state.plan.yarns:
            state.report(
                fault(YARN_NOT_JOINED, span, "the pattern lists no yarn {yarn}", yarn=yarn,
                      hint="it lists " + ", ".join(state.plan.yarns))  # fmt: skip
            )
        elif yarn in state.broken and not joins:
            state.report(
                fault(YARN_NOT_JOINED, span, "yarn {yarn} was broken off and has not been joined since", yarn=yarn,
                      hint=f"join {yarn}")  # fmt: skip
            )
            state.broken.discard(yarn)
        elif joins:
            state.broken.discard(yarn)
    if yarns:
        state.yarn = "+".join(yarns)


def change_yarn(state: SizeState, step: ChangeYarn) -> None:
    """Joins, breaks or takes up yarns."""
    if step.act in ("break", "drop"):
        if step.act == "break":
            for yarn in step.yarns:
                state.broken.add(yarn)
            state.event("break yarn", 1, " ".join(step.yarns), step.span)
        return
    if step.act == "join":
        state.event("join yarn", 1, " ".join(step.yarns), step.span)
    use_yarn(state, step.yarns, step.span, joins=step.act == "join")
    state.stripes = []


def bind_off(state: SizeState, step: BindOff) -> None:
    """Binds off all the stitches, or so many of them."""
    piece = state.piece
    have = piece.needle.stitches
    number = have if step.count is None else step.count.at(state.size)
    if number is None:
        return
    if have == 0:
        if number or step.count is None:
            state.report(fault(NO_STITCHES, step.span, "no stitches are on the needle to be bound off"))
        return
    if step.count is not None and number != have:
        more = number > have
        state.report(
            fault(
                BOUND_OFF_TOO_MANY, step.span,
                "{number} sts are to be bound off, {have} are on the needle" + ("" if more else "; {left} would be left"),
                hint="{have} sts", number=number, have=have, left=have - number,
                related=_source(state),
            )  # fmt: skip
        )
    state.add_loops("bind off", have)
    state.event("bind off", have, " ".join(step.manner), step.span)
    if "three-needle" in step.manner:
        _three_needle(state, have, step.span)
    piece.landmarks.setdefault("bind-off", (piece.rows, piece.length))
    piece.landmarks["end"] = (piece.rows, piece.length)
    piece.needle = Needle()
    piece.before = have
    piece.unaccounted = None
    piece.doubt = False


def _source(state: SizeState) -> tuple[tuple[Span, str], ...]:
    source = state.piece.unaccounted
    if source is None:
        return ()
    return ((source[0], f"since the last printed total, this is the first row that changed the count ({source[1]:+d})"),)


def _three_needle(state: SizeState, have: int, span: Span) -> None:
    """Stitches bound off together with those of another needle, which must be as many; or with its own other half."""
    at = find_group(state.holders, "", have)
    if at is None:
        return
    group = state.holders[at]
    if group.stitches != have:
        state.report(
            fault(SEAM_COUNTS, span, "{have} sts are bound off together with {other}", have=have, other=group.stitches)
        )
    del state.holders[at]


def hold(state: SizeState, step: Hold, expected: int | None = None) -> None:
    """Puts stitches aside between rows: those furthest from the yarn, or all of them.

    expected: the total printed behind it, which then says what is wrong with the number.
    """
    piece = state.piece
    act = step.act
    have = piece.needle.stitches
    number = have if act.count is None else act.count.at(state.size)
    if not number:
        return
    if piece.form == "round" and piece.turned and piece.needle.turns:
        _hold_beyond_turns(state, step, number if act.count is not None else None, expected)
        return
    if number > have:
        state.report(
            fault(
                NOT_HELD, step.span, "{number} sts are to be put on hold, {have} are on the needle",
                number=number, have=have, hint="{have} sts", related=_source(state),
            )  # fmt: skip
        )
        number = have
    at_start = piece.form == "flat" and piece.needle.at >= have - number and piece.needle.at == have
    if at_start:
        part, rest = piece.needle.part(0, number), piece.needle.part(number, have)
    else:
        part, rest = piece.needle.part(have - number, have), piece.needle.part(0, have - number)
    state.holders.append(
        Group(act.holder, replace(part, at=0), piece.name, piece.due, piece.rows, piece.length, step.leave, step.span)
    )
    piece.needle = rest
    state.event("hold", number, act.holder, step.span)
    piece.landmarks["division"] = (piece.rows, piece.length)
    piece.landmarks["underarm"] = (piece.rows, piece.length)


def _hold_beyond_turns(state: SizeState, step: Hold, number: int | None, expected: int | None) -> None:
    """In the middle of a round that was turned at both ends: what lies beyond the turns is put aside."""
    piece = state.piece
    needle = piece.needle.rotated(piece.needle.at) if piece.needle.at < piece.needle.stitches else piece.needle
    far = next((turn for turn in sorted(needle.turns) if turn > 0), needle.stitches)
    rest = needle.stitches - far
    if number is not None and number != rest and expected is not None and 0 < number < needle.stitches:
        rest, far = number, needle.stitches - number
    elif number is not None and number != rest:
        state.report(
            fault(
                NOT_HELD, step.span, "{number} sts are to be put on hold, {rest} lie beyond the turns",
                hint="{rest} sts", number=number, rest=rest,
            )  # fmt: skip
        )
    state.holders.append(
        Group(step.act.holder, replace(needle.part(far, needle.stitches), at=0), piece.name, "RS", piece.rows,
              piece.length, step.leave, step.span)
    )  # fmt: skip
    piece.needle = Needle(needle.faces[:far], 0 if piece.due != "WS" else far, needle.part(0, far).marks)
    piece.form, piece.turned = "flat", False
    state.event("hold", rest, step.act.holder, step.span)


def resume(state: SizeState, step: Resume) -> None:
    """Takes waiting stitches back on the needle."""
    piece = state.piece
    if step.needles is not None:
        use_needles(state, step.needles, step.span)
    if piece.needle.stitches and step.rejoin:
        _set_aside(state, "", step.span)
    total = Needle()
    first: Group | None = None
    for count, name in step.parts:
        number = None if count is None else count.at(state.size)
        if count is not None and not number:
            continue
        at = find_group(state.holders, name, number)
        if at is None:
            if count is not None and number == piece.needle.stitches:
                continue  # stitches that never left the needle
            state.report(fault(NOT_HELD, step.span, "no stitches wait{named}", named=f" on {name}" if name else ""))
            continue
        group = state.holders[at]
        if number is not None and number > group.stitches:
            state.report(
                fault(
                    NOT_HELD, step.span, "{number} held sts are taken back, {have} are held",
                    number=number, have=group.stitches, hint="{have} sts",
                    related=((group.span, "they were put aside here"),) if group.span is not None else (),
                )  # fmt: skip
            )
        if number is not None and number < group.stitches:
            state.holders[at] = replace(group, needle=group.needle.part(number, group.stitches))
            group = replace(group, needle=group.needle.part(0, number))
        else:
            del state.holders[at]
        first = first or group
        total = joined(total, group.needle, 0)
        state.event("resume", group.stitches, group.name, step.span)
    if first is None:
        return
    piece.doubt = False
    side: Side | None = step.side or first.side
    if piece.needle.stitches:
        piece.taken_back = (piece.needle, total)
        piece.needle = joined(piece.needle, total, piece.needle.at)
        return
    piece.part += 1
    if first.piece == piece.name:
        piece.rows, piece.length = first.rows, first.length_mm
    piece.needle = replace(total, at=0 if side != "WS" else total.stitches)
    # the line that follows says which side; the side that faces is only the likelier one
    piece.due = step.side
    piece.started = False
    piece.turned = False
    piece.unaccounted = None
    piece.before = total.stitches
    if state.section is not None and state.section.form is not None:
        piece.form = state.section.form
    if step.rejoin:
        piece.form = "flat"
        state.event("join yarn", 1, span=step.span)
    state.forget_rows()


def pick_up_row(state: SizeState, step: PickUpRow, expected: int | None) -> None:
    """A row made by picking up along an edge, with held stitches worked in between."""
    if step.needles is not None:
        use_needles(state, step.needles, step.span)
    if step.yarns:
        use_yarn(state, step.yarns, step.span, joins=True)
    piece = state.piece
    if not piece.needle.stitches:
        piece.form = "flat"
        piece.due = None
        piece.started = False
        piece.standing = "same"
    elif piece.form == "flat" and sum(isinstance(part, PickUp) for part in step.parts) > 1:
        # along both sides of a flap, with what was held in between: it goes on in rounds
        piece.form, piece.due, piece.turned = "round", "RS", False
    row = RowDef(step.parts, "picking up", side=step.side, unit="rnd" if piece.form == "round" else "row", span=step.span)
    if not piece.started:
        piece.due = step.side or "RS"
    empty = not piece.needle.stitches
    work_row(state, row, expected)
    if empty:
        piece.cast_on = (piece.needle.stitches, state.gauge)
        form = state.section.form if state.section is not None else None
        piece.rows = 0
        piece.length = piece.length * 0
        if form == "round":
            piece.form, piece.due = "round", "RS"
            piece.needle = replace(piece.needle, at=0)
    state.event("join yarn", 1, " ".join(step.yarns), step.span)
    state.remember(row)
    state.forget_rows()
    state.landmark_section()


def place(state: SizeState, step: Place) -> None:
    """Markers between rows: on the needle where the yarn is, or in the fabric as a landmark."""
    piece = state.piece
    here = (piece.rows, piece.length)
    where = step.where.lower()
    name = (step.act.name or "").lower()
    state.event("place marker", state.number_of(step.count, 1) or 1, step.act.name or "", step.span)
    if "row" in where or "end" in where or "edge" in where or "arm" in where:
        piece.landmarks["marker"] = here
        piece.landmarks["armhole" if "arm" in where + name or "each end" in where else "marker"] = here
        return
    if step.act.act == "place" and 0 < piece.needle.at < piece.needle.stitches:
        at = piece.needle.at
        if piece.form == "round" and not piece.turned:
            # "rnd now begins here": the place of the yarn is the new beginning
            piece.needle = replace(piece.needle.rotated(at), at=0)
            return
        piece.needle = replace(piece.needle, marks=tuple(sorted((*piece.needle.marks, (at, step.act.name or "")))))


def turn_work(state: SizeState, step: TurnWork) -> None:
    """Turns between rows, or says which side faces."""
    piece = state.piece
    if step.facing is None:
        return
    if piece.due is None or not piece.started:
        piece.due = step.facing
        if piece.needle.at in (0, piece.needle.stitches):
            piece.needle = replace(piece.needle, at=0 if step.facing == "RS" else piece.needle.stitches)


def graft(state: SizeState, step: Graft) -> None:
    """Joins live stitches to live stitches, equally many on each side."""
    piece = state.piece
    have = piece.needle.stitches
    counts = [count.at(state.size) for count in step.counts]
    numbers = [number for number in counts if number is not None]
    if len(piece.arranged) == 2 and sum(piece.arranged) == have:
        numbers = list(piece.arranged)
    elif len(numbers) == 1 and numbers[0] == 2:
        numbers = []  # "the two sets of sts"
    piece.arranged = ()
    if len(numbers) == 2 and numbers[0] != numbers[1]:
        state.report(
            fault(SEAM_COUNTS, step.span, "{one} sts are grafted to {two}", one=numbers[0], two=numbers[1])
        )
    elif len(numbers) == 1 and have and have not in (numbers[0], 2 * numbers[0]):
        state.report(
            fault(SEAM_COUNTS, step.span, "{one} sts are to be grafted, {have} are on the needle", one=numbers[0], have=have)
        )
    elif len(numbers) == 2 and sum(numbers) not in (have, have + sum(g.stitches for g in state.holders)):
        state.report(
            fault(
                SEAM_COUNTS, step.span, "{one} sts are to be grafted to {two}, {have} are on the needle",
                one=numbers[0], two=numbers[1], have=have, related=_source(state),
            )  # fmt: skip
        )
    mine = [group for group in state.holders if group.piece == piece.name]
    if have and not numbers and have % 2 and not mine and "cast-on" not in " ".join(step.parts):
        state.report(
            fault(SEAM_COUNTS, step.span, "{have} sts do not divide into two equal sides", have=have, hint="an even number")
        )
    waiting = sum(group.stitches for group in mine)
    if mine and have and waiting != have and not numbers:
        state.report(
            fault(SEAM_COUNTS, step.span, "{one} sts are grafted to {two}", one=have, two=waiting, related=_source(state))
        )
    state.holders = [group for group in state.holders if group not in mine]
    state.event("graft", have or waiting, step.manner, step.span)
    piece.needle = Needle()
    piece.doubt = False
    piece.unaccounted = None


def opening(state: SizeState, step: Opening) -> None:
    """The state that an excerpt, or a section of its own, starts from."""
    piece = state.piece
    number = None if step.stitches is None else step.stitches.at(state.size)
    if number is not None:
        piece.needle = Needle("k" * number)
        piece.form = (state.section.form if state.section is not None else None) or piece.form
        piece.due = step.side or ("RS" if piece.form == "round" else None)
        if step.side == "WS":
            piece.needle = replace(piece.needle, at=number)
        piece.started = step.side is not None
        piece.doubt = False
        if not piece.cast_on[0]:
            piece.cast_on = (number, state.gauge)
    for count, name in step.held:
        held = count.at(state.size)
        if held:
            state.holders.append(Group(name, Needle("k" * held), piece.name, span=step.span))


__all__ = [
    "ChangeNeedles",
    "bind_off",
    "cast_on",
    "change_yarn",
    "graft",
    "hold",
    "join_round",
    "opening",
    "other",
    "pick_up_row",
    "place",
    "resume",
    "turn_work",
    "use_needles",
    "use_yarn",
]  # fmt: skip
