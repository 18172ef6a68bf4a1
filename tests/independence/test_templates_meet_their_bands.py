"""Shipped templates ask for nothing that collides: a sound adult with a full gym reaches every band, at every level.

The youth template serves a sound novice. A shortfall here is a fault of the template.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

import pytest

from planner.problem.from_files import estimate_and_problem
from planner.solve.bands import solve_bands
from tests.independence.drawn import ADULT, YOUTH, inputs, plain

BUDGET = 40.0  # deterministic time, as the command's own
WEEK = {2: ("mon", "thu"), 3: ("mon", "wed", "sat"), 4: ("mon", "tue", "thu", "sat")}
OTHER_WEEK = {2: ("tue", "sat"), 3: ("tue", "thu", "sun")}
MINUTES = 90
# Template, level, days a week. Of each template one is tried in CI.
IN_CI = [
    ("in-season-four-week", "novice", 2),
    ("in-season-four-week", "intermediate", 3),
    ("eight-week", "intermediate", 4),
    ("youth-eight-week", "novice", 3),
]
SERVED = [
    *(("in-season-four-week", level, days) for level in ("novice", "intermediate", "advanced") for days in (2, 3)),
    *(("eight-week", level, days) for level in ("novice", "intermediate", "advanced") for days in (2, 3, 4)),
    *(("twelve-week", level, days) for level in ("novice", "intermediate", "advanced") for days in (2, 3, 4)),
    *(("youth-eight-week", "novice", days) for days in (2, 3, 4)),
]


@pytest.mark.parametrize("template, level, days", IN_CI)
def test_a_sound_athlete_meets_every_band(template: str, level: str, days: int) -> None:
    _meets_every_band(template, level, days)


@pytest.mark.long
@pytest.mark.parametrize("template, level, days", [case for case in SERVED if case not in IN_CI])
def test_a_sound_athlete_meets_every_band_at_every_level_and_number_of_days(
    template: str, level: str, days: int
) -> None:
    _meets_every_band(template, level, days)


@pytest.mark.long
@pytest.mark.parametrize("template, level, days", [case for case in SERVED if case[2] in OTHER_WEEK])
def test_it_does_so_on_other_days_of_the_week(template: str, level: str, days: int) -> None:
    _meets_every_band(template, level, days, OTHER_WEEK)


def _meets_every_band(template: str, level: str, days: int, week: Mapping[int, Sequence[str]] = WEEK) -> None:
    demo = YOUTH if template == "youth-eight-week" else ADULT
    data = plain(demo) | {"level": level, "landing": "holds", "joints": [], "practices": [], "matches": []}
    data["training"] = {"days": [{"day": day, "minutes": MINUTES} for day in week[days]]}
    data["equipment"] = plain(ADULT)["equipment"]
    data["birth_date"] = datetime.date(2001, 4, 17)
    _, problem = estimate_and_problem(inputs(data, template))
    found = solve_bands(problem, BUDGET)
    assert {row.name: units for row, units in found.missed} == {}
