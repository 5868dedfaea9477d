"""Safety: the cautions that a piece needs, by who wears it, what it is and what is on it.

In: the job. Out: blocks, the author's own cautions behind those of the table. What a piece has is read from its title,
summary, notions, sections and stitches; a word said in passing ("no buttons") asks for a caution too many, never too
few.
"""

from __future__ import annotations

import re

from castoff.document.job import Job
from castoff.document.tree import Blocks, Caution, Heading, Text
from castoff.document.wording import typeset
from castoff.model.pattern import Pattern
from castoff.trade.cautions import Fact

_SIGNS: tuple[tuple[Fact, str], ...] = (
    ("has_buttons", r"buttons?|buttonholes?|toggles?|snaps?"),
    ("has_small_parts", r"buttons?|toggles?|beads?|bells?|safety eyes?|snaps?|sequins?|charms?"),
    ("has_cords", r"cords?|drawstrings?|i-cords?|laces"),
    ("has_ties", r"ties|ribbons?|tie cords?|bow"),
    ("has_hood", r"hood(?:ed|ie)?s?"),
    ("has_pompoms", r"pom-?poms?|tassels?|fringe"),
    ("has_bobbles", r"bobbles?"),
    ("has_openwork", r"lace|openwork|eyelets?|mesh"),
    ("has_floats", r"fair isle|stranded|floats?|colou?rwork"),
    ("is_toy", r"toys?|dolls?|teddy|bear|rattles?|softies|softie"),
    ("is_sleepwear", r"pyjamas?|pajamas?|night(?:gown|dress|shirt|wear)s?|sleep ?suits?|sleep ?sacks?|sleepwear"),
    ("is_neckwear", r"scar(?:f|ves)|cowls?|snoods?|neckwarmers?|bibs?|shawls?"),
    ("is_blanket", r"blankets?|throws?|afghans?|quilts?|covers?|lovey|comforters?"),
    ("is_hat", r"hats?|caps?|beanies?|bonnets?|berets?|tams?|toques?|tuques?"),
    ("is_outerwear", r"jackets?|coats?|cardigans?|pullovers?|jumpers?|sweaters?|hoodies?|vests?"),
)
_MADE_OF = frozenset({"is_toy", "is_sleepwear", "is_neckwear", "is_blanket", "is_hat", "is_outerwear"})
"""What a thing is, is told by title and summary alone: a hat's care may speak of blankets."""


def facts_of(pattern: Pattern) -> tuple[Fact, ...]:
    """What the source shows of the piece, in the order of the table of signs."""
    is_text = " ".join([pattern.title.value, pattern.summary.value if pattern.summary is not None else ""])
    has = [is_text, *(notion.value for notion in pattern.notions), *(stitch.words.value for stitch in pattern.stitches)]
    for section in pattern.sections:
        has.append(section.title.value)
        if section.work is not None:
            has.append(section.work.value)
    has_text = " ".join(has)
    found: list[Fact] = [
        fact
        for fact, words in _SIGNS
        if re.search(rf"(?<![\w-])(?:{words})(?![\w-])", is_text if fact in _MADE_OF else has_text, re.IGNORECASE)
    ]
    if pattern.terms_of_use is not None and re.search(r"\b(?:sold|sell|sale)\b", pattern.terms_of_use.value, re.I):
        found.append("may_be_sold")
    return tuple(found)


def cautions(job: Job) -> Blocks:
    """The section of safety; nothing for a piece that needs no caution."""
    pattern = job.pattern
    fibre = " ".join(yarn.fibre.value for yarn in pattern.yarns if yarn.fibre is not None)
    applying = job.trade.cautions.applying(pattern.audience.value, facts_of(pattern), fibre)
    found: list[Caution] = []
    for each in applying:
        said = tuple(block for text in (each.text, each.closing) for block in job.prose.say(text))
        found.append(Caution((Text(typeset(each.title)),), said, f"caution-{each.name.replace('_', '-')}"))
    for number, typed in enumerate(pattern.cautions, 1):
        title = (Text(job.say("closing", "caution_title")),)
        found.append(Caution(title, job.markdown(typed), f"caution-typed-{number}"))
    if not found:
        return ()
    return (Heading(2, (Text(job.say("headings", "cautions")),), "cautions"), *found)
