"""A row from its other end: the actions that make its mirror image, worked on the same side.

In: the actions of a row, and what is known of stitches. Out: the actions in the opposite order, each turned left for
right, or `Stuck` with the reason why they cannot be.

An act that goes as far as a place ends, from the other end, where it began: `k1, ssk, k to end` becomes `k to last 3 sts,
k2tog, k1`. So the walk keeps how many stitches lie between each act and the last place that can be named from the other
side: the end of the row, or a marker.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, Protocol, TypeAlias

from castoff.notation.syntax import (
    Action,
    BindOffAct,
    Cable,
    CastOnAct,
    Count,
    EndShaping,
    Evenly,
    IntoOne,
    MarkerAct,
    PickUpWrap,
    Remark,
    Repeat,
    Stitch,
    StitchTo,
    Target,
    Times,
    ToEnd,
    ToLast,
    ToMarker,
    ToTurn,
    UseYarn,
    WorkFabric,
)
from castoff.span import Span

MOST_UNROLLED = 16
"""A repeat with a place inside is written out before it is turned, up to so many times."""


@dataclass(frozen=True, slots=True)
class Stuck:
    """Why a row cannot be turned round, in words that complete "because"."""

    why: str
    span: Span | None = None


class SidedStitch(Protocol):
    """A stitch of the book as far as turning needs it."""

    @property
    def name(self) -> str:
        """As it is printed."""
        ...

    @property
    def takes(self) -> int:
        """Live stitches used up."""
        ...

    @property
    def mirror(self) -> str:
        """The same stitch turned left for right; empty when there is none."""
        ...

    @property
    def wrong_side(self) -> str:
        """What gives the same look when worked on the other side; empty when nothing does."""
        ...


class SidedBook(Protocol):
    """The stitch book as far as turning needs it."""

    def find(self, token: str, /) -> SidedStitch | None:
        """The stitch of a word; None when it is none."""
        ...


@dataclass(frozen=True, slots=True)
class Sides:
    """What is known of left and right.

    own: the author's stitches, by lower-case name: what each takes, and the name of its other side ("" when unsaid).
    fabrics: the author's stitch patterns, by lower-case name: the name of the other side of each ("" when it has none).
    """

    book: SidedBook
    own: Mapping[str, tuple[int, str]]
    fabrics: Mapping[str, str]

    def takes(self, name: str) -> int | None:
        """Stitches that one of it uses up; None when nobody knows."""
        own = self.own.get(name.lower())
        if own is not None:
            return own[0]
        found = self.book.find(name)
        return None if found is None else found.takes

    def mirror(self, name: str) -> str:
        """The stitch turned left for right; "" when there is none."""
        own = self.own.get(name.lower())
        if own is not None:
            return own[1]
        found = self.book.find(name)
        return "" if found is None else self._named(found.mirror)

    def flip(self, name: str) -> str:
        """What, worked on the other side of the fabric, makes the mirror image of a stitch; "" when nothing does."""
        if name.lower() in self.own:
            return ""
        found = self.book.find(name)
        other = self.book.find(found.wrong_side) if found is not None and found.wrong_side else None
        return "" if other is None else self._named(other.mirror)

    def _named(self, name: str) -> str:
        found = self.book.find(name) if name else None
        return "" if found is None else found.name


# ------------------------------------------------------------------------------------------------ stitches between


@dataclass(frozen=True, slots=True)
class _Wide:
    """So many stitches, per size; `formula` when it can be said as one."""

    values: tuple[int | None, ...]
    formula: str | None = None

    def plus(self, other: _Wide) -> _Wide:
        values = tuple(
            None if left is None or right is None else left + right
            for left, right in zip(self.values, other.values, strict=True)
        )
        if self.nothing:
            return other
        if other.nothing:
            return self
        parts = [part._said() for part in (self, other)]
        if (self.formula is None and other.formula is None) or None in parts:
            return _Wide(values)
        return _Wide(values, " + ".join(part for part in parts if part is not None))

    def times(self, factor: int) -> _Wide:
        formula = self.formula if factor == 1 or self.formula is None else f"{factor} * ({self.formula})"
        return _Wide(tuple(None if value is None else factor * value for value in self.values), formula)

    def _said(self) -> str | None:
        if self.formula is not None:
            return self.formula
        return str(self.values[0]) if len(set(self.values)) == 1 else None

    @property
    def nothing(self) -> bool:
        return all(value == 0 for value in self.values)

    def count(self, span: Span) -> Count:
        return Count(self.values, self.formula, span=span)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where an act begins: `offset` stitches behind an anchor.

    anchor: "start" of the row, "end" of it (the offset is then counted back), "marker", a bound-off "gap", or "lost".
    past: whether the offset lies behind the marker; before it when not.
    """

    anchor: str
    offset: _Wide
    marker: str | None = None
    past: bool = True


