"""Athletes drawn at random from a seed: days, minutes, gyms, levels, matches, pain, landings, bans and pins."""

from __future__ import annotations

import random
from functools import cache
from pathlib import Path

from ruamel.yaml import YAML

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.library import Library
from planner.domain.template import Template
from planner.domain.terms import DAYS
from planner.files.load import load_benchmarks, load_library, load_template
from planner.problem.from_files import Inputs

ROOT = Path(__file__).parents[2]
FULL_GYM = ["rack", "bench", "box", "hurdles", "chains", "bands", "back-extension-bench", "step", "trap-bar"]
DEMOS = {"adult-one-leg-jumper": "eight-week", "in-season-player": "in-season-four-week"}


@cache
def library() -> Library:
    return load_library(ROOT / "exercise_library").require()


@cache
def benchmarks() -> Benchmarks:
    return load_benchmarks(ROOT / "templates/benchmarks/standard.yaml").require()


@cache
def template(name: str) -> Template:
    return load_template(ROOT / f"templates/blocks/{name}.yaml").require()


def plain(demo: str) -> dict[str, object]:
    """A demo athlete's file as plain data, to be changed and read again."""
    data: dict[str, object] = YAML(typ="safe", pure=True).load(ROOT / f"templates/athletes/{demo}.yaml")
    return data


def inputs(data: dict[str, object], template_name: str) -> Inputs:
    return Inputs(Athlete.model_validate(data), library(), template(template_name), benchmarks())


def drawn_athlete(seed: int) -> tuple[dict[str, object], str]:
    """An athlete's file as plain data, and the template's name. The same seed gives the same athlete."""
    draw = random.Random(seed)
    demo = draw.choice(sorted(DEMOS))
    data, name = plain(demo), DEMOS[demo]
    count = draw.choice([2, 3, 4] if name == "eight-week" else [2, 3])
    days = sorted(draw.sample(range(7), count))
    minutes = draw.choice([40, 50, 60, 75, 90, 110])
    data["training"] = {"days": [{"day": DAYS[d], "minutes": minutes} for d in days], "away": []}
    data["level"] = draw.choice(["novice", "intermediate", "intermediate", "advanced"])
    data["landing"] = draw.choice(["holds", "holds", "not-yet"])
    _draw_gym(draw, data)
    if draw.random() < 0.25:
        joint = draw.choice(["achilles-ankle", "patellar-knee", "hamstring", "low-back"])
        data["joints"] = [{"joint": joint, "side": draw.choice(["left", "right"]), "pain": draw.randint(1, 6)}]
    if draw.random() < 0.3:
        match_day = DAYS[draw.randrange(7)]
        data["matches"] = [{"day": match_day, "minutes": 60, "hardness": "hard", "contacts": 40}]
    if draw.random() < 0.2:
        data["bans"] = sorted(draw.sample(sorted(library().movements), 15))
    if draw.random() < 0.15:
        data["pins"] = [{"movement": draw.choice(sorted(library().movements))}]
    if draw.random() < 0.15:
        data.pop("recent_load")
    return data, name


def _draw_gym(draw: random.Random, data: dict[str, object]) -> None:
    gym: dict[str, object] = {"runway": f"{draw.choice([0, 15, 30, 45])} m"}
    kind = draw.choice(["full", "full", "dumbbells", "nothing"])
    if kind == "full":
        gym |= {"items": FULL_GYM, "bar": "20 kg", "plates": ["20 kg", "20 kg", "10 kg", "5 kg", "2.5 kg", "1.25 kg"]}
    if kind == "dumbbells":
        gym |= {"items": ["bands", "box", "step"]}
    if kind in ("full", "dumbbells"):
        gym["dumbbells"] = ["5 kg", "10 kg", "15 kg", "20 kg", "25 kg"]
    data["equipment"] = gym
