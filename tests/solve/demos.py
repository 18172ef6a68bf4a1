"""The shipped athletes, templates and library for tests, whole or with a few lines changed, and their solved blocks."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from io import StringIO
from pathlib import Path
from typing import Any, TypeVar, cast

from pydantic import BaseModel
from ruamel.yaml import YAML

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.block import Block
from planner.domain.block_parts import Reference
from planner.domain.gap_record import Gap
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.files.document import Loaded
from planner.files.load import load_benchmarks, load_bytes, load_file, load_library
from planner.problem.from_files import Inputs, estimate_and_problem
from planner.problem.model import Problem
from planner.solve.budgets import DEFAULT_BUDGET
from planner.solve.make_block import References, make_block
from planner.solve.stages import Solution, solve
from tests.made_once import made_once

ROOT = Path(__file__).parents[2]
# The athlete and template of each demo, by the short name that the tests use.
DEMOS = {
    "adult": ("adult-one-leg-jumper", "eight-week"),
    "youth": ("youth-two-leg-jumper", "youth-eight-week"),
    "in-season": ("in-season-player", "in-season-four-week"),
}
# What is under test is not how a block finds its files.
SOMEWHERE = Reference(path="somewhere", sha256="0" * 64)
Lines = Mapping[str, Any]
M = TypeVar("M", bound=BaseModel)


@dataclass(frozen=True)
class Demo:
    """A solved block with all that it was made from."""

    inputs: Inputs
    gap: Gap
    problem: Problem
    solution: Solution
    block: Block


@cache
def shipped_library(folder: Path = ROOT) -> Library:
    return needed(load_library(folder / "exercise_library"))


@cache
def shipped_benchmarks(folder: Path = ROOT) -> Benchmarks:
    return needed(load_benchmarks(folder / "templates/benchmarks/standard.yaml"))


def athlete(name: str, changes: Lines | None = None) -> Athlete:
    """A shipped athlete with some lines of the file changed, written as they would stand in the file."""
    path = ROOT / "templates/athletes" / f"{name}.yaml"
    return cast(Athlete, _changed(path, changes, "athlete/1") if changes else _as_shipped(path))


def template(name: str, changes: Lines | None = None, folder: Path = ROOT) -> Template:
    path = folder / "templates/blocks" / f"{name}.yaml"
    return cast(Template, _changed(path, changes, "template/1") if changes else _as_shipped(path))


def inputs(
    demo: str, athlete_changes: Lines | None = None, template_changes: Lines | None = None, folder: Path = ROOT
) -> Inputs:
    """``folder``: where library, template and benchmarks come from, if not as shipped."""
    who, shape = DEMOS[demo]
    planned_with = template(shape, template_changes, folder)
    return Inputs(athlete(who, athlete_changes), shipped_library(folder), planned_with, shipped_benchmarks(folder))


def problem(
    demo: str,
    athlete_changes: Lines | None = None,
    template_changes: Lines | None = None,
    start: datetime.date | None = None,
    folder: Path = ROOT,
) -> Problem:
    """The Problem of a demo with some lines of its files changed; nothing is solved."""
    return estimate_and_problem(inputs(demo, athlete_changes, template_changes, folder), start)[1]


@cache
def solved(demo: str) -> Demo:
    return made_once(f"demo-{demo}", lambda: solve_for(inputs(demo)))


def solve_for(given: Inputs, start: datetime.date | None = None, budget: float = DEFAULT_BUDGET) -> Demo:
    """Estimate, plan and block of these inputs. Raises what ``solve`` raises."""
    result, problem_ = estimate_and_problem(given, start)
    solution = solve(problem_, budget)
    block = make_block(solution, result.gap, References(SOMEWHERE, SOMEWHERE, SOMEWHERE, SOMEWHERE))
    return Demo(given, result.gap, problem_, solution, block)


def needed(loaded: Loaded[M]) -> M:
    assert loaded.value is not None, [f"{f.path}:{f.line}: {f.message}" for f in loaded.findings]
    return loaded.value


def merged(lines: Lines, changes: Lines) -> dict[str, Any]:
    """Mappings merge key by key; anything else is replaced. None takes a key out."""
    found = dict(lines)
    for key, value in changes.items():
        if value is None:
            found.pop(key, None)
        elif isinstance(value, Mapping) and isinstance(found.get(key), Mapping):
            found[key] = merged(found[key], value)
        else:
            found[key] = value
    return found


@cache
def _as_shipped(path: Path) -> BaseModel:
    return needed(load_file(path))


def _changed(path: Path, changes: Lines | None, kind: str) -> BaseModel:
    lines = merged(_lines(path), changes or {})
    written = StringIO()
    YAML().dump(lines, written)  # the plain dumper would sort the keys, and file: stands first
    return needed(load_bytes(written.getvalue().encode(), path.name, (kind,)))


@cache
def _lines(path: Path) -> dict[str, Any]:
    return cast("dict[str, Any]", YAML(typ="safe").load(path.read_text("utf-8")))