Turned: TypeAlias = tuple[Action, ...] | Stuck


def turned_row(actions: tuple[Action, ...], sides: Sides, sizes: int) -> Turned:
    """The actions that make a row's mirror image on the same side; the very same when it reads alike from both ends."""
    last: list[Action] = []
    body = list(actions)
    while body and _goes_for_the_row(body[-1]):
        last.insert(0, body.pop())
    first: list[Action] = []
    while body and isinstance(body[0], UseYarn) and body[0].body is None and not body[0].joins:
        first.append(body.pop(0))
    cyclic = _cyclic(tuple(body), sides, sizes)
    if cyclic is not None:
        return actions if isinstance(cyclic, tuple) else cyclic
    unrolled = _unrolled(tuple(body))
    if isinstance(unrolled, Stuck):
        return unrolled
    turned = _Walk(sides, sizes).row(unrolled)
    if isinstance(turned, Stuck):
        return turned
    if _plain_form(turned) == _plain_form(unrolled):
        return actions
    return (*first, *_merged(turned), *last)


def _merged(actions: tuple[Action, ...]) -> tuple[Action, ...]:
    """Plain stitches beside as many more of them as there is room for: `k to last 5 sts, k5` is `k to end`."""
    out: list[Action] = []
    for act in actions:
        before = out[-1] if out else None
        if isinstance(act, StitchTo) and isinstance(before, Stitch) and _same_plain(before, act):
            out[-1] = act
        else:
            out.append(act)
    last = out[-1]
    far = out[-2] if len(out) > 1 else None
    if isinstance(last, Stitch) and isinstance(far, StitchTo) and _same_plain(last, far):
        room = far.target.stitches.values if isinstance(far.target, ToLast) else ()
        if room and room == ((1,) * len(room) if last.count is None else last.count.values):
            out[-2:] = [replace(far, target=ToEnd(span=far.span))]
    return tuple(out)


def _same_plain(stitch: Stitch, far: StitchTo) -> bool:
    plain = stitch.yarn_held is None and stitch.manner is None and not stitch.of and far.yarn_held is None
    return plain and stitch.name == far.name and stitch.name in ("k", "p")


def _goes_for_the_row(act: Action) -> bool:
    """Said at the end, and meant for the whole row: remarks, "removing markers", "picking up wraps"."""
    if isinstance(act, MarkerAct):
        return act.every
    return isinstance(act, Remark) or (isinstance(act, PickUpWrap) and act.come)


def _cyclic(body: tuple[Action, ...], sides: Sides, sizes: int) -> Turned | None:
    """A whole round that is one repeat from marker to marker; None when the row is something else."""
    if len(body) != 1 or not isinstance(body[0], Repeat) or not _has_places(body[0].body):
        return None
    repeat = body[0]
    inner = repeat.body
    at = next((index for index, act in enumerate(inner) if isinstance(act, MarkerAct) and act.act == "slip"), None)
    if at is None or sum(isinstance(act, MarkerAct) for act in inner) > 1:
        return Stuck("a repeat that goes as far as a place has no other end", repeat.span)
    # from behind the marker round to it
    round_body = (*inner[at + 1 :], *inner[: at + 1])
    marker = inner[at]
    name = marker.name if isinstance(marker, MarkerAct) else None
    walk = _Walk(sides, sizes)
    turned = walk.row(round_body[:-1], _Place("marker", walk.none, name))
    if isinstance(turned, Stuck):
        return turned
    if _plain_form(turned) == _plain_form(round_body[:-1]):
        return body
    return Stuck("its repeat from marker to marker is not the same from both ends", repeat.span)


def _has_places(actions: Sequence[Action]) -> bool:
    return any(
        isinstance(act, (StitchTo, MarkerAct))
        or (isinstance(act, WorkFabric) and not isinstance(act.over, Count))
        or (isinstance(act, Repeat) and (act.times.kind == "to" or _has_places(act.body)))
        for act in actions
    )


