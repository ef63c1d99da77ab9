"""Files are written whole or not at all, and never over another unless asked."""

import os
from pathlib import Path

import pytest

from turnercalc.errors import OutputError
from turnercalc.handover import writing
from turnercalc.handover.writing import write_all, write_whole


def leftovers(folder: Path) -> list[str]:
    return sorted(name for name in os.listdir(folder) if name.endswith(".part"))


def test_text_is_written_as_utf8(tmp_path: Path) -> None:
    target = write_whole(tmp_path / "a.txt", "2 N·m\n")
    assert target.read_bytes() == "2 N·m\n".encode()
    assert leftovers(tmp_path) == []


def test_bytes_are_written_as_they_are(tmp_path: Path) -> None:
    assert write_whole(tmp_path / "a.pdf", b"%PDF\r\n").read_bytes() == b"%PDF\r\n"


def test_a_file_that_is_there_stays_unless_asked(tmp_path: Path) -> None:
    target = tmp_path / "rack.txt"
    target.write_text("mine")
    with pytest.raises(OutputError) as error:
        write_whole(target, "yours")
    assert str(error.value) == (
        f"rack.txt is already in {tmp_path}, and nothing was written. "
        "To overwrite it add --replace, or choose another name."
    )
    assert target.read_text() == "mine"
    write_whole(target, "yours", replace=True)
    assert target.read_text() == "yours"
    assert leftovers(tmp_path) == []


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(OutputError) as error:
        write_whole(tmp_path / "drawings" / "rack.svg", "")
    assert str(error.value) == (
        f"rack.svg cannot be written: there is no folder {tmp_path / 'drawings'}. "
        "Make it first, or choose another."
    )


def test_a_folder_in_place_of_a_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match=r"is a folder\. Name a file in it\."):
        write_whole(tmp_path, "")


def test_a_full_disk_leaves_neither_half_a_file_nor_the_old_one_harmed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "rack.txt"
    target.write_text("mine")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(writing.os, "fsync", full)
    with pytest.raises(
        OutputError, match=f"could not be written in the folder {tmp_path}: No space"
    ):
        write_whole(target, "yours", replace=True)
    assert target.read_text() == "mine"
    assert leftovers(tmp_path) == []


def test_a_file_that_appears_meanwhile_is_not_overwritten(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "rack.txt"
    real = os.fsync

    def somebody_else_is_quicker(handle: int) -> None:
        real(handle)
        target.write_text("theirs")

    monkeypatch.setattr(writing.os, "fsync", somebody_else_is_quicker)
    with pytest.raises(OutputError, match="is already in"):
        write_whole(target, "yours")
    assert target.read_text() == "theirs"


def test_without_hard_links_a_new_file_is_written_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(writing.os, "link", no_links)
    assert write_whole(tmp_path / "rack.txt", "x").read_text() == "x"


@pytest.mark.skipif(os.name != "posix", reason="rights as on POSIX systems")
def test_others_may_read_the_file_as_any_file_made_here(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.write_text("x")
    assert write_whole(tmp_path / "a", "x").stat().st_mode == plain.stat().st_mode


@pytest.mark.skipif(os.name != "posix", reason="symbolic links as on POSIX systems")
def test_a_link_to_a_file_keeps_pointing_there(tmp_path: Path) -> None:
    (tmp_path / "real.txt").write_text("old")
    (tmp_path / "link.txt").symlink_to(tmp_path / "real.txt")
    write_whole(tmp_path / "link.txt", "new", replace=True)
    assert (tmp_path / "link.txt").is_symlink()
    assert (tmp_path / "real.txt").read_text() == "new"


def test_several_files_are_written_together(tmp_path: Path) -> None:
    found = write_all({tmp_path / "a.txt": "one", tmp_path / "b.pdf": b"two"})
    assert [path.read_bytes() for path in found] == [b"one", b"two"]
    assert leftovers(tmp_path) == []


def test_a_disk_that_fills_up_half_way_changes_none_of_several(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a.txt").write_text("old")
    written = 0

    def full_at_the_second(handle: int) -> None:
        nonlocal written
        written += 1
        if written == 2:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(writing.os, "fsync", full_at_the_second)
    with pytest.raises(OutputError, match=r"b\.txt could not be written .* No space left"):
        write_all({tmp_path / name: "new" for name in ("a.txt", "b.txt", "c.txt")}, replace=True)
    assert sorted(os.listdir(tmp_path)) == ["a.txt"]
    assert (tmp_path / "a.txt").read_text() == "old"


def test_of_several_the_new_ones_go_again_if_one_appears_meanwhile(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.link

    def somebody_else_is_quicker(spare: str, target: Path) -> None:
        if Path(target).name == "b.txt":
            (tmp_path / "b.txt").write_text("theirs")
        real(spare, target)

    monkeypatch.setattr(writing.os, "link", somebody_else_is_quicker)
    with pytest.raises(OutputError, match=r"b\.txt is already in"):
        write_all({tmp_path / name: "yours" for name in ("a.txt", "b.txt")})
    assert sorted(os.listdir(tmp_path)) == ["b.txt"]
    assert (tmp_path / "b.txt").read_text() == "theirs"
