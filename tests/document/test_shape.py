"""The shape of a piece, and its outline."""

from __future__ import annotations

from fractions import Fraction

from tests.document.sources import ROOT, TYPED, edition_of, from_file

from castoff.document.outlines import across, outlines_of
from castoff.document.shape import Band, PieceShape, shapes_of
from castoff.document.tree import Circle, Drawing, Figure, Label, Polyline, walk

PULLOVER = ROOT / "tests" / "typed_patterns" / "skerry-pullover.yaml"


def mm(value: float) -> Fraction:
    return Fraction(str(value))


def test_a_divided_front_has_two_sides_as_wide_as_its_shoulders() -> None:
    proof = from_file(PULLOVER)
    assert proof.knitted is not None
    shape = shapes_of(proof.knitted)["Front"][0]
    assert shape is not None
    # 102 sts at 22 to 10 cm; the sides begin with 41 sts and end with the 11 of the last step of the shoulder
    assert shape.bottom == shape.widest == shape.top == Fraction(102 * 1000, 220)
    assert [side[0].width for side in shape.sides] == [Fraction(41 * 1000, 220)] * 2
    assert [side[-1].width for side in shape.sides] == [Fraction(11 * 1000, 220)] * 2
    assert not shape.tube and shape.course == "narrower"


def test_a_sleeve_grows_wider() -> None:
    proof = from_file(PULLOVER)
    assert proof.knitted is not None
    shape = shapes_of(proof.knitted)["Sleeve"][0]
    assert shape is not None
    # 42 to 80 sts, rib at the same gauge
    assert (shape.bottom, shape.top, shape.make, shape.course) == (
        Fraction(42 * 1000, 220), Fraction(80 * 1000, 220), 2, "wider",
    )  # fmt: skip


def test_a_picked_up_band_is_one_part() -> None:
    proof = from_file(PULLOVER)
    assert proof.knitted is not None
    shape = shapes_of(proof.knitted)["Neckband"][0]
    assert shape is not None
    # 104 sts picked up at 22 to 10 cm
    assert (shape.bottom, shape.sides, shape.tube) == (Fraction(104 * 1000, 220), (), True)


def test_a_sock_turns_a_corner_and_is_not_drawn() -> None:
    proof = from_file(ROOT / "tests" / "typed_patterns" / "tidepool-socks.yaml")
    assert proof.knitted is not None
    shape = shapes_of(proof.knitted)["Sock"][0]
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