def _unrolled(actions: tuple[Action, ...]) -> Turned:
    """Repeats with places inside, written out."""
    out: list[Action] = []
    for act in actions:
        if not isinstance(act, Repeat) or not _has_places(act.body):
            out.append(act)
            continue
        count = act.times.count
        times = None if count is None else count.values[0]
        if act.times.kind not in ("all", "more") or count is None or times is None or len(set(count.values)) > 1:
            return Stuck("a repeat that goes as far as a place has no other end", act.span)
        times += act.times.kind == "more"
        if not 0 < times <= MOST_UNROLLED:
            return Stuck("a repeat that goes as far as a place has no other end", act.span)
        inner = _unrolled(act.body)
        if isinstance(inner, Stuck):
            return inner
        out.extend(inner * times)
    return tuple(out)


@dataclass(frozen=True, slots=True)
class _Walk:
    """Goes along a row once, keeping where it is, and gives each act from the other end."""

    sides: Sides
    sizes: int

    @property
    def none(self) -> _Wide:
        return _Wide((0,) * self.sizes)

    def row(self, actions: tuple[Action, ...], start: _Place | None = None) -> Turned:
        here = start or _Place("start", self.none)
        turned: list[Action] = []
        for index, act in enumerate(actions):
            new, here_after = self._one(act, here, last=index == len(actions) - 1)
            if isinstance(new, Stuck):
                return new
            turned.insert(0, new)
            here = here_after
        return _after_bind_off(tuple(turned))

    def _one(self, act: Action, here: _Place, *, last: bool) -> tuple[Action | Stuck, _Place]:
        match act:
            case StitchTo():
                new = self._mirror(act.name, act.span)
                if isinstance(new, Stuck):
                    return new, here
                return self._as_far(act, new, here), self._there(act.target)
            case WorkFabric() if not isinstance(act.over, Count):
                return self._as_far(act, act.fabric.name, here), self._there(act.over)
            case Repeat() if act.times.target is not None:
                inner = self._fixed_body(act.body)
                if isinstance(inner, Stuck):
                    return inner, here
                return self._as_far(replace(act, body=inner), "", here), self._there(act.times.target)
            case MarkerAct():
                if act.act == "place" or act.every:
                    return act, here
                return act, _Place("marker", self.none, act.name)
            case Evenly() if act.target is None:
                return act, _Place("lost", self.none)
            case EndShaping():
                ends = {"beginning": "end", "end": "beginning"}.get(act.ends, act.ends)
                return replace(act, ends=ends), _Place("lost", self.none)
            case _:
                wide = self._width(act)
                if isinstance(wide, Stuck):
                    return wide, here
                return self._fixed(act), self._beyond(here, wide)

    def _there(self, target: Target) -> _Place:
        match target:
            case ToEnd():
                return _Place("end", self.none)
            case ToLast():
                return _Place("end", _Wide(target.stitches.values, target.stitches.formula))
            case ToMarker():
                count = target.before or target.after
                offset = self.none if count is None else _Wide(count.values, count.formula)
                return _Place("marker", offset, target.marker, past=target.before is None)
            case ToTurn("turn") if target.before is None and target.after is None:
                return _Place("gap", self.none)
            case _:
                return _Place("lost", self.none)

    def _beyond(self, here: _Place, wide: _Wide) -> _Place:
        if here.anchor in ("end", "gap", "lost") or (here.anchor == "marker" and not here.past):
            # counted back from its anchor: what lies between grows less, and is not asked for again
            return _Place("lost", self.none) if not wide.nothing else here
        return replace(here, offset=here.offset.plus(wide))

    def _as_far(self, act: StitchTo | WorkFabric | Repeat, name: str, here: _Place) -> Action | Stuck:
        """An act that goes to a place, so that from the other end it stops where it began."""
        if here.anchor == "lost":
            return Stuck("nothing says how many stitches lie before one that goes as far as a place", act.span)
        target: Target | None = None
        offset = here.offset
        if here.anchor == "start":
            target = ToEnd(span=act.span) if offset.nothing else ToLast(offset.count(act.span), span=act.span)
        elif here.anchor == "gap":
            target = ToTurn(span=act.span)
        elif here.anchor == "marker" and (here.past or offset.nothing):
            # what lies behind a marker lies before it from the other end
            before = None if offset.nothing else offset.count(act.span)
            target = ToMarker(here.marker, before, span=act.span)
        own = act.over if isinstance(act, WorkFabric) else act.times.target if isinstance(act, Repeat) else act.target
        if target is None:
            # it began a counted way before the place it goes to: from the other end that is a number of stitches
            right_there = isinstance(own, ToEnd if here.anchor == "end" else ToMarker)
            if isinstance(own, ToMarker) and (own.before is not None or own.after is not None):
                right_there = False
            if not right_there or isinstance(act, Repeat):
                return Stuck("two stretches without a number stand side by side", act.span)
            count = offset.count(act.span)
            if isinstance(act, StitchTo):
                return Stitch(name, count, yarn_held=act.yarn_held, span=act.span)
            return replace(act, over=count)
        if isinstance(act, StitchTo):
            return replace(act, name=name, target=target)
        if isinstance(act, WorkFabric):
            return replace(act, over=target)
        return replace(act, times=Times("to", None, target, span=act.times.span))

    def _fixed(self, act: Action) -> Action | Stuck:
        """An act over a counted number of stitches."""
        match act:
            case Stitch():
                name = self._mirror(act.name, act.span)
                if isinstance(name, Stuck):
                    return name
                of = {"first": "last", "last": "first"}.get(act.of, act.of)
                return replace(act, name=name, of=of)
            case Repeat():
                inner = self._fixed_body(act.body)
                return inner if isinstance(inner, Stuck) else replace(act, body=inner)
            case IntoOne():
                inner = self._fixed_body(act.body)
                return inner if isinstance(inner, Stuck) else replace(act, body=inner)
            case UseYarn() if act.body is not None:
                inner = self._fixed_body(act.body)
                return inner if isinstance(inner, Stuck) else replace(act, body=inner)
            case Cable():
                over, back = self._fixed_body(act.over), self._fixed_body(act.back)
                if isinstance(over, Stuck):
                    return over
                if isinstance(back, Stuck):
                    return back
                return self._crossing(act, over, back)
            case _:
                return act

    def _crossing(self, act: Cable, over: tuple[Action, ...], back: tuple[Action, ...]) -> Action | Stuck:
        """A crossing spelled out: the group that came second comes first, and passes on the other side.

        `sl 2 to cn, hold front, k2, k2 from cn` carries its first group to the left in front. Its mirror image carries
        the second group to the right in front: the first one waits behind.
        """
        first = self._width_all(over)
        if isinstance(first, Stuck):
            return first
        hold: Literal["front", "back"] = "back" if act.hold == "front" else "front"
        return replace(act, held=first.count(act.held.span), hold=hold, over=back, back=over)

    def _fixed_body(self, actions: tuple[Action, ...]) -> Turned:
        turned: list[Action] = []
        for act in actions:
            wide = self._width(act)
            new = wide if isinstance(wide, Stuck) else self._fixed(act)
            if isinstance(new, Stuck):
                return new
            turned.insert(0, new)
        return tuple(turned)

    def _mirror(self, name: str, span: Span) -> str | Stuck:
        found = self.sides.mirror(name)
        if found:
            return found
        if name.lower() in self.sides.own:
            return Stuck(f"the source does not say which stitch is the other side of `{name}`", span)
        return Stuck(f"`{name}` has no other side", span)

    def _width(self, act: Action) -> _Wide | Stuck:
        """Stitches that an act uses up."""
        match act:
            case Stitch():
                takes = self.sides.takes(act.name)
                if takes is None:
                    return Stuck(f"nobody knows what `{act.name}` takes", act.span)
                one = _Wide((1,) * self.sizes) if act.count is None else _Wide(act.count.values, act.count.formula)
                return one.times(takes)
            case Repeat():
                return self._repeat_width(act)
            case IntoOne():
                return _Wide((act.takes,) * self.sizes)
            case Cable():
                return self._width_all((*act.over, *act.back))
            case UseYarn() if act.body is not None:
                return self._width_all(act.body)
            case WorkFabric() if isinstance(act.over, Count):
                return _Wide(act.over.values, act.over.formula)
            case BindOffAct() if act.count is not None:
                return _Wide(act.count.values, act.count.formula)
            case CastOnAct() | MarkerAct() | Remark():
                return self.none
            case UseYarn():
                return Stuck("the yarn changes in the middle of the row", act.span)
            case _:
                return Stuck("what it says has no other end", act.span)

    def _repeat_width(self, act: Repeat) -> _Wide | Stuck:
        inner = self._width_all(act.body)
        count = act.times.count
        if isinstance(inner, Stuck):
            return inner
        if count is None or act.times.kind not in ("all", "more") or len(set(inner.values)) > 1:
            return _Wide((None,) * self.sizes)
        body = inner.values[0]
        if body is None or inner.formula is not None:
            return _Wide((None,) * self.sizes)
        wide = _Wide(count.values, count.formula).times(body)
        return wide.plus(_Wide((body,) * self.sizes)) if act.times.kind == "more" else wide

    def _width_all(self, actions: Sequence[Action]) -> _Wide | Stuck:
        total = self.none
        for act in actions:
            wide = self._width(act)
            if isinstance(wide, Stuck):
                return wide
            total = total.plus(wide)
        return total


