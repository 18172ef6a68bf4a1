"""Wishes that cannot all come true, one for each rule that drawn athletes alone would seldom bring to a head.

A twist changes a sound athlete's file or library; whether it leaves a block is for the planner to say.
"""

from __future__ import annotations

import datetime
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import DAYS, JOINTS, LIFT_QUALITIES
from tests.independence.drawn_libraries import opened_drops, with_movements, without_first_tags

Lines = dict[str, object]


@dataclass
class Draw:
    """A sound athlete's file with its library, and the weeks of the block."""

    random: random.Random
    athlete: Lines
    library: Library
    start: datetime.date
    template: str
    weeks: tuple[int, ...]
    limits: dict[str, Lines] = field(default_factory=dict)  # of the template, where they are not as shipped
    session_share: float | None = None  # a ceiling on a session's contacts, as a share of the level's heaviest week
    tag3_cap: int | None = None  # most tag-3 landings of a session, for every level
    stress_ratio: float | None = None  # joint stress of a load week to that of the last one

    def days(self) -> list[str]:
        return [day["day"] for day in self.athlete["training"]["days"]]  # type: ignore[index]

    def dates(self, day: str, weeks: int | None = None) -> Iterator[datetime.date]:
        """The dates of a weekday in the first so many weeks."""
        for offset in range(7 * (weeks or len(self.weeks))):
            date = self.start + datetime.timedelta(days=offset)
            if DAYS[date.weekday()] == day:
                yield date

    def pin(self, fits: Callable[[Movement], bool], day: str | None = None) -> None:
        """Pin one of the movements that fit; none fitting, nothing is pinned."""
        fitting = [movement.id for movement in self.library if fits(movement)]
        if fitting:
            pin: Lines = {"movement": self.random.choice(fitting)}
            pins: list[Lines] = self.athlete.setdefault("pins", [])  # type: ignore[assignment]
            pins.append(pin | ({"day": day} if day else {}))


Twist = Callable[[Draw], None]


def _same_day_same_family(draw: Draw) -> None:
    families: dict[str, list[str]] = {}
    for name, family in draw.library.families.items():
        if draw.library[name].part in ("one-leg", "trunk") and draw.library[name].level == "novice":
            families.setdefault(family, []).append(name)
    twins = [members for members in families.values() if len(members) > 1]
    if twins:
        day = draw.random.choice(draw.days())
        draw.athlete["pins"] = [{"movement": name, "day": day} for name in draw.random.choice(twins)[:2]]


def _banned_and_pinned(draw: Draw) -> None:
    draw.pin(lambda movement: movement.level == "novice")
    draw.athlete["bans"] = [pin["movement"] for pin in draw.athlete.get("pins", [])]  # type: ignore[attr-defined]


def _sprints_on_close_days(draw: Draw) -> None:
    _days(draw, ["mon", "tue", "thu", "sat"])
    draw.athlete["level"] = "intermediate"
    for day in ("mon", "tue"):
        draw.pin(lambda m: m.sprint is not None and m.sprint.sort == "acceleration" and not m.equipment, day)


def _sore_before_sprints(draw: Draw) -> None:
    _days(draw, ["mon", "tue", "thu", "sat"])
    draw.athlete["level"] = "intermediate"
    draw.pin(lambda m: m.eccentric_hamstring and m.level != "advanced" and not m.requires, "mon")
    draw.pin(lambda m: m.sprint is not None and m.sprint.sort == "acceleration" and not m.equipment, "tue")


def _jumps_on_every_day(draw: Draw) -> None:
    draw.athlete["level"] = "novice"
    for day in draw.days()[:3]:
        draw.pin(lambda m: m.part == "landing" and m.level == "novice" and not m.equipment and m.jump is not None, day)


def _practices_full_of_jumps(draw: Draw) -> None:
    draw.athlete["practices"] = [{"day": day, "minutes": 60, "contacts": 150} for day in draw.days()]


def _no_drill_before_the_run_up(draw: Draw) -> None:
    draw.athlete["bans"] = [movement.id for movement in draw.library if movement.part == "skill"]
    draw.athlete["allow"] = [_word("high-tier-gate")]
    draw.pin(lambda m: m.part == "approach-jump" and m.jump is not None and m.jump.tier == "high" and not m.equipment)


def _away_on_the_pinned_day(draw: Draw) -> None:
    day = draw.days()[0]
    training: Lines = draw.athlete["training"]  # type: ignore[assignment]
    training["away"] = list(draw.dates(day, len(draw.weeks) - 1))
    draw.pin(lambda m: m.level == "novice" and not m.equipment and not m.requires, day)


