"""The web page in a real browser: a size and units are chosen, it is printed, and axe-core finds nothing to complain of.

Chromium is asked for by `CHROMIUM` or found on the path; axe-core is found by `AXE`, the path of its `axe.min.js`. What is
not there is skipped: the page itself needs neither.
"""

from __future__ import annotations

import html
import json
import os
import re
import shutil
import subprocess
from functools import cache
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from tests.editions.made import made
from tests.editions.structure import tidy

CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
AXE = os.environ.get("AXE", "")
in_chromium = pytest.mark.skipif(CHROMIUM is None, reason="there is no Chromium to try the page in")
with_axe = pytest.mark.skipif(not Path(AXE).is_file(), reason="AXE does not name a file with axe-core")

SEEN = """
function seen(){return document.querySelector('main').innerText}
function choose(id,text){var s=document.getElementById(id);
s.value=[].slice.call(s.options).filter(function(o){return o.text===text})[0].value;
s.dispatchEvent(new Event('change',{bubbles:true}))}
function tell(what){var p=document.createElement('pre');p.id='told';p.textContent=JSON.stringify(what);
document.body.append(p)}
"""


def page(name: str, words: str = "web") -> str:
    return made(name, words).data.decode()


def chromium(folder: Path, *arguments: str) -> str:
    assert CHROMIUM is not None
    command = [CHROMIUM, "--headless=new", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder / 'profile'}"]
    done = subprocess.run([*command, *arguments], capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


def told(folder: Path, source: str, script: str, *arguments: str) -> Any:
    """What a script that runs at the end of the page tells."""
    path = folder / "page.html"
    path.write_text(source.replace("</body>", f"<script>{SEEN}{script}</script></body>"), "utf-8")
    shown = chromium(folder, "--virtual-time-budget=20000", *arguments, "--dump-dom", path.as_uri())
    found = re.search(r'<pre id="told">(.*?)</pre>', shown, re.DOTALL)
    assert found is not None, shown[-2000:]
    return json.loads(html.unescape(found.group(1)))


CHOICES = """
var all={};
all.start=seen();
choose('size','M');all.size=seen();
choose('units','inches');all.both=seen();
choose('size','all sizes');all.units=seen();
choose('units','both');all.end=seen();
all.box=!document.querySelector('.chosen').hidden;
tell(all);
"""


@cache
def choices(folder: Path) -> dict[str, str]:
    found: dict[str, str] = told(folder, page("skipjack-jumper"), CHOICES)
    return found


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    return choices(tmp_path_factory.mktemp("web"))


CAST_ON = "With smaller needles and A, cast on "


@in_chromium
def test_a_size_is_chosen(seen: dict[str, str]) -> None:
    assert seen["box"]
    assert re.search(CAST_ON + r"86 \(94, 106, 114\)", seen["start"])
    assert re.search(CAST_ON + r"106 sts", seen["size"])
    # no list of any measure or count is left, and of the tables only the size's own column
    assert not re.search(r"\d \(\d+[,)]", seen["size"].split("Instructions")[-1].split("Care")[0])
    heads = [line.split() for line in seen["size"].splitlines() if line.startswith("Measure")]
    assert heads == [["Measure", "M"]] * len(heads) and heads


@in_chromium
def test_units_are_chosen(seen: dict[str, str]) -> None:
    work = seen["units"].split("Instructions")[-1].split("Care")[0]
    assert " cm" not in work and " in" in work
    assert "Inches" in seen["units"] and "Centimetres" not in seen["units"]
    assert re.search(CAST_ON + r"86 \(94, 106, 114\)", seen["units"])
    one = seen["both"].split("Instructions")[-1].split("Care")[0]
    assert " cm" not in one and re.search(CAST_ON + r"106 sts", one)


@in_chromium
def test_all_comes_back(seen: dict[str, str]) -> None:
    assert seen["end"] == seen["start"]


@in_chromium
def test_without_scripts_the_page_says_all_and_offers_nothing(tmp_path: Path) -> None:
    plain = re.sub(r"<script>.*?</script>", "", page("skipjack-jumper"), flags=re.DOTALL)
    shown = told(tmp_path, plain, "tell({text:seen(),box:getComputedStyle(document.querySelector('.chosen')).display})")
    assert shown["box"] == "none"
    assert CAST_ON in shown["text"] and " cm / " in shown["text"].replace("\u00a0", " ")


@in_chromium
def test_it_prints(tmp_path: Path) -> None:
    path, out = tmp_path / "page.html", tmp_path / "page.pdf"
    path.write_text(page("skipjack-jumper"), "utf-8")
    chromium(tmp_path, f"--print-to-pdf={out}", "--no-pdf-header-footer", path.as_uri())
    printed = pypdfium2.PdfDocument(out)
    text = tidy(" ".join(sheet.get_textpage().get_text_range() for sheet in printed))
    assert 4 <= len(printed) <= 20
    assert "Skipjack Jumper" in text and "Show the numbers for size" not in text
    assert text.index("Left side of neck") < text.index("Weave in ends") < text.index("Versions of this pattern")


@in_chromium
@pytest.mark.parametrize("width", [360, 1200])
def test_nothing_sticks_out_of_a_narrow_screen(width: int, tmp_path: Path) -> None:
    # a window cannot be as narrow as a telephone, a frame can
    inner = tmp_path / "inner.html"
    inner.write_text(page("skipjack-jumper"), "utf-8")
    frame = f"<body><iframe id=f width={width} height=800 src='{inner.as_uri()}'></iframe></body>"
    script = (
        "document.getElementById('f').onload=function(){var d=this.contentDocument.documentElement;"
        "tell([d.scrollWidth,d.clientWidth])}"
    )
    whole, shown = told(tmp_path, frame, script, "--allow-file-access-from-files")
    assert whole <= shown


@in_chromium
@with_axe
@pytest.mark.parametrize("name", ["skipjack-jumper", "saltgrass-cap", "ripple-throw", "fulmar-cardigan"])
@pytest.mark.parametrize("dark", [False, True])
def test_axe_finds_no_violation(name: str, dark: bool, tmp_path: Path) -> None:
    source = page(name).replace("</body>", f"<script>{Path(AXE).read_text('utf-8')}</script></body>")
    script = (
        "axe.run(document,{resultTypes:['violations']}).then(function(r){"
        "tell({paper:getComputedStyle(document.body).backgroundColor,passes:r.passes.length,"
        "violations:r.violations.map(function(v){return [v.id,v.help,v.nodes.length,v.nodes[0].html]})})})"
    )
    arguments = ("--force-dark-mode", "--blink-settings=preferredColorScheme=0") if dark else ()
    found = told(tmp_path, source, script, *arguments)
    assert (found["paper"] == "rgb(255, 255, 255)") is not dark
    assert found["passes"] > 20
    assert found["violations"] == []
