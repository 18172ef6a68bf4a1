"""Hamstrings and adductors in every load week, and nothing new with the first flying sprints."""

from __future__ import annotations

from collections.abc import Iterator

from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check, in_week

LEAST_SETS, LEAST_REPS = 2, 3  # 2 x 3-5
HARD_PAIN = 3  # closes work of that joint
ADDUCTION_FAMILY = "hip-adductions"
HAMSTRINGS = "van Dyk et al. 2019, from memory"
KEPT = "Presland et al. 2018, from memory"


def _is_curl(line: Line) -> bool:
    return "knee-flexion" in line.movement.patterns


def _fit_hamstring(read: Read) -> bool:
    return read.pain("hamstring") < HARD_PAIN


@check("9", "a load week without knee flexion (2 x 3-5)", to=_fit_hamstring, source=HAMSTRINGS)
def knee_flexion_every_week(read: Read) -> Iterator[Break]:
    for week in read.load_weeks:
        curls = [line for line in read.of(week) if _is_curl(line)]
        sets = sum(line.item.sets for line in curls if line.item.hold_s or (line.item.reps or 0) >= LEAST_REPS)
        if sets < LEAST_SETS:
            yield in_week(week, f"{sets} sets of knee flexion")


def _goes_on(read: Read) -> bool:
    return _fit_hamstring(read) and len(read.load_phases) > 1 and any(read.where(_is_curl, read.load_weeks))


@check("9", "knee flexion that is dropped or begun between phases", to=_goes_on, source=KEPT)
def knee_flexion_kept_across_phases(read: Read) -> Iterator[Break]:
    by_phase = [any(_is_curl(line) for week in phase for line in read.of(week)) for phase in read.load_phases]
    for phase, has in zip(read.load_phases, by_phase, strict=True):
        if not has:
            yield in_week(phase[0], f"phase {phase[0].phase} has no knee flexion, and another phase has")


def _is_flying(line: Line) -> bool:
    return line.movement.sprint is not None and line.movement.sprint.sort == "flying"


def _both(read: Read) -> bool:
    return any(read.where(_is_flying)) and any(read.where(lambda line: line.movement.eccentric_hamstring))


@check("9", "eccentric hamstring work begun in the week of the first flying sprints", to=_both, source=HAMSTRINGS)
def nordics_not_new_with_flying(read: Read) -> Iterator[Break]:
    first = next(read.where(lambda line: line.movement.eccentric_hamstring))
    flying = next(read.where(_is_flying))
    if first.week.number == flying.week.number:
        yield at(first, f"new in the week of the first {flying.movement.name}")


def _adducts(read: Read) -> bool:
    there = ADDUCTION_FAMILY in read.library.families.values()
    return there and read.pain("hip-groin") < HARD_PAIN


@check("9", "a load week without hip adduction", to=_adducts, source="common practice, no source")
def adduction_every_week(read: Read) -> Iterator[Break]:
    for week in read.load_weeks:
        if not any(read.family(line) == ADDUCTION_FAMILY for line in read.of(week)):
            yield in_week(week, "no hip adduction")
