"""How stitches lie on the needles of a set: "12 sts each on N1 and N2", "N1: 28 sts, N2: 14 sts", "8 on each of 2 needles".

In: a cursor. Out: `Arrange`, or the groups of one; None, or no groups, where nothing of the kind stands.
"""

from __future__ import annotations

from castoff.notation.cursor import Cursor
from castoff.notation.needle_names import read_needle_name
from castoff.notation.syntax import Arrange, Count

EACH = "each needle"
"""Where so many stitches lie on every needle of the set, and nothing says how many needles there are."""


def read_told_needles(c: Cursor) -> Arrange | None:
    """ ": 12 sts each on N1 and N2", "(28 sts on needle 1, 14 sts on needle 2)", "; N1: 28 sts, …"."""
    start = c.at
    while c.take(":", ",", ";", "-", ".", "with"):
        pass
    bracket = c.closers.get(c.at)
    if bracket is not None:
        c.step()
    on_each = c.at
    count = c.count()
    if count is not None:
        c.take("st")
        each = read_on_each_of(c, count, start)
        if each is not None and (bracket is None or c.take(")", "]")):
            return Arrange(each.groups, each.needles, True, span=c.span(start))
    c.back(on_each)
    groups = _each_on(c) or _by_name(c)
    if len(groups) < 2 or (bracket is not None and not c.take(")", "]")):
        return c.back(start)
    return Arrange(groups, None, True, span=c.span(start))


def _in_order(groups: list[tuple[Count | None, str]]) -> tuple[tuple[Count | None, str], ...]:
    """Needles told in another order ("23 sts each on N1 and N3, 28 sts on N2"), as they follow each other in the round."""
    numbers = [name.removeprefix("needle ") for _, name in groups]
    if not all(number.isdigit() for number in numbers):
        return tuple(groups)
    return tuple(sorted(groups, key=lambda group: int(group[1].removeprefix("needle "))))


def _each_on(c: Cursor) -> tuple[tuple[Count | None, str], ...]:
    """ "12 sts each on N1 and N2", "12 sts on N1 and 14 sts on N2"."""
    start = c.at
    groups: list[tuple[Count | None, str]] = []
    shared = False
    while True:
        before = c.at
        if groups:
            c.take(",", ";")
            c.take("and")
        count = c.count()
        each = count is not None and c.take("st each on", "st each onto")
        if count is None or not (each or c.take("st on", "on", "st onto")):
            c.back(before)
            break
        named = read_needle_name(c)
        while each and named is not None:
            groups.append((count, named))
            before = c.at
            named = read_needle_name(c) if c.take(",", "and", ", and") else None
            if named is None:
                c.back(before)
        if each:
            shared = True
            continue
        if named is None:
            c.back(before)
            break
        groups.append((count, named))
    if len(groups) < 2:
        c.back(start)
        return ()
    return _in_order(groups) if shared else tuple(groups)


def _by_name(c: Cursor) -> tuple[tuple[Count | None, str], ...]:
    """ "N1: 28 sts, N2: 14 sts"."""
    start = c.at
    groups: list[tuple[Count | None, str]] = []
    while True:
        before = c.at
        if groups:
            c.take(",", ";")
            c.take("and")
        named = read_needle_name(c)
        count = c.count() if named is not None and c.take(":", "-", "=") else None
        if named is None or count is None or not c.take("st"):
            c.back(before)
            break
        groups.append((count, named))
    if len(groups) < 2:
        c.back(start)
        return ()
    return tuple(groups)


def read_on_each_of(c: Cursor, count: Count, start: int) -> Arrange | None:
    """ "8 on each of 2 needles", "20 sts on each of two needles", behind the count."""
    if not c.take("on each of", "onto each of"):
        return None
    needles = c.count()
    number = None if needles is None else needles.of_all
    if needles is None or number is None or not 1 < number <= 8:
        return None
    c.take("double-pointed")
    if not c.take("needle", "dpn"):
        return None
    return Arrange(((count, ""),) * number, needles, span=c.span(start))


def read_needle_groups(c: Cursor) -> tuple[tuple[Count | None, str], ...]:
    """ ": 24 sts on needle 1, 24 sts on needle 2, 20 sts on needle 3", ": 24, 24, 20 sts"."""
    start = c.at
    groups: list[tuple[Count | None, str]] = []
    if not c.take(":", "-", "("):
        return ()
    bracket = c.lexemes[start].key == "("
    while True:
        before = c.at
        if groups:
            c.take(",")
            c.take("and")
        count = c.count()
        if count is None:
            c.back(before)
            break
        c.take("st")
        where = ""
        if c.take("on", "on the"):
            where = read_needle_name(c) or ""
        groups.append((count, where))
    if not groups or (bracket and not c.take(")")):
        c.back(start)
        return ()
    return tuple(groups)
