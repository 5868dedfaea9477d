"""Short rows worked one stitch at a time, with nothing folded: what the needle is held against.

Written from the rules of knitting alone. The stitches of a needle or a round are objects in a list, in the order of a
right-side row; the yarn hangs between two of them. A program is a list of rows, each a list of commands:

    ("to end",) ("work", 5) ("to wrap", 1, 0) ("to ds", 0, 2) ("close",) ("mds",) ("w&t",) ("ds",) ("turn",)

"to wrap" and "to ds" name how many stitches before, and how many past it. "close" works the next stitch with what it has;
"mds" pulls up the stitch worked last before a plain turn. A row may gather: every wrap that it meets is worked with its
stitch.
"""

from __future__ import annotations

from dataclasses import dataclass, field

Command = tuple[object, ...]


class Impossible(Exception):
    """The row cannot be worked; the words say why."""


@dataclass(eq=False)
class Loop:
    """A stitch. rows: how often it has been worked. wraps: not yet picked up. double: pulled up to two legs."""

    rows: int = 0
    wraps: int = 0
    double: bool = False
    lost: int = 0


@dataclass
class PlainShortRows:
    """A needle (or, when `round_`, a ring) of stitches in short rows. yarn: how many stitches lie before it."""

    stitches: int
    round_: bool = False
    loops: list[Loop] = field(default_factory=list)
    yarn: int = 0
    back: bool = False
    turns: list[tuple[int, bool]] = field(default_factory=list)
    log: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.loops = [Loop() for _ in range(self.stitches)]

    def next_loop(self, ahead: int = 0) -> Loop | None:
        """The stitch so far ahead of the yarn, in the direction of the row."""
        place = self.yarn - 1 - ahead if self.back else self.yarn + ahead
        if self.round_:
            return self.loops[place % self.stitches] if ahead < self.stitches else None
        return self.loops[place] if 0 <= place < self.stitches else None

    def move(self) -> None:
        self.yarn += -1 if self.back else 1
        if self.round_:
            self.yarn %= self.stitches

    def one(self, gathering: bool) -> None:
        loop = self.next_loop()
        if loop is None:
            raise Impossible("no stitch is left")
        here = self.yarn
        self.move()
        # whoever works across a place where a row has turned closes it
        self.turns = [(place, way) for place, way in self.turns if place != self.yarn or way == (not self.back)]
        self.turns = [(place, way) for place, way in self.turns if place != here or way != self.back]
        loop.rows += 1
        if loop.wraps and not gathering:
            loop.lost += loop.wraps
        loop.wraps, loop.double = 0, False

    def ahead(self, wanted: object) -> int:
        """Stitches up to the next one that answers."""
        for distance in range(self.stitches):
            loop = self.next_loop(distance)
            if loop is None:
                break
            if (
                (wanted == "wrap" and loop.wraps)
                or (wanted == "twice" and loop.wraps > 1)
                or (wanted == "ds" and loop.double)
            ):
                return distance
        raise Impossible(f"no {wanted} is ahead")

    def row(self, commands: list[Command], *, gathering: bool = False) -> None:
        """One row; it ends with its last command, or at the end of the needle."""
        worked = 0
        for command in commands:
            name = command[0]
            if name == "work":
                assert isinstance(command[1], int)
                for _ in range(command[1]):
                    self.one(gathering)
                    worked += 1
            elif name == "to end":
                while self.next_loop() is not None and (not self.round_ or self.yarn != 0 or not worked):
                    self.one(gathering)
                    worked += 1
            elif name in ("to wrap", "to twice", "to ds"):
                before, past = command[1], command[2]
                assert isinstance(before, int) and isinstance(past, int)
                distance = self.ahead(str(name).removeprefix("to ")) + (1 + past if past else -before)
                if distance < 0:
                    raise Impossible("it is nearer than that")
                for _ in range(distance):
                    self.one(gathering)
                    worked += 1
            elif name == "close":
                loop = self.next_loop()
                if loop is None or not (loop.wraps or loop.double):
                    raise Impossible("nothing is to be closed here")
                self.one(True)
                worked += 1
            elif name == "mds":
                first = self.next_loop()
                assert first is not None, "the stitch worked last"
                first.double = True
                self.move()
            elif name in ("w&t", "ds", "turn"):
                self.turn(str(name), worked)
                self.log.append(worked)
                return
        self.back = not self.back if not self.round_ else self.back
        self.log.append(worked)

    def turn(self, how: str, worked: int) -> None:
        if not worked:
            raise Impossible("it turns where it began")
        if how == "w&t":
            loop = self.next_loop()
            if loop is None:
                raise Impossible("no stitch is left to wrap")
            loop.wraps += 1
        self.turns.append((self.yarn, self.back))
        self.back = not self.back
        if how == "ds":
            loop = self.next_loop()
            assert loop is not None, "the stitch worked last"
            loop.double = True
            self.move()

    def wraps(self) -> list[tuple[int, int]]:
        """Place and number of the wraps that are left."""
        return [(place, loop.wraps) for place, loop in enumerate(self.loops) if loop.wraps]

    def doubles(self) -> list[int]:
        """Places of the double stitches."""
        return [place for place, loop in enumerate(self.loops) if loop.double]

    def lost(self) -> int:
        """Wraps that were worked over."""
        return sum(loop.lost for loop in self.loops)
