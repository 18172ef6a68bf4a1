"""What README shows is what the commands print, every line in order, and its shortest athlete is fine."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from planner.report.plan_text import plan_text
from tests.cli.conftest import CHECKOUT
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


def test_every_picture_is_there() -> None:
    pictures = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert len(pictures) == 2 and all((CHECKOUT / path).is_file() for path in pictures)
