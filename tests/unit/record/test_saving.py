import hashlib
import os
import stat

import pytest

from lapwright.errors import CannotSave, RecordChanged
from lapwright.record import open_record, save_record
from tests.unit.record.records import TWIN


def test_what_is_saved_is_what_is_read_back(tmp_path) -> None:
    path = tmp_path / "tern.toml"
    digest = save_record(path, TWIN, expected_digest=None)
    found = open_record(path)
    assert (found.text, found.digest) == (TWIN, digest)
    again = save_record(path, TWIN + "# more\r\n", expected_digest=digest)
    assert path.read_bytes() == (TWIN + "# more\r\n").encode()
    assert again == hashlib.sha256(path.read_bytes()).hexdigest()
    assert os.listdir(tmp_path) == ["tern.toml"]


def test_a_file_changed_by_another_hand_is_not_written_over(tmp_path) -> None:
    path = tmp_path / "tern.toml"
    digest = save_record(path, TWIN, expected_digest=None)
    path.write_text("other", encoding="utf-8")
    with pytest.raises(RecordChanged, match="read it again"):
        save_record(path, TWIN, expected_digest=digest)
    with pytest.raises(RecordChanged):
        save_record(path, TWIN, expected_digest=None)
    path_gone = tmp_path / "gone.toml"
    with pytest.raises(RecordChanged):
        save_record(path_gone, TWIN, expected_digest=digest)
    assert path.read_text(encoding="utf-8") == "other"
    assert os.listdir(tmp_path) == ["tern.toml"]


def test_links_and_permissions_are_kept(tmp_path) -> None:
    real = tmp_path / "real.toml"
    digest = save_record(real, TWIN, expected_digest=None)
    real.chmod(0o640)
    link = tmp_path / "link.toml"
    link.symlink_to(real)
    save_record(link, TWIN + "# more\n", expected_digest=digest)
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8").endswith("# more\n")
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


def test_what_the_file_system_refuses_is_said_and_leaves_nothing_behind(tmp_path) -> None:
    with pytest.raises(CannotSave):
        save_record(tmp_path / "none" / "tern.toml", TWIN, expected_digest=None)
    with pytest.raises(CannotSave):
        save_record("nul\0.toml", TWIN, expected_digest=None)
    with pytest.raises(CannotSave):
        save_record(tmp_path, TWIN, expected_digest=None)
    assert os.listdir(tmp_path) == []


def test_a_draft_left_by_a_program_that_was_killed_is_in_nobodys_way(tmp_path) -> None:
    path = tmp_path / "tern.toml"
    (tmp_path / f".tern.toml.{os.getpid()}.new").write_text("half of", encoding="utf-8")
    save_record(path, "whole", expected_digest=None)
    assert [file.name for file in tmp_path.iterdir()] == ["tern.toml"]
    assert path.read_text(encoding="utf-8") == "whole"