def _after_bind_off(actions: tuple[Action, ...]) -> Turned:
    """Behind a bind-off one stitch is on the needle already, so what is left of a row is told by its end."""
    at = next((index for index, act in enumerate(actions) if isinstance(act, BindOffAct)), None)
    if at is None:
        return actions
    rest = actions[at + 1 :]
    only = rest[0] if len(rest) == 1 else None
    if isinstance(only, Stitch) and only.name in ("k", "p"):
        return (*actions[: at + 1], StitchTo(only.name, ToEnd(span=only.span), span=only.span))
    if isinstance(only, (StitchTo, WorkFabric)) or not rest:
        return actions
    return Stuck("a bind-off in the middle has more than plain stitches behind it", actions[at].span)


# ------------------------------------------------------------------------------------------------ the same row


def _plain_form(actions: tuple[Action, ...]) -> tuple[object, ...]:
    """A row so that two wordings of the same stitches are equal: single stitches, repeats begun as early as can be."""
    units: list[object] = []
    for act in actions:
        if isinstance(act, Stitch) and act.count is not None and len(set(act.count.values)) == 1:
            units.extend([_bare(act)] * (act.count.values[0] or 0) if (act.count.values[0] or 0) < 500 else [act])
        elif isinstance(act, Stitch) and act.count is None:
            units.append(_bare(act))
        elif isinstance(act, StitchTo):
            units.append(("to", act.name.lower(), act.yarn_held, act.target))
        elif isinstance(act, Repeat):
            units.append(_Cycle(_plain_form(act.body), act.times))
        elif isinstance(act, UseYarn) and act.body is not None:
            units.append(("in", act.yarns, _plain_form(act.body)))
        elif not isinstance(act, Remark):
            units.append(act)
    return tuple(_early(units))


