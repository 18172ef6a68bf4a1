"""README says how to try and to test the project in one command line each, and is short."""

from __future__ import annotations

import re
import subprocess
import tomllib
from pathlib import Path

import click
import pytest

from planner.cli.app import COMMANDS, jumpblock
from planner.files.cells import MOST_ROWS
from planner.files.text import LARGEST_FILE_bytes

CHECKOUT = Path(__file__).parents[2]
README, DEVELOPERS = ((CHECKOUT / name).read_text("utf-8") for name in ("README.md", "DEVELOPERS.md"))
MOST_LINES = 175


def shell_blocks(heading: str) -> list[str]:
    section = re.search(rf"^## {re.escape(heading)}\n(.*?)(?=^## |\Z)", README, re.MULTILINE | re.DOTALL)
    assert section is not None, f"README has no '## {heading}'"
    return re.findall(r"^```sh\n(.*?)^```", section.group(1), re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize("heading", ["Try it", "Test it"])
def test_one_command_line_with_its_set_up(heading):
    (block,) = shell_blocks(heading)
    assert block.count("\n") == 1
    assert block.startswith("python3 -m venv .venv && .venv/bin/pip install ")


def test_trying_ends_with_a_block_and_its_cards_and_says_where():
    (line,) = shell_blocks("Try it")
    last = line.strip().split(" && ")[-1]
    for path in ("demo/block.yaml", "demo/cards.pdf"):
        assert f"-o {path}" in line and path in last
    assert last.startswith("echo ")
    athlete = next(word for word in line.split() if word.startswith("templates/"))
    assert (CHECKOUT / athlete).is_file()


def test_the_ci_runs_the_test_command_as_it_stands_here():
    script = (CHECKOUT / ".ci" / "run").read_text("utf-8")
    extracted = subprocess.run(
        ["bash", "-c", re.search(r"^test_command=\"\$\((.*)\)\"$", script, re.MULTILINE).group(1)],
        capture_output=True,
        text=True,
        cwd=CHECKOUT,
        check=True,
    )
    assert extracted.stdout == shell_blocks("Test it")[0]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_is_listed_by_the_help_that_readme_names_and_has_help(name):
    assert "`jumpblock --help` lists every command" in README
    with click.Context(jumpblock) as ctx:
        assert re.search(rf"^  {name} +\S", jumpblock.get_help(ctx), re.MULTILINE)
        command = jumpblock.get_command(ctx, name)
    assert command is not None and command.help and command.get_short_help_str()
    missing = [p.name for p in command.params if isinstance(p, click.Option) and not p.help]
    assert not missing, f"options without help: {missing}"


def test_no_command_in_readme_is_unknown():
    named = set(re.findall(r"(?:`|^\$ )jumpblock ([a-z]+)", README, re.MULTILINE))
    assert len(named) > 10 and named <= set(COMMANDS), named - set(COMMANDS)


def test_readme_is_no_longer_than_a_coach_reads():
    assert len(README.splitlines()) <= MOST_LINES


@pytest.mark.parametrize(("words", "limits"), [(("log",), ["1 MiB"]), (("squad",), ["1 MiB", "20,000 rows"])])
def test_help_states_how_large_a_file_that_grows_may_be(words, limits):
    assert (LARGEST_FILE_bytes, MOST_ROWS) == (2**20, 20_000)  # the figures in the words below
    with click.Context(jumpblock) as ctx:
        command = jumpblock.get_command(ctx, *words)
        assert command is not None
        told = " ".join(command.get_help(click.Context(command)).split())
    assert all(limit in told for limit in limits)
    assert all(limit in DEVELOPERS for limit in limits)


def test_the_licence_is_stated_where_no_file_of_it_may_be():
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]
    section = README.partition("## Licence\n")[2]
    assert project["license"] == "MIT" and "MIT licence, copyright" in section and "without any warranty" in section


def test_readme_begins_with_the_job_and_has_the_cautions():
    first = README.split("\n\n")[1]
    assert "jump test" in first and "block" in first and "cards" not in first.split(".")[0]
    assert "not medical advice" in README
