"""Editions: words in, a choice and a file name out."""

from __future__ import annotations

import pytest

from castoff.document.edition import USUAL_SETS, Edition, EditionError, parse_edition, usual_editions
from castoff.per_size import Axes, Choice, Option, SizeNames

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


NECK = Option("neck", (Choice("crew", "crew neck"), Choice("v", "V neck")))
TOPS = SizeNames.of(Axes(("S", "M", "L"), "cup", ("B", "D"), (NECK,)))


@pytest.mark.parametrize(
    ("words", "edition", "slug", "stamp"),
    [
        (
            "metric neck=crew",
            Edition("metric", kept=((2, 0),)),
            "metric-a4-standard-neck-crew",
            "metric, A4, crew neck",
        ),
        (
            'Neck="V neck" letter cup=d',
            Edition(paper="Letter", kept=((1, 1), (2, 1))),
            "both-letter-standard-cup-d-neck-v",
            "metric and inches, Letter, cup D, V neck",
        ),
        (
            "size=M cup=D neck=v",
            Edition(size=10),
            "both-a4-standard-size-m-cup-d-v-neck",
            "metric and inches, A4, size M, cup D, V neck",
        ),
        (
            'size="M, cup D, V neck"',
            Edition(size=10),
            "both-a4-standard-size-m-cup-d-v-neck",
            "metric and inches, A4, size M, cup D, V neck",
        ),
    ],
)
def test_an_edition_keeps_one_choice(words: str, edition: Edition, slug: str, stamp: str) -> None:
    assert parse_edition(words, TOPS) == edition
    assert edition.slug(TOPS) == slug
    assert edition.description(TOPS) == stamp


def test_sizes_of_a_choice_are_those_printed() -> None:
    assert [TOPS[size] for size in parse_edition("cup=D neck=v", TOPS).sizes(TOPS)] == [
        "S, cup D, V neck", "M, cup D, V neck", "L, cup D, V neck",
    ]  # fmt: skip
    assert parse_edition("metric", TOPS).sizes(TOPS) == tuple(range(12))
    assert parse_edition("size=M/L", NAMES).sizes(NAMES) == (1,)


@pytest.mark.parametrize(
    ("words", "names", "message"),
    [
        ("neck=boat", TOPS, "no neck `boat`: the choices are crew, v"),
        ("collar=boat", TOPS, "there is no `collar` to choose: an edition keeps one choice with `cup=` or `neck=`"),
        ("neck=v", NAMES, "there is no `neck` to choose: an edition keeps one size with `size=`"),
        ("neck=v neck=crew", TOPS, "`neck=v` and `neck=crew` cannot both be the choice of neck of an edition"),
        ("size=M neck=v", TOPS, "size `M` comes in 2 choices: say `cup=` as well"),
        ('size="M, cup D, V neck" neck=crew', TOPS, "size `M, cup D, V neck` is not of crew neck"),
        ("size=S size=2XL", NAMES, "`size=S` and `size=2XL` cannot both be the size of an edition"),
    ],
)
def test_a_choice_that_cannot_be_kept_is_told(words: str, names: tuple[str, ...], message: str) -> None:
    with pytest.raises(EditionError) as error:
        parse_edition(words, names)
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
