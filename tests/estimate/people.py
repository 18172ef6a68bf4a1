"""Athletes for the estimate's tests, written as a coach would write them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks

CHECKOUT = Path(__file__).parents[2]

JUMPER = """
file: athlete/1
name: Invented Jumper
birth_date: 2000-01-01
body_mass: 74 kg
stature: 1.84 m
standing_reach: 2.38 m
take_off: one-leg left
approach: {steps: 5}
level: intermediate
training_age_years: 3
training: {days: [{day: mon, minutes: 60}]}
landing: holds
target: {touch: 3.20 m, method: touch}
tests:
  - {kind: touch, date: 2025-01-04, take_off: one-leg left, run_up: true, trials: [3.05 m]}
  - {kind: contact-time, date: 2025-01-04, take_off: one-leg left, trials: [0.21 s]}
  - {kind: lift, date: 2025-01-02, movement: back-squat, load: 120 kg, reps: 3, reps_in_reserve: 2}
  - {kind: heel-raise, date: 2025-01-02, form: strict, protocol: 60 beats a minute, left: 22, right: 27}
  - {kind: drop-jump, date: 2025-01-04, drop: 30 cm, trials: [{contact: 0.215 s, flight: 0.50 s}]}
"""


def read(text: str) -> dict[str, Any]:
    data: dict[str, Any] = YAML(typ="safe").load(text)
    return data


def jumper(tests: list[dict[str, Any]] | None = None, **changes: Any) -> Athlete:
    """The worked athlete with fields changed; ``tests`` replaces all of them."""
    data = {**read(JUMPER), **changes}
    if tests is not None:
        data["tests"] = [{"date": read("d: 2025-01-04")["d"], **test} for test in tests]
    return Athlete.model_validate(data)


def jumper_with(*tests: dict[str, Any], **changes: Any) -> Athlete:
    """The worked athlete with tests added, a month later than the others, so that they count alone."""
    data = {**read(JUMPER), **changes}
    data["tests"] = [*data["tests"], *({"date": read("d: 2025-02-06")["d"], **test} for test in tests)]
    return Athlete.model_validate(data)


def shipped_benchmarks() -> Benchmarks:
    text = (CHECKOUT / "templates/benchmarks/standard.yaml").read_text("utf-8")
    return Benchmarks.model_validate(read(text))


def demo(name: str) -> Athlete:
    return Athlete.model_validate(read((CHECKOUT / f"templates/athletes/{name}.yaml").read_text("utf-8")))


DEMOS = ("adult-one-leg-jumper", "youth-two-leg-jumper", "in-season-player")
