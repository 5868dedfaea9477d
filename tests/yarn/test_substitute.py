"""Another yarn instead."""

from fractions import Fraction

import pytest
from tests.yarn.test_estimate import ring

from castoff.terminal.yarn import YarnWordsError, read_band, read_put_up, show_substitute
from castoff.trade.materials import PutUp


def test_put_ups_and_bands_are_read() -> None:
    assert read_put_up("105 m / 50 g") == PutUp(Fraction(105000), Fraction(50))
    assert read_put_up("50 g / 105 m") == PutUp(Fraction(105000), Fraction(50))
    assert read_put_up("100 yd / 50 g") == PutUp(Fraction(91440), Fraction(50))
    assert read_band("22-20") == (Fraction(20), Fraction(22))
    assert read_band(None) is None


@pytest.mark.parametrize("text", ["105 m", "105 / 50 g", "105 m / 50 m", "a ball"])
def test_what_is_no_put_up_is_told(text: str) -> None:
    with pytest.raises(YarnWordsError, match="is no put-up"):
        read_put_up(text)


def test_a_thinner_yarn_takes_fewer_balls_and_is_doubted() -> None:
    told = show_substitute(ring(), "200 m / 50 g", "26-28", "A")
    assert "1" in told.splitlines()[2]
    assert "78 % thinner" in told
    assert "the band gives 26 to 28 stitches to 10 cm" in told


def test_a_like_yarn_is_not_doubted() -> None:
    assert "nothing speaks against it but a swatch" in show_substitute(ring(), "112 m / 50 g", "17-19", "B")
