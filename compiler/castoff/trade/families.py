"""The regular families of stitches: names whose counts follow from the numbers in them.

In: a name in lower case with single spaces, and the words of each family. Out: the `Stitch` it means, or None.

  kNtog, pNtog, and both with tbl     N become 1
  yoN, Nyo, yo twice                  0 become N
  cNf cNb tNf tNb (also l r, crNl)    N become N; C crosses knit over knit, T and Cr knit over purl
  n/m LC RC LPC RPC                   n in front over m behind, with purl (P) behind
  n/o/m LC RC LPC RPC                 n over m round o stitches that keep their place, which are the purled ones with P

Counts are arithmetic on the names. Even cables halve (C4B = 2/2 RC); in odd ones the front group is the larger
(C3B = 2/1 RC, C3F = 2/1 LC: UK knitting book, list of cables); for C5 and up that is our reading, since no list of
those was seen, and the counts do not depend on it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal, NamedTuple

from castoff.trade.stitch import Crossing, FamilyWords, Stitch, spell_numbers

FAMILY_NAMES = (
    "knit_together", "knit_together_tbl", "purl_together", "purl_together_tbl", "yarn_overs",
    "cable_back", "cable_front", "twist_back", "twist_front",
    "right_cross", "left_cross", "right_purl_cross", "left_purl_cross", "right_cross_middle", "left_cross_middle",
)  # fmt: skip

_TOGETHER = re.compile(r"(k|p|knit|purl) ?([1-9]\d?) ?(?:tog|together)[ -]?(tbl|b|through (?:the )?back loops?)?")
_YARN_OVERS = re.compile(r"(?:yo ?([2-9])|([2-9]) ?yos?|yo (twice|x2|2 times))|(double yo|double yarn over)")
_CABLE = re.compile(r"(c|t|cr) ?([1-9]\d?) ?([fblr])")
_CROSS = re.compile(r"([1-9]\d?)/(?:([1-9]\d?)/)?([1-9]\d?) ?([lr])(p?)c")

# The usual partner on the other side of a garment; from four stitches on both turns of the same decrease.
_KNIT_MIRRORS = {2: "ssk", 3: "sssk"}
_PURL_MIRRORS = {2: "ssp", 3: "sssp"}


def family_stitch(name: str, words: Mapping[str, FamilyWords]) -> Stitch | None:
    """The stitch that a regular name means.

    name: lower case, single spaces.
    words: by the names in FAMILY_NAMES, all of them.
    """
    for family in (_together, _yarn_overs, _lettered_cable, _slashed_cross):
        stitch = family(name, words)
        if stitch is not None:
            return stitch
    return None


def _together(name: str, words: Mapping[str, FamilyWords]) -> Stitch | None:
    match = _TOGETHER.fullmatch(name)
    if match is None or int(match[2]) < 2:
        return None
    count = int(match[2])
    letter, twisted = match[1][0], match[3] is not None
    knitted = letter == "k"
    family = words[("knit" if knitted else "purl") + "_together" + ("_tbl" if twisted else "")]
    plain, turned = f"{letter}{count}tog", f"{letter}{count}tog tbl"
    mirrors = _KNIT_MIRRORS if knitted else _PURL_MIRRORS
    spelled = family.words.format(n=count)
    return Stitch(
        name=turned if twisted else plain,
        words=spelled,
        takes=count,
        makes=1,
        kind="decrease",
        lean="left" if twisted else "right",
        lean_from="RS" if knitted else "WS",
        face="knit" if knitted else "purl",
        how=family.how.format(n=count),
        spoken=spell_numbers(spelled),
        mirror=plain if twisted else mirrors.get(count, turned),
        wrong_side=f"{'p' if knitted else 'k'}{count}tog" + (" tbl" if twisted else ""),
        note=family.note.format(n=count),
        sources=family.sources,
    )


def _yarn_overs(name: str, words: Mapping[str, FamilyWords]) -> Stitch | None:
    match = _YARN_OVERS.fullmatch(name)
    if match is None:
        return None
    count = int(match[1] or match[2] or 2)
    family = words["yarn_overs"]
    own_name = f"yo{count}"
    return Stitch(
        name=own_name,
        words=family.words.format(n=count),
        takes=0,
        makes=count,
        kind="increase",
        loops=count,
        how=family.how.format(n=count),
        spoken=spell_numbers(family.words.format(n=count)),
        mirror=own_name,
        wrong_side=own_name,
        note=family.note.format(n=count),
        sources=family.sources,
    )


class _Names(NamedTuple):
    """Name of a cable, of its mirror, and of the family whose words it takes."""

    own: str
    mirror: str
    family: str


def _lettered_cable(name: str, words: Mapping[str, FamilyWords]) -> Stitch | None:
    match = _CABLE.fullmatch(name)
    if match is None or int(match[2]) < 2:
        return None
    letter, count = match[1].capitalize(), int(match[2])
    front = match[3] in "fl"
    # L and R are kept where they were typed: a knitter looks for the letters of the pattern's own key.
    pair = "FB" if match[3] in "fb" else "LR"
    kind = "cable" if letter == "C" else "twist"
    names = _Names(
        f"{letter}{count}{pair[0] if front else pair[1]}",
        f"{letter}{count}{pair[1] if front else pair[0]}",
        f"{kind}_{'front' if front else 'back'}",
    )
    over = count - count // 2
    worked: Literal["knit", "purl"] = "knit" if letter == "C" else "purl"
    crossing = Crossing(over, count // 2, "left" if front else "right", worked)
    return _cable(names, crossing, count, words)


def _slashed_cross(name: str, words: Mapping[str, FamilyWords]) -> Stitch | None:
    match = _CROSS.fullmatch(name)
    if match is None:
        return None
    over, middle, under = int(match[1]), int(match[2] or 0), int(match[3])
    travels: Literal["left", "right"] = "left" if match[4] == "l" else "right"
    worked: Literal["knit", "purl"] = "purl" if match[5] else "knit"
    numbers = f"{over}/{middle}/{under}" if middle else f"{over}/{under}"
    ending = f"{match[5].upper()}C"
    family = f"{travels}_cross_middle" if middle else f"{travels}{'_purl' if match[5] else ''}_cross"
    names = _Names(
        f"{numbers} {match[4].upper()}{ending}", f"{numbers} {'R' if travels == 'left' else 'L'}{ending}", family
    )
    # With a middle it is the middle that is purled: the two outer groups change places as knit stitches.
    crossing = (
        Crossing(over, under, travels, "knit", middle, worked) if middle else Crossing(over, under, travels, worked)
    )
    return _cable(names, crossing, over + middle + under, words)


def _cable(names: _Names, crossing: Crossing, count: int, words: Mapping[str, FamilyWords]) -> Stitch:
    family = words[names.family]
    purled = "purl" in (crossing.under_worked, crossing.middle_worked)
    filling = {
        "n": count,
        "over": crossing.over,
        "under": crossing.under,
        "middle": crossing.middle,
        "worked": "p" if purled else "k",
    }
    spelled = family.words.format_map(filling)
    if names.family.endswith("cross_middle") and purled:
        spelled += ", which is purled"
    return Stitch(
        name=names.own,
        words=spelled,
        takes=count,
        makes=count,
        kind="cable",
        lean=crossing.travels,
        loops=count,
        how=family.how.format_map(filling).replace("next 1 sts", "next st"),
        spoken=spell_numbers(spelled),
        mirror=names.mirror,
        crossing=crossing,
        note=family.note.format_map(filling),
        sources=family.sources,
    )
