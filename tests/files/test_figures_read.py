"""How figures were read that are not written as the planner writes them: of a file that reads, and of no other."""

from __future__ import annotations

import pytest

from planner.files.figures_read import readings
from planner.files.load import load_bytes
from tests.files.snippets import ATHLETE


def told(text: str) -> list[tuple[int, str]]:
    found = readings(load_bytes(text.encode(), "nora.yaml", ("athlete/1",)))
    return [(one.line, one.message.partition(" is read as ")[2]) for one in found]


def test_only_what_is_written_in_parts_is_told() -> None:
    assert told(ATHLETE) == [(5, "71 in")]  # 5 ft 11 in


def test_nothing_is_told_of_a_file_that_is_refused() -> None:
    assert told(ATHLETE.replace("landing: holds", "landing: maybe")) == []


@pytest.mark.parametrize(
    ("written", "read"),
    [("71,4 kg", "71.4 kg"), ("157 1/2 lb", "157.5 lb"), ("157 lbs", "157 lb"), ("71.4 kilos", "71.4 kg")],
)
def test_a_mass_is_told_in_the_system_that_it_was_written_in(written: str, read: str) -> None:
    assert told(ATHLETE.replace("71.4 kg", written)) == [(4, read), (5, "71 in")]
