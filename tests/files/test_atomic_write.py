"""A file is written whole or not at all, and never over somebody's change."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from planner.domain.findings import UserError
from planner.files import atomic
from planner.files.atomic import write_atomically
from planner.files.digest import file_sha256


def _files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_writes_and_replaces(tmp_path: Path) -> None:
    target = tmp_path / "block.yaml"
    write_atomically(target, b"one", expected_sha256="")
    write_atomically(target, b"two", expected_sha256=file_sha256(target))
    assert target.read_bytes() == b"two"
    assert _files(tmp_path) == ["block.yaml"]


def test_a_file_changed_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    target = tmp_path / "block.yaml"
    target.write_bytes(b"read")
    digest = file_sha256(target)
    target.write_bytes(b"changed by the coach")
    with pytest.raises(UserError) as refused:
        write_atomically(target, b"ours", expected_sha256=digest)
    assert refused.value.findings[0].code == "changed-meanwhile"
    assert target.read_bytes() == b"changed by the coach"
    with pytest.raises(UserError):
        write_atomically(target, b"ours", expected_sha256="")  # a file that was not there when we looked
    assert _files(tmp_path) == ["block.yaml"]


@pytest.mark.parametrize("failing", ["replace", "fsync"])
def test_a_failure_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: str
) -> None:
    target = tmp_path / "block.yaml"
    target.write_bytes(b"old")

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, failing, refuse)
    with pytest.raises(UserError) as refused:
        write_atomically(target, b"new")
    assert "No space left on device" in refused.value.findings[0].message
    assert target.read_bytes() == b"old"
    assert _files(tmp_path) == ["block.yaml"]


def test_folders_that_are_missing_or_in_the_way(tmp_path: Path) -> None:
    for path in (tmp_path / "none" / "block.yaml", tmp_path):
        with pytest.raises(UserError) as refused:
            write_atomically(path, b"x")
        [finding] = refused.value.findings
        assert finding.code == "cannot-write" and (finding.line, finding.column) == (0, 0)  # of the file as a whole
        assert finding.path.endswith(path.name) and finding.hint


def test_a_link_and_permissions_are_kept(tmp_path: Path) -> None:
    target, link = tmp_path / "block.yaml", tmp_path / "latest.yaml"
    target.write_bytes(b"old")
    target.chmod(0o640)
    link.symlink_to(target)
    write_atomically(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"
    assert stat.S_IMODE(target.stat().st_mode) == 0o640


@pytest.mark.parametrize(("mask", "mode"), [(0o027, 0o640), (0o022, 0o644), (0o002, 0o664)])
def test_a_new_file_gets_the_permissions_that_the_user_gives_to_new_files(tmp_path: Path, mask: int, mode: int) -> None:
    before = os.umask(mask)
    try:
        write_atomically(tmp_path / "block.yaml", b"new")
        assert os.umask(mask) == mask, "asking for the mask leaves it as it was"
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "block.yaml").stat().st_mode) == mode


def test_a_change_during_the_writing_is_not_overwritten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "block.yaml"
    target.write_bytes(b"read")
    digest = file_sha256(target)
    monkeypatch.setattr(os, "fsync", lambda _: target.write_bytes(b"changed by the coach"))
    with pytest.raises(UserError) as refused:
        write_atomically(target, b"ours", expected_sha256=digest)
    assert [finding.code for finding in refused.value.findings] == ["changed-meanwhile"]
    assert target.read_bytes() == b"changed by the coach"
    assert _files(tmp_path) == ["block.yaml"]


@pytest.mark.parametrize("mode", [0o4750, 0o600])
def test_every_bit_of_the_permissions_is_kept(tmp_path: Path, mode: int) -> None:
    target = tmp_path / "block.yaml"
    target.write_bytes(b"old")
    target.chmod(mode)
    write_atomically(target, b"new")
    assert stat.S_IMODE(target.stat().st_mode) == mode


def test_the_digest_of_no_file_is_empty_and_of_a_file_that_of_its_bytes(tmp_path: Path) -> None:
    assert file_sha256(tmp_path / "none") == ""
    (tmp_path / "some").write_bytes(b"abc")
    assert file_sha256(tmp_path / "some").startswith("ba7816bf8f01cfea")  # FIPS 180-2, the digest of "abc"


def test_what_cannot_be_taken_away_hides_no_other_trouble(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError(5, "")

    monkeypatch.setattr(os, "replace", refuse)
    monkeypatch.setattr(os, "unlink", refuse)
    with pytest.raises(UserError) as refused:
        write_atomically(tmp_path / "block.yaml", b"new")
    assert "cannot be written" in refused.value.findings[0].message


def test_a_read_only_file_stays(tmp_path: Path) -> None:
    target = tmp_path / "block.yaml"
    target.write_bytes(b"kept")
    target.chmod(0o444)
    with pytest.raises(UserError) as refused:
        write_atomically(target, b"new")
    assert "read-only" in refused.value.findings[0].message
    assert target.read_bytes() == b"kept" and _files(tmp_path) == ["block.yaml"]


def test_a_file_that_is_another_users_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever may write into a folder could put another file in its place."""
    target = tmp_path / "block.yaml"
    target.write_bytes(b"kept")
    monkeypatch.setattr(atomic.os, "access", lambda path, mode: False)
    with pytest.raises(UserError):
        write_atomically(target, b"new")
    assert target.read_bytes() == b"kept"
