"""Athletes as a coach meets them, drawn from a seed: shipped templates and library whole, nothing twisted.

Levels, ages, days, gyms, deficits, pains, sport, standing and run-up targets, with many tests and with few.
"""

from __future__ import annotations

import json
import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, cast

from planner.domain.athlete import Athlete
from planner.files.load import load_bytes
from planner.problem.from_files import Inputs, estimate_from
from planner.units import STANDARD_GRAVITY_m_s2
from tests.independence.drawn import benchmarks, library, template

Lines = dict[str, Any]
TESTED_ON = "2025-09-05"
REPS, IN_RESERVE = 4, 2  # of a lift's test
WEEKS_WITH = {  # days that a coach would choose
    2: (("mon", "thu"), ("tue", "fri"), ("tue", "sat")),
    3: (("mon", "wed", "fri"), ("mon", "thu", "sat"), ("tue", "thu", "sun")),
    4: (("mon", "tue", "thu", "sat"), ("mon", "wed", "fri", "sun"), ("tue", "wed", "fri", "sun")),
}
PLATES = ("25 kg", "25 kg", "20 kg", "20 kg", "15 kg", "10 kg", "5 kg", "2.5 kg", "1.25 kg")
LIGHT, HEAVY = (5, 7.5, 10, 12.5, 15, 17.5, 20), (22.5, 25, 27.5, 30, 32.5, 35, 40)
SMALL_GYM = ("dumbbells", "bands", "box", "step", "wall")
BAR_GYM = ("barbell", "rack", "bench", *SMALL_GYM, "strap-anchor")
FULL_GYM = (*BAR_GYM, "trap-bar", "back-extension-bench", "pull-up-bar", "cable", "weight-belt", "hurdles", "chains",
    "sled", "heel-wedge", "calf-block")  # fmt: skip
# Short of what the target asks, as a share; below 0 a surplus; None: untested.
DEFICITS = (None, None, -0.25, -0.12, -0.05, 0.0, 0.05, 0.1, 0.15, 0.22, 0.3)
# Quality, lift, share of the body lifted with it, share of the whole on the leg that is read, what the gym must have.
LIFTS = (
    ("maximal-strength", "back-squat", 0.0, 1.0, "rack"),
    ("unilateral-hip", "rear-foot-split-squat", 1.0, 0.844, "rack"),
    ("knee-dominant", "heel-raised-one-leg-squat", 1.0, 1.0, "dumbbells"),
    ("calf-ankle", "loaded-one-leg-calf-raise", 1.0, 1.0, "rack"),
)
USUAL = {"novice": (55, 0, 4, 14), "intermediate": (180, 12, 8, 28), "advanced": (230, 20, 10, 34)}


@dataclass(frozen=True)
class Drawn:
    """An athlete's file as plain data (dates as text), the template it is planned with, and what was drawn."""

    athlete: Lines
    template: str
    about: str

    @property
    def inputs(self) -> Inputs:
        return Inputs(athlete_of(self.athlete), library(), template(self.template), benchmarks())


def athlete_of(lines: Mapping[str, Any]) -> Athlete:
    return cast(Athlete, load_bytes(json.dumps(lines).encode(), "athlete.yaml", ("athlete/1",)).require())


def drawn(seed: int) -> Drawn:
    """The same seed gives the same athlete, on any machine."""
    draw = random.Random(f"coach {seed}")
    level = draw.choice(["novice"] * 4 + ["intermediate"] * 7 + ["advanced"] * 4)
    age = draw.choice([15, 16, 17]) if draw.random() < (0.4 if level == "novice" else 0.05) else _adult_age(draw)
    lines = _body(draw, level, age)
    _jump(draw, lines)
    name = _template(draw, level, age)
    _week(draw, lines, name)
    gym = _gym(draw, lines, level)
    _sport(draw, lines, name)
    _health(draw, lines, level)
    _recent(draw, lines, level)
    short = _tests(draw, lines, level, name)
    run_up = f"{lines['approach']['steps']} steps" if lines["approach"]["steps"] else "standing"
    days = len(lines["training"]["days"])
    about = f"{level}, {age}, {lines['body_mass']}, {lines['take_off']}, {run_up}, {name}, {days} days, {gym} gym"
    for joint in lines["joints"]:
        about += f", {joint['joint']} pain {joint['pain']}"
    return Drawn(lines, name, f"{about}; {short or 'no quality tested'}")


