"""Garments whose parts do not fit: made from the clean ones of the catalogue by one wrong number."""

from __future__ import annotations

from pathlib import Path

import pytest

from castoff.diagnostic import Diagnostic
from castoff.pipeline import prove_text

ROOT = Path(__file__).parents[2]
CARDIGAN = (ROOT / "patterns" / "fulmar-cardigan.yaml").read_text("utf-8")
RAGLAN = (ROOT / "patterns" / "merrow-raglan.yaml").read_text("utf-8")
RULES = {"cap-does-not-fit", "seam-edges-differ", "neck-too-small", "cuff-too-small", "picked-up-off", "part-off-body"}


def found(source: str) -> list[Diagnostic]:
    return [finding for finding in prove_text("garment.yaml", source).findings if finding.rule.name in RULES]


def changed(source: str, old: str, new: str) -> str:
    assert source.count(old) >= 1, old
    source = source.replace(old, new, 1)
    if "pick up and knit {" in old:
        # as many are bound off as were picked up, so that nothing else is wrong
        name, number = old[old.index("{") : old.index("}") + 1], new.rsplit(". ", 1)[1].removesuffix(" sts.")
        source = source.replace(f"Bind off all {name} sts", f"Bind off all {number} sts", 1)
    return source


def test_the_garments_themselves_fit() -> None:
    assert found(CARDIGAN) == []
    assert found(RAGLAN) == []


def test_a_cap_that_cannot_fit_its_armhole() -> None:
    """The cap is decreased in every RS row, as fast as can be."""
    cap = "  cap: spread(cap_decs, over={}, on=RS)"
    source = changed(CARDIGAN, cap.format("cap_rows"), cap.format("2 * cap_decs"))
    told = [finding for finding in found(source) if finding.rule.name == "cap-does-not-fit"]
    assert len(told) == 1
    assert told[0].hint is not None and "rows higher" in told[0].hint
    assert "too short" in told[0].message and " = " in told[0].message


def test_an_armhole_that_grew_without_its_cap() -> None:
    source = changed(CARDIGAN, "rows(body.armhole_depth * 0.8 + 6 cm, gauge=stockinette, parity=odd, to=up)",
                     "rows(body.armhole_depth * 0.8 + 6 cm, gauge=stockinette, parity=odd, to=up)\n"
                     "  deeper_rows: armhole_rows + 16")  # fmt: skip
    source = source.replace("until armhole measures {armhole},",
                            "until armhole measures {length(deeper_rows, gauge=stockinette)},")  # fmt: skip
    assert "cap-does-not-fit" in [finding.rule.name for finding in found(source)]


def test_fronts_whose_side_seams_are_longer_than_the_back() -> None:
    old = "work in stockinette stitch until left front measures {body_length} from cast-on edge"
    source = changed(CARDIGAN, old, old.replace("{body_length}", "{body_length + 5 cm}"))
    (told,) = found(source)
    assert told.rule.name == "seam-edges-differ"
    # 5 cm are 15 rows, and one more to end with a WS row: 5.3 cm, less half of the row between the two armholes
    assert told.message == (
        "the side seam of `Back` is 36.5 cm long and that of `Left Front` 41.7 cm in XS: 5.2 cm apart"
    )
    assert told.hint == "shorten `Left Front` or lengthen the other, by about 15 rows"


@pytest.mark.parametrize(
    ("source", "old", "new", "rule"),
    [
        (CARDIGAN, "pick up and knit {band_sts} sts along left front edge. {band_sts} sts.",
         "pick up and knit {band_sts - 30} sts along left front edge. {band_sts - 30} sts.", "picked-up-off"),
        (RAGLAN, "pick up and knit {cast_on} sts along neck cast-on edge. {cast_on} sts.",
         "pick up and knit {cast_on - 40} sts along neck cast-on edge. {cast_on - 40} sts.", "picked-up-off"),
        (RAGLAN, "pick up and knit {cast_on} sts along neck cast-on edge. {cast_on} sts.",
         "pick up and knit 64 sts along neck cast-on edge. 64 sts.", "neck-too-small"),
        (RAGLAN, 'is: "width(upper_arm_sts, gauge=stockinette)"', "is: 24 cm", "part-off-body"),
    ],
)  # fmt: skip
def test_one_wrong_number(source: str, old: str, new: str, rule: str) -> None:
    assert rule in [finding.rule.name for finding in found(changed(source, old, new))]


def test_a_gauge_may_say_how_far_it_stretches() -> None:
    small = changed(RAGLAN, "pick up and knit {cast_on} sts along neck cast-on edge. {cast_on} sts.",
                    "pick up and knit 64 sts along neck cast-on edge. 64 sts.")  # fmt: skip
    stretchy = changed(small, "needles: smaller}", "needles: smaller, stretch: 100%}")
    assert "neck-too-small" in [finding.rule.name for finding in found(small)]
    assert "neck-too-small" not in [finding.rule.name for finding in found(stretchy)]
