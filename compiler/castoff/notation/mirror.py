"""The other side of a section: its lines turned round, in the words of the first.

In: the read lines of a section, what is known of left and right, and how the piece stands. Out: the text of the other
side, every line with the place of the line it was made from; and a finding for each line that cannot be turned soundly.

A row keeps its side and is worked from its other end (`turned.py`): a decrease at the beginning comes to the end and
leans the other way. What can only be done at the beginning of a row (binding off, casting on, turning short) is worked
on the other side instead, one row later: knits are purled, the order stays. A plain row is put in between where the one
way goes over into the other, or left out again, or the rows before end one row later: as the trade writes it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from castoff.diagnostic import Checked, Diagnostic, Rule
from castoff.notation.other_side_words import OTHER_WORD, in_style, other_ending, replaced, swapped, work_span
from castoff.notation.print_actions import print_actions
from castoff.notation.syntax import (
    Action,
    AtBeginning,
    BindOff,
    BindOffAct,
    Cable,
    CastOn,
    CastOnAct,
    ChangeNeedles,
    ChangeYarn,
    DrawThrough,
    EndShaping,
    Fabric,
    FastenOff,
    Finish,
    Graft,
    Hold,
    HoldAct,
    InstructionLine,
    IntoOne,
    JoinRound,
    JoinShoulders,
    Label,
    Line,
    Mark,
    MarkerAct,
    Meanwhile,
    Note,
    OnLastRow,
    Opening,
    PickUp,
    PickUpRow,
    PickUpWrap,
    Place,
    ProseLine,
    Remark,
    Repeat,
    RepeatRows,
    Resume,
    RowRef,
    RowsAs,
    RowsForm,
    RowStep,
    Seam,
    SetFabric,
    ShapeRows,
    SizesLine,
    Step,
    Stitch,
    StitchTo,
    Stripes,
    ToEnd,
    ToldLength,
    ToldRows,
    Total,
    Turn,
    TurnWork,
    UseYarn,
    WorkFabric,
    WorkRows,
)
from castoff.notation.turned import Sides, Stuck, turned_row
from castoff.span import SourceFile, Span, Text

NOT_TURNED = Rule(
    "line-not-turned",
    "error",
    """A line of a mirrored section cannot be turned round.

`mirrors:` makes the other side of a section from its lines: decreases lean the other way and stand at the other end, what
is bound off at the beginning of right-side rows is bound off at the beginning of wrong-side rows, left is right. A line
whose other side cannot be told for certain is not guessed: write its other side out, under `instead:`.

Fires:
    sections:
      - title: Left side
        work: |
          CO 20 sts.
          Row 1 (RS): K5, spp, k to end.
          Row 2: Purl.
          BO all sts.
      - {title: Right side, mirrors: Left side}
Silent:
    sections:
      - title: Left side
        work: |
          CO 20 sts.
          Row 1 (RS): K5, ssk, k to end. 19 sts.
          Row 2: Purl.
          BO all sts.
      - {title: Right side, mirrors: Left side}
""",
)
INSTEAD_UNUSED = Rule(
    "instead-unused",
    "error",
    """A line written out for the other side stands for no line of the first.

`of` repeats the beginning of the line that `work` replaces, as it stands in the section that is mirrored.

Fires:
    sections:
      - {title: Left side, work: "CO 20 sts.\\nKnit 4 rows.\\nBO all sts."}
      - title: Right side
        mirrors: Left side
        instead:
          - {of: Purl 4 rows, work: Knit 6 rows.}
Silent:
    sections:
      - {title: Left side, work: "CO 20 sts.\\nKnit 4 rows.\\nBO all sts."}
      - title: Right side
        mirrors: Left side
        instead:
          - {of: Knit 4 rows, work: Knit 6 rows.}
