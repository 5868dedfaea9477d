"""Set phrases: words that change nothing on the needle, listed so that only they may be passed over.

In: nothing. Out: `REMARKS`, phrases that may follow an action or a step, each as the keys of its words; a phrase in
`INSTRUCTIVE` tells the knitter how, not how many. Longest first, so that the whole phrase is taken.
Everything else in a line must be understood.
"""

from __future__ import annotations

from types import MappingProxyType

from castoff.notation.cursor import Cursor
from castoff.notation.words import key_of

_REMARKS = """
being careful not to twist
being careful not to twist sts
being careful not to twist the sts
being careful not to twist your sts
being careful not to twist the cast on
being careful not to twist cast-on
being careful not to twist cast-on edge
being careful not to twist it
being careful that sts are not twisted
taking care not to twist
taking care not to twist sts
taking care not to twist the sts
taking care not to twist your sts
taking care not to twist it
making sure not to twist your sts
making sure not to twist it
do not turn at the end of the last row
do not turn at the end of last row
do not turn at the end of the row
carry unused colours loosely up the side
carry unused colours up the side
carry the unused colour loosely up the side
carry unused yarn loosely up the side
carry unused yarn up the side
carrying unused colours loosely up the side
carrying unused colours up the side
carrying unused yarn up the side
leave a gap for the thumb
leaving a gap for the thumb
not too tightly
but not too tightly
taking care not to twist the cast-on
taking care not to twist the cast-on edge
taking care not to twist the work
taking care that the sts are not twisted
making sure not to twist
making sure not to twist sts
making sure not to twist the sts
making sure that the sts are not twisted
making sure sts are not twisted
without twisting
without twisting sts
without twisting the sts
do not turn
do not turn after last row
do not turn after the last row
do not turn at end of last row
to fasten off
rotate work
rotate the work
rotate piece
turn work inside out
turn inside out
do not join
do not twist
do not twist sts
do not turn the work
do not turn work
without turning
without turning the work
slide sts to other end of needle
slide sts to the other end of needle
slide sts to the other end of the needle
slide the sts to the other end of the needle
slide work to other end of needle
slide work to the other end of needle
slide all sts to the other end of the needle
slide sts back to the other end of the needle
do not break yarn
do not break off yarn
do not break off the yarn
do not cut yarn
do not cut the yarn
as follows
as you go
as you come to them
as they come
as you reach them
as they appear
as necessary
as needed
as required
if necessary
if needed
if desired
when necessary
when needed
throughout
for rib
for the rib
for patt
for the patt
to form rib
to form patt
to form the patt
to set patt
at the same tension
carrying yarn not in use loosely up the side
carrying yarns up the side
carry yarn not in use loosely up the side
carry the yarn not in use up the side
carry yarn not in use up inside of work
carrying the yarn not in use up the inside of the tube
using a stretchy method
firmly
loosely
very loosely
tightly
neatly
evenly
securely
carefully
leaving a long tail
leaving a long tail for sewing
leaving a long tail for sewing up
leaving a long tail for seaming
leaving a long tail for the seam
leaving a long tail for seam
leaving a tail for the seam
leaving a long end for the seam
leaving a long end for sewing
leaving a long end for sewing up
leaving a tail
leaving a long end
leaving a tail for sewing
pull tight
pull tightly
pull firmly
draw up tight
draw up tightly
draw up firmly
draw tight
pulling tight
pull up tight
pull tight to close
pull tight to close the top
pull up tightly
draw up
gather up
and secure
secure
as for the first half
as for first half
as for the first side
as for the other side
ready to start the next row
ready to start next rnd
you may want to count your sts
changing to dpns when necessary
changing to dpns when sts no longer fit on circular needle
changing to dpn when necessary
switching to dpns when necessary
change to dpns when necessary
change to dpns when required
change to dpns when there are too few sts for the circular needle
when there are too few sts
when there are too few sts for the circular needle
when there are too few sts to go round the circular needle
when there are too few sts to go around the circular needle
when there are too few sts to work on the circular needle
when there are too few sts to work comfortably on the circular needle
when there are too few sts to fit comfortably on the circular needle
when sts no longer fit on circular needle
when sts no longer fit on the circular needle
when sts no longer fit comfortably on circular needle
when sts no longer fit comfortably on the circular needle
when sts no longer stretch round the circular needle
when there are too few sts to stretch round the circular needle
stranding yarn not in use loosely across the back
stranding the yarn not in use loosely across the back
stranding yarn not in use loosely at the back
stranding the yarn not in use loosely at the back
stranding yarn not in use loosely across the ws
stranding the yarn not in use loosely across the ws
stranding yarn not in use loosely on the ws
stranding the yarn not in use loosely on the ws
stranding yarns loosely across the back
strand yarn not in use loosely across the back
strand the yarn not in use loosely across the back
strand yarn not in use loosely at the back
strand the yarn not in use loosely at the back
strand the yarn not in use loosely across the ws
working each yo as a st
working each yo as one st
in place of these sts
in place of those sts
in place of sts on holder
in place of the sts on holder
in place of held sts
in place of the held sts
in their place
work each side separately
working each side separately
each side is worked separately
work each side of neck separately
working each side of neck separately
work each side of the neck separately
or until piece is desired length
or until work is desired length
or until scarf is desired length
or until blanket is desired length
or until piece is the desired length
or until work is the desired length
or until piece is as long as desired
or until desired length
or desired length
( or desired length )
( or to desired length )
( or until desired length )
or to desired length
or to the desired length
work the colour patt as follows
working the colour patt as follows
carry unused yarn up the side
carry unused yarn loosely up the side
carrying yarn up the side
carrying unused yarn up the side
carrying unused yarn loosely up the side
meas at centre front
meas at centre back
meas at the centre front
meas at the centre back
meas down centre back
meas along centre back
meas along the side
meas flat
when laid flat
when meas flat
slightly stretched
without stretching
when slightly stretched
fasten securely on ws
fasten off securely on ws
secure on ws
and fasten securely on ws
after cast-off
after bind-off
using german short rows
using short rows
with short rows
with german short rows
pull tight to gather sts
pull tightly to gather sts
to gather sts
to close top
to close the top
to close the hole
to close hole
to close
do not block too hard
working extra sts into patt
working the extra sts into patt
working inc sts into patt
working the inc sts into patt
working increased sts into patt
working the increased sts into patt
working new sts into patt
working the new sts into patt
taking inc sts into patt
taking the inc sts into patt
taking extra sts into patt
taking the extra sts into patt
taking increased sts into patt
bringing inc sts into patt
bringing extra sts into patt
incorporating new sts into patt
incorporating the new sts into patt
incorporating increased sts into patt
working extra sts into rib
keeping patt correct
keeping the patt correct
keeping patt as set
keeping patt as est
keeping to patt
keeping in patt
keeping continuity of patt
keeping the continuity of patt
keeping continuity of the patt
keeping rib correct
keeping edges as est
keeping edge sts as est
keeping edge sts as set
maintaining patt
maintaining patt as est
maintaining the patt
maintaining est patt
maintaining garter edges
maintaining garter st edges
maintaining edge sts
maintaining rib
keeping garter edges
keeping garter st edges
keeping garter st borders
maintaining garter borders
maintaining garter st borders
with tapestry needle
with a tapestry needle
using tapestry needle
using a tapestry needle
with yarn needle
turn work inside out
turn piece inside out
leave sts on needle
leave sts on the needle
leave all sts on needle
leaving sts on needle
slip the first st of every row
slip the first st of each row
slip first st of every row
slip first st of each row
slipping the first st of every row
slipping the first st of each row
slipping first st of every row
with same needle
with the same needle
using the same needle
onto the same needle
""" + "\n".join(
    " ".join(word for word in (verb, whose, evenly, over, what) if word)
    for verb in ("divide", "distribute", "arrange", "spread")
    for whose in ("", "sts", "the sts")
    for evenly in ("", "evenly")
    for over in ("over", "on", "onto", "among", "between")
    for what in ("dpns", "your dpns", "the dpns", "needles", "your needles", "the needles")
)
_REMARKS += "\n" + "\n".join(
    f"{change} to {what} when {when}"
    for change in ("change", "changing", "switch", "switching")
    for what in ("dpns", "the dpns", "dpn")
    for when in (
        "sts no longer fit on circular needle",
        "sts no longer fit comfortably on circular needle",
        "sts no longer fit comfortably on the circular needle",
        "sts no longer fit on the circular needle",
        "sts no longer fit comfortably",
        "sts no longer fit",
        "there are too few sts",
        "necessary",
        "needed",
        "there are too few sts to fit comfortably on circular needle",
        "there are too few sts for circular needle",
    )
)
_REMARKS += "\n" + "\n".join(
    " ".join(word for word in (lead, the, "wraps", where) if word)
    for lead in (
        "there is no need to pick up",
        "you do not need to pick up",
        "you don't need to pick up",
        "no need to pick up",
        "do not pick up",
    )
    for the in ("", "the")
    for where in ("", "in garter st", "in garter")
)
_REMARKS += "\n" + "\n".join(
    f"{lead} {the}instep sts {where}".replace("  ", " ")
    for lead in ("let", "leave", "leaving", "letting")
    for the in ("", "the ")
    for where in (
        "rest on the cable",
        "rest on your cable",
        "resting on the cable",
        "on the cable",
        "to rest on the cable",
        "rest on the other needle",
    )
)
_REMARKS += "\n" + "\n".join(
    " ".join(word for word in ("or", until, "desired length", where) if word)
    for until in ("", "to", "until", "to your", "to the")
    for where in (
        "to top of heel",
        "to heel",
        "to top of heel flap",
        "to underarm",
        "to the underarm",
        "before toe",
        "to start of toe",
        "to beg of toe",
        "to armhole",
        "to base of fingers",
        "to base of thumb",
        "to thumb",
        "of leg",
        "of cuff",
        "of sleeve",
        "of foot",
        "of body",
    )
)
_REMARKS += "\n" + "\n".join(
    " ".join(word for word in (verb, the, what, "not in use", loosely, where, of) if word)
    for verb in ("strand", "stranding")
    for the in ("", "the")
    for what in ("yarn", "colour")
    for loosely in ("", "loosely")
    for where in (
        "across back",
        "across the back",
        "at back",
        "at the back",
        "along back",
        "along the back",
        "behind work",
        "across ws",
        "across the ws",
        "on ws",
        "on the ws",
    )
    for of in ("", "of work", "of the work")
)

