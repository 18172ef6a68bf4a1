"""Athletes for whom there is no block: a shipped athlete's file with a few lines changed, and the whole text told."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from io import StringIO
from pathlib import Path
from typing import Any, cast

from ruamel.yaml import YAML

from planner.domain.athlete import Athlete
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import Quality
from planner.files.document import Loaded
from planner.files.load import load_bytes
from planner.files.render import format_finding
from planner.jobs.placing import locator, placed
from planner.problem.from_files import Inputs, estimate_and_problem
from planner.problem.model import Problem
from planner.report.conflict_text import conflict_findings
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.conflict import Conflict, find_conflict
from tests.solve.demos import DEMOS, ROOT, merged, needed, shipped_benchmarks, shipped_library, template

FOLDER = Path(__file__).parent / "cases"
NAMES = sorted(path.stem for path in FOLDER.glob("*.yaml"))


@dataclass(frozen=True)
class Scenario:
    """``asked``: all hard rows; ``conflict``: what was found; ``told``: the text a coach reads."""

    problem: Problem
    asked: tuple[Row, ...]
    conflict: Conflict | None
    told: str
    expected: str


@cache
def scenario(name: str) -> Scenario:
    case = YAML(typ="safe").load((FOLDER / f"{name}.yaml").read_text("utf-8"))
    who, shape = DEMOS[case["demo"]]
    athlete = _athlete(who, case.get("athlete", {}))
    inputs = Inputs(
        needed(athlete),
        _library(case.get("asks"), case.get("leave_out", ())),
        template(shape, case.get("template")),
        shipped_benchmarks(),
    )
    problem = estimate_and_problem(inputs)[1]
    asked = tuple(row for row in gather_rows(problem) if row.price == 0)
    conflict = find_conflict(problem, asked, lambda changed: _problem(inputs, changed, problem.start))
    findings = conflict_findings(conflict, problem, athlete.path, locator(athlete))
    told = "".join(f"{format_finding(finding)}\n" for finding in placed(findings, athlete))
    return Scenario(problem, asked, conflict, told, case["says"])


def _library(asks: dict[str, str] | None, leave_out: Sequence[str]) -> Library:
    """The shipped library without some movements; and with a lift asked for before all that trains a quality first."""
    library = shipped_library()
    kept = {name: movement for name, movement in library.movements.items() if name not in leave_out}
    assert len(kept) + len(leave_out) == len(library.movements), f"one of {leave_out} is no movement of the library"
    if asks is not None:
        kept = {
            name: movement.model_copy(update={"requires": (asks["requires"],)}) if _trains(movement, asks) else movement
            for name, movement in kept.items()
        }
    return replace(library, movements=kept)


def _trains(movement: Movement, asks: dict[str, str]) -> bool:
    return movement.kind in ("lift", "hold") and movement.qualities.get(cast(Quality, asks["quality"])) == 3


def _problem(inputs: Inputs, changed: Athlete, start: datetime.date) -> Problem:
    return estimate_and_problem(replace(inputs, athlete=changed), start)[1]


def _athlete(who: str, changes: dict[str, Any]) -> Loaded[Athlete]:
    lines = merged(YAML(typ="safe").load((ROOT / f"templates/athletes/{who}.yaml").read_text("utf-8")), changes)
    written, yaml = StringIO(), YAML()
    yaml.default_flow_style = None  # a training day, a match, a pin: one line each, as people write them
    yaml.width = 160
    yaml.dump(lines, written)
    return load_bytes(written.getvalue().encode(), "athlete.yaml", ("athlete/1",))  # type: ignore[return-value]
