"""Acts that always do the same, whatever they stand over: worked many times at once.

In: acts of a row. Out: a `Unit` (what one working takes, makes and looks like), or None when the acts depend on where
they are (targets, markers, turns, binding off).
"""

from __future__ import annotations

from dataclasses import dataclass, field

from castoff.knitting.plan import crossed
from castoff.knitting.row import RowWork
from castoff.notation.syntax import Action, Cable, Count, IntoOne, Remark, Repeat, Stitch, UseYarn, WorkFabric

MOST = 100_000


@dataclass(frozen=True, slots=True)
class Unit:
    """One working of some acts.

    faces: what it makes, "s" where a stitch is slipped and shows as before. stitches: (name, how many), in order.
    level: every stitch stands over one. lead: stitches made before the first is used (yo, k2tog: 1).
    slips: of every slipped stitch, its place among those made and those used.
    """

    body: tuple[Action, ...]
    takes: int
    makes: int
    faces: str
    stitches: tuple[tuple[str, int], ...]
    level: bool
    slips: tuple[tuple[int, int], ...]
    text: str
    lead: int = 0

    @property
    def together(self) -> bool:
        """Whether it is one act, which no marker can part."""
        return len(self.body) == 1 and isinstance(self.body[0], (IntoOne, Cable))

    def faces_over(self, below: str, times: int) -> str:
        """Faces made when it is worked so many times over these."""
        made = self.faces * times
        if not self.slips or not times:
            return made
        if len(below) < self.takes * times:
            return made.replace("s", "k")  # too few, which the row will say, or a round that runs past its start
        letters = bytearray(made, "ascii")
        under = bytearray(below, "ascii")
        for made_at, taken_at in self.slips:
            letters[made_at :: self.makes] = under[taken_at :: self.takes]
        return letters.decode("ascii")

    def marker_free(self, marks: list[tuple[int, str]], start: int, times: int) -> bool:
        """Whether every marker among the stitches to be worked stands between two workings of the unit."""
        stop = start + self.takes * times
        return all((place - start) % self.takes == 0 for place, _ in marks if start < place < stop)


@dataclass(slots=True)
class _Draft:
    takes: int = 0
    faces: str = ""
    level: bool = True
    lead: int | None = None
    slips: list[tuple[int, int]] = field(default_factory=list)


def unit_of(row: RowWork, body: tuple[Action, ...]) -> Unit | None:
    """The unit that acts make up; None when they are no unit."""
    draft = _Draft()
    stitches: list[tuple[str, int]] = []
    if not _gather(row, body, draft, stitches):
        return None
    text = words(row, body)
    return Unit(
        body,
        draft.takes,
        len(draft.faces),
        draft.faces,
        tuple(stitches),
        draft.level,
        tuple(draft.slips),
        text,
        draft.lead or 0,
    )


def _gather(row: RowWork, body: tuple[Action, ...], draft: _Draft, stitches: list[tuple[str, int]]) -> bool:
    for action in body:
        if isinstance(action, Stitch):
            known = row.plan.stitch(action.name)
            if known is None:
                return False
            times = 1 if action.count is None else action.count.at(row.size) or 0
            if times * max(known.takes, known.makes) > MOST:
                return False
            if times and (known.takes != known.makes or known.takes > 1):
                draft.level = False
            _mind_lead(draft, known.takes * times, 0)
            if known.kind == "slip" and known.takes == known.makes:
                made = "s"
                slipped = known.takes * times
                draft.slips.extend((len(draft.faces) + at, draft.takes + at) for at in range(slipped))
            elif known.takes == 0 and "yo" in action.name.lower():
                made = "y"
            else:
                made = row.face(known.face)
            crossing = crossed(known) if row.setting.side == "RS" else ""
            draft.takes += known.takes * times
            draft.faces += crossing * times if crossing else made * (known.makes * times)
            if times:
                stitches.append((action.name, times))
        elif isinstance(action, Repeat):
            if action.times.kind not in ("all", "more"):
                return False
            times = 1 if action.times.count is None else action.times.count.at(row.size) or 0
            times += action.times.kind == "more"
            inner = unit_of(row, action.body)
            if inner is None or times * max(inner.takes, inner.makes, 1) > MOST:
                return False
            for turn in range(times if inner.slips else 0):
                made_before = len(draft.faces) + turn * inner.makes
                taken_before = draft.takes + turn * inner.takes
                draft.slips.extend((made_before + one, taken_before + two) for one, two in inner.slips)
            _mind_lead(draft, inner.takes * times, inner.lead)
            draft.takes += inner.takes * times
            draft.faces += inner.faces * times
            draft.level = draft.level and (inner.level or not times)
            stitches.extend((name, number * times) for name, number in inner.stitches if number * times)
        elif isinstance(action, IntoOne):
            inner = unit_of(row, action.body)
            if inner is None:
                return False
            _mind_lead(draft, action.takes, 0)
            draft.takes += action.takes
            draft.faces += inner.faces.replace("s", "k").replace("y", "k")
            draft.level = False
            stitches.extend(inner.stitches)
        elif isinstance(action, Cable):
            over, back = unit_of(row, action.over), unit_of(row, action.back)
            if over is None or back is None:
                return False
            _mind_lead(draft, over.takes + back.takes, 0)
            draft.takes += over.takes + back.takes
            draft.faces += (over.faces + back.faces).replace("s", "k")
            draft.level = False
            stitches.extend(over.stitches + back.stitches)
        elif not isinstance(action, Remark):
            return False
        if draft.takes > MOST or len(draft.faces) > MOST:
            return False
    return True


def taken_by(row: RowWork, body: tuple[Action, ...]) -> int | None:
    """How many stitches acts take that change yarn or work a fabric in between; None when that depends on the place."""
    takes = 0
    for action in body:
        if isinstance(action, UseYarn):
            inner = 0 if action.body is None else taken_by(row, action.body)
        elif isinstance(action, WorkFabric) and isinstance(action.over, Count):
            inner = action.over.at(row.size) or 0
        else:
            unit = unit_of(row, (action,))
            inner = None if unit is None else unit.takes
        if inner is None:
            return None
        takes += inner
    return takes


def _mind_lead(draft: _Draft, takes: int, more: int) -> None:
    """Notes how many stitches have been made when the first is used."""
    if takes and draft.lead is None:
        draft.lead = len(draft.faces) + more


def words(row: RowWork, body: tuple[Action, ...]) -> str:
    """Acts as a knitter would name them in a sum: "k2, p2"."""
    parts = []
    for action in body:
        if isinstance(action, Stitch):
            count = None if action.count is None else action.count.at(row.size)
            if count is None:
                parts.append(action.name)
            elif action.name[-1:].isalpha() and len(action.name) <= 2:
                parts.append(f"{action.name}{count}")
            else:
                parts.append(action.name if count == 1 else f"{action.name} x {count}")
        elif isinstance(action, Repeat):
            parts.append(f"[{words(row, action.body)}]")
        elif isinstance(action, IntoOne):
            parts.append(f"({words(row, action.body)}) into {action.takes}")
        elif isinstance(action, Cable):
            parts.append("cable")
    return ", ".join(parts)
