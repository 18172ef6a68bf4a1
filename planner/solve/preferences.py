"""Stage 2: among blocks equally good by their bands, the one a coach would prefer to run, without a guarantee.

The points are the template's ``preferences``.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import pairwise

from planner.domain.address import Address
from planner.domain.movement import Movement
from planner.domain.terms import LEVELS
from planner.problem.loads import own_maximum_kg
from planner.problem.model import STRESS_UNITS_PER_POINT, Problem
from planner.problem.variable import Variable, in_key, takes_key
from planner.problem.weaker_leg import extra_leg
from planner.rules.currencies import CONTACTS, HIGH_TIER, QUALITY_SETS, SPRINTS
from planner.rules.rule import Row, Term

RULE = "preferences"
# Objectives are whole numbers, so points are counted in hundredths: then even a little stress counts.
HUNDREDTHS = 100


def movement_cost(problem: Problem, movement: Movement) -> int:
    """Points for one day of one phase that holds the movement."""
    return sum(cost_parts(problem, movement).values())


def cost_parts(problem: Problem, movement: Movement) -> dict[str, int]:
    """The points by what they are for, in the words of one who ranks the movement second for them."""
    points = problem.template.preferences
    level = "novice" if problem.youth else problem.athlete.level
    steps = abs(LEVELS.index(movement.level) - LEVELS.index(level))
    lifted, sprint = movement.kind in ("lift", "hold"), movement.sprint
    beginners = level != "novice" and movement.dose.scheme in points.beginner_schemes
    off_m = 0.0 if sprint is None else abs(sprint.distance - points.usual_sprint_m)
    resisted = sprint is not None and sprint.sort == "resisted"
    return {
        "it is one more movement": points.movement,
        "its level is further from the athlete's": steps * (points.level_step if lifted else points.jump_level_step),
        "the tests say less of its load": _load_points(problem, movement),
        "its planned progression is a beginner's": points.beginner_wave if beginners else 0,
        "it leaves the gym's bars and dumbbells unused": points.band_for_iron
        if _leaves_iron_unused(problem, movement)
        else 0,
        "it has no extra set for the weaker leg": points.no_extra_set if _leaves_no_extra_set(problem, movement) else 0,
        "its distance is further from the usual one": points.sprint_10m_off * round(off_m / 10),
        "it is a resisted sprint": points.resisted_sprint if resisted else 0,
        "the block before speaks against it": _after_the_block_before(problem, movement),
    }


def _load_points(problem: Problem, movement: Movement) -> int:
    """A load that no test shows costs points; one that the lift's own test shows, or a kindred lift's, saves some."""
    points = problem.template.preferences
    if movement.dose.load != "percent":
        return 0
    if own_maximum_kg(problem, movement) is None:
        return points.untested_load
    itself = any(lift == movement.id for lift, _ in problem.one_rm_kg)
    return -points.tested_load // (1 if itself else 2)


def _after_the_block_before(problem: Problem, movement: Movement) -> int:
    """Main lifts go on from the block before; accessories change, or stay where only one thing is to change."""
    if problem.before is None:
        return 0
    points = problem.template.preferences
    had = any(one.movement == movement.id and one.to_the_end for one in problem.before.known)
    if movement.part == "main-lift":
        return 0 if had else points.other_main_lift
    return points.repeated if movement.part in points.varied_parts and had == problem.before.rotate else 0


def _leaves_iron_unused(problem: Problem, movement: Movement) -> bool:
    """Whether a band is the load of a lift, or a lift has none, and the gym has what can be weighed.

    A novice's one-leg and calf work begins without a load.
    """
    gym, dose = problem.athlete.equipment, movement.dose
    by_band = dose.load == "reserve" and dose.implement == "free" and "bands" in movement.equipment
    banded = by_band and movement.kind == "lift" and movement.part in ("main-lift", "one-leg")
    past_novice = problem.athlete.level != "novice" and not problem.youth
    loadable = ("main-lift", "one-leg", "calf") if past_novice else ("main-lift",)
    unloaded = movement.part in loadable and dose.load == "none"
    return (banded or unloaded) and (bool(gym.dumbbells) or gym.bar is not None)


def _leaves_no_extra_set(problem: Problem, movement: Movement) -> bool:
    """Whether it trains both legs at once in what one leg is weaker in, which leaves no place for the extra set."""
    trains_it = any(movement.qualities.get(quality, 0) == 3 for quality in problem.weaker_legs)
    return trains_it and movement.kind in ("lift", "hold") and extra_leg(movement, problem.weaker_legs) is None


def choice_terms(problem: Problem) -> list[Term]:
    """Points for what is chosen: movements on days, and session shapes out of the template's order of days."""
    costs = {movement.id: movement_cost(problem, movement) for movement in problem.movements}
    terms: list[Term] = [(costs[m], in_key(p, s, m)) for p, s, m in problem.choices]
    moved = problem.template.preferences.shape_moved
    usual = {slot: shape for days in problem.routines for slot, shape in zip(days, problem.shapes, strict=False)}
    for slot in problem.slots:
        for shape in dict.fromkeys(s.id for s in problem.shapes):
            if slot.number in usual and usual[slot.number].id != shape:
                terms.append((moved, takes_key(slot.number, shape)))
    return terms