def _adult_age(draw: random.Random) -> int:
    return draw.choice([19, 22, 25, 28, 31, 34, 38, 44])


def _body(draw: random.Random, level: str, age: int) -> Lines:
    sex = draw.choice(["female", "male"])
    stature = draw.uniform(1.62, 1.82) if sex == "female" else draw.uniform(1.72, 2.02)
    mass = draw.uniform(20.5, 25.0) * stature**2
    if age < 18:
        stature, mass = stature - 0.05, mass * 0.9
    reach = stature * draw.uniform(1.28, 1.32)
    return {
        "file": "athlete/1",
        "name": f"Drawn {level}",
        "birth_date": f"{2025 - age}-03-14",
        "sex": sex,
        "body_mass": f"{mass:.0f} kg",
        "stature": f"{stature:.2f} m",
        "standing_reach": f"{reach:.2f} m",
        "tip_toe_reach": f"{reach + 0.11:.2f} m",
        "level": level,
        "training_age_years": {"novice": 0.5, "intermediate": 4, "advanced": 9}[level],
        "landing": "not-yet" if draw.random() < (0.4 if level == "novice" else 0.1) else "holds",
    }


def _jump(draw: random.Random, lines: Lines) -> None:
    """The target jump with its test: off a stand or a run-up, off one leg or both; a gain that a block is asked for."""
    lines["take_off"] = draw.choice(["two-leg", "two-leg", "one-leg left", "one-leg right"])
    one_leg = lines["take_off"] != "two-leg"
    steps = draw.choice([3, 5, 7, 9]) if one_leg else draw.choice([0, 0, 0, 3, 4])
    lines["approach"] = {"steps": steps, "line": "curved" if steps > 4 and draw.random() < 0.5 else "straight"}
    rise = {"novice": 0.36, "intermediate": 0.48, "advanced": 0.58}[lines["level"]] + draw.uniform(-0.05, 0.05)
    rise += 0.06 if steps else 0.0
    now = float(lines["tip_toe_reach"][:-2]) + rise
    lines["target"] = {"touch": f"{now + draw.choice([0.0, 0.03, 0.05, 0.08, 0.12]):.2f} m", "method": "touch"}
    touch = {
        "kind": "touch", "date": TESTED_ON, "method": "vane tape on a wall", "protocol": "as on the day",
        "take_off": lines["take_off"], "run_up": steps > 0,
        "trials": [f"{now + off:.2f} m" for off in (-0.01, 0, 0.01)],
    }  # fmt: skip
    lines["tests"] = [touch]
    if steps and draw.random() < 0.8:
        contact = draw.uniform(0.18, 0.23) if one_leg else draw.uniform(0.26, 0.34)
        lines["tests"].append(
            {
                "kind": "contact-time",
                "date": TESTED_ON,
                "method": "phone video at 240 frames a second",
                "take_off": lines["take_off"],
                "trials": [f"{contact:.3f} s"] * 3,
            }
        )


def _template(draw: random.Random, level: str, age: int) -> str:
    if level == "novice":
        return draw.choice(["youth-eight-week", "youth-eight-week", "eight-week"] if age < 18 else ["eight-week"])
    return draw.choice(["eight-week"] * 5 + ["twelve-week"] * 2 + ["in-season-four-week"] * 2)


def _week(draw: random.Random, lines: Lines, name: str) -> None:
    days = draw.choice(WEEKS_WITH[draw.choice([2, 3] if name == "in-season-four-week" else [2, 3, 3, 4, 4])])
    minutes = draw.choice([60, 75, 90]) if len(days) > 2 else draw.choice([75, 90])
    lines["training"] = {"days": [{"day": day, "minutes": minutes} for day in days]}


