"""A web page: the whole edition in one HTML file that needs no network and no script.

In: a `Document` and a `Style`. Out: UTF-8 HTML 5. Pictures are inside the file, drawings are SVG; it reads on a
telephone, prints on any paper and follows the reader's own size of type and dark mode. A chooser lets the reader pick
one size and one system of units; it works by a small script, without which all are shown, as printed.
"""

from __future__ import annotations

from base64 import b64encode
from html import escape
from itertools import count

from castoff.document.tree import (
    Abbreviation,
    Block,
    Blocks,
    BulletList,
    Caution,
    Cell,
    ChartGrid,
    Columns,
    Contents,
    Document,
    Drawing,
    Emphasis,
    FactList,
    Figure,
    Heading,
    Inline,
    Inlines,
    InstructionList,
    KeepTogether,
    LineBreak,
    Link,
    NoBreak,
    NumberedList,
    PageBreak,
    Pair,
    Paragraph,
    Picture,
    Quantity,
    Rule,
    SizeList,
    StitchTerm,
    Strong,
    Table,
    Text,
    TickTable,
    TitlePage,
    headings,
    plain_text,
)
from castoff.render.style import Style
from castoff.render.svg import chart_svg, drawing_svg, symbol_svg

SHEET = """\
:root{color-scheme:light dark;--ink:%(ink)s;--accent:%(accent)s;--muted:%(muted)s;--line:%(line)s;--panel:%(panel)s;\
--caution:%(caution)s;--paper:#fff}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1.0625rem/1.55 Georgia,'Iowan Old Style',serif}
main,footer{max-width:46rem;margin:0 auto;padding:1rem 1.25rem}
h1,h2,h3,h4,h5,h6{color:var(--accent);line-height:1.2;text-wrap:balance}
h1{font-size:clamp(2rem,7vw,3.2rem);font-weight:400;margin:.4em 0 .2em}
h2{border-top:1px solid var(--accent);padding-top:.4em;margin-top:2.2em;font-weight:400;font-size:1.7rem}
.kicker{color:var(--accent);letter-spacing:.09em;font-weight:700;font-size:.85rem}
.byline{font-style:italic}.lead,.summary{font-size:1.25rem}
.small,.credit,.colophon,figcaption,footer{font-size:.85rem;color:var(--muted)}
.notice{color:var(--caution);font-weight:700;font-size:.9rem}.note{font-style:italic}
dl{border-block:1px solid var(--accent);padding:.6em 0;margin:1.5em 0}
dt{font-weight:700;color:var(--accent)}dd{margin:0 0 .4em}
dl.glossary{border:0;padding:0}
@media(min-width:38rem){dl{display:grid;grid-template-columns:minmax(6rem,max-content) 1fr;column-gap:1.5rem}
dd{grid-column:2}}
.rows{list-style:none;padding:0}.rows>li{margin:.6em 0;display:flow-root}
.rows .in1{margin-left:1.5em}.rows .in2{margin-left:3em}
.label{font-weight:700;color:var(--accent)}.stated{float:right;font-weight:700;color:var(--accent);padding-left:1em}
.n{white-space:nowrap}.scroll{overflow-x:auto}.scroll:focus-visible{outline:2px solid var(--accent)}
table{border-collapse:collapse;width:100%%;font-size:.94rem;font-variant-numeric:tabular-nums;margin:1em 0}
caption{text-align:left;font-weight:700;color:var(--accent)}
th,td{padding:.3em .6em;border-bottom:1px solid var(--line);text-align:left;vertical-align:top}
thead th{color:var(--accent);border-bottom:2px solid var(--accent)}
th[scope=row]{min-width:8.5rem;position:sticky;left:0;background:var(--paper)}
.right,.decimal{text-align:right}.center{text-align:center}
figure{margin:1.5em 0}img,figure>svg{max-width:100%%;height:auto}
.caution{border-left:4px solid var(--caution);background:var(--panel);padding:.6em 1em;margin:1.5em 0}
.caution>p:first-child{color:var(--caution);font-weight:700;margin:0}
.chosen{background:var(--panel);padding:.6em 1em;margin:0}.chosen label{margin-right:1.5em}select{font:inherit}\
[hidden]{display:none!important}
abbr{text-decoration:none}a{color:var(--accent)}
.key{list-style:none;padding:0}.key svg{vertical-align:middle;margin-right:.6em}
@media(prefers-color-scheme:dark){:root{--paper:#15181a;--ink:#e8e8e4;--accent:#a9cdb5;--muted:#b4bab5;--line:#4b534e;\
--panel:#23292b;--caution:#f0a58c}figure>svg,.key svg{background:#fff}}
@media print{.chosen{display:none}h2,h3,caption,thead{break-after:avoid}li,tr,figure,.caution{break-inside:avoid}\
main,footer{max-width:none;padding:0}body{font-size:10.5pt}.scroll{overflow:visible}}
"""

