"""PDF: a document tree set on pages, tagged (PDF/UA-1) and archival (PDF/A-2a) in one file.

In: a `Document`, an `Edition`, a `Style` and the templates' files. Out: the bytes of a PDF, by `press.render_pdf`.

ReportLab writes the file and subsets the fonts; lines, pages and the structure tree are made here. On the way a block
becomes *strips* (a line of text, a table row, a figure: pieces that no page break may cut), strips are dealt out to
pages, and only then is anything drawn, so that page numbers are known before the first page is. Lengths are points,
x to the right and y up as in PDF, unless a name says otherwise.
"""
