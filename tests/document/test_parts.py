"""The parts of a document, each from a small pattern."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TypeVar

import pytest
from tests.document.sources import HEAD, TYPED, composed, edition_of, from_file, source

from castoff.document.compose import compose
from castoff.document.edition import Edition
from castoff.document.texts import Texts
from castoff.document.tree import (
    Block,
    BulletList,
    Caution,
    Document,
    FactList,
    Figure,
    Heading,
    InstructionList,
    Pair,
    Paragraph,
    Table,
    TickTable,
    TitlePage,
    plain_text,
    walk,
)
from castoff.pipeline import prove_text
from castoff.world import World

CAP = """\
With larger needles and A, cast on 80 (88, 96) sts. Place marker and join to work in the round.
Rnd 1: *K2, p2; rep from * to end.
Rep rnd 1 until piece measures 5 cm.
Knit 20 rnds.
Dec rnd: *K8, k2tog, pm; rep from * to last 0 (8, 6) sts, k to end. 72 (80, 87) sts.
Next rnd: Knit, removing markers.
Bind off all sts.
Weave in ends.
"""
MEASURES = """\
measurements:
  circumference: {label: Circumference, is: 40 (44, 48) cm}
"""
B = TypeVar("B", bound=Block)


def blocks(document: Document, kind: type[B]) -> Iterator[B]:
    for block in walk(document.blocks):
        if isinstance(block, kind):
            yield block


def facts(document: Document, key: str = "") -> dict[str, list[str]]:
    """The facts of a list as plain text: of the front page, or of the list behind a heading."""
    found: dict[str, list[str]] = {}
    here = ""
    for block in walk(document.blocks):
        if isinstance(block, Heading):
            here = block.key
        elif isinstance(block, FactList) and (block.key == "facts" if not key else here == key):
            for fact in block.facts:
                found[plain_text(fact.term)] = [plain_text(says).replace("\u00a0", " ") for says in fact.says]
    return found


def paragraphs(document: Document, key: str) -> list[str]:
    found = []
    here = ""
    for block in walk(document.blocks):
        if isinstance(block, Heading):
            here = block.key
        elif isinstance(block, Paragraph) and here == key:
            found.append(plain_text(block.inline).replace("\u00a0", " "))
    return found


def cells(table: Table) -> list[list[str]]:
    return [[plain_text(cell.inline).replace("\u00a0", " ") for cell in row] for row in (*table.head, *table.body)]


# ── the whole ─────────────────────────────────────────────────────────────────────────────────────


def test_the_order_of_the_parts_is_the_usual_one() -> None:
    document = composed(source(CAP, MEASURES + "notes: Mind the rib.\ncare: Hand wash.\nhelp: Ask us.\n"
                               "history: [{version: '1.0.0', date: 2026-11-01, change: First published.}]\n"))  # fmt: skip
    assert isinstance(document.blocks[0], TitlePage)
    assert [block.key for block in document.blocks if isinstance(block, Heading) and block.level == 2] == [
        "sizes", "schematic", "materials", "gauge", "abbreviations", "techniques", "notes", "instructions", "care",
        "cautions", "help", "history", "colophon",
    ]  # fmt: skip


def test_levels_of_headings_go_down_one_at_a_time() -> None:
    level = 1
    for heading in blocks(composed(source(CAP, MEASURES)), Heading):
        assert heading.level <= level + 1
        level = heading.level


def test_keys_are_given_once() -> None:
    for path in TYPED:
        keys = [block.key for block in walk(edition_of(from_file(path)).value.blocks) if getattr(block, "key", "")]
        assert len(keys) == len(set(keys)), path.stem


def test_the_same_input_gives_the_same_tree() -> None:
    assert composed(source(CAP, MEASURES)) == composed(source(CAP, MEASURES))


def test_meta() -> None:
    meta = composed(source(CAP), "metric size=M uk").meta
    assert (meta.title, meta.version, meta.date, meta.designer) == ("Trial Cap", "1.0.0", "2026-11-01", "Ines Farrow")
    assert (meta.language, meta.terms, meta.edition, meta.invented) == (
        "en-GB",
        "UK",
        "metric, A4, size M, UK terms",
        True,
    )


# ── front page, sizes ─────────────────────────────────────────────────────────────────────────────


def test_front_page() -> None:
    page = next(blocks(composed(source(CAP, MEASURES), "metric"), TitlePage))
    assert plain_text(page.title) == "Trial Cap"
    assert plain_text(page.kicker) == "Saltgrass & Tern"
    assert plain_text(page.byline) == "Designed by Ines Farrow"
    assert plain_text(page.summary) == "A cap for trials."
    assert plain_text(page.notice) == "Demonstration: an invented pattern"
    assert facts(composed(source(CAP, MEASURES), "metric")) | {"Yarn": []} == {
        "Sizes": ["S (M, L)", "To fit head 48 (52, 56) cm"],
        "Finished size": ["Circumference: 40 (44, 48) cm"],
        "Yarn": [],
        "Needles": ["5 mm (US 8, UK 6)"],
        "Gauge": [
            "20 sts and 28 rnds to 10 cm in stockinette stitch, worked in the round, on 5 mm needles, washed and dried."
        ],
        "Words": ["US terms: gauge, bind off, stockinette stitch"],
    }


def test_sizes_have_a_table_for_each_system_with_ease_that_adds_up() -> None:
    tables = [cells(table) for table in blocks(composed(source(CAP, MEASURES)), Table)]
    assert tables[0] == [
        ["Measure", "S", "M", "L"],
        ["To fit head", "48", "52", "56"],
        ["Finished circumference", "40", "44", "48"],
        ["Ease at the head", "−8", "−8", "−8"],
    ]
    # 48 cm are 18.9 in, 40 cm are 15.75: 19 and 15¾ by quarters, and the ease is their difference
    assert tables[1] == [
        ["Measure", "S", "M", "L"],
        ["To fit head", "19", "20½", "22"],
        ["Finished circumference", "15¾", "17¼", "19"],
        ["Ease at the head", "−3¼", "−3¼", "−3"],
    ]


def test_sizes_of_one_size_have_one_column_of_it() -> None:
    (table,) = blocks(composed(source(CAP, MEASURES), "both size=M"), Table)
    assert cells(table) == [
        ["Measure", "Size M"],
        ["To fit head", "52 cm", "20½ in"],
        ["Finished circumference", "44 cm", "17¼ in"],
        ["Ease at the head", "−8 cm", "−3¼ in"],
    ]


def test_on_a_web_page_of_one_size_either_system_can_be_chosen() -> None:
    document = composed(source(CAP), "web size=M")
    (table,) = [block for block in blocks(document, Table) if block.key == "sizes-table"]
    measured = [row[1].inline for row in table.body]
    assert all(len(row) == 2 and isinstance(row[1].inline[0], Pair) for row in table.body), measured
    assert plain_text(measured[0]).replace("\u00a0", " ") == "52 cm / 20½ in"


def test_sizes_in_large_print_have_a_narrow_table_for_each_measure() -> None:
    tables = list(blocks(composed(source(CAP, MEASURES), "large metric"), Table))
    assert [plain_text(table.caption) for table in tables] == [
        "To fit head", "Finished circumference", "Ease at the head",
    ]  # fmt: skip
    assert cells(tables[0]) == [["Size", "cm"], ["S", "48"], ["M", "52"], ["L", "56"]]


# ── materials ─────────────────────────────────────────────────────────────────────────────────────


def test_yarn_is_told_by_category_and_by_regional_names() -> None:
    # worsted is medium, category 4, aran in the UK, 10 ply in Australia (common practice; trade/yarn_weights.yaml)
    yarn = facts(composed(source(CAP)), "materials")["Yarn"]
    assert yarn[0] == "Low Tide Worsted in slate (100% wool); 200 m / 219 yd to 100 g / 3.5 oz."
    assert yarn[1] == "Weight: worsted (category 4, medium; UK: aran; Australia and New Zealand: 10 ply)."


def test_yarn_typed_is_printed_as_typed_and_bought_in_whole_balls() -> None:
    head = HEAD.replace("ball: 200 m / 100 g}", "ball: 200 m / 100 g, needs: 190 (200, 201) m}")
    yarn = facts(composed(source(CAP, head=head), "metric"), "materials")["Yarn"]
    assert yarn[2:] == ["Needed for each size: 190 (200, 201) m.", "To buy: 1 (1, 2) balls."]


def test_yarn_from_a_weighed_swatch_is_the_share_of_the_stitches() -> None:
    # a swatch of 10 by 10 cm holds 20 · 28 = 560 loops; 2.8 g of a yarn of 2 m a gram make 10 mm a loop
    swatch = "swatch:\n  stockinette: {width: 10 cm, height: 10 cm, mass: 2.8 g}\nmargin: 0%\n"
    text = "With larger needles and A, cast on 100 sts. Join to work in the round.\nKnit 98 rnds.\nBind off all sts."
    yarn = facts(composed(source(text, swatch), "metric"), "materials")["Yarn"]
    # 98 rounds and a bind-off of 100 loops, a cast-on of 200: 10,100 loops of 10 mm, two ends of 15 cm, and the swatch's
    # own 560 loops: 101 + 0.3 + 5.6 m, up to whole metres
    assert yarn[2] == "Needed for each size: 107 m (54 g), worked out from the stitches, with 0 % to spare."


def test_needles_have_every_system() -> None:
    needles = facts(composed(source(CAP)), "materials")["Needles"]
    assert needles == [
        "5 mm (US 8, UK 6) circular needle, 40 cm / 16 in long",
        "Or any size that gives you the gauge.",
    ]


@pytest.mark.parametrize(("size", "count"), [("S", 9), ("M", 9), ("L", 10)])
def test_markers_are_counted_where_most_are_in_use(size: str, count: int) -> None:
    # one for the round's beginning, and one behind every repeat of ten stitches: 8 (8, 9)
    notions = facts(composed(source(CAP), f"size={size}"), "materials")["Notions"]
    assert notions == [f"{count} stitch markers", "tapestry needle"]


def test_markers_of_all_sizes_are_a_list() -> None:
    assert facts(composed(source(CAP)), "materials")["Notions"][0] == "9 (9, 10) stitch markers"


ROPE = """stitch_patterns:
  rope:
    multiple: 8
    rows: |
      Rnd 1: *P2, {cable}, p2; rep from * to end.
      Rnd 2: *P2, k4, p2; rep from * to end.