CHOOSER = """\
(function(){var box=document.querySelector('.chosen'),s=document.getElementById('size'),u=document.getElementById('units');
function all(q,from){return [].slice.call((from||document).querySelectorAll(q))}
var lists=all('[data-sizes]'),systems=all('[data-system]'),columns=[];
lists.forEach(function(e){e.dataset.all=e.textContent});
var names=s?[].slice.call(s.options,1).map(function(o){return o.text}):[];
if(s)all('table').forEach(function(t){
if(t.querySelector('[colspan],[rowspan]')||!t.tHead)return;
var heads=[].map.call(t.tHead.rows[0].cells,function(c){return names.indexOf(c.textContent)});
if(heads.filter(function(n){return n>=0}).length!==names.length)return;
[].forEach.call(t.rows,function(r){[].forEach.call(r.cells,function(c,i){if(heads[i]>=0)columns.push([c,heads[i]])})})});
function show(){var v=s?s.value:'',w=u?u.value:'';
lists.forEach(function(e){e.textContent=v===''?e.dataset.all:JSON.parse(e.dataset.sizes)[+v]});
columns.forEach(function(p){p[0].hidden=v!==''&&p[1]!==+v});
all('[data-times]').forEach(function(e){var n=v===''?1/0:JSON.parse(e.dataset.times)[+v];
all('input',e).forEach(function(b,i){b.hidden=i>=n})});
systems.forEach(function(e){e.hidden=w!==''&&e.dataset.system!==w})}
[s,u].forEach(function(e){if(e)e.addEventListener('change',show)});box.hidden=false;show()})();
"""


def render_html(document: Document, style: Style, pictures: bool = True) -> bytes:
    """The document as one file. pictures: whether photographs are in it."""
    page = _Page(document, pictures)
    meta = document.meta
    body = page.blocks(document.blocks)
    colours = style.colours
    sheet = SHEET % {name: getattr(colours, name) for name in type(colours).__slots__}
    chooser = page.chooser()
    script = f"<script>{CHOOSER}</script>" if chooser else ""
    edition = f" · {escape(meta.edition)}" if meta.edition else ""
    foot = f"{escape(meta.title)} · version {escape(meta.version)} · {escape(meta.date)}{edition}"
    head = (
        f'<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(meta.title)}</title>"
        f'<meta name="description" content="{escape(meta.summary)}">'
        f'<meta name="author" content="{escape(", ".join(part for part in (meta.designer, meta.studio) if part))}">'
        f"<style>{sheet}</style>"
    )
    return (
        f'<!DOCTYPE html>\n<html lang="{meta.language}">\n<head>{head}</head>\n<body>\n<main>\n{chooser}{body}</main>\n'
        f"<footer><p>{foot}</p></footer>\n{script}</body>\n</html>\n"
    ).encode()


