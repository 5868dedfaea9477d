"""Lace and cables that read the same from both ends: a row that does not, where the others do.

In: the rows of a section in one size, in order. Out: a fault for a row that stands alone in being uneven: one that is
shifted by a stitch or two, a decrease or crossing that leans as its answer at the other end does, or one without an answer.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from castoff.knitting.fabric import Done, RowRecord, Worked
from castoff.knitting.faults import COLUMNS_SHIFTED, ENDS_UNLIKE, fault
from castoff.knitting.state import SizeState

LONGEST_TEXT = 600
_PLAIN = frozenset(("k", "p", "k tbl", "p tbl", "sl"))
_MIRROR = {"k2tog": "ssk", "ssk": "k2tog", "skp": "k2tog", "m1l": "m1r", "m1r": "m1l", "p2tog": "ssp", "ssp": "p2tog"}
_ONE_NAME = {"skp": "ssk", "skpo": "ssk", "sk2p": "cdd", "s2kp": "cdd", "k3tog": "cdd", "sssk": "cdd", "cdd": "cdd"}
_CABLE = re.compile(r"([ct]\d+)([fb])(.*)")


def check_both_ways(state: SizeState, records: Sequence[RowRecord]) -> None:
    """Looks through the rows of a section for one that is uneven where the others of its kind are not."""
    told = list({(id(each.span), each.label): each for each in reversed(records)}.values())
    told.reverse()
    laces, cables = [], []
    for record in told:
        names = {stitch for (_, stitch), _ in record.tally}
        if any(_CABLE.fullmatch(name) for name in names):
            cables.append(record)
        elif "yo" in names and len(names - _PLAIN) > 1 and any(not isinstance(each, Done) for each in record.worked):
            laces.append(record)
    _odd_one(state, laces)
    _odd_one(state, cables)


def _odd_one(state: SizeState, rows: Sequence[RowRecord]) -> None:
    if len(rows) < 3:
        return
    texts = [_text(record.worked) for record in rows]
    if any(text is None for text in texts):
        return
    even = [_reads_both_ways(text) for text in texts if text is not None]
    if even.count(False) != 1:
        return
    at = even.index(False)
    text = texts[at]
    assert text is not None, "texts were looked through above"
    moved, lean, bare = _would_read(text), _leans_one_way(text), _unanswered(text)
    span, label = rows[at].span, rows[at].label
    if lean is not None:
        found = fault(
            ENDS_UNLIKE,
            span,
            "{label} answers {one} with {one}: in the other rows of the pattern what leans one way is answered by what "
            "leans the other",
            hint="`{two}` for one of them",
            label=label,
            one=lean,
            two=_other_way(lean),
        )
    elif moved:
        found = fault(
            COLUMNS_SHIFTED,
            span,
            "{label} stands {by} st{s} to one side: the other rows of the pattern read the same from both ends, "
            "this one does not",
            hint="move {by} st{s} from one end of the row to the other",
            label=label,
            by=moved,
            s="" if moved == 1 else "s",
        )
    elif bare is not None and len(rows) > (2 if bare == "yo" else 3):
        found = fault(
            ENDS_UNLIKE,
            span,
            "{label} has {names} with no answer at the other end: the other rows of the pattern read the same from both "
            "ends, this one does not",
            hint="something is missing from the row, or there is one too many",
            label=label,
            names=bare,
        )
    else:
        return
    state.report(found)


def _text(worked: Sequence[Worked]) -> list[str] | None:
    text: list[str] = []
    for each in worked:
        if isinstance(each, Done):
            text.extend([_ONE_NAME.get(each.stitch, each.stitch)] * min(each.count, LONGEST_TEXT + 1))
        else:
            inner = _text(each.body)
            if inner is None or len(inner) * each.times > LONGEST_TEXT:
                return None
            text.extend(inner * each.times)
        if len(text) > LONGEST_TEXT:
            return None
    return text


def _other_way(name: str) -> str:
    """What answers a stitch at the other end: the one that leans the other way, or itself."""
    cable = _CABLE.fullmatch(name)
    if cable is not None:
        return f"{cable[1]}{'b' if cable[2] == 'f' else 'f'}{cable[3]}"
    return _MIRROR.get(name, name)


def _reads_both_ways(text: Sequence[str]) -> bool:
    return list(text) == [_other_way(name) for name in reversed(text)]


def _unlike(text: Sequence[str]) -> list[tuple[str, str]]:
    """Each stitch and the one at its place from the other end, where the two do not answer each other."""
    return [(one, two) for one, two in zip(text, reversed(text), strict=True) if one != _other_way(two)]


def _leans_one_way(text: Sequence[str]) -> str | None:
    """The stitch that stands where its mirror should, when that is all that keeps the row from reading both ways."""
    pairs = _unlike(text)
    kinds = {one for one, _ in pairs}
    alike = len(kinds) == 1 and all(one == two for one, two in pairs)
    return pairs[0][0] if alike else None


def _unanswered(text: Sequence[str]) -> str | None:
    """Shaping stitches of a row whose places at the other end hold plain ones, when that is all that is wrong with it."""
    pairs = _unlike(text)
    if any((one in _PLAIN) == (two in _PLAIN) for one, two in pairs):
        return None
    names = dict.fromkeys(name for pair in pairs for name in pair if name not in _PLAIN)
    return " and ".join(names) if 0 < len(names) < 3 else None


def _would_read(text: Sequence[str]) -> int:
    """By how many plain stitches, taken from one end and put to the other, the row would read both ways; 0 if not."""
    for by in (1, 2):
        if all(name == "k" for name in text[:by]) and _reads_both_ways([*text[by:], *text[:by]]):
            return by
        if all(name == "k" for name in text[-by:]) and _reads_both_ways([*text[-by:], *text[:-by]]):
            return by
    return 0