@dataclass(frozen=True, slots=True)
class _Cycle:
    body: tuple[object, ...]
    times: Times


def _bare(act: Stitch) -> object:
    return (act.name.lower(), act.yarn_held, act.manner, act.of)


def _early(units: list[object]) -> list[object]:
    """`*k2, p2; rep to last 2 sts, k2` as `k2, *p2, k2; rep to end`: the same stitches."""
    at = next((index for index, unit in enumerate(units) if isinstance(unit, _Cycle)), None)
    if at is None:
        return units
    cycle = units[at]
    assert isinstance(cycle, _Cycle), "found as one"
    target = cycle.times.target
    tail = units[at + 1 :]
    if not isinstance(target, (ToLast, ToEnd)):
        return units
    if isinstance(target, ToLast) and (len(set(target.stitches.values)) > 1 or target.stitches.values[0] != len(tail)):
        return units
    if isinstance(target, ToEnd) and tail:
        return units
    body = list(cycle.body)
    if not body or any(not isinstance(unit, tuple) or len(unit) != 4 for unit in (*body, *tail)):
        return units
    head = units[:at]
    # what stands behind, as far as it goes on with the repeat, comes before it
    if not all(unit == body[index % len(body)] for index, unit in enumerate(tail)):
        return units
    turns = len(tail) % len(body)
    moved = (*body[turns:], *body[:turns])
    return [*head, *tail, ("cycle", moved)]


__all__ = ["Sides", "Stuck", "turned_row"]
