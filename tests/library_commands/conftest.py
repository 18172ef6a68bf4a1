"""A coach's own folder to add to and to edit, and the command run in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.cli import main
from tests.cli.conftest import run  # noqa: F401  (the fixture)


@pytest.fixture(scope="session")
def started(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What ``jumpblock start`` makes. Not to be changed."""
    folder = tmp_path_factory.mktemp("started") / "coach"
    assert main(["start", str(folder)]) == 0
    return folder


@pytest.fixture
def coach(started: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of it, as the working folder. Templates are left out: the shipped ones are used."""
    import shutil

    shutil.copytree(started / "exercise_library", tmp_path / "exercise_library")
    monkeypatch.chdir(tmp_path)
    return tmp_path