"""
SPELLED = "sl 2 to cn and hold at front, k2, k2 from cn"
OWN = "stitches:\n  rp: {{takes: 4, makes: 4, words: rope, how: {how}}}\n"


@pytest.mark.parametrize(
    ("more", "row", "needed"),
    [
        (ROPE.format(cable="C4F"), "Work in rope for 4 rnds.", True),
        (ROPE.format(cable=SPELLED), "Work in rope for 4 rnds.", True),
        (ROPE.format(cable="k4"), "Work in rope for 4 rnds.", False),
        ("", f"Rnd 1: *P2, {SPELLED}, p2; rep from * to end.", True),
        ("", "Rnd 1: *P2, 2/2 RC, p2; rep from * to end.", True),
        ("", "Rnd 1: *P2, RT, p4; rep from * to end.", False),
        ("", "Size L only: Rnd 1: *P2, C4F, p2; rep from * to end.", True),
        (OWN.format(how="Sl 2 to cn, k2, k2 from cn."), "Rnd 1: *P2, rp, p2; rep from * to end.", True),
        (OWN.format(how="Knit the 3rd st first."), "Rnd 1: *P2, rp, p2; rep from * to end.", False),
    ],
)
def test_a_cable_needle_is_needed_where_stitches_are_crossed(more: str, row: str, needed: bool) -> None:
    work = f"CO 24 sts. Pm and join to work in the rnd.\n{row}\nBO all sts. Weave in ends."
    notions = facts(composed(source(work, more)), "materials")["Notions"]
    assert ("cable needle" in notions) is needed


def test_a_size_that_crosses_nothing_needs_no_cable_needle() -> None:
    work = """CO 24 sts. Pm and join to work in the rnd.