_REMARKS += "\n" + "\n".join(
    " ".join(word for word in (the, working, "yarn", still, "attached", where) if word)
    for the in ("", "the")
    for working in ("", "working")
    for still in ("", "still")
    for where in ("", *(f"to {part}" for part in (
        "body", "the body", "back", "the back", "front", "the front", "left front", "the left front", "right front",
        "the right front", "sleeve", "the sleeve", "left sleeve", "the left sleeve", "right sleeve", "the right sleeve",
    )))
)  # fmt: skip
_REMARKS += "\n" + "\n".join(
    f"{verb} {what} {tog}"
    for verb in ("with", "holding", "hold", "place", "placing")
    for what in ("rs", "ws", "right sides", "wrong sides", "rs of work", "ws of work")
    for tog in ("together", "facing each other")
)
_REMARKS += "\n" + "\n".join(
    " ".join(word for word in (verb, work, how) if word)
    for verb in ("rotate", "turn", "then rotate")
    for work in ("", "work", "the work", "piece", "the piece")
    for how in (
        "again",
        "90 degrees again",
        "90 degrees",
        "90 degrees clockwise",
        "90°",
        "90° clockwise",
        "a quarter turn",
        "a quarter turn clockwise",
    )
)
_REMARKS += "\n" + "\n".join(
    " ".join(word for word in (first, last, turn, behind) if word)
    for turn in ("do not turn", "don't turn")
    for first, last, behind in (
        *(
            (at, row, "")
            for at in ("at end of", "at the end of", "after")
            for row in ("last row ,", "the last row ,", "last row", "the last row", "row ,", "this row ,")
        ),
        *(
            ("", "", f"{at} {row}")
            for at in ("at end of", "at the end of", "after")
            for row in ("last row", "the last row", "row", "this row")
        ),
        ("", "", ""),
    )
)
_REMARKS += "\n" + "\n".join(
    " ".join(word for word in ("", using, needle, "larger", why) if word)
    for using in ("using", "with")
    for needle in (
        "a needle a size",
        "a needle one size",
        "a needle two sizes",
        "a needle 1 size",
        "a needle 2 sizes",
        "needles one size",
        "needles two sizes",
        "needles 1 size",
        "needles 2 sizes",
        "needles a size",
    )
    for why in (
        "",
        "if you tend to bind off tightly",
        "if you tend to cast off tightly",
        "if you bind off tightly",
        "if you cast off tightly",
        "if necessary",
        "if needed",
    )
)


