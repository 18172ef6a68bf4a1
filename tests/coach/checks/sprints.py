"""Sprints: long enough, flying where the runway allows, and no longer than it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check, in_week

LONG_m = 20  # fly-in included
SHARE_LONG = 0.5  # of the efforts, from the second phase
FLYING_A_WEEK = 2  # the least of 2-4
FLYING_RUNWAY_m = 40  # 20 m to build up, 10 m, 10 m to slow down
SPEED_SHORT = 0.08  # beyond it something truly fast belongs into both load phases
HAUGEN = "Haugen et al. 2019, Sports Med Open 5:44, for speed work; the figures are common practice, no source"


def _efforts(lines: Iterable[Line]) -> int:
    return sum(line.item.sets * (line.item.reps or 1) for line in lines)


def _is_flying(line: Line) -> bool:
    return line.movement.sprint is not None and line.movement.sprint.sort == "flying"


def _length_m(line: Line) -> float:
    sprint = line.movement.sprint
    return (line.item.distance_m or 0) + (sprint.fly_in if sprint else 0)


def _may_run_long(read: Read) -> bool:
    return bool(read.later_weeks) and read.runway_m - read.template.gates.sprint_run_out_m >= LONG_m


@check("6", "sprints of which less than half are 20 m or longer from the second phase on", to=_may_run_long)
def half_the_sprints_are_long(read: Read) -> Iterator[Break]:
    for week in read.later_weeks:
        sprints = [line for line in read.of(week) if line.movement.sprint is not None]
        all_, long = _efforts(sprints), _efforts(line for line in sprints if _length_m(line) >= LONG_m)
        if long < SHARE_LONG * all_:
            names = ", ".join(sorted({line.movement.id for line in sprints}))
            yield in_week(week, f"{long} of {all_} sprints are {LONG_m} m or longer ({names})")


def _may_fly(read: Read) -> bool:
    # Under 18 an athlete is planned as a novice, whatever the file says.
    fit = not read.is_novice and not read.is_young and not read.pain("hamstring") and read.runway_m >= FLYING_RUNWAY_m
    return fit and bool(read.later_weeks)


@check("6", "a runway for flying sprints, and fewer than two of them a week from the second phase on", to=_may_fly)
def flying_sprints_where_they_fit(read: Read) -> Iterator[Break]:
    for week in read.later_weeks:
        flying = _efforts(line for line in read.of(week) if _is_flying(line))
        if flying < FLYING_A_WEEK:
            yield in_week(week, f"{flying} flying sprints on a runway of {read.runway_m:g} m")


def _may_drop(read: Read) -> bool:
    squat_kg = read.one_rm_kg("back-squat") or 0.0
    strong = squat_kg >= read.template.gates.high_tier_squat_body_mass * read.athlete.body_mass
    return strong and not read.is_novice and not read.is_young and read.athlete.landing == "holds"


def _short_of_speed(read: Read) -> bool:
    line = read.deficit("speed-exposure")
    fit = not read.pain("hamstring", "achilles-ankle", "patellar-knee")
    return (
        line is not None
        and line.deficit > SPEED_SHORT
        and fit
        and (_may_drop(read) or read.runway_m >= FLYING_RUNWAY_m)
    )


@check(
    "6",
    "a clear speed deficit, and a load phase without flying sprints and drop jumps",
    to=_short_of_speed,
    source=HAUGEN,
)
def speed_deficit_gets_speed(read: Read) -> Iterator[Break]:
    line = read.deficit("speed-exposure")
    for phase in read.load_phases:
        lines = [line for week in phase for line in read.of(week)]
        drops = any(one.movement.jump is not None and one.movement.jump.rebound for one in lines)
        if line is not None and not drops and not any(_is_flying(one) for one in lines):
            yield in_week(
                phase[0], f"speed is {line.deficit:.0%} short; the phase has no flying sprint and no drop jump"
            )


@check(
    "should",
    "a sprint longer than the runway",
    to=lambda read: read.athlete.equipment.runway is not None,
)
def sprints_fit_the_runway(read: Read) -> Iterator[Break]:
    for line in read.where(lambda line: line.movement.sprint is not None and _length_m(line) > read.runway_m):
        yield at(line, f"{_length_m(line):g} m on a runway of {read.runway_m:g} m")


@check("should", "curved runs for a straight approach", to=lambda read: read.athlete.approach.line == "straight")
def no_curved_run_for_a_straight_one(read: Read) -> Iterator[Break]:
    for line in read.where(lambda line: "curve" in line.movement.id or "curve" in line.movement.name.lower()):
        yield at(line, "the target jump has a straight approach")
