"""The library's words are others by now: cards print the block's, and say so."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.files.load import load_block
from tests.cli.conftest import change


@pytest.fixture(autouse=True)
def in_the_folder(coach: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(coach)


@pytest.fixture
def lift(coach: Path) -> str:
    """A movement of the block with its cues."""
    sessions = load_block(coach / "block.yaml").require().weeks[0].sessions
    return next(item.movement for item in sessions[0].items if item.part == "main-lift")


def test_a_new_cue_is_told_by_cards_with_the_movement(run, coach, lift) -> None:
    assert run("cards", coach / "block.yaml", "-o", coach / "a.pdf").err.count("[other-words]") == 0
    assert run("library", "edit", lift, "cues=Words of our own").code == 0
    told = run("cards", coach / "block.yaml", "-o", coach / "a.pdf")
    name = next(i.name for s in load_block(coach / "block.yaml").require().weeks[0].sessions for i in s.items
                if i.movement == lift)  # fmt: skip
    assert (
        told.code == 0
        and f"[other-words] the library's words have changed since this block was made, for {name}" in told.err
    )


def test_a_movement_more_in_the_library_changes_no_words(run, coach) -> None:
    assert run("library", "add", "pogo-on-grass", "--like", "pogo", "easier=", "harder=").code == 0
    told = run("cards", coach / "block.yaml", "-o", coach / "a.pdf")
    assert told.code == 0 and "[other-words]" not in told.err


def test_figures_in_the_readers_units_are_not_other_words(run, coach) -> None:
    athlete = coach / "templates/athletes/in-season-player.yaml"
    change(athlete, "print_as: {mass: kg, length: cm", "print_as: {mass: lb, length: in")
    assert run("plan", athlete, "-o", coach / "inches.yaml").code == 0
    assert run("library", "add", "pogo-on-grass", "--like", "pogo", "easier=", "harder=").code == 0
    told = run("cards", coach / "inches.yaml", "-o", coach / "a.pdf")
    assert told.code == 0 and "[other-words]" not in told.err
