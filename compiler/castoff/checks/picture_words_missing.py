"""A picture has no description or no credit.

Who cannot see the picture reads its description (`alt`), and whoever took it is named (`credit`).

Fires:
    pictures: [{file: swatch.jpg, alt: " ", credit: Ines Farrow}]

Silent:
    pictures: [{file: swatch.jpg, alt: "A square of stockinette, edges curling.", credit: Ines Farrow}]
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("picture-words-missing", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each empty description or credit, and for a description that is only the file's name."""
    for picture in evidence.pattern.pictures:
        file = picture.file.value
        if not picture.alt.value.strip() or picture.alt.value.strip() in (file, file.rsplit(".", 1)[0]):
            yield Diagnostic.of(
                RULE,
                f"the picture `{file}` has no description",
                picture.file.span(),
                hint="`alt:` tells in words what there is to see",
            )
        if not picture.credit.value.strip():
            yield Diagnostic.of(
                RULE,
                f"the picture `{file}` has no credit",
                picture.file.span(),
                hint="`credit:` names who took or drew it",
            )
