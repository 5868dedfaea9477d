"""A needle worked stitch by stitch, with nothing folded: what the symbolic one is held against.

It is written from the rules of knitting alone and shares no code with the package. Stitches are a list of letters in the
order in which the row meets them, "|" stands for a marker between two stitches.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from castoff.notation.syntax import (
    Action,
    BindOffAct,
    MarkerAct,
    Repeat,
    Stitch,
    StitchTo,
    ToEnd,
    ToLast,
    ToMarker,
)

TAKES = {"k": 1, "p": 1, "sl": 1, "k2tog": 2, "ssk": 2, "p2tog": 2, "sk2p": 3, "yo": 0, "m1": 0, "kfb": 1}
MAKES = {"k": "k", "p": "p", "k2tog": "k", "ssk": "k", "p2tog": "p", "sk2p": "k", "m1": "k", "kfb": "kk"}


class Impossible(Exception):
    """The row cannot be worked."""


@dataclass
class Plain:
    """left: what is still to be worked, next first. right: what has been, in order."""

    left: list[str]
    wrong_side: bool = False
    right: list[str] = field(default_factory=list)

    def stitches_left(self) -> int:
        return sum(each != "|" for each in self.left)

    def one(self, name: str) -> None:
        """Works one stitch."""
        taken = []
        for number in range(TAKES[name]):
            while self.left and self.left[0] == "|":
                if number:
                    raise Impossible("a marker stands in the stitch")
                self.right.append(self.left.pop(0))
            if not self.left:
                raise Impossible("no stitch is left")
            taken.append(self.left.pop(0))
        if name == "sl":
            self.right += taken
        elif name == "yo":
            self.right.append("y")
        else:
            turned = {"k": "p", "p": "k"}
            self.right += [turned[face] if self.wrong_side else face for face in MAKES[name]]

    def work(self, actions: tuple[Action, ...]) -> None:
        for act in actions:
            self.act(act)

    def act(self, act: Action) -> None:
        if isinstance(act, Stitch):
            times = 1 if act.count is None else act.count.values[0] or 0
            for _ in range(times):
                self.one(act.name)
        elif isinstance(act, StitchTo):
            stop = self.stop(act.target)
            while self.stitches_left() > stop:
                if self.stitches_left() - TAKES[act.name] < stop:
                    raise Impossible("does not come out at the place")
                self.one(act.name)
        elif isinstance(act, Repeat):
            self.repeat(act)
        elif isinstance(act, MarkerAct):
            self.marker(act)
        elif isinstance(act, BindOffAct):
            assert act.count is not None
            for _ in range(act.count.values[0] or 0):
                while self.left and self.left[0] == "|":
                    self.right.append(self.left.pop(0))
                if not self.left:
                    raise Impossible("no stitch is left to bind off")
                self.left.pop(0)
        else:
            raise AssertionError(f"the reference knows no {act}")

    def repeat(self, act: Repeat) -> None:
        if act.times.kind in ("all", "more"):
            assert act.times.count is not None
            for _ in range((act.times.count.values[0] or 0) + (act.times.kind == "more")):
                self.work(act.body)
            return
        assert act.times.target is not None
        stop = self.stop(act.times.target)
        while self.stitches_left() > stop:
            before = self.stitches_left()
            self.work(act.body)
            if self.stitches_left() < stop:
                raise Impossible("does not divide")
            if self.stitches_left() == before:
                raise Impossible("never ends")

    def marker(self, act: MarkerAct) -> None:
        if act.act == "place":
            self.right.append("|")
            return
        if not self.left or self.left[0] != "|":
            raise Impossible("no marker is here")
        self.left.pop(0)
        if act.act == "slip":
            self.right.append("|")

    def stop(self, target: object) -> int:
        """How many stitches are left when the place is reached."""
        if isinstance(target, ToEnd):
            return 0
        if isinstance(target, ToLast):
            number = target.stitches.values[0] or 0
            if number > self.stitches_left():
                raise Impossible("fewer are left")
            return number
        assert isinstance(target, ToMarker)
        if "|" not in self.left:
            raise Impossible("no marker is ahead")
        ahead = self.left.index("|")
        less = 0 if target.before is None else target.before.values[0] or 0
        if ahead < less:
            raise Impossible("the marker is nearer than that")
        return self.stitches_left() - (ahead - less)
