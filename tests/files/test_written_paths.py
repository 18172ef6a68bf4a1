"""A path that one file writes of another leads back to it, and never says whose home folder it is in."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from planner.files.written_paths import place_of, written_path

# The file, the folder of the file that names it, and what is written there.
CASES = [
    ("home/jane/clients/ana.yaml", "home/jane/clients", "ana.yaml"),
    ("home/jane/clients/ana.yaml", "home/jane/blocks", "../clients/ana.yaml"),
    ("home/jane/clients/ana.yaml", "home/jane", "clients/ana.yaml"),
    ("home/jane/clients/ana.yaml", "srv/club", "~/clients/ana.yaml"),
    ("home/jane/clients/ana.yaml", "home", "~/clients/ana.yaml"),
    ("srv/club/ana.yaml", "home/jane/blocks", "../../../srv/club/ana.yaml"),
    ("srv/club/ana.yaml", "srv/blocks", "../club/ana.yaml"),
]


@pytest.mark.parametrize(("place", "folder", "written"), CASES)
def test_a_path_leads_back_and_names_no_home_folder(tmp_path, monkeypatch, place, folder, written) -> None:
    monkeypatch.setenv("HOME", str(tmp_path / "home/jane"))
    assert written_path(tmp_path / place, tmp_path / folder) == written
    assert place_of(written, tmp_path / folder) == Path(os.path.realpath(tmp_path / place))
    assert "jane" not in written


def test_a_home_folder_that_is_the_root_hides_nothing_and_is_found(tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("HOME", "/")
    assert written_path(tmp_path / "a/ana.yaml", tmp_path / "b") == "../a/ana.yaml"
