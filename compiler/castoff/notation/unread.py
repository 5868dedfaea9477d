"""Why a line could not be read: the word it stopped at, what was understood before it, and the nearest known wording.

In: a cursor after a failed attempt. Out: one `Diagnostic` at the word in question.
"""

from __future__ import annotations

import difflib

from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.cursor import Cursor
from castoff.notation.words import KEYS

UNREAD = Rule(
    "unread-words",
    "error",
    """Words of an instruction that cannot be knitted.

Every word of an instruction counts. A word that cannot be read would be printed unchecked, so it is an error; prose
for the knitter alone starts with `>`.

Fires:   `Row 1: K2, k2tgo, k to end.`
Silent:  `Row 1: K2, k2tog, k to end.`
""",
)
RULES = (UNREAD,)

_SLIPS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("k2tgo", "k2og", "k2tg", "k2to", "2ktog", "ktog", "k2gtog", "k2tog2"), "k2tog"),
    (("p2tgo", "p2tg", "p2to", "ptog"), "p2tog"),
    (("skk", "sk", "sks", "kss"), "ssk"),
    (("mk1", "mi", "mil", "mir"), "m1"),
    (("y0", "oy"), "yo"),
    (("kl", "ki", "ik"), "k1"),
    (("pl", "pi"), "p1"),
)
_STITCHES = (
    "k", "p", "k2tog", "p2tog", "k3tog", "p3tog", "ssk", "sssk", "ssp", "skp", "sk2p", "s2kp", "yo", "m1", "m1l",
    "m1r", "m1p",
    "kfb", "pfb", "sl", "pm", "sm", "rm", "turn", "w&t", "ktbl",
)  # fmt: skip
_WORDS = (
    "row", "rnd", "round", "rep", "repeat", "from", "end", "last", "next", "every", "foll", "alt", "times", "more",
    "until", "measures",
    "piece", "knit", "purl", "work", "cast", "bind", "pick", "slip", "place", "marker", "needle", "needles",
    "holder", "change",
    "continue", "pattern", "rib", "stockinette", "garter", "evenly", "across", "around", "increase", "decrease",
    "each", "join",
    "ending", "with", "beginning", "stitches", "sts", "remain", "using", "leaving", "through", "weave", "block", "sew",
)  # fmt: skip


_INSTRUCTIVE = frozenset(
    {"row", "rnd", "st", "rep", "inc", "dec", "bo", "co", "cast", "bind", "pick", "pu", "graft", "work", "rib", "patt",
     "turn", "holder", "hold", "m", "pm", "sm", "w&t", "until", "i-cord"}
)  # fmt: skip
_ORDINARY = frozenset(
    {"at", "mark", "marked", "marks", "marking", "same", "them", "these", "those", "this", "that", "both", "side",
     "sides", "also", "after", "before", "first", "second", "only", "other", "left", "right", "wrap", "wrapped",
     "wraps", "over", "under", "when", "while", "where", "here", "there", "within", "every", "manner", "way", "one", "two",
     "fewer", "less", "rotate", "slide", "remove", "resume", "centre", "divide", "strand", "point", "lace", "worked"}
)  # fmt: skip
"""Words that are spelled as they were meant, whatever known word lies near."""


def explain(c: Cursor) -> Diagnostic:
    """The finding for a line that stopped at `c.far`."""
    index = min(c.far, len(c.lexemes) - 1)
    if index and c.lexemes[index - 1].text in ("(", "[") and index - 1 not in c.closers:
        index -= 1  # a bracket that nothing closes is the fault, not the word behind it
    lexeme = c.lexemes[index]
    before = c.raw(0, index)
    if len(before) > 48:
        before = "…" + before[-47:]
    if lexeme.kind == "end":
        message = "the line ends where more is needed"
        start = c.lexemes[index - 1].start if index else 0
        span = c.line.span(start, lexeme.end)
    else:
        message = f"`{lexeme.text}` cannot be read here"
        span = c.line.span(lexeme.start, lexeme.end)
    if before:
        message += f"; understood so far: `{before}`"
    return Diagnostic.of(UNREAD, message, span, hint=_hint(c, lexeme.text, index) or None)


