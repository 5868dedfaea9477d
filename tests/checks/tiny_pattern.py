"""A tiny complete pattern for examples to change: a square of 40 stitches by 28 rows, 20 cm by 10 cm.

In: a fragment of a source. Top-level keys of it stand in for those of the tiny pattern (`key:` with nothing behind takes
one out); its other lines are instructions, worked after the square's 28 rows and before the bind-off.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

TINY = """\
written_for: 1
title: Sandbar Square
version: "1.0.0"
date: 2026-11-01
designer: Ines Farrow
studio: Saltgrass & Tern
invented: true
summary: A square to try a yarn on.
audience: adult
skill: complex
terms: US
sizes: {names: One size}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
yarns:
  A: {name: Low Tide Worsted, colour: slate, weight: worsted, fibre: 100% wool, ball: 200 m / 100 g}
needles:
  larger: {size: 5 mm, type: circular, length: 60 cm}
sections:
  - title: Swatch
    piece: Swatch
    worked: flat
    gauge: stockinette
    work: |
      With larger needles, CO 40 sts.
      Work in st st for 28 rows.
@
  - title: Edge
    piece: Swatch
    work: |
      BO all sts.
      Weave in ends.
measurements:
  width: {label: Width, is: 20 cm, of: width of Swatch}
notes: "A square tells more than a label."
care: Hand wash cool.
help: help@saltgrassandtern.example
terms_of_use: For your own knitting.
history: [{version: "1.0.0", date: 2026-11-01, change: First published.}]
"""
_KEYS = frozenset(re.findall(r"^(\w+):", TINY, re.MULTILINE)) | {
    "inch", "swatch", "notions", "numbers", "stitch_patterns", "stitches", "pictures", "allow", "excerpt",
    "abbreviations", "cautions", "margin", "tested",
}  # fmt: skip


@dataclass(frozen=True)
class Examples:
    """The examples of a rule's page, each as a fragment."""

    fires: tuple[str, ...]
    silent: tuple[str, ...]


def examples_of(page: str) -> Examples:
    """The indented blocks under `Fires:` and `Silent:`."""
    found: dict[str, list[str]] = {"Fires": [], "Silent": []}
    lines = page.split("\n")
    at = 0
    while at < len(lines):
        head = re.fullmatch(r"\s*(Fires|Silent):\s*", lines[at])
        at += 1
        if head is None:
            continue
        indent = len(lines[at - 1]) - len(lines[at - 1].lstrip()) if lines[at - 1].strip() else 0
        block: list[str] = []
        while at < len(lines) and (not lines[at].strip() or len(lines[at]) - len(lines[at].lstrip()) > indent):
            block.append(lines[at])
            at += 1
        margin = min((len(line) - len(line.lstrip()) for line in block if line.strip()), default=0)
        found[head[1]].append("\n".join(line[margin:] for line in block).strip("\n"))
    return Examples(tuple(found["Fires"]), tuple(found["Silent"]))


def with_fragment(fragment: str) -> str:
    """The tiny pattern with a fragment in place of its own words."""
    chunks, work = _chunks(fragment)
    source = TINY.replace("@\n", "".join(f"      {line}\n" for line in work))
    for key, chunk in chunks.items():
        own = re.compile(rf"^{key}:.*\n(?:[ \n].*\n|\n)*", re.MULTILINE)
        if own.search(source):
            source = own.sub(lambda _, chunk=chunk: chunk, source)  # type: ignore[misc]
        else:
            source += chunk
    return source


def _chunks(fragment: str) -> tuple[dict[str, str], list[str]]:
    chunks: dict[str, str] = {}
    work: list[str] = []
    key = ""
    for line in fragment.split("\n"):
        head = re.match(r"(\w+):", line)
        if head is not None and head[1] in _KEYS:
            key = head[1]
            chunks[key] = line + "\n"
        elif key and (line.startswith(" ") or not line.strip()):
            chunks[key] += line + "\n"
        elif line.strip():
            key = ""
            work.append(line)
    return chunks, work