def _gym(draw: random.Random, lines: Lines, level: str) -> str:
    kinds = ["full", "bar", "dumbbells", "nothing"] if level == "novice" else ["full"] * 4 + ["bar"] * 3 + ["dumbbells"]
    kind = draw.choice(kinds)
    gym: Lines = {"runway": f"{draw.choice([20, 25, 30, 45, 60, 60])} m"}
    if kind != "nothing":
        gym["items"] = list({"full": FULL_GYM, "bar": BAR_GYM, "dumbbells": SMALL_GYM}[kind])
        gym["dumbbells"] = [f"{one:g} kg" for one in (LIGHT if level == "novice" else LIGHT + HEAVY)]
    if kind in ("full", "bar"):
        gym |= {"bar": "20 kg", "plates": list(PLATES)}
    lines["equipment"] = gym
    return kind


def _sport(draw: random.Random, lines: Lines, name: str) -> None:
    """Practices and a match on days without training, where a coach would have them."""
    lines["practices"], lines["matches"] = [], []
    if name != "in-season-four-week" and draw.random() > 0.25:
        return
    trained = [day["day"] for day in lines["training"]["days"]]
    free = [day for day in ("tue", "wed", "thu", "fri", "mon") if day not in trained]
    for day in free[: draw.choice([1, 2])]:
        hardness = draw.choice(["light", "medium", "medium", "hard"])
        lines["practices"].append({"day": day, "minutes": 90, "hardness": hardness, "contacts": draw.choice([30, 60])})
    weekend = [day for day in ("sat", "sun") if day not in trained]
    if weekend and (name == "in-season-four-week" or draw.random() < 0.5):
        match = draw.choice(weekend)
        if {"sat": "fri", "sun": "sat"}[match] not in trained:  # nobody trains the day before each match
            lines["matches"].append({"day": match, "minutes": 75, "hardness": "hard", "contacts": 60})


def _health(draw: random.Random, lines: Lines, level: str) -> None:
    lines["joints"] = []
    if draw.random() < 0.25:
        joint = draw.choice(["achilles-ankle", "achilles-ankle", "patellar-knee", "patellar-knee", "hamstring"])
        lines["joints"] = [{"joint": joint, "side": draw.choice(["left", "right"]), "pain": draw.choice([1, 2, 2, 3])}]


def _recent(draw: random.Random, lines: Lines, level: str) -> None:
    if draw.random() < 0.1:
        return
    contacts, high, sprints, sets = USUAL[level]
    share = draw.uniform(0.8, 1.1)
    lines["recent_load"] = {
        "weekly_contacts": round(contacts * share),
        "weekly_high_contacts": round(high * share),
        "weekly_sprints": round(sprints * share),
        "weekly_working_sets": round(sets * share),
    }


def _tests(draw: random.Random, lines: Lines, level: str, name: str) -> str:
    """Tests of the qualities, each short of the target's need by what is drawn; returns what was drawn, in words."""
    needs, body_kg, has = needs_of(lines, name), float(lines["body_mass"][:-3]), lines["equipment"].get("items", [])
    if draw.random() < 0.12:
        return ""
    wanted = {quality: draw.choice(DEFICITS) for quality in dict.fromkeys(one[0] for one in LIFTS)}
    if draw.random() < 0.15:  # strong throughout
        wanted = dict.fromkeys(wanted, -0.2)
    done: Lines = {}
    for quality, lift, body_share, leg_share, gym in LIFTS:
        short = wanted[quality]
        if short is None or gym not in has or level == "novice":
            continue
        system_kg = needs[quality, "N"] * (1 - short) / leg_share / STANDARD_GRAVITY_m_s2
        load = load_showing(system_kg - body_kg, body_kg * body_share)
        if load > 0:
            done[quality] = f"{quality} short by {short:+.0%}"
            sides = ({"side": "left"}, {"side": "right"}) if body_share else ({},)
            lines["tests"] += [{**lift_test(lift, load, REPS, IN_RESERVE), **side} for side in sides]
    if level == "novice" and "dumbbells" in has and draw.random() < 0.7:
        done["maximal-strength"] = "goblet squat tested"
        lines["tests"].append(lift_test("goblet-squat", draw.choice(LIGHT[1:]), 7, 3))
    short = wanted["calf-ankle"]
    if short is not None:
        reps = max(5, round(needs["calf-ankle", "reps"] * (1 - short)))
        raises = {"form": "strict", "protocol": "60 beats a minute", "left": reps, "right": reps}
        lines["tests"].append({"kind": "heel-raise", "date": TESTED_ON, **raises})
        done.setdefault("calf-ankle", f"calf-ankle short by {short:+.0%}")
    done |= _speed_tests(draw, lines, level, needs, body_kg)
    return ", ".join(done.values())