def _hint(c: Cursor, word: str, index: int) -> str:
    low = word.lower()
    for slips, meant in _SLIPS:
        if low in slips:
            return f"did you mean `{meant}`?"
    if low in ("mark", "marked", "marking"):
        return "read are `mark this st`, `mark the centre st`, and later `k to 2 sts before marked st`, `k marked st`"
    near = nearest(low, c)
    if near is not None:
        return f"did you mean `{near}`?"
    if low in ("psso", "p2sso"):
        return "a slipped st must stand before it: `sl 1, k1, psso`, `sl 1, k2tog, psso` or `sl 2 knitwise, k1, p2sso`"
    if _explaining_bracket(c, index):
        return "leave out the bracket that only explains the words before it"
    if c.wanted is not None and c.wanted[0] <= index:
        for slip in _SITUATIONS:
            told = slip(c, index)
            if told is not None:
                return told
        closed = c.wanted[1].startswith("`rep from") and any(
            [before.key, lexeme.key] == ["rep", "from"]
            for before, lexeme in zip(c.lexemes, c.lexemes[1:], strict=False)
        )
        if closed:  # the star is closed: it is the words between that nobody can read
            return ""
        if c.wanted[0] + 1 >= index or c.here.kind == "end" or not word.isalpha():
            return f"missing: {c.wanted[1]}"
    for slip in _SITUATIONS:
        told = slip(c, index)
        if told is not None:
            return told
    if not _instructs(c, 0, len(c.lexemes) - 1):
        return "a line for the reader alone starts with `>`"
    first, last = _sentence(c, index)
    if first and last > first and not _instructs(c, first, last):
        return "a sentence for the reader alone: move it to a line of its own that starts with `>`"
    return ""


def _sentence(c: Cursor, index: int) -> tuple[int, int]:
    """Where the sentence that a word stands in begins and ends."""
    stops = [at for at, lexeme in enumerate(c.lexemes[:-1]) if lexeme.key == "." and lexeme.kind == "mark"]
    first = max((at + 1 for at in stops if at < index), default=0)
    return first, min((at for at in stops if at >= index), default=len(c.lexemes) - 1)


def _instructs(c: Cursor, first: int, last: int) -> bool:
    """Whether words tell of stitches or rows: those are not put behind `>`, where nobody would check them."""
    return any(
        lexeme.stitch is not None
        or lexeme.key in _INSTRUCTIVE
        or (lexeme.numbers is not None and c.lexemes[index + 1].key in ("st", "row", "rnd", "times", "more"))
        for index, lexeme in enumerate(c.lexemes[first:last], first)
    )


def _no_star(c: Cursor, index: int) -> str | None:
    """ "K2, p2; rep from * to end" without the star that opens the repeat."""
    mark = c.lexemes[index].text
    called = mark[:1] in ("*", "†", "‡") and c.lexemes[index - 1].key in ("from", "between")
    if called and all(lexeme.text != mark for lexeme in c.lexemes[:index]):
        return f"no `{mark}` stands before it: put one where the repeat begins"
    return None


def _explaining_bracket(c: Cursor, index: int) -> bool:
    """ "place marker (pm) and join": one word in brackets behind a word of the trade."""
    for at in (index, index - 2):  # the word itself, or what stands behind its bracket
        if 1 < at < len(c.lexemes) - 1 and [c.lexemes[at - 1].key, c.lexemes[at + 1].key] == ["(", ")"]:
            break
    else:
        return False
    inside, before = c.lexemes[at], c.lexemes[at - 2]
    return inside.kind == "word" and inside.numbers is None and before.kind == "word" and before.stitch is None


def _no_rep(c: Cursor, index: int) -> str | None:
    """ "*K2, p2; from * to end"."""
    if c.lexemes[index].key == "from" and c.lexemes[min(index + 1, len(c.lexemes) - 1)].text[:1] == "*":
        return "`rep` is missing: `rep from *`"
    return None


def _no_place(c: Cursor, index: int) -> str | None:
    """ "K to, k2"."""
    if c.lexemes[index - 1].key == "to" and c.lexemes[index].kind in ("mark", "end"):
        return "say how far: `to end`, `to last 2 sts`, `to m` or `to 3 sts before m`"
    return None


def _no_times(c: Cursor, index: int) -> str | None:
    """ "Rep rows 1–4 more times", "rep rows 1–4 5 more"."""
    key, previous = c.lexemes[index].key, c.lexemes[index - 1]
    counted = previous.key == "#" and c.lexemes[index - 2].key not in ("-", "row", "rnd", "and", ",")
    if key == "more" and not counted:
        return "say how many more times: `5 more times`"
    ends = c.lexemes[index].kind in ("mark", "end")
    behind = [lexeme.key for lexeme in c.lexemes[max(0, index - 4) : index]]
    if ends and behind[1:] == ["#", "more", "times"] and behind[0] in ("-", "row", "rnd", "and", ","):
        return "say how many more times: `5 more times`"
    if (previous.key == "more" and ends) or (previous.key == "#" and c.lexemes[index - 2].key == "rep"):
        return "`times` is missing: `5 more times`"
    return None