""",
)
RULES = (NOT_TURNED, INSTEAD_UNUSED)

Way = Literal["same side", "other side"]
"""How a row is turned: from its other end on the same side, or in the same order on the other side."""

Wish = Literal["same side", "other side", "rather the same", "either"]


@dataclass(frozen=True, slots=True)
class Standing:
    """How a mirrored piece stands between two of its sections.

    way: None when the next row may be either. behind: rows that it has more than the first side.
    """

    way: Way | None = "same side"
    behind: int = 0


@dataclass(frozen=True, slots=True)
class OtherSide:
    """The text of a mirrored section. origins: for each of its lines, where that line begins and what it was made from."""

    text: Text
    origins: tuple[tuple[int, Span], ...]
    standing: Standing

    def origin(self, offset: int) -> Span | None:
        """The line of the first side that a character of the text was made from."""
        return next((span for start, span in reversed(self.origins) if start <= offset), None)


@dataclass(frozen=True, slots=True)
class _Made:
    """A line of the other side."""

    text: str
    origin: Span
    plain_row: bool = False
    ends: bool = False
    """Whether its last words are "ending with a … row" behind a length, so that one row more is no other fabric."""
    rows: bool = False


@dataclass
class _Turner:
    """Turns one section, line by line."""

    sides: Sides
    sizes: int
    names: tuple[tuple[str, str], ...]
    terms: str
    standing: Standing
    everyone: tuple[bool, ...]
    made: list[_Made] = field(default_factory=list)
    findings: list[Diagnostic] = field(default_factory=list)
    numbered: dict[int, Way] = field(default_factory=dict)
    named: dict[str, Way] = field(default_factory=dict)
    worked: list[Way] = field(default_factory=list)

    @property
    def way(self) -> Way:
        return self.standing.way or "same side"

    # -------------------------------------------------------------------------------------- lines

    def line(self, line: Line) -> None:
        if isinstance(line, ProseLine | SizesLine):
            self.made.append(_Made(swapped(line.text.value.strip(), self.names), line.span))
            return
        if not isinstance(line, InstructionLine):
            return
        wish = self.wish(line.steps)
        if isinstance(wish, Stuck):
            self.stuck(line, wish)
            return
        before = self.standing, list(self.made)
        reason = self.go_over(wish, line)
        text = reason if isinstance(reason, Stuck) else self.text_of(line)
        if isinstance(text, Stuck):
            self.standing, self.made = before
            self.stuck(line, text)
            return
        rows = [
            step
            for step in line.steps
            if isinstance(step, (RowStep, RowsAs, RepeatRows, WorkRows, ShapeRows, AtBeginning))
        ]
        last = rows[-1] if rows else None
        plain = len(line.steps) == 1 and isinstance(last, RowStep) and _is_plain(last.work) and _unnumbered(last.label)
        ends = isinstance(last, WorkRows) and last.extent.ending is not None and _to_a_length(last)
        self.made.append(
            _Made(swapped(text, self.names), line.span, plain and line.sizes == self.everyone, ends, bool(rows))
        )
        if rows and self.standing.way is None:
            self.standing = replace(self.standing, way=self.way)
        for step in rows:
            self.remember(step)

    def stuck(self, line: InstructionLine, stuck: Stuck) -> None:
        words = line.text.value.strip()
        message = f"`{words}` cannot be turned round: {stuck.why}"
        hint = "write its other side out under `instead:`, with the beginning of this line behind `of:`"
        self.findings.append(Diagnostic.of(NOT_TURNED, message, stuck.span or line.span, hint=hint))

    def written_out(self, line: InstructionLine, work: str) -> None:
        """A line whose other side the author has written."""
        for words in work.splitlines():
            if words.strip():
                self.made.append(_Made(words.strip(), line.span, rows=True))
        if self.standing.way is None:
            self.standing = replace(self.standing, way="same side")
        for step in line.steps:
            self.remember(step)

    # -------------------------------------------------------------------------------------- ways

    def go_over(self, wish: Wish, line: InstructionLine) -> Stuck | None:
        """From the one way of turning to the other, if the line asks for it."""
        if wish == "either":
            return None
        if self.standing.way is None:
            if wish != "rather the same":
                self.standing = replace(self.standing, way=wish)
            return None
        wanted: Way = "other side" if wish == "other side" else "same side"
        if wanted == self.way:
            return None
        behind = self.standing.behind
        last = next((index for index in range(len(self.made) - 1, -1, -1) if self.made[index].rows), None)
        if last is None and not self.worked and not self.standing.behind and wanted == "other side" and self.begun_here:
            self.standing = replace(self.standing, way=wanted)
            return None
        if line.sizes != self.everyone:
            return Stuck("it is for some sizes only, and would have to be worked on the other side", line.span)
        if last is not None and behind > 0 and self.made[last].plain_row:
            del self.made[last]
            self.worked.pop()
            self.standing = Standing(wanted, behind - 1)
        elif last is not None and self.made[last].ends:
            self.made[last] = replace(self.made[last], text=other_ending(self.made[last].text))
            self.standing = Standing(wanted, behind + (1 if wanted == "other side" else -1))
        elif wish == "rather the same":
            return None
        else:
            self.made.append(_Made("Work 1 row even.", line.span, plain_row=True, rows=True))
            self.worked.append(wanted)
            self.standing = Standing(wanted, behind + 1)
        return None

    @property
    def begun_here(self) -> bool:
        """Whether the piece was cast on in this section: its first row may be on either side."""
        return any(re.match(r"(?i)(?:with .*?, )?(?:cast on|co)\b", each.text) for each in self.made)

    def close(self, more: bool) -> None:
        """The end of the section; `more`: whether the piece goes on."""
        last = self.made[-1] if self.made else None
        if more and self.way == "other side" and self.standing.behind > 0 and last is not None and last.plain_row:
            self.made.pop()
            self.standing = Standing("same side", self.standing.behind - 1)

    def wish(self, steps: Sequence[Step]) -> Wish | Stuck:
        """How the steps of a line can be turned."""
        wishes: list[Wish] = []
        for step in steps:
            wish = self.step_wish(step)
            if isinstance(wish, Stuck):
                return wish
            wishes.append(wish)
        if "other side" in wishes:
            if "same side" in wishes:
                return Stuck("some of it would have to be worked on the other side, and some not", steps[0].span)
            return "other side"
        for wish in ("same side", "rather the same"):
            if wish in wishes:
                return wish
        return "either"

    def step_wish(self, step: Step) -> Wish | Stuck:
        match step:
            case RowStep():
                return self.row_wish(step)
            case RowsAs() | RepeatRows():
                return self.again(step)
            case WorkRows():
                stuck = self.fabric(step.fabric)
                if stuck is not None:
                    return stuck
                return "rather the same" if step.extent.ending is not None else "either"
            case SetFabric() | RowsForm():
                return self.fabric(step.fabric) or "either"
            case ShapeRows():
                return "rather the same" if isinstance(step.act, EndShaping) else "other side"
            case AtBeginning():
                if step.rest or any(value is not None and value % 2 for value in step.rows.values):
                    return "other side"
                return "either"
            case Meanwhile():
                return self.wish(step.steps)
            case PickUpRow():
                if sum(isinstance(part, PickUp) for part in step.parts) != 1 or len(step.parts) > 1:
                    return Stuck("stitches are picked up along several edges in turn", step.span)
                return "either"
            case JoinRound() if step.over is None:
                return "either"
            case Place() if step.where == "" or "each end" in step.where:
                return "either"
            case (
                CastOn() | ChangeYarn() | ChangeNeedles() | BindOff() | DrawThrough() | FastenOff() | Total()
                | ToldRows() | ToldLength() | Note() | Finish() | Seam() | Stripes() | Mark() | TurnWork() | Hold()
                | Resume() | Graft() | JoinShoulders() | Opening() | OnLastRow()
            ):  # fmt: skip
                return "either"
            case _:
                return Stuck("what it says has no other side that can be told for certain", step.span)

    def row_wish(self, step: RowStep) -> Wish | Stuck:
        acts = [act for act in step.work if not isinstance(act, (Remark, MarkerAct, UseYarn)) or _has_body(act)]
        if _is_plain(step.work):
            return "either"
        round_ = step.label is not None and step.label.unit == "rnd"
        if acts and not round_ and (_starts_a_row(acts[0]) or _starts_a_row(acts[-1]) or _turns(acts)):
            return "other side"
        turned = turned_row(step.work, self.sides, self.sizes)
        if isinstance(turned, Stuck):
            return turned
        if turned is step.work and all(_is_texture(act) for act in step.work):
            return "either"
        return "same side"

    def again(self, step: RowsAs | RepeatRows) -> Wish | Stuck:
        """Rows that are worked again are turned as they were."""
        if step.rows.section not in ("", "this section"):
            return Stuck("it calls a section by its title, and the other side has another", step.span)
        ways = self.ways_of(step.rows)
        if ways is None:
            return Stuck("the rows that it speaks of are turned in two ways", step.span)
        return ways

    def ways_of(self, rows: RowRef) -> Wish | None:
        if rows.kind == "numbers" and not rows.name:
            numbers = [
                number
                for first, last in rows.ranges
                for number in range(first.values[0] or 0, (last.values[0] or 0) + 1)
            ]
            found = {self.numbered[number] for number in numbers if number in self.numbered}
        elif rows.kind == "named":
            found = {self.named[rows.name]} if rows.name in self.named else set()
        elif rows.kind in ("last", "these"):
            count = 1 if rows.count is None else max((value or 0 for value in rows.count.values), default=1)
            found = set(self.worked[-count:])
        else:
            found = set()
        if len(found) > 1:
            return None
        return next(iter(found), "either")

    def remember(self, step: Step) -> None:
        match step:
            case RowStep(label=label) | RowsAs(label=label):
                count = 1
                if label is not None:
                    count = 0
                    for first, last in label.ranges:
                        for number in range(first.values[0] or 0, (last.values[0] or 0) + 1):
                            self.numbered[number] = self.way
                            count += 1
                    if label.name:
                        self.named[label.name] = self.way
                self.worked.extend([self.way] * max(1, count))
            case WorkRows() | ShapeRows() | AtBeginning() | RepeatRows():
                self.worked.extend([self.way] * 2)

    def fabric(self, fabric: Fabric) -> Stuck | None:
        """A stitch pattern of the author's must look the same from both sides, or have a partner."""
        other = self.sides.fabrics.get(fabric.name.lower())
        if fabric.kind == "named" and other == "":
            why = f"the source does not say which stitch pattern is the other side of `{fabric.name}` (`mirror:`)"
            return Stuck(why, fabric.span)
        return None

    # -------------------------------------------------------------------------------------- words

    def text_of(self, line: InstructionLine) -> str | Stuck:
        """The words of a line, turned in the way that is in force."""
        if self.way == "other side":
            return self.flipped(line)
        places: list[tuple[Span, str]] = []
        for step in _all_steps(line.steps):
            if isinstance(step, RowStep):
                turned = turned_row(step.work, self.sides, self.sizes)
                if isinstance(turned, Stuck):
                    return turned
                if turned is not step.work:
                    places.append((work_span(step.work), self.printed(turned)))
            elif isinstance(step, ShapeRows | OnLastRow) and isinstance(step.act, EndShaping):
                other = _other_end(step.act)
                if other != step.act:
                    places.append((step.act.span, self.printed((other,))))
        return replaced(line.tokens, places)

    def printed(self, actions: tuple[Action, ...]) -> str:
        words = print_actions(actions)
        bind, cast = ("bind off", "cast on") if self.terms == "US" else ("cast off", "cast on")
        words = re.sub(r"\bbo\b", bind, words)
        words = re.sub(r"\bco\b", cast, words)
        return re.sub(r"(?<![\d.])1 sts\b", "1 st", words)

    def flipped(self, line: InstructionLine) -> str | Stuck:
        words: list[str] = []
        held = ""
        acts = [act for step in _all_steps(line.steps) for act in _acts(step)]
        doubled = [act.span for act in acts if _makes_double(act)]
        gathers = any(isinstance(act, PickUpWrap) for act in acts)
        for token in line.tokens:
            text = token.text
            if any(span.start <= token.span.start < span.end for span in doubled):
                pass  # a double stitch is made with the yarn in front on both sides
            elif token.kind == "stitch" and token.stitch is not None:
                name = self.sides.flip(token.stitch)
                if not name:
                    return Stuck(f"`{token.text}` cannot be worked on the other side of the fabric", token.span)
                text = in_style(token, name)
            elif token.kind == "word":
                text = OTHER_WORD.get(text, text)
                if gathers:
                    text = {"knitting": "purling", "purling": "knitting"}.get(text, text)
                if held == "yarn in":
                    text = {"front": "back", "back": "front"}.get(text, text)
            words.append(text)
            if token.kind != "space":
                held = "yarn in" if held == "yarn" and text == "in" else text
        if any(isinstance(act, (Cable, PickUp)) for act in acts):
            return Stuck("it cannot be worked on the other side of the fabric", line.span)
        return "".join(words)


