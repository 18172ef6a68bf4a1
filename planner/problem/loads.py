"""Loads that the gym can really make, for a percentage of what the athlete can lift, and the reps that go with them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planner.domain.athlete import Equipment
from planner.domain.block import HALF_IN_EACH_HAND
from planner.domain.movement import Movement
from planner.domain.template_limits import LoadProgress
from planner.estimate.strength import OutOfRange, percent_of_max, reps_to_failure
from planner.problem.model import Dosage, Problem
from planner.problem.rising_work import gains, last_load_week, planned_kg

BODY_WEIGHT = "body weight is enough"
NO_CLOSER = "no closer load here: lower it slowly"
HEAVIEST_STACK_kg = 400.0


@dataclass(frozen=True)
class Prescription:
    """Reps and reserve of a set, load on the bar or in the hands, percentage of all that is lifted, and a note."""

    reps: int | None
    reserve: int | None
    load_kg: float | None = None
    percent: float | None = None
    note: str | None = None


@dataclass(frozen=True)
class Lift:
    """A movement as the athlete lifts it in one week. ``best_kg``: its maximum as load, without the body."""

    problem: Problem
    movement: Movement
    best_kg: float

    @property
    def body_kg(self) -> float:
        return self.movement.dose.body_mass_share * self.problem.athlete.body_mass

    def load_at(self, percent: float) -> float:
        return percent / 100 * (self.best_kg + self.body_kg) - self.body_kg

    def percent(self, load_kg: float) -> float:
        return round(100 * (load_kg + self.body_kg) / (self.best_kg + self.body_kg), 1)

    def reps(self, load_kg: float) -> float:
        """Reps to failure by the table: 0 above it, without end where the load is lighter than its lightest."""
        percent, table = self.percent(load_kg), self.problem.load_table
        if percent > max(table.values()):
            return 0.0
        try:
            return reps_to_failure(percent, table=table)
        except OutOfRange:
            return math.inf

    def loads_kg(self) -> list[float]:
        """Every load of the gym for it, lightest first."""
        there = loadable_kg(self.problem.athlete.equipment, self.movement.dose.implement)
        return machine_loads_kg(self.problem.template.loads.machine_step_kg) if there is None else there

    def nearest_kg(self, wanted_kg: float) -> float | None:
        gym, step_kg = self.problem.athlete.equipment, self.problem.template.loads.machine_step_kg
        return nearest_loadable_kg(gym, self.movement.dose.implement, wanted_kg, step_kg)

    def at(self, load_kg: float, reps: int | None, reserve: int | None, *, with_percent: bool = True) -> Prescription:
        each = HALF_IN_EACH_HAND if self.movement.dose.implement == "pair-of-dumbbells" else None
        return Prescription(reps, reserve, load_kg, self.percent(load_kg) if with_percent else None, each)


def prescribe(problem: Problem, movement: Movement, dosage: Dosage, week: int) -> Prescription:
    """Reps, reserve and load of a set; without a test of the reference lift, a note on how to find the load."""
    if movement.dose.load == "none" or dosage.reps is None:
        return Prescription(dosage.reps, dosage.reserve)
    best_kg, progress = own_maximum_kg(problem, movement), problem.template.progress
    if best_kg is None:
        return _to_find(dosage)
    lift = Lift(problem, movement, planned_kg(problem, best_kg, week))
    if progress is None or dosage.reserve is None or not gains(problem):
        return _by_wave(lift, dosage, progress)
    before = last_load_week(problem, week)
    if before is None:
        return _next_load(lift, dosage.reserve, progress, _to_find(dosage), _most_kg(lift, week))
    return _not_above(lift, _by_wave(lift, dosage, progress), _in_week(problem, movement, before).load_kg)


def _in_week(problem: Problem, movement: Movement, week: int) -> Prescription:
    dosage = next(entry.dosage for entry in problem.week_entries(week) if entry.movement.id == movement.id)
    return prescribe(problem, movement, dosage, week)


def _most_kg(lift: Lift, week: int) -> float:
    """The gym's load nearest to what the first load week's has grown to; no limit in that week itself.

    Where the body is lifted too, a gain of the maximum would be a leap of the load; reps rise instead.
    """
    first = lift.problem.load_weeks[0]
    began_kg = None if week == first else _in_week(lift.problem, lift.movement, first).load_kg
    most_kg = None if began_kg is None else lift.nearest_kg(planned_kg(lift.problem, began_kg, week))
    return math.inf if most_kg is None else most_kg


def _not_above(lift: Lift, easier: Prescription, before_kg: float | None) -> Prescription:
    """A novice's easy week or taper: no more load than the load week before it, and so with more in reserve."""
    plain = replace(easier, percent=None)
    if before_kg is None or easier.load_kg is None or easier.load_kg <= before_kg:
        return plain
    left = lift.reps(before_kg) - (easier.reps or 0)
    reserve = lift.problem.template.loads.easy_reserve if left == math.inf else math.floor(left + 0.5)
    return replace(plain, load_kg=before_kg, reserve=reserve)


def _to_find(dosage: Dosage) -> Prescription:
    note = None if dosage.reserve is None else f"find the load that leaves {dosage.reserve}"
    return Prescription(dosage.reps, dosage.reserve, note=note)


