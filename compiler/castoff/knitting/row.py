"""One row on its way across the needle: stitches taken from the left, stitches made on the right.

In: a needle, turned so that the row runs forward, and the choices of a reading. Out: a `RowResult`. The acts of a row
(`acts.py`) drive it by `take`, `make` and the markers; nothing here knows syntax but targets.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from castoff.knitting.fabric import Done, Event, EventKind, Halt, Worked
from castoff.knitting.faults import (
    LEFT_OVER,
    MARKER_IN_THE_WAY,
    TOO_FEW,
    Fault,
)
from castoff.knitting.faults import fault as make_fault
from castoff.knitting.loops import DIVISION, PANEL, Group, Needle, hidden, ordered
from castoff.knitting.plan import Plan
from castoff.knitting.setting import NO_WRAPS_MET, Reading, RowResult, RowSetting, WrapsMet
from castoff.knitting.wraps import RowWraps
from castoff.notation.syntax import Action, Side
from castoff.span import Span


@dataclass(slots=True)
class RowWork:
    """A row being worked. Positions count stitches from where the row starts."""

    plan: Plan
    size: int
    setting: RowSetting
    reading: Reading
    needle: Needle
    span: Span | None
    src: str = ""
    end: int = 0
    pos: int = 0
    outn: int = 0
    out: list[str] = field(default_factory=list)
    ahead: list[tuple[int, str]] = field(default_factory=list)
    out_marks: list[tuple[int, str]] = field(default_factory=list)
    marked: list[tuple[int, str]] = field(default_factory=list)
    out_marked: list[tuple[int, str]] = field(default_factory=list)
    replacing: bool = False
    replaced: bool = False
    last_made: int = 0
    out_gaps: list[int] = field(default_factory=list)
    bound_gaps: int = 0
    bound_at: int | None = None
    held_gaps: int = 0
    gaps: list[int] = field(default_factory=list)
    turns: list[int] = field(default_factory=list)
    own_turns: list[int] = field(default_factory=list)
    wraps: RowWraps = field(default_factory=RowWraps)
    slid_back: int = 0
    done: list[Worked] = field(default_factory=list)
    tally: dict[tuple[str, str], int] = field(default_factory=dict)
    events: list[Event] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    held: list[Group] = field(default_factory=list)
    taken: list[int] = field(default_factory=list)
    joined: list[str] = field(default_factory=list)
    yarn: str = ""
    yarns: list[str] = field(default_factory=list)
    patterns: dict[str, int] = field(default_factory=dict)
    told: list[Fault] = field(default_factory=list)
    halted: bool = False
    turned: bool = False
    rest: tuple[Action, ...] = ()
    level: bool = True
    ambiguous: bool = False
    gap_met: bool = False
    loop_waiting: bool = False
    removing: bool = False
    """Whether a marker is taken out on the way through the act in work ("bind off 8 sts, removing marker")."""
    bound_marks: tuple[int, int] = (-1, 0)
    """Behind which stitch of the right needle stitches with markers between them were bound off, and how many markers."""
    may_wrap: bool = False
    wrapped: int = 0
    original: int = 0
    bor: int = 0
    bor_out: int | None = None
    dropping_marks: bool = False
    only_stitch: bool = False
    onto: int = 0
    start_moves: bool = False
    picked_at: int = 0
    picked_first: int | None = None
    rows_of: Callable[[str], tuple[tuple[Action, ...], ...]] | None = None
    first_side: Callable[[str], Side | None] | None = None

    def start(self) -> None:
        """Lays the stitches out in the order in which the row meets them."""
        setting = self.setting
        if setting.side == "WS":
            self.needle = self.needle.turned()
        needle = self.needle
        total = needle.stitches
        at = needle.at
        if setting.form == "round" and at == total:
            at = 0
            self.needle = needle = replace(needle, at=0)

        def ahead(place: int) -> int:
            return place - at if place >= at else place - at + total

        round_ = setting.form == "round"
        self.src = needle.faces[at:] + (needle.faces[:at] if round_ else "")
        self.original = len(self.src)
        self.bor = total - at
        self.end = self.bor if round_ else self.original
        keep = needle.marks if round_ else tuple(mark for mark in needle.marks if mark[0] >= at)
        self.ahead = sorted(((ahead(place), name) for place, name in keep), key=lambda mark: mark[0])
        loops = needle.marked if round_ else tuple(each for each in needle.marked if each[0] >= at)
        self.marked = sorted((ahead(place), name) for place, name in loops)
        self.gaps = sorted(ahead(gap) for gap in needle.gaps if round_ or gap > at)
        own = {at}
        if needle.wraps:
            self.wraps.ahead = sorted(
                (wrap.to(ahead(wrap.place)) for wrap in needle.wraps if round_ or wrap.place >= at),
                key=lambda wrap: wrap.place,
            )
            # where this row has been turned: at the yarn, or behind the double stitch that was made when turning
            if at > 0 and any(wrap.place == at - 1 and wrap.kind == "ds" for wrap in needle.wraps):
                own.add(at - 1)
        if needle.turns:
            self.own_turns = [turn for turn in needle.turns if (turn in own if round_ else turn <= at)]
            self.turns = sorted(ahead(turn) for turn in needle.turns if (round_ and turn not in own) or turn > at)
        if self.gaps and 0 < self.gaps[0] < self.end and not self.reading.cross_gaps:
            self.end = self.gaps[0]
        if self.gaps:
            self.gap_met = True
        # a turn that has wrapped a stitch is passed by whoever goes on "to end"; a plain one ends the row
        plain = [turn for turn in self.turns if not self._marked(turn)] if round_ and not setting.whole_round else []
        if plain:
            # in the middle of short rows the end is the nearest turn ahead
            self.end = plain[0] if 0 < plain[0] <= self.original else self.end
            if setting.side == "RS" and 0 < self.bor < self.end:
                self.end = self.bor  # back from beyond the beginning of the round, the row ends there
        self.yarn = setting.yarn

    def _marked(self, turn: int) -> bool:
        """Whether a turn ahead has left something at its stitch."""
        wraps = self.wraps
        return bool(wraps.at(turn, "wrap") or wraps.at(turn, "yo") or wraps.at(turn - 1, "ds"))

    # ------------------------------------------------------------------------------ taking and making

    def fail(self, found: Fault) -> None:
        """Stops the row with a fault."""
        self.faults.append(found)
        self.halted = True

    def settle_loop(self) -> None:
        """The loop that binding off leaves on the right needle becomes a stitch of the row."""
        if self.loop_waiting:
            self.loop_waiting = False
            self.take(1, 1, 1, self.face("knit"), "k", self.span)

    def face(self, shows: str) -> str:
        """The letter of a stitch that shows knit or purl on the side in work."""
        knit = shows != "purl"
        return "k" if knit == (self.setting.side == "RS") else "p"

    def take(self, takes: int, makes: int, times: int, faces: str, name: str, span: Span | None, lead: int = 0) -> bool:
        """Works a stitch, or a group of acts, so many times running.

        takes, makes: of one. faces: all that is made, `makes * times` letters. lead: of these, made before the first
        stitch is used. Returns False when it cannot be done.
        """
        need = takes * times
        if need > len(self.src) - self.pos and self.may_wrap:
            self._wrap()
        if need > len(self.src) - self.pos:
            self.fail(
                make_fault(
                    TOO_FEW,
                    span or self.span,
                    "{have} sts are left for {name}, which takes {need}",
                    have=len(self.src) - self.pos,
                    name=name if times == 1 else f"{name} {times} times",
                    need=need,
                )
            )
            return False
        target = self.pos + need
        if need and self.ahead and self.ahead[0][0] < target and not self._carry(takes, makes, target, span, lead):
            return False
        if (
            need
            and self.marked
            and self.marked[0][0] < target
            and not self._carry_loops(takes, makes, target, span, lead)
        ):
            return False
        if need and self.wraps.ahead and self.wraps.ahead[0].place < target:
            known = self.plan.stitch(name)
            slipped = known is not None and known.kind == "slip" and takes == makes
            self.wraps.meet(self.pos, target, self.outn, slipped=slipped, together=takes > 1 and makes < takes)
        if takes != makes:
            self.level = False
        if self.pos < self.bor <= target and self.bor_out is None and need:
            self.bor_out = self.outn + (self.bor - self.pos) // takes * makes
        self.pos = target
        if target > self.end and self.setting.form == "flat":
            # worked on over a gap: the row ends with what lies behind it
            self.end = self.next_end()
        self.out.append(faces)
        self.outn += len(faces)
        return True

    def _carry(self, takes: int, makes: int, target: int, span: Span | None, lead: int) -> bool:
        """Markers between the stitches to be worked go along; inside a stitch worked together they are in the way."""
        while self.ahead and self.ahead[0][0] < target:
            place, name = self.ahead[0]
            offset = place - self.pos
            if takes == makes and not lead:
                moved = offset
            elif offset % takes and not hidden(name) and self.replacing and takes % 2 and makes == 1:
                # taken out and put back: on the side of the centre stitch on which it stood
                moved = offset // takes + (offset % takes > takes // 2) + lead
                self.replaced = True
            elif offset % takes and not hidden(name):
                self.fail(
                    make_fault(
                        MARKER_IN_THE_WAY,
                        span or self.span,
                        "a marker stands {offset} of {takes} stitches into those to be worked together",
                        offset=offset % takes,
                        takes=takes,
                        hint="end the stitches before at the marker, or remove it first",
                    )
                )
                return False
            else:
                moved = offset // takes * makes + lead
            self.ahead.pop(0)
            self.out_marks.append((self.outn + moved, name))
        return True

    def _carry_loops(self, takes: int, makes: int, target: int, span: Span | None, lead: int) -> bool:
        """A marker in a stitch moves up with it: into the stitch made of it, or of those of which it is the middle one."""
        while self.marked and self.marked[0][0] < target:
            place, name = self.marked.pop(0)
            group, within = divmod(place - self.pos, takes)
            if makes == 0:
                self.event("remove marker", 1, name, span)
                continue
            if takes == makes:
                moved = place - self.pos
            elif (takes == 1 or makes == 1) and takes % 2 and makes % 2 and within == takes // 2:
                moved = group * makes + makes // 2
            else:
                self.fail(
                    make_fault(
                        MARKER_IN_THE_WAY,
                        span or self.span,
                        "the marked st is {which} of {takes} sts that are worked together"
                        if takes > 1
                        else "{makes} sts are made of the marked st: which of them is marked cannot be told",
                        hint="the marked st is worked by itself, or as the middle one of 3" if takes > 1 else None,
                        which=within + 1,
                        takes=takes,
                        makes=makes,
                    )
                )
                return False
            self.out_marked.append((self.outn + lead + moved, name))
        return True

    def _wrap(self) -> None:
        """Goes on over the stitches this round began with: a round that ends beyond its start."""
        made = "".join(self.out)[self.wrapped :]
        base = len(self.src)
        self.ahead.extend(
            (base + place - self.wrapped, name) for place, name in self.out_marks if place >= self.wrapped
        )
        self.wraps.ahead.extend(
            wrap.to(base + wrap.place - self.wrapped) for wrap in self.wraps.made if wrap.place >= self.wrapped
        )
        self.src += made
        self.wrapped += len(made)
        self.end = len(self.src)

    def make(self, faces: str) -> None:
        """New stitches on the right needle, none taken."""
        if faces:
            self.level = False
            self.out.append(faces)
            self.outn += len(faces)

    def count_stitch(self, name: str, times: int) -> None:
        """Enters stitches in the record and in the tally."""
        if times <= 0:
            return
        last = self.done[-1] if self.done else None
        if isinstance(last, Done) and last.stitch == name and last.yarn == self.yarn:
            self.done[-1] = Done(name, last.count + times, self.yarn)
        else:
            self.done.append(Done(name, times, self.yarn))
        self.tally[self.yarn, name] = self.tally.get((self.yarn, name), 0) + times
        if self.yarn not in self.yarns:
            self.yarns.append(self.yarn)

    def event(self, kind: EventKind, count: int = 0, name: str = "", span: Span | None = None) -> None:
        """Notes something that happened."""
        self.events.append(Event(kind, count, name, span=span))

    def setting_rows(self, name: str) -> tuple[tuple[Action, ...], ...]:
        """The rows of a stitch pattern of the source; empty when it has none."""
        return () if self.rows_of is None else self.rows_of(name)

    def close_gap(self) -> None:
        """New stitches stand where some were bound off or put on hold: the row goes on behind them."""
        self.out_gaps = [gap for gap in self.out_gaps if gap != self.outn]
        if self.gaps and self.gaps[0] == self.pos:
            self.gaps.pop(0)
            if self.end == self.pos:
                self.end = self.next_end()

    def next_end(self) -> int:
        """Where the row ends once a gap has been closed: at the next gap, or with the stitches."""
        end = self.bor if self.setting.form == "round" else len(self.src)
        ahead = [gap for gap in self.gaps if gap > self.pos]
        return min(ahead[0], end) if ahead and not self.reading.cross_gaps else end

    def insert(self, faces: str) -> None:
        """Lays stitches from elsewhere before those on the left needle."""
        count = len(faces)
        self.src = self.src[: self.pos] + faces + self.src[self.pos :]
        # where a needle of a set ends it ends before stitches that were put aside on another
        self.ahead = [
            (place if place == self.pos and name.startswith(DIVISION) else place + count, name)
            for place, name in self.ahead
        ]
        self.marked = [(place + count, name) for place, name in self.marked]
        self.gaps = [gap + count for gap in self.gaps]
        self.turns = [turn + count for turn in self.turns]
        self.wraps.shift(count)
        self.end += count
        self.bor += count
        self.original += count

    # ------------------------------------------------------------------------------ the end of the row

    def finish(self, label: str) -> RowResult:
        """Checks that the row came to its end, and lays the needle back."""
        left = self.end - self.pos
        # a round that picks up before it works any stitch may end among those that it began behind
        stays = self.wrapped or (self.may_wrap and self.picked_first == 0)
        if not self.halted and left > 0 and not self.turned and not self.setting.partial and not stays:
            self.faults.append(
                make_fault(
                    LEFT_OVER,
                    self.span,
                    "{label} uses {used} sts; {have} are on the needle and {left} are left unworked",
                    label=label,
                    used=self.pos,
                    have=self.end,
                    left=left,
                )
            )
        out = "".join(self.out)
        needle = self._laid_back(out)
        before = self.needle.stitches
        short = self.pos < min(self.end, self.bor) or (
            self.needle.at not in (0, before) and self.setting.form == "flat"
        )
        if self.setting.form == "round" and (self.turned or not self.setting.whole_round):
            short = self.pos < self.original
        if self.wrapped:
            short = False
        if self.setting.side == "WS":
            needle = needle.turned()
            if self.setting.form == "round" and needle.at == needle.stitches and not self.turned:
                needle = replace(needle, at=0)
        after = needle.stitches
        if self.setting.form == "flat" and not self.turned and needle.at in needle.gaps:
            # the row has stopped at a gap: the stitches beyond it are another part
            after = needle.at if self.setting.side == "RS" else after - needle.at
        events = tuple(self.events)
        below, above = ("", "")
        if self.level and self.pos == len(out) and not self.wrapped:
            below, above = self.src[: self.pos][:120], out[:120]
        return RowResult(
            needle.clean(self.setting.form),
            before,
            after,
            tuple(self.done),
            tuple(self.tally.items()),
            events,
            tuple(self.faults),
            self.turned,
            self.rest,
            short,
            tuple(self.held),
            tuple(self.taken),
            tuple(yarn for yarn in self.yarns if yarn),
            tuple(self.patterns.items()),
            below,
            above,
            self.ambiguous,
            self.gap_met,
            tuple(self.joined),
            (self.pos - max(self.picked_at, 0) if self.may_wrap else 0, before),
            (self.bound_gaps, self.held_gaps, sum(0 < gap < self.pos for gap in self.gaps)),
            self._halt(out) if self.faults else None,
            self._wraps_met(),
            tuple(self.told),
            self.start_moves,
        )

    def _wraps_met(self) -> WrapsMet:
        met = self.wraps
        if not (met.closed or met.left or met.again):
            return NO_WRAPS_MET
        return WrapsMet(met.closed, tuple(met.left), tuple(met.again))

    def _halt(self, out: str) -> Halt:
        """The needle as it is where the row has failed."""
        seen = tuple((place, name) for place, name in self.out_marks if not hidden(name))
        ahead = tuple((place - self.pos, name) for place, name in self.ahead if not hidden(name))
        return Halt(
            out, self.src[self.pos : self.end], seen, tuple(mark for mark in ahead if mark[0] <= self.end - self.pos)
        )

    def _laid_back(self, out: str) -> Needle:
        needle, made = self.needle, self.outn
        at = needle.at
        round_ = self.setting.form == "round"
        turn = (made,) if self.turned and self.pos < len(self.src) else ()
        ahead_turns = tuple(place for place in self.turns if place > self.pos)
        ahead_gaps = tuple(
            place for place in self.gaps if place > self.pos or (place == self.pos and not self.reading.cross_gaps)
        )
        if self.wrapped:
            drop = self.pos - self.original
            faces = out[drop:]
            marks = [(place - drop, name) for place, name in self.out_marks if place > drop]
            marked = [(place - drop, name) for place, name in self.out_marked if place >= drop]
            wraps = [wrap.to(wrap.place - drop) for wrap in self.wraps.made if wrap.place >= drop]
            return Needle(
                faces,
                0,
                tuple(sorted(dict.fromkeys(marks))),
                marked=tuple(sorted(marked)),
                wraps=ordered(wraps),
            )
        if round_ and self.pos > self.bor:
            # the round began in mid-needle and ran on over its old beginning
            cut = self.bor_out if self.bor_out is not None else made
            rest = self.src[self.pos :]
            faces = out[cut:] + rest + out[:cut]
            base = made - cut

            def out_place(place: int) -> int:
                return place - cut if place >= cut else place + base + len(rest)

            def src_place(place: int) -> int:
                return base + place - self.pos

            marks = [(out_place(place), name) for place, name in self.out_marks]
            marks += [(src_place(place), name) for place, name in self.ahead]
            marked = [(out_place(place), name) for place, name in self.out_marked]
            marked += [(src_place(place), name) for place, name in self.marked]
            turns = [base] if turn else []
            turns += [base + len(rest) + own - at for own in self.own_turns]
            turns += [src_place(place) for place in ahead_turns]
            gaps = [out_place(place) for place in self.out_gaps] + [src_place(place) for place in ahead_gaps]
            wraps = [wrap.to(out_place(wrap.place)) for wrap in self.wraps.made]
            wraps += [wrap.to(src_place(wrap.place)) for wrap in self.wraps.ahead]
            at_now = base
        else:
            rest = self.src[self.pos : self.bor] if round_ else self.src[self.pos :]
            faces = needle.faces[:at] + out + rest

            def later(place: int) -> int:
                # what lies behind the round's end is what lies before the yarn, seen from the start
                if round_ and place > self.bor:
                    return place - self.bor
                return at + made + place - self.pos

            behind_marks = [] if round_ else [mark for mark in needle.marks if mark[0] < at]
            marks = behind_marks + [(at + place, name) for place, name in self.out_marks]
            marks += [(later(place), name) for place, name in self.ahead]
            marked = [] if round_ else [each for each in needle.marked if each[0] < at]
            marked += [(at + place, name) for place, name in self.out_marked]
            marked += [
                (place - self.bor if round_ and place >= self.bor else at + made + place - self.pos, name)
                for place, name in self.marked
            ]
            # the turn at which this row begins stays open for the next row back
            turns = list(self.own_turns)
            turns += [at + place for place in turn] + [later(place) for place in ahead_turns]
            gaps = [] if round_ else [place for place in needle.gaps if place < at]
            gaps += [at + place for place in self.out_gaps] + [later(place) for place in ahead_gaps]
            behind = [] if round_ else [wrap for wrap in needle.wraps if wrap.place < at]
            wraps = behind + [wrap.to(at + wrap.place) for wrap in self.wraps.made]
            wraps += [
                wrap.to(wrap.place - self.bor if round_ and wrap.place >= self.bor else later(wrap.place))
                for wrap in self.wraps.ahead
            ]
            at_now = at + made
            if round_ and at_now == len(faces) and not self.turned:
                at_now = 0
        size = len(faces)
        if self.slid_back:
            # the double stitch was slipped when turning
            at_now = (at_now - self.slid_back) % size if round_ else at_now - self.slid_back
        kept = [
            mark
            for mark in marks
            if (0 < mark[0] < size if round_ and not mark[1].startswith(PANEL) else 0 <= mark[0] <= size)
        ]
        return Needle(
            faces,
            at_now,
            tuple(sorted(kept, key=lambda mark: mark[0])),
            tuple(sorted(gaps)),
            tuple(sorted(turns)),
            tuple(sorted(each for each in marked if 0 <= each[0] < size)),
            ordered(wraps) if wraps else (),
        )
