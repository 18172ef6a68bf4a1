"""What README shows is what the commands print, every line in order, and its shortest athlete is fine."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest

from planner.report.plan_text import plan_text
from tests.cli.conftest import CHECKOUT
from tests.demos.adult_folder import adult_folder
from tests.demos.readme import README, in_order, sample, shown
from tests.solve.demos import shipped_library, solved

MOST_LINES = 15  # of the shortest athlete's file


def shortest() -> str:
    (text,) = [text for text in re.findall(r"```yaml\n(.*?)```", README, re.DOTALL) if text.startswith("file: athlete")]
    return str(text)


def test_the_shortest_file_is_short_and_fine(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    path.write_text(shortest(), "utf-8")
    assert len(shortest().splitlines()) <= MOST_LINES
    told = run("check", path)
    assert told.code == 0, told.out
    assert run("gap", path).code == 0


@pytest.mark.long
def test_the_shortest_file_plans(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    path.write_text(shortest(), "utf-8")
    told = run("plan", path, "--start", "2025-09-08", "-o", tmp_path / "block.yaml")
    assert told.code == 0, told.err


def test_the_gap_reads_as_shown(run) -> None:
    told = run("gap", CHECKOUT / "templates/athletes/adult-one-leg-jumper.yaml")
    (command,) = shown("gap")
    assert len(sample(command)) == 3 and in_order(sample(command), told.out) == []


def test_the_plan_reads_as_shown() -> None:
    told = plan_text(solved("adult").block, len(shipped_library().movements))
    command = shown("plan")[0]
    assert sample(command) and in_order(sample(command), told) == []


@pytest.fixture(scope="module")
def milo(tmp_path_factory) -> Path:
    """A folder with the demo's block, not to be changed."""
    return adult_folder(tmp_path_factory.mktemp("readme") / "coach")


@pytest.fixture
def in_folder(milo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of it, in which commands run as README writes them."""
    monkeypatch.chdir(shutil.copytree(milo, tmp_path / "coach"))
    return tmp_path / "coach"


def test_week_3_is_logged_as_shown(run, in_folder: Path) -> None:
    commands = [command for command in shown("log") if "--from" not in command]
    assert len(commands) == 3 and sample(commands[0])
    for command in commands:
        told = run(*shlex.split(command))
        assert told.code == 0 and in_order(sample(command), told.err) == [], told.err


@pytest.mark.long
def test_the_rest_is_revised_as_shown(run, in_folder: Path) -> None:
    for command in shown("log")[:3]:
        run(*shlex.split(command))
    (command,) = shown("revise")
    told = run(*shlex.split(command))
    assert len(sample(command)) == 2 and in_order(sample(command), told.out + told.err) == []


def test_progress_reads_as_shown(run, in_folder: Path) -> None:
    run("log", "milo-block.yaml", "--from", "templates/logs/adult-ordinary-start.csv")
    (command,) = shown("progress")
    assert len(sample(command)) == 2 and in_order(sample(command), run(*shlex.split(command)).out) == []


def test_the_squad_is_read_as_shown(run, in_folder: Path) -> None:
    (copied,) = re.findall(r"^\$ cp (\S*squad\S*) (\S+)$", README, re.MULTILINE)
    shutil.copyfile(*copied)
    read, *others = shown("squad")
    told = run(*shlex.split(read))
    assert told.code == 0 and len(list((in_folder / "athletes").glob("*.yaml"))) == 24, told.err
    assert [shlex.split(other)[1:3] for other in others] == [["plan", copied[1]], ["slots", copied[1]]]


def test_every_picture_is_there() -> None:
    pictures = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert len(pictures) == 2 and all((CHECKOUT / path).is_file() for path in pictures)
