"""Work that follows what has been worked before: "Work as for Back to **", "Complete as for first finger".

In: a `WorkAs`, the sections of the plan and what has been worked so far. Out: the steps to be worked now, section by
section, or None with a fault. Where the two part is told by a mark, by a row's name or a section's title, or by the last
step worked, which stands in the other piece too. Nothing is guessed: two places that could be meant are refused.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace

from castoff.knitting.extents import find_piece
from castoff.knitting.faults import NOT_SHORTER, fault
from castoff.knitting.plan import PlanSection
from castoff.knitting.state import SizeState
from castoff.notation.syntax import (
    Arrange,
    AtBeginning,
    BindOff,
    CastOn,
    ChangeNeedles,
    ChangeYarn,
    Count,
    DrawThrough,
    FastenOff,
    ForRows,
    GoOnShaping,
    Hold,
    InstructionLine,
    JoinRound,
    Length,
    Line,
    Mark,
    MarkStitch,
    Note,
    PickUpRow,
    Place,
    Remark,
    Repeat,
    RepeatRows,
    Resume,
    RowRef,
    RowsAs,
    RowStep,
    SetFabric,
    ShapeRows,
    Step,
    Stitch,
    ToldLength,
    ToldRows,
    Total,
    TurnWork,
    UnreadLine,
    UntilLength,
    WorkAs,
    WorkRows,
)
from castoff.span import Span, Text

ACTS = (
    RowStep, RowsAs, RepeatRows, WorkRows, ShapeRows, GoOnShaping, AtBeginning, BindOff, DrawThrough, FastenOff, Hold,
    Resume, PickUpRow, CastOn,
)  # fmt: skip
"""Steps that work stitches or move them: by them a knitter finds the place."""
_SETTING_UP = (CastOn, PickUpRow, Resume, JoinRound, Arrange, Place, MarkStitch, ChangeNeedles, ChangeYarn, TurnWork)
_TOLD = (Total, ToldRows, ToldLength, Note)
_RIB_ENDS = (
    "rib is complete", "ribbing is complete", "rib is completed", "ribbing is completed", "end of rib", "end of ribbing",
    "rib has been worked", "ribbing has been worked", "end of the rib", "end of the ribbing",
)  # fmt: skip
_BEGINNINGS = ("beginning of ", "beg of ", "start of ", "where ", "the ", "shape ")
_ENDINGS = (" shaping", " section", " begins", " starts")


@dataclass(frozen=True, slots=True)
class Told:
    """A step of what is followed, with its section; `step` None for a line that could not be read."""

    section: PlanSection
    step: Step | None
    heading: bool = False


def steps_to_work(state: SizeState, step: WorkAs) -> list[Told] | None:
    """The steps that a line sends the knitter back to; None when they cannot be told, with a fault.

    An empty list when the piece itself is made once more.
    """
    told = _followed(state, step)
    if told and _is_a_copy(state, step):
        return []
    if not told:
        known = dict.fromkeys(each.piece for each in state.plan.sections)
        state.report(
            fault(
                NOT_SHORTER,
                step.span,
                "nothing called `{name}` comes before this line",
                name=step.of,
                hint="known are " + ", ".join(known),
            )
        )
        return None
    begin: int | None = 0
    same = True
    if step.start:
        begin = _place(told, step.start)
        if begin is None:
            _refused(state, step, f"{{of}} has no place called {step.start}", "from **")
            return None
        begin += isinstance(told[begin].step, Mark)
    elif step.rest or (state.piece.needle.stitches and not step.to):
        begin, same = _parting(state, step, told)
        if begin is None:
            return None
    elif state.piece.needle.stitches:
        begin = _behind_beginning(state, told) or 0
    stop: int | None = len(told)
    if step.to:
        stop = _place(told, step.to, begin or 0)
        if stop is None:
            _refused(state, step, f"{{of}} has no place called {step.to}", "to **")
            return None
        state.piece.followed = (step.of, stop, step.to)
    found = told[begin:stop]
    if step.extent is not None:
        cut = _as_far_as(state, step, found)
        if cut is None:
            _refused(state, step, "how far `{of}` is followed is told by a length that no line of it measures", "to **")
            return None
        found = cut
    if state.piece.needle.stitches:
        first = next((each.step for each in found if isinstance(each.step, ACTS)), None)
        if isinstance(first, CastOn):
            _where(state, step, "{have} sts are on the needle, and {of} begins by casting on")
            return None
    # what is printed for another number of stitches does not hold here
    return found if same else [each for each in found if not isinstance(each.step, Total)]


def by_section(told: Sequence[Told]) -> list[tuple[PlanSection, list[Told]]]:
    """The steps in runs that belong to one section."""
    found: list[tuple[PlanSection, list[Told]]] = []
    for each in told:
        if not found or found[-1][0] is not each.section:
            found.append((each.section, []))
        found[-1][1].append(each)
    return found


def like_other(state: SizeState, rows: WorkRows, step: WorkAs) -> WorkRows | list[Step] | None:
    """ "Work 20 rows in rib as for Back": the rows in the rib of that piece; None, with a fault, when it cannot be told.

    A list where that rib is told row by row. "…, as for the first half" behind rows told in full is for the reader.
    """
    if _OF_THE_SAME & set(step.of.lower().split()):
        return rows
    told = _followed(state, step)
    if not told:
        known = dict.fromkeys(each.piece for each in state.plan.sections)
        hint = "known are " + ", ".join(known)
        message = "nothing called `{of}` comes before this line"
        state.report(fault(NOT_SHORTER, step.span, message, hint=hint, of=step.of))
        return None
    faces = state.piece.needle.faces
    if rows.fabric.kind != "set" or rows.fabric.name != "rib" or {"k", "p"} <= set(faces):
        return rows
    ribs = dict.fromkeys(
        each.step.fabric
        for each in told
        if isinstance(each.step, WorkRows | SetFabric) and each.step.fabric.kind == "rib"
    )
    if len(ribs) == 1:
        return replace(rows, fabric=next(iter(ribs)))
    spelled = list(dict.fromkeys(_spelled_ribs(told))) if not ribs else []
    if len(spelled) == 1:
        return _rib_again(state, rows, spelled[0])
    message = "{of} has several ribs" if ribs or spelled else "{of} has no rib that is called by its name"
    hint = "write it out: `in k2, p2 rib`"
    state.report(fault(NOT_SHORTER, step.span, message, hint=hint, of=step.of))
    return None


def _spelled_ribs(told: Sequence[Told]) -> Iterator[tuple[RowStep, ...]]:
    """Ribs that are told row by row: rows that stand together, of knit and purl stitches side by side."""
    run: list[RowStep] = []
    for each in (*told, Told(told[0].section, None)):
        step = each.step
        label = step.label if isinstance(step, RowStep) else None
        if isinstance(step, RowStep) and label is not None and _ribbed(step.work):
            again = label.which == "numbers" and label.ranges[0][0].values[0] == 1
            if again and run:
                yield tuple(run)
                run = []
            run.append(step)
        elif not isinstance(step, _TOLD) and run:
            yield tuple(run)
            run = []


def _ribbed(acts: Sequence[object]) -> bool:
    """Whether acts are knit and purl stitches alone, and both."""
    found: set[str] = set()

    def plain(acts: Sequence[object]) -> bool:
        for act in acts:
            if isinstance(act, Repeat):
                if not plain(act.body):
                    return False
            elif isinstance(act, Stitch) and act.name in ("k", "p", "k tbl", "p tbl"):
                found.add(act.name[0])
            elif not isinstance(act, Remark):
                return False
        return True

    return plain(acts) and found == {"k", "p"}


def _rib_again(state: SizeState, rows: WorkRows, rib: tuple[RowStep, ...]) -> list[Step]:
    """The rows of a rib once, and again as far as the line says."""
    until = rows.extent.until
    again = rows.extent
    if isinstance(until, ForRows):
        wanted = state.number_of(until.rows)
        rib = rib[:wanted]
        rest = replace(
            until.rows, values=tuple(None if each is None else each - len(rib) for each in until.rows.values)
        )
        again = replace(again, until=replace(until, rows=rest))
        if wanted <= len(rib):
            return list(rib)
    last = RowRef("last", count=Count((len(rib),) * len(state.plan.sizes), span=rows.span), span=rows.span)
    return [*rib, RepeatRows(last, extent=again, span=rows.span)]


def _as_far_as(state: SizeState, step: WorkAs, told: Sequence[Told]) -> list[Told] | None:
    """The steps up to a length: those before the rows that go on to a length of the same kind, and these as far as told."""
    assert step.extent is not None, "asked for where a length is told"
    until = step.extent.until
    wanted = until.length.at(state.size) if isinstance(until, UntilLength) else None
    for at, each in enumerate(told):
        rows = each.step
        there = rows.extent.until if isinstance(rows, WorkRows | RepeatRows) and rows.extent is not None else None
        if not isinstance(until, UntilLength) or not isinstance(there, UntilLength) or wanted is None:
            continue
        length = there.length.at(state.size)
        if length is not None and length >= wanted and _measured_alike(state, until, there, each.section.piece):
            assert isinstance(rows, WorkRows | RepeatRows), "only these have an extent"
            return [*told[:at], replace(each, step=replace(rows, extent=step.extent))]
    return None


def _measured_alike(state: SizeState, one: UntilLength, other: UntilLength, piece: str) -> bool:
    """Whether two lengths are taken of the same part, from the same place."""
    pieces = {"piece", "work", piece.lower(), state.piece.name.lower()}

    def of(until: UntilLength) -> tuple[str, str]:
        what = until.what.lower()
        origin = "" if until.origin is None else until.origin.kind
        whole = what in pieces and origin in ("", "cast-on", "beginning")
        return ("piece", "") if whole else (what, origin)

    return of(one) == of(other)


_OF_THE_SAME = frozenset({"half", "side", "first", "other", "second", "before", "these", "those"})


def _is_a_copy(state: SizeState, step: WorkAs) -> bool:
    """ "Make a second mitt the same", said of the piece itself when all of it has been worked."""
    whole = not (step.to or step.start or step.rest) and step.extent is None
    if not whole or state.piece.needle.stitches:
        return False
    wanted, piece = step.of.lower().strip(), state.piece.name.lower()
    titled = any(each.title.lower() == wanted for each in _so_far(state))
    return wanted == piece or (wanted in piece and not titled and find_piece(state, step.of) is state.piece)


def _refused(state: SizeState, step: WorkAs, message: str, way: str) -> None:
    state.report(
        fault(
            NOT_SHORTER,
            step.span,
            message,
            hint=f"mark the place there with `**`, and write `{'complete' if step.rest else 'work'} as for {{of}} {way}`",
            of=step.of,
        )
    )
    state.piece.doubt = True


def _where(state: SizeState, step: WorkAs, message: str, line: int = 0) -> None:
    state.report(
        fault(
            NOT_SHORTER,
            step.span,
            message,
            hint="mark the place there with `**`, and write `complete as for {of} from **`",
            of=step.of,
            have=state.piece.needle.stitches,
            line=line,
        )
    )
    state.piece.doubt = True


# ------------------------------------------------------------------------------------------------ what is followed


def _followed(state: SizeState, step: WorkAs) -> list[Told]:
    """All that has been told of a piece, of a section by its title, or under a heading, up to this line."""
    wanted = step.of.lower().strip()
    before = _so_far(state)
    sections = [each for each in before if each.piece.lower() == wanted]
    sections = sections or [each for each in before if each.title.lower() == wanted]
    if not sections:
        headed = _headed(state, before, wanted)
        if headed:
            return headed
        found = find_piece(state, step.of)
        sections = [] if found is None else [each for each in before if each.piece == found.name]
    told = [each for section in sections for each in _told(state, section)]
    here = next(
        (at for at, each in enumerate(told) if each.step is not None and each.step.span == step.span), len(told)
    )
    return told[:here]


def _so_far(state: SizeState) -> list[PlanSection]:
    here = state.section
    assert here is not None, "steps stand in sections"
    found: list[PlanSection] = []
    for each in state.plan.sections:
        if each.sizes is None or each.sizes[state.size]:
            found.append(each)
        if each is here:
            break
    return found


def _lines_of(state: SizeState, section: PlanSection) -> Sequence[Line]:
    if section.mirrors is not None and not section.lines:
        source = next((each for each in state.plan.sections if each.title == section.mirrors), None)
        return () if source is None else source.lines
    return section.lines


def _told(state: SizeState, section: PlanSection) -> list[Told]:
    found: list[Told] = []
    for line in _lines_of(state, section):
        if not line.sizes[state.size]:
            continue
        if isinstance(line, UnreadLine):
            found.append(Told(section, None))
        elif isinstance(line, InstructionLine):
            found += [Told(section, each, _is_heading(each, line.text)) for each in line.steps]
    return found


def _is_heading(step: Step, text: Text) -> bool:
    return (
        isinstance(step, Note) and text.value.lower().startswith(f"{step.words}:") and not step.words.startswith("note")
    )


def _headed(state: SizeState, sections: Sequence[PlanSection], wanted: str) -> list[Told]:
    """What stands under a heading inside a section ("Little finger: …"), up to the next heading."""
    for section in reversed(sections):
        told = _told(state, section)
        for at, each in enumerate(told):
            if each.heading and isinstance(each.step, Note) and each.step.words == wanted:
                stop = next((later for later in range(at + 1, len(told)) if told[later].heading), len(told))
                return told[at + 1 : stop]
    return []


# ------------------------------------------------------------------------------------------------ places


def _place(told: Sequence[Told], name: str, begin: int = 0) -> int | None:
    """Where a mark, a named row, a section of its own title or the armhole shaping stands; None when nowhere, or twice."""
    wanted = name.lower().replace("round", "rnd").strip()
    marks = [at for at, each in enumerate(told) if isinstance(each.step, Mark) and each.step.mark == name]
    if marks:
        return next((at for at in marks if at >= begin), marks[0])
    rows = [at for at, each in enumerate(told) if isinstance(each.step, RowStep) and _row_name(each.step) == wanted]
    if len(rows) == 1:
        return rows[0]
    changed = _behind_change(told, wanted)
    if changed is not None:
        return changed
    if wanted in _RIB_ENDS:
        return _behind_rib(told)
    bare = _bare(wanted)
    titled = [
        at
        for at, each in enumerate(told)
        if at and each.section is not told[at - 1].section and _bare(each.section.title.lower()) == bare
    ]
    headed = [
        at
        for at, each in enumerate(told)
        if each.heading and isinstance(each.step, Note) and _bare(each.step.words) == bare
    ]
    if len(titled) + len(headed) == 1:
        return (titled + headed)[0]
    if "armhole" in wanted:
        return next((at for at, each in enumerate(told) if isinstance(each.step, AtBeginning)), len(told))
    return None


def _behind_change(told: Sequence[Told], wanted: str) -> int | None:
    """Behind the one change to the needles named: "until you have changed to 4 mm needles"."""
    for begun in ("you have changed to ", "you have changed onto ", "you changed to "):
        if wanted.startswith(begun):
            needles = _needles(wanted.removeprefix(begun))
            found = [
                at
                for at, each in enumerate(told)
                if isinstance(each.step, ChangeNeedles) and _needles(each.step.needles) == needles
            ]
            return found[0] + 1 if len(found) == 1 else None
    return None


def _needles(words: str) -> str:
    return words.lower().strip().removesuffix("s").removesuffix(" needle")


def _behind_rib(told: Sequence[Told]) -> int | None:
    """Behind the rows that a piece begins with, when they are a rib."""
    ribbed = False
    for at, each in enumerate(told):
        step = each.step
        if isinstance(step, WorkRows | SetFabric):
            rib = step.fabric.kind == "rib" or step.fabric.name == "rib"
        elif isinstance(step, RowStep):
            rib = _ribbed(step.work)
        else:
            rib = ribbed and isinstance(step, RepeatRows | RowsAs)
            if not rib and (step is None or (isinstance(step, ACTS) and not isinstance(step, _SETTING_UP))):
                return at if ribbed else None
            if not rib and ribbed and isinstance(step, ChangeNeedles | ChangeYarn):
                return at
            continue
        if not rib:
            return at if ribbed else None
        ribbed = True
    return None


def _bare(words: str) -> str:
    for each in _BEGINNINGS:
        words = words.removeprefix(each)
    for each in _ENDINGS:
        words = words.removesuffix(each)
    return words


def _row_name(row: RowStep) -> str:
    label = row.label
    if label is None or label.which not in ("named", "set-up", "next"):
        return ""
    name = label.name or ("set-up" if label.which == "set-up" else "")
    return f"{name} {label.unit}" if name else ""


# ------------------------------------------------------------------------------------------------ where the two part


def _parting(state: SizeState, step: WorkAs, told: Sequence[Told]) -> tuple[int | None, bool]:
    """Where to take up what is followed, and whether with as many stitches as it had there, or has to have."""
    shared = _last_shared(state, step, told)
    alike = _alike(state, told)
    have = state.piece.needle.stitches
    if shared is None:
        marks = [at for at, each in enumerate(told) if isinstance(each.step, Mark)]
        shared = marks[0] + 1 if len(marks) == 1 else None
    if shared is not None and len(alike) == 1 and alike[0] > shared:
        same = told[alike[0] - 1].step
        _where(
            state,
            step,
            "{of} can be taken up at two places: at its mark, or behind the row on line {line}, which was worked last",
            line=0 if same is None else same.span.line,
        )
        return None, True
    if shared is not None:
        return shared, True
    if len(alike) == 1:
        return alike[0], _stitches_behind(state, told, alike[0]) == have
    begun = _behind_beginning(state, told)
    if begun is not None and not alike:
        return begun, True
    _where(state, step, "where {of} is to be taken up, with {have} sts on the needle, cannot be told")
    return None, True


def _last_shared(state: SizeState, step: WorkAs, told: Sequence[Told]) -> int | None:
    """Behind "Work as for X to …" the place named there; behind the row named there, when that row was told anew."""
    if state.piece.followed is None or state.piece.followed[0].lower() != step.of.lower():
        return None
    _, at, name = state.piece.followed
    if at >= len(told):
        return None
    there = told[at].step
    if isinstance(there, Mark):
        return at + 1
    if isinstance(there, RowStep):
        own = any(isinstance(each, RowStep) and _row_name(each) == _row_name(there) for each in state.piece.acts)
        return _behind(told, at + 1) if own and _row_name(there) in name.lower().replace("round", "rnd") else at
    return at


def _behind(told: Sequence[Told], at: int) -> int:
    """Behind the totals and remarks that belong to a step."""
    while at < len(told) and isinstance(told[at].step, _TOLD):
        at += 1
    return at


def _alike(state: SizeState, told: Sequence[Told]) -> list[int]:
    """Places behind the step that was worked last, as it stands in what is followed; then but for its numbers."""
    acts = state.piece.acts
    if not acts:
        return []
    for blank in (False, True):
        found = _matches(acts, told, blank)
        if len(found) > 1:
            counted = [at for at in found if _stitches_behind(state, told, at) == state.piece.needle.stitches]
            found = counted or found
        if blank:
            # rows that are merely so many ("Knit 2 rnds") prove nothing by themselves
            have = state.piece.needle.stitches
            found = [
                at
                for at in found
                if not _mere_rows(acts[-1]) or _stitches_behind(state, told, at) == have or _all_alike(acts, told, at)
            ]
        if found:
            return [_behind(told, at) for at in found]
    return []


def _matches(acts: Sequence[Step], told: Sequence[Told], blank: bool) -> list[int]:
    """Places behind steps equal to the last one worked; of several, those behind the longest run that was worked."""
    others = [(at, each.step) for at, each in enumerate(told) if isinstance(each.step, ACTS)]
    found = [index for index, (_, each) in enumerate(others) if _equal(each, acts[-1], blank)]
    back = 1
    while len(found) > 1 and back < len(acts):
        further = [
            index for index in found if index >= back and _equal(others[index - back][1], acts[-1 - back], blank)
        ]
        if not further:
            break
        found = further
        back += 1
    return [others[index][0] + 1 for index in found]


def _all_alike(acts: Sequence[Step], told: Sequence[Told], at: int) -> bool:
    """Whether everything since the cast-on has gone the same way, but for its numbers."""
    others = [each.step for each in told[:at] if isinstance(each.step, ACTS)]
    return len(acts) == len(others) > 1 and all(_equal(one, two, True) for one, two in zip(others, acts, strict=True))


def _mere_rows(step: Step) -> bool:
    return isinstance(step, WorkRows) and isinstance(step.extent.until, ForRows)


def _equal(one: Step, two: Step, blank: bool) -> bool:
    return one == two or (blank and type(one) is type(two) and _shape(one) == _shape(two))


def _shape(node: object) -> object:
    """A tree without its numbers, and without the words for what is measured."""
    if isinstance(node, (Count, Length)):
        return type(node).__name__
    if isinstance(node, tuple):
        return tuple(_shape(each) for each in node)
    if is_dataclass(node) and not isinstance(node, (Span, Text)):
        inside = [
            (each.name, getattr(node, each.name)) for each in fields(node) if each.name not in ("span", "what", "of")
        ]
        return type(node).__name__, tuple((name, _shape(value)) for name, value in inside)
    return node


def _stitches_behind(state: SizeState, told: Sequence[Told], at: int) -> int | None:
    while at > 1 and isinstance(told[at - 1].step, _TOLD):
        at -= 1
    step = told[at - 1].step
    return None if step is None else state.counts.get(step.span)


def _behind_beginning(state: SizeState, told: Sequence[Told]) -> int | None:
    """Stitches cast on, picked up or taken back here stand for those that the other begins with, if they are as many."""
    if not all(isinstance(each, _SETTING_UP) for each in state.piece.acts):
        return None
    at = 0
    while at < len(told) and isinstance(told[at].step, (*_SETTING_UP, *_TOLD)):
        at += 1
    counts = [_stitches_behind(state, told, each + 1) for each in range(at) if isinstance(told[each].step, _SETTING_UP)]
    return at if counts and counts[-1] == state.piece.needle.stitches and state.piece.acts else None