def _speed_tests(draw: random.Random, lines: Lines, level: str, needs: Any, body_kg: float) -> Lines:
    short = draw.choice(DEFICITS)
    if short is None:
        return {}
    if level != "novice" and draw.random() < 0.6:
        contact, box = draw.uniform(0.19, 0.24), draw.choice([0.3, 0.3, 0.2])
        net_N = needs["speed-exposure", "N"] * (1 - short) - body_kg * STANDARD_GRAVITY_m_s2
        landing_m_s = (2 * STANDARD_GRAVITY_m_s2 * box) ** 0.5
        flight = 2 * (net_N * contact / body_kg - landing_m_s) / STANDARD_GRAVITY_m_s2
        if 0.25 < flight < 0.75:
            trial = {"contact": f"{contact:.3f} s", "flight": f"{flight:.3f} s"}
            kept = {"method": "contact mat", "drop": f"{100 * box:.0f} cm", "trials": [trial] * 3}
            lines["tests"].append({"kind": "drop-jump", "date": TESTED_ON, **kept})
            return {"speed-exposure": f"drop jump short by {short:+.0%}"}
    speed = needs["speed-exposure", "m/s"] * (1 - short)
    run = {"method": "light gates", "distance": "10 m", "trials": [f"{10 / speed:.2f} s"] * 2}
    lines["tests"].append({"kind": "flying-sprint", "date": TESTED_ON, **run})
    return {"speed-exposure": f"sprint short by {short:+.0%}"}


def needs_of(lines: Lines, name: str) -> dict[tuple[str, str], float]:
    """What the target asks of each quality, by unit: read off an estimate with some result of every test."""
    at = {"date": TESTED_ON}
    lifts = [
        {"kind": "lift", **at, "movement": lift, "load": "20 kg", "reps": 4, **({"side": "left"} if side else {})}
        for lift, side in (("back-squat", 0), *((one[1], 1) for one in LIFTS[2:]))
    ]
    rest = [
        {"kind": "heel-raise", **at, "form": "strict", "left": 20, "right": 20},
        {"kind": "drop-jump", **at, "drop": "30 cm", "trials": [{"contact": "0.2 s", "flight": "0.5 s"}]},
        {"kind": "flying-sprint", **at, "distance": "10 m", "trials": ["1.3 s"]},
    ]
    trial = Drawn({**lines, "tests": [*lines["tests"], *lifts, *rest]}, name, "")
    found = estimate_from(trial.inputs).gap.qualities
    return {(line.quality, line.unit): line.need for line in found if line.need is not None}


def load_showing(one_rm_kg: float, body_kg: float) -> float:
    """The load of a set that shows this maximum, to 2.5 kg: Epley on what is lifted."""
    return 2.5 * round(((one_rm_kg + body_kg) / (1 + (REPS + IN_RESERVE) / 30) - body_kg) / 2.5)


def lift_test(lift: str, load_kg: float, reps: int, left: int) -> Lines:
    done = {"load": f"{load_kg:g} kg", "reps": reps, "reps_in_reserve": left}
    return {"kind": "lift", "date": TESTED_ON, "movement": lift, **done}
