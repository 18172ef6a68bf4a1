"""Loads that the gym can really make, for a percentage of what the athlete can lift."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.athlete import Equipment
from planner.domain.block import HALF_IN_EACH_HAND
from planner.domain.movement import Movement
from planner.estimate.strength import OutOfRange, percent_of_max, reps_to_failure
from planner.problem.model import Dosage, Problem


@dataclass(frozen=True)
class Prescription:
    """Load on the bar or in the hands, percentage of all that is lifted, and the card's note."""

    load_kg: float | None = None
    percent: float | None = None
    note: str | None = None


def prescribe(problem: Problem, movement: Movement, dosage: Dosage) -> Prescription:
    """The load for one set; without a test of the reference lift, a note on how to find it."""
    if movement.dose.load == "none" or dosage.reps is None:
        return Prescription()
    best_kg = own_maximum_kg(problem, movement)
    percent = dosage.percent if dosage.percent is not None else _table_percent(problem, dosage)
    find = None if dosage.reserve is None else f"find the load that leaves {dosage.reserve}"
    if best_kg is None or percent is None:
        return Prescription(note=find)
    body_kg = movement.dose.body_mass_share * problem.athlete.body_mass
    wanted_kg = percent / 100 * (best_kg + body_kg) - body_kg
    limits, gym, implement = problem.template.loads, problem.athlete.equipment, movement.dose.implement
    load_kg = 0.0 if wanted_kg <= 0 else nearest_loadable_kg(gym, implement, wanted_kg, limits.machine_step_kg)
    if load_kg is None:
        return Prescription(note=find)
    if load_kg <= 0:
        return Prescription(note="body weight is enough")
    printed = round(100 * (load_kg + body_kg) / (best_kg + body_kg), 1)
    if _reps_off(problem, printed, dosage) > limits.most_reps_off:
        return Prescription(note=find)
    each = HALF_IN_EACH_HAND if movement.dose.implement == "pair-of-dumbbells" else None
    return Prescription(load_kg, printed, each)


def own_maximum_kg(problem: Problem, movement: Movement) -> float | None:
    """The movement's one-repetition maximum from its reference lift; the weaker leg's if legs were tested apart."""
    reference = movement.dose.of or movement.id
    tested = [kg for (lift, _), kg in sorted(problem.one_rm_kg.items()) if lift == reference]
    return movement.dose.ratio * min(tested) if tested else None


def _table_percent(problem: Problem, dosage: Dosage) -> float | None:
    if dosage.reps is None or dosage.reserve is None:
        return None
    try:
        return percent_of_max(dosage.reps + dosage.reserve, table=problem.load_table)
    except OutOfRange:
        return None


def _reps_off(problem: Problem, percent: float, dosage: Dosage) -> float:
    try:
        going = reps_to_failure(percent, table=problem.load_table)
        return abs((dosage.reps or 0) + (dosage.reserve or 0) - going)
    except OutOfRange:
        return float("inf")


def nearest_loadable_kg(equipment: Equipment, implement: str, wanted_kg: float, machine_step_kg: float) -> float | None:
    """The nearest possible load, the lighter one on a tie; None if the gym does not have the implement."""
    loads = loadable_kg(equipment, implement)
    if loads is None:
        return round(wanted_kg / machine_step_kg) * machine_step_kg
    return min(loads, key=lambda load: (abs(load - wanted_kg), load), default=None)


def loadable_kg(equipment: Equipment, implement: str) -> list[float] | None:
    """Every load that the gym can make with an implement, in order; None if any step of a machine will do."""
    if implement == "barbell":
        if equipment.bar is None:
            return []
        sums = {0.0}
        for plate in equipment.plates:  # plate by plate, because there are fewer sums than subsets of plates
            sums |= {round(pairs + plate, 3) for pairs in sums}
        return sorted(round(equipment.bar + 2 * pairs, 3) for pairs in sums)
    if implement == "dumbbell":
        return sorted(equipment.dumbbells)
    if implement == "pair-of-dumbbells":
        return sorted(2 * one for one in equipment.dumbbells)
    return None
