"""A block that names a movement the library does not have: every command that takes a block finds it, or needs none."""

from __future__ import annotations

import shutil

import click
import pytest

from planner.cli.app import COMMANDS, jumpblock
from tests.campaign.stage import (
    ATHLETE,
    BLOCK,
    LOG,
    RETESTED,
    SETS,
    SQUAD,
    SQUAD_BLOCK,
    contents,
    furnish,
    without_search,
)
from tests.cli.conftest import Outcome, change

GONE = "no-such-movement"
# What is put after the command, and whether it must find the movement: cards, a calendar and a log need no library.
FINDS: list[tuple[str, ...]] = [
    ("check", BLOCK),
    ("cards", BLOCK, "-o", "made.pdf", "--from", "2025-09-16"),
    ("progress", BLOCK),
    ("progress", BLOCK, "-o", "made.pdf"),
    ("outcome", BLOCK, "--athlete", RETESTED),
    ("plan", RETESTED, "--after", BLOCK, "-o", "made.yaml"),
    ("revise", BLOCK, "-o", "made.yaml"),
    ("revise", BLOCK, "-o", "made.yaml", "--loads-only"),
    ("change", BLOCK, "w3s1", "--drop", "-o", "made.yaml"),
    ("change", BLOCK, "--redo", "-o", "made.yaml"),
    ("why", BLOCK),
    ("why", BLOCK, "--week", "1", "--session", "1"),
    ("why", BLOCK, "pogo"),
]
NEEDS_NONE: list[tuple[str, ...]] = [
    ("cards", BLOCK, "-o", "made.pdf"),
    ("calendar", BLOCK, "-o", "made.ics"),
    ("log", BLOCK, "w2s2", "--as-planned"),
    ("log", BLOCK, "--from", SETS),
    ("log", BLOCK, "--next-morning", "left patellar-knee 2"),
    ("check", LOG),
    ("squad", "overview", SQUAD),
    ("squad", "slots", SQUAD, "--days", "2", "-o", "made.pdf"),
]
TRIES_IT: list[tuple[str, ...]] = [("plan", ATHLETE, "--near", BLOCK, "-o", "made.yaml")]


@pytest.fixture(scope="module")
def furnished(planned, tmp_path_factory):
    folder = shutil.copytree(planned, tmp_path_factory.mktemp("broken") / "coach")
    furnish(folder)
    for name in (BLOCK, SQUAD_BLOCK):
        text = (folder / name).read_text("utf-8")
        first = text.split("            movement: ")[1].split("\n")[0]
        change(folder / name, f"            movement: {first}", f"            movement: {GONE}")
    return folder


@pytest.fixture
def tried(furnished, tmp_path, monkeypatch, run):
    monkeypatch.chdir(shutil.copytree(furnished, tmp_path / "coach"))

    def try_it(words: tuple[str, ...]) -> Outcome:
        before = contents(tmp_path / "coach")
        with without_search():
            outcome = run(*words)
        assert outcome.code in (0, 1), outcome.err
        assert outcome.code == 0 or contents(tmp_path / "coach") == before
        return outcome

    return try_it


def _name(words: tuple[str, ...]) -> str:
    return " ".join(words)


@pytest.mark.parametrize("words", FINDS, ids=_name)
def test_it_is_found_on_its_line_and_nothing_is_written(tried, words) -> None:
    outcome = tried(words)
    told = outcome.out + outcome.err
    assert outcome.code == 1 and f"[unknown-movement] '{GONE}' is not in the library" in told
    assert f"movement: {GONE}" in told  # the line


@pytest.mark.parametrize("words", NEEDS_NONE, ids=_name)
def test_what_needs_no_library_goes_on(tried, words) -> None:
    assert tried(words).code == 0


@pytest.mark.parametrize("words", TRIES_IT, ids=_name)
def test_a_block_to_stay_near_only_guides_the_search(tried, words) -> None:
    assert tried(words).code == 0


def test_no_command_that_takes_a_block_is_left_out() -> None:
    taking = set()
    for name in COMMANDS:
        command = jumpblock.get_command(click.Context(jumpblock), name)
        assert command is not None
        parts = {part.name for part in command.params}
        taking |= {name} if parts & {"block", "blocks", "after", "near"} else set()
    assert taking <= {words[0] for words in (*FINDS, *NEEDS_NONE)}
