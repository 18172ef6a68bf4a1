"""The tests with the lowest and with the newest versions of each dependency, on every Python that is here.

Run: python -m tests.campaign.versions [--tests tests/cli tests/files] [--pythons python3.11 ...]
"""

from __future__ import annotations

import argparse
import re
import shutil
import subprocess
import tempfile
import tomllib
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from tests.campaign.table import as_table

ROOT = Path(__file__).parents[2]
PYTHONS = ("python3.11", "python3.12", "python3.13", "python3.14")
_BOUND = re.compile(r"([\w.-]+)(?:>=|==)([\d.]+)(?:; python_version (<|>=) '3\.(\d+)')?")
USUAL_TESTS = ("tests/cli", "tests/files", "tests/calendar_file", "tests/cards", "tests/force_platform", "tests/past")


def lowest(python: tuple[int, int]) -> list[str]:
    """Each dependency held to the lowest version that pyproject.toml allows on this Python, as pip takes it."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    found = []
    for line in project["dependencies"]:
        bound = _BOUND.fullmatch(line)
        if bound is None:
            raise ValueError(f"pyproject.toml: '{line}' states no lowest version")
        name, version, side, minor = bound.groups()
        if side is None or (python < (3, int(minor))) == (side == "<"):
            found.append(f"{name}=={version}")
    return found


def works(python: str) -> bool:
    """Whether this Python is here and starts (a version manager's stand-in may not)."""
    where = shutil.which(python)
    return where is not None and subprocess.run([where, "-c", ""], capture_output=True, check=False).returncode == 0


def run(python: str, which: str, tests: Sequence[str], where: Path) -> tuple[Counter[str], list[str]]:
    """Tests passed, failed and so on in a fresh environment, and the names of those that failed."""
    environment = where / f"{Path(python).name}-{which}"
    subprocess.run([python, "-m", "venv", str(environment)], check=True)
    held = where / "held.txt"
    asked = [python, "-c", "import sys; print(*sys.version_info[:2])"]
    major, minor = map(int, subprocess.run(asked, capture_output=True, text=True, check=True).stdout.split())
    held.write_text("\n".join(lowest((major, minor))) if which == "lowest" else "")
    pip = [environment / "bin/pip", "install", "-q", "--disable-pip-version-check", "-c", held, "-e", f"{ROOT}[test]"]
    installed = subprocess.run(pip, capture_output=True, text=True, check=False)
    if installed.returncode:
        return Counter({"error": 1}), [f"{python} {which}: cannot be installed: {installed.stderr.strip()[-300:]}"]
    pytest = [
        environment / "bin/python",
        "-m",
        "pytest",
        *tests,
        f"--basetemp={where / 'tests'}",
        "-p",
        "no:cacheprovider",
    ]
    done = subprocess.run(pytest, cwd=ROOT, capture_output=True, text=True, check=False)
    found = Counter({word.rstrip("s"): int(n) for n, word in re.findall(r"(\d+) (passed|failed|errors?)", done.stdout)})
    failed = re.findall(r"^(?:FAILED|ERROR) (.*)", done.stdout, re.MULTILINE)
    if done.returncode and not failed:
        failed = [(done.stdout + done.stderr).strip()[-300:]]
    return found, [f"{python} {which}: {name}" for name in failed]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--tests", nargs="*", default=USUAL_TESTS)
    parser.add_argument("--pythons", nargs="*", default=PYTHONS)
    parser.add_argument("--versions", nargs="*", default=["lowest", "newest"])
    given = parser.parse_args()
    counts, faults = {}, []
    for python in filter(works, given.pythons):
        for which in given.versions:
            with tempfile.TemporaryDirectory() as where:
                counts[f"{python} {which}"], broken = run(python, which, given.tests, Path(where))
            faults += broken
    print(as_table(", ".join(given.tests), counts, ("passed", "failed", "error"), faults))


if __name__ == "__main__":
    main()
