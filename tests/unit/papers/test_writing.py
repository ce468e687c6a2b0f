"""Files are written whole or not at all."""

from __future__ import annotations

import os
import resource
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from lapwright.papers import write_card, write_page
from lapwright.papers.writing import write_whole
from tests.unit.papers.matters import card_of, examine_demo


@contextmanager
def full_disk(room: int) -> Iterator[None]:
    """No file may grow beyond a number of bytes, as on a disk that is full."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (room, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def list_names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_file_is_written_whole_with_its_mode_and_through_a_link(tmp_path: Path) -> None:
    target, link = tmp_path / "card.pdf", tmp_path / "link.pdf"
    target.write_bytes(b"old")
    target.chmod(0o640)
    link.symlink_to(target)
    write_whole(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"
    assert target.stat().st_mode & 0o777 == 0o640
    assert list_names(tmp_path) == ["card.pdf", "link.pdf"]


def test_a_new_file_gets_the_mode_that_files_get_here(tmp_path: Path) -> None:
    write_whole(tmp_path / "ours", b"new")
    (tmp_path / "plain").write_bytes(b"new")
    assert (tmp_path / "ours").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_link_to_nothing_yet_makes_what_it_names(tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(tmp_path / "card.pdf")
    write_whole(tmp_path / "link", b"new")
    assert (tmp_path / "card.pdf").read_bytes() == b"new"
    assert (tmp_path / "link").is_symlink()


def test_a_full_disk_leaves_the_old_file_as_it_was(tmp_path: Path) -> None:
    target = tmp_path / "card.pdf"
    target.write_bytes(b"old")
    with full_disk(1000), pytest.raises(OSError, match="too large"):
        write_whole(target, b"new" * 1000)
    assert target.read_bytes() == b"old"
    assert list_names(tmp_path) == ["card.pdf"]


@pytest.mark.parametrize("write", [write_card, write_page], ids=["card", "page"])
def test_a_paper_that_finds_no_room_leaves_nothing_behind(write: object, tmp_path: Path) -> None:
    matter = card_of(examine_demo("knot"))
    with full_disk(1000), pytest.raises(OSError, match="too large"):
        write(matter, tmp_path / "paper")
    assert list_names(tmp_path) == []
    write(matter, tmp_path / "paper")
    assert list_names(tmp_path) == ["paper"]


def test_what_cannot_be_written_leaves_all_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "card.pdf").mkdir()
    with pytest.raises(IsADirectoryError):
        write_whole(tmp_path / "card.pdf", b"new")
    with pytest.raises(FileNotFoundError):
        write_whole(tmp_path / "no" / "card.pdf", b"new")
    assert list_names(tmp_path) == ["card.pdf"]
    assert os.listdir(tmp_path / "card.pdf") == []
