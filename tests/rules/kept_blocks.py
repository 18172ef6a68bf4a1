"""Blocks kept as decisions (shape of a day, movements of a phase, sets of a week), written out without the solver.

They are of the library, the templates and the benchmarks of an earlier release, which are kept too: what a rule finds
in a block does not change when a coach's figure or a tag does.
"""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

from planner.domain.block import Block, Week
from planner.problem.model import Problem
from planner.problem.variable import Values, in_key, sets_key, takes_key
from planner.solve.extract import extract_weeks
from planner.solve.variable_ranges import variable_ranges
from tests.solve.demos import Lines, problem
from tests.upgrade.older_folder import older_folder

FOLDER = Path(__file__).parent / "blocks"


@cache
def kept_block(name: str) -> Block:
    """The block as the kept files make it; only its weeks are filled in, which is all that an audit reads."""
    return block_of(extract_weeks(kept_problem(name), kept_values(name)))


@cache
def kept_problem(name: str) -> Problem:
    """The demo athlete with the kept library, template and benchmarks."""
    return changed_problem(name)


def changed_problem(
    name: str, athlete: Lines | None = None, template: Lines | None = None, start: datetime.date | None = None
) -> Problem:
    """As ``kept_problem``, with some lines of the athlete's file or the template changed."""
    return problem(name, athlete, template, start, older_folder())


@cache
def shipped_problem(name: str) -> Problem:
    return problem(name)


def block_of(weeks: tuple[Week, ...]) -> Block:
    return Block.model_construct(weeks=weeks)


def kept_values(name: str) -> Values:
    """Every variable of the demo's problem but whether a day is hard, which follows from the rest."""
    lines = YAML(typ="safe").load((FOLDER / f"{name}.yaml").read_text("utf-8"))
    planned = kept_problem(name)
    assert planned.start == lines["start"], f"{name}: the demo now starts on {planned.start}"
    values = {key: low for key, (low, _) in variable_ranges(planned).items()}
    for slot, day in zip(planned.slots, lines["days"], strict=True):
        assert day["day"] == slot.day, f"{name}: the demo now trains on {slot.day}"
        values[takes_key(slot.number, day["shape"])] = 1
        for phase, movements in day["phases"].items():
            _choose(planned, values, phase, slot.number, movements)
    return values


def _choose(planned: Problem, values: Values, phase: str, slot: int, movements: dict[str, Any]) -> None:
    weeks = next(p.weeks for p in planned.phases if p.id == phase)
    for movement, sets in movements.items():
        values[in_key(phase, slot, movement)] = 1
        for week, number in zip(weeks, sets, strict=True):
            values[sets_key(week, slot, movement)] = number
