"""A small stitch book for tests of the parser."""

from __future__ import annotations

import re

_NAMES = {
    "k": "k", "knit": "k", "knits": "k", "p": "p", "purl": "p", "purls": "p", "sl": "sl", "slip": "sl", "yo": "yo", "yfwd": "yo",
    "yrn": "yo", "yon": "yo", "yfrn": "yo", "ssk": "ssk", "sssk": "sssk", "ssp": "ssp", "skp": "skp", "skpo": "skp",
    "sk2p": "sk2p", "s2kp": "s2kp", "cdd": "s2kp", "m1": "m1", "m1l": "m1l", "m1r": "m1r", "m1p": "m1p", "kfb": "kfb",
    "pfb": "pfb", "ktbl": "k tbl", "k tbl": "k tbl", "p tbl": "p tbl", "mb": "mb", "rt": "rt", "lt": "lt", "k1b": "k1b",
}  # fmt: skip
_TOGETHER = re.compile(r"[kp][2-9]tog(?: tbl)?")
_CABLE = re.compile(r"[ct]\d+[fb]")
_CROSS = re.compile(r"\d+/\d+(?:/\d+)? (?:l|r)p?c")


class Book:
    """Finds the stitches that the tests use."""

    def find(self, word: str) -> str | None:
        low = word.lower()
        if low in _NAMES:
            return _NAMES[low]
        if _TOGETHER.fullmatch(low) or _CABLE.fullmatch(low) or _CROSS.fullmatch(low):
            return low
        return None
