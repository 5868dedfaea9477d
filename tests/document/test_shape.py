"""The shape of a piece, and its outline."""

from __future__ import annotations

from fractions import Fraction

from tests.document.sources import CATALOGUE, ROOT, TYPED, edition_of, from_file

from castoff.document.outlines import across, outlines_of
from castoff.document.shape import Band, PieceShape, shapes_of
from castoff.document.tree import Circle, Drawing, Figure, Label, Polyline, plain_text, walk
from castoff.pipeline import Proof, prove_text

PULLOVER = ROOT / "tests" / "typed_patterns" / "skerry-pullover.yaml"


def mm(value: float) -> Fraction:
    return Fraction(str(value))


def test_a_divided_front_has_two_sides_as_wide_as_its_shoulders() -> None:
    proof = from_file(PULLOVER)
    assert proof.knitted is not None and proof.trade is not None
    shape = shapes_of(proof.knitted, proof.trade.stitches)["Front"][0]
    assert shape is not None
    # 102 sts at 22 to 10 cm; the sides begin with 41 sts and end with the 11 of the last step of the shoulder
    assert shape.bottom == shape.widest == shape.top == Fraction(102 * 1000, 220)
    assert [side[0].width for side in shape.sides] == [Fraction(41 * 1000, 220)] * 2
    assert [side[-1].width for side in shape.sides] == [Fraction(11 * 1000, 220)] * 2
    assert not shape.tube and shape.course == "narrower"


def test_a_sleeve_grows_wider() -> None:
    proof = from_file(PULLOVER)
    assert proof.knitted is not None and proof.trade is not None
    shape = shapes_of(proof.knitted, proof.trade.stitches)["Sleeve"][0]
    assert shape is not None
    # 42 to 80 sts, rib at the same gauge
    assert (shape.bottom, shape.top, shape.make, shape.course) == (
        Fraction(42 * 1000, 220), Fraction(80 * 1000, 220), 2, "wider",
    )  # fmt: skip


def test_a_picked_up_band_is_one_part() -> None:
    proof = from_file(PULLOVER)
    assert proof.knitted is not None and proof.trade is not None
    shape = shapes_of(proof.knitted, proof.trade.stitches)["Neckband"][0]
    assert shape is not None
    # 104 sts picked up at 22 to 10 cm
    assert (shape.bottom, shape.sides, shape.tube) == (Fraction(104 * 1000, 220), (), True)


def test_a_sock_turns_a_corner_and_is_not_drawn() -> None:
    proof = from_file(ROOT / "tests" / "typed_patterns" / "tidepool-socks.yaml")
    assert proof.knitted is not None and proof.trade is not None
    shape = shapes_of(proof.knitted, proof.trade.stitches)["Sock"][0]
    assert shape is not None and shape.corner and not shape.drawable


def test_outlines_keep_the_outer_edges_of_the_sides_upright() -> None:
    side = (Band(mm(40), mm(50), False), Band(mm(30), mm(20), False))
    shape = PieceShape((Band(mm(100), mm(200), False),), (side, side), mm(270), 1)
    main, left, right = outlines_of(shape, Fraction(1))
    assert {x for x, _ in main} == {-50, 50}
    assert min(x for x, _ in left) == -50 and max(x for x, _ in right) == 50
    assert max(y for _, y in left) == 270
    assert across(main, "width_bottom") == (mm(-50), mm(50), mm(0))


def test_bound_off_stitches_make_a_step_and_single_decreases_a_slope() -> None:
    step = PieceShape((Band(mm(100), mm(200), False), Band(mm(60), mm(20), False)), (), mm(220), 1)
    (outline,) = outlines_of(step, Fraction(1))
    assert {(mm(-50), mm(200)), (mm(-30), mm(200))} <= set(outline)
    slope = PieceShape((Band(mm(100), mm(200), False), Band(mm(98), mm(20), False)), (), mm(220), 1)
    (outline,) = outlines_of(slope, Fraction(1))
    assert (mm(-49), mm(200)) not in outline


def test_a_tube_is_drawn_flat_at_half_its_circumference() -> None:
    tube = PieceShape((Band(mm(400), mm(200), True),), (), mm(200), 1)
    assert tube.tube
    (outline,) = outlines_of(tube, Fraction(1, 2))
    assert {x for x, _ in outline} == {-100, 100}


FRONT = """\
written_for: 1
title: Trial Front
excerpt: true
sizes: {names: One size}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
yarns:
  A: {weight: worsted}
needles:
  larger: {size: 5 mm}
sections:
  - title: Left Front
    worked: flat
    work: |
      CO 40 sts.
      Work 28 rows in St st.
      Next row (RS): BO 6 sts, k to end. 34 sts.
      Next row: Purl.
      Dec row (RS): K to last 3 sts, k2tog, k1. 33 sts.
      Next row: Purl.
      Rep last 2 rows 9 more times. 24 sts.
      BO all sts.
"""