def mirror_section(
    lines: Sequence[Line],
    sides: Sides,
    sizes: int,
    standing: Standing,
    title: str,
    *,
    names: tuple[tuple[str, str], ...] = (),
    terms: str = "US",
    instead: Sequence[tuple[Text, Text]] = (),
    more: bool = False,
) -> Checked[OtherSide]:
    """The other side of a section.

    lines: of the section that is mirrored. standing: of the mirrored piece before. title: what the text is called in
    findings. names: pieces and what they are called here. instead: beginnings of lines, and what is worked for them.
    more: whether the piece goes on in a later section.
    """
    everyone = tuple(any(line.sizes[size] for line in lines) for size in range(sizes))
    turner = _Turner(sides, sizes, names, terms, standing, everyone)
    used: set[int] = set()
    for line in lines:
        words = " ".join(line.text.value.split())
        at = next((i for i, (of, _) in enumerate(instead) if words.startswith(" ".join(of.value.split()))), None)
        if at is not None and isinstance(line, InstructionLine):
            used.add(at)
            turner.written_out(line, instead[at][1].value)
        else:
            turner.line(line)
    turner.close(more)
    for index, (of, _) in enumerate(instead):
        if index not in used:
            message = f"no line of the section that is mirrored begins with `{of.value}`"
            turner.findings.append(Diagnostic.of(INSTEAD_UNUSED, message, of.span()))
    origins: list[tuple[int, Span]] = []
    at = 0
    for each in turner.made:
        origins.append((at, each.origin))
        at += len(each.text) + 1
    value = "\n".join(each.text for each in turner.made)
    text = Text(value, SourceFile(title, value), ((0, 0),))
    return Checked(OtherSide(text, tuple(origins), turner.standing), tuple(turner.findings))


