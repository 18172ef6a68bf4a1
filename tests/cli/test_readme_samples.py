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
from tests.solve.demos import shipped_library, solved

README = (CHECKOUT / "README.md").read_text("utf-8")
MOST_LINES = 15  # of the shortest athlete's file


def sample(command: str) -> list[str]:
    """The lines that README shows below ``$ jumpblock command``; ``...`` stands for lines left out."""
    found = re.search(rf"^\$ jumpblock {re.escape(command)}\n(.*?)(?=^\$ |^```)", README, re.MULTILINE | re.DOTALL)
    assert found is not None, f"README shows no '{command}'"
    return [line for line in found.group(1).split("\n") if line.strip() not in ("", "...")]


def in_order(shown: list[str], printed: str) -> list[str]:
    """The lines shown that are not printed behind the one before."""
    lines, missing = iter(printed.split("\n")), []
    for line in shown:
        if not any(line == one for one in lines):
            missing.append(line)
            lines = iter(())
    return missing


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
    assert in_order(sample("gap ana.yaml"), told.out) == []


def test_the_plan_reads_as_shown() -> None:
    told = plan_text(solved("adult").block, len(shipped_library().movements))
    assert in_order(sample("plan ana.yaml -o ana-block.yaml"), told) == []


@pytest.fixture(scope="module")
def ana(tmp_path_factory) -> Path:
    """A folder with the demo's block, not to be changed."""
    return adult_folder(tmp_path_factory.mktemp("readme") / "coach")


@pytest.fixture
def in_folder(ana: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of it, in which commands run as README writes them."""
    monkeypatch.chdir(shutil.copytree(ana, tmp_path / "coach"))
    return tmp_path / "coach"


def words_of(command: str) -> list[str]:
    return shlex.split(command)


def shown(first_word: str) -> list[str]:
    """README's commands that begin with the word, in order."""
    return re.findall(rf"^\$ jumpblock ({first_word} .*)$", README, re.MULTILINE)


def test_week_3_is_logged_as_shown(run, in_folder: Path) -> None:
    commands = [command for command in shown("log") if "--from" not in command]
    assert len(commands) == 3
    for command in commands:
        told = run(*words_of(command))
        assert told.code == 0 and in_order(sample(command), told.err) == [], told.err


@pytest.mark.long
def test_the_rest_is_revised_as_shown(run, in_folder: Path) -> None:
    for command in shown("log")[:3]:
        run(*words_of(command))
    (command,) = shown("revise")
    told = run(*words_of(command))
    assert len(sample(command)) > 3 and in_order(sample(command), told.out + told.err) == []


def test_progress_reads_as_shown(run, in_folder: Path) -> None:
    run("log", "ana-block.yaml", "--from", "templates/logs/adult-ordinary-start.csv")
    (command,) = shown("progress")
    assert len(sample(command)) == 3 and in_order(sample(command), run(*words_of(command)).out) == []


def test_every_picture_is_there() -> None:
    pictures = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert len(pictures) == 2 and all((CHECKOUT / path).is_file() for path in pictures)
