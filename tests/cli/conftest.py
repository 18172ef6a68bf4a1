"""The command run in this process through its own door, and a coach's folder with a planned block to work on."""

from __future__ import annotations

import datetime
import json
import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from planner.cli import main
from planner.jobs import plan_block
from planner.problem.model import Problem
from planner.solve.budgets import DEFAULT_BUDGET
from planner.solve.stages import Solution, solve
from tests.solve.demos import solved

CHECKOUT = Path(__file__).parents[2]
SOLVED: list[tuple[Problem, float, Solution]] = []


@dataclass(frozen=True)
class Outcome:
    code: int
    raw: bytes
    err: str

    @property
    def out(self) -> str:
        return self.raw.decode("utf-8")

    @property
    def json(self) -> Any:
        return json.loads(self.raw)

    @property
    def codes(self) -> list[str]:
        """The codes of the findings printed as data."""
        return [finding["code"] for finding in self.json["findings"]]


@pytest.fixture
def run(capsysbinary):
    """Run ``jumpblock`` with these words and return its exit code, stdout and stderr."""

    def run_it(*words: object) -> Outcome:
        code = main([str(word) for word in words])
        captured = capsysbinary.readouterr()
        return Outcome(code, captured.out, captured.err.decode("utf-8"))

    return run_it


@pytest.fixture(autouse=True)
def solved_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The solver is asked once for each problem, however often it is planned by the command."""
    monkeypatch.setattr(plan_block, "solve", solve_once)


@pytest.fixture
def solved_anew(solved_once: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """For a test of what the solver gives."""
    monkeypatch.setattr(plan_block, "solve", solve)


def solve_once(problem: Problem, budget: float, progress: Callable[[str], None]) -> Solution:
    if not SOLVED:
        demo = solved("in-season")
        SOLVED.append((demo.problem, DEFAULT_BUDGET, demo.solution))
    kept = (one for asked, its_budget, one in SOLVED if (asked, its_budget) == (problem, budget))
    found = next(kept, None) or solve(problem, budget, progress)
    SOLVED.append((problem, budget, found))
    return found


@pytest.fixture(scope="session")
def planned(tmp_path_factory) -> Path:
    """A coach's folder in which the in-season player's block was planned, as block.yaml. Not to be changed."""
    folder = tmp_path_factory.mktemp("planned") / "coach"
    assert main(["start", str(folder)]) == 0
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plan_block, "solve", solve_once)
        athlete_file = folder / "templates/athletes/in-season-player.yaml"
        assert main(["plan", str(athlete_file), "-o", str(folder / "block.yaml")]) == 0
    return folder


@pytest.fixture
def coach(planned, tmp_path) -> Path:
    """A copy of the planned folder, to be changed."""
    return Path(shutil.copytree(planned, tmp_path / "coach"))


def athlete(folder: Path, name: str = "in-season-player") -> Path:
    return folder / "templates" / "athletes" / f"{name}.yaml"


def change(path: Path, old: str, new: str, count: int = 1) -> None:
    """Replace text in a file; the text must be there."""
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, count), "utf-8")


def set_first(path: Path, field: str, value: object) -> None:
    """Give the first ``field`` of a file another value, whatever it is now."""
    text, count = re.subn(rf"\b{field}: .*", f"{field}: {value}", path.read_text("utf-8"), count=1)
    assert count == 1
    path.write_text(text, "utf-8")


def files_in(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


def retested(source: Path, path: Path, day: datetime.date, touches: str, *more: str) -> Path:
    """The in-season player's file with the target jump tested again on that day, and further lines of tests."""
    jump = f"{{kind: touch, date: {day}, take_off: two-leg, run_up: true, trials: [{touches}]}}"
    lines = [f"  - {line}" for line in (jump, *more)]
    path.write_text("\n".join([source.read_text("utf-8").rstrip(), *lines, ""]), "utf-8")
    return path
