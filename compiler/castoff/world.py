"""The only door to the outside: files, templates, output folders.

Everything else in the package is a function of what comes through here, so that the same input gives the same bytes.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

SOURCE_SUFFIXES = (".yaml", ".yml")
HOUSE_FILE = "house.yaml"
SHARED_FILE = "shared.yaml"
_NOT_SOURCES = ("templates", "build")


class WorldError(Exception):
    """Something outside is not as needed; the message says what and where, ready for print."""


class NoSuchPathError(WorldError):
    """The reader named a file or folder that is not there: wrong use rather than a bad source."""


def _shipped_templates() -> Path:
    """`templates/` of the checkout, or the copy inside an installed package."""
    installed = Path(__file__).parent / "templates"
    if installed.is_dir():
        return installed
    return Path(__file__).parents[2] / "templates"


@dataclass(frozen=True, slots=True)
class World:
    """What a run may read.

    shipped: the templates that come with Castoff. overrides: folders whose files stand in for them, name by name,
    the first that has it wins.
    """

    shipped: Path
    overrides: tuple[Path, ...] = ()

    @staticmethod
    def beside(source: Path | None = None) -> World:
        """The world for a pattern: a `templates/` folder in its own folder or in the one above overrides."""
        shipped = _shipped_templates()
        overrides: list[Path] = []
        if source is not None:
            folder = source.resolve().parent
            for candidate in (folder / "templates", folder.parent / "templates"):
                if candidate.is_dir() and candidate.resolve() != shipped.resolve():
                    overrides.append(candidate)
        return World(shipped, tuple(overrides))

    def template_path(self, name: str) -> Path:
        """Where a template is read from. Raises WorldError when there is none of that name."""
        for folder in (*self.overrides, self.shipped):
            path = folder / name
            if path.is_file():
                return path
        raise WorldError(f"template `{name}` is missing: looked in {_listed([*self.overrides, self.shipped])}")

    def template(self, name: str) -> str:
        """The text of a template, "trade/needles.yaml" or "texts/front.j2"."""
        path = self.template_path(name)
        try:
            return path.read_text("utf-8")
        except UnicodeDecodeError as fault:
            raise WorldError(f"template {path} is not UTF-8 text: byte {fault.start} cannot be read") from None

    def template_bytes(self, name: str) -> bytes:
        """The bytes of a template: a font, a picture."""
        return self.template_path(name).read_bytes()


def _listed(paths: Iterable[Path]) -> str:
    return ", ".join(shown(path) for path in paths)


def shown(path: Path) -> str:
    """A path as a reader should see it: relative to where they stand when it lies below."""
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except ValueError:
        return str(path)


def read_bytes(path: Path) -> bytes:
    """The bytes of a source or picture. Raises WorldError in words."""
    try:
        return path.read_bytes()
    except FileNotFoundError:
        raise WorldError(f"{shown(path)}: no such file") from None
    except IsADirectoryError:
        raise WorldError(f"{shown(path)}: is a folder, not a file") from None
    except OSError as fault:
        raise WorldError(f"{shown(path)}: cannot be read ({fault.strerror})") from None


def find_sources(paths: Iterable[Path]) -> tuple[Path, ...]:
    """Pattern sources among files and folders, each once, folders searched in order of name.

    A file that is named is taken whatever it is called. In a folder, `.yaml` and `.yml` files are sources, except
    `house.yaml`, `shared.yaml` and what lies in `templates`, `build` or hidden folders. Raises WorldError for a path
    that is not there (`NoSuchPathError`) and for a folder without sources.
    """
    found: dict[Path, None] = {}
    for path in paths:
        if path.is_file():
            found[path] = None
        elif path.is_dir():
            inside = tuple(_sources_below(path))
            if not inside:
                raise WorldError(f"{shown(path)}: no pattern sources (*.yaml) in this folder")
            found.update(dict.fromkeys(inside))
        else:
            raise NoSuchPathError(f"{shown(path)}: no such file or folder")
    return tuple(found)


def _sources_below(folder: Path) -> Iterable[Path]:
    for path in sorted(folder.iterdir(), key=lambda each: each.name):
        if path.name.startswith(".") or path.name in _NOT_SOURCES:
            continue
        if path.is_dir():
            yield from _sources_below(path)
        elif path.suffix in SOURCE_SUFFIXES and path.name not in (HOUSE_FILE, SHARED_FILE):
            yield path


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that nothing half-written is ever seen under its name. Raises WorldError in words."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, waiting = tempfile.mkstemp(dir=path.parent, prefix=".castoff-")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            os.chmod(waiting, 0o644)
            os.replace(waiting, path)
        except BaseException:
            Path(waiting).unlink(missing_ok=True)
            raise
    except OSError as fault:
        raise WorldError(f"{shown(path)}: cannot be written ({fault.strerror})") from None
