"""Markdown to blocks."""

from __future__ import annotations

from castoff.document.prose import HTML_IN_PROSE, PICTURE_IN_PROSE, Prose
from castoff.document.setting import Setting
from castoff.document.tree import (
    BulletList,
    Emphasis,
    Heading,
    LineBreak,
    Link,
    NumberedList,
    Paragraph,
    Strong,
    Text,
    plain_text,
)
from castoff.span import Text as SourceText


def prose() -> Prose:
    return Prose(Setting(("S", "M"), groups=(1,)), lambda formula: (Text(f"[{formula.value}]"),))


def blocks(text: str) -> tuple[object, ...]:
    return prose().blocks(SourceText.plain(text))


def test_paragraphs_emphasis_and_breaks() -> None:
    assert blocks("Use *soft* **wool**.  \nThen rest.\n\nAgain.") == (
        Paragraph((Text("Use "), Emphasis((Text("soft"),)), Text(" "), Strong((Text("wool"),)), Text("."), LineBreak(),
                   Text("Then rest."))),
        Paragraph((Text("Again."),)),
    )  # fmt: skip


def test_lists_and_headings() -> None:
    assert blocks("# Fit\n\n- one\n- two\n\n3. three") == (
        Heading(3, (Text("Fit"),)),
        BulletList(((Paragraph((Text("one"),)),), (Paragraph((Text("two"),)),))),
        NumberedList(((Paragraph((Text("three"),)),),), 3),
    )


def test_quotes_and_apostrophes_are_the_printer_s() -> None:
    (paragraph,) = blocks("Don't say \"never\": it's 1 dec'd.")
    assert isinstance(paragraph, Paragraph)
    assert plain_text(paragraph.inline) == "Don’t say “never”: it’s 1 dec’d."


def test_a_formula_is_set_and_its_signs_are_no_markdown() -> None:
    (paragraph,) = blocks("Knit {a * b} and {c * d} rounds.")
    assert isinstance(paragraph, Paragraph)
    assert plain_text(paragraph.inline) == "Knit [a * b] and [c * d] rounds."


def test_a_number_that_straddles_emphasis_is_left_to_its_parts() -> None:
    (paragraph,) = blocks("Cast on **84 (92)** sts.")
    assert isinstance(paragraph, Paragraph)
    assert plain_text(paragraph.inline) == "Cast on 84 (92) sts."


def test_addresses_become_links() -> None:
    (paragraph,) = blocks("Write to help@merrow.example, or see https://merrow.example/help.")
    assert isinstance(paragraph, Paragraph)
    links = [node.target for node in paragraph.inline if isinstance(node, Link)]
    assert links == ["mailto:help@merrow.example", "https://merrow.example/help"]
    assert plain_text(paragraph.inline) == "Write to help@merrow.example, or see https://merrow.example/help."


def test_html_is_refused_at_its_line() -> None:
    reader = prose()
    reader.blocks(SourceText.plain("First.\n\nUse <b>soft</b> wool."))
    found = reader.found[0]
    assert (found.rule, found.message, found.span and found.span.line) == (HTML_IN_PROSE, "`<b>` is HTML", 3)
    assert found.hint == "use Markdown: **strong**, *light*"


def test_a_block_of_html_is_refused() -> None:
    reader = prose()
    assert reader.blocks(SourceText.plain("<div>\nhello\n</div>")) == ()
    assert [found.rule for found in reader.found] == [HTML_IN_PROSE]


def test_a_picture_is_refused() -> None:
    reader = prose()
    reader.blocks(SourceText.plain("See ![the cap](cap.jpg)."))
    assert [(found.rule, found.message) for found in reader.found] == [
        (PICTURE_IN_PROSE, "picture `cap.jpg` inside a text")
    ]


def test_a_link_that_runs_a_script_stays_text() -> None:
    (paragraph,) = blocks("[here](javascript:alert)")
    assert isinstance(paragraph, Paragraph)
    assert not any(isinstance(node, Link) for node in paragraph.inline)
