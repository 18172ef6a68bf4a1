"""The command run in this process through its own door, and a coach's folder with a planned block to work on."""

from __future__ import annotations

import json
import re
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from planner.cli import main

CHECKOUT = Path(__file__).parents[2]


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


@pytest.fixture(scope="session")
def planned(tmp_path_factory) -> Path:
    """A coach's folder in which the in-season player's block was planned, as block.yaml. Not to be changed."""
    folder = tmp_path_factory.mktemp("planned") / "coach"
    assert main(["start", str(folder)]) == 0
    assert (
        main(["plan", str(folder / "templates/athletes/in-season-player.yaml"), "-o", str(folder / "block.yaml")]) == 0
    )
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
