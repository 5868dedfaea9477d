"""Sections worked again: "Repeat Wedges A and B 9 times more", "rep Wedge A and Wedge B 4 times more".

In: a cursor at the start of a sentence. Out: `RepeatSections`, or None. Sections are those of the pattern, by their titles.
"""

from __future__ import annotations

from castoff.notation.counting import read_times
from castoff.notation.cursor import Cursor
from castoff.notation.syntax import RepeatSections


def read_repeat_sections(c: Cursor) -> RepeatSections | None:
    """Reads the titles, one by one or together in the plural, and how often."""
    start = c.at
    if not c.take("rep", "cont to rep", "cont rep"):
        return None
    c.take("the")
    titles = _plural(c) or _by_title(c)
    times = read_times(c, "ambiguous") if titles else None
    if times is None or times.count is None:
        return c.back(start)
    return RepeatSections(titles, times, span=c.span(start))


def _by_title(c: Cursor) -> tuple[str, ...]:
    found: list[str] = []
    while True:
        before = c.at
        if found and not c.take(",", "and", ", and", "&"):
            break
        title = c.name_of(c.vocabulary.sections)
        if title is None:
            c.back(before)
            break
        found.append(title)
    return tuple(found)


def _plural(c: Cursor) -> tuple[str, ...]:
    """ "Wedges A and B" of sections called Wedge A and Wedge B."""
    start = c.at
    head = c.here.text.lower()
    titles = {title.lower(): title for title in c.vocabulary.sections}
    if not head.endswith("s") or not any(title.startswith(head[:-1] + " ") for title in titles):
        return ()
    c.step()
    found: list[str] = []
    while True:
        before = c.at
        if found and not c.take(",", "and", ", and", "&"):
            break
        title = titles.get(f"{head[:-1]} {c.here.text.lower()}")
        if title is None:
            c.back(before)
            break
        c.step()
        found.append(title)
    if len(found) < 2:
        c.back(start)
        return ()
    return tuple(found)
