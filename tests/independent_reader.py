"""Opens every PDF of a folder with a reader that shares no code with the writer, and says what it saw.

`python tests/independent_reader.py FOLDER`: page count, embedded fonts and extractable text of each file; exit 1 when
one has no page, a font that is not embedded, or a page without text.
"""

import sys
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2


def fonts(path: Path) -> dict[str, bool]:
    """Every font of a file, and whether its program is embedded."""
    found: dict[str, bool] = {}
    for page in pypdf.PdfReader(path).pages:
        resources: Any = page["/Resources"].get_object()
        for font in resources.get("/Font", {}).values():
            font = font.get_object()
            described = font.get("/DescendantFonts", [font])[0].get_object()
            descriptor = described.get("/FontDescriptor", {})
            embedded = any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
            found[str(font.get("/BaseFont"))] = embedded
    return found


def faults(path: Path) -> list[str]:
    """What is wrong with a file; empty when nothing is."""
    document = pypdfium2.PdfDocument(path)
    wrong = [] if len(document) else ["no pages"]
    for number, page in enumerate(document, 1):
        text = page.get_textpage()
        if not text.get_text_range().strip():
            wrong.append(f"page {number} has no text")
    wrong += [f"font {name} is not embedded" for name, embedded in fonts(path).items() if not embedded]
    print(f"{path.name}: {len(document)} pages, {len(fonts(path))} fonts, {'; '.join(wrong) or 'sound'}")
    return wrong


def main() -> int:
    """Exit status: 0 when every file is sound."""
    paths = sorted(Path(sys.argv[1]).rglob("*.pdf"))
    bad = [path for path in paths if faults(path)]
    print(f"{len(paths)} files, {len(bad)} with faults")
    return 1 if bad or not paths else 0


if __name__ == "__main__":
    sys.exit(main())
