"""A new user at a terminal: from nothing to a file of an own imperial athlete, with slips on the way, then the cards.

The terminal is the system's own (a pseudo-terminal); what is typed is what a coach would type, and each refusal names
what to write instead.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.terminal import Terminal

# What is typed, and what must be on the screen before it: two slips, each told what to write.
TYPED = (
    ("Name", "Ana Prado"),
    ("Born (year-month-day)", "1998-03-02"),
    ("Body mass, with kg or lb", "157"),
    ("157 has no unit", "157 lbs"),
    ("Height, such as 6'1\":", "5'9\""),
    ("Standing reach", "7 ft 3"),
    ("Takes off from", ""),
    ("one-leg left, one-leg right, two-leg", "one-leg left"),
    ("Steps of the run-up", "5"),
    ("such as 118 1/2 in, 119 in:", '113 1/2 in, 114 in, 113.5"'),
    ("Day of the test", "2025-09-01"),
    ("Mark to touch", "117 in"),
    ("Level", "intermediate"),
    ("Lands from a 12 in drop", "yes"),
    ("Where it hurts", "left knee 2"),
    ("Gym days", "mon 60, wed 60, fri 75"),
    ("Practices and matches", "tue practice"),
    ("write day, practice or match, minutes and jumps", "tue practice 90"),
    ("a field and a wall\nGym:", "full-gym-lb"),
    ("back-squat 225 lb x 4", "back squat 185 lb x 4, 2 left"),
    ("Another lift", "deadlift 225 lb x 5, 1 left"),
    ("Another lift", ""),
    ("Usual week", "120, 10, 40"),
)
MOST_MINUTES_TYPING = 10
SLOW_TYPIST_per_min = 100  # characters


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The file as the walk leaves it, and the screen."""
    folder = tmp_path_factory.mktemp("walk")
    terminal = Terminal("new", "ana.yaml", folder=folder)
    for before, answer in TYPED:
        terminal.expect(before)
        terminal.type(answer)
    assert terminal.end() == 0, terminal.screen
    return folder / "ana.yaml", terminal.screen


def test_one_walk_makes_the_file_and_shows_the_gap_and_the_next_command(written: tuple[Path, str]) -> None:
    path, screen = written
    assert "FORCE GAP" in screen and "Next: jumpblock plan ana.yaml -o ana-block.yaml" in screen
    text = path.read_text("utf-8")
    assert "body_mass: 157 lbs" in text and text.count("kind: lift") == 2


def test_it_is_typed_in_ten_minutes() -> None:
    assert sum(len(answer) + 1 for _, answer in TYPED) / SLOW_TYPIST_per_min <= MOST_MINUTES_TYPING


@pytest.mark.long
def test_the_file_plans_and_prints(written: tuple[Path, str]) -> None:
    path, _ = written
    for words, made in (
        (("plan", "ana.yaml", "--start", "2025-09-08", "-o", "ana-block.yaml"), "ana-block.yaml"),
        (("cards", "ana-block.yaml", "-o", "ana-block.pdf"), "ana-block.pdf"),
    ):
        terminal = Terminal(*words, folder=path.parent)
        assert terminal.end() == 0, terminal.screen
        assert (path.parent / made).stat().st_size > 1000
