"""What lies on which needles, holders and strands: holding, taking back, arranging, changing needles and yarn.

In: the steps of the syntax tree that move live stitches without working them. Out: the state moved on.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from castoff.knitting.divisions import begin_of, divide, mind_between, mind_each, on_needles
from castoff.knitting.faults import (
    NOT_HELD,
    PART_OFF,
    UNKNOWN_NEEDLES,
    YARN_NOT_JOINED,
    YARN_USED_AGAIN,
    fault,
)
from castoff.knitting.held import find_group, without_twins
from castoff.knitting.loops import PANEL, Group, Needle, hidden, joined
from castoff.knitting.pattern_rows import rows_of_pattern
from castoff.knitting.plan import NeedleSpec
from castoff.knitting.sources import sources_of
from castoff.knitting.state import SizeState, begin_finger
from castoff.notation.syntax import (
    Arrange,
    ChangeYarn,
    Count,
    Repeat,
    Resume,
    RoundStart,
    Side,
    UseYarn,
)
from castoff.notation.told_needles import EACH
from castoff.span import Span

REST = "rest of the round"
"""Name of the stitches that wait while a heel is worked back and forth."""


def set_aside(state: SizeState, name: str, span: Span) -> None:
    """Leaves the stitches of the piece waiting as they are."""
    piece = state.piece
    state.holders.append(
        Group(name, replace(piece.needle, at=0), piece.name, piece.due, piece.rows, piece.length, True, span)
    )
    piece.needle = Needle()


def work_over_part(state: SizeState, span: Span) -> None:
    """Leaves all but the first stitches aside: "the heel is worked back and forth over the first 20 sts"."""
    piece = state.piece
    over = state.number_of(piece.worked_over)
    which = piece.worked_which
    piece.worked_over = None
    have = piece.needle.stitches
    if over > have or (which == "these" and 0 < over != have):
        _mind_worked_over(state, over, span)
        return
    if not 0 < over < have:
        return
    begin = begin_of(state, which)
    if begin:
        piece.needle = replace(piece.needle.rotated(begin), at=0)
        piece.rotated = begin
    at_end = which == "last" or (which == "next" and piece.due == "WS" and not begin)
    first, last = (have - over, have) if at_end else (0, over)
    rest = piece.needle.part(0, first) if at_end else piece.needle.part(last, have)
    state.holders.append(Group(REST, replace(rest, at=0), piece.name, "RS", piece.rows, piece.length, True, span))
    piece.needle = replace(piece.needle.part(first, last), at=min(max(piece.needle.at - first, 0), over))


def _mind_worked_over(state: SizeState, over: int, span: Span) -> None:
    """Work that is told to be over so many stitches is over all that are on the needle, or as far as a gap."""
    needle = state.piece.needle
    have = needle.stitches
    if needle.gaps and needle.at == 0:
        have = needle.gaps[0]
    elif needle.gaps and needle.at == have:
        have -= needle.gaps[-1]
    if over and over != have:
        state.report(
            fault(
                PART_OFF,
                span,
                "{over} sts are to be worked over, {have} are on the needle",
                hint="{have} sts",
                over=over,
                have=have,
                related=sources_of(state.piece),
            )
        )
        state.piece.doubt = True


def mind_over(state: SizeState, count: Count | None) -> None:
    """ "Knit 10 rows on these 28 sts": they must be all that are on the needle."""
    if count is not None and not state.piece.doubt:
        _mind_worked_over(state, state.number_of(count), count.span)


def rejoin_rest(state: SizeState) -> None:
    """Stitches that were left aside while others were worked back and forth come back into the round."""
    piece = state.piece
    for at, group in enumerate(state.holders):
        if group.name == REST and group.piece == piece.name:
            whole = joined(piece.needle, group.needle, piece.needle.at)
            piece.needle = replace(whole, marks=tuple(dict.fromkeys(whole.marks)))
            if piece.rotated:
                total = piece.needle.stitches
                piece.needle = piece.needle.rotated(total - piece.rotated)
                piece.rotated = 0
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
    _mind_needles(state, step, needles)
    if step.groups and step.groups[0][1] == EACH and numbers:
        divide(state, [have])
        if not mind_each(state, numbers[0]):
            state.report(
                fault(
                    PART_OFF,
                    step.span,
                    "{number} sts on each needle do not come to the {have} sts there are",
                    number=numbers[0],
                    have=have,
                    related=sources_of(state.piece),
                )
            )
        return
    open_groups = [at for at, number in enumerate(counts) if number is None]
    if len(open_groups) == 1 and shares and sum(shares) < have:  # "… and the rem sts on another"
        shares.insert(open_groups[0], have - sum(shares))
    if not shares and 1 < needles <= 8:
        shares = [have // needles + (at < have % needles) for at in range(needles)]
    if sum(shares) == have and len(shares) > 1:
        there = on_needles(state)
        if step.told and len(there) > 1 and there != shares:
            state.report(
                fault(
                    PART_OFF,
                    step.span,
                    "{told} sts are told on the needles, there are {there}",
                    told=", ".join(str(each) for each in shares),
                    there=", ".join(str(each) for each in there),
                )
            )
            return
        _mind_markers(state, step, shares)
        divide(state, shares)
    if numbers and (sum(numbers) > have or (len(numbers) == len(counts) and sum(numbers) != have)):
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{sum} = {total} sts are laid out, {have} are on the needle",
                sum=" + ".join(str(number) for number in numbers),
                total=sum(numbers),
                have=have,
                related=sources_of(state.piece),
            )
        )


def _mind_needles(state: SizeState, step: Arrange, needles: int) -> None:
    """As many groups as needles, and needles named in their order."""
    told = [int(word) for _, where in step.groups for word in where.split() if word.isdigit()]
    if step.needles is not None and step.groups and len(step.groups) != needles:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "{needles} needles are spoken of, stitches are told for {groups}",
                needles=needles,
                groups=len(step.groups),
            )
        )
    if told and told != list(range(1, len(told) + 1)):
        state.report(
            fault(
                PART_OFF,
                step.span,
                "the needles are told in the order {told}",
                told=", ".join(str(number) for number in told),
                hint="needles 1 to {last}, one after another",
                last=len(step.groups),
            )
        )


def _mind_markers(state: SizeState, step: Arrange, shares: list[int]) -> None:
    """Halves that are told of, where markers part the needle, are parted at the markers."""
    needle = state.piece.needle
    real = {place for place, name in needle.marks if not hidden(name)}
    if not real or len(shares) != 2 or needle.at in (0, needle.stitches) or needle.at in real:
        return
    nearest = min(real, key=lambda place: abs(place - needle.at))
    state.report(
        fault(
            PART_OFF,
            step.span,
            "the stitches are parted {off} sts from the marker between them",
            off=abs(nearest - needle.at),
            hint="work as far as the marker first",
        )
    )


def round_start(state: SizeState, step: RoundStart) -> None:
    """Rounds begin where the yarn is."""
    piece = state.piece
    if step.between is not None:
        mind_between(state, step)
    wrap, before = piece.wrap
    if wrap and any(word in step.where for word in ("center", "centre", "middle")) and 2 * wrap != before:
        state.report(
            fault(
                PART_OFF,
                step.span,
                "rounds are to begin at the {where}; {wrap} of its {before} sts lie before that place",
                hint="half of them are {half}",
                where=step.where,
                wrap=wrap,
                before=before,
                half=f"{before / 2:g}",
            )
        )
    piece.needle = replace(piece.needle.rotated(piece.needle.at), at=0)


def use_needles(state: SizeState, name: str, span: Span) -> None:
    """Changes to needles of the pattern, by their key or by words that hold it."""
    needles = state.plan.needles
    found = needles_meant(name.lower(), needles)
    if found is None and needles and _no_common_word(name.lower()):
        listed = ", ".join(needles)
        state.report(
            fault(UNKNOWN_NEEDLES, span, "no needles are called {name}", name=name, hint=f"the pattern lists {listed}")
        )
    if found is not None and found != state.needles:
        state.piece.landmarks["needles"] = (state.piece.rows, state.piece.length)
    state.needles = found or state.needles
    state.event("change needles", name=found or name, span=span)
    state.use_needles()


_GENERIC = ("needle", "needles", "dpn", "dpns", "double-pointed", "circular", "straight", "mm", "us", "set")
_TYPES = (
    ("dpn", "double-pointed"),
    ("double-pointed", "double-pointed"),
    ("circular", "circular"),
    ("straight", "straight"),
)
_COMPARED = {"larger": -1, "largest": -1, "bigger": -1, "smaller": 0, "smallest": 0}


def needles_meant(words: str, needles: Mapping[str, NeedleSpec]) -> str | None:
    """The key of the needles that words name: by the key, by a size, or as the larger or smaller of two sizes.

    words: lower case. A type that is said ("larger dpns") must be that of the needles, where they have one.
    """
    exact = next((key for key in needles if key.lower() == words), None)
    if exact is not None:
        return exact
    kind = next((kind for word, kind in _TYPES if word in words), "")
    fitting = {key: spec for key, spec in needles.items() if not kind or spec.type in ("", kind)}
    for some in (fitting, needles):
        found = next((key for key in some if key.lower() in words or words in key.lower()), None)
        found = found or next((key for key, spec in some.items() if _of_size(words, spec)), None)
        found = found or _compared(words, some, needles)
        if found is not None:
            return found
        if kind and any(word in words.split() for word in _COMPARED):
            return None
    return None


def _compared(words: str, fitting: Mapping[str, NeedleSpec], needles: Mapping[str, NeedleSpec]) -> str | None:
    """ "The larger needle", where the pattern lists two sizes."""
    place = next((at for word, at in _COMPARED.items() if word in words.split()), None)
    sizes = sorted({spec.size_mm for spec in needles.values() if spec.size_mm is not None})
    if place is None or len(sizes) != 2:
        return None
    return next((key for key, spec in fitting.items() if spec.size_mm == sizes[place]), None)


def _no_common_word(words: str) -> bool:
    """Whether words name needles that must be among those of the pattern: by no word of the trade alone, or compared."""
    return not any(word in words for word in _GENERIC) or any(word in words.split() for word in _COMPARED)


def _of_size(words: str, spec: NeedleSpec) -> bool:
    """Whether words name the size of needles: "us 6 circular needle", "3.5mm needles"."""
    plain = f" {words.replace('mm', ' mm').replace('#', '')} ".replace("  ", " ").replace(" size ", " ")
    return any(f" {name} " in plain for name in spec.names)


def use_yarn(state: SizeState, yarns: tuple[str, ...], span: Span, *, joins: bool = False) -> None:
    """Goes on with these yarns; each must be one of the pattern's, and not broken off since."""
    for yarn in yarns:
        if state.plan.yarns and yarn not in state.plan.yarns:
            state.report(
                fault(
                    YARN_NOT_JOINED,
                    span,
                    "the pattern lists no yarn {yarn}",
                    yarn=yarn,
                    hint="it lists " + ", ".join(state.plan.yarns),
                )
            )
        elif yarn in state.broken and not joins:
            state.report(
                fault(
                    YARN_USED_AGAIN,
                    span,
                    "yarn {yarn} was broken off and has not been joined since",
                    yarn=yarn,
                    hint=f"join {yarn}",
                )
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
                _without(state, yarn)
            state.event("break yarn", 1, " ".join(step.yarns), step.span)
        return
    if step.act in ("carry", "keep"):
        return  # up the side or across the back: the yarn in work stays the same
    if step.act == "join":
        state.event("join yarn", 1, " ".join(step.yarns), step.span)
    use_yarn(state, step.yarns, step.span, joins=step.act == "join")
    state.stripes = []


def _without(state: SizeState, yarn: str) -> None:
    """A stitch pattern does not go on by itself when a yarn that it needs is broken off."""
    fabric = state.piece.fabric
    if fabric is None or fabric.name.lower() not in state.plan.patterns:
        return
    acts = [act for row in rows_of_pattern(state, fabric.name.lower()) for act in row]
    while acts:
        act = acts.pop()
        if isinstance(act, UseYarn) and yarn in act.yarns:
            needle = state.piece.needle
            marks = tuple(mark for mark in needle.marks if not mark[1].startswith(f"{PANEL}{fabric.name.lower()}|"))
            state.piece.fabric, state.piece.needle = None, replace(needle, marks=marks)
            return
        if isinstance(act, UseYarn | Repeat) and act.body is not None:
            acts += act.body


def _report_number(state: SizeState, step: Resume, number: int, group: Group) -> None:
    """Says that a group is taken back in another number than was put aside."""
    state.report(
        fault(
            NOT_HELD,
            step.span,
            "{number} held sts are taken back, {have} are held",
            number=number,
            have=group.stitches,
            hint="{have} sts",
            related=((group.span, "they were put aside here"),) if group.span is not None else (),
        )
    )


def resume(state: SizeState, step: Resume) -> None:
    """Takes waiting stitches back on the needle."""
    piece = state.piece
    if step.needles is not None:
        use_needles(state, step.needles, step.span)
    if piece.needle.stitches and step.rejoin:
        set_aside(state, "", step.span)
    total = Needle()
    first: Group | None = None
    split: list[tuple[Group, int, Group]] = []
    back: list[Group] = []
    missing = False
    if step.ends:
        first = _from_both_ends(state, step)
        if first is None:
            return
        back, total = [first], first.needle
    for count, name in step.parts if not step.ends else ():
        number = None if count is None else count.at(state.size)
        if count is not None and not number:
            continue
        at = find_group(state.holders, name, number)
        if at is None:
            if count is not None and number == piece.needle.stitches:
                continue  # stitches that never left the needle
            state.report(fault(NOT_HELD, step.span, "no stitches wait{named}", named=f" on {name}" if name else ""))
            missing = True
            continue
        group = state.holders[at]
        if group.opening and number is not None and abs(number - group.stitches) == 1:
            group = state.holders[at] = replace(group, needle=group.needle.resized(number))
        if number is not None and number > group.stitches:
            _report_number(state, step, number, group)
        if number is not None and number < group.stitches:
            rest = replace(group, needle=group.needle.part(number, group.stitches))
            state.holders[at] = rest
            split.append((rest, number, group))
            group = replace(group, needle=group.needle.part(0, number))
        else:
            del state.holders[at]
        first = first or group
        back.append(group)
        total = joined(total, group.needle, 0)
        state.event("resume", group.stitches, group.name, step.span)
    if piece.make > 1:
        state.holders = without_twins(state.holders, back, piece.name, piece.make)
    for rest, number, group in split:
        if not step.first and any(each is rest for each in state.holders):
            _report_number(state, step, number, group)
            # the number is wrong, the group is whole
            state.holders = [each for each in state.holders if each is not rest]
            total = joined(total, rest.needle, 0)
    if step.first and not split:
        state.report(
            fault(
                NOT_HELD,
                step.span,
                "the first {number} held sts are all that wait",
                hint="return {number} held sts",
                number=sum(group.stitches for group in back),
            )
        )
    if first is None:
        piece.doubt = piece.doubt or missing
        return
    piece.doubt = piece.unsure  # how many were really held is not known
    told = step.side or piece.facing
    piece.facing = None
    side: Side | None = told or first.side
    piece.parted = False
    if piece.needle.stitches:
        piece.taken_back = (piece.needle, total)
        piece.needle = joined(piece.needle, total, piece.needle.at)
        return
    piece.part += 1
    if first.piece == piece.name:
        piece.rows, piece.length = first.rows, first.length_mm
    piece.begun = (first.rows, total.stitches)
    piece.needle = replace(total, at=0 if side != "WS" else total.stitches)
    # where the line does not say which side faces, the one that follows does
    piece.due = told
    piece.fresh = True
    piece.started = told is not None
    piece.turned = False
    piece.unaccounted = None
    piece.told = (step.span, total.stitches, "taken back here")
    piece.before = total.stitches
    if state.section is not None and state.section.form is not None:
        piece.form = state.section.form
    if step.rejoin:
        piece.form = "flat"
        state.event("join yarn", 1, span=step.span)
    begin_finger(piece, "taken back")
    if piece.landmarks.get("section", (0, piece.length))[0] > piece.rows:
        piece.landmarks["section"] = (piece.rows, piece.length)
    state.forget_rows()


def _from_both_ends(state: SizeState, step: Resume) -> Group | None:
    """ "Slip first 6 and last 6 sts from length of yarn": they lie side by side on the needle, the others go on waiting."""
    first, last = (state.number_of(count) for count, _ in step.parts)
    at = find_group(state.holders, step.parts[1][1], None)
    if at is None:
        state.report(fault(NOT_HELD, step.span, "no stitches wait on {name}", name=step.parts[1][1]))
        return None
    group = state.holders[at]
    have = group.stitches
    if first + last >= have:
        state.report(
            fault(
                NOT_HELD,
                step.span,
                "the first {first} and the last {last} held sts are taken back, {have} are held",
                first=first,
                last=last,
                have=have,
                related=((group.span, "they were put aside here"),) if group.span is not None else (),
            )
        )
        return None
    state.holders[at] = replace(group, needle=replace(group.needle.part(first, have - last), at=0))
    taken = joined(group.needle.part(0, first), group.needle.part(have - last, have), 0)
    state.event("resume", first + last, group.name, step.span)
    return replace(group, needle=taken)