def test_a_front_has_a_straight_edge_and_a_shaped_one() -> None:
    proof = prove_text("trial.yaml", FRONT)
    assert proof.knitted is not None and proof.trade is not None
    (shape,) = shapes_of(proof.knitted, proof.trade.stitches)["Left Front"]
    assert shape is not None and not shape.centred
    # rows on the right side begin at the right edge: 6 sts of 5 mm go there at once, 10 at the left one by one
    assert [band.left for band in shape.main[:2]] == [0, 0] and shape.main[-1].left == 50
    (outline,) = outlines_of(shape, Fraction(1))
    assert {(mm(100), mm(100)), (mm(70), mm(100))} <= set(outline)
    # from there the right edge is straight to the top
    assert [y for x, y in outline if x == 70] == [shape.length, 100]
    assert min(x for x, y in outline if y == 0) == -100 and min(x for x, y in outline if y == shape.length) == -50
    # the greatest width is measured across, also where one edge has no corner
    assert across(outline, "width_widest")[:2] == (mm(-100), mm(100))
    assert "shared out" not in caption(proof)


def caption(proof: Proof) -> str:
    (figure,) = (block for block in walk(edition_of(proof).value.blocks) if isinstance(block, Figure))
    return plain_text(figure.caption)


def test_the_other_front_is_its_mirror_image() -> None:
    proof = prove_text("trial.yaml", FRONT + "  - title: Right Front\n    mirrors: Left Front\n")
    assert proof.sound and proof.knitted is not None and proof.trade is not None
    shapes = shapes_of(proof.knitted, proof.trade.stitches)
    outlines = []
    for name in ("Left Front", "Right Front"):
        (shape,) = shapes[name]
        assert shape is not None
        (outline,) = outlines_of(shape, Fraction(1))
        outlines.append(outline)
    top, other_top = ({x for x, y in outline if y == outline_top(outline)} for outline in outlines)
    assert top == {-x for x in other_top} == {mm(-50), mm(70)}


def outline_top(outline: list[tuple[Fraction, Fraction]]) -> Fraction:
    return max(y for _, y in outline)


def test_the_catalogue_s_cardigan_has_one_sided_fronts_and_an_even_back() -> None:
    proof = from_file(ROOT / "patterns" / "fulmar-cardigan.yaml")
    assert proof.knitted is not None and proof.trade is not None
    shapes = shapes_of(proof.knitted, proof.trade.stitches)
    centred = {name: {shape.centred for shape in shapes[name] if shape is not None} for name in shapes}
    assert centred["Left Front"] == centred["Right Front"] == {False}
    assert centred["Back"] == centred["Sleeve"] == {True}


def drawing_of(name: str) -> Drawing:
    blocks = walk(edition_of(from_file(ROOT / "patterns" / f"{name}.yaml")).value.blocks)
    return next(b.content for b in blocks if isinstance(b, Figure) and isinstance(b.content, Drawing))


def test_pieces_that_are_alike_are_drawn_once() -> None:
    names = [
        shape.text for shape in drawing_of("limpet-mittens").shapes if isinstance(shape, Label) and len(shape.text) > 1
    ]
    assert names == ["Left Mitten and Right Mitten", "Left Thumb and Right Thumb"]
    names = [
        shape.text for shape in drawing_of("fulmar-cardigan").shapes if isinstance(shape, Label) and len(shape.text) > 1
    ]
    # the fronts are mirror images, and both are drawn; the neckband stands below the other bands
    assert names[:4] == ["Back", "Left Front", "Right Front", "Sleeve (make 2)"]
    assert sorted(names[4:]) == ["Button Band and Buttonhole Band", "Neckband"]


def test_names_under_pieces_do_not_run_into_each_other() -> None:
    for path in CATALOGUE:
        for block in walk(edition_of(from_file(path)).value.blocks):
            if not isinstance(block, Figure) or not isinstance(block.content, Drawing):
                continue
            names = [each for each in block.content.shapes if isinstance(each, Label) and len(each.text) > 1]
            for one in names:
                for other in names:
                    apart = abs(one.x - other.x) >= (len(one.text) + len(other.text)) / 2 * 1.5
                    assert one is other or one.y != other.y or apart, (path.stem, one.text, other.text)


def test_every_drawing_lies_inside_its_frame() -> None:
    for path in TYPED:
        for block in walk(edition_of(from_file(path)).value.blocks):
            if not isinstance(block, Figure) or not isinstance(block.content, Drawing):
                continue
            drawing = block.content
            for shape in drawing.shapes:
                if isinstance(shape, Polyline):
                    points = shape.points
                else:
                    assert isinstance(shape, (Label, Circle))
                    points = ((shape.x, shape.y),)
                for x, y in points:
                    assert 0 <= x <= drawing.width_mm and 0 <= y <= drawing.height_mm, (path.stem, shape)
