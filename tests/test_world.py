"""Files in, files out."""

from pathlib import Path

import pytest

from castoff.world import World, WorldError, find_sources, read_bytes, write_whole


def test_a_folder_gives_its_sources_in_order(tmp_path: Path) -> None:
    for name in ("b.yaml", "a.yml", "house.yaml", ".hidden.yaml", "notes.txt", "templates/x.yaml", "sub/c.yaml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("")
    found = [str(path.relative_to(tmp_path)) for path in find_sources([tmp_path])]
    assert found == ["a.yml", "b.yaml", "sub/c.yaml"]


def test_a_path_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(WorldError, match=r"nowhere\.yaml: no such file or folder"):
        find_sources([tmp_path / "nowhere.yaml"])
    with pytest.raises(WorldError, match="no pattern sources"):
        find_sources([tmp_path])
    with pytest.raises(WorldError, match="no such file"):
        read_bytes(tmp_path / "nowhere.yaml")


def test_a_users_template_stands_in_for_the_shipped_one(tmp_path: Path) -> None:
    (tmp_path / "patterns").mkdir()
    (tmp_path / "templates" / "trade").mkdir(parents=True)
    (tmp_path / "templates" / "trade" / "needles.yaml").write_text("mine")
    world = World.beside(tmp_path / "patterns" / "cap.yaml")
    assert world.template("trade/needles.yaml") == "mine"
    assert "yarn" in world.template("trade/yarn_weights.yaml").lower()
    with pytest.raises(WorldError, match=r"template `trade/nothing\.yaml` is missing"):
        world.template("trade/nothing.yaml")


def test_a_file_is_written_whole_or_not_at_all(tmp_path: Path) -> None:
    write_whole(tmp_path / "deep" / "a.pdf", b"one")
    write_whole(tmp_path / "deep" / "a.pdf", b"two")
    assert [path.name for path in (tmp_path / "deep").iterdir()] == ["a.pdf"]
    assert (tmp_path / "deep" / "a.pdf").read_bytes() == b"two"


def test_an_output_folder_that_is_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "build").write_text("")
    with pytest.raises(WorldError, match="cannot be written"):
        write_whole(tmp_path / "build" / "a.pdf", b"")