class _Page:
    """Writes the blocks of one document."""

    def __init__(self, document: Document, pictures: bool) -> None:
        self.document = document
        self.pictures = pictures
        self.heading_count = count()
        self.keys = [entry.key or f"heading-{index}" for index, entry in enumerate(headings(document.blocks))]
        self.sizes: tuple[str, ...] = ()
        self.both_systems = False

    def chooser(self) -> str:
        """The sizes and units to choose from, hidden until the script shows them; nothing when there is no choice."""
        made = []
        if len(self.sizes) > 1:
            options = "".join(
                f'<option value="{index}">{escape(name)}</option>' for index, name in enumerate(self.sizes)
            )
            made.append(
                "<label>Show the numbers for size "
                f'<select id="size"><option value="">all sizes</option>{options}</select></label>'
            )
        if self.both_systems:
            made.append(
                '<label>Measures in <select id="units"><option value="">both</option>'
                '<option value="metric">centimetres</option><option value="imperial">inches</option></select></label>'
            )
        return f'<p class="chosen" hidden>{" ".join(made)}</p>\n' if made else ""

    # ── Inline ──────────────────────────────────────────────────────────────────────────────────────────────────

    def inline(self, inline: Inlines) -> str:
        return "".join(self.node(node) for node in inline)

    def node(self, node: Inline) -> str:
        match node:
            case Text():
                return escape(node.text)
            case Strong():
                return f"<strong>{self.inline(node.inline)}</strong>"
            case Emphasis():
                return f"<em>{self.inline(node.inline)}</em>"
            case Abbreviation() | StitchTerm():
                return f'<abbr title="{escape(node.expansion)}">{escape(node.text)}</abbr>'
            case SizeList():
                return self.size_list(node)
            case Quantity():
                return f'<span class="n">{escape(node.number + node.glue + node.unit)}</span>'
            case Pair():
                self.both_systems = True
                shown = {"metric": self.inline(node.metric), "imperial": self.inline(node.imperial)}
                other = "imperial" if node.first == "metric" else "metric"
                return (
                    f'<span data-system="{node.first}">{shown[node.first]}</span>'
                    f'<span data-system="both">{escape(node.glue)}</span>'
                    f'<span data-system="{other}">{shown[other]}</span>'
                )
            case NoBreak():
                return f'<span class="n">{self.inline(node.inline)}</span>'
            case LineBreak():
                return "<br>"
            case Link():
                says = f' aria-label="{escape(node.description)}"' if node.description else ""
                return f'<a href="{escape(node.target)}"{says}>{self.inline(node.inline)}</a>'

    def size_list(self, node: SizeList) -> str:
        text = escape(" ".join(node.parts))
        if node.shown is not None or len(node.values) < 2 or len(node.names) != len(node.values):
            return text
        self.sizes = self.sizes or node.names
        unit = f"\u00a0{node.unit}" if node.unit else ""
        values = ",".join(_json(value + unit) for value in node.values)
        return f'<span data-sizes="{escape(f"[{values}]")}">{text}</span>'

    # ── Blocks ──────────────────────────────────────────────────────────────────────────────────────────────────

    def blocks(self, blocks: Blocks) -> str:
        return "".join(self.block(block) for block in blocks)

    def block(self, block: Block) -> str:
        match block:
            case TitlePage():
                return self.title_page(block)
            case Heading():
                key = self.keys[next(self.heading_count)]
                return f'<h{block.level} id="{escape(key)}">{self.inline(block.inline)}</h{block.level}>\n'
            case Paragraph():
                return f'<p class="{block.role}"{_id(block.key)}>{self.inline(block.inline)}</p>\n'
            case BulletList():
                return f"<ul{_id(block.key)}>{self.items(block.items)}</ul>\n"
            case NumberedList():
                start = f' start="{block.start}"' if block.start != 1 else ""
                return f"<ol{start}{_id(block.key)}>{self.items(block.items)}</ol>\n"
            case FactList():
                return self.facts(block)
            case Table():
                return self.table(block)
            case InstructionList():
                return self.rows(block)
            case Caution():
                inside = f"<p>{self.inline(block.title)}</p>\n{self.blocks(block.blocks)}"
                return f'<div class="caution"{_id(block.key)}>{inside}</div>\n'
            case Figure():
                return self.figure(block)
            case TickTable():
                return self.ticks(block)
            case Contents():
                return self.contents(block)
            case KeepTogether() | Columns():
                return self.blocks(block.blocks)
            case PageBreak():
                return ""
            case Rule():
                return "<hr>\n" if block.kind == "line" else ""

    def title_page(self, block: TitlePage) -> str:
        made = ["<header>\n"]
        if block.kicker:
            made.append(f'<p class="kicker">{self.inline(block.kicker)}</p>\n')
        key = self.keys[next(self.heading_count)]
        made.append(f'<h1 id="{escape(key)}">{self.inline(block.title)}</h1>\n')
        for name, inline in (("byline", block.byline), ("summary", block.summary)):
            if inline:
                made.append(f'<p class="{name}">{self.inline(inline)}</p>\n')
        made.append("</header>\n")
        if block.figure is not None:
            made.append(self.figure(block.figure))
        if block.facts is not None:
            made.append(self.facts(block.facts))
        if block.notice:
            made.append(f'<p class="notice">{self.inline(block.notice)}</p>\n')
        return "".join(made)

    def items(self, items: tuple[Blocks, ...]) -> str:
        return "".join(f"<li>{self.blocks(item)}</li>\n" for item in items)

    def facts(self, block: FactList) -> str:
        if not block.facts:
            return ""
        made = [f'<dl class="{block.kind}"{_id(block.key)}>\n']
        for fact in block.facts:
            made.append(f"<dt>{self.inline(fact.term)}</dt>\n")
            made += [f"<dd>{self.inline(paragraph)}</dd>\n" for paragraph in fact.says]
        return "".join([*made, "</dl>\n"])

    def table(self, block: Table) -> str:
        caption = f"<caption>{self.inline(block.caption)}</caption>\n" if block.caption else ""
        head = "".join(f"<tr>{self.cells(row)}</tr>\n" for row in block.head)
        body = "".join(f"<tr>{self.cells(row)}</tr>\n" for row in block.body)
        head = f"<thead>{head}</thead>\n" if head else ""
        # a wide table scrolls by itself, and with the keyboard as well
        name = escape(plain_text(block.caption)) or "Table"
        system = f' data-system="{block.system}"' if block.system is not None else ""
        scroll = f'<div class="scroll" role="region" tabindex="0" aria-label="{name}"{system}{_id(block.key)}>'
        return f"{scroll}<table>\n{caption}{head}<tbody>{body}</tbody></table></div>\n"

    def cells(self, row: tuple[Cell, ...]) -> str:
        return "".join(self.cell(cell) for cell in row)

    def cell(self, cell: Cell) -> str:
        spans = f' colspan="{cell.columns}"' if cell.columns > 1 else ""
        spans += f' rowspan="{cell.rows}"' if cell.rows > 1 else ""
        looks = f' class="{cell.align}"' if cell.align != "left" else ""
        if cell.scope is None or not cell.inline:
            return f"<td{spans}{looks}>{self.inline(cell.inline)}</td>"
        scope = {"column": "col", "row": "row"}[cell.scope]
        return f'<th scope="{scope}"{spans}{looks}>{self.inline(cell.inline)}</th>'

    def rows(self, block: InstructionList) -> str:
        made = [f'<ol class="rows"{_id(block.key)}>\n']
        for row in block.rows:
            indent = f' class="in{min(row.indent, 2)}"' if row.indent else ""
            label = f'<span class="label">{self.inline(row.label)}:</span> ' if row.label is not None else ""
            stated = f' <span class="stated">{self.inline(row.stated)}</span>' if row.stated is not None else ""
            made.append(f"<li{indent}>{label}{self.inline(row.text)}{stated}{self.blocks(row.notes)}</li>\n")
        return "".join([*made, "</ol>\n"])

    def figure(self, block: Figure) -> str:
        content = block.content
        after = ""
        match content:
            case Picture():
                if not self.pictures:
                    return ""
                data = b64encode(content.data).decode("ascii")
                size = f'width="{content.width_px}" height="{content.height_px}"'
                shown = f'<img src="data:{content.media_type};base64,{data}" {size} alt="{escape(block.alt)}">'
            case Drawing():
                shown, after = drawing_svg(content, block.alt), self.blocks(content.words)
            case ChartGrid():
                shown, after = chart_svg(content, block.alt), self.key(content) + self.blocks(content.words)
        under = "<br>".join(self.inline(part) for part in (block.caption, block.credit) if part)
        caption = f"<figcaption>{under}</figcaption>" if under else ""
        return f"<figure{_id(block.key)}>{shown}{caption}</figure>\n{after}"

    def key(self, chart: ChartGrid) -> str:
        used = {square.symbol for row in chart.rows for square in row}
        lines = [(symbol_svg(symbol, None), symbol.meaning) for symbol in chart.symbols if symbol.name in used]
        signs = {symbol.name: symbol for symbol in chart.symbols}
        lines += [(symbol_svg(signs.get(one.symbol), one.colour), one.meaning) for one in chart.colours]
        items = "".join(f"<li>{sign}{self.inline(meaning)}</li>\n" for sign, meaning in lines)
        return f'<ul class="key">{items}</ul>\n' if items else ""

    def ticks(self, block: TickTable) -> str:
        made = [f"<p><strong>{self.inline(block.caption)}</strong></p>\n"] if block.caption else []
        made.append(f'<ul class="rows"{_id(block.key)}>\n')
        for row in block.rows:
            name = escape(plain_text(row.label))
            each = next((node.values for node in row.times if isinstance(node, SizeList) and len(node.names) > 1), ())
            often = f' data-times="[{",".join(each)}]"' if each and row.boxes > 1 else ""
            boxes = "".join(
                f'<input type="checkbox" aria-label="{name}, {number} of {row.boxes}">'
                for number in range(1, row.boxes + 1)
            )
            made.append(
                f'<li{often}><span class="label">{self.inline(row.label)}</span> {boxes} {self.inline(row.says)}</li>\n'
            )
        return "".join([*made, "</ul>\n"])

    def contents(self, block: Contents) -> str:
        entries = [
            f'<li><a href="#{escape(key)}">{self.inline(entry.inline)}</a></li>\n'
            for key, entry in zip(self.keys, headings(self.document.blocks), strict=True)
            if 2 <= entry.level <= block.depth
        ]
        title = escape(plain_text(block.title))
        inside = f"<p><strong>{title}</strong></p><ul>{''.join(entries)}</ul>"
        return f'<nav aria-label="{title}"{_id(block.key)}>{inside}</nav>\n'


def _id(key: str) -> str:
    return f' id="{escape(key)}"' if key else ""


def _json(text: str) -> str:
    """A string as JSON writes it."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
