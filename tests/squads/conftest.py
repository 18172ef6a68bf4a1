"""A squad's folder as a coach has it: the squad's file and the athletes that its sheet gives."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from planner.jobs.read_squad_sheet import read_squad_sheet
from tests.cli.conftest import run  # noqa: F401  (the fixture)

DEMO = Path(__file__).parents[2] / "templates" / "squads"


@pytest.fixture(scope="session")
def made_club(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo squad with its athletes' files. Not to be changed."""
    folder = tmp_path_factory.mktemp("club")
    shutil.copyfile(DEMO / "demo-squad.yaml", folder / "squad.yaml")
    read_squad_sheet(str(DEMO / "demo-squad.xlsx"), str(folder / "athletes"))
    return folder


@pytest.fixture
def club(made_club: Path, tmp_path: Path) -> Path:
    """A copy of it, to be changed."""
    return Path(shutil.copytree(made_club, tmp_path / "club"))
