"""Abbreviations and the words of either side of the sea; source keys as in the data files."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import pytest

from castoff.trade import Trade, load_trade
from castoff.trade.table import TradeTableError

Side = Literal["US", "UK"]


@pytest.mark.parametrize(
    ("token", "words"),
    # each expansion stands so in at least two of d, sw, sp, nn, cv and km, save those with another source beside them
    [
        ("alt", "alternate"), ("approx", "approximately"), ("beg", "beginning"), ("CC", "contrasting color"),
        ("cn", "cable needle"), ("cont", "continue"), ("dpn", "double-pointed needle"), ("foll", "following"),
        ("inc", "increase 1 stitch"), ("kfb", "knit into front and back"), ("k2tog", "knit 2 together"),
        ("LH", "left hand"),
        ("m1", "make 1"), ("MC", "main color"), ("p2tog", "purl 2 together"), ("patt", "pattern"),
        ("pm", "place marker"),
        ("psso", "pass slipped stitch over"), ("rem", "remaining"), ("rep", "repeat"), ("rnd", "round"),
        ("RS", "right side"),
        ("sk2p", "slip 1, knit 2 together, pass slipped stitch over"),
        ("skp", "slip 1, knit 1, pass slipped stitch over"),
        ("sl", "slip"), ("sm", "slip marker"), ("ssk", "slip, slip, knit"), ("st", "stitch"), ("sts", "stitches"),
        ("St st", "stockinette stitch"), ("tbl", "through back loop"), ("tog", "together"), ("WS", "wrong side"),
        ("w&t", "wrap and turn"), ("wyib", "with yarn in back"), ("wyif", "with yarn in front"), ("yo", "yarn over"),
        ("yfwd", "yarn forward"), ("yon", "yarn over needle"), ("yrn", "yarn round needle"),
        ("g st", "garter stitch"),
        ("est", "established"), ("prev", "previous"), ("incl", "including"), ("co", "cast on"), ("bo", "bind off"),
        ("rev St st", "reverse stockinette stitch"), ("meas", "measures"), ("mult", "multiple"), ("sk", "skip"),
    ],
)  # fmt: skip
def test_expansions(trade: Trade, token: str, words: str) -> None:
    assert trade.expansion(token) == words


def test_expansions_in_uk_words(trade: Trade) -> None:
    uk = {token: trade.expansion(token, "UK") for token in ("St st", "MC", "BO", "cm", "rnd", "MS")}
    assert uk == {
        "St st": "stocking stitch", "MC": "main colour", "BO": "cast off", "cm": "centimetres", "rnd": "round",
        "MS": "main shade",
    }  # fmt: skip
    assert trade.expansion("MS", "US") == "main color"


def test_an_unknown_abbreviation_has_no_expansion(trade: Trade) -> None:
    assert trade.expansion("xyz") is None
    assert trade.abbreviations.find("K") is None


@pytest.mark.parametrize(
    ("token", "name"),
    [("St st", "St st"), ("st st", "St st"), ("STS", "sts"), ("rnds", "rnd"), ("PM", "pm"), ("slm", "sm"),
     ("rep.", "rep"),
     ("pat", "patt"), ("BOR", "bor"), ("mkr", "m"), ("ins", "in"), ("rev st st", "rev St st")],
)  # fmt: skip
def test_spellings(trade: Trade, token: str, name: str) -> None:
    entry = trade.abbreviations.find(token)
    assert entry is not None
    assert entry.name == name


def test_yarn_to_the_front_makes_no_stitch_and_yarn_forward_does(trade: Trade) -> None:
    # sw: yf moves the yarn; sp, km, yt: yfwd makes a stitch. The two are never merged
    yf = trade.abbreviations.find("yf")
    assert yf is not None
    assert yf.kind == "position"
    assert trade.stitches.find("yf") is None
    yfwd = trade.stitches.find("yfwd")
    assert yfwd is not None
    assert (yfwd.takes, yfwd.makes, yfwd.region) == (0, 1, "UK")


def test_edges_have_counts(trade: Trade) -> None:
    counts = {name: (e.takes, e.makes) for name in ("co", "bo", "pu") if (e := trade.abbreviations.find(name))}
    assert counts == {"co": (0, 1), "bo": (1, 0), "pu": (0, 1)}


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("bind off", "cast off"), ("gauge", "tension"),  # tk, ih
        ("stockinette stitch", "stocking stitch"), ("reverse stockinette", "reverse stocking stitch"),  # mh, km
        ("seed stitch", "moss stitch"),  # mh
        ("skp", "skpo"),  # cv, tr
        ("work even", "work straight"), ("every other row", "every alternate row"), ("main color", "main colour"),
    ],
)  # fmt: skip
def test_pairs(trade: Trade, us: str, uk: str) -> None:
    assert trade.terms.word(us, "UK") == uk
    assert trade.terms.word(us, "US") == us
    assert trade.terms.translate(f"Then {us} to the end.", "UK") == f"Then {uk} to the end."


def test_moss_stitch_is_another_stitch_in_the_us(trade: Trade) -> None:
    # mh: US seed = UK moss; uk (magazine, 2020-04): US moss = UK double moss. The bare word proves nothing
    assert trade.terms.word("double moss stitch", "US") == "moss stitch"
    assert trade.terms.foreign("Work in moss stitch.", "US") == ()
    assert [term.instead for term in trade.terms.foreign("Work in double moss stitch.", "US")] == ["moss stitch"]
    assert [term.instead for term in trade.terms.foreign("Work in seed stitch.", "UK")] == ["moss stitch"]


@pytest.mark.parametrize(
    ("before", "after", "word"),  # km, sp and yt
    [("knit", "knit", "yfwd"), ("purl", "purl", "yrn"), ("purl", "knit", "yon"), ("knit", "purl", "yfrn")],
)
def test_which_uk_yarn_over(
    trade: Trade, before: Literal["knit", "purl"], after: Literal["knit", "purl"], word: str
) -> None:
    assert trade.terms.yarn_over(before, after, "UK") == word
    assert trade.terms.yarn_over(before, after, "US") == "yo"
    stitch = trade.stitches.find(word)
    assert stitch is not None
    assert stitch.change == 1


@pytest.mark.parametrize(
    ("text", "terms", "found"),
    [
        ("Cast off loosely; check tension.", "US", [("Cast off", "Bind off"), ("tension", "gauge")]),
        ("Bind off loosely; check gauge.", "UK", [("Bind off", "Cast off"), ("gauge", "tension")]),
        ("Cast on and work in rib.", "US", []),
        ("Cast on and work in rib.", "UK", []),
        ("Work in stocking\nstitch.", "US", [("stocking\nstitch", "stockinette stitch")]),
        ("COLOUR A", "US", [("COLOUR", "COLOR")]),
        ("Intensions", "US", []),
        ("BO all sts", "UK", [("BO", "cast off")]),
    ],
)
def test_words_of_the_other_side(trade: Trade, text: str, terms: Side, found: list[tuple[str, str]]) -> None:
    terms_found = trade.terms.foreign(text, terms)
    assert [(term.found, term.instead) for term in terms_found] == found
    assert all(text[term.start : term.end] == term.found for term in terms_found)


def test_translation_leaves_no_foreign_word(trade: Trade) -> None:
    text = "Bind off in stockinette stitch, work even, every other row, in main color; skp. Gauge matters."
    uk = trade.terms.translate(text, "UK")
    assert uk == (
        "Cast off in stocking stitch, work straight, every alternate row, in main colour; skpo. Tension matters."
    )
    assert trade.terms.foreign(uk, "UK") == ()


@pytest.mark.parametrize(
    ("file", "old", "new", "fault"),
    [
        (
            "abbreviations",
            "approx: {words: approximately, kind",
            "approx: {kind",
            "abbreviations › approx: has no `words`",
        ),
        (
            "abbreviations",
            "approximately, kind: word",
            "approximately, kind: wrd",
            "`wrd` is not known here; is `word` meant?",
        ),
        ("terms", "gauge: {us: gauge, uk: tension", "gauge: {us: gauge", "pairs › gauge: has no `uk`"),
        ("terms", "{before: purl, after: purl", "{before: knit, after: knit", "has no yarn over between purl and purl"),
        ("terms", "shared: [moss st]", "shared: [mos st]", "`mos st` is none of the words of this pair"),
    ],
)
def test_a_faulty_house_table(read_template: Callable[[str], str], file: str, old: str, new: str, fault: str) -> None:
    text = read_template(f"trade/{file}.yaml")
    assert text.count(old) == 1
    trade = load_trade(lambda name: text.replace(old, new))
    with pytest.raises(TradeTableError) as caught:
        _ = trade.abbreviations if file == "abbreviations" else trade.terms
    assert fault in str(caught.value)
    assert caught.value.file == f"trade/{file}.yaml"
    assert caught.value.line > 0
