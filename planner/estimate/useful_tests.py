"""Which missing tests would be most useful, with the load to start from."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.terms import Quality
from planner.estimate.qualities import QualityResult, most_useful_tests
from planner.estimate.strength import load_for_reps_kg
from planner.estimate.words import words_of
from planner.units import STANDARD_GRAVITY_m_s2


def useful_tests(results: Mapping[Quality, QualityResult], benchmarks: Benchmarks, athlete: Athlete) -> list[str]:
    weights = {quality: benchmark.usual_sets for quality, benchmark in benchmarks.qualities.items()}
    useful, reps = most_useful_tests(results, weights), benchmarks.strength.hint_reps
    return [result.first_test.name + _load_hint(result, athlete, reps) for result in useful]


def _load_hint(result: QualityResult, athlete: Athlete, reps: int) -> str:
    """The load with which ``reps`` repetitions would meet the need, so that a coach knows where to start."""
    lift = result.first_test.lift
    if lift is None:
        return ""
    if result.first_test.need_in == "body-masses":
        one_rm = result.first_need * athlete.body_mass
    else:
        one_rm = result.first_need / (lift.leg_share * STANDARD_GRAVITY_m_s2) - athlete.body_mass
    load_kg = load_for_reps_kg(
        one_rm=one_rm, reps_to_failure=reps, body_mass_kg=athlete.body_mass, body_mass_share=lift.body_mass_share
    )
    if load_kg <= 0:
        return f" (body weight × {reps} would do)"
    return f" (about {words_of(athlete).load(load_kg, 0)} × {reps} would meet the target)"