def _no_unit(c: Cursor, index: int) -> str | None:
    """ "until piece measures 10"."""
    if c.lexemes[index].kind == "number" and c.lexemes[index - 1].key in ("meas", "for", "another"):
        return f"a length needs its unit: `{c.lexemes[index].text} cm`"
    return None


def _no_size(c: Cursor, index: int) -> str | None:
    """ "Sizes S and Q only:"."""
    if any(lexeme.key in ("size", "sizes") for lexeme in c.lexemes[:index]) and index < 12:
        return f"the sizes are {', '.join(c.vocabulary.sizes)}"
    return None


def _no_yarn(c: Cursor, index: int) -> str | None:
    """ "With C, knit 1 row"."""
    previous = c.lexemes[index - 1].key
    text = c.lexemes[index].text
    if previous in ("with", "join", "yarn", "in", "break", "using") and text.isupper() and c.vocabulary.yarns:
        return f"the yarns are {', '.join(c.vocabulary.yarns)}"
    if previous in ("to", "with", "using") and c.lexemes[min(index + 1, len(c.lexemes) - 1)].key in ("needle", "dpn"):
        return f"the needles are {', '.join(c.vocabulary.needles)}"
    return None


def _half_a_verb(c: Cursor, index: int) -> str | None:
    """ "Bind of all sts"."""
    if c.lexemes[index].key == "of" and c.lexemes[index - 1].key in ("bind", "cast"):
        return f"did you mean `{c.lexemes[index - 1].text.lower()} off`?"
    return None


def _no_repeat(c: Cursor, index: int) -> str | None:
    """ "K2, p2 to end": what goes on to the end stands in stars or brackets."""
    keys = [lexeme.key for lexeme in c.lexemes[max(0, index - 2) : index + 1]]
    if keys == ["#", "to", "end"] or (keys[1:] == ["#", "to"] and c.lexemes[index - 2].stitch is not None):
        return "a part that is repeated stands between marks: `*k2, p2; rep from * to end`"
    return None


def _no_fabric(c: Cursor, index: int) -> str | None:
    """ "Work even in hedgehog st for 10 cm"."""
    before = [lexeme.key for lexeme in c.lexemes[:index] if lexeme.key not in ("the", "even", "est")][-2:]
    if c.lexemes[index].kind == "word" and before in (["work", "in"], ["cont", "in"], ["working", "in"], ["to", "in"]):
        return f"the fabric is not known: give its rows under `stitch_patterns`, as `{_name_at(c, index)}`"
    return None


def _name_at(c: Cursor, index: int) -> str:
    """The words of a fabric that is not known, up to how far it goes."""
    stop = index
    while c.lexemes[stop].kind == "word" and c.lexemes[stop].key not in ("for", "until", "over", "to", "and", "on"):
        stop += 1
    return c.raw(index, stop)


def _no_number(c: Cursor, index: int) -> str | None:
    """ "Inc evenly across row": how many, nobody can guess."""
    before = [lexeme.key for lexeme in c.lexemes[:index]]
    change = next((at for at in range(index - 1, -1, -1) if before[at] in _CHANGES), None)
    if change is None or "evenly" not in before[change:] or "#" in before[change:]:
        return None
    word = "inc" if before[change].startswith("in") else "dec"
    return f"say how many: `{word} 8 sts evenly across row`, or how many there are to be: `{word} evenly to 80 sts`"


_CHANGES = ("inc", "dec", "increase", "decrease", "increasing", "decreasing")

_SITUATIONS = (
    _no_number, _no_fabric, _no_star, _no_rep, _no_repeat, _no_yarn, _no_place, _no_times, _no_unit, _no_size, _half_a_verb,
)  # fmt: skip


def nearest(low: str, c: Cursor) -> str | None:
    """The known word that a mistyped one most likely stands for; None when it is known or none is near."""
    if len(low) < 2 or not low[0].isalpha():
        return None
    own = [name.lower() for name in c.vocabulary.own_stitches]
    keys = [key for key in (*c.vocabulary.needles, *c.vocabulary.stitch_patterns) if " " not in key]
    known = (*own, *_STITCHES, *_WORDS, *keys)
    if low in known or low in KEYS or low in _ORDINARY or low in KEYS.values() or c.stitch(low) is not None:
        return None
    # letters that changed places are the commonest slip, and a likeness by runs of letters rates them low
    swapped = [word for word in known if len(word) > 2 and sorted(word) == sorted(low)]
    found = swapped or difflib.get_close_matches(low, known, 1, 0.74)
    return found[0] if found else None