def _by_wave(lift: Lift, dosage: Dosage, progress: LoadProgress | None) -> Prescription:
    """The gym's load nearest to the wave's percentage, or to the one that its reps and reserve make."""
    percent = dosage.percent if dosage.percent is not None else _table_percent(lift.problem, dosage, progress)
    if percent is None:
        return _to_find(dosage)
    wanted_kg = lift.load_at(percent)
    load_kg = 0.0 if wanted_kg <= 0 else lift.nearest_kg(wanted_kg)
    if load_kg is None:
        return _to_find(dosage)
    if load_kg <= 0:
        return Prescription(dosage.reps, None if progress else dosage.reserve, note=BODY_WEIGHT)
    total = (dosage.reps or 0) + (dosage.reserve or 0)
    if abs(total - lift.reps(load_kg)) <= lift.problem.template.loads.most_reps_off:
        return lift.at(load_kg, dosage.reps, dosage.reserve)
    return _to_find(dosage) if progress is None else _offered(lift, total, dosage, progress)


def _offered(lift: Lift, total: int, dosage: Dosage, progress: LoadProgress) -> Prescription:
    """Where the gym has no load for the wave's reps: the load that comes nearest, with the reps that go with it."""
    loads_kg = [0.0, *lift.loads_kg()] if lift.body_kg else lift.loads_kg()
    goes = {load_kg: reps for load_kg in loads_kg if 0 < (reps := lift.reps(load_kg)) < math.inf}
    if not goes:
        return _without_a_close_load(lift, dosage.reps, _to_find(dosage))
    fewest = min(progress.fewest_reps_offered, dosage.reps or 0)
    leaves = {load_kg: _reps_leaving(dosage.reserve or 0, reps) for load_kg, reps in goes.items()}
    enough = [load_kg for load_kg, reps in leaves.items() if reps >= fewest]
    if not enough:  # the lightest is too heavy; the body alone is lighter than the table goes
        body_goes = lift.body_kg and lift.reps(0.0) == math.inf
        return Prescription(max(lift.problem.load_table), None, note=BODY_WEIGHT) if body_goes else _to_find(dosage)
    load_kg = min(enough, key=lambda one: (abs(goes[one] - total), one))
    if load_kg == 0:
        return Prescription(leaves[load_kg], None, note=BODY_WEIGHT)
    return lift.at(load_kg, leaves[load_kg], dosage.reserve)


def _next_load(lift: Lift, reserve: int, progress: LoadProgress, to_find: Prescription, most_kg: float) -> Prescription:
    """Double progression: the heaviest load that goes for the fewest reps; then reps rise until the next load does."""
    fewest, most = progress.novice_reps
    loads_kg = lift.loads_kg()
    light = [load_kg for load_kg in loads_kg if lift.reps(load_kg) >= fewest + reserve and load_kg <= most_kg]
    if light and lift.reps(light[-1]) < math.inf:
        reps = min(most, _reps_leaving(reserve, lift.reps(light[-1])))
        return lift.at(light[-1], reps, reserve, with_percent=False)
    heavier = loads_kg[len(light)] if len(light) < len(loads_kg) else None
    reps = 0 if heavier is None else _reps_leaving(reserve, lift.reps(heavier))
    if heavier is not None and reps >= progress.fewest_reps_offered:
        return lift.at(heavier, reps, reserve, with_percent=False)
    if not light and lift.reps(0.0) >= fewest + reserve and lift.body_kg:
        return Prescription(most, None, note=BODY_WEIGHT)
    return _without_a_close_load(lift, max(most, *lift.problem.load_table), to_find)  # reps go on to the table's most


def _without_a_close_load(lift: Lift, reps: int | None, to_find: Prescription) -> Prescription:
    """The heaviest load that is too light to leave a known reserve, lowered slowly; else the load is to be found."""
    light = [load_kg for load_kg in lift.loads_kg() if lift.reps(load_kg) == math.inf]
    return Prescription(reps, None, light[-1], note=NO_CLOSER) if light else to_find


def _reps_leaving(reserve: int, reps_to_go: float) -> int:
    return math.floor(reps_to_go - reserve + 0.5)


def own_maximum_kg(problem: Problem, movement: Movement) -> float | None:
    """The movement's one-repetition maximum: from its own test, else from its reference lift's.

    The weaker leg's if legs were tested apart. In a revised block it is the one that the log speaks for by then.
    """
    own = _tested_kg(problem, movement.id)
    if own is not None or movement.dose.of is None:
        return own
    reference = _tested_kg(problem, movement.dose.of)
    return None if reference is None else movement.dose.ratio * reference


def _tested_kg(problem: Problem, lift: str) -> float | None:
    tested = [kg for (name, _), kg in sorted(problem.one_rm_kg.items()) if name == lift]
    return min(tested) * problem.gained.get(lift, 1.0) if tested else None


def _table_percent(problem: Problem, dosage: Dosage, progress: LoadProgress | None) -> float | None:
    if dosage.reps is None or dosage.reserve is None:
        return None
    total = dosage.reps + dosage.reserve
    try:
        return percent_of_max(min(total, max(problem.load_table)) if progress else total, table=problem.load_table)
    except OutOfRange:
        return None


def nearest_loadable_kg(equipment: Equipment, implement: str, wanted_kg: float, machine_step_kg: float) -> float | None:
    """The nearest possible load, the lighter one on a tie; None if the gym does not have the implement."""
    loads = loadable_kg(equipment, implement)
    if loads is None:
        return round(wanted_kg / machine_step_kg) * machine_step_kg
    return min(loads, key=lambda load: (abs(load - wanted_kg), load), default=None)


def machine_loads_kg(step_kg: float) -> list[float]:
    """Every load of a stack, lightest first."""
    return [step_kg * n for n in range(1, int(HEAVIEST_STACK_kg / step_kg) + 1)]


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