Size L only: *P2, C4F, p2; rep from * to end.
All sizes: Knit 2 rnds.
BO all sts. Weave in ends."""
    assert "cable needle" in facts(composed(source(work), "size=L"), "materials")["Notions"]
    assert "cable needle" not in facts(composed(source(work), "size=S"), "materials")["Notions"]


@pytest.mark.parametrize(
    ("holder", "notion"),
    [
        ("a holder", "1 stitch holder"),
        ("a holder for front", "1 stitch holder"),
        ("hold for front", "1 stitch holder"),
        ("waste yarn", "waste yarn"),
        ("waste yarn for front", "waste yarn"),
        ("a length of scrap yarn", "waste yarn"),
        ("a spare needle for front", "spare needle"),
        ("a spare dpn", "spare needle"),
        ("a safety pin for front", "1 safety pin"),
    ],
)
def test_stitches_wait_on_what_the_row_says(holder: str, notion: str) -> None:
    work = f"""CO 24 sts. Pm and join to work in the rnd.
Next rnd: K4, place next 5 sts on {holder}, k to end. 19 sts.
BO all sts.
Return 5 held sts to needle. Rejoin yarn.
Next rnd: BO all sts. Weave in ends."""
    notions = facts(composed(source(work)), "materials")["Notions"]
    assert notions == ["1 stitch marker", notion, "tapestry needle"]


def test_what_the_author_lists_is_not_listed_twice() -> None:
    notions = facts(composed(source(CAP, "notions: [darning needle, 1 button 20 mm]\n")), "materials")["Notions"]
    assert notions == ["9 (9, 10) stitch markers", "darning needle", "1 button 20 mm"]


def test_uk_editions_speak_of_tension() -> None:
    document = composed(source(CAP), "uk metric")
    assert plain_text(next(h.inline for h in blocks(document, Heading) if h.key == "gauge")) == "Tension"
    assert paragraphs(document, "gauge")[0].startswith("20 sts and 28 rnds to 10 cm in stocking stitch")


# ── glossary ──────────────────────────────────────────────────────────────────────────────────────


def test_abbreviations_are_those_in_print_and_no_others() -> None:
    assert facts(composed(source(CAP)), "abbreviations") == {
        "dec": ["decrease"], "k": ["knit"], "k2tog": ["knit two together"], "p": ["purl"], "pm": ["place marker"],
        "rep": ["repeat"], "rnd(s)": ["round(s)"], "sts": ["stitches"],
    }  # fmt: skip


def test_capitals_of_a_short_form_are_listed_as_typed() -> None:
    work = """CO 24 sts. Pm and join to work in the rnd.
