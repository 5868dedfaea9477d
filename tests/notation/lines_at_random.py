"""Instruction lines made at random: valid by construction, damaged, and plain noise.

`python -m tests.notation.lines_at_random 100000` reads so many and prints what it found.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, fields, is_dataclass

from tests.notation.corpus import LINES
from tests.notation.vocabularies import corpus_vocabulary

from castoff.notation.lines import parse_line
from castoff.notation.print import print_line
from castoff.notation.syntax import InstructionLine
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Text

_STITCHES = (
    "k2tog", "ssk", "yo", "m1", "m1l", "m1r", "kfb", "p2tog", "skp", "sk2p", "s2kp", "k3tog", "mb2", "big bobble", "c4f",
    "2/2 LC", "2/2 rpc", "p2tog tbl", "k1 tbl", "sl 1", "sl 1 purlwise", "sl 1 wyif", "sl 1, k1, psso", "yo twice",
)  # fmt: skip
_NOISE = "aKp2*[](){};:,.–—½″'\"0123456789 \t\n/×†¤é漢😀\u00a0\u200b\x00"


def _number(r: random.Random) -> str:
    if r.random() < 0.3:
        return "{} ({}, {}, {})".format(*(r.randint(1, 40) for _ in range(4)))
    return str(r.randint(1, 40))


def _target(r: random.Random) -> str:
    return r.choice(
        ("to end", f"to last {_number(r)} sts", "to last st", "to m", f"to {_number(r)} sts before m", "to next m",
         f"to {r.randint(1, 5)} sts past m", "to marker A", "across", "around", "to end of row", "to 1 st before gap")
    )  # fmt: skip


def _action(r: random.Random, depth: int = 0) -> str:
    kind = r.randrange(12 if depth < 3 else 8)
    if kind < 3:
        return f"{r.choice('kp')}{_number(r)}"
    if kind < 5:
        return r.choice(_STITCHES)
    if kind == 5:
        return f"{r.choice(('k', 'p', 'rib', 'patt', 'knit', 'purl', 'work in seed stitch'))} {_target(r)}"
    if kind == 6:
        return r.choice(("pm", "sm", "remove m", "slip marker", "place marker", "pm for side"))
    if kind == 7:
        return r.choice((f"BO {_number(r)} sts", f"k{_number(r)} in A", "with B", f"CO {_number(r)} sts"))
    if kind < 10:
        return f"[{_actions(r, depth + 1)}] {_number(r)} times"
    if kind == 10:
        return f"({_actions(r, depth + 1)}) twice"
    mark = "*" * (depth + 1)
    end = r.choice((f"{_number(r)} more times", f"{_number(r)} times", "to end", "to last 3 sts", "once more"))
    return f"{mark}k1, {_actions(r, depth + 1)}; rep from {mark} {end}"


def _actions(r: random.Random, depth: int = 0) -> str:
    return ", ".join(_action(r, depth) for _ in range(r.randint(1, 5)))


def _label(r: random.Random) -> str:
    number = r.randint(1, 60)
    return r.choice(
        (f"Row {number}", f"Rnd {number}", f"Row {number} (RS)", f"Rows {number}–{number + 4}", "Next row", "Next row (WS)",
         "Dec rnd", "Set-up row", f"{number}th row", f"Row {number} and all WS rows", f"Rows {number} and {number + 2}")
    )  # fmt: skip


def _total(r: random.Random) -> str:
    return r.choice(
        ("", f". {_number(r)} sts.", f" — {_number(r)} sts.", f" ({_number(r)} sts).", f"; {_number(r)} sts rem.", ".")
    )


def valid_line(r: random.Random, deck: list[str]) -> str:
    """A line that must be read: one of the corpus, each of which is drawn once before any is drawn again, or a made one."""
    if r.random() < 0.4:
        if not deck:
            deck.extend(r.sample(LINES, len(LINES)))
        return deck.pop()
    work = _actions(r)
    if work.endswith("with B"):
        work += ", k1"  # a yarn is told before what is worked with it
    return f"{_label(r)}: {work}{_total(r)}"


def damaged_line(r: random.Random, deck: list[str]) -> str:
    """A valid line with characters or words dropped, doubled, swapped or replaced."""
    line = valid_line(r, deck)
    for _ in range(r.randint(1, 3)):
        if not line:
            break
        at = r.randrange(len(line))
        kind = r.randrange(5)
        if kind == 0:
            line = line[:at] + line[at + 1 :]
        elif kind == 1:
            line = line[:at] + r.choice(_NOISE) + line[at:]
        elif kind == 2:
            words = line.split(" ")
            words.insert(r.randrange(len(words)), words[r.randrange(len(words))])
            line = " ".join(words)
        elif kind == 3:
            line = line[:at] + line[at:][::-1]
        else:
            line = line[:at] + line[at : at + r.randint(1, 30)] * r.randint(2, 6) + line[at:]
    return line


def noise(r: random.Random) -> str:
    """No line at all."""
    if r.random() < 0.5:
        return "".join(r.choice(_NOISE) for _ in range(r.randint(0, 120)))
    return "".join(
        chr(r.choice((r.randrange(0x20, 0x300), r.randrange(0x20, 0xD7FF)))) for _ in range(r.randint(0, 60))
    )


@dataclass
class Tally:
    """What reading random lines gave.

    slowest: seconds and line. unread: valid lines that were not read. changed: lines that printed into another tree.
    steps: how often each kind of step was read; nodes: in how many valid lines each kind of node stood.
    """

    read: int = 0
    slowest: tuple[float, str] = (0.0, "")
    unread: list[str] = field(default_factory=list)
    changed: list[str] = field(default_factory=list)
    steps: Counter[str] = field(default_factory=Counter)
    nodes: Counter[str] = field(default_factory=Counter)


def _kinds(value: object) -> Iterator[str]:
    """The kinds of all nodes of a tree."""
    if isinstance(value, tuple):
        for each in value:
            yield from _kinds(each)
    elif is_dataclass(value) and not isinstance(value, type):
        yield type(value).__name__
        for each in fields(value):
            if each.name != "span":
                yield from _kinds(getattr(value, each.name))


def read_lines(count: int, seed: int, vocabulary: Vocabulary | None = None) -> Tally:
    """Reads so many lines, half of them valid; raises what the parser raises."""
    r = random.Random(seed)
    vocabulary = vocabulary or corpus_vocabulary()
    tally = Tally()
    deck: list[str] = []
    to_damage: list[str] = []
    for index in range(count):
        line = valid_line(r, deck) if index % 2 == 0 else damaged_line(r, to_damage) if index % 4 == 1 else noise(r)
        start = time.perf_counter()
        checked = parse_line(Text.plain(line), vocabulary)
        taken = time.perf_counter() - start
        tally.slowest = max(tally.slowest, (taken, line))
        value = checked.value
        if isinstance(value, InstructionLine):
            tally.read += 1
            tally.steps.update(type(step).__name__ for step in value.steps)
            if index % 2 == 0:
                tally.nodes.update(set(_kinds(value.steps)))
            assert "".join(token.text for token in value.tokens) == line
            again = parse_line(Text.plain(print_line(value, vocabulary.sizes)), vocabulary).value
            if not isinstance(again, InstructionLine) or again.steps != value.steps:
                tally.changed.append(line)
        elif index % 2 == 0:
            tally.unread.append(line)
    return tally


if __name__ == "__main__":
    found = read_lines(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000, 2026)
    print(
        f"{found.read} read; valid and not read: {len(found.unread)}; printed into another tree: {len(found.changed)}"
    )
    print(f"slowest {found.slowest[0] * 1000:.1f} ms: {found.slowest[1]!r}")
    for name, often in found.nodes.most_common():
        print(f"  {often:7} {name}")
    for line in (*found.unread[:20], *found.changed[:20]):
        print(repr(line))
