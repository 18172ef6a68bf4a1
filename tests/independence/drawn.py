"""Athletes drawn at random from a seed: days, minutes, gyms, levels, sport, pain, bans, pins; templates; libraries."""

from __future__ import annotations

import datetime
import random
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import cast

from ruamel.yaml import YAML

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.domain.terms import DAYS, JOINTS, LEGS
from planner.files.load import load_benchmarks, load_library, load_template
from planner.problem.from_files import Inputs
from tests.independence.argued import argued_with, with_session_share, with_stress_growth, with_tag3_cap
from tests.independence.drawn_libraries import drawn_library
from tests.independence.short_templates import shortened
from tests.independence.twists import TIGHT, TWISTS, Draw, Twist

ROOT = Path(__file__).parents[2]
FULL_GYM = [
    "rack", "bench", "box", "hurdles", "chains", "bands", "back-extension-bench", "step", "trap-bar", "strap-anchor",
    "cable", "sled", "pull-up-bar", "weight-belt", "heel-wedge", "calf-block", "wall",
]  # fmt: skip
ADULT, PLAYER, YOUTH = "adult-one-leg-jumper", "in-season-player", "youth-two-leg-jumper"
FIRST_WEEK = datetime.date(2025, 9, 7)  # the demos' tests lie just before it; blocks start in it

# Demo, template, weeks kept, how often. Short ones keep a deload and a taper, or a ramp into one; a few are whole.
SHAPES: list[tuple[str, str, tuple[int, ...], int]] = [
    (PLAYER, "in-season-four-week", (1, 3, 4), 12),
    (PLAYER, "in-season-four-week", (2, 3, 4), 12),
    (PLAYER, "in-season-four-week", (1, 2, 3, 4), 2),
    (ADULT, "in-season-four-week", (1, 3, 4), 10),
    (ADULT, "eight-week", (2, 3, 4, 8), 8),
    (ADULT, "eight-week", (3, 4, 7, 8), 4),
    (ADULT, "eight-week", (1, 2, 8), 8),
    (YOUTH, "youth-eight-week", (2, 3, 4, 8), 4),
    (YOUTH, "youth-eight-week", (1, 2, 8), 4),
    (YOUTH, "eight-week", (3, 4, 8), 2),
]
WHOLE = [(ADULT, "eight-week"), (YOUTH, "youth-eight-week"), (PLAYER, "in-season-four-week")]
# Weekdays that a coach would choose, Monday 0; one draw in seven has others.
SPACED = {
    2: [(0, 3), (1, 4), (0, 4), (2, 5)],
    3: [(0, 2, 4), (0, 3, 5), (1, 3, 6)],
    4: [(0, 1, 3, 5), (0, 2, 4, 6), (1, 2, 4, 6)],
}
WHOLE_EVERY = 50  # one draw of so many has a template and the library whole
TWIST_EVERY = 5  # and one of so many is made hard to meet, for each rule in turn
TIGHT_AT = 2  # of as many another has a limit close to what the bands ask


@dataclass(frozen=True)
class Drawn:
    """What a seed gives: the inputs, and a line that says what was drawn."""

    inputs: Inputs
    about: str


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


