"""What a line that cannot be read is told: the place, what was understood, and what was probably meant."""

from __future__ import annotations

import pytest
from tests.notation.vocabularies import corpus_vocabulary

from castoff.diagnostic import Diagnostic
from castoff.notation.lines import parse_line
from castoff.notation.syntax import UnreadLine
from castoff.span import Text


def _finding(text: str) -> Diagnostic:
    checked = parse_line(Text.plain(text), corpus_vocabulary())
    assert isinstance(checked.value, UnreadLine)
    assert len(checked.findings) == 1, [finding.message for finding in checked.findings]
    return checked.findings[0]


@pytest.mark.parametrize(
    ("text", "place", "hint"),
    [
        ("Row 1: K2, k2tgo, k to end.", "k2tgo", "did you mean `k2tog`?"),
        ("Row 1: K5, skk, k to end.", "skk", "did you mean `ssk`?"),
        ("Row 1: kl, p1.", "kl", "did you mean `k1`?"),
        ("Next rwo: Knit.", "rwo", "did you mean `row`?"),
        ("Nxt row: Knit.", "Nxt", "did you mean `next`?"),
        ("Chnage to larger needles.", "Chnage", "did you mean `change`?"),
        ("Work in stockinete until piece measures 10 cm.", "stockinete", "did you mean `stockinette`?"),
        ("Work in St st untill piece measures 10 cm.", "untill", "did you mean `until`?"),
        ("Place 20 sts on holdr.", "holdr", "did you mean `holder`?"),
        ("Bind of all sts.", "of", "did you mean `bind off`?"),
        ("Row 1: K2, p2; rep from * to end.", "*", "no `*` stands before it: put one where the repeat begins"),
        ("Row 1: *K2, p2; from * to end.", "from", "`rep` is missing: `rep from *`"),
        ("Row 1: *K2, p2.", ".", "missing: `rep from *` for the star that opens the repeat"),
        ("Row 1: (K2, p2, k to end.", "(", "missing: the bracket that closes this one"),
        ("Row 1: [K2, p2], k to end.", "k", "missing: how often the bracket is worked"),
        ("Row 1: K to, k2.", ",", "say how far: `to end`, `to last 2 sts`, `to m` or `to 3 sts before m`"),
        ("Row 1: K2, p2 to end.", "end", "a part that is repeated stands between marks: `*k2, p2; rep from * to end`"),
        ("Rep rows 1-4 more times.", "more", "say how many more times: `5 more times`"),
        ("Rep rows 1-4 5 more.", ".", "`times` is missing: `5 more times`"),
        ("Work in St st until piece measures 10.", "10", "a length needs its unit: `10 cm`"),
        ("With C, knit 1 row.", "C", "the yarns are A, B, MC, CC, CC1, CC2"),
        ("Change to bigger needles.", "bigger", "the needles are larger, smaller, dpns"),
        ("Sizes S and Q only: Knit 1 row.", "Q", "the sizes are S, M, L, XL"),
        ("Row 2 and all odd rows: Knit.", ":", 'missing: a label whose numbers and "even" or "odd" agree'),
        ("Row 1:", ":", "missing: what is worked in this row"),
        (
            "Place marker (zm) and join in the rnd.",
            "zm",
            "leave out the bracket that only explains the words before it",
        ),
        ("K to marked place.", "place", None),
        ("Cont to decrease 8 sts wherever you like.", "wherever", None),
        (
            "Rep rows 1-8 twice more, working one more rep of it.",
            "it",
            "missing: `each time` behind the repeats that come more often",
        ),
        (
            "Work even in hedgehog stitch for 10 cm.",
            "hedgehog",
            "the fabric is not known: give its rows under `stitch_patterns`, as `hedgehog stitch`",
        ),
        ("Row 1: K5, k tog with st.", "tog", None),
        ("Do the hokey cokey.", "Do", "a line for the reader alone starts with `>`"),
        (
            "Knit 8 rnds. The edge will curl; don't worry.",
            "edge",
            "a sentence for the reader alone: move it to a line of its own that starts with `>`",
        ),
        ("Knit 8 rnds. Then knit something 3 sts wobbly.", "something", None),
    ],
)
def test_the_place_and_the_hint_of_a_slip(text: str, place: str, hint: str | None) -> None:
    finding = _finding(text)
    assert finding.rule.name == "unread-words"
    assert finding.span is not None
    assert text[finding.span.start : finding.span.end] == place
    assert finding.hint == hint


def test_the_message_says_what_was_understood() -> None:
    assert _finding("Row 1: K2, k2tgo, k to end.").message == (
        "`k2tgo` cannot be read here; understood so far: `row 1: k2,`"
    )
    assert (
        _finding("Row 1: *K2, p2.").message
        == "the line ends where more is needed; understood so far: `row 1: *k2, p2.`"
    )


def test_a_yarn_that_is_not_listed_cannot_hide_in_a_heading() -> None:
    """ "Join Q and work as follows:" looks like one, but Q has to be a yarn of the pattern."""
    assert _finding("Join Q and work the colour pattern as follows:").span is not None
    assert parse_line(Text.plain("Join sleeves and body:"), corpus_vocabulary()).findings == ()


def test_an_instruction_cannot_hide_in_a_sentence_about_finishing() -> None:
    assert _finding("Sew in ends, then k2, p2 to end.").rule.name == "unread-words"
    assert _finding("Weave in ends and cast off 12 sts.").rule.name == "unread-words"


@pytest.mark.parametrize(
    ("text", "rule", "place", "message"),
    [
        ("Cast on 84 (92, 100) sts.", "sizes-miscounted", "84 (92, 100)", "3 numbers for 4 sizes"),
        ("Cast on 84 (92, 100, 108, 116) sts.", "sizes-miscounted", "84 (92, 100, 108, 116)", "5 numbers for 4 sizes"),
        (
            "Rep dec row every 6th (6th, 4th) row 3 times.",
            "sizes-miscounted",
            "6th (6th, 4th)",
            "3 numbers for 4 sizes",
        ),
        ("Row 1: K2.5, p to end.", "count-not-whole", "2.5", "2.5 is no whole count"),
        ("Row 1: K{half}, p to end.", "count-not-whole", "{half}", "{half} is no whole count: 21/2"),
        ("Row 1: K{unknown}, p to end.", "number-unresolved", "{unknown}", "`unknown` has no value"),
    ],
)
def test_numbers_that_cannot_be_counted_with(text: str, rule: str, place: str, message: str) -> None:
    finding = _finding(text)
    assert finding.rule.name == rule
    assert finding.span is not None
    assert text[finding.span.start : finding.span.end] == place
    assert finding.message == message


def test_one_size_that_is_no_whole_count_is_named() -> None:
    assert _finding("Row 1: K{half}, p to end.").sizes == ("S",)


def test_a_star_that_is_closed_is_not_missed() -> None:
    assert _finding("Rnd 1: *K2 in A, zzyx 1; rep from * around.").hint is None
    assert _finding("Rnd 1: *K2 in A, zzyx 1.").hint == "missing: `rep from *` for the star that opens the repeat"
