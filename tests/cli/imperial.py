"""The in-season player as a coach who lifts in pounds would write her file, and her block: the demo's own choices."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from pathlib import Path

import pytest

from planner.cli import main
from planner.jobs import plan_block
from planner.problem.model import Problem
from planner.solve.shortlist import only
from planner.solve.stages import Solution
from planner.solve.variable_ranges import variable_ranges
from tests.solve.demos import solved

SOURCE = Path(__file__).parents[2] / "templates/athletes/in-season-player.yaml"
# As the demo writes it, and as it is written here: the same gym within a pound or two.
WRITTEN = (
    ("bar: 20 kg", "bar: 45 lb"),
    ("[20 kg, 15 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg]", "[45 lb, 35 lb, 25 lb, 10 lb, 5 lb, 2.5 lb]"),
    (
        "[5 kg, 7.5 kg, 10 kg, 12.5 kg, 15 kg, 17.5 kg, 20 kg, 22.5 kg, 25 kg]",
        '"10, 15, 20, 25, 30, 35, 40, 45, 50 lb"',
    ),
    ("runway: 25 m", "runway: 27.5 yd"),
    ("touch: 3.01 m", "touch: 118.5 in"),
    ("[2.97 m, 2.98 m, 2.98 m]", "[117 in, 117 1/4 in, 117 1/4 in]"),
    ("load: 90 kg", "load: 200 lb"),
    ("load: 35 kg", "load: 75 lb"),
)

# The adult demo, who has every kind of test, as a coach writes him who measures in inches, yards and pounds.
ADULT = Path(__file__).parents[2] / "templates/athletes/adult-one-leg-jumper.yaml"
ADULT_WRITTEN = (
    ("bar: 20 kg", "bar: 45 lb"),
    ("[25 kg, 25 kg, 20 kg, 15 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg]", '"45, 45, 45, 35, 25, 10, 5, 2.5 lb"'),
    ("runway: 45 m", "runway: 50 yd"),
    ("touch: 3.22 m", "touch: 127 in"),
    ("[3.10 m, 3.12 m, 3.11 m]", "[122 in, 122 3/4 in, 122.5 in]"),
    ("[2.98 m, 2.99 m, 2.99 m]", "[117 1/2 in, 117 1/2 in, 118 in]"),
    ("[2.02 m, 2.06 m, 2.08 m]", "[79 in, 81 in, 82 in]"),
    ("[2.05 m, 2.11 m, 2.09 m]", "[80.5 in, 83 in, 82.5 in]"),
    ("drop: 30 cm", "drop: 12 in"),
    ("distance: 10 m\n    trials: [1.30 s, 1.28 s, 1.29 s]", "distance: 10 yd\n    trials: [1.19 s, 1.17 s, 1.18 s]"),
    ("method: light gates, 20 m fly-in", "method: light gates, 20 yd fly-in"),
)


def adult_in_inches(folder: Path) -> Path:
    """His file, with the cards' units left to it. Loads of lifts stay in kilograms: a file may mix its units."""
    text = ADULT.read_text("utf-8").replace("print_as: {mass: kg, length: cm, paper: a4}", "print_as: {paper: letter}")
    body = {"body_mass": "179 lb", "stature": "6'1\"", "standing_reach": "7 ft 11 in", "tip_toe_reach": "99 1/2 in"}
    for before, after in (*ADULT_WRITTEN, *_lines(text, body)):
        assert before in text, before
        text = text.replace(before, after)
    path = folder / "cole.yaml"
    path.write_text(text, "utf-8")
    return path


def plan_imperial(folder: Path) -> tuple[Path, Path]:
    """Athlete and block in ``folder``. The units of the cards are left to the file."""
    athlete, block = folder / "petra.yaml", folder / "block.yaml"
    text = SOURCE.read_text("utf-8").replace("print_as: {mass: kg, length: cm, paper: a4}\n", "")
    for before, after in (*WRITTEN, *_body(text)):
        assert before in text, before
        text = text.replace(before, after)
    athlete.write_text(text, "utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plan_block, "solve", as_the_demo)
        assert main(["plan", str(athlete), "-o", str(block)]) == 0
    return athlete, block


def _body(text: str) -> list[tuple[str, str]]:
    """The lines of the body, whatever they are in the demo."""
    return _lines(text, {"body_mass": "154 lb", "stature": "5'11\"", "standing_reach": "7 ft 7 in"})


def _lines(text: str, asked: dict[str, str]) -> list[tuple[str, str]]:
    lines = {line.partition(":")[0]: line for line in text.splitlines()}
    return [(lines[field], f"{field}: {value}") for field, value in asked.items()]


def as_the_demo(problem: Problem, budget: float, progress: Callable[[str], None]) -> Solution:
    """In place of ``solve``: the choices of the demo's own block."""
    kept = solved("in-season").solution
    small = only(problem, set(kept.problem.library.movements))
    values = dict.fromkeys(variable_ranges(small), 0) | kept.values  # what a pound more would open is not chosen
    return dataclasses.replace(kept, problem=small, values=values)