def variety_rows(problem: Problem) -> Iterator[Row]:
    """Soft rows, priced in points: a movement of a part that should vary is on one day of two successive load phases.

    A taper brings nothing new, and main lifts stay, so that loads can progress.
    """
    points = problem.template.preferences
    varied = [m for m in problem.movements if m.part in points.varied_parts]
    chosen = set(problem.choices)
    for first, second in _neighbours(problem):
        for movement in varied:
            terms: list[Term] = [
                (1, in_key(phase, slot.number, movement.id))
                for phase in (first, second)
                for slot in problem.slots
                if (phase, slot.number, movement.id) in chosen
            ]
            if points.repeated and terms:
                at, other = Address(phase=first, movement=movement.id), Address(phase=second)
                yield Row(RULE, at, tuple(terms), None, 1, points.repeated, other)


def main_lift_rows(problem: Problem) -> Iterator[Row]:
    """Soft rows, priced in points: the main lifts of a pattern are on one day of a phase, where that is enough."""
    points, days = problem.template.preferences.second_main_lift, dict[tuple[str, str], list[Term]]()
    for phase, slot, name in problem.choices if points else ():
        movement = problem.library[name]
        for pattern in movement.patterns if movement.part == "main-lift" else ():
            days.setdefault((phase, pattern), []).append((1, in_key(phase, slot, name)))
    for (phase, of), terms in days.items():
        yield Row(RULE, Address(phase=phase, of=of), tuple(terms), None, 1, points)


def repeat_points(problem: Problem, chosen: Collection[Variable], movement: Movement) -> int:
    """Points for each day that ``variety_rows`` counts as a repeat of the movement; ``chosen``: what the block has."""
    points = problem.template.preferences
    if movement.part not in points.varied_parts:
        return 0
    days = [
        sum(in_key(phase, slot.number, movement.id) in chosen for phase in pair for slot in problem.slots)
        for pair in _neighbours(problem)
    ]
    return points.repeated * sum(max(0, held - 1) for held in days)


def _neighbours(problem: Problem) -> list[tuple[str, str]]:
    """Successive load phases; pieces of one phase do not count as a change."""
    return [(one.id, next_one.id) for one, next_one in pairwise(problem.load_phases) if one.name != next_one.name]


def stress_points(problem: Problem) -> list[Term]:
    """Hundredths of a preference point for the joint stress of every set; extra sets are not chosen."""
    weight = HUNDREDTHS * problem.template.preferences.stress_point / STRESS_UNITS_PER_POINT
    entries = (entry for week in problem.weeks for entry in problem.week_entries(week))
    stress = ((round(weight * sum(entry.dosage.stress.values())), entry.key) for entry in entries)
    return [term for term in stress if term[0]]


def centre_rows(problem: Problem) -> Iterator[Row]:
    """Soft rows that pull every week to the middle of its bands, priced in hundredths of a point."""
    points = problem.template.preferences
    priced = [
        *((one, points.quarter_set_off) for one in QUALITY_SETS),
        (HIGH_TIER, points.high_contact_off),
        (CONTACTS, points.contact_off),
        (SPRINTS, points.sprint_off),
    ]
    for week in problem.weeks:
        for one, price in priced:
            terms = one.terms(problem, week)
            if price and terms and one.band is not None:
                band = one.band(problem.bands[week])
                middle = (band.low + band.high) // 2
                yield Row(RULE, one.at(week), tuple(terms), middle, middle, HUNDREDTHS * price)
