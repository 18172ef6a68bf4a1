"""The wheel carries every data file of the checkout and nothing that is not in it."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]
DATA = "planner/_data/"


def git(*words: str) -> list[str]:
    done = subprocess.run(["git", "-C", str(CHECKOUT), *words], capture_output=True, text=True)
    if done.returncode:
        pytest.skip("this is no git checkout")
    return done.stdout.split("\n")[:-1]


def test_data_folders_hold_yaml_and_spreadsheets_only():
    names = git("ls-files", "exercise_library", "templates")
    assert names and all(name.endswith((".yaml", ".csv", ".xlsx")) for name in names), (
        "a Python file there would break the editable install"
    )


def test_top_level_is_what_it_should_be():
    names = {name.split("/")[0] for name in git("ls-files")}
    assert {name for name in names if not name.startswith(".")} == {
        "README.md", "DEVELOPERS.md", "pyproject.toml", "planner", "exercise_library", "templates", "tests",
    }  # fmt: skip


@pytest.mark.long
def test_the_wheel_holds_every_data_file(tmp_path):
    clone = tmp_path / "clone"
    if subprocess.run(["git", "clone", "-q", str(CHECKOUT), str(clone)]).returncode:
        pytest.skip("this is no git checkout")
    subprocess.run(
        [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(tmp_path), str(clone)], check=True
    )
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    carried = {name.removeprefix(DATA) for name in names if name.startswith(DATA)}
    assert carried == set(git("ls-files", "exercise_library", "templates"))
    assert not [name for name in names if name.startswith("tests/")]