Rnd 1: K2, 2/2 LC, M1L, k to end. 25 sts.
Rnd 2: K1, Ssk, k to end. 24 sts.
SSK row: SSK, k to end. 23 sts.
Rnd 4: K2tog, k to end. 22 sts.
Work in St st for 2 rnds.
BO all sts."""
    listed = facts(composed(source(work)), "abbreviations")
    assert list(listed) == [
        "2/2 LC", "BO", "CO", "k", "k2tog", "M1L", "pm", "rnd(s)", "Ssk", "St st", "sts",
    ]  # fmt: skip
    assert listed["2/2 LC"] == ["two over two left cross"]
    assert listed["Ssk"] == ["slip, slip, knit"]


def test_a_typed_list_is_printed_as_typed() -> None:
    more = "abbreviations:\n  k: knit\n  k2tog: knit two as one\n"
    assert facts(composed(source(CAP, more)), "abbreviations") == {"k": ["knit"], "k2tog": ["knit two as one"]}


def test_written_out_editions_need_no_abbreviations_but_explain_stitches() -> None:
    document = composed(source(CAP), "words")
    assert not facts(document, "abbreviations")
    assert facts(document, "techniques") == {"knit two together": ["Knit the next 2 stitches together as one."]}


def test_the_author_s_own_stitch_is_explained_in_the_author_s_words() -> None:
    how = "(K1, p1, k1) into next st, turn."
    own = f'stitches:\n  mb: {{takes: 1, makes: 1, words: make bobble, how: "{how}", symbol: "●"}}\n'
    text = "With larger needles and A, cast on 80 sts. Join to work in the round.\nRnd 1: *K3, mb; rep from * to end."
    document = composed(source(text, own))
    assert facts(document, "abbreviations")["mb"] == ["make bobble"]
    assert facts(document, "techniques")["mb"] == ["make bobble.", how]


# ── safety ────────────────────────────────────────────────────────────────────────────────────────


def test_a_baby_s_hat_is_kept_out_of_the_cot_before_a_stitch_is_cast_on() -> None:
    baby = source(CAP, "audience: baby\n")
    document = composed(baby)
    titles = [plain_text(block.title) for block in blocks(document, Caution)]
    assert "Not for sleep" in titles
    keys = [block.key for block in document.blocks if isinstance(block, Heading)]
    assert keys.index("cautions") < keys.index("instructions")


def test_buttons_bring_a_caution_for_the_smallest_only() -> None:
    buttons = "notions: [1 button 20 mm]\n"
    small = {plain_text(block.title) for block in blocks(composed(source(CAP, buttons + "audience: baby\n")), Caution)}
    grown = {plain_text(block.title) for block in blocks(composed(source(CAP, buttons)), Caution)}
    assert any("part" in title.lower() for title in small - grown), (small, grown)


# ── the claim ─────────────────────────────────────────────────────────────────────────────────────

PROVEN = "This pattern has been worked by machine in all 3 sizes, row by row, and every number in it was checked"


def test_the_claim_is_made_of_a_proven_pattern() -> None:
    # the trial lacks parts that a sold pattern has; what is left when these are put aside is the knitting
    document = edition_of(replace(prove_text("trial.yaml", source(CAP)), findings=())).value
    assert any(text.startswith(PROVEN) for text in paragraphs(document, "colophon"))


def test_the_claim_is_not_made_with_a_finding_left_open() -> None:
    wrong = source(CAP.replace("72 (80, 87) sts", "72 (80, 88) sts"))
    said = paragraphs(edition_of(prove_text("trial.yaml", wrong)).value, "colophon")
    assert not any(text.startswith(PROVEN) for text in said)
    assert "This pattern has been worked by machine in all 3 sizes; these points were not proven:" in said
    assert any(text.endswith("left open") for text in said)


def test_the_claim_is_not_made_of_work_taken_on_trust() -> None:
    trusted = source(CAP.replace("Weave in ends.", "On trust: work a crochet edging along the brim.\nWeave in ends."))
    said = paragraphs(edition_of(prove_text("trial.yaml", trusted)).value, "colophon")
    assert not any(text.startswith(PROVEN) for text in said)
    assert any("taken on trust" in text and "crochet edging" in text for text in said)


def test_invented_patterns_say_so() -> None:
    assert paragraphs(composed(source(CAP)), "colophon")[-1] == (
        "This is a demonstration: the pattern, its yarn, its designer and its publisher are invented."
    )


def test_sizes_that_were_test_knitted_are_named() -> None:
    assert "Test-knitted in sizes S and L." in paragraphs(composed(source(CAP, "tested: S, L\n")), "colophon")


# ── drawing, ticks ────────────────────────────────────────────────────────────────────────────────


def test_the_schematic_measures_every_size_and_says_it_in_words() -> None:
    document = composed(source(CAP, MEASURES), "metric")
    (figure,) = blocks(document, Figure)
    assert figure.alt == (
        "Drawing of the knitted piece in size S, with lettered arrows for the measures that are listed: "
        "cap: a tube laid flat that grows narrower towards the top."
    )
    measured = facts(document, "schematic")
    assert measured["A"] == ["Distance around at the lower edge: 40 (44, 48) cm"]
    assert measured["B"] == ["Distance around at the upper edge: 36 (40, 43.5) cm"]


def test_tick_lists_follow_the_rows_of_a_size() -> None:
    work = (
        "With larger needles and A, cast on 80 (88, 96) sts. Join to work in the round.\n"
        "Dec rnd: *K6, k2tog; rep from * to end. 70 (77, 84) sts.\nNext rnd: Knit.\n"
        "Dec rnd: *K5, k2tog; rep from * to end. 60 (66, 72) sts.\nNext rnd: Knit.\n"
        "Dec rnd: *K4, k2tog; rep from * to end. 50 (55, 60) sts.\nKnit 3 rnds.\nBind off all sts."
    )
    (table,) = blocks(composed(source(work), "size=M"), TickTable)
    ticked = [(plain_text(row.label), plain_text(row.remark).replace("\u00a0", " "), row.boxes) for row in table.rows]
    assert [boxes for *_, boxes in ticked] == [1, 1, 1, 1, 1, 3]
    assert [remark for _, remark, _ in ticked] == ["77 sts", "", "66 sts", "", "55 sts", ""]


def test_tick_lists_of_all_sizes_say_how_often_each_size_works_a_line() -> None:
    work = (
        "With larger needles and A, cast on 80 (88, 96) sts. Join to work in the round.\n"
        "Dec rnd: *K6, k2tog; rep from * to end. 70 (77, 84) sts.\nKnit 3 rnds.\n"
        "Next rnd: K2tog, k to end. 69 (76, 83) sts.\nPlain rnd: Knit.\n"
        "Rep last 2 rnds 4 (5, 6) more times. 65 (71, 77) sts.\nBind off all sts."
    )
    (table,) = blocks(composed(source(work)), TickTable)
    ticked = [(row.boxes, plain_text(row.says).replace("\u00a0", " ")) for row in table.rows]
    # the boxes are those of size L; where sizes differ, words say how many are whose
    assert ticked == [(1, "70 (77, 84) sts"), (3, ""), (7, "5 (6, 7) times; 65 (71, 77) sts")]
    (table,) = blocks(composed(source(work), "large size=S"), TickTable)
    assert [(row.boxes, row.times) for row in table.rows] == [(1, ()), (3, ()), (5, ())]


def test_findings_left_are_listed_once_a_rule() -> None:
    wrong = source(CAP.replace("72 (80, 87) sts", "72 (80, 88) sts"))
    document = edition_of(prove_text("trial.yaml", wrong)).value
    lists = [block for block in blocks(document, BulletList) if any("left open" in plain_text(p.inline)
             for item in block.items for p in item if isinstance(p, Paragraph))]  # fmt: skip
    assert len(lists) == 1


def test_a_mirrored_section_is_printed_in_full() -> None:
    rows = "Row 1 (RS): K1, ssk, k to end. 19 sts.\nRow 2: Purl.\nBind off all sts."
    other = "  - title: Other\n    piece: Other\n    mirrors: Body\n"
    text = source(f"With larger needles and A, cast on 20 sts.\n{rows}") + other
    first, second = blocks(composed(text), InstructionList)
    assert [plain_text(row.text) for row in first.rows][1] == "K1, ssk, k to end."
    assert [plain_text(row.text) for row in second.rows][1] == "K to last 3 sts, k2tog, k1."
    assert [row.stated and plain_text(row.stated) for row in second.rows][1] == "19 sts"


def test_prose_of_a_written_out_edition_has_no_short_forms() -> None:
    document = composed(source(CAP, "notes: Keep 4 sts on dpns; the RS faces you.\n"), "words")
    assert paragraphs(document, "notes") == ["Keep 4 stitches on double-pointed needles; the right side faces you."]


def test_editions_of_a_run_may_share_their_texts() -> None:
    proof = prove_text("trial.yaml", source(CAP))
    house = Texts(World.beside().template)
    assert proof.pattern and proof.numbers and proof.knitted and proof.trade
    lines = dict(enumerate(proof.lines))
    for edition in (Edition(), Edition("metric", size=1)):
        shared = compose(
            proof.pattern, proof.numbers, lines, proof.knitted, proof.trade, edition, house, proof.findings
        )
        assert shared.value == edition_of(proof, edition).value


def test_girths_of_a_published_table_are_printed_as_published() -> None:
    head = HEAD.replace("  body:\n    head: 48 (52, 56) cm\n", "  standard: women\n")
    more = "numbers:\n  arm: body.upper_arm + 4 cm\n  down: body.back_waist_length\n" + MEASURES
    (table, _) = blocks(composed(source(CAP, more, head)), Table)
    found = {row[0]: row[1:] for row in cells(table)}
    # Craft Yarn Council, women, upper arm of S, M and L (templates/trade/body_women.yaml names the copies seen)
    assert found["To fit upper arm"] == ["26", "28", "30.5"]
    assert not any("waist" in label for label in found)