# ------------------------------------------------------------------------------------------------ looking at rows


def _is_plain(acts: Sequence[Action]) -> bool:
    """A row that is knit, purled or worked as set from end to end."""
    for_all = (Remark, PickUpWrap)
    real = [act for act in acts if not isinstance(act, for_all) and not (isinstance(act, UseYarn) and act.body is None)]
    if len(real) != 1:
        return False
    act = real[0]
    if isinstance(act, StitchTo):
        return act.name in ("k", "p") and isinstance(act.target, ToEnd)
    return isinstance(act, WorkFabric) and act.fabric.kind in ("set", "faces") and isinstance(act.over, ToEnd)


def _unnumbered(label: Label | None) -> bool:
    return label is None or (label.which == "next" and not label.ranges and not label.name)


def _starts_a_row(act: Action) -> bool:
    return isinstance(act, BindOffAct | CastOnAct | HoldAct)


def _turns(acts: Sequence[Action]) -> bool:
    """Whether a row is one of short rows: it turns, or works again what a turn has left."""
    return any(isinstance(act, Turn) or (isinstance(act, PickUpWrap) and not act.come) for act in acts)


def _makes_double(act: Action) -> bool:
    return (isinstance(act, Turn) and act.method == "german") or (isinstance(act, Stitch) and act.name == "ds")


