"""A picture is described by the name of its file.

Who cannot see the picture reads its description (`alt`). It should tell in words what there is to see: the piece, how it
is worn, what the eye would look for.

Fires:
    pictures: [{file: swatch.jpg, alt: swatch, credit: Ines Farrow}]

Silent:
    pictures: [{file: swatch.jpg, alt: "A square of stockinette, edges curling.", credit: Ines Farrow}]
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("picture-undescribed", "warning", __doc__ or "")

_EMPTY = frozenset({"picture", "photo", "photograph", "image", "schematic", "chart", "drawing", "img"})


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each description that says no more than the file's name or "photo"."""
    for picture in evidence.pattern.pictures:
        file = picture.file.value
        name = file.rsplit("/", 1)[-1].rsplit(".", 1)[0]
        alt = picture.alt.value.strip().rstrip(".").casefold()
        if alt in _EMPTY or alt in (file.casefold(), re.sub(r"[-_]+", " ", name).casefold(), name.casefold()):
            yield Diagnostic.of(
                RULE,
                f"`{picture.alt.value}` does not describe the picture `{file}`",
                picture.alt.span(),
                hint="tell in a sentence what there is to see",
            )
