"""Notions: the small things the rows need, found from use, and what the author lists besides.

In: the job. Out: one line each. Markers are counted where most of them are in use at once, in every size; a thing
that the author lists is not listed twice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from castoff.document.job import Job
from castoff.document.tree import Inlines, Text
from castoff.document.wording import counts
from castoff.knitting.fabric import Event, SizeKnitted
from castoff.notation.nodes import nodes_of
from castoff.notation.syntax import (
    Cable,
    CastOn,
    DrawThrough,
    Finish,
    Graft,
    Hold,
    HoldAct,
    InstructionLine,
    MarkerAct,
    MarkStitch,
    Place,
    Seam,
)
from castoff.span import Span

_CABLE_NEEDLE = re.compile(r"\b(?:cn|cable needle)\b", re.IGNORECASE)
IN_A_STITCH = "marked"
"""Name of the event of a marker that hangs in a stitch."""

_WASTE = ("waste", "scrap")
_THINGS = (("waste yarn", ("yarn", "waste", "thread")), ("spare needle", ("needle", "dpn")), ("safety pin", ("pin",)))
"""What stitches wait on besides holders, and the words that tell it."""


def notions(job: Job) -> list[Inlines]:
    """What is needed besides yarn and needles, one thing a line."""
    found: list[tuple[str, Inlines]] = []
    nodes = list(_nodes_used(job))
    hung = [node.span for node in nodes if isinstance(node, Place) and node.where]
    markers = [_most_markers(size, hung) for size in job.knitted.sizes]
    removable = _removable(nodes)
    if removable:
        words = (Text(job.say("materials", "removable_markers", count=removable, one=removable == 1)),)
        found.append(("removable marker", words))
    if any(job.setting.pick(tuple(markers))):
        shown = job.setting.pick(tuple(markers))
        text = job.say("materials", "markers", count="#", one=set(shown) == {1})
        found.append(("marker", _with_count(job, text, markers)))
    waiting = _waiting_on(nodes)
    for thing in ("holder", "safety pin"):
        groups = [_groups_on(size, thing, waiting) for size in job.knitted.sizes]
        if any(job.setting.pick(tuple(groups))):
            shown = job.setting.pick(tuple(groups))
            text = job.say("materials", f"{thing.replace(' ', '_')}s", count="#", one=set(shown) == {1})
            found.append((thing, _with_count(job, text, groups)))
    if "waste yarn" in waiting.values() or any(isinstance(node, CastOn) and node.provisional for node in nodes):
        found.append(("waste yarn", (Text(job.say("materials", "waste_yarn")),)))
    if "spare needle" in waiting.values():
        found.append(("spare needle", (Text(job.say("materials", "spare_needle")),)))
    if _crosses(job, nodes):
        found.append(("cable needle", (Text(job.say("materials", "cable_needle")),)))
    if any(isinstance(node, (Seam, Graft, DrawThrough, Finish)) for node in nodes):
        found.append(("tapestry needle", (Text(job.say("materials", "tapestry_needle")),)))
    typed = [notion.value for notion in job.pattern.notions]
    kept = [words for name, words in found if not _listed(name, typed)]
    kept.extend(job.inline(notion) for notion in job.pattern.notions)
    return kept


def _listed(name: str, typed: Sequence[str]) -> bool:
    """Whether the author lists a thing already; "4 removable markers" does not stand for stitch markers."""
    if name == "marker":
        return any("marker" in each.lower() and "removable" not in each.lower() for each in typed)
    if name in ("tapestry needle", "cable needle"):
        alike = ("tapestry", "darning", "yarn needle", "wool needle") if name == "tapestry needle" else ("cable",)
        return any(word in each.lower() for each in typed for word in alike)
    if name == "waste yarn":
        return any(word in each.lower() for each in typed for word in _WASTE)
    if name == "holder":
        return any("holder" in each.lower() for each in typed)
    return any(name in each.lower() for each in typed)


def _with_count(job: Job, text: str, values: Sequence[int]) -> Inlines:
    before, _, after = text.partition("#")
    shown = counts(list(values), job.setting)
    parts = (*((Text(before),) if before else ()), *shown, *((Text(after),) if after else ()))
    return tuple(parts)


def _nodes_used(job: Job) -> Iterator[object]:
    """Every syntax node of the lines that are worked in the sizes printed."""
    for index in range(len(job.pattern.sections)):
        for line in job.lines.get(index, ()):
            if isinstance(line, InstructionLine) and any(job.setting.pick(line.sizes)):
                yield from nodes_of(line.steps)


def _removable(nodes: Sequence[object]) -> int:
    """Markers that are hung on the fabric and not on the needle: two for "at each end"."""
    count = 0
    for node in nodes:
        if isinstance(node, Place) and isinstance(node.act, MarkerAct) and node.act.act == "place" and node.where:
            typed = node.count.values[0] if node.count is not None else None
            count += typed or (2 if "each" in node.where or "both" in node.where else 1)
        if isinstance(node, MarkStitch) and not node.behind:
            count += 1
    return count


def _waiting_on(nodes: Iterable[object]) -> dict[str, str]:
    """What each group of stitches waits on, by the group's name: a holder, waste yarn, a spare needle, a safety pin.

    "" where they are simply left on the needle. A group that is put on several things is told of with the last.
    """
    found: dict[str, str] = {}
    for node in nodes:
        if isinstance(node, HoldAct):
            found[node.holder.lower()] = _thing(node.on)
        elif isinstance(node, Hold) and node.leave and node.act.on == "hold":
            found[node.act.holder.lower()] = ""
    return found


def _thing(words: str) -> str:
    """The thing to have ready, by the words of the row: "length of yarn" is waste yarn."""
    for thing, signs in _THINGS:
        if any(sign in words for sign in signs):
            return thing
    return "holder"


def _groups_on(size: SizeKnitted, thing: str, waiting: Mapping[str, str]) -> int:
    """Groups of stitches that wait on a thing in one size."""
    names = dict.fromkeys(event.name.lower() for event in _events(size) if event.kind == "hold")
    return sum(waiting.get(name, "holder") == thing for name in names)


def _crosses(job: Job, nodes: Iterable[object]) -> bool:
    """Whether a cable needle is used: for a cable spelled out in a row, or one by name that was knitted in a printed size.

    A name goes by what was knitted, since the rows of a stitch pattern are worked by the pattern's name. A twist over two
    stitches needs no extra needle; an author's own stitch does when its words say so.
    """
    rows = (line.steps for lines in job.pattern_lines.values() for line in lines if isinstance(line, InstructionLine))
    if any(isinstance(node, Cable) for node in (*nodes, *nodes_of(tuple(rows)))):
        return True
    own = {each.key.value.lower(): each for each in job.pattern.stitches}
    for size in job.setting.pick(job.knitted.sizes):
        for name in dict.fromkeys(stitch for _, _, stitch in size.loops):
            mine, stitch = own.get(name.lower()), job.trade.stitches.find(name)
            if mine is not None:
                if mine.how is not None and _CABLE_NEEDLE.search(mine.how.value):
                    return True
            elif stitch is not None and stitch.kind == "cable":
                return True
    return False


def _events(size: SizeKnitted) -> Iterator[Event]:
    for section in size.sections:
        yield from section.events


def _most_markers(size: SizeKnitted, hung: Sequence[Span]) -> int:
    """Most markers on the needles at one time. hung: where the source hangs markers on the fabric instead."""
    now = most = 0
    for event in _events(size):
        at = event.span.start if event.span is not None else -1
        if event.name == IN_A_STITCH or any(span.start <= at < span.end for span in hung):
            continue
        if event.kind == "place marker":
            now += max(1, event.count)
            most = max(most, now)
        elif event.kind == "remove marker":
            now = 0 if event.name == "all" else max(0, now - max(1, event.count))
        elif event.kind in ("fasten off",):
            now = 0
    return most
