"""Lace is worked on the wrong side, and its plain rows are purled on the right side.

Knitted rows with yarn-overs, purled rows between them: the pattern rows belong on the right side, the purled ones on the
other. With the sides exchanged the knit stitches show on the back of the fabric, and every decrease lies behind. A section
that speaks of the reverse is not asked about.

Fires:
    sections:
      - title: Scarf
        worked: flat
        work: |
          With larger needles, CO 41 sts.
          Row 1 (WS): K1, *yo, k2tog; rep from * to end.
          Row 2: Purl.
          Rep rows 1 and 2 ten more times.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}

Silent:
    sections:
      - title: Scarf
        worked: flat
        work: |
          With larger needles, CO 41 sts.
          Row 1 (RS): K1, *yo, k2tog; rep from * to end.
          Row 2: Purl.
          Rep rows 1 and 2 ten more times.
          BO all sts.
    measurements: {width: {label: Width, is: 20 cm}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import RowRecord

RULE = Rule("lace-on-the-wrong-side", "warning", __doc__ or "")

_KNIT_DECREASES = frozenset(("k2tog", "ssk", "skp", "skpo", "k3tog", "sssk", "sk2p", "s2kp"))
_REVERSE = re.compile(r"\breverse", re.IGNORECASE)


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each section whose lace rows are all on the wrong side, with purled rows between."""
    for index, section in enumerate(evidence.pattern.sections):
        texts = (section.gauge, section.notes, section.work)
        if any(text is not None and _REVERSE.search(text.value) for text in texts):
            continue
        for size in evidence.knitted.sizes:
            if index >= len(size.sections):
                continue
            records = [record for record in size.sections[index].records.folded() if record.form == "flat"]
            lace = [record for record in records if _is_lace(record)]
            plain = [record for record in records if _all(record, "p")]
            if lace and plain and _sides(lace) == {"WS"} and _sides(plain) == {"RS"} and lace[0].span is not None:
                yield Diagnostic.of(
                    RULE,
                    f"{lace[0].label} is lace knitted on the WS, and the rows between are purled on the RS",
                    lace[0].span,
                    hint="the pattern rows on the RS",
                )
                break


def _sides(records: list[RowRecord]) -> set[str]:
    return {record.side for record in records}


def _all(record: RowRecord, stitch: str) -> bool:
    return bool(record.tally) and all(name == stitch for (_, name), _ in record.tally)


def _is_lace(record: RowRecord) -> bool:
    """Whether a row has yarn-overs and decreases of knit stitches."""
    names = {name for (_, name), _ in record.tally}
    return "yo" in names and not names.isdisjoint(_KNIT_DECREASES) and "p" not in names