_REMARKS += "\n" + "\n".join(
    " ".join(word for word in (verb, the, which, "sts", into, what) if word)
    for verb in ("working", "taking", "bringing", "incorporating", "keeping")
    for the in ("", "the", "all")
    for which in ("inc", "increased", "extra", "new", "added", "additional")
    for into in ("into", "in")
    for what in ("patt", "the patt", "rib", "the rib", "rib patt", "est patt")
)


def _keys(phrase: str) -> tuple[str, ...]:
    return tuple(key_of(word) for word in phrase.split())


REMARKS: tuple[tuple[str, ...], ...] = tuple(
    sorted(dict.fromkeys(_keys(line) for line in _REMARKS.strip().splitlines()), key=len, reverse=True)
)
"""The set phrases, longest first."""

FIRST_WORDS = frozenset(keys[0] for keys in REMARKS)
"""What a set phrase can begin with."""


def _by_first() -> dict[str, tuple[tuple[str, ...], ...]]:
    found: dict[str, list[tuple[str, ...]]] = {}
    for keys in REMARKS:
        found.setdefault(keys[0], []).append(keys)
    return {first: tuple(phrases) for first, phrases in found.items()}


BY_FIRST = MappingProxyType(_by_first())
"""The set phrases by their first word, longest first."""


def is_remark(words: str) -> bool:
    """Whether words as typed are one of the set phrases."""
    return _keys(words.lower().replace(",", " ,")) in REMARKS


def read_phrase(c: Cursor) -> bool:
    """Reads one of the set phrases."""
    for keys in BY_FIRST.get(c.here.key, ()):
        if all(c.peek(index).key == key or c.peek(index).text == key for index, key in enumerate(keys)):
            c.at += len(keys)
            c.reach()
            return True
    return False
