"""Stage 8: a document tree becomes bytes.

In: a `Document` and an `Edition`. Out: PDF (`pdf.press.render_pdf`), one HTML file (`html.render_html`) or plain text
(`text.render_text`). Every renderer prints the same tree in the same order; only `pdf/` imports the PDF library.
"""