def drawn(seed: int) -> Drawn:
    """The same seed gives the same athlete, template and library, on any machine."""
    draw = random.Random(seed)
    if seed % WHOLE_EVERY == WHOLE_EVERY - 1:
        demo, name = draw.choice(WHOLE)
        whole = template(name)
        data = _drawn_athlete(draw, demo, name, len(whole.weeks), library())
        return _made(demo, _with_weaker_leg(seed, data), whole, library())
    ((demo, name, weeks, _),) = draw.choices(SHAPES, weights=[often for *_, often in SHAPES])
    if seed % TWIST_EVERY == 0:
        return _twisted(draw, demo, name, weeks, TWISTS[seed // TWIST_EVERY % len(TWISTS)])
    if seed % TWIST_EVERY == TIGHT_AT:
        return _twisted(draw, demo, name, weeks, TIGHT[seed // TWIST_EVERY % len(TIGHT)])
    shelf = drawn_library(draw, library())
    data = _drawn_athlete(draw, demo, name, len(weeks), shelf)
    return _made(demo, _with_weaker_leg(seed, data), argued_with(draw, shortened(template(name), weeks)), shelf)


def _with_weaker_leg(seed: int, data: dict[str, object]) -> dict[str, object]:
    """Some ask for an extra set; of these some show half the heel raises on one leg. Drawn apart from all else."""
    draw = random.Random(f"legs of {seed}")
    if draw.random() < 0.2:
        leg = draw.choice(LEGS) if draw.random() < 0.8 else None
        tests = cast(list[dict[str, object]], data["tests"])
        data["weaker_leg"] = "extra-set"
        data["tests"] = [
            {**test, leg: int(str(test[leg])) // 2} if leg and test["kind"] == "heel-raise" else test for test in tests
        ]
    return data


def _twisted(draw: random.Random, demo: str, name: str, weeks: tuple[int, ...], twist: Twist) -> Drawn:
    """A sound athlete with time, a gym and a library, so that nothing but the twist stands in the way."""
    data = plain(demo) | {"practices": [], "matches": [], "joints": [], "landing": "holds"}
    data["training"] = {"days": [{"day": DAYS[day], "minutes": 90} for day in draw.choice(SPACED[2] + SPACED[3])]}
    data["equipment"] = _full_gym(60)
    if demo == YOUTH:  # used to the work, so that the first week may be one of the middle of a block
        data["recent_load"] = {
            "weekly_contacts": 90, "weekly_high_contacts": 0, "weekly_sprints": 6, "weekly_working_sets": 24,
        }  # fmt: skip
    made = Draw(draw, data, drawn_library(draw, library(), sound=True), FIRST_WEEK, name, weeks)
    twist(made)
    short = shortened(template(made.template), made.weeks)
    if made.session_share is not None:
        short = with_session_share(short, made.session_share)
    if made.tag3_cap is not None:
        short = with_tag3_cap(short, made.tag3_cap)
    if made.stress_ratio is not None:
        short = with_stress_growth(short, made.stress_ratio)
    for part, limits in made.limits.items():
        short = short.model_copy(update={part: getattr(short, part).model_copy(update=limits)})
    found = _made(demo, made.athlete, short, made.library)
    return replace(found, about=f"{found.about}, {twist.__name__.strip('_').replace('_', ' ')}")


def _made(demo: str, data: dict[str, object], short: Template, shelf: Library) -> Drawn:
    about = f"{demo}, {data['level']}, {short.id} in {len(short.weeks)} weeks, {len(shelf)} movements"
    return Drawn(Inputs(Athlete.model_validate(data), shelf, short, benchmarks()), about)


def _drawn_athlete(draw: random.Random, demo: str, name: str, weeks: int, shelf: Library) -> dict[str, object]:
    data = plain(demo)
    count = draw.choice([2, 2, 3] if name == "in-season-four-week" else [2, 2, 3, 4])
    minutes = draw.choice([40, 50, 60, 75, 75, 90, 110])
    days = sorted(draw.choice(SPACED[count]) if draw.random() < 0.85 else draw.sample(range(7), count))
    away = [_on_a_day(draw, days, weeks)] if draw.random() < 0.15 else []
    data["training"] = {"days": [{"day": DAYS[d], "minutes": minutes} for d in days], "away": away}
    if demo != YOUTH:
        data["level"] = draw.choice(["novice"] + ["intermediate"] * 4 + ["advanced"] * 2)
    data["landing"] = draw.choice(["holds", "holds", "holds", "not-yet"])
    if draw.random() < 0.12:
        data["body_mass"] = f"{draw.choice([64, 96, 104])} kg"
    if draw.random() < 0.1:
        data["birth_date"] = datetime.date(2009, 3, 1)
    _draw_gym(draw, data)
    _draw_sport(draw, data, days, weeks)
    _draw_health(draw, data)
    _draw_wishes(draw, data, shelf)
    _draw_recent_load(draw, data)
    return data


def _on_a_day(draw: random.Random, days: list[int], weeks: int) -> datetime.date:
    """A date of the block on one of these weekdays."""
    date = FIRST_WEEK + datetime.timedelta(days=draw.randrange(1, 7 * weeks))
    while date.weekday() not in days:
        date += datetime.timedelta(days=1)
    return date


def _draw_gym(draw: random.Random, data: dict[str, object]) -> None:
    gym = _full_gym(draw.choice([0, 15] + [30, 45, 60] * 5))
    kind = draw.choice(["full"] * 10 + ["dumbbells", "nothing"])
    if kind == "dumbbells":
        gym = {key: gym[key] for key in ("runway", "dumbbells")} | {"items": ["bands", "box", "step", "wall"]}
    data["equipment"] = gym if kind != "nothing" else {"runway": gym["runway"]}


def _full_gym(runway_m: int) -> dict[str, object]:
    return {
        "items": FULL_GYM,
        "bar": "20 kg",
        "plates": ["20 kg", "20 kg", "10 kg", "5 kg", "2.5 kg", "1.25 kg"],
        "dumbbells": ["5 kg", "10 kg", "15 kg", "20 kg", "25 kg"],
        "runway": f"{runway_m} m",
    }


def _draw_sport(draw: random.Random, data: dict[str, object], days: list[int], weeks: int) -> None:
    free = [d for d in range(7) if d not in days]
    data["practices"], data["matches"] = [], []
    if draw.random() < 0.35:
        data["practices"] = [
            {
                "day": DAYS[draw.choice(free)],
                "minutes": draw.choice([60, 90, 120]),
                "hardness": draw.choice(["light", "medium", "hard"]),
                "contacts": draw.choice([0, 30, 60]),
            }
            for _ in range(draw.choice([1, 2]))
        ]
    if draw.random() < 0.15:  # on a training day: its contacts fill the session's ceiling
        practice = {"day": DAYS[draw.choice(days)], "minutes": 60, "contacts": draw.choice([40, 80])}
        data["practices"] = [*data["practices"], practice]  # type: ignore[misc]
    match: dict[str, object] = {"minutes": 60, "hardness": "hard", "contacts": draw.choice([20, 60])}
    if draw.random() < 0.25:
        clear = [d for d in range(7) if d not in days and (d - 1) % 7 not in days]
        often = clear if clear and draw.random() < 0.85 else list(range(7))
        data["matches"] = [{"day": DAYS[draw.choice(often)], **match}]
    elif draw.random() < 0.15:
        data["matches"] = [{"date": _on_a_day(draw, days, weeks), **match}]


def _draw_health(draw: random.Random, data: dict[str, object]) -> None:
    data["joints"] = []
    if draw.random() < 0.25:
        pain = draw.choice([1, 2, 2, 3, 4, 5, 6])
        data["joints"] = [{"joint": draw.choice(JOINTS), "side": draw.choice([None, *LEGS]), "pain": pain}]


def _draw_wishes(draw: random.Random, data: dict[str, object], shelf: Library) -> None:
    names = sorted(shelf.movements)
    if draw.random() < 0.2:
        data["bans"] = sorted(draw.sample(names, draw.choice([1, 3, 6])))
    if draw.random() < 0.25:
        plain_ones = [n for n in names if shelf[n].level == "novice" and not shelf[n].equipment]
        data["pins"] = [{"movement": draw.choice(plain_ones if draw.random() < 0.8 else names)}]
    if draw.random() < 0.1:
        data["allow"] = [{"rule": "high-tier-gate", "reason": "seen to land well", "date": datetime.date(2025, 9, 1)}]


def _draw_recent_load(draw: random.Random, data: dict[str, object]) -> None:
    if draw.random() < 0.15:
        data.pop("recent_load")
    elif draw.random() < 0.25:
        data["recent_load"] = {
            "weekly_contacts": draw.choice([30, 60, 120]),
            "weekly_high_contacts": draw.choice([0, 4, 8]),
            "weekly_sprints": draw.choice([0, 2, 4]),
            "weekly_working_sets": draw.choice([8, 12, 20]),
        }
