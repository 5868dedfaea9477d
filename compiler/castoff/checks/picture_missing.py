"""A picture is not there.

The file named must lie beside the source, at the path given.

Fires:
    pictures: [{file: not-there.jpg, alt: "The swatch from the front.", credit: Ines Farrow}]

Silent:
    notes: "A pattern without pictures needs none."
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule

RULE = Rule("picture-missing", "error", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each picture that was looked for and not found."""
    there = evidence.picture_files
    if there is None:
        return
    for picture in evidence.pattern.pictures:
        name = picture.file.value
        if name not in there:
            near = difflib.get_close_matches(name, sorted(there), 1)
            yield Diagnostic.of(
                RULE,
                f"there is no file `{name}` beside the source",
                picture.file.span(),
                hint=f"is `{near[0]}` meant?" if near else "put it there, or take the picture out",
            )