def _sport_before_the_weeks_jumps(draw: Draw) -> None:
    """Sport takes all contacts until the last week; its primer is then new."""
    dates = [date for day in draw.days() for date in draw.dates(day, len(draw.weeks) - 1)]
    draw.athlete["practices"] = [{"date": date, "minutes": 30, "contacts": 150} for date in sorted(dates)]


def _fast_day_too_near_the_test(draw: Draw) -> None:
    """Every fast sprint makes a hard day, and none of the last week lies far enough before the test."""
    draw.template, draw.weeks = "eight-week", (1, 2, 8)
    draw.limits["hard_day"] = {"sprints": 1, "days_before_test": 7}
    draw.athlete["level"] = "advanced"
    _days(draw, ["mon", "wed", "fri"])


def _hard_matches_around_training(draw: Draw) -> None:
    draw.athlete["matches"] = [{"day": day, "minutes": 60, "hardness": "hard"} for day in ("mon", "thu")]
    draw.athlete["practices"] = [{"day": "sat", "minutes": 60, "hardness": "hard"}]


def _pain_and_sport(draw: Draw) -> None:
    joint = draw.random.choice(["achilles-ankle", "patellar-knee"])
    draw.athlete["joints"] = [{"joint": joint, "pain": draw.random.choice([2, 4, 5])}]
    draw.athlete["practices"] = [
        {"day": day, "minutes": 120, "contacts": 0} for day in DAYS if day not in draw.days()
    ][:3]  # fmt: skip


def _most_stressful_jumps(draw: Draw) -> None:
    """Two pinned jumps that stress the sore tendon most, under a coach's very low cap on such landings."""
    draw.athlete["level"], draw.athlete["joints"] = "advanced", [{"joint": "achilles-ankle", "pain": 2}]
    draw.tag3_cap = 2
    for _ in range(2):
        draw.pin(lambda m: m.part in ("jump", "landing") and m.stress.get("achilles-ankle") == 3)


def _no_first_work(draw: Draw) -> None:
    draw.library = without_first_tags(draw.library, draw.random.choice(LIFT_QUALITIES))


def _drop_for_a_beginner(draw: Draw) -> None:
    draw.athlete["level"] = "novice"
    draw.library = opened_drops(draw.library)
    draw.pin(lambda m: m.jump is not None and m.jump.drop is not None and m.jump.rebound)


def _little_time(draw: Draw) -> None:
    for day in draw.athlete["training"]["days"]:  # type: ignore[index]
        day["minutes"] = draw.random.choice([20, 25, 30])


def _from_nothing(draw: Draw) -> None:
    draw.athlete["recent_load"] = {
        "weekly_contacts": 0, "weekly_high_contacts": 0, "weekly_sprints": 0, "weekly_working_sets": 0,
    }  # fmt: skip
    draw.pin(lambda m: m.sprint is not None and not m.equipment)


def _pinned_over_the_gate(draw: Draw) -> None:
    draw.athlete["level"], draw.athlete["landing"] = "advanced", "not-yet"
    draw.pin(lambda m: m.jump is not None and m.jump.tier == "high" and not m.equipment and not m.requires)


def _pinned_over_pain(draw: Draw) -> None:
    draw.athlete["level"], draw.athlete["joints"] = "advanced", [{"joint": "patellar-knee", "pain": 4}]
    draw.pin(lambda m: m.stress.get("patellar-knee") == 3)


def _no_sprint_for_the_taper(draw: Draw) -> None:
    """What may be sprinted in the build weeks has no sets in the taper, and the other way round."""
    draw.template, draw.weeks = "eight-week", (1, 2, 8)
    draw.athlete["level"] = "advanced"
    draw.athlete["bans"] = [m.id for m in draw.library if m.sprint and m.sprint.sort in ("acceleration", "tempo")]
    _days(draw, ["mon", "wed", "fri"])


def _a_beginners_few_contacts(draw: Draw) -> None:
    draw.athlete["level"] = "novice"
    for _ in range(2):
        draw.pin(lambda m: m.jump is not None and m.part == "jump" and m.level == "novice" and m.dose.load == "none")


def _too_weak_for_the_pin(draw: Draw) -> None:
    """The library asks more strength for the pinned movement than any test shows, or than this athlete's does."""
    draw.pin(lambda m: m.level == "novice" and not m.equipment and m.part in ("one-leg", "trunk", "hamstring"))
    least = draw.random.choice(["2.5", "3"])
    asked = {"requires": (f"back-squat >= {least} body mass",)}
    pinned = {pin["movement"] for pin in draw.athlete.get("pins", [])}  # type: ignore[attr-defined]
    changed = {m.id: m.model_copy(update=asked) if m.id in pinned else m for m in draw.library}
    draw.library = with_movements(draw.library, changed)


