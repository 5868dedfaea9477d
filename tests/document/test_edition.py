"""Editions: words in, a choice and a file name out."""

from __future__ import annotations

import pytest

from castoff.document.edition import USUAL_SETS, Edition, EditionError, parse_edition, usual_editions

NAMES = ("S", "M/L", "0–3 mo", "2XL")


@pytest.mark.parametrize(
    ("words", "edition", "slug"),
    [
        ("metric", Edition("metric"), "metric-a4-standard"),
        ("Imperial, Letter", Edition("imperial", "Letter"), "imperial-letter-standard"),
        ("large either plain", Edition(paper="either", reading="large", pictures=False), "both-either-large-plain"),
        ("text words uk", Edition(reading="text", written_out=True, terms="UK"), "both-text-words-uk"),
        ("size=m/l", Edition(size=1), "both-a4-standard-size-m-l"),
        ('web size="0-3 mo"', Edition(reading="web", size=2), "both-web-size-0-3-mo"),
        ("size=4", Edition(size=3), "both-a4-standard-size-2xl"),
    ],
)
def test_words_make_an_edition(words: str, edition: Edition, slug: str) -> None:
    assert parse_edition(words, NAMES) == edition
    assert edition.slug(NAMES) == slug


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("metrc", "unknown edition word `metrc`; did you mean `metric`?"),
        ("metric inches", "`metric` and `inches` cannot both be the units of an edition"),
        ("size=XS", "no size `XS`: the sizes are S, M/L, 0–3 mo, 2XL"),
        ("size=9", "no size `9`: the sizes are S, M/L, 0–3 mo, 2XL"),
        ("  ", "an edition needs at least one word, such as `metric` or `large`"),
    ],
)
def test_a_faulty_word_is_told(words: str, message: str) -> None:
    with pytest.raises(EditionError) as error:
        parse_edition(words, NAMES)
    assert str(error.value) == message


def test_every_edition_of_a_set_has_a_file_name_of_its_own() -> None:
    for name, editions in USUAL_SETS:
        assert usual_editions(name) == editions
        files = [edition.name + edition.suffix for edition in editions]
        assert len(set(files)) == len(files)
    with pytest.raises(EditionError, match="did you mean `print`"):
        usual_editions("prnt")


def test_sizes_with_one_slug_fall_back_to_their_place() -> None:
    assert Edition(size=0).slug(("S!", "S?")) == "both-a4-standard-size-1"
    assert Edition(size=1).name == "both-a4-standard-size-2"


def test_the_stamp_says_the_choices() -> None:
    edition = Edition("metric", "either", "large", size=1, written_out=True, pictures=False, terms="UK")
    assert edition.description(NAMES) == (
        "metric, A4 or Letter, large print, size M/L, written out, without pictures, UK terms"
    )