def _is_texture(act: Action) -> bool:
    if isinstance(act, Repeat):
        return all(map(_is_texture, act.body))
    return (isinstance(act, (Stitch, StitchTo)) and act.name in ("k", "p", "sl", "k tbl", "p tbl")) or isinstance(
        act, Remark
    )


def _has_body(act: Action) -> bool:
    return isinstance(act, UseYarn) and act.body is not None


def _to_a_length(step: WorkRows) -> bool:
    return hasattr(step.extent.until, "length") or hasattr(step.extent.until, "piece")


def _other_end(act: EndShaping) -> EndShaping:
    return replace(act, ends={"beginning": "end", "end": "beginning"}.get(act.ends, act.ends))


def _all_steps(steps: Sequence[Step]) -> Iterator[Step]:
    for step in steps:
        yield step
        if isinstance(step, Meanwhile):
            yield from _all_steps(step.steps)


def _acts(step: Step) -> Iterator[Action]:
    acts: list[Action] = []
    if isinstance(step, RowStep):
        acts = list(step.work)
    elif isinstance(step, AtBeginning):
        acts = list(step.rest)
    elif isinstance(step, PickUpRow):
        acts = list(step.parts)
    while acts:
        act = acts.pop(0)
        yield act
        if isinstance(act, (Repeat, IntoOne)) or (isinstance(act, UseYarn) and act.body is not None):
            acts[:0] = act.body or ()
