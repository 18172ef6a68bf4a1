"""Shipped templates ask for nothing that collides: a sound adult with a full gym reaches every band, at every level.

The youth template serves a sound novice. A shortfall here is a fault of the template; those known are in ``MISSED``.
"""

from __future__ import annotations

import datetime

import pytest

from planner.problem.from_files import estimate_and_problem
from planner.solve.bands import solve_bands
from tests.independence.drawn import ADULT, YOUTH, inputs, plain

BUDGET = 40.0  # deterministic time, as the command's own
WEEK = {2: ("mon", "thu"), 3: ("mon", "wed", "sat"), 4: ("mon", "tue", "thu", "sat")}
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
# What the templates ask and a block does not reach, in quarter sets and jumps. With two days, a main lift each day
# has at least three sets in the third week, which is up to three quarters of a set over the range. A novice's three
# days in season hold four of the six target jumps; the cause is not known.
MISSED: dict[tuple[str, str, int], dict[str, int]] = {
    ("in-season-four-week", "novice", 3): {f"target-jump-weekly/w{week}": 2 for week in (1, 2, 3)},
    ("eight-week", "novice", 2): {"band-sets/w3/maximal-strength": 3},
    ("eight-week", "intermediate", 2): {"band-sets/w3/maximal-strength": 2},
    ("twelve-week", "novice", 2): {f"band-sets/w{week}/maximal-strength": 3 for week in (3, 6, 7)},
    ("twelve-week", "intermediate", 2): {"band-sets/w3/maximal-strength": 2},
}


@pytest.mark.parametrize("template, level, days", IN_CI)
def test_a_sound_athlete_meets_every_band(template: str, level: str, days: int) -> None:
    _meets_every_band(template, level, days)


@pytest.mark.long
@pytest.mark.parametrize("template, level, days", [case for case in SERVED if case not in IN_CI])
def test_a_sound_athlete_meets_every_band_at_every_level_and_number_of_days(
    template: str, level: str, days: int
) -> None:
    _meets_every_band(template, level, days)


def _meets_every_band(template: str, level: str, days: int) -> None:
    demo = YOUTH if template == "youth-eight-week" else ADULT
    data = plain(demo) | {"level": level, "landing": "holds", "joints": [], "practices": [], "matches": []}
    data["training"] = {"days": [{"day": day, "minutes": MINUTES} for day in WEEK[days]]}
    data["equipment"] = plain(ADULT)["equipment"]
    data["birth_date"] = datetime.date(2001, 4, 17)
    _, problem = estimate_and_problem(inputs(data, template))
    found = solve_bands(problem, BUDGET)
    assert {row.name: units for row, units in found.missed} == MISSED.get((template, level, days), {})