def _deload_too_light_for_its_patterns(draw: Draw) -> None:
    """So small a share of the load week that its sets do not go round the patterns that the week must train."""
    draw.template, draw.weeks = draw.random.choice([("eight-week", (2, 3, 4, 8)), ("eight-week", (3, 4, 8))])
    draw.limits["deload"] = {"low": 0.05, "high": draw.random.choice([0.1, 0.15, 0.2])}


def _second_week_all_but_free_of_stress(draw: Draw) -> None:
    """A ratio far below 1: the week's floors and patterns ask for more."""
    draw.stress_ratio = draw.random.choice([0.1, 0.2, 0.3])


def _one_sore_joint(draw: Draw) -> None:
    """More than slight pain, no sport: what loads the joint most is closed, and the rest has less room."""
    trained = [m for m in draw.library if m.level != "advanced" and not m.requires and m.kind != "hold"]
    joints = sorted({joint for m in trained for joint, tag in m.stress.items() if tag == 3}) or list(JOINTS)
    draw.athlete["joints"] = [{"joint": draw.random.choice(joints), "pain": draw.random.choice([3, 4, 5])}]


def _one_match(draw: Draw) -> None:
    """A single match, the day after training: one session of the block can be no more than a primer."""
    day = draw.random.choice(list(draw.dates(draw.random.choice(draw.days()), len(draw.weeks) - 1)))
    match = {"date": day + datetime.timedelta(days=1), "minutes": 60, "hardness": "hard", "contacts": 20}
    draw.athlete["matches"] = [match]


def _away_once(draw: Draw) -> None:
    training: Lines = draw.athlete["training"]  # type: ignore[assignment]
    training["away"] = [draw.random.choice(list(draw.dates(draw.random.choice(draw.days()), len(draw.weeks) - 1)))]


def _low_session_ceiling(draw: Draw) -> None:
    """Two sessions that hold less than the week aims at, and more than its floor."""
    _days(draw, ["mon", "thu"])
    draw.session_share = draw.random.choice([0.28, 0.3, 0.32])


def _floor_in_the_band(draw: Draw) -> None:
    """A coach who wants a load week's contacts on the number, and not one fewer."""
    draw.limits["floors"] = {"contacts": {"build": 1.0, "intensify": 1.0, "deload": 0.25, "taper": 0.25}}
    draw.limits["band_width"] = {"fraction": 0.02, "least_contacts": 2}


def _few_young_contacts(draw: Draw) -> None:
    """A novice's ceiling under the template's budgets, with a floor close to it."""
    _days(draw, ["mon", "thu"])
    draw.athlete["level"] = "novice"
    draw.limits["youth"] = {"contacts_week": draw.random.choice([36, 40, 44])}
    draw.limits["floors"] = {"contacts": {"build": 0.95, "intensify": 0.95, "deload": 0.25, "taper": 0.25}}


def _days(draw: Draw, days: list[str]) -> None:
    training: Lines = draw.athlete["training"]  # type: ignore[assignment]
    training["days"] = [{"day": day, "minutes": 90} for day in days]


def _word(rule: str) -> Lines:
    return {"rule": rule, "reason": "seen to land well", "date": datetime.date(2025, 9, 1)}


TWISTS: tuple[Twist, ...] = (
    _same_day_same_family,
    _banned_and_pinned,
    _sprints_on_close_days,
    _sore_before_sprints,
    _jumps_on_every_day,
    _practices_full_of_jumps,
    _no_drill_before_the_run_up,
    _away_on_the_pinned_day,
    _sport_before_the_weeks_jumps,
    _fast_day_too_near_the_test,
    _hard_matches_around_training,
    _pain_and_sport,
    _most_stressful_jumps,
    _no_first_work,
    _drop_for_a_beginner,
    _little_time,
    _from_nothing,
    _pinned_over_the_gate,
    _pinned_over_pain,
    _no_sprint_for_the_taper,
    _a_beginners_few_contacts,
    _too_weak_for_the_pin,
    _deload_too_light_for_its_patterns,
    _second_week_all_but_free_of_stress,
)
# Where a limit should hold a block back and still leave one.
TIGHT: tuple[Twist, ...] = (
    _one_sore_joint,
    _one_match,
    _away_once,
    _low_session_ceiling,
    _floor_in_the_band,
    _few_young_contacts,
)
