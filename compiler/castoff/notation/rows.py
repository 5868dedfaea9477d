"""Rows and rounds: their labels ("Rnd 3 (dec):", "2nd and 4th rows:", "Row 1 and every foll RS row:") and their work.

In: a cursor at the start of a sentence. Out: `RowStep`, `RowsAs`, `RowRef`, `Label`; None when no row begins here.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal, TypeGuard

from castoff.notation.actions import read_actions
from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_side
from castoff.notation.labels import NAME_STOPS, read_label, read_ranges, read_unit, row_name
from castoff.notation.needle_names import read_needle_name
from castoff.notation.repeats import on_division
from castoff.notation.syntax import (
    Action,
    CastOnAct,
    Drop,
    Label,
    MarkerAct,
    PickUpWrap,
    Remark,
    Repeat,
    RowRef,
    RowsAs,
    RowStep,
    Stitch,
    StitchTo,
    Times,
    ToDivision,
    ToEnd,
    Turn,
    UseYarn,
    WorkFabric,
)
from castoff.notation.yarns import read_yarns


def read_row_ref(c: Cursor) -> RowRef | None:
    """Reads "rows 1–4", "last 2 rnds", "these 4 rows", "row 1", "dec row", "1st and 2nd rows", "last row"."""
    start = c.at
    c.take("the")
    if c.take("last", "these", "those", "foregoing", "the last", "this"):
        kind: Literal["last", "these"] = "last" if c.lexemes[c.at - 1].key in ("last", "foregoing") else "these"
        count = c.count()
        if count is None:
            count = c.same(1, start) if c.here.text.lower() in ("row", "rnd", "round") else None
        unit = read_unit(c)
        if unit is None and c.lexemes[c.at - 1].key == "this":  # "this dec row" is the one of that name
            return _named_ref(c, start) or c.back(start)
        if unit is None:
            return c.back(start)
        return RowRef(kind, (), count, span=c.span(start))
    unit = read_unit(c)
    if unit is not None:
        ranges = read_ranges(c)
        if ranges:
            name = _of_pattern(c)
            return RowRef("numbers", ranges, name=name, section="" if name else _of_section(c), span=c.span(start))
        return c.back(start)
    ranges = read_ranges(c, ordinals=True)
    if ranges:
        unit = read_unit(c)
        if unit is not None:
            return RowRef("numbers", ranges, name=_of_pattern(c), span=c.span(start))
        return c.back(start)
    return _named_ref(c, start) or c.back(start)


def read_row_refs(c: Cursor) -> RowRef | None:
    """The same, and rows of several names together: "inc row and row 2", "inc row and next row"."""
    first = read_row_ref(c)
    if first is None or first.kind not in ("named", "numbers"):
        return first
    more: list[RowRef] = []
    while True:
        before = c.at
        if not c.take(", and", "and", "&", ","):
            break
        place = c.at
        c.take("the")
        part = RowRef("named", name="next", span=c.span(place)) if c.take("next row", "next rnd", "foll row") else None
        if part is None and not c.looking("rep", "work"):
            c.back(place)
            part = read_row_ref(c)
        if part is None or part.kind not in ("named", "numbers"):
            c.back(before)
            break
        more.append(part)
    return replace(first, more=tuple(more)) if more else first


def _named_ref(c: Cursor, start: int) -> RowRef | None:
    words: list[str] = []
    while c.here.kind == "word" and len(words) < 4 and c.here.key not in ("row", "rnd"):
        word = c.here
        if word.key in (NAME_STOPS - {"rep"}) and word.key not in ("k", "p"):
            break
        if word.key in ("a", "an", "another"):  # "a WS row" is no row of that name
            break
        c.skip()
        words.append(row_name(word.key, word.text))
    if words and read_unit(c) is not None:
        ranges = read_ranges(c)
        return RowRef("named", ranges, name=" ".join(words), span=c.span(start))
    return c.back(start)


def _of_pattern(c: Cursor) -> str:
    """ "of ripple lace": the stitch pattern whose rows are meant."""
    before = c.at
    if c.take("of", "from"):
        c.take("the")
        name = c.name_of(c.vocabulary.stitch_patterns)
        if name is not None:
            c.take("patt")
            return name
        if c.looking("chart") and not c.peek().text[:1].isupper() and c.take("chart"):
            return "chart"
        if c.take("patt"):
            return "patt"
    c.back(before)
    return ""


def _of_section(c: Cursor) -> str:
    """ "of Section 2", "of this section": the section that told the rows."""
    before = c.at
    if c.take("of", "from"):
        if c.take("this section"):
            return "this section"
        c.take("the")
        name = c.name_of(c.vocabulary.sections)
        if name is not None:
            c.take("section")
            return name.lower()
        called = [title for title in c.vocabulary.sections if c.here.text.lower() in title.lower().split()]
        if c.here.kind == "word" and len(called) == 1:  # "of lace", told in the section Lace Border
            c.step()
            return called[0].lower()
    c.back(before)
    return ""


def read_row(c: Cursor) -> RowStep | RowsAs | None:
    """Reads a labelled row with its work."""
    start = c.at
    label = read_label(c)
    if label is None:
        return c.back(start)
    same = _as_rows(c, label, start)
    if same is not None:
        return same
    if label.side is None and label.which != "all":
        label = _facing(c, label)
    work = read_row_work(c)
    if not work:
        c.want("what is worked in this " + ("round" if label.unit == "rnd" else "row"))
        return c.back(start)
    return RowStep(label, work, span=c.span(start))


def _facing(c: Cursor, label: Label) -> Label:
    """ "Pick-up rnd: With RS facing, k16, …": the side told behind the colon."""
    before = c.at
    side = read_side(c) if c.take("with") else None
    if side is None or not c.take("facing ,", "facing", "of work facing ,"):
        c.back(before)
        return label
    if c.looking("and the yarn", "and yarn", "and the working yarn", "and working yarn"):
        c.step()  # a set phrase, the first words of the work
    return replace(label, side=side)


def _as_rows(c: Cursor, label: Label, start: int) -> RowsAs | None:
    """ "As row 1", "Rep rows 1–4", "Work as row 2", "With C, as rows 1 and 2", "As row 1 but using B"."""
    before = c.at
    yarn = _one_yarn(c) if c.take("with", "using", "in") else ""
    c.take(",")
    told = c.at
    if c.take("work as for", "work as", "as for", "as", "rep", "same as", "the same as", "like", "work the same as", "k as",
              "p as", "as given for", "work same as", "work"):  # fmt: skip
        rows = read_row_ref(c)
        if rows is not None and rows.name and _one_row(label) and c.lexemes[told].key != "rep":
            return c.back(before)  # "row 5: work row 1 of chart A" is worked by the chart
        times = None if rows is None else read_times(c, "all")
        behind = c.at
        c.take(", but", "but", ",")
        if c.take("with", "using", "in", "working with", "working in"):
            more = _one_yarn(c)
            if not more or yarn or label.yarn:
                return c.back(before)
            yarn = more
        else:
            c.back(behind)
        if yarn and label.yarn:
            return c.back(before)
        if rows is not None and c.here.key in (".", "", "-", "(", ";"):
            label = replace(label, yarn=yarn) if yarn else label
            return RowsAs(label, rows, times, span=c.span(start))
    return c.back(before)


def _one_yarn(c: Cursor) -> str:
    """A yarn that takes the place of another; "" when none or several stand here."""
    yarns = read_yarns(c)
    c.take("instead", "only")
    return yarns[0] if len(yarns) == 1 else ""


def _one_row(label: Label) -> bool:
    """Whether a label names no more than one row."""
    return len(label.ranges) < 2 and all(first.values == last.values for first, last in label.ranges)


def read_row_work(c: Cursor) -> tuple[Action, ...]:
    """Reads the work of one row, by needles where it is told so."""
    named = c.at
    if read_needle_name(c) is not None and c.looking(":", "-"):
        c.back(named)
        return read_by_needles(c)
    c.back(named)
    work = read_actions(c)
    whole = _whole_row(work) if work else ()
    if not whole:
        return c.back(named) or ()
    return _on_every_needle(whole)


def _on_every_needle(work: tuple[Action, ...]) -> tuple[Action, ...]:
    """ "K to last 2 sts on each needle, k2tog": all of it is worked on every needle, as far as the row goes."""
    targets = [
        action.target if isinstance(action, StitchTo) else action.over
        for action in work
        if isinstance(action, StitchTo | WorkFabric)
    ]
    if not any(isinstance(target, ToDivision) and target.name == "each needle" for target in targets):
        return work
    span = work[0].span.to(work[-1].span)
    each = tuple(on_division(action, "each needle") for action in work)
    return (Repeat(each, Times("to", target=ToEnd(span=span), span=span), span=span),)


def read_by_needles(c: Cursor) -> tuple[Action, ...]:
    """ "Needle 1: K to last 3 sts, k2tog, k1; needle 2: knit; …": ends and last stitches are those of the needle."""
    start = c.at
    work: list[Action] = []
    while True:
        before = c.at
        while work and c.here.key in (";", ",", ".", "and"):
            c.step()
        name = read_needle_name(c)
        if name is None or not c.take(":", "-"):
            c.back(before)
            break
        part = read_actions(c)
        if not part:
            c.back(start)
            return ()
        work.extend(on_division(action, name) for action in _whole_row(part))
    return tuple(work)


def _whole_row(work: tuple[Action, ...]) -> tuple[Action, ...]:
    """A lone "knit" or "purl" goes to the end, in whichever yarn; "knit, in B" is "in B, knit"."""
    work = _over_gaps_on_the_way(_in_one_yarn(work))
    real = [at for at, action in enumerate(work) if not _goes_along(action)]
    if len(real) != 1:
        return work
    at = real[0]
    action = work[at]
    whole: Action
    if _alone(action) and all(isinstance(each, UseYarn) for each in work[:at]):
        whole = StitchTo(action.name, ToEnd(span=action.span), span=action.span)
    elif isinstance(action, UseYarn) and action.body is not None and len(action.body) == 1 and _alone(action.body[0]):
        inner = action.body[0]
        whole = replace(action, body=(StitchTo(inner.name, ToEnd(span=inner.span), span=inner.span),))
    else:
        return work
    return (*work[:at], whole, *work[at + 1 :])


def _over_gaps_on_the_way(work: tuple[Action, ...]) -> tuple[Action, ...]:
    """ "Knit, casting on 3 sts over bound-off sts": the whole row is knitted, and the gaps are met on the way."""
    if len(work) != 2 or not isinstance(work[1], CastOnAct) or work[1].where != "gap":
        return work
    first = work[0]
    whole = _alone(first) or (isinstance(first, StitchTo) and isinstance(first.target, ToEnd))
    return (first, replace(work[1], where="each gap")) if whole else work


def _goes_along(action: Action) -> bool:
    """What a row may hold besides the one act that works it."""
    if isinstance(action, UseYarn):
        return action.body is None
    gaps = isinstance(action, CastOnAct) and action.where == "each gap"
    return gaps or isinstance(action, Remark | MarkerAct | PickUpWrap | Drop | Turn)


def _alone(action: Action) -> TypeGuard[Stitch]:
    """ "Knit", without a number."""
    plain = isinstance(action, Stitch) and action.count is None and action.name in ("k", "p") and not action.of
    return plain and isinstance(action, Stitch) and action.yarn_held is None


def _in_one_yarn(work: tuple[Action, ...]) -> tuple[Action, ...]:
    """A yarn told behind all the work of a row is the yarn of the row; nothing, when a part of it has another."""
    real = [at for at, action in enumerate(work) if not isinstance(action, Remark)]
    last = work[real[-1]] if real else None
    if len(real) < 2 or not isinstance(last, UseYarn) or last.body is not None or last.joins:
        return work
    rest = (*work[: real[-1]], *work[real[-1] + 1 :])
    return () if any(isinstance(action, UseYarn) for action in rest) else (last, *rest)
